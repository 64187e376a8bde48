"""The vocabulary's files opened one by one, so that a mistake in one does not hide those in the others."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel

from fieldnotes.errors import VocabularyError
from fieldnotes.places import data_folder
from fieldnotes.vocabulary.explanations import ExplanationsFile, read_drawing
from fieldnotes.vocabulary.grammar import Grammar
from fieldnotes.vocabulary.limits import CautionsFile, GapsFile, LimitsFile
from fieldnotes.vocabulary.load import Vocabulary, drawing_file, vocabulary_files
from fieldnotes.vocabulary.makes import MakesFile
from fieldnotes.vocabulary.measures import Measures, NumberWords, Retractions, Spelling, Units
from fieldnotes.vocabulary.packs import AppliancePack, PartsFile
from fieldnotes.vocabulary.photos import PhotoWords
from fieldnotes.vocabulary.private import PrivateCues
from fieldnotes.vocabulary.rules import RuleFile
from fieldnotes.vocabulary.sums import SumsFile
from fieldnotes.vocabulary.trade import TradeWords
from fieldnotes.vocabulary.yaml_file import Lines, line_of, load_yaml, read_yaml

Place = tuple[str | int, ...]  # where in a file: ("rules", 3, "finds", 0)
Model = TypeVar("Model", bound=BaseModel)
SINGLE: dict[str, type[BaseModel]] = {
    "parts.yaml": PartsFile,
    "grammar.yaml": Grammar,
    "trade.yaml": TradeWords,
    "makes.yaml": MakesFile,
    "private.yaml": PrivateCues,
    "numbers.yaml": NumberWords,
    "units.yaml": Units,
    "spelling.yaml": Spelling,
    "retractions.yaml": Retractions,
    "limits.yaml": LimitsFile,
    "sums.yaml": SumsFile,
    "gaps.yaml": GapsFile,
    "cautions.yaml": CautionsFile,
    "photos.yaml": PhotoWords,
}
FOLDERS: dict[str, type[BaseModel]] = {
    "rules": RuleFile,
    "appliances": AppliancePack,
    "explanations": ExplanationsFile,
}
_TOLD = re.compile(r"(?:, line (?P<line>\d+))?: (?P<text>.+)")


@dataclass(frozen=True, order=True)
class Mistake:
    """What is wrong at a line of a file, and how to mend it."""

    path: Path
    line: int
    text: str

    def __str__(self) -> str:
        return f"{shown(self.path)}, line {self.line}: {self.text}"


@dataclass(frozen=True, eq=False)
class Source:
    """One file that the loader takes: what it holds, as a model and as plain data, and its places' lines."""

    name: str  # below the vocabulary folder: "rules/work.yaml"
    path: Path
    model: BaseModel
    plain: Any
    lines: Lines

    def mistake(self, at: Place, text: str) -> Mistake:
        return Mistake(self.path, line_of(self.lines, at), text)

    def where(self, at: Place) -> str:
        return f"{shown(self.path)}, line {line_of(self.lines, at)}"


Layer = tuple[Source, PartsFile | AppliancePack]


@dataclass(frozen=True, eq=False)
class Opened:
    """All files that the loader takes, the mistakes in those that it refuses, and the folder."""

    sources: tuple[Source, ...]
    refused: tuple[Mistake, ...]
    folder: Path

    def all_of(self, model: type[Model]) -> Iterator[tuple[Source, Model]]:
        """Every file of a shape with what it holds."""
        for source in self.sources:
            if isinstance(source.model, model):
                yield source, source.model

    def one(self, model: type[Model]) -> Model | None:
        """What the one file of a shape holds; None where the loader refuses it."""
        return next((held for _, held in self.all_of(model)), None)

    @property
    def layers(self) -> list[Layer]:
        """parts.yaml, then every pack."""
        return [*self.all_of(PartsFile), *self.all_of(AppliancePack)]

    @property
    def packs(self) -> dict[str, tuple[Source, AppliancePack]]:
        return {pack.kind: (source, pack) for source, pack in self.all_of(AppliancePack)}

    def vocabulary(self) -> Vocabulary | None:
        """The whole; None where any file is refused. It has no digest: no report is made with it."""
        if self.refused:
            return None
        held = {source.name: source.model for source in self.sources}

        def single(name: str, model: type[Model]) -> Model:
            found = held[name]
            assert isinstance(found, model)
            return found

        return Vocabulary(
            parts=single("parts.yaml", PartsFile),
            packs={kind: pack for kind, (_, pack) in self.packs.items()},
            rules=tuple(rule for _, rules in self.all_of(RuleFile) for rule in rules.rules),
            grammar=single("grammar.yaml", Grammar),
            trade=single("trade.yaml", TradeWords),
            makes=single("makes.yaml", MakesFile).makes,
            private=single("private.yaml", PrivateCues),
            measures=Measures(
                numbers=single("numbers.yaml", NumberWords),
                units=single("units.yaml", Units),
                spelling=single("spelling.yaml", Spelling),
                retractions=single("retractions.yaml", Retractions),
            ),
            limits=single("limits.yaml", LimitsFile),
            sums=single("sums.yaml", SumsFile),
            gaps=single("gaps.yaml", GapsFile),
            cautions=single("cautions.yaml", CautionsFile),
            explanations={
                rule.id: rule for _, held in self.all_of(ExplanationsFile) for rule in held.explanations
            },
            drawings={},
            photos=single("photos.yaml", PhotoWords),
            digest="",
        )


def open_vocabulary(shop: Path | None = None) -> Opened:
    """The built-in vocabulary, a shop's files over it. Raises VocabularyError where `shop` is no folder."""
    if shop is not None and not shop.is_dir():
        raise VocabularyError(f"{shop}: is no folder; give a folder laid out like the built-in vocab/")
    sources: list[Source] = []
    refused: list[Mistake] = [*_misnamed(shop)] if shop else []
    for name, path in vocabulary_files(shop).items():
        shape = SINGLE.get(name) or (FOLDERS.get(name.split("/")[0]) if "/" in name else None)
        if shape is None:
            refused.append(Mistake(path, 1, _unread(name)))
            continue
        try:
            plain, lines = read_yaml(path)
            sources.append(Source(name, path, load_yaml(path, shape), plain, lines))
            refused += _undrawn(sources[-1], shop)
        except VocabularyError as fault:
            refused += [_told(line, path) for line in str(fault).splitlines()]
    return Opened(tuple(sources), tuple(refused), shop or data_folder("vocab"))


def _undrawn(source: Source, shop: Path | None) -> Iterator[Mistake]:
    """Explanations whose drawing is missing, or may not stand in a page."""
    if isinstance(source.model, ExplanationsFile):
        for n, rule in enumerate(source.model.explanations):
            try:
                read_drawing(drawing_file(rule.drawing, shop))
            except VocabularyError as fault:
                yield source.mistake(("explanations", n, "drawing"), str(fault))


def shown(path: Path) -> str:
    """The path as short as it can be opened from here."""
    here = Path.cwd()
    return str(path.relative_to(here)) if path.is_relative_to(here) else str(path)


def _told(text: str, path: Path) -> Mistake:
    """A line of the loader's error, `path, line N: what`, as a record."""
    match = _TOLD.fullmatch(text.removeprefix(str(path)))
    return Mistake(path, int(match["line"] or 1), match["text"]) if match else Mistake(path, 1, text)


def _misnamed(shop: Path) -> Iterator[Mistake]:
    for path in sorted(shop.rglob("*.yml")):
        yield Mistake(
            path, 1, f"a file of this name is never read. Name it {path.with_suffix('.yaml').name}."
        )


def _unread(name: str) -> str:
    near = get_close_matches(name.split("/")[0], [*SINGLE, *FOLDERS], 1)
    mend = (
        f'Did you mean "{near[0]}"?'
        if near
        else "A new kind of appliance goes under appliances/, a rule under rules/."
    )
    return f"a file of this name is never read. {mend}"
