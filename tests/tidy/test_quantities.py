"""Numbers with their units, as technicians say them. Expected values are written from the sentences."""

from __future__ import annotations

import pytest

from tests.tidy.speech import quantities, tidied

NUMBERS = [
    ("decimal", "twelve point six volts", ["12.6 V"]),
    ("hundred said as digit and ten", "one twenty", ["120"]),
    ("pair with decimal", "two forty one point six volts", ["241.6 V"]),
    ("pair with teen", "one nineteen point three", ["119.3"]),
    ("pair with ten and decimal", "two thirty eight point five", ["238.5"]),
    ("hundreds above ten", "fifty four hundred watts", ["5400 W"]),
    ("teen pair", "ten eighty five at this room temp", ["1085"]),
    ("teen pair with unit", "got twelve forty one ohms", ["1241 ohm"]),
    ("british and", "four hundred and twenty kilopascals", ["420 kPa"]),
    ("hyphenated", "two hundred and thirty-eight volts", ["238 V"]),
    ("american, no and", "six hundred ninety rpm", ["690 rpm"]),
    ("article for one", "a hundred and six degrees", ["106 degF"]),
    ("oh as tens", "one oh six", ["106"]),
    ("digits one by one with decimal", "one one nine point three volts", ["119.3 V"]),
    ("nought", "nought point one of an ohm", ["0.1 ohm"]),
    ("bare point", "point four amps", ["0.4 A"]),
    ("oh point", "oh point three volts", ["0.3 V"]),
    ("nought point, written as not", "earth to cabinet's not point one of an ohm", ["0.1 ohm"]),
    ("no nought", "it's not four ohms", ["4 ohm"]),
    ("two decimals", "point nine four inches of water", ["0.94 inH2O"]),
    ("decimals as a ten", "point ninety four inches of water", ["0.94 inH2O"]),
    ("zero before decimals", "point oh five amps", ["0.05 A"]),
    ("half", "half an ohm", ["0.5 ohm"]),
    ("and a half", "twenty one and a half ohms", ["21.5 ohm"]),
    ("and three quarters", "two and three quarters inches", ["2.75 in"]),
    ("half without unit", "three and a half", ["3.5"]),
    ("quarter of an hour", "after a quarter of an hour", ["15 min"]),
    ("tenths", "three tenths of an ohm", ["0.3 ohm"]),
    ("minus", "minus eighteen point five degrees", ["-18.5 degC"]),
    ("below", "eighteen below", ["-18 degC"]),
    ("above", "it's nine above", ["9 degF"]),
    ("thousand", "one thousand two hundred and five ohms", ["1205 ohm"]),
    ("long pair with unit", "twenty four fifty watts", ["2450 W"]),
    ("compound time", "two minutes thirty seconds", ["150 s"]),
    ("compound time, seconds unsaid", "it took two minutes and forty", ["160 s"]),
    ("hours and minutes unsaid", "one hour and twenty", ["80 min"]),
    ("parts of carbon monoxide", "CO in the flue is twelve parts", ["12 ppm"]),
    ("no carbon monoxide", "CO by the hob, zero parts", ["0 ppm"]),
    ("compound length", "five foot six inches", ["66 in"]),
    ("unit in the next breath", "fourteen point five | ohms across the pump", ["14.5 ohm"]),
    ("some between", "fifty some feet", ["50 ft"]),
    # from a recogniser, or written by hand
    ("figures", "14.5 ohms", ["14.5 ohm"]),
    ("figures split", "1 20 volts", ["120 V"]),
    ("figures split with decimal", "2 41.6 volts", ["241.6 V"]),
    ("figures split at and", "900 and 5 ohms", ["905 ohm"]),
    ("comma in figures", "5,400 watts", ["5400 W"]),
    ("figures and hundred", "54 hundred watts", ["5400 W"]),
    ("K written on", "10.8K", ["10.8 kohm"]),
    ("K apart", "10.8 K", ["10.8 kohm"]),
    ("ohm signs", "14.5Ω and 10.8 kΩ and 2.3MΩ", ["14.5 ohm", "10.8 kohm", "2.3 Mohm"]),
    ("sign and degree", "-18.5°C", ["-18.5 degC"]),
    ("written range", "10-12 ohms", ["10 ohm", "12 ohm"]),
    ("written fraction", "2 1/2 inches", ["2.5 in"]),
    ("inches written on", "36in", ["36 in"]),
    ("comma before the unit", "one twenty, volts.", ["120 V"]),
    # side by side
    ("list", "fifty three, fifty two, fifty one degrees", ["53 degF", "52 degF", "51 degF"]),
    ("list without commas", "fifty three fifty two fifty one degrees", ["53 degF", "52 degF", "51 degF"]),
    ("two pairs without comma", "one twenty one nineteen volts", ["120 V", "119 V"]),
    ("two decimals without comma", "one point two one point three amps", ["1.2 A", "1.3 A"]),
    ("labels before numbers", "leg one one twenty point nine leg two one twenty point seven volts",
     ["1 (count)", "120.9 V", "2 (count)", "120.7 V"]),
    ("low and high", "one thirty one low, one fifty two high, Fahrenheit", ["131 degF", "152 degF"]),
    ("range in words", "between ten and twelve ohms", ["10 ohm", "12 ohm"]),
    ("range without and", "fifteen twenty minutes", ["15 min", "20 min"]),
    ("neighbours are no pair", "twenty twenty one ohms", ["20 ohm", "21 ohm"]),
    ("unit not shared with a name", "element two, thirty one ohms", ["2", "31 ohm"]),
    ("unit shared back", "start winding two point nine, run winding two point four ohms",
     ["2.9 ohm", "2.4 ohm"]),
]  # fmt: skip

NO_MEASUREMENTS = [
    ("zero as a verb", "let me zero the leads", []),
    ("parts of a machine", "three parts on the bench", ["3 (count)"]),
    ("things", "three nineties, two buckets and four flashes", ["3 (count)", "2 (count)", "4 (count)"]),
    ("times", "tried it five times", ["5 (count)"]),
    ("couple", "a couple of screws", ["2 (count)"]),
    ("ordinal", "the first step", ["1 (count)"]),
    ("labels", "leg one, burner two, step four passed", ["1 (count)", "2 (count)", "4 (count)"]),
    ("one of", "one of them", ["1 (count)"]),
    ("some of", "replaced two of the rods", ["2 (count)"]),
    ("year", "she bought it in twenty twenty two", ["2022 (count)"]),
    ("long year", "in two thousand twenty-one", ["2021 (count)"]),
    ("date", "around the third of March", ["3 (count)"]),
    ("odds", "nine times out of ten", ["9 (count)", "10 (count)"]),
    ("clock", "half past ten", ["10 (count)"]),
    ("money", "it cost eighty dollars", ["80 (count)"]),
    ("code", "F twenty one", ["21 (count)"]),
    ("refrigerant, not amps", "it's R six hundred A", ["600 (count)"]),
    ("no watts in a model", "model PXW 5042 W", ["5042 (count)"]),
    ("that one", "that one, this one, the one on the left, the other one's fine", []),
    ("oh", "oh my stars, oh forget it", []),
    ("no", "no codes, no play", []),
    ("half as an adverb", "it was half open", []),
    ("half of a thing", "half a coil of frost", []),
    ("a point", "at this point we stop", []),
    ("power point", "at the power point two hundred and forty volts", ["240 V"]),
    ("a second", "hold on a second", []),
]


@pytest.mark.parametrize(("said", "expected"), [row[1:] for row in NUMBERS], ids=[row[0] for row in NUMBERS])
def test_spoken_numbers_become_values_and_units(said: str, expected: list[str]) -> None:
    assert quantities(said) == expected


@pytest.mark.parametrize(
    ("said", "expected"), [row[1:] for row in NO_MEASUREMENTS], ids=[row[0] for row in NO_MEASUREMENTS]
)
def test_counts_labels_and_dates_are_no_measurements(said: str, expected: list[str]) -> None:
    assert quantities(said) == expected


DEGREES = [
    ("alone", "fifty degrees", ["50 degF"]),
    ("above is no Celsius", "freezer's at five above", ["5 degF"]),
    ("taken back across zero", "four below, no, hang on, it's four above", ["-4 degF (replaced)", "4 degF"]),
    ("celsius said elsewhere", "seventy degrees celsius, then eighty degrees", ["70 degC", "80 degC"]),
    ("metric speaker", "four hundred kilopascals. | minus eighteen degrees", ["400 kPa", "-18 degC"]),
    ("customary speaker", "thirty six inches. | minus eighteen degrees", ["36 in", "-18 degF"]),
    ("fahrenheit outweighs metric", "twenty millimetres, fifty degrees, sixty Fahrenheit",
     ["20 mm", "50 degF", "60 degF"]),
    ("letter", "seventy F", ["70 degF"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), [row[1:] for row in DEGREES], ids=[row[0] for row in DEGREES])
def test_bare_degrees_follow_the_speakers_units(said: str, expected: list[str]) -> None:
    assert quantities(said) == expected


def test_quantity_covers_number_and_unit() -> None:
    found = tidied("I got four point nine inches of water column there").quantities

    assert [(q.first, q.last) for q in found] == [(2, 9)]


def test_unrelated_sentence_changes_no_quantity() -> None:
    alone = tidied("Pump winding, sixteen point two ohms.").quantities
    followed = tidied("Pump winding, sixteen point two ohms. | The dog is loud.").quantities

    assert followed == alone
