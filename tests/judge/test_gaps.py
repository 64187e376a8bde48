"""Gaps: what is missing, what was said not to be done, and what is no gap."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from fieldnotes.errors import VocabularyError
from fieldnotes.judge.gaps import gaps_of
from fieldnotes.places import data_folder
from fieldnotes.records import Appliance, Cause, Check, Code, Gap, Job, Part, Trial, Verdict, Visit, Work
from fieldnotes.transcript import Recording
from fieldnotes.vocabulary.limits import GapsFile
from fieldnotes.vocabulary.packs import AppliancePack, Expectation, ExpectedCheck, TrialEntry
from fieldnotes.vocabulary.yaml_file import load_yaml

from .visits import gap_rules, item, said, visit

PUMP = ExpectedCheck(about=("drain pump", "pump"), why="Water stands because it is not pumped out.")
HOSE = ExpectedCheck(about=("drain hose",), why="A kink looks like a dead pump.")
CODES = ExpectedCheck(about=("fault memory",), why="The machine may have seen it happen.")
PACKS = {
    "dishwasher": AppliancePack(
        kind="dishwasher",
        spoken=("dishwasher",),
        expects=(
            Expectation(complaint=("not draining",), look_for=(PUMP, HOSE)),
            Expectation(
                complaint=("not heating",), look_for=(ExpectedCheck(about=("heater",), why="Cold."),)
            ),
            Expectation(complaint=(), look_for=(CODES,)),
        ),
    ),
    "drawer dishwasher": AppliancePack(kind="drawer dishwasher", spoken=("drawer",), wider="dishwasher"),
}


def check(about: str, outcome: str = "good") -> Check:
    return Check.model_validate({"about": about, "text": about, "evidence": said(about), "outcome": outcome})


def work(about: str, action: str, start: float | None = None) -> Work:
    ev = said(f"{action} the {about}", start)
    return Work.model_validate({"about": about, "text": about, "evidence": ev, "action": action})


def trial(about: str, start: float | None = None) -> Trial:
    return Trial(about=about, text=about, evidence=said(about, start), outcome="passed")


def part(about: str, number: str | None = None, status: str = "fitted") -> Part:
    values = {"about": about, "text": about, "evidence": said(about), "status": status, "number": number}
    return Part.model_validate(values)


WHOLE: dict[str, Any] = {
    "job": Job(number="4711", technician="A. Example", date="2026-03-02"),
    "complaints": (item("not draining", "it leaves water", 1),),
    "checks": (check("drain pump", "fault"), check("drain hose")),
    "codes": (Code(about="fault code", text="none", evidence=said("no codes"), code="none"),),
    "work": (work("drain pump", "replaced", 50),),
    "parts": (part("drain pump", "880417"),),
    "trials": (trial("drain cycle", 60),),
    "causes": (Cause(about="drain pump", text="seized", evidence=said("seized"), certainty="certain"),),
    "verdict": Verdict(finding="fault found", text="fault found", evidence=said("fault found")),
    "advice": (item("glass in the sump"),),
    "safety": (
        item("unplugged", "it's unplugged", 5),
        item("plugged in", "plugged it back in, left running", 90),
    ),
}


def of(**changes: Any) -> Visit:
    appliance = {"kind": "dishwasher", "make": "Exampel", "model": "EX1", "serial": "S1", "purchased": "2023"}
    appliance |= changes.pop("appliance", {})
    return visit(**(WHOLE | changes)).model_copy(update={"appliance": Appliance.model_validate(appliance)})


def ids_of(one: Visit) -> list[str]:
    """Ids of the rules behind the gaps, found by their wording up to the things named."""
    by_wording = {rule.what.split("{")[0]: rule.id for rule in gap_rules().gaps}
    found = gaps_of(one, gap_rules(), PACKS)
    return [
        next(name for wording, name in by_wording.items() if gap.what.startswith(wording)) for gap in found
    ]


def test_whole_visit_has_no_gaps() -> None:
    assert gaps_of(of(), gap_rules(), PACKS) == ()


NO_FAULT = {"verdict": Verdict(finding="no fault found"), "work": (), "parts": (), "causes": ()}


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"appliance": {"model": None}}, ["no-model"]),
        ({"appliance": {"serial": None, "make": None}}, ["no-serial", "no-make"]),
        ({"appliance": {"purchased": None}}, ["no-purchase-date"]),
        ({"appliance": {"kind": None}}, ["no-kind"]),
        ({"complaints": ()}, ["no-complaint"]),
        ({"verdict": Verdict()}, ["no-verdict"]),
        ({"causes": ()}, ["fault-without-cause"]),
        ({"job": Job(date="2026-03-02")}, ["no-job-number", "no-technician"]),
        ({"advice": ()}, ["no-advice"]),
        ({"trials": ()}, ["work-without-trial"]),
        ({"trials": (trial("drain cycle", 20),)}, ["work-without-trial"]),
        ({"trials": (trial("drain cycle"),)}, []),
        ({"work": (work("wash arm", "cleaned", 50),), "parts": (), "trials": ()}, []),
        ({"parts": (part("drain pump"), part("clamp", "77"))}, ["part-without-number"]),
        ({"safety": (item("unplugged", "it's unplugged"),)}, ["no-state-on-leaving"]),
        ({"safety": (item("unplugged", "", 5), item("plug out", "plug out, tap shut", 99))}, []),
        ({"safety": (item("left running", "left it running"),)}, ["no-isolation"]),
        (
            {
                "safety": (item("left running", "left it running"),),
                "trials": (trial("drain cycle, I'd unplugged it before", 60),),
            },
            [],
        ),
        ({"work": (), "parts": ()}, ["fault-left-open"]),
        ({"work": (), "parts": (), "follow_ups": (item("order a pump"),)}, []),
        (NO_FAULT, []),
        (NO_FAULT | {"trials": ()}, ["no-fault-without-trial"]),
        (NO_FAULT | {"checks": (check("drain pump"),)}, ["expected-check"]),
        (NO_FAULT | {"checks": (), "codes": ()}, ["expected-check", "expected-check", "expected-check"]),
        ({"checks": (check("drain pump", "fault"),)}, []),
        ({"checks": (check("pump", "fault"), check("drain hose", "not tested"))}, ["expected-check-said"]),
        ({"checks": (*WHOLE["checks"], check("door latch", "not tested"))}, ["said-not-checked"]),
        (NO_FAULT | {"appliance": {"kind": "drawer dishwasher"}, "codes": ()}, ["expected-check"]),
        (NO_FAULT | {"appliance": {"kind_inferred": True}, "checks": ()}, []),
        (NO_FAULT | {"complaints": (item("noise", "it hums"),), "checks": ()}, []),
    ],
    ids=[
        "model", "serial-and-make", "purchased", "kind", "complaint", "verdict", "cause", "job", "advice",
        "no-trial", "trial-before-the-work", "trial-without-time", "cleaning-needs-no-trial", "part-number",
        "state-on-leaving", "unplugged-at-the-end", "isolation",
        "isolation-in-another-line", "left-open", "follow-up-heard",
        "no-fault-whole", "no-fault-no-trial", "expected", "three-reasons", "expected-but-fault-found",
        "expected-said-not-done", "said-not-done", "wider-kind-expects", "guessed-kind",
        "other-complaint",
    ],
)  # fmt: skip
def test_each_lack_makes_its_own_gap(changes: dict[str, Any], expected: list[str]) -> None:
    assert ids_of(of(**changes)) == expected


def test_said_not_done_is_told_from_not_heard() -> None:
    one = of(
        **(NO_FAULT | {"checks": (check("drain hose", "not tested"), check("door latch", "not tested"))})
    )

    assert gaps_of(one, gap_rules(), PACKS) == (
        Gap(
            what="Not heard, and expected for this complaint: drain pump.",
            why=PUMP.why,
            needed_by=("next technician", "warranty desk"),
            weight=2,
        ),
        Gap(
            what="Said not to be checked, and expected for this complaint: drain hose.",
            why=HOSE.why,
            needed_by=("next technician", "warranty desk"),
            weight=2,
            said_not_done=True,
        ),
        Gap(
            what="Said not to be checked: door latch.",
            why="The next technician should know where nobody has looked yet.",
            needed_by=("next technician",),
            weight=3,
            said_not_done=True,
        ),
    )


def measured(about: str, quote: str) -> Check:
    return check(about).model_copy(update={"evidence": said(quote)})


def codes(code: str = "none") -> tuple[Code, ...]:
    return (Code(about="fault code", text=code, evidence=said(code), code=code),)


def top_load(**changes: Any) -> Visit:
    """A washer that banged in spin, with nothing found; complete but for what `changes` takes away."""
    whole: dict[str, Any] = NO_FAULT | {
        "complaints": (item("banging in spin", "it bangs in the spin"),),
        "advice": (item("loading", "told her to mix the load"),),
        "checks": (check("basket"),),
        "trials": (trial("spin test", 10),),
        "codes": codes(),
    }
    return of(**(whole | {"appliance": {"kind": "washer"}} | changes))


WASHER_PACKS = {
    "washer": AppliancePack(
        kind="washer",
        spoken=("washer",),
        trials=(TrialEntry(name="spin test", spoken=("spin test",)),),
        expects=(
            Expectation(
                complaint=("banging in spin",),
                look_for=(ExpectedCheck(about=("spin test", "loaded spin"), why="Only at full speed."),),
            ),
        ),
    )
}


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({}, []),
        ({"trials": (trial("drain test", 10),)}, ["expected-trial"]),
        ({"trials": (trial("loaded spin", 10),)}, []),
        ({"trials": (trial("normal cycle", 10),)}, []),
        (
            {"trials": (trial("drain test", 10),), "verdict": Verdict(finding="not determined")},
            ["expected-trial-open"],
        ),
        ({"trials": (trial("automatic test", 5), trial("spin test", 10)), "codes": ()}, ["stored-codes"]),
        ({"trials": (trial("automatic test", 5), trial("spin test", 10))}, []),
        ({"advice": (item("filter", "clean the filter"),)}, ["load-in-spin"]),
        ({"advice": (item("filter", "clean the filter"),), "complaints": (item("leaking", "it leaks"),)}, []),
        ({"work": (work("motor", "replaced", 5),)}, ["calibration-due"]),
        ({"work": (work("motor", "replaced", 5), work("washer", "calibrated", 8))}, []),
        ({"work": (work("drain pump motor", "replaced", 5),)}, []),
        ({"checks": (check("basket"), measured("drain pump", "measured the pump and that's good"))}, ["measured"]),
        ({"checks": (check("basket"), measured("drain pump", "the pump hums, that's good"))}, []),
    ],
    ids=[
        "whole", "no-fault-without-its-trial", "another-trial-that-shows-it", "whole-cycle", "open-without-its-trial",
        "passed-test-is-no-empty-memory", "memory-read", "bang-without-a-word-of-the-load", "no-bang",
        "calibration-due", "calibrated", "drain-pump-learns-nothing", "measured-and-no-value", "not-measured",
    ],
)  # fmt: skip
def test_trade_facts_ask_for_what_belongs_to_them(changes: dict[str, Any], expected: list[str]) -> None:
    found = gaps_of(top_load(**changes), gap_rules(), WASHER_PACKS)

    assert {wanted for wanted in expected if not any(WORDING[wanted] in gap.what for gap in found)} == set()
    assert [gap.what for gap in found if gap.weight < 3] == [
        gap.what for gap in found if any(WORDING[wanted] in gap.what for wanted in expected)
    ]


WORDING = {
    "expected-trial": "the trial that could have shown it was not heard: spin test",
    "expected-trial-open": "A trial that this complaint calls for was not heard: spin test",
    "stored-codes": "Whether a fault is stored",
    "load-in-spin": "How the machine was loaded",
    "calibration-due": "No calibration run was heard after work on the drive or its control: motor",
    "measured": "Said to be measured, but no value was heard: drain pump",
}


def test_complaint_that_nobody_saw_happen_is_told() -> None:
    blind = of(trials=(), codes=(), checks=(check("drain pump"), check("drain hose")), work=(), parts=())

    assert "Whether the complaint could be reproduced was not heard." in [
        gap.what for gap in gaps_of(blind, gap_rules(), PACKS)
    ]


def test_notes_without_a_clock_lack_times() -> None:
    notes = Recording(file="notes.txt", sha256="0" * 64)
    sound = Recording(file="visit.wav", sha256="0" * 64, seconds=60.0)

    def ids(*recordings: Recording) -> list[str]:
        return ids_of(of().model_copy(update={"recording": recordings}))

    assert (ids(notes), ids(sound), ids(notes, sound)) == (["no-times"], [], [])


def test_gaps_stand_heaviest_first() -> None:
    lightest_first = gap_rules().model_copy(update={"gaps": gap_rules().gaps[::-1]})

    weights = [gap.weight for gap in gaps_of(visit(work=WHOLE["work"]), lightest_first, PACKS)]

    assert weights == sorted(weights)
    assert set(weights) == {1, 2, 3}


def test_loader_demands_a_gap_for_every_condition(tmp_path: Path) -> None:
    path = tmp_path / "gaps.yaml"
    text = (data_folder("vocab") / "gaps.yaml").read_text(encoding="utf-8")
    path.write_text(text.replace("when: part without a number", "missing: job.date"), encoding="utf-8")

    with pytest.raises(VocabularyError, match='no gap has when: "part without a number"; add one'):
        load_yaml(path, GapsFile)


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("missing: appliance.model", "missing: appliance.modell", 'Did you mean "appliance.model"'),
        ("when: part without a number", "when: part without number", 'Did you mean "part without a number"'),
        (
            "missing: appliance.model",
            "missing: appliance.model\n    when: check said not done",
            "either missing or when",
        ),
        ("id: no-serial", "id: no-model", 'id "no-model" stands here a second time'),
        ("weight: 1", "weight: 4", "weight"),
    ],
    ids=["place", "condition", "both", "twice", "weight"],
)
def test_loader_refuses_a_faulty_gap(tmp_path: Path, old: str, new: str, message: str) -> None:
    path = tmp_path / "gaps.yaml"
    text = (data_folder("vocab") / "gaps.yaml").read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")

    with pytest.raises(VocabularyError, match=r"gaps\.yaml, line \d+: ") as fault:
        load_yaml(path, GapsFile)
    assert message in str(fault.value)
