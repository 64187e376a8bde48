"""Measured numbers: value, unit, point of measurement; and the many numbers that were not measured."""

from __future__ import annotations

import pytest

from .spoken import Facts, Row, Trap, Understood, readings, rows, visit

ROWS: list[Row] = [
    (
        "the new one, just fitted",
        "electric dryer",
        "I put a new heating element in. | New one's ten point two ohms.",
        {"reading heating element: 10.2 ohm"},
    ),
    (
        "a thermostat is measured, not set, in ohms",
        "electric dryer",
        "Cycling thermostat is 10.4 kilohms.",
        {"reading cycling thermostat: 10.4 kohm"},
    ),
    (
        "an element is measured, not set, in ohms",
        "electric range",
        "Bake element is at 21 ohms.",
        {"reading bake element: 21 ohm"},
    ),
    (
        "a meter's clip is no part",
        "electric dryer",
        "Heating element reads nine, hang on, the clip fell off. Ten point four.",
        {"reading heating element: 10.4 ohm"},
    ),
    (
        "the other coil was a mistake",
        "dishwasher",
        "Drain pump, sixty ohms. No, that was other wire. Fifteen.",
        {"reading drain pump: 15 ohm"},
    ),
    (
        "filled, whatever ran",
        "dishwasher",
        "Quick wash, and it was full in two minutes.",
        {"reading fill time: 2 min"},
    ),
    (
        "by the clock, behind it",
        "gas dryer",
        "Ninety seconds, by the watch.",
        {"reading time: 90 s"},
    ),
    (
        "a valve that let go",
        "water heater",
        "I timed it, and the gas valve let go at forty seconds.",
        {"reading drop-out time: 40 s"},
    ),
    ("how far it came", "electric range", "Bake, and it only got to two ten.", {"reading bake: 210 degF"}),
    (
        "carbon monoxide in parts, and none",
        "water heater",
        "CO at the draft hood is nine parts, and in the hall it's zero.",
        {"reading carbon monoxide: 9 ppm", "reading carbon monoxide: 0 ppm"},
    ),
    (
        "judged, not expected",
        "freezer",
        "Freezer's at minus eighteen, and that's what you'd want.",
        {"reading freezer temperature: -18 degC"},
    ),
    (
        "litres in the minute",
        "washer",
        "Water flow, it was nine litres in the minute.",
        {"reading water flow: 9 L"},
    ),
    (
        "gas at the manifold",
        "water heater",
        "Gas at the manifold is three point six inches.",
        {"reading manifold pressure: 3.6 inH2O"},
    ),
    (
        "hot water is in Fahrenheit where Celsius would boil",
        "water heater",
        "Water at the bath tap's a hundred and eighteen.",
        {"reading hot water temperature: 118 degF"},
    ),
    (
        "a pressure at a place is not the place's",
        "gas range",
        "At the burner, 4 inches of water.",
        {"reading gas pressure: 4 inH2O"},
    ),
    (
        "an instrument stays where it was",
        "gas dryer",
        "Back pressure, 0.8 inches of water. | With the hose off and it blowing out the side of the cabinet, the manometer"
        " drops to 0.2.",
        {"reading back pressure: 0.8 inH2O", "reading back pressure: 0.2 inH2O"},
    ),
    (
        "main's for mains",
        "washer",
        "Main's pressure at the stop tap, 350 kilopascals.",
        {"reading water pressure: 350 kPa"},
    ),
    (
        "a thing that takes the pressure itself",
        "washer",
        "At the water supply, 350 kilopascals.",
        {"reading water supply: 350 kPa"},
    ),
    (
        "value before point",
        "dishwasher",
        "I've got fourteen point five ohms across the drain pump.",
        {"reading drain pump: 14.5 ohm"},
    ),
    (
        "point before value",
        "dryer",
        "Heating element, ten point eight ohms.",
        {"reading heating element: 10.8 ohm"},
    ),
    (
        "point in the breath before",
        "electric dryer",
        "Meter's on the heating element now. | Ten point eight ohms.",
        {"reading heating element: 10.8 ohm"},
    ),
    (
        "a strange word behind a number is no unit of the series",
        "refrigerator",
        "Fan motor, 12.5 ohms. | The thermistor in ice water, 16.3 splonk.",
        {"reading fan motor: 12.5 ohm", "reading thermistor: 16.3 kohm"},
    ),
    (
        "a word of showing is nobody's name",
        "freezer",
        "Defrost thermostat, next the coil, says nine degrees Fahrenheit.",
        {"reading coil: 9 degF"},
    ),
    (
        "held against, should be",
        "dryer",
        "Thermistor should be around ten k, and I've got eleven point two k.",
        {"reading thermistor: 11.2 kohm"},
    ),
    (
        "held against, comes after",
        "dryer",
        "Motor's pulling four point one amps, plate says six.",
        {"reading motor: 4.1 A"},
    ),
    (
        "held against, no punctuation",
        "electric range",
        "bake element should be about nineteen ohms and i'm reading twenty two ohms",
        {"reading bake element: 22 ohm"},
    ),
    (
        "supply voltage",
        "electric dryer",
        "Two hundred and forty one volts leg to leg.",
        {"reading leg to leg: 241 V"},
    ),
    (
        "two legs",
        "electric dryer",
        "Leg one to neutral one twenty volts, leg two to neutral one nineteen volts.",
        {"reading leg one: 120 V", "reading leg two: 119 V"},
    ),
    (
        "british volts",
        "front load washer",
        "Socket's at two hundred and thirty eight volts.",
        {"reading outlet: 238 V"},
    ),
    (
        "capacitor",
        "microwave",
        "Capacitor came in at nought point nine two microfarads.",
        {"reading capacitor: 0.92 uF"},
    ),
    (
        "hot surface igniter",
        "gas range",
        "Oven igniter's drawing three point four amps.",
        {"reading oven igniter: 3.4 A"},
    ),
    (
        "gas pressure in",
        "gas range",
        "Manifold pressure is five inches of water column.",
        {"reading manifold pressure: 5 inH2O"},
    ),
    (
        "gas pressure mbar",
        "water heater",
        "Manifold pressure nine point eight millibars.",
        {"reading manifold pressure: 9.8 mbar"},
    ),
    (
        "minus degrees",
        "refrigerator",
        "Freezer temperature is minus eighteen degrees Celsius.",
        {"reading freezer temperature: -18 degC"},
    ),
    (
        "fahrenheit",
        "refrigerator",
        "Fresh food temperature, thirty seven degrees Fahrenheit.",
        {"reading fresh food temperature: 37 degF"},
    ),
    (
        "millivolts",
        "water heater",
        "Thermocouple gives me twenty six millivolts.",
        {"reading thermocouple: 26 mV"},
    ),
    (
        "insulation",
        "dishwasher",
        "Heating element to the case, over two hundred megohms.",
        {"reading heating element: 200 Mohm"},
    ),
    (
        "corrected",
        "dishwasher",
        "Inlet valve coil nine hundred, no, nine hundred and forty ohms.",
        {"reading inlet valve: 940 ohm"},
    ),
    (
        "unit taken from the reading before",
        "gas range",
        "Left front electrode gap is three millimetres. | Oven igniter, three point one amps. | Broil igniter, three point two.",
        {"reading electrode gap: 3 mm", "reading oven igniter: 3.1 A", "reading broil igniter: 3.2 A"},
    ),
    (
        "unit from the reading before, one breath",
        "water heater",
        "Upper element thirteen ohms, lower element twelve point eight.",
        {"reading upper element: 13 ohm", "reading lower element: 12.8 ohm"},
    ),
    (
        "drain timed",
        "dishwasher",
        "Timed the drain, drain time was fifty five seconds.",
        {"reading drain time: 55 s"},
    ),
    (
        "fill timed",
        "top load washer",
        "Fill time came out at two hundred and twenty seconds.",
        {"reading fill time: 220 s"},
    ),
    (
        "water pressure",
        "water heater",
        "Water pressure at the tap is seventy two psi.",
        {"reading water pressure: 72 psi"},
    ),
    (
        "kilopascals",
        "water heater",
        "Mains pressure reads four hundred and fifty kilopascals.",
        {"reading water pressure: 450 kPa"},
    ),
    (
        "leakage",
        "microwave",
        "Microwave leakage nought point three milliwatts per square centimetre at the hinge side.",
        {"reading microwave leakage: 0.3 mW/cm2"},
    ),
    (
        "spin speed",
        "front load washer",
        "Spin speed topped out at eleven hundred and eighty rpm.",
        {"reading spin speed: 1180 rpm"},
    ),
    (
        "carbon monoxide",
        "gas range",
        "Carbon monoxide is four parts per million in the room.",
        {"reading carbon monoxide: 4 ppm"},
    ),
    (
        "value with judgement",
        "dryer",
        "Thermistor is ten point one k, that's good.",
        {"reading thermistor: 10.1 kohm"},
    ),
    (
        "figures as written",
        "dryer",
        "Thermistor 10.1k, motor windings 2.8 ohms.",
        {"reading thermistor: 10.1 kohm", "reading motor windings: 2.8 ohm"},
    ),
    (
        "before and after",
        "refrigerator",
        "Fresh food temperature was fifty one degrees, and an hour on it's forty four degrees.",
        {"reading fresh food temperature: 51 degF", "reading fresh food temperature: 44 degF"},
    ),
    (
        "bare ohms, dead meter lead",
        "dishwasher",
        "Thermistor reads fifty one kilo ohms at room temperature.",
        {"reading thermistor: 51 kohm"},
    ),
    (
        "current of an element",
        "electric dryer",
        "Clamp round the heating element shows twenty two point five amps.",
        {"reading heating element: 22.5 A"},
    ),
    (
        "swinging",
        "electric range",
        "Oven temperature is swinging between three thirty eight and three sixty four Fahrenheit.",
        {"reading oven temperature: 338 degF", "reading oven temperature: 364 degF"},
    ),
    (
        "held against a range in figures",
        "dishwasher",
        "15-30 ohms is good for the drain pump, and I've got 22 ohms.",
        {"reading drain pump: 22 ohm"},
    ),
    (
        "point of measurement, not what was named before",
        "dishwasher",
        "Check valve is clear, across the drain pump winding I get 22 ohms. No, scratch that, wrong lead, it's 240 ohms.",
        {"reading drain pump: 240 ohm"},
    ),
    (
        "point behind the number",
        "electric dryer",
        "I've got 240 volts at the terminal block.",
        {"reading terminal block: 240 V"},
    ),
    (
        "no part named",
        "microwave",
        "Pulling thirteen and a half amps while it's cooking.",
        {"reading current draw: 13.5 A"},
    ),
    (
        "line voltage behind the number",
        "water heater",
        "Two hundred and thirty nine volts on the line, by the way.",
        {"reading supply: 239 V"},
    ),
    (
        "time to light",
        "gas range",
        "Ninety four seconds before it caught.",
        {"reading time: 94 s"},
    ),
    (
        "minutes and bare seconds",
        "dishwasher",
        "It filled in two minutes ten.",
        {"reading fill time: 130 s"},
    ),
    (
        "new one's value",
        "water heater",
        "Upper element was open. | New one twelve point nine ohms.",
        {"reading upper element: 12.9 ohm"},
    ),
    (
        "came in at",
        "dryer",
        "Voltage came in at two hundred and forty four, a touch high.",
        {"reading supply: 244 V"},
    ),
    (
        "only the ending again",
        "water heater",
        "Supply, two forty. No, thirty eight.",
        {"reading supply: 238 V"},
    ),
    (
        "name shared with water",
        "gas dryer",
        "Line pressure seven inches.",
        {"reading gas pressure: 7 inH2O"},
    ),
    (
        "taken anew in the next breath",
        "dishwasher",
        "Circulation pump, nine hundred ohms. | Nope, my thumb was on the probe, it's one point four k.",
        {"reading circulation pump: 1.4 kohm"},
    ),
    (
        "value first, name set off",
        "electric dryer",
        "The belt's fine. | Twelve point six ohms, heating element, spot on.",
        {"reading heating element: 12.6 ohm"},
    ),
    (
        "value first, name pointed at",
        "electric range",
        "Door gasket grips. | Two nineteen volts, that's what I get at the terminal block.",
        {"reading terminal block: 219 V"},
    ),
    (
        "values first, two sentences",
        "dishwasher",
        "The filter's clear. | Sixteen ohms, drain pump. Twenty two ohms, wash heater.",
        {"reading drain pump: 16 ohm", "reading heating element: 22 ohm"},
    ),
    (
        "listed, then told in that order",
        "electric dryer",
        "Thermostat, main fuse and element. | In that order, nought point one ohms, nought point two ohms and twelve ohms.",
        {"reading thermostat: 0.1 ohm", "reading fuse: 0.2 ohm", "reading heating element: 12 ohm"},
    ),
    (
        "own name set before",
        "freezer",
        "Lid seal's good. | Garage air, eleven degrees Celsius.",
        {"reading garage air: 11 degC"},
    ),
    (
        "wanted and drawn",
        "gas range",
        "The igniter now. | It wants at least three point two to open the valve, and it's pulling two point seven.",
        {"reading igniter: 2.7 A"},
    ),
    (
        "the book's range, then the reading",
        "washer",
        "The spec sheet has it down as fifteen to eighteen ohms and I'm reading sixteen point four on the heater.",
        {"reading heating element: 16.4 ohm"},
    ),
    (
        "timed by the watch",
        "water heater",
        "It was thirty one minutes by my watch before the lower element cut out.",
        {"reading time: 31 min"},
    ),
    ("lit in time", "gas range", "Bake lit inside forty seconds.", {"reading ignition time: 40 s"}),
    (
        "filled in minutes and seconds",
        "dishwasher",
        "It filled to the line in two minutes ten.",
        {"reading fill time: 130 s"},
    ),
    (
        "inches of gas without the word",
        "gas range",
        "Regulator. Five point one inches with everything off, four point nine with two burners lit.",
        {"reading regulator: 5.1 inH2O", "reading regulator: 4.9 inH2O"},
    ),
    (
        "spun, no unit",
        "washer",
        "Drum was doing eleven hundred and fifty on the last spin.",
        {"reading spin speed: 1150 rpm"},
    ),
    (
        "insulation tested at a voltage",
        "dishwasher",
        "Insulation at five hundred volts, over two hundred megohms.",
        {"reading insulation: 200 Mohm"},
    ),
    (
        "one for each winding",
        "washer",
        "So the motor, phase to phase, three point eight, three point seven, three point nine ohms.",
        {"reading motor: 3.8 ohm", "reading motor: 3.7 ohm", "reading motor: 3.9 ohm"},
    ),
    (
        "said twice",
        "refrigerator",
        "The defrost heater draws three point eight amps, stays at three point eight.",
        {"reading defrost heater: 3.8 A"},
    ),
    (
        "swings on the thermocouple",
        "electric range",
        "My thermocouple swung between three thirty eight and three sixty four.",
        {"reading temperature: 338 degF", "reading temperature: 364 degF"},
    ),
]

TRAPS: list[Trap] = [
    ("spec for such a one", "gas range", "Spec for a flat igniter is three two to three six."),
    ("how a new one is", "dryer", "A new one is about fifty ohms."),
    ("new one, nothing fitted", "dryer", "New ones read about fifty ohms."),
    (
        "a picture of how much",
        "freezer",
        "The drain's under the food. | There's three feet of burgers on it.",
    ),
    ("what they call for", "water heater", "A hundred and twenty's what they call for."),
    ("how long it ran", "microwave", "Cup of water in, two minutes on high, and it came out warm."),
    ("part number without its word", "top load washer", "New drain pump fitted, heart 880, 417."),
    ("limit", "microwave", "The vents, limits 5."),
    ("wanted", "gas range", "Oven igniter wants three point two to open the valve."),
    ("asked for", "refrigerator", "The tech sheet had asked for two and a half amps on the defrost heater."),
    (
        "the book has got",
        "gas dryer",
        "Book's got thirteen sixty, five seventy, twelve twenty for those coils.",
    ),
    ("value first, set", "electric range", "Three fifty, that's what I've set it to."),
    (
        "value first, by the book",
        "electric range",
        "Twenty five either way, that's what the book lets you have.",
    ),
    ("a leaflet allows", "dishwasher", "Forty four is what the leaflet allows."),
    ("the setting", "freezer", "The setting is minus eighteen."),
    ("the dial's setting", "electric range", "Thermostat is 350 degrees."),
    ("a burner's setting", "electric range", "Left rear element at eighty percent."),
    ("feet to stand on", "washer", "Feet, all four down firm on the floor."),
    ("price a month", "electric range", "Three hundred a month some folks pay for a new one."),
    ("prices in a row", "refrigerator", "Sixty bucks, seventy, whatever they charge now."),
    ("off by", "electric range", "She holds that the oven runs forty degrees cold."),
    ("took me", "water heater", "Took me twenty minutes to get the panel off."),
    ("expected value alone", "dryer", "Thermistor ought to read ten k at room temperature."),
    ("rating plate", "electric dryer", "Plate says fifty six hundred watts, two hundred and forty volts."),
    ("set point", "electric range", "Set the oven to three hundred and fifty degrees."),
    ("cap rating", "top load washer", "The capacitor is marked forty five microfarads."),
    ("allowed limit", "microwave", "The limit is five milliwatts per square centimetre."),
    ("tripping limit", "dryer", "High limit opens at two hundred and fifty degrees on these."),
    ("count", "refrigerator", "Two screws on the evaporator cover and four on the condenser fan."),
    ("duration of waiting", "dishwasher", "Gave it ten minutes with the drain pump out."),
    ("age", "top load washer", "Belt's five years old."),
    ("price", "refrigerator", "A new compressor is six hundred dollars."),
    ("open line", "electric dryer", "Heating element reads open line."),
    ("no continuity", "dryer", "No continuity through the thermal fuse."),
    ("range of normal", "dryer", "Normal for the motor is between two and four ohms."),
    ("range said by the book", "dishwasher", "The book says fifteen to thirty ohms for this pump."),
    ("range, word misheard", "dishwasher", "The boat says 15 to 30 ohms for this pump."),
    ("range in figures", "dishwasher", "Drain pump 15-30 ohms."),
    ("rating of a cord", "dryer", "Four wire cord, thirty amp."),
    ("rating of a fuse", "microwave", "Line fuse, twenty amp, good."),
    ("right for a rating", "electric range", "That's dead on for a twenty five hundred watt."),
    ("on the tag", "electric dryer", "It say twenty four amp on the tag."),
    ("bound", "refrigerator", "Once a room drops below about ten degrees it stops cycling."),
    ("step", "electric range", "I took the oven thermostat down twenty degrees."),
    ("distance", "microwave", "I held the meter five centimetres off the door."),
    ("certainty", "microwave", "That's the diode, a hundred percent."),
    ("known voltage", "microwave", "Four thousand volts in there."),
    ("number of a part", "gas dryer", "Valve coil two is next to valve coil one."),
    ("plan to measure", "water heater", "I'm looking for about thirteen ohms on the upper element."),
    ("history", "refrigerator", "Last visit the freezer temperature was minus four degrees."),
    (
        "customer's thermometer",
        "refrigerator",
        "She says the fresh food temperature was fifty degrees on her thermometer.",
    ),
    ("clock time", "dishwasher", "Half past ten and I'm at the drain pump."),
    ("size of a tool", "gas range", "Eight millimetre nut driver for the orifice."),
    ("general truth", "water heater", "A good thermocouple makes about thirty millivolts."),
    ("recommended", "refrigerator", "I'd set it to thirty seven degrees if it was mine."),
    ("taken back whole", "dryer", "Thermistor is fifteen k, no scratch that, wrong wires."),
    ("cycle name", "washer", "It's got a sixty degree programme and a thirty minute wash."),
]

NOT_YET: set[str] = set()


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_measured_numbers_become_readings(
    kind: str, said: str, expected: Facts, understood: Understood
) -> None:
    assert readings(understood(visit(kind, said))) == expected


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_numbers_not_measured_are_no_readings(kind: str, said: str, understood: Understood) -> None:
    assert readings(understood(visit(kind, said))) == set()


def test_sentence_tells_only_the_number_that_stands(understood: Understood) -> None:
    (reading,) = understood(visit("dryer", "The heating element is ten, no, sorry, eleven ohms.")).readings

    assert reading.text == "Heating element measured 11 ohm: The heating element was eleven ohms."
