"""Every file of vocab/appliances and vocab/parts.yaml: whole, and consistent with what it builds on."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from functools import cache
from pathlib import Path
from typing import get_args

import pytest

from fieldnotes.places import data_folder
from fieldnotes.vocabulary.measures import UnitName
from fieldnotes.vocabulary.packs import AppliancePack, PartEntry, PartsFile, SymptomEntry, TrialEntry
from fieldnotes.vocabulary.phrases import Form, wordings
from fieldnotes.vocabulary.yaml_file import load_yaml
from fieldnotes.words import split_words

VOCAB = data_folder("vocab")
FILES = sorted((VOCAB / "appliances").glob("*.yaml"))
PACK_IDS = [path.stem for path in FILES]
Named = PartEntry | SymptomEntry | TrialEntry


@cache
def shared() -> PartsFile:
    return load_yaml(VOCAB / "parts.yaml", PartsFile)


@cache
def pack_of(path: Path) -> AppliancePack:
    return load_yaml(path, AppliancePack)


def by_kind() -> dict[str, AppliancePack]:
    return {pack_of(path).kind: pack_of(path) for path in FILES}


def entries(pack: AppliancePack | None, section: str) -> dict[str, Named]:
    """What holds on this kind, by name: shared, then the wider kind's, then its own; the last wins."""
    chain: list[PartsFile | AppliancePack] = []
    while pack is not None:
        chain.insert(0, pack)
        pack = by_kind().get(pack.wider) if pack.wider else None
    found: dict[str, Named] = {}
    for layer in (shared(), *chain):
        found |= {entry.name: entry for entry in getattr(layer, section)}
    return found


def names_known(pack: AppliancePack, section: str) -> set[str]:
    """Names on this kind, and on the sorts of it: "washer" may speak of the agitator."""
    sorts = [other for other in by_kind().values() if other.wider == pack.kind]
    return {*entries(pack, section), *(entry.name for sort in sorts for entry in getattr(sort, section))}


def said(entry: Named) -> Iterator[Form]:
    """Its name, and all that is written as spoken or short, the last word in the singular."""
    for phrase in (entry.name, *entry.spoken, *getattr(entry, "short", ())):
        yield from (singular(form) for form in wordings(phrase))


def singular(form: Form) -> Form:
    last = form[-1]
    return (
        (*form[:-1], last[:-1]) if len(last) > 3 and last.endswith("s") and not last.endswith("ss") else form
    )


def told_twice(found: Sequence[Named]) -> list[str]:
    """Wordings that stand for two entries: "latch: door latch, lid lock"."""
    meaning: dict[Form, set[str]] = defaultdict(set)
    for entry in found:
        for form in said(entry):
            meaning[form].add(entry.name)
    return sorted(f"{' '.join(form)}: {', '.join(sorted(n))}" for form, n in meaning.items() if len(n) > 1)


def repeated(names: Sequence[str]) -> list[str]:
    return sorted({name for name in names if names.count(name) > 1})


def test_there_is_a_pack_to_test() -> None:
    assert FILES


def test_every_kind_has_one_pack() -> None:
    assert repeated([pack_of(path).kind for path in FILES]) == []


@pytest.mark.parametrize("path", FILES, ids=PACK_IDS)
def test_wider_kind_has_a_pack(path: Path) -> None:
    wider = pack_of(path).wider

    assert wider is None or (wider in by_kind() and wider != pack_of(path).kind)


def test_no_way_of_naming_a_kind_names_two() -> None:
    meaning: dict[Form, set[str]] = defaultdict(set)
    for pack in by_kind().values():
        for phrase in (pack.kind, *pack.spoken):
            for form in wordings(phrase):
                meaning[singular(form)].add(pack.kind)

    assert {form: kinds for form, kinds in meaning.items() if len(kinds) > 1} == {}


@pytest.mark.parametrize("section", ["parts", "symptoms", "trials"])
@pytest.mark.parametrize("path", [None, *FILES], ids=["shared", *PACK_IDS])
def test_no_wording_stands_for_two_entries(path: Path | None, section: str) -> None:
    found = entries(pack_of(path) if path else None, section)

    assert told_twice(list(found.values())) == []


@pytest.mark.parametrize("section", ["parts", "symptoms", "trials"])
@pytest.mark.parametrize("path", [None, *FILES], ids=["shared", *PACK_IDS])
def test_no_name_stands_twice_in_a_file(path: Path | None, section: str) -> None:
    layer = pack_of(path) if path else shared()

    assert repeated([entry.name for entry in getattr(layer, section)]) == []


@pytest.mark.parametrize("path", [None, *FILES], ids=["shared", *PACK_IDS])
def test_misheard_form_is_never_a_spoken_one(path: Path | None) -> None:
    pack = pack_of(path) if path else None
    parts = [entry for entry in entries(pack, "parts").values() if isinstance(entry, PartEntry)]
    others = [entry for section in ("symptoms", "trials") for entry in entries(pack, section).values()]
    spoken = {form for entry in (*parts, *others) for form in said(entry)}
    misheard = {singular(form) for entry in parts for phrase in entry.misheard for form in wordings(phrase)}

    assert sorted(misheard & spoken) == []


@pytest.mark.parametrize("path", [None, *FILES], ids=["shared", *PACK_IDS])
def test_misheard_form_stands_for_one_part(path: Path | None) -> None:
    meaning: dict[Form, set[str]] = defaultdict(set)
    for entry in entries(pack_of(path) if path else None, "parts").values():
        for phrase in getattr(entry, "misheard", ()):
            for form in wordings(phrase):
                meaning[singular(form)].add(entry.name)

    assert {form: names for form, names in meaning.items() if len(names) > 1} == {}


@pytest.mark.parametrize("path", [None, *FILES], ids=["shared", *PACK_IDS])
def test_units_are_those_of_the_record(path: Path | None) -> None:
    layer = pack_of(path) if path else shared()

    assert {unit for part in layer.parts for unit in part.measured_in} <= set(get_args(UnitName))


@pytest.mark.parametrize("path", FILES, ids=PACK_IDS)
def test_expectations_speak_of_known_names(path: Path) -> None:
    pack = pack_of(path)
    things = names_known(pack, "parts") | names_known(pack, "trials")
    symptoms = names_known(pack, "symptoms")
    unknown = {name for e in pack.expects for name in e.complaint} - symptoms
    unknown |= {name for e in pack.expects for check in e.look_for for name in check.about} - things

    assert sorted(unknown) == []


@pytest.mark.parametrize("path", FILES, ids=PACK_IDS)
def test_expected_checks_give_a_reason_and_its_standing(path: Path) -> None:
    checks = [check for expectation in pack_of(path).expects for check in expectation.look_for]

    assert [check.about for check in checks if not check.why.strip() or not check.about] == []
    assert {check.status for check in checks} <= {"common practice, no source"}


@pytest.mark.parametrize("path", FILES, ids=PACK_IDS)
def test_code_shapes_are_regular_expressions(path: Path) -> None:
    for shape in pack_of(path).code_shapes:
        assert not re.fullmatch(shape, "water")


@pytest.mark.parametrize("path", FILES, ids=PACK_IDS)
def test_hotwords_stay_within_what_a_recogniser_takes(path: Path) -> None:
    """About 160 tokens: at most 50 terms of at most 450 letters together, none twice."""
    hotwords = pack_of(path).hotwords

    assert len(hotwords) <= 50
    assert sum(map(len, hotwords)) <= 450
    assert repeated([word.lower() for word in hotwords]) == []


def test_contracted_verb_in_a_phrase_matches_speech() -> None:
    """Symptoms say `door (is|'s) stuck`; the words of "door's stuck" are split into door, 's, stuck."""
    assert tuple(split_words("The door's stuck")[1:]) in wordings("door (is|'s) stuck")


TELLS = [
    ("agitator", "top-load washer"),
    ("snubber", "top-load washer"),
    ("door boot", "front-load washer"),
    ("spray arm", "dishwasher"),
    ("gas valve coils", "gas dryer"),
    ("moisture sensor", "dryer"),
]


@pytest.mark.parametrize(("part", "kind"), TELLS, ids=[part for part, _ in TELLS])
def test_part_gives_its_kind_away(part: str, kind: str) -> None:
    tellers = {k for k, pack in by_kind().items() for p in pack.parts if p.name == part and p.tells_kind}

    assert tellers == {kind}


SAID = [  # written from how technicians talk, American and Commonwealth; the part that is meant
    ("top-load washer", "suspension rods", "suspension rod"),
    ("top-load washer", "lid latch", "lid lock"),
    ("top-load washer", "run cap", "capacitor"),
    ("front-load washer", "bellows", "door seal"),
    ("front-load washer", "coin trap", "filter"),
    ("front-load washer", "shocks", "shock absorber"),
    ("washer", "stand pipe", "standpipe"),
    ("electric dryer", "cycling stat", "cycling thermostat"),
    ("electric dryer", "across the hots", "leg to leg"),
    ("electric dryer", "neutral to ground", "neutral to ground"),
    ("gas dryer", "glow bar", "igniter"),
    ("dryer", "fluff filter", "lint screen"),
    ("dishwasher", "garbage disposal", "disposer"),
    ("dishwasher", "lower spray arm", "spray arm"),
    ("dishwasher", "pump", "drain pump"),
    ("dishwasher", "power point", "outlet"),
    ("dishwasher", "earth to cabinet", "earth continuity"),
    ("dishwasher", "pumpkin", None),
]


@pytest.mark.parametrize(("kind", "words", "part"), SAID, ids=[f"{k}: {w}" for k, w, _ in SAID])
def test_spoken_name_means_the_part(kind: str, words: str, part: str | None) -> None:
    form = singular(tuple(words.split()))
    meant = {name for name, entry in entries(by_kind()[kind], "parts").items() if form in said(entry)}

    assert meant == ({part} if part else set())


def test_pack_without_parts_is_no_mistake(tmp_path: Path) -> None:
    path = tmp_path / "kettle.yaml"
    path.write_text("kind: kettle\nspoken: [kettle]\n", encoding="utf-8")

    assert load_yaml(path, AppliancePack) == AppliancePack(kind="kettle", spoken=("kettle",))


def test_two_entries_of_one_wording_are_told() -> None:
    found = (PartEntry(name="door latch", short=("latch",)), PartEntry(name="lid lock", spoken=("latches",)))

    assert told_twice(found) == []
    assert told_twice((found[0], PartEntry(name="lid lock", spoken=("latch",)))) == [
        "latch: door latch, lid lock"
    ]
