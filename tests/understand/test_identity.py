"""Which unit it is: kind, make, model, serial, when it was bought."""

from __future__ import annotations

import pytest

from fieldnotes.records import Appliance

from .spoken import Trap, Understood, rows, visit

Fields = dict[str, str]

# A visit of its own each: nothing is said before it.
ROWS: list[tuple[str, str, Fields]] = [
    ("kind", "It's a front load washer.", {"kind": "front-load washer"}),
    ("kind, commonwealth words", "Job's a tumble dryer, vented.", {"kind": "dryer"}),
    ("kind, trade short", "Got a top loader here.", {"kind": "top-load washer"}),
    ("kind, cooker", "Gas cooker, four burners.", {"kind": "gas range"}),
    ("kind, fridge", "Fridge freezer in the kitchen.", {"kind": "refrigerator"}),
    (
        "serial, corrected two breaths later",
        "Washer. | Serial as follows. | Tango 228 6101 Lima. | Correction to follow on that. | Last character is"
        " Kilo, I say again, Tango 228 6101 Kilo.",
        {"kind": "washer", "serial": "T2286101K"},
    ),
    (
        "serial, said again",
        "Washer. | Serial Tango 228 6101 Lima. | No noise. | Tango 228 6101 Lima it is.",
        {"kind": "washer", "serial": "T2286101L"},
    ),
    (
        "make and model",
        "Dishwasher. | The make is Ardenvale, model number A D six two zero W.",
        {"kind": "dishwasher", "make": "Ardenvale", "model": "AD620W"},
    ),
    (
        "model with letters for words",
        "Microwave. | Model is M as in Mary, T as in Tango, nine hundred.",
        {"kind": "microwave", "model": "MT900"},
    ),
    (
        "serial",
        "Water heater. | Serial number four four one seven B nine zero two.",
        {"kind": "water heater", "serial": "4417B902"},
    ),
    (
        "serial over two breaths",
        "Dishwasher. | Serial is K seven seven one | zero zero four two.",
        {"kind": "dishwasher", "serial": "K7710042"},
    ),
    (
        "serial named behind it in the next breath",
        "Dryer. | Model K D, two two zero, S. | Six one four, C, double two, is the serial.",
        {"kind": "dryer", "model": "KD220S", "serial": "614C22"},
    ),
    (
        "a part's number long after the plate",
        "Dryer. | Model K D, two two zero, S. | Okay. | Belt is good. | Felt is good. | Drum is good. | Lamp is good. "
        "| Motor is good. | Fuse is good. | For this model only the whole kit comes, seven seven oh three one eight.",
        {"kind": "dryer", "model": "KD220S"},
    ),
    (
        "make of two names",
        "Gas range. | Brand, Fenwright and Moss. Model K D, two two zero, S.",
        {"kind": "gas range", "make": "Fenwright and Moss", "model": "KD220S"},
    ),
    (
        "make of two words before its announcement",
        "Gas range. | Fenwright Moor, that's the make, model K D, two two zero, S.",
        {"kind": "gas range", "make": "Fenwright Moor", "model": "KD220S"},
    ),
    ("top load alone", "Top load, in the cellar.", {"kind": "top-load washer"}),
    (
        "put in",
        "Water heater. | Nine years ago they put this in.",
        {"kind": "water heater", "purchased": "nine years ago"},
    ),
    (
        "serial corrected",
        "Dryer. | Serial number three one five, no, three one six, R R two eight.",
        {"kind": "dryer", "serial": "316RR28"},
    ),
    (
        "double and triple",
        "Gas range. | Serial double five, triple zero, J.",
        {"kind": "gas range", "serial": "55000J"},
    ),
    (
        "as written",
        "Dishwasher. | Model DW4410X, serial 90311247.",
        {"kind": "dishwasher", "model": "DW4410X", "serial": "90311247"},
    ),
    (
        "age",
        "Refrigerator. | It's about three years old.",
        {"kind": "refrigerator", "purchased": "three years"},
    ),
    (
        "bought",
        "Washing machine. | They bought it in March twenty nineteen.",
        {"kind": "washer", "purchased": "march 2019"},
    ),
    (
        "bought last",
        "Electric dryer. | She bought it last October.",
        {"kind": "electric dryer", "purchased": "last october"},
    ),
    (
        "number right after the model",
        "Dishwasher. | Model DW4410X. | And four one five five, five oh one, triple zero.",
        {"kind": "dishwasher", "model": "DW4410X", "serial": "4155501000"},
    ),
    (
        "a telephone number after the model is no serial",
        "Dishwasher. | Model DW4410X. | Her number's four one five five, five oh one, triple zero.",
        {"kind": "dishwasher", "model": "DW4410X"},
    ),
    (
        "a title is no letters of a model",
        "After six. | Mrs. Penhallow showed me the washer.",
        {"kind": "washer"},
    ),
    (
        "read back",
        "Microwave. | Model M K two zero. | That's M K two zero.",
        {"kind": "microwave", "model": "MK20"},
    ),
    (
        "make of two words, no capitals",
        "dishwasher | the make is castle beat model d w seven zero five five b",
        {"kind": "dishwasher", "make": "Castle Beat", "model": "DW7055B"},
    ),
    (
        "make before the kind",
        "Okay it's a Fernhollow dishwasher, eight years old.",
        {"kind": "dishwasher", "make": "Fernhollow", "purchased": "eight years"},
    ),
    (
        "make before the model, no stops",
        "electric dryer polwhele by the look of it model t d four four",
        {"kind": "electric dryer", "make": "Polwhele", "model": "TD44"},
    ),
    (
        "sticker says",
        "Dishwasher. | Sticker in the door says Marwick, M W five five oh X.",
        {"kind": "dishwasher", "make": "Marwick", "model": "MW550X"},
    ),
    (
        "make after its name",
        "Freezer. | Osterley is the brand, and I can't find a model.",
        {"kind": "freezer", "make": "Osterley"},
    ),
    (
        "scratch on the plate",
        "Dishwasher. | Model W B, six one, no, that's a scratch on it, six seven zero D.",
        {"kind": "dishwasher", "model": "WB670D"},
    ),
    (
        "given again from the start",
        "Dryer. | Model H F, four four zero, I thought that was an O but it's a zero, so H F four four zero.",
        {"kind": "dryer", "model": "HF440"},
    ),
    (
        "then a letter",
        "Dishwasher. | Model's R T five five, then an X for x-ray. | Serial one zero four, hang on, one zero seven, double two, K.",
        {"kind": "dishwasher", "model": "RT55X", "serial": "10722K"},
    ),
    (
        "letter named by its word",
        "Dryer. | Serial two two zero four K for Kenny nine one.",
        {"kind": "dryer", "serial": "2204K91"},
    ),
    (
        "written with hyphens",
        "dryer | model dw-7055b serial 441-920-66",
        {"kind": "dryer", "model": "DW7055B", "serial": "44192066"},
    ),
    (
        "in pairs",
        "Dryer. | Serial number sixty one, sixty six, oh seven four.",
        {"kind": "dryer", "serial": "6166074"},
    ),
    (
        "age with a half",
        "Washer. | Bought two and a half years ago.",
        {"kind": "washer", "purchased": "two and a half years"},
    ),
    (
        "name on the front",
        "This dryer says Brantley on the front. | Model B D, three thousand, then E.",
        {"kind": "dryer", "make": "Brantley", "model": "BD3000E"},
    ),
    (
        "values before their names",
        "Front load washer. | Four eight two, P X, that's the model. | And nine nine one oh three seven two is the serial.",
        {"kind": "front-load washer", "model": "482PX", "serial": "9910372"},
    ),
    (
        "make said again",
        "A dishwasher, make is Corvin, no, Corwin. | Model number W T four six two.",
        {"kind": "dishwasher", "make": "Corwin", "model": "WT462"},
    ),
    (
        "make as a name",
        "Microwave. Quillmont's the brand. | M, V, one one two, and an S on the end.",
        {"kind": "microwave", "make": "Quillmont", "model": "MV112S"},
    ),
    (
        "serial that no word announces",
        "Freezer. | Type C F, two fifty, W. | Number, eight eight one, six zero four, three two.",
        {"kind": "freezer", "model": "CF250W", "serial": "88160432"},
    ),
    (
        "given anew in the next breath",
        "Gas range. | Serial is two two nine, zero five, one one. | No, let me go again, it's two two nine, zero five, one seven.",
        {"kind": "gas range", "serial": "2290517"},
    ),
    (
        "begun anew after a repair",
        "Dishwasher. | Model D W, six two S, S, no, it's just one S, D W six two S.",
        {"kind": "dishwasher", "model": "DW62S"},
    ),
    (
        "marks left out",
        "Gas range. | Model sierra lima golf, three zero, dash, I'm skipping the dash, three zero two.",
        {"kind": "gas range", "model": "SLG30302"},
    ),
    (
        "date beside the plate",
        "Dishwasher. | Model K D four four one. | She's got the paperwork here, January of twenty twenty three.",
        {"kind": "dishwasher", "model": "KD441", "purchased": "January 2023"},
    ),
    (
        "kind put right",
        "It's the washer, sorry, the gas dryer.",
        {"kind": "gas dryer"},
    ),
]

TRAPS: list[Trap] = [
    ("part number", "dishwasher", "Part number D P four four one."),
    ("model of another job", "dryer", "This next job's model can wait."),
    ("phone number", "microwave", "Phone number's oh seven seven one two nine."),
    ("no serial", "water heater", "The serial sticker's gone."),
    ("house number", "gas range", "They're at number forty two B."),
    ("age of a part", "refrigerator", "The compressor is two years old."),
    ("age of a person", "dryer", "I'm sixty years old and my knees know it."),
    ("stray capital", "dishwasher", "Mrs Henderson says it leaks, Lord knows since when."),
    ("make it", "gas range", "I'm parked on a hydrant so let's make it Snappy."),
    ("noise it makes", "dryer", "It makes a Grinding noise when it starts."),
    ("serial worn off", "washer", "The serial is worn off, can't make it out, one of those jobs."),
    ("build date", "microwave", "Build date twenty nineteen, no receipt anywhere."),
]

# Never said, but plain from the parts.
INFERRED = [
    ("agitator", "Pulled the agitator and the suspension rods look fine.", "top-load washer"),
    ("spray arm", "Lower spray arm was blocked. The rinse aid dispenser is empty.", "dishwasher"),
    ("magnetron", "Magnetron is shorted. High voltage diode is good.", "microwave"),
    (
        "evaporator",
        "Evaporator coil iced up, the defrost heater is open. Crisper drawer is cracked.",
        "refrigerator",
    ),
]

NOT_YET: set[str] = set()


def plate(appliance: Appliance) -> Fields:
    fields = ("kind", "make", "model", "serial", "purchased")
    return {name: value for name in fields if (value := getattr(appliance, name))}


def agrees(got: Fields, expected: Fields) -> bool:
    """Plate strings to the letter; kind and purchase loosely, as they are "written as it was said"."""
    loose = ("kind", "purchased")
    return set(got) == set(expected) and all(
        set(text.lower().split()) <= set(got[name].lower().split()) if name in loose else got[name] == text
        for name, text in expected.items()
    )


@pytest.mark.parametrize(("said", "expected"), rows(ROWS, NOT_YET))
def test_unit_is_identified_as_said(said: str, expected: Fields, understood: Understood) -> None:
    got = plate(understood(said).appliance)

    assert agrees(got, expected), got


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_numbers_of_other_things_identify_nothing(kind: str, said: str, understood: Understood) -> None:
    got = plate(understood(f"{kind.capitalize()}. | {said}").appliance)

    assert set(got) == {"kind"}, got


@pytest.mark.parametrize(("said", "expected"), rows(INFERRED, NOT_YET))
def test_kind_never_said_is_marked_as_inferred(said: str, expected: str, understood: Understood) -> None:
    appliance = understood(f"Right, I'm here. | {said}").appliance

    assert (appliance.kind, appliance.kind_inferred) == (expected, True)


@pytest.mark.parametrize(
    ("said", "doubted"),
    [
        ("Serial, Amazon mic, 441-920-66.", True),
        ("Serial number is alpha mike, 441 920 66.", False),
        ("The serial, hang on, 441 920 66.", False),
    ],
)
def test_serial_that_may_lack_its_letters_is_to_be_checked(
    said: str, doubted: bool, understood: Understood
) -> None:
    serial = understood(visit("dishwasher", said)).appliance.evidence["serial"]

    assert (serial.confidence <= 0.5) == doubted
