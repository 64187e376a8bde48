"""The whole vocabulary in one record. A shop's own folder is laid over the built-in one."""

from __future__ import annotations

import hashlib
from collections import defaultdict
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from fieldnotes.errors import VocabularyError
from fieldnotes.places import data_folder
from fieldnotes.vocabulary.explanations import ExplanationRule, ExplanationsFile, read_drawing
from fieldnotes.vocabulary.grammar import Grammar
from fieldnotes.vocabulary.limits import CautionsFile, GapsFile, LimitsFile
from fieldnotes.vocabulary.makes import MakesFile
from fieldnotes.vocabulary.measures import Measures, NumberWords, Retractions, Spelling, Units
from fieldnotes.vocabulary.packs import AppliancePack, PartsFile
from fieldnotes.vocabulary.photos import PhotoWords
from fieldnotes.vocabulary.private import PrivateCues
from fieldnotes.vocabulary.rules import Rule, RuleFile
from fieldnotes.vocabulary.sums import SumsFile
from fieldnotes.vocabulary.trade import TradeWords
from fieldnotes.vocabulary.yaml_file import load_yaml


@dataclass(frozen=True, eq=False)  # compared by identity, so that what is built from it can be cached
class Vocabulary:
    """All of vocab/. `digest` names this state of it (first 12 hex digits of the files' SHA-256)."""

    parts: PartsFile
    packs: dict[str, AppliancePack]
    rules: tuple[Rule, ...]
    grammar: Grammar
    trade: TradeWords
    makes: tuple[str, ...]
    private: PrivateCues
    measures: Measures
    limits: LimitsFile
    sums: SumsFile
    gaps: GapsFile
    cautions: CautionsFile
    explanations: dict[str, ExplanationRule]
    drawings: dict[str, str]  # of the explanations, by their id
    photos: PhotoWords
    digest: str


@lru_cache(maxsize=4)
def load_vocabulary(shop: Path | None = None) -> Vocabulary:
    """The built-in vocabulary, with a shop's own files over it.

    A shop's file replaces the built-in file of the same name; new files under `rules/`, `appliances/`,
    `explanations/` and `drawings/` add to it. Raises VocabularyError that lists every mistake with file and line.
    """
    if shop is not None and not shop.is_dir():
        raise VocabularyError(
            f"{shop}: is no folder; --vocab takes a folder laid out like the built-in vocab/"
        )
    files = vocabulary_files(shop)
    mistakes: list[str] = []
    rules: list[Rule] = []
    packs: dict[str, AppliancePack] = {}
    explanations: dict[str, ExplanationRule] = {}
    drawings: dict[str, str] = {}
    for name, path in files.items():
        try:
            if name.startswith("rules/"):
                rules += load_yaml(path, RuleFile).rules
            elif name.startswith("appliances/"):
                pack = load_yaml(path, AppliancePack)
                if pack.kind in packs:
                    raise VocabularyError(f"{path}, line 1: kind {pack.kind!r} is in another file already")
                packs[pack.kind] = pack
            elif name.startswith("explanations/"):
                explanations |= {rule.id: rule for rule in load_yaml(path, ExplanationsFile).explanations}
        except VocabularyError as fault:
            mistakes.append(str(fault))
    for rule in explanations.values():
        try:
            drawings[rule.id] = read_drawing(drawing_file(rule.drawing, shop))
        except VocabularyError as fault:
            mistakes.append(str(fault))
    mistakes += _twice(rules)
    if mistakes:
        raise VocabularyError("\n".join(mistakes))
    return Vocabulary(
        parts=load_yaml(files["parts.yaml"], PartsFile),
        packs=packs,
        rules=tuple(rules),
        grammar=load_yaml(files["grammar.yaml"], Grammar),
        trade=load_yaml(files["trade.yaml"], TradeWords),
        makes=load_yaml(files["makes.yaml"], MakesFile).makes,
        private=load_yaml(files["private.yaml"], PrivateCues),
        measures=Measures(
            numbers=load_yaml(files["numbers.yaml"], NumberWords),
            units=load_yaml(files["units.yaml"], Units),
            spelling=load_yaml(files["spelling.yaml"], Spelling),
            retractions=load_yaml(files["retractions.yaml"], Retractions),
        ),
        limits=load_yaml(files["limits.yaml"], LimitsFile),
        sums=load_yaml(files["sums.yaml"], SumsFile),
        gaps=load_yaml(files["gaps.yaml"], GapsFile),
        cautions=load_yaml(files["cautions.yaml"], CautionsFile),
        explanations=explanations,
        drawings=drawings,
        photos=load_yaml(files["photos.yaml"], PhotoWords),
        digest=_digest(files),
    )


def vocabulary_files(shop: Path | None = None) -> dict[str, Path]:
    """Every vocabulary file by its name below the folder ("rules/work.yaml"); the shop's come first."""
    found: dict[str, Path] = {}
    for folder in (data_folder("vocab"), *([shop] if shop else [])):
        found |= {path.relative_to(folder).as_posix(): path for path in sorted(folder.rglob("*.yaml"))}
    return dict(sorted(found.items()))


def drawing_file(name: str, shop: Path | None = None) -> Path:
    """A file of `drawings/`: the shop's own where it is there."""
    own = shop / "drawings" / name if shop else None
    return own if own and own.is_file() else data_folder("vocab") / "drawings" / name


def _twice(rules: list[Rule]) -> list[str]:
    seen: dict[str, int] = defaultdict(int)
    for rule in rules:
        seen[rule.id] += 1
    return [f"rules: id {name!r} stands in {count} rules" for name, count in seen.items() if count > 1]


def _digest(files: dict[str, Path]) -> str:
    total = hashlib.sha256()
    for name, path in files.items():
        total.update(name.encode())
        total.update(path.read_bytes())
    return total.hexdigest()[:12]
