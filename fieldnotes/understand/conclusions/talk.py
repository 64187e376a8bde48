"""Words of causing that blame nothing: talk, plans, and what the speaker did himself."""

from __future__ import annotations

from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration

TALKED_OF = ("about", "know", "wonder", "see", "ask", "asked", "knows", "remember")
TELLING = frozenset(("told", "said", "saying", "telling", "asked", "asking"))
PLANNING = frozenset(("should", "need", "ought", "must", "want", "'ll", "will", "could", "might", "have"))


def only_talks(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether words of causing only tell of talk ("lies about where it came from", "that's what he's told me"), of what
    the speaker did ("I killed the breaker and ..."), of what he will do ("could be I should look"), or which appliance
    it is ("what we got is a dryer")."""
    words, behind = narration.words, narration.words[mark.last : mark.last + 2]
    if _isolates(narration, mark):
        return True
    if mark.value == "certain":
        before = words[mark.first - 1] if mark.first > clause.first else ""
        spoken_of = words[mark.first] in ("where", "what") and before in TALKED_OF
        mine = before in ("i", "we") and words[mark.first] in narration.trade.done_by_hand
        kind = (narration.kind or "").split()[-1:]
        unit = behind[:1] in (("a",), ("an",)) and kind == list(words[clause.last - 1 : clause.last])
        return spoken_of or mine or unit or not TELLING.isdisjoint(behind)
    planned = behind[:1] in (("i",), ("we",)) and not PLANNING.isdisjoint(behind[1:])
    return mark.value == "possible" and planned and not narration.tokens[mark.last - 1].stop


def _isolates(narration: Narration, mark: Mark) -> bool:
    """Whether what was killed is the supply, by the technician ("I killed the two-pole breaker")."""
    return any(
        m.value == "isolated" and m.first < mark.last and mark.first < m.last
        for m in narration.marked("safety", mark.first, mark.last)
    )
