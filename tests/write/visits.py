"""Invented visits, written by hand: a full one, one in which nothing was heard, one of very long words."""

from __future__ import annotations

import hashlib
from pathlib import Path

from fieldnotes.records import (
    Appliance,
    Cause,
    Caution,
    Check,
    Code,
    Evidence,
    Gap,
    Item,
    Job,
    Limit,
    MadeWith,
    Part,
    Reading,
    Sum,
    SumInput,
    Trial,
    Verdict,
    Visit,
    Work,
)  # fmt: skip
from fieldnotes.settings import PageSettings, Settings
from fieldnotes.transcript import Breath, Recording, Transcript, Word
from fieldnotes.write import Contents
from fieldnotes.write.pages import render_pages

KITCHEN, CELLAR = b"sound of the kitchen", b"sound of the cellar"
MADE_WITH = MadeWith(program="fieldnotes 0.1.0", vocabulary="vocabulary 1", speech_model="a speech model")


def said(start: float | None, end: float | None, quote: str, confidence: float = 0.9) -> Evidence:
    return Evidence(start=start, end=end, quote=quote, confidence=confidence)


def sha256(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def breath(start: float | None, text: str, part: int = 0, pace: float = 0.35) -> Breath:
    """A breath whose words follow each other every `pace` seconds."""
    if start is None:
        return Breath(words=tuple(Word(text=word) for word in text.split()), part=part)
    times = [round(start + n * pace, 2) for n in range(len(text.split()) + 1)]
    words = zip(text.split(), times, times[1:], strict=False)
    return Breath(words=tuple(Word(text=w, start=a, end=b, confidence=0.9) for w, a, b in words), part=part)


RECORDINGS = (
    Recording(file="kitchen side.flac", sha256=sha256(KITCHEN), seconds=600.0, starts_at=0.0),
    Recording(file="cellar.m4a", sha256=sha256(CELLAR), seconds=120.0, starts_at=600.0),
)

FULL = Visit(
    job=Job(
        number="J-2041", date="2026-03-02", technician="R. Quill", customer="Mrs. Tansley", started="09:05"
    ),
    appliance=Appliance(
        kind="dishwasher",
        make="Brackwell",
        model="BKD614S",
        serial="K40718822",
        evidence={
            "make": said(20.0, 21.0, "it's a Brackwell"),
            "model": said(21.2, 25.0, "model B K D six one four S", 0.55),
            "serial": said(26.0, 30.0, "serial K four oh seven one double eight two two"),
        },
        kind_inferred=True,
    ),
    complaints=(
        Item(
            about="standing water",
            text="Water stands in the bottom after every wash.",
            evidence=said(4.0, 8.5, "she says it's leaving water in the bottom after every wash"),
            also=(said(301.0, 304.0, "so that's the water she was seeing"),),
        ),
        Item(
            about="smell",
            text="It smells since about a week.",
            evidence=said(9.0, 11.5, "and it's been smelling for about a week"),
        ),
    ),
    checks=(
        Check(
            about="drain hose",
            text="Drain hose is not kinked, high loop in place.",
            evidence=said(61.2, 66.0, "drain hose isn't kinked and the high loop is there"),
            outcome="good",
        ),
        Check(
            about="filter",
            text="Filter is packed solid with label paper.",
            evidence=said(80.0, 84.0, "filter is packed solid with, uh, label paper"),
            outcome="fault",
        ),
        Check(
            about="drain pump",
            text="Drain pump winding is good.",
            evidence=said(120.5, 126.25, "fourteen point five ohms across the drain pump, that's good"),
            outcome="good",
            also=(said(402.0, 404.0, "pump's fine like I said"),),
        ),
        Check(
            about="check valve",
            text="Check valve seems to sit right.",
            evidence=said(131.0, 134.0, "check valve seems to sit right", 0.52),
            outcome="good",
            certainty="likely",
        ),
        Check(
            about="impeller",
            text="Impeller may have been nicked by a shard.",
            evidence=said(140.0, 144.0, "could be the impeller caught a shard"),
            outcome="unclear",
            certainty="possible",
            note="said to be good at 02:10, later in doubt",
        ),
        Check(
            about="water inlet valve",
            text="Water inlet valve was not tested.",
            evidence=said(150.0, 153.0, "didn't test the inlet valve"),
            outcome="not tested",
        ),
        Check(
            about="air gap",
            text="Air gap in the cellar line is clear.",
            evidence=said(612.5, 616.0, "down here the air gap is clear"),
            outcome="good",
        ),
    ),
    readings=(
        Reading(
            about="drain pump",
            text="Resistance across the drain pump winding.",
            evidence=said(120.5, 126.25, "fourteen point five ohms across the drain pump, that's good"),
            value=14.5,
            unit="ohm",
            limit=Limit(
                minimum=10,
                maximum=20,
                unit="ohm",
                source="plate of the pump",
                status="stated by the technician",
            ),
            judgement="within",
        ),
        Reading(
            about="supply voltage",
            text="Voltage at the outlet.",
            evidence=said(160.0, 163.0, "one oh one point five volts at the outlet"),
            value=101.5,
            unit="V",
            limit=Limit(
                minimum=108,
                maximum=132,
                unit="V",
                source="invented utility handbook, table 3",
                status="from memory",
                note="at the outlet, under load",
            ),
            judgement="outside",
            outside_by=-6.5,
        ),
        Reading(
            about="water temperature",
            text="Water at the tap.",
            evidence=said(170.0, 172.0, "water is fifty one degrees"),
            value=51,
            unit="degF",
            limit=Limit(minimum=120, unit="degF", source="", status="common practice, no source"),
            judgement="outside",
            outside_by=-69,
        ),
        Reading(
            about="run capacitor",
            text="Run capacitor of the circulation pump.",
            evidence=said(180.0, 183.0, "forty three point nine microfarads"),
            value=43.9,
            unit="uF",
            sums=(
                Sum(
                    id="run-capacitor",
                    what="Deviation from the mark",
                    formula="100 % × (C − C₀) / C₀",
                    inputs=(
                        SumInput(
                            symbol="C",
                            what="run capacitor",
                            value=43.9,
                            unit="uF",
                            evidence=said(180.0, 183.0, "forty three point nine microfarads"),
                        ),
                        SumInput(
                            symbol="C₀",
                            what="marked capacitance",
                            value=45,
                            unit="uF",
                            evidence=said(612.0, 613.5, "marked forty five"),
                        ),
                    ),
                    value=-2.444,
                    unit="%",
                    source="",
                    status="common practice, no source",
                    note="against the can's own mark",
                    limit=Limit(
                        minimum=-6, maximum=6, unit="%", source="", status="common practice, no source"
                    ),
                    judgement="within",
                ),
                Sum(
                    id="made-up",
                    what="Subcooling of the capacitor",
                    formula="T_bubble(p) − T",
                    inputs=(
                        SumInput(
                            symbol="", what="R134a", value=None, unit="", evidence=said(614.0, 614.5, "R134a")
                        ),
                        SumInput(symbol="T", what="taken from the handbook", value=33.5, unit="degC"),
                    ),
                    value=6.25,
                    unit="delta_degF",
                    source="invented property tables",
                    status="from memory",
                ),
            ),
        ),
    ),
    trials=(
        Trial(
            about="drain test",
            text="Service test, drain only: pumps out in 40 seconds.",
            evidence=said(410.0, 416.0, "drain test pumped out in forty seconds"),
            outcome="passed",
        ),
        Trial(
            about="quick wash",
            text="Quick wash was stopped half way.",
            evidence=said(430.0, 433.0, "quick wash, I stopped it half way"),
            outcome="unclear",
        ),
    ),
    codes=(
        Code(
            about="code",
            text="F21 was stored.",
            evidence=said(50.0, 52.0, "there's an F twenty one"),
            code="F21",
        ),
        Code(
            about="code",
            text="No codes after the reset.",
            evidence=said(441.0, 443.0, "no codes now"),
            code="none",
        ),
    ),
    work=(
        Work(
            about="filter",
            text="Cleaned the filter and the sump.",
            evidence=said(310.0, 313.0, "cleaned the filter and the sump"),
            action="cleaned",
        ),
        Work(
            about="drain pump",
            text="Replaced the drain pump.",
            evidence=said(330.0, 333.0, "put a new drain pump in"),
            action="replaced",
        ),
    ),
    parts=(
        Part(
            about="drain pump",
            text="Drain pump.",
            evidence=said(330.0, 333.5, "put a new drain pump in, number five five one two"),
            status="fitted",
            number="5512",
        ),
        Part(
            about="hose clamp",
            text="Hose clamps for the next visit.",
            evidence=said(350.0, 353.0, "needs two hose clamps"),
            status="needed",
            quantity=2,
        ),
    ),
    causes=(
        Cause(
            about="filter",
            text="Label paper in the filter kept the water from draining.",
            evidence=said(320.0, 325.0, "so it's the label paper that blocked it, most likely"),
            certainty="likely",
        ),
    ),
    verdict=Verdict(
        finding="fault found",
        text="Blocked filter and worn drain pump.",
        evidence=said(450.0, 455.0, "so that's a blocked filter and a worn pump"),
    ),
    advice=(
        Item(
            about="filter",
            text="Rinse the filter once a month.",
            evidence=said(500.0, 503.0, "told her to rinse the filter once a month"),
        ),
    ),
    follow_ups=(
        Item(
            about="hose clamps",
            text="Come back with the hose clamps.",
            evidence=said(510.0, 513.0, "I'll be back with the clamps"),
        ),
    ),
    safety=(
        Item(
            about="unplugged",
            text="Left unplugged until the clamps are in.",
            evidence=said(520.0, 523.0, "I've left it unplugged"),
        ),
        Item(
            about="anti-tip device",
            text="Unit is not fastened to the counter and tips when the racks are out.",
            evidence=said(530.0, 534.0, "it tips, it's not fastened"),
        ),
    ),
    gaps=(
        Gap(
            what="Time of leaving", why="The office bills by it.", needed_by=("office", "customer"), weight=3
        ),
        Gap(what="Date of purchase", why="The warranty runs from it.", weight=1),
        Gap(what="Water inlet valve", why="It also leaves water standing.", weight=2, said_not_done=True),
    ),
    cautions=(
        Caution(
            about="drain pump", text="Disconnect the supply and prove it dead before touching the winding."
        ),
    ),
    notices=("cellar.m4a: much machine noise",),
    recording=RECORDINGS,
    made_with=MADE_WITH,
)

FULL_TRANSCRIPT = Transcript(
    breaths=(
        breath(4.0, "Okay, she says it's leaving water in the bottom after every wash."),
        breath(20.0, "It's a Brackwell, model B K D six one four S."),
        breath(61.2, "Drain hose isn't kinked and the high loop is there."),
        breath(120.5, "Fourteen point five ohms across the drain pump, that's good."),
        breath(612.5, "Down here the air gap is clear.", part=1),
    ),
    recordings=RECORDINGS,
    speech_model="a speech model",
)

NOTHING_HEARD = Visit(
    job=Job(date="2026-03-02"),
    notices=("silence.flac: no speech found",),
    gaps=(Gap(what="Complaint", why="Without it nobody can judge the work.", weight=1),),
    recording=(Recording(file="silence.flac", sha256=sha256(b"silence"), seconds=12.0),),
    made_with=MADE_WITH,
)
NO_TRANSCRIPT = Transcript(breaths=(), recordings=NOTHING_HEARD.recording, speech_model="a speech model")

LONG_WORD = "Drainpumpmotorcapacitorterminalcover" * 8
_LONG = Item(about=LONG_WORD, text=LONG_WORD, evidence=said(1.0, 2.0, LONG_WORD, 0.3), note=LONG_WORD)
LONG_WORDS = Visit(
    job=Job(number=LONG_WORD, customer=LONG_WORD),
    appliance=Appliance(
        kind="dishwasher", make="Brackwell", model=LONG_WORD, evidence={"model": _LONG.evidence}
    ),
    complaints=(_LONG,),
    checks=(Check(**dict(_LONG), outcome="not tested", certainty="possible"),),
    readings=(Reading(**dict(_LONG), value=-1234567.125, unit="mW/cm2"),),
    codes=(Code(**dict(_LONG), code="F" * 40),),
    safety=(_LONG,),
    cautions=(Caution(about=LONG_WORD, text=LONG_WORD),),
    recording=(Recording(file=f"{LONG_WORD[:150]}.flac", sha256=sha256(b"long"), seconds=7200.0),),
    made_with=MADE_WITH,
)
LONG_TRANSCRIPT = Transcript(breaths=(breath(1.0, LONG_WORD),), recordings=LONG_WORDS.recording)


def page_of(
    name: str,
    visit: Visit = FULL,
    transcript: Transcript = FULL_TRANSCRIPT,
    templates: Path | None = None,
) -> str:
    """One page of a visit; `templates` are a shop's own."""
    settings = Settings(pages=PageSettings(templates=templates))
    return render_pages(Contents(visit, transcript, settings), [name])[name]
