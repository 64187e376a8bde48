"""What the customer is told, on the web page and in print: the record in plain words, less what is the office's."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from fieldnotes.records import Check, Item, Part, Visit
from fieldnotes.write.wording import is_doubtful, plainly, sentence


@dataclass(frozen=True, slots=True)
class Looked:
    """A thing that was looked at, and how it was found last."""

    about: str
    outcome: str
    written: str  # the outcome in words


@dataclass(frozen=True, slots=True)
class Householder:
    """Lines for the customer, section by section. What was heard unclearly is in none of them."""

    safety: tuple[str, ...]
    complaints: tuple[str, ...]
    finding: str  # "" where there is none
    causes: tuple[str, ...]
    work: tuple[str, ...]
    to_come: tuple[str, ...]
    advice: tuple[str, ...]
    checks: tuple[Looked, ...]
    cautions: tuple[str, ...]

    def is_empty(self) -> bool:
        """Whether there is nothing that the customer could be told."""
        told = (self.safety, self.complaints, self.causes, self.work, self.to_come, self.advice, self.checks)
        return not self.finding and not any(told)


def householder(visit: Visit, words: Mapping[str, Any]) -> Householder:
    """The visit for the customer; `words` are those of words.jinja, from `pages.words_of`."""

    def lines(items: Sequence[Item]) -> tuple[str, ...]:
        return tuple(_line(item, words) for item in items if not is_doubtful(item.evidence))

    replaced = {one.about for one in visit.work if one.action == "replaced" and not is_doubtful(one.evidence)}
    fitted = [
        part
        for part in visit.parts
        if part.status == "fitted" and (part.about not in replaced or part.quantity != 1)
    ]  # a part that was replaced is told once
    open_parts = [part for part in visit.parts if part.status != "fitted"]
    state = [item for item in visit.safety if not _trade_only(item, words["customer_not_told"])]
    verdict = visit.verdict
    clear = verdict.evidence is None or not is_doubtful(verdict.evidence)
    causes = [cause for cause in visit.causes if not is_doubtful(cause.evidence)]
    cautions = tuple(caution.for_customer for caution in visit.cautions if caution.for_customer)
    return Householder(
        safety=lines(state),
        complaints=lines(visit.complaints),
        finding=words["customer_finding"][verdict.finding] if verdict.finding and clear else "",
        causes=tuple(words["customer_certainty"][one.certainty] + _line(one, words) for one in causes),
        work=lines([*visit.work, *fitted]),
        to_come=lines([*open_parts, *visit.follow_ups]),
        advice=lines(visit.advice),
        checks=_looked_at(visit.checks, words),
        cautions=cautions if len(cautions) > 1 else (),  # the deferral alone says nothing
    )


def _line(item: Item, words: Mapping[str, Any]) -> str:
    text = plainly(item.text or item.about, words["customer_instead"])
    return f"{text} ({item.quantity} ×)" if isinstance(item, Part) and item.quantity != 1 else text


def _trade_only(item: Item, names: Sequence[str]) -> bool:
    """Whether it is about nothing but steps of the technician: "power disconnected; supply shut"."""
    return all(each in names for each in item.about.split("; "))


def _looked_at(checks: Sequence[Check], words: Mapping[str, Any]) -> tuple[Looked, ...]:
    """Each thing once, in the order and with the outcome of its last check."""
    last: dict[str, Check] = {}
    for check in checks:
        if not is_doubtful(check.evidence):
            last.pop(check.about, None)
            last[check.about] = check
    return tuple(
        Looked(
            words["customer_named"].get(about, sentence(about)),
            check.outcome,
            words["customer_outcome"][check.outcome],
        )
        for about, check in last.items()
    )
