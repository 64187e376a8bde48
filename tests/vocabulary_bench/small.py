"""A small vocabulary of an invented trade, whole and without a mistake; tests spoil one line of it."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

from fieldnotes.places import data_folder
from fieldnotes.vocabulary.grammar import Grammar
from fieldnotes.vocabulary.rules import Label
from fieldnotes.vocabulary.trade import TradeWords
from fieldnotes.vocabulary_bench.references import VALUES

PARTS = """\
parts:
  - name: hose
    spoken: [rubber hose]
    misheard: [hoes]
  - name: switch
    measured_in: [ohm]
symptoms:
  - {name: noise, spoken: [noisy]}
trials:
  - {name: test run, spoken: [trial run]}
"""
URN = """\
kind: urn
spoken: [tea urn]
parts:
  - name: tap
    spoken: [drip tap, (tea|coffee) tap]
    short: [valve]
    misheard: [tab]
  - name: lid
    spoken: [cover]
symptoms:
  - {name: drips, spoken: [it drips]}
code_shapes: ["U\\\\d"]
expects:
  - complaint: [drips, noise]
    look_for:
      - {about: [tap, test run], why: "The tap is looked at."}
"""
BIG_URN = "kind: big urn\nspoken: [party urn]\nwider: urn\nparts:\n  - {name: tap, spoken: [big tap]}\n"
RULES = """\
rules:
  - id: fine
    label: outcome
    value: good
    phrases: [all fine, (quite|really) fine]
    finds: ["the tap is quite fine"]
    misses: ["a fine day"]
  - id: not-so-fine
    label: outcome
    value: fault
    phrases: [less than fine]
    finds: ["it is less than fine"]
    misses: ["it is fine"]
"""
LIMITS = """\
unit_does_not_fit: misheard
vague: [reading]
speech: {}
quantity_names: []
limits:
  - id: outlet
    quantity: voltage
    point: [outlet]
    unit: V
    status: from memory
    source: invented
    maximum: 126
    holds_for: [{about: outlet, value: 120, unit: V}]
    not_for: [{about: switch, value: 120, unit: V, judgement: no limit known}]
"""
SUMS = """\
beyond: 2.5
needs_coolprop: Install it.
supplies: []
frequency: {}
refrigerants: []
sums:
  - id: pipe
    what: longest pipe
    formula: duct length allowed
    about: {read: length, point: [steam pipe]}
    inputs:
      longest: {figure: 35, what: longest}
      elbows: {said: [], after: [bends], what: bends}
      each: [{figure: 5, what: a bend}]
    kinds: [urn]
    bounds: {high_percent: 0}
    source: invented
    status: from memory
    holds_for:
      - {about: steam pipe, value: 9, unit: ft, said: two bends, kind: urn, gives: 25, judgement: within}
    not_for: [{about: steam hose, value: 9, unit: ft, said: two bends, kind: urn}]
"""
PHOTOS = """\
own: [i]
not_before: [could]
not_right_before: [was]
who_opens: [my]
not_after: [tube]
goes_on: [and]
thing_ends: [and, now]
plate: [plate]
cues:
  - id: snapped
    form: done
    phrases: [took a picture]
    finds: ["took a picture of the tap"]
    misses: ["could I have took a picture"]
"""
CAUTIONS = """\
deferral_about: all
deferral: Local codes come first.
deferral_for_customer: The manual comes first.
cautions:
  - id: hot
    about: steam
    text: Let it cool.
    status: "common practice, no source"
    triggers: [{among: [work], says: [steam]}]
"""


def write_small(folder: Path) -> None:
    """The whole vocabulary into an empty folder."""
    for name, text in files().items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def files() -> dict[str, str]:
    """Every file by its name. Numbers, units, spelling, retractions and gaps are the built-in ones."""
    built_in = data_folder("vocab")
    copied = ("numbers.yaml", "units.yaml", "spelling.yaml", "retractions.yaml")
    gaps = (built_in / "gaps.yaml").read_text(encoding="utf-8")
    return {
        **{name: (built_in / name).read_text(encoding="utf-8").replace(", a.m, p.m", "") for name in copied},
        "gaps.yaml": gaps.replace("kinds: [washer]", "kinds: [urn]"),  # the only kind that its rules name
        "grammar.yaml": _grammar(),
        "private.yaml": (built_in / "private.yaml").read_text(encoding="utf-8"),
        "makes.yaml": "makes: [Urnwell]\n",
        "trade.yaml": "".join(
            f"{name}: {'{}' if name == 'pieces_of' else '[]'}\n" for name in TradeWords.model_fields
        ),
        "parts.yaml": PARTS,
        "appliances/urn.yaml": URN,
        "appliances/big-urn.yaml": BIG_URN,
        "rules/fine.yaml": RULES,
        "rules/rest.yaml": _rest(),
        "limits.yaml": LIMITS,
        "sums.yaml": SUMS,
        "cautions.yaml": CAUTIONS,
        "photos.yaml": PHOTOS,
    }


def _grammar() -> str:
    words = dict.fromkeys(Grammar.model_fields, "[]")
    words |= {
        "fillers": "[uh, um]",
        "openers": "[okay]",
        "joiners_not_before": "{}",
        "written_together": "{}",
        "misheard_headings": "{}",
        "misheard_closings": "{}",
        "misheard_sources": "{}",
        "lost_endings": "{}",
    }
    return "".join(f"{name}: {value}\n" for name, value in words.items())


def _rest() -> str:
    """One rule for every label that rules/fine.yaml does not give."""
    rules = "rules:\n"
    for label in get_args(Label):
        if label != "outcome":
            cue = f"cue for {label.replace('_', ' ')}"
            value = f"\n    value: {VALUES[label][0]}" if label in VALUES else ""
            rules += f"  - id: {label.replace(' ', '-')}\n    label: {label}{value}\n    phrases: [{cue}]\n"
            rules += f"    finds: [{cue}]\n    misses: [no cue]\n"
    return rules
