"""Names of things: wordings that stand for two, misheard forms that mean something, names given twice."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import chain
from typing import Literal

from fieldnotes.vocabulary.packs import AppliancePack, PartsFile
from fieldnotes.vocabulary.phrases import Form, PhraseMistake, wordings
from fieldnotes.vocabulary_bench.opened import Layer, Mistake, Opened, Place, Source

Section = Literal["parts", "symptoms", "trials"]
SECTIONS: tuple[Section, ...] = ("parts", "symptoms", "trials")


@dataclass(frozen=True)
class Variant:
    """One way of saying an entry's name, and where it is written."""

    source: Source
    at: Place
    name: str
    phrase: str
    misheard: bool = False

    @property
    def forms(self) -> dict[Form, str]:
        """Its wordings, by their singular; none where the phrase has a mistake of its own."""
        try:
            return {singular(form): " ".join(form) for form in wordings(self.phrase)}
        except PhraseMistake:
            return {}


def layers_of(opened: Opened, kind: str | None) -> list[Layer]:
    """What holds on a kind of appliance: parts.yaml, the wider kind's pack, its own; the last has the say."""
    chain_: list[Layer] = []
    seen: set[str] = set()
    while kind in opened.packs and kind not in seen:
        seen.add(kind)
        source, pack = opened.packs[kind]
        chain_.insert(0, (source, pack))
        kind = pack.wider or ""
    return [*opened.all_of(PartsFile), *chain_]


def variants(layers: Iterable[Layer], section: Section) -> list[Variant]:
    """All ways of saying what stands in a section. An entry replaces an earlier layer's of its name."""
    found: dict[str, list[Variant]] = {}
    for source, layer in layers:
        own: dict[str, list[Variant]] = {}
        for n, entry in enumerate(getattr(layer, section)):
            at: Place = (section, n)
            own.setdefault(entry.name, []).append(Variant(source, (*at, "name"), entry.name, entry.name))
            for field in ("spoken", "short", "misheard"):
                own[entry.name] += [
                    Variant(source, (*at, field, k), entry.name, phrase, field == "misheard")
                    for k, phrase in enumerate(getattr(entry, field, ()))
                ]
        found |= own
    return list(chain.from_iterable(found.values()))


def name_mistakes(opened: Opened) -> Iterator[Mistake]:
    """Every clash once, however many kinds of appliance it touches."""
    yield from _named_twice(opened)
    yield from _kinds(opened)
    told: set[Mistake] = set()
    for kind in (None, *opened.packs):
        layers = layers_of(opened, kind)
        by_section = {section: variants(layers, section) for section in SECTIONS}
        spoken = {
            form: v for found in by_section.values() for v in found if not v.misheard for form in v.forms
        }
        for found in by_section.values():
            told.update(_clashes([v for v in found if not v.misheard], "names"))
        misheard = [v for v in by_section["parts"] if v.misheard]
        told.update(_clashes(misheard, "is misheard for"))
        for variant in misheard:
            for form in sorted(variant.forms.keys() & spoken.keys())[:1]:
                other = spoken[form]
                told.add(
                    variant.source.mistake(
                        variant.at,
                        f'"{variant.forms[form]}" is given as misheard, but it names "{other.name}"'
                        f" ({other.source.where(other.at)}). A misheard form must mean nothing: take it out.",
                    )
                )
    yield from told


def _clashes(found: list[Variant], verb: str) -> Iterator[Mistake]:
    """Two entries that one wording stands for, told at the later of the two variants."""
    first: dict[Form, Variant] = {}
    for variant in found:
        others: set[str] = set()
        for form, said in sorted(variant.forms.items()):
            other = first.setdefault(form, variant)
            if other.name != variant.name and other.name not in others:
                others.add(other.name)
                yield variant.source.mistake(
                    variant.at,
                    f'"{said}" {verb} "{variant.name}", and "{other.name}" as well'
                    f" ({other.source.where(other.at)}). Take it out of one of the two.",
                )


def _named_twice(opened: Opened) -> Iterator[Mistake]:
    for source, layer in opened.layers:
        for section in SECTIONS:
            seen: dict[str, Place] = {}
            for n, entry in enumerate(getattr(layer, section)):
                if entry.name in seen:
                    yield source.mistake(
                        (section, n),
                        f'"{entry.name}" stands in {section} a second time'
                        f" ({source.where(seen[entry.name])}). Make one entry of the two.",
                    )
                seen.setdefault(entry.name, (section, n))


def _kinds(opened: Opened) -> Iterator[Mistake]:
    """Kinds of appliance that are in two files, or said in the same words."""
    kinds: dict[str, Source] = {}
    found: list[Variant] = []
    for source, pack in opened.all_of(AppliancePack):
        if pack.kind in kinds:
            yield source.mistake(
                ("kind",),
                f'the kind "{pack.kind}" is in {kinds[pack.kind].where(("kind",))} already.'
                " Make one file of the two, or give this one the same file name to replace it.",
            )
        kinds.setdefault(pack.kind, source)
        found.append(Variant(source, ("kind",), pack.kind, pack.kind))
        found += [Variant(source, ("spoken", k), pack.kind, phrase) for k, phrase in enumerate(pack.spoken)]
    yield from _clashes(found, "names")


def singular(form: Form) -> Form:
    """The form with its last word in the singular: plurals are understood by themselves."""
    last = form[-1]
    plural = len(last) > 3 and last.endswith("s") and not last.endswith("ss")
    return (*form[:-1], last[:-1]) if plural else form
