"""Cautions: called for by this visit's own lines, and by nothing else."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from fieldnotes.errors import VocabularyError
from fieldnotes.judge.cautions import cautions_for
from fieldnotes.places import data_folder
from fieldnotes.records import Caution, Check, Part, Reading, Visit, Work
from fieldnotes.vocabulary.limits import CautionsFile
from fieldnotes.vocabulary.yaml_file import load_yaml

from .visits import PACKS, caution_rules, item, reading, said, visit


def check(about: str, outcome: str, quote: str = "") -> dict[str, Any]:
    values = {"about": about, "text": about, "evidence": said(quote or about), "outcome": outcome}
    return {"checks": (Check.model_validate(values),)}


def work(about: str, action: str, quote: str = "") -> dict[str, Any]:
    values = {"about": about, "text": about, "evidence": said(quote or about), "action": action}
    return {"work": (Work.model_validate(values),)}


def part(about: str, status: str) -> dict[str, Any]:
    return {
        "parts": (
            Part.model_validate({"about": about, "text": about, "evidence": said(about), "status": status}),
        )
    }


def read(about: str, value: float, unit: str, quote: str = "", **more: Any) -> dict[str, Any]:
    one: Reading = reading(about, value, unit, quote, **more)
    return {"readings": (one,)}


def ids_of(one: Visit) -> set[str]:
    ids = {rule.about: rule.id for rule in caution_rules().cautions}
    return {ids[caution.about] for caution in cautions_for(one, caution_rules(), PACKS)[:-1]}


OUTSIDE = {"judgement": "outside"}


@pytest.mark.parametrize(
    ("kind", "lines", "expected"),
    [
        ("dishwasher", {}, set()),
        ("dishwasher", check("drain hose", "good"), set()),
        ("dishwasher", read("outlet", 119, "V"), {"live-test"}),
        ("dishwasher", read("capacitor", 0.2, "V"), {"capacitor"}),
        ("washer", read("run capacitor", 43.9, "uF"), {"capacitor"}),
        ("washer", check("run capacitor", "not tested"), set()),
        ("dishwasher", read("drain pump", 14, "ohm"), {"isolate"}),
        ("microwave", check("magnetron", "fault"), {"microwave", "capacitor"}),
        ("dishwasher", check("door latch", "fault"), set()),
        ("microwave", read("leakage", 7, "mW/cm2", **OUTSIDE), {"microwave", "unsafe"}),
        ("gas range", work("burner", "cleaned"), {"gas-work"}),
        ("gas range", check("gas leak", "fault"), {"gas-smell"}),
        ("gas range", check("surface burner", "fault", "gas burner on the left is clogged"), set()),
        ("gas range", check("gas leak", "good", "no gas smell anywhere"), set()),
        ("gas range", {"complaints": (item("smell", "she says it smells, smell of gas"),)}, {"gas-smell"}),
        ("gas range", {"safety": (item("gas smell", "I don't smell any gas, no gas smell"),)}, set()),
        ("gas range", read("carbon monoxide", 40, "ppm", **OUTSIDE), {"carbon-monoxide"}),
        ("gas range", read("carbon monoxide", 2, "ppm"), set()),
        ("refrigerator", work("compressor", "replaced"), {"refrigerant", "isolate", "grounds"}),
        ("refrigerator", work("compressor relay", "replaced"), {"isolate", "grounds"}),
        ("refrigerator", work("condenser coil", "cleaned"), {"sharp-edges"}),
        ("refrigerator", {"safety": (item("refrigerant", "label says R600a"),)}, {"flammable-refrigerant"}),
        ("refrigerator", read("fresh food", 51, "degF", **OUTSIDE), {"food"}),
        ("dishwasher", read("hot water", 106, "degF", **OUTSIDE), set()),
        ("water heater", read("hot tap", 60, "degC"), {"burn"}),
        ("water heater", read("hot tap", 40, "degC"), set()),
        ("washer", work("drive belt", "adjusted"), {"moving-parts"}),
        ("washer", part("inlet valve", "needed"), {"water"}),
        ("washer", check("tub seal", "fault", "it's leaking at the seal"), {"water"}),
        ("gas range", check("regulator", "fault", "leaking gas at the regulator"), {"gas-smell"}),
        ("electric range", check("anti tip bracket", "good"), {"anti-tip"}),
        ("electric dryer", check("vent", "fault"), {"lint"}),
        ("washer", check("vent", "fault"), set()),
        ("washer", {"safety": (item("left unplugged", "left it unplugged with a note"),)}, {"unsafe"}),
        ("washer", {"safety": (item("unplugged", "it's unplugged while I work"),)}, set()),
        ("washer", part("drain pump", "fitted"), {"isolate", "water", "grounds"}),
    ],
)  # fmt: skip
def test_lines_call_for_their_cautions(kind: str, lines: dict[str, Any], expected: set[str]) -> None:
    assert ids_of(visit(kind, **lines)) == expected


def test_deferral_comes_last_and_only_with_cautions() -> None:
    rules = caution_rules()
    called = cautions_for(visit("dishwasher", **read("outlet", 119, "V")), rules, PACKS)
    live = next(rule for rule in rules.cautions if rule.id == "live-test")

    assert called == (
        Caution(about=live.about, text=live.text, for_customer=live.for_customer),
        Caution(
            about=rules.deferral_about,
            text=rules.deferral,
            for_customer=rules.deferral_for_customer,
        ),
    )
    assert cautions_for(visit("dishwasher"), rules, PACKS) == ()


@pytest.mark.parametrize("word", ["local codes", "licensed", "maker's instructions"])
def test_deferral_names_who_comes_first(word: str) -> None:
    assert word in caution_rules().deferral


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            "source: NFPA 54; local code\n",
            "\n",
            'needs a source; without one, write "common practice, no source"',
        ),
        (
            "{among: [parts], status: [fitted]}",
            "{among: [work], status: [fitted]}",
            "status can only be asked of parts",
        ),
        ("quantity: voltage, unit: V", "quantity: voltage, unit: A", 'unit "A" does not measure voltage'),
        ("quantity: voltage, unit: V,", "quantity: voltage,", "at_least and its unit belong together"),
        ("id: lint", "id: water", 'id "water" stands here a second time'),
    ],
    ids=["source", "wrong-list", "unit", "unit-missing", "twice"],
)
def test_loader_refuses_a_faulty_caution(tmp_path: Path, old: str, new: str, message: str) -> None:
    path = tmp_path / "cautions.yaml"
    text = (data_folder("vocab") / "cautions.yaml").read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")

    with pytest.raises(VocabularyError, match=r"cautions\.yaml, line \d+: ") as fault:
        load_yaml(path, CautionsFile)
    assert message in str(fault.value)
