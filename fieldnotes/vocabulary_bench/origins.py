"""From what was recognised back to the line of the file that it came from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fieldnotes.places import data_folder
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.nouns import SHARED, Name
from fieldnotes.vocabulary.packs import AppliancePack, PartsFile
from fieldnotes.vocabulary.phrase_net import PhraseNet
from fieldnotes.vocabulary.rules import RuleFile
from fieldnotes.vocabulary.yaml_file import line_of
from fieldnotes.vocabulary_bench.names import singular
from fieldnotes.vocabulary_bench.opened import Opened, Place, Source, shown

Slots = Mapping[str, Mapping[int, int]]


class Origins:
    """Looks up entries and rules in the files that were opened."""

    def __init__(self, opened: Opened) -> None:
        self._opened = opened
        self._rules = {
            rule.id: (source, n, rule)
            for source, rules in opened.all_of(RuleFile)
            for n, rule in enumerate(rules.rules)
        }

    def of_name(self, name: Name, words: Sequence[str]) -> str:
        """`appliances/dishwasher.yaml:61`: the phrase that a name was recognised by, or the entry's name."""
        if name.sort == "kind":
            source, pack = self._opened.packs[name.owner]
            return self._line(source, [(("kind",), pack.kind), *_listed(("spoken",), pack.spoken)], words, {})
        held: list[tuple[Source, PartsFile | AppliancePack]] = (
            list(self._opened.all_of(PartsFile)) if name.owner == SHARED else [self._opened.packs[name.owner]]
        )
        for source, layer in held:
            for n, entry in enumerate(getattr(layer, f"{name.sort}s")):
                if entry.name == name.name:
                    at: Place = (f"{name.sort}s", n)
                    phrases = [((*at, "name"), entry.name)]
                    for field in ("spoken", "short", "misheard"):
                        phrases += _listed((*at, field), getattr(entry, field, ()))
                    return self._line(source, phrases, words, {})
        return ""

    def of_mark(self, narration: Narration, mark: Mark) -> str:
        """`rules/work.yaml:41`: the rule's phrase that was found."""
        source, n, rule = self._rules[mark.rule.id]
        slots = {
            "<part>": {m.first - mark.first: m.last - mark.first for m in narration.mentions},
            "<number>": {q.first - mark.first: q.last - mark.first for q in narration.quantities},
        }
        words = narration.words[mark.first : mark.last]
        phrases = [(("rules", n, "id"), ""), *_listed(("rules", n, "phrases"), rule.phrases)]
        return self._line(source, phrases, words, slots)

    def _line(
        self, source: Source, phrases: list[tuple[Place, str]], words: Sequence[str], slots: Slots
    ) -> str:
        """Where the first phrase that stands for the words is written; else where the first of all is."""
        net = PhraseNet((n, phrase) for n, (_, phrase) in enumerate(phrases) if phrase)
        for form in (tuple(words), singular(tuple(words))):
            within = {
                slot: {a: b for a, b in ends.items() if 0 <= a < b <= len(form)}
                for slot, ends in slots.items()
            }
            whole = [key for key, a, b in net.find(form, within, frozenset()) if (a, b) == (0, len(form))]
            if whole:
                return _written(source, phrases[min(whole)][0])
        return _written(source, phrases[0][0])


def _listed(at: Place, phrases: Sequence[str]) -> list[tuple[Place, str]]:
    return [((*at, k), phrase) for k, phrase in enumerate(phrases)]


def _written(source: Source, at: Place) -> str:
    """A shop's file by its path, a built-in one by its name in vocab/."""
    name = source.name if source.path.is_relative_to(data_folder("vocab")) else shown(source.path)
    return f"{name}:{line_of(source.lines, at)}"
