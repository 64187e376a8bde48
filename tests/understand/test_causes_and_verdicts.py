"""What the technician holds to be the cause, how surely, and what was concluded."""

from __future__ import annotations

import pytest

from fieldnotes.understand.understanding import Findings

from .spoken import Facts, Row, Trap, Understood, rows, verdict, visit

CAUSES: list[Row] = [
    (
        "some of it",
        "dishwasher",
        "And that cool water, well, that might be some of it too.",
        {"cool water: possible"},
    ),
    (
        "all it is",
        "dishwasher",
        "A kinked drain hose, that's all it was.",
        {"drain hose: certain"},
    ),
    ("a part called after the unit", "dryer", "The cause is the dryer vent.", {"exhaust duct: certain"}),
    (
        "the whole story",
        "dryer",
        "It was the thermal fuse, that's the whole story.",
        {"thermal fuse: certain"},
    ),
    ("the fault is it", "dishwasher", "Fault's the door seal, torn at the corner.", {"door seal: certain"}),
    ("that's the leak", "dishwasher", "That's the leak, it's the door seal.", {"door seal: certain"}),
    (
        "only a hunch",
        "dryer",
        "I'd lean to the idler pulley, but it's no more than a hunch.",
        {"idler pulley: possible"},
    ),
    (
        "a guess, and a maybe",
        "dishwasher",
        "My best guess is the float switch, it's a maybe.",
        {"float switch: possible"},
    ),
    (
        "or it's another",
        "dishwasher",
        "Could be the inlet valve. | Or it's that flow meter, maybe.",
        {"inlet valve: possible", "flow meter: possible"},
    ),
    ("it'd be that", "dryer", "It'd be the drum rollers doing that.", {"drum roller: likely"}),
    ("a draught could be it", "water heater", "A gust could be it.", {"gust: possible"}),
    (
        "did for it",
        "front load washer",
        "Water past the tub seal did for it, I'd imagine.",
        {"tub seal: likely"},
    ),
    (
        "it's that what did it",
        "dryer",
        "It was the idler pulley that was making the racket, certain sure.",
        {"idler pulley: certain"},
    ),
    (
        "sure in a sentence of its own",
        "water heater",
        "It was the dip tube. No doubt about it.",
        {"dip tube: certain"},
    ),
    (
        "certain",
        "dishwasher",
        "The drain pump is seized. | That's the cause, the seized drain pump, no doubt about it.",
        {"drain pump: certain"},
    ),
    ("the cause was", "dryer", "The cause was a blown thermal fuse.", {"thermal fuse: certain"}),
    (
        "that's why",
        "top load washer",
        "Lid switch is broken, that's why it won't spin.",
        {"lid switch: certain"},
    ),
    (
        "caused by",
        "water heater",
        "No hot water was caused by the upper element being open.",
        {"upper element: certain"},
    ),
    ("heading", "gas range", "Cause. Cracked electrode.", {"electrode: certain"}),
    (
        "due to",
        "dryer",
        "Long dry times are due to the crushed transition duct.",
        {"transition duct: certain"},
    ),
    (
        "most likely",
        "refrigerator",
        "Most likely it's the defrost thermostat that caused it.",
        {"defrost thermostat: likely"},
    ),
    (
        "I think the cause",
        "front load washer",
        "I think the cause is the pressure switch.",
        {"pressure switch: likely"},
    ),
    (
        "my guess",
        "microwave",
        "My best guess is the door switch is what's causing it.",
        {"door switch: likely"},
    ),
    ("could be", "top load washer", "What caused it could be the clutch.", {"clutch: possible"}),
    (
        "two possible",
        "refrigerator",
        "It could be a bad start relay, or it could be the compressor.",
        {"start relay: possible", "compressor: possible"},
    ),
    (
        "can't rule out",
        "dryer",
        "I can't rule out the control board as the cause.",
        {"control board: possible"},
    ),
    ("culprit", "dishwasher", "The float switch is the culprit.", {"float switch: certain"}),
    ("traced to", "dishwasher", "I traced it to a chafed wire in the door.", {"wire: certain"}),
    ("came down to", "top load washer", "It came down to a perished drain hose.", {"drain hose: certain"}),
    ("putting it down to", "dishwasher", "I'm putting it down to a worn door seal.", {"door seal: certain"}),
    (
        "two without a stop",
        "refrigerator",
        "could be the start relay could be the compressor and I can't split those",
        {"start relay: possible", "compressor: possible"},
    ),
    (
        "slim chance",
        "electric range",
        "There's only a slim chance it's the control board.",
        {"control board: possible"},
    ),
    ("to blame", "microwave", "That scorched waveguide cover is to blame.", {"waveguide cover: certain"}),
    (
        "named before the cue",
        "refrigerator",
        "The evaporator fan's iced up, which is why the fridge side is warm.",
        {"evaporator fan: certain"},
    ),
    ("that's your", "electric range", "Broken bake element, that's your no heat.", {"bake element: certain"}),
    ("did that", "water heater", "Sediment did that, probably.", {"sediment: likely"}),
    ("money is on", "microwave", "My money's on the door switch.", {"door switch: likely"}),
    (
        "guess with an aside",
        "dryer",
        "My best guess, and I'd lean that way pretty hard, is that loose terminal screw.",
        {"terminal screw: likely"},
    ),
    ("afterthought", "electric dryer", "A weak breaker, that's possible too.", {"breaker: possible"}),
    (
        "points back a breath",
        "dishwasher",
        "The drain hose is split. | That's what's making it leak, I'm fairly sure.",
        {"drain hose: likely"},
    ),
    ("no doubt", "dryer", "The thermal fuse was open, no doubt about it.", {"thermal fuse: certain"}),
    (
        "ruled out by nobody",
        "water heater",
        "Could be the flue letting wind in, I wouldn't rule it out.",
        {"vent pipe: possible"},
    ),
]

TRAPS: list[Trap] = [
    ("all the way", "dryer", "The vent flap, that's all the way open."),
    ("all of it", "dryer", "That's all the lint, then."),
    ("said where from", "dishwasher", "My old teacher wrote a book about where water comes from."),
    ("what he has said", "dishwasher", "There were pans in it, that's what he's just told me."),
    ("the speaker did", "electric dryer", "I killed the breaker and hung a tag on it."),
    ("what we've got", "water heater", "What we got is a gas water heater."),
    ("what to look at", "top load washer", "Could be I should look at the lid lock next."),
    ("what could be nice", "dishwasher", "A coffee could be it, about now."),
    ("the supply killed", "electric dryer", "I killed the two-pole breaker and hung my tag on it."),
    ("not the culprit", "dishwasher", "So the float switch isn't the culprit."),
    ("general", "dryer", "On these it's usually the thermal fuse that causes that."),
    ("customer's theory", "refrigerator", "She thinks the cause is the compressor."),
    ("if", "top load washer", "If the clutch was the cause it'd smell burnt."),
    ("question", "microwave", "Is the door switch the cause?"),
    ("because in chat", "gas range", "I moved the van because of the neighbour's drive."),
    ("could be, of its state", "dishwasher", "The pump could be cleaner."),
    ("might be, of its worth", "dryer", "The belt might be worth changing next time."),
    ("fine, probably", "electric range", "It's probably fine to use."),
    ("I did that", "microwave", "I did that twice."),
    ("your bill", "gas range", "That's your bill, love."),
    ("a long job", "refrigerator", "That could be a long job."),
    ("worse", "front load washer", "Could be worse."),
    ("plan", "front load washer", "I'll see whether the pressure switch is what's causing it."),
]

VERDICTS: list[Row] = [
    ("couldn't work it out", "dishwasher", "I honestly couldn't work it out.", "not determined"),
    (
        "nothing the matter",
        "refrigerator",
        "I've been all round it and I can find nothing the matter.",
        "no fault found",
    ),
    ("all that it should", "water heater", "She's doing everything she's supposed to do.", "no fault found"),
    ("on again off again", "gas dryer", "So put it down as on again, off again.", "intermittent"),
    ("fault found", "dishwasher", "Drain pump is seized. | Fault found.", "fault found"),
    ("no fault found", "top load washer", "Belt is good. | No fault found.", "no fault found"),
    (
        "nothing wrong with it",
        "dryer",
        "Thermal fuse is good. | So I'd call it no fault found, it dries fine.",
        "no fault found",
    ),
    (
        "intermittent",
        "refrigerator",
        "Couldn't get it to do it again. | I'm calling it intermittent.",
        "intermittent",
    ),
    ("not determined", "microwave", "Fuse is good. | Cause not determined at this stage.", "not determined"),
    (
        "revised: none, then found",
        "gas range",
        "So far no fault found. | Hang on, the spark module's dead. | Right, it's a fault found after all.",
        "fault found",
    ),
    (
        "revised: found, then intermittent",
        "front load washer",
        "I'd put fault found. | No, make that intermittent, it's running now.",
        "intermittent",
    ),
    ("follows from a certain cause", "dryer", "The cause was a blown thermal fuse.", "fault found, not said"),
    ("never said", "dishwasher", "The drain hose is clear. | The float moves freely.", "open"),
    ("only a possible cause", "refrigerator", "It could be the start relay, I can't prove it.", "open"),
    ("only planned", "dryer", "If the belt's good I'll have to write it up as no fault found.", "open"),
    ("only the customer's", "microwave", "She says the last man told her there was no fault found.", "open"),
    ("only general", "top load washer", "Half of these jobs are no fault found.", "open"),
    ("for the form", "dryer", "Box on the form, intermittent.", "intermittent"),
    ("rather", "freezer", "So I'd rather put this down as intermittent.", "intermittent"),
    (
        "not able to",
        "freezer",
        "Bottom line, I was not able to determine what's tripping it.",
        "not determined",
    ),
    ("a wish", "refrigerator", "She wants no fault found on the ticket.", "open"),
    ("asked for", "microwave", "What'll we write then? Intermittent, exactly.", "intermittent"),
    ("not yet", "water heater", "Haven't found a fault yet.", "open"),
    ("on and off", "dryer", "I'd describe it as now and then, two misses in thirty.", "intermittent"),
    ("sporadic", "washer", "We'll call it sporadic.", "intermittent"),
    ("what ails it", "freezer", "I can't tell you what ails it, not in one visit.", "not determined"),
    ("what puts it out", "water heater", "What's knocking it out I couldn't say.", "not determined"),
    ("in order", "cooktop", "The cooktop is completely in order.", "no fault found"),
    ("as its kind does", "refrigerator", "It's doing what any fridge does.", "no fault found"),
    ("nothing wrong with it at all", "dryer", "There's nothing wrong with it at all.", "no fault found"),
    ("nothing wrong with a part", "dryer", "The motor, there's nothing wrong with it at all.", "open"),
    ("a part in order", "washer", "The drain pump is completely in order.", "open"),
    ("fault's a part", "range", "Fault's the bake element, burned open.", "fault found"),
    ("its other compartment", "refrigerator", "She said the top is warm but the freezer is okay.", "open"),
    ("the rest is not said", "dryer", "I can't tell you what time I'll be back.", "open"),
    ("verdict in a terse note", "electric range", "Verdict: fault found, bake element open.", "fault found"),
]

NOT_YET: set[str] = set()


def causes(found: Findings) -> Facts:
    return {f"{c.about}: {c.certainty}" for c in found.causes}


@pytest.mark.parametrize(("kind", "said", "expected"), rows(CAUSES, NOT_YET))
def test_cause_is_as_sure_as_it_was_said(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert causes(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_what_is_not_held_to_be_the_cause_is_none(kind: str, said: str, understood: Understood) -> None:
    assert causes(understood(visit(kind, said))) == set()


@pytest.mark.parametrize(("kind", "said", "expected"), rows(VERDICTS, NOT_YET))
def test_verdict_is_the_last_one_said(kind: str, said: str, expected: str, understood: Understood) -> None:
    assert verdict(understood(visit(kind, said)).verdict) == expected
