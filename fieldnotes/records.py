"""The visit record: the one contract between stages, documents and other software (`visit.json`)."""

from __future__ import annotations

from typing import Any, Final, Literal

from pydantic import Field

from fieldnotes.transcript import Plain, Recording

Outcome = Literal["good", "fault", "unclear", "not tested"]
TrialOutcome = Literal["passed", "failed", "unclear"]
Action = Literal[
    "cleaned", "replaced", "tightened", "levelled", "calibrated", "reset", "adjusted", "removed",
    "lubricated", "reconnected", "repaired",
]  # fmt: skip
PartStatus = Literal["fitted", "ordered", "needed"]
Certainty = Literal["certain", "likely", "possible"]
Finding = Literal["fault found", "no fault found", "intermittent", "not determined"]
Judgement = Literal["within", "outside", "no limit known"]
NeededBy = Literal["office", "warranty desk", "customer", "next technician"]
PrivateKind = Literal["name", "telephone", "address", "e-mail", "code", "card"]
PhotoSection = Literal[
    "appliance", "complaints", "checks", "readings", "trials", "codes", "work", "parts", "causes", "advice",
    "follow_ups", "safety",
]  # fmt: skip
SCHEMA_NAME: Final = "fieldnotes-visit/1"


class Evidence(Plain):
    """The words that a line rests on. Times are seconds from the start of the visit's first recording.

    `confidence` is the mean of the recogniser's word probabilities over the quote (1.0 for written text).
    """

    start: float | None
    end: float | None
    quote: str
    confidence: float = Field(ge=0, le=1)


class Item(Plain):
    """One line of the report. `about` is the vocabulary's name of the thing, or the speaker's own words."""

    about: str
    text: str
    evidence: Evidence
    also: tuple[Evidence, ...] = ()  # further times at which the same was said
    note: str | None = None  # e.g. "said to be good at 02:10, later found faulty"


class Check(Item):
    outcome: Outcome
    certainty: Certainty = "certain"


STATED: Final = "stated by the technician"  # status of a limit that was heard, with the words as its source


class Limit(Plain):
    """What a reading is held against. Bounds are inclusive and in `unit`; None: no bound on that side."""

    minimum: float | None = None
    maximum: float | None = None
    unit: str
    source: str
    status: Literal["looked up", "from memory", "common practice, no source", "stated by the technician"]
    note: str | None = None


class Doubt(Plain):
    """A number that is impossible where it was measured, and one that sounds like it and is possible ("eighty",
    "eighteen"). Both are in the reading's unit; its value is `fits` where that lies within the limit, else `heard`."""

    heard: float
    fits: float


class SumInput(Plain):
    """One figure that a sum was made from. `evidence` None: taken from the vocabulary, nobody said it.

    `value` is as it was read or said, in `unit`; None for what has no number, such as a refrigerant.
    """

    symbol: str  # as in the formula
    what: str
    value: float | None
    unit: str
    evidence: Evidence | None = None


class Sum(Plain):
    """What was worked out from readings and from numbers that were said. `formula` is as people write it.

    `id` names the sum in the vocabulary. Units are those of readings, and: "g_n" times standard gravity,
    "delta_degF" and "delta_degC" a difference of temperatures, "/h" per hour, "Btu/h", "°dH".
    """

    id: str
    what: str
    formula: str
    inputs: tuple[SumInput, ...]
    value: float
    unit: str
    source: str
    status: Literal["looked up", "from memory", "common practice, no source"]
    note: str | None = None
    limit: Limit | None = None
    judgement: Judgement = "no limit known"


class Reading(Item):
    value: float
    unit: str
    doubt: Doubt | None = None
    limit: Limit | None = None
    judgement: Judgement = "no limit known"
    outside_by: float | None = None  # above (positive) or below (negative) the limit, in the limit's unit
    sums: tuple[Sum, ...] = ()  # that are about this reading


class Trial(Item):
    outcome: TrialOutcome


class Code(Item):
    code: str  # as displayed, e.g. "F21"; "none": said to have none stored


class Work(Item):
    action: Action


class Part(Item):
    status: PartStatus
    number: str | None = None
    quantity: int = 1


class Cause(Item):
    certainty: Certainty


class Verdict(Plain):
    """What the technician concluded. `stated` False: never said; it follows from other words, or is open."""

    finding: Finding | None = None
    stated: bool = True
    text: str = ""
    evidence: Evidence | None = None


class Job(Plain):
    number: str | None = None
    date: str | None = None  # ISO 8601
    technician: str | None = None
    customer: str | None = None
    started: str | None = None
    ended: str | None = None


class Appliance(Plain):
    kind: str | None = None
    make: str | None = None
    model: str | None = None
    serial: str | None = None
    purchased: str | None = None
    kind_inferred: bool = False  # True: from the parts that were named, never said
    evidence: dict[str, Evidence] = Field(default_factory=dict)


class Gap(Plain):
    """What a complete report still lacks, and who needs it. `weight` 1 is the heaviest."""

    what: str
    why: str
    needed_by: tuple[NeededBy, ...] = ()
    weight: Literal[1, 2, 3]
    said_not_done: bool = False  # True: the technician said that it was not done; False: simply not heard


class Caution(Plain):
    about: str
    text: str
    for_customer: str | None = None  # the same for the householder; None: it concerns the trade alone


class Explained(Plain):
    """A matter that the customer page explains: its id in the vocabulary, and what the advice was about."""

    topic: str
    about: str


class StruckCount(Plain):
    """How many stretches of private words of one kind were struck out; what they were is not kept."""

    kind: PrivateKind
    count: int = Field(ge=1)


class Photo(Plain):
    """A picture of the visit: a reduced copy in the job folder, and the line that it belongs to.

    `section` and `index` name the item, which is `index`-th (from 0) in that list of the record; the appliance has
    no index, and a picture without a section belongs to nothing. `taken` is what the camera's clock showed, ISO 8601,
    with offset where the camera wrote it; `at` the second on the visit's clock, None where the time is not known or
    nothing was being recorded. `width` and `height` are those of the copy, in pixels.
    """

    file: str
    taken_from: str  # name of the original
    sha256: str  # of the copy
    taken: str | None = None
    at: float | None = None
    section: PhotoSection | None = None
    index: int | None = None
    width: int
    height: int
    cue: Evidence | None = None  # words that say that it was being taken


class MadeWith(Plain):
    program: str
    vocabulary: str
    speech_model: str | None = None
    settings: dict[str, Any] = Field(default_factory=dict)


class Visit(Plain):
    """One visit. Lists are in spoken order."""

    schema_: Literal["fieldnotes-visit/1"] = Field(default=SCHEMA_NAME, alias="schema")
    job: Job = Job()
    appliance: Appliance = Appliance()
    complaints: tuple[Item, ...] = ()
    checks: tuple[Check, ...] = ()
    readings: tuple[Reading, ...] = ()
    trials: tuple[Trial, ...] = ()
    codes: tuple[Code, ...] = ()
    work: tuple[Work, ...] = ()
    parts: tuple[Part, ...] = ()
    causes: tuple[Cause, ...] = ()
    verdict: Verdict = Verdict()
    advice: tuple[Item, ...] = ()
    follow_ups: tuple[Item, ...] = ()
    safety: tuple[Item, ...] = ()
    gaps: tuple[Gap, ...] = ()
    cautions: tuple[Caution, ...] = ()
    explained: tuple[Explained, ...] = ()
    photos: tuple[Photo, ...] = ()
    notices: tuple[str, ...] = ()
    recording: tuple[Recording, ...] = ()
    struck: tuple[StruckCount, ...] = ()  # empty: nothing was struck out of this copy
    made_with: MadeWith
