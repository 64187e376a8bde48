"""What the customer was told, and what is still to happen after the visit."""

from __future__ import annotations

import pytest

from .spoken import Row, Trap, Understood, rows, told, visit

Words = list[str]

# Expected: words that the quote of each item has to hold, one item each.
ADVICE: list[Row] = [
    (
        "bid behind an if",
        "dryer",
        "If it cuts out again he's to leave it off and shout for us.",
        ["leave it off"],
    ),
    (
        "to note",
        "dishwasher",
        "She's to note what the panel shows next time it stops.",
        ["note what the panel"],
    ),
    ("what I recommended", "cooktop", "I recommended pans with a flat base.", ["flat base"]),
    ("mentioned doing", "dryer", "Mentioned keeping boxes away from the vent hood.", ["boxes away"]),
    ("told her", "dishwasher", "I told her to clean the filter every week.", ["clean the filter"]),
    ("told him not to", "dryer", "Told him not to run it without the lint screen.", ["lint screen"]),
    (
        "two points",
        "top load washer",
        "I told her not to overload it and to use less soap.",
        ["overload", "less soap"],
    ),
    (
        "advised",
        "gas range",
        "Advised the customer to have the regulator checked by the gas company.",
        ["regulator"],
    ),
    (
        "showed",
        "front load washer",
        "Showed him how to wipe out the door seal after each wash.",
        ["door seal"],
    ),
    ("recommended", "water heater", "I've recommended a flush once a year.", ["flush"]),
    (
        "explained",
        "refrigerator",
        "Explained to madam that the vents must not be blocked with food.",
        ["vents"],
    ),
    ("asked", "dryer", "I asked them to keep the outside hood clear.", ["hood"]),
    ("suggested", "microwave", "I suggested he stops running it empty.", ["empty"]),
    ("warned", "electric range", "Warned her no foil on the oven bottom.", ["foil"]),
    (
        "goes on in the next breath",
        "dishwasher",
        "Told her to use rinse aid. | And not to rinse the plates first.",
        ["rinse aid", "not to rinse"],
    ),
    ("I said, with an order", "microwave", "I said change the filter twice a year.", ["change the filter"]),
    (
        "said before the cue",
        "top load washer",
        "If it walks again, stop it and ring us, I've told him.",
        ["if it walks"],
    ),
    ("made clear", "gas range", "Made it clear to him not to touch that valve.", ["valve"]),
    (
        "what led up to it",
        "freezer",
        "She asked how cold it should be and I told her minus eighteen.",
        ["minus eighteen"],
    ),
    ("had a word", "gas range", "No foil on the oven floor either, so I had a word.", ["no foil"]),
    (
        "pointing back",
        "freezer",
        "There's a scorched lead behind it, and I've told her to bin that.",
        ["scorched lead"],
    ),
    ("by her name", "dryer", "I told the pastor flat out, never dry oily rags in it.", ["oily rags"]),
    ("let them know", "dishwasher", "I've let them know the filter wants emptying monthly.", ["filter"]),
    ("she's to", "electric range", "She's to leave the self clean alone till then.", ["self clean"]),
    ("been told", "water heater", "They've been told as well to keep it at one twenty.", ["one twenty"]),
    (
        "more of the same",
        "dryer",
        "Told her to clean the screen every load and wash it with soap.",
        ["wash it"],
    ),
    (
        "a condition for both",
        "dishwasher",
        "I told him if it stops, leave it be, and take a photo of the lights.",
        ["photo"],
    ),
    (
        "a breath with a condition",
        "electric range",
        "I told her to use a flat pan. | And if it cuts off again, flip the breaker off and call me.",
        ["flat pan", "flip the breaker"],
    ),
    ("heading", "refrigerator", "Advice: keep the door shut for four hours.", ["door shut"]),
    ("by her title", "dryer", "Mrs Oakes has been told, no more than half a load.", ["half a load"]),
    ("after telling", "refrigerator", "I'm after telling them not to block the grille.", ["grille"]),
    ("said behind", "front load washer", "Leave the door ajar, I told her, or it'll go mouldy.", ["ajar"]),
    ("that also", "refrigerator", "And no hot pans inside, that also I have told.", ["hot pans"]),
    ("on at him", "dryer", "I've been on at him to empty the lint trap.", ["lint trap"]),
    ("said to", "oven", "Said to the tenant, keep the toddler away from that door.", ["toddler"]),
    ("knows now", "freezer", "He knows now to leave a gap at the back.", ["gap"]),
    ("to her face", "dishwasher", "Ma'am, I'd get a softening powder for this one.", ["softening powder"]),
    ("begged", "oven", "I begged her to throw that thermometer away.", ["throw"]),
    (
        "in sentences",
        "electric dryer",
        "Told her. Lint screen, every load. Vent hose, twice a year.",
        ["lint screen", "vent hose"],
    ),
    (
        "for next time",
        "freezer",
        "I said to him, leave it some room, and next time it stops don't touch it.",
        ["some room", "next time"],
    ),
]

FOLLOW_UPS: list[Row] = [
    ("look in", "refrigerator", "I've told her I'll look in on it next week.", ["look in on it"]),
    ("themselves", "microwave", "They'll get a lamp themselves.", ["lamp themselves"]),
    (
        "one of us",
        "dishwasher",
        "Ten days on those, then one of us comes back and fits them.",
        ["comes back"],
    ),
    ("the minute it lands", "dryer", "I come back the minute the belt lands.", ["the minute the belt"]),
    (
        "somebody on the roof",
        "water heater",
        "I want somebody out here with a ladder, to see the cap.",
        ["somebody out"],
    ),
    (
        "next time with",
        "dishwasher",
        "I'll need to pull it right out next time with a helper.",
        ["next time with"],
    ),
    (
        "maintenance man",
        "washer",
        "Their maintenance man is going to replace the floor.",
        ["maintenance man"],
    ),
    ("come back", "refrigerator", "I'll be back Thursday to fit the fan.", ["thursday"]),
    ("office to call", "dishwasher", "Office to call her Monday about the part.", ["monday"]),
    ("customer will ring", "dryer", "She'll ring us if it happens again.", ["ring us"]),
    (
        "customer decides",
        "water heater",
        "He's going to think about the quote and let us know.",
        ["let us know"],
    ),
    ("another trade", "gas range", "An electrician is coming to look at the outlet.", ["electrician"]),
    ("monitor", "refrigerator", "We'll monitor it for a week and check back in.", ["monitor"]),
    (
        "reminder to self",
        "top load washer",
        "Note to self, order the clutch kit tonight.",
        ["order the clutch"],
    ),
    ("return visit needed", "microwave", "Needs a return visit with the magnetron.", ["return visit"]),
    ("declined", "front load washer", "She's decided not to repair it and buy a new one.", ["buy a new one"]),
    ("coming back", "top load washer", "Coming back Thursday with the pump.", ["thursday"]),
    ("office does", "dryer", "Office phones her in two weeks.", ["two weeks"]),
    ("office quotes", "dishwasher", "Office to quote for the new door.", ["quote"]),
    ("declined it", "front load washer", "The customer declined the repair.", ["declined"]),
    ("gets another trade", "freezer", "He's getting an electrician to check the circuit.", ["electrician"]),
    ("supposed to", "refrigerator", "They're supposed to text me Sunday.", ["text me"]),
    ("to be sent", "microwave", "She wants the certificate, so that's to be sent on.", ["sent on"]),
    ("says she will", "refrigerator", "She says she will call by Wednesday.", ["wednesday"]),
    (
        "sleeps on it",
        "electric range",
        "He's having a think about a new one, and he'll let us know.",
        ["let us know"],
    ),
    (
        "himself, pointing back",
        "refrigerator",
        "It could use a filter, and he's going to pick that up.",
        ["filter"],
    ),
    ("send", "electric range", "Could the office send her the invoice by email.", ["invoice"]),
    ("day first", "refrigerator", "Thursday I am coming again with the board.", ["thursday"]),
    ("when it lands", "oven", "When that latch turns up I'm to fit it.", ["latch"]),
    ("her nephew", "electric range", "Her nephew's going to put on the bracket.", ["nephew"]),
    ("what she says of him", "dryer", "She says her brother's putting that in this weekend.", ["brother"]),
    ("the building", "water heater", "Building maintenance will turn it up.", ["maintenance"]),
    ("somebody has to", "top load washer", "Somebody has to come back with the hose.", ["come back"]),
    ("lives with it", "dryer", "He'll live with the thumping.", ["live with"]),
    (
        "leave it, says he",
        "dishwasher",
        "Hello. | It needs a hinge, and he says, leave it.",
        ["leave it"],
    ),
    ("doesn't want it", "oven", "She doesn't fancy paying for a motor.", ["fancy"]),
    ("not today", "freezer", "He said not today.", ["not today"]),
    ("waiting", "microwave", "Waiting on the maker to say if it's covered.", ["maker"]),
    ("stays open", "dishwasher", "Job stays open till the pump comes.", ["stays open"]),
    ("for another trade", "gas range", "It's for the gas company to sort the regulator.", ["gas company"]),
    ("a month's trial", "refrigerator", "Going to leave it a month and see.", ["month"]),
    (
        "two sentences",
        "dryer",
        "He's calling a duct outfit. After that's done, we come back with two men.",
        ["duct", "come back"],
    ),
]

TRAPS: list[Trap] = [
    ("how she fills", "top load washer", "Let's see how she fills now."),
    ("what he will not do", "dishwasher", "If he finds a cheaper machine he will not call."),
    ("it would be back", "refrigerator", "If I'd just thawed it, it'd be back in two weeks."),
    ("base of a pot", "cooktop", "It says the base must be magnetic."),
    ("what it never did", "front load washer", "And it never put a foot wrong."),
    ("next time I", "dryer", "Next time I'm bringing the good vacuum."),
    ("next step of this visit", "dryer", "I'll check the belt next."),
    ("told about the dog", "dishwasher", "She told me the dog's name is Biscuit."),
    ("what I was told", "refrigerator", "I was told to park round the back."),
    ("back in a minute", "gas range", "I'll be back in a minute, just getting my meter."),
    ("lunch", "microwave", "I'll ring the wife at lunch."),
    ("lesson to the apprentice", "water heater", "You flush it till it's clear, son."),
    ("the last visit", "top load washer", "They told her last time to call back and nobody rang."),
    ("told by others", "oven", "The man in the shop told her to buy a new one."),
    ("told long ago", "refrigerator", "The landlord told them not to touch the thermostat last year."),
    ("told the children", "electric dryer", "I've asked the kids to stay upstairs."),
    ("by the factory", "dryer", "I was advised by the factory that the board is obsolete."),
    ("said to myself", "oven", "I said to myself that's odd."),
    ("to myself", "microwave", "I told myself I'd check the fuse twice."),
    ("what one should", "freezer", "One should never open the door before one has measured."),
    ("another job's tools", "dryer", "Tomorrow's job is a stove, remind me to grab the ladder."),
    ("how they like it", "refrigerator", "Tips back a hair, that's how they want it."),
    ("what would have been", "water heater", "It could've worked and then I'm back here inside a month."),
    ("where she'll be", "dishwasher", "She'll be in the kitchen if I need her."),
    ("in two ticks", "freezer", "I'll be back in two ticks with the meter."),
    ("the other meter", "oven", "I'll have to get the other meter from the van."),
    ("to blame", "dryer", "I'm to blame for that one."),
    ("my own birthday", "freezer", "I'm getting old, I'll be sixty on Saturday."),
    ("it won't", "top load washer", "She doesn't want to spin with that load."),
    ("somebody should have", "oven", "Somebody should have seen that."),
    ("a question", "dishwasher", "I asked her when it started."),
    ("holding the torch", "oven", "I asked the gentleman to hold the torch."),
    ("how long I'll be", "microwave", "I told her I'd be an hour."),
    ("running her", "dryer", "Let her run for five minutes."),
    ("taking back", "gas range", "Forget what I said."),
    ("what I'd tell anyone", "oven", "I'd be telling him to buy a new one."),
    ("said in the shop", "dryer", "The boy from the store did tell her to buy rods."),
    ("next job", "front load washer", "After this I've two more over in the next town."),
]

NOT_YET: set[str] = set()


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ADVICE, NOT_YET))
def test_what_the_customer_was_told_is_advice(
    kind: str, said: str, expected: Words, understood: Understood
) -> None:
    found = understood(visit(kind, said))

    assert (told(found.advice, expected), told(found.follow_ups, ())) == (expected, [])


@pytest.mark.parametrize(("kind", "said", "expected"), rows(FOLLOW_UPS, NOT_YET))
def test_what_is_still_to_happen_is_follow_up(
    kind: str, said: str, expected: Words, understood: Understood
) -> None:
    found = understood(visit(kind, said))

    assert (told(found.follow_ups, expected), told(found.advice, ())) == (expected, [])


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_talk_is_neither_advice_nor_follow_up(kind: str, said: str, understood: Understood) -> None:
    found = understood(visit(kind, said))

    assert told([*found.advice, *found.follow_ups], ()) == []


@pytest.mark.parametrize(
    ("said", "about", "text"),
    [
        (
            "I told him to scrape the plates.",
            "to scrape the plates",
            "Customer was advised to scrape the plates.",
        ),
        ("Told her not to rush it.", "not to rush it", "Customer was advised not to rush it."),
        ("Told her, twice a year.", "twice a year", "Customer was advised: twice a year."),
    ],
)
def test_advice_is_named_as_its_sentence_tells_it(
    said: str, about: str, text: str, understood: Understood
) -> None:
    """The page leaves out a name that its sentence has."""
    (item,) = understood(visit("dishwasher", said)).advice

    assert (item.about, item.text) == (about, text)
