"""The visit as plain data for the printed pages: the record itself, with what people read beside each value."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from fieldnotes.records import Evidence, Item, Job, Limit, Reading, Sum, SumInput
from fieldnotes.transcript import Recording
from fieldnotes.write.captions import breath_text, breath_times
from fieldnotes.write.contents import Contents, shown_explanations
from fieldnotes.write.householder import householder
from fieldnotes.write.on_site import local_time, minutes_on_site
from fieldnotes.write.pictures import Picture, pictures
from fieldnotes.write.timeline import WIDE, chart_of
from fieldnotes.write.wording import clock, is_doubtful, is_unnamed, quantity

Photographs = Mapping[int, list[dict[str, str]]]  # by the id of the evidence of their line
Words = Mapping[str, Any]  # what words.jinja says: words, and macros as functions
PAPERS = {"letter": "us-letter", "A4": "a4"}  # Typst's names
_AS_THEY_ARE = {"sha256"}  # to be copied out whole


def printed(contents: Contents, words: Words, fit: Callable[[str], str]) -> dict[str, Any]:
    """What a `.typ` template is given as data.json; listed for its owner at the head of templates/report.typ.

    Args:
        contents: the visit, its transcript and the shop's settings.
        words: from `pages.words_of`.
        fit: makes a text ready for paper (`legible.legible`).
    """
    visit, shop = contents.visit, contents.settings.shop
    breaths = [
        {"text": breath_text(breath), "clock": _clock(breath_times(breath)[0])}
        for breath in contents.transcript.breaths
    ]
    beside_lines, alone = pictures(visit)
    photographs = {key: [_shown(each, words) for each in found] for key, found in beside_lines.items()}
    data = {
        "visit": _plain(visit, words, photographs),
        "shop": _plain(shop, words, {}) | {"logo": logo_file(shop.logo)},
        "words": {name: word for name, word in words.items() if not callable(word)},
        "paper": PAPERS[contents.settings.pages.paper],
        "breaths": [breath for breath in breaths if breath["text"]],
        "notices": list(dict.fromkeys((*visit.notices, *contents.transcript.notices))),
        "struck": words["struck_out"](visit.struck) if visit.struck else None,
        "timeline": words["timeline_summary"](chart) if (chart := chart_of(visit, WIDE)) else None,
        "customer": asdict(householder(visit, words)),
        "explanations": [
            {"title": each.title, "text": list(each.text), "drawing": f"drawing-{n}.svg", "shown": each.alt}
            for n, each in enumerate(shown_explanations(contents))
        ],
        "photographs": [_shown(each, words) for each in alone],
    }
    fitted: dict[str, Any] = _fitted(data, fit)
    return fitted


def logo_file(logo: Path | None) -> str | None:
    """The name under which a template finds the shop's logo."""
    return None if logo is None else f"logo{logo.suffix.lower()}"


def _plain(value: Any, words: Words, photographs: Photographs) -> Any:
    """Records as dictionaries, all the way down."""
    if isinstance(value, BaseModel):
        fields = {name: _plain(getattr(value, name), words, photographs) for name in type(value).model_fields}
        beside = {"photographs": photographs.get(id(value.evidence), [])} if isinstance(value, Item) else {}
        return fields | _read(value, words) | beside
    if isinstance(value, Mapping):
        return {str(name): _plain(each, words, photographs) for name, each in value.items()}
    if isinstance(value, Sequence) and not isinstance(value, str):
        return [_plain(each, words, photographs) for each in value]
    return value


def _read(value: BaseModel, words: Words) -> dict[str, Any]:
    """What people read of a record, beside its fields."""
    match value:
        case Evidence():
            return {"clock": _clock(value.start), "doubtful": is_doubtful(value)}
        case Reading():
            doubt = words["doubt"](value) if value.doubt else None
            written, judged = quantity(value.value, value.unit), words["judged"](value)
            told = {"written": written, "judged": judged, "doubt_text": doubt}
            return {"unnamed": is_unnamed(value)} | told
        case Item():
            return {"unnamed": is_unnamed(value)}
        case Sum():
            return {"written": quantity(value.value, value.unit)}
        case SumInput():
            return {"written": None if value.value is None else quantity(value.value, value.unit)}
        case Limit():
            return {"bounds": words["bounds"](value)}
        case Job():
            minutes = minutes_on_site(value.started, value.ended)
            return {
                "begun": local_time(value.started, value.date),
                "left": local_time(value.ended, value.date),
                "lasted": None if minutes is None else words["duration"](minutes),
            }
        case Recording():
            return {"clock": _clock(value.seconds)}
    return {}


def _shown(picture: Picture, words: Words) -> dict[str, str]:
    return {"file": picture.file, "shown": words["photograph"](picture)}


def _clock(seconds: float | None) -> str | None:
    return None if seconds is None else clock(seconds)


def _fitted(value: Any, fit: Callable[[str], str], name: str = "") -> Any:
    if isinstance(value, str):
        return value if name in _AS_THEY_ARE else fit(value)
    if isinstance(value, Mapping):
        return {str(key): _fitted(each, fit, str(key)) for key, each in value.items()}
    if isinstance(value, Sequence):
        return [_fitted(each, fit) for each in value]
    return value if isinstance(value, int | float | None) else fit(str(value))
