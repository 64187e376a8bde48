"""Pages from the templates, in a sandbox; the owner's own lie over the built-in ones."""

from __future__ import annotations

import re
import traceback
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from functools import cache, partial
from pathlib import Path
from typing import Any

import jinja2
from jinja2.runtime import Context
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from fieldnotes.errors import TemplateError
from fieldnotes.places import USER_CACHE, data_folder
from fieldnotes.write import wording
from fieldnotes.write.captions import breath_text, breath_times
from fieldnotes.write.compiled import CompiledTemplates
from fieldnotes.write.contents import Contents, shown_explanations
from fieldnotes.write.householder import householder
from fieldnotes.write.logo import logo_link
from fieldnotes.write.markdown_text import markdown_text
from fieldnotes.write.on_site import local_time, minutes_on_site
from fieldnotes.write.pictures import pictures
from fieldnotes.write.plain_text import plain_text
from fieldnotes.write.playback import file_link, is_sound, media_link
from fieldnotes.write.timeline import NARROW, WIDE, chart_of

# how a value becomes text of a page, by the ending of its name
WRITERS: dict[str, Callable[[str], str]] = {
    ".html": wording.one_line,
    ".md": markdown_text,
    ".txt": plain_text,
    ".svg": wording.one_line,
    ".typ": lambda text: Markup(wording.one_line(text)),  # goes as data to Typst, where nothing is markup
}
WORDS, TIMELINE = "words.jinja", "timeline.svg"
TEMPLATES = {*WRITERS, ".jinja", ".css", ".js"}  # endings
_EMPTY_LINES = re.compile(r"\n([ ]*\n){2,}")


def render_pages(contents: Contents, pages: Iterable[str]) -> dict[str, str]:
    """The text of each page by file name. Raises TemplateError with the template's file and line."""
    folders = template_folders(contents.settings.pages.templates)
    names = _names(contents)
    return {page: _render(page, _environment(folders, Path(page).suffix), names) for page in pages}


def timeline_svg(contents: Contents) -> str:
    """The timeline as a drawing that carries its own colours, for an image; empty where no item has a time.

    Raises TemplateError with the template's file and line.
    """
    if chart_of(contents.visit, WIDE) is None:
        return ""
    return render_pages(contents, [TIMELINE])[TIMELINE]


def template_folders(own: Path | None) -> tuple[Path, ...]:
    """Where templates are looked for, the first first. Raises TemplateError where the owner's folder is missing."""
    if own is not None and not own.is_dir():
        raise TemplateError(f"{own}: there is no such folder of templates; check the path")
    return (*([own] if own else []), data_folder("templates"))


def _names(contents: Contents) -> dict[str, Any]:
    """All that a template may use; listed for its owner at the head of templates/report.html."""
    visit, transcript, beside = contents.visit, contents.transcript, contents.beside
    recordings = visit.recording
    breaths = []
    beside_lines, alone = pictures(visit)
    for breath in transcript.breaths:
        start, end = breath_times(breath)
        part = breath.part if breath.part < len(recordings) else None
        link = media_link(recordings, start, end, part, beside)
        breaths.append({"text": breath_text(breath), "start": start, "link": link})
    return {
        "visit": visit,
        "shop": contents.settings.shop,
        "logo": logo_link(contents.settings.shop.logo),
        "customer": householder(visit, words_of(contents.settings.pages.templates)),
        "explanations": [
            {"title": each.title, "text": each.text, "alt": each.alt, "drawing": Markup(each.drawing)}
            for each in shown_explanations(contents)
        ],
        "breaths": [breath for breath in breaths if breath["text"]],
        "notices": list(dict.fromkeys((*visit.notices, *transcript.notices))),
        "photos_of": lambda item: beside_lines.get(id(item.evidence), []),
        "other_photos": alone,
        "sounds": [r for r in recordings if is_sound(r)],
        "play": lambda evidence: media_link(recordings, evidence.start, evidence.end, beside=beside),
        "minutes_on_site": minutes_on_site(visit.job.started, visit.job.ended),
        "file_link": lambda file: beside + file_link(file),
        "timeline": {"wide": chart_of(visit, WIDE), "narrow": chart_of(visit, NARROW)},
    }


@cache
def _environment(folders: tuple[Path, ...], ending: str) -> jinja2.Environment:
    """Templates in which nothing can be forgotten: every value passes through the page's writer and escaping.

    Kept for the next visit; a template that was changed in between is read again.
    """
    environment = ImmutableSandboxedEnvironment(
        loader=jinja2.ChoiceLoader([jinja2.FileSystemLoader(folder) for folder in folders]),
        undefined=jinja2.StrictUndefined,
        autoescape=True,
        finalize=jinja2.pass_context(partial(_finalize, WRITERS[ending])),  # never called while compiling
        bytecode_cache=CompiledTemplates(USER_CACHE),
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters |= {
        "clock": wording.clock,
        "local_time": local_time,
        "number": wording.number,
        "quantity": wording.quantity,
        "sentence": wording.sentence,
    }
    environment.tests |= {
        "doubtful": wording.is_doubtful,
        "unnamed": wording.is_unnamed,
    }
    return environment


def _finalize(write: Callable[[str], str], context: Context, value: Any) -> Any:
    """Markup was made by a template itself; what is not there leaves nothing; all else is written as text."""
    if value is None:
        return ""
    return value if isinstance(value, Markup | jinja2.Undefined) else write(str(value))


def words_of(own: Path | None) -> dict[str, Any]:
    """What words.jinja says, by name, for printed pages: words as data, and its macros as functions that give text.

    Raises TemplateError with the template's file and line, the macros too.
    """
    environment = _environment(template_folders(own), ".typ")
    with _words_read(environment):
        module = environment.get_template(WORDS).module
    names = {name: word for name, word in vars(module).items() if not name.startswith("_")}
    return {name: _telling(word, environment) if callable(word) else word for name, word in names.items()}


def _telling(macro: Callable[..., Any], environment: jinja2.Environment) -> Callable[..., str]:
    def text(*values: Any) -> str:
        with _words_read(environment):
            return str(macro(*values))

    return text


@contextmanager
def _words_read(environment: jinja2.Environment) -> Iterator[None]:
    with _faults_told(WORDS):
        try:
            yield
        except Exception:
            environment.handle_exception()  # gives the template's own lines; render() does so by itself


def _render(page: str, environment: jinja2.Environment, names: dict[str, Any]) -> str:
    with _faults_told(page):
        # values are on one line each, so only the template's own empty lines are squeezed
        return _EMPTY_LINES.sub("\n\n", environment.get_template(page).render(names)).strip() + "\n"


@contextmanager
def _faults_told(page: str) -> Iterator[None]:
    """Turns whatever goes wrong in a template into a TemplateError with file and line."""
    try:
        yield
    except jinja2.TemplateSyntaxError as fault:
        raise TemplateError(
            f"{fault.filename or fault.name}, line {fault.lineno}: {fault.message}"
        ) from fault
    except jinja2.TemplateNotFound as fault:
        raise TemplateError(f"{_place(fault, page)}: there is no template {fault.name}") from fault
    except UnicodeDecodeError as fault:
        raise TemplateError(f"{page}: the template is not UTF-8 text; save it as UTF-8") from fault
    except Exception as fault:  # a template can fail in any way that its expressions can
        raise TemplateError(
            f"{_place(fault, page)}: {fault}; the names that may be used stand at the head of {page}"
        ) from fault


def _place(fault: BaseException, page: str) -> str:
    """File and line of the template; Jinja gives its own frames the template's file name and line."""
    frames = traceback.extract_tb(fault.__traceback__)
    inside = [frame for frame in frames if Path(frame.filename).suffix in TEMPLATES]
    return f"{inside[-1].filename}, line {inside[-1].lineno}" if inside else page
