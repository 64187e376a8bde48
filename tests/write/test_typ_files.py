"""A shop's own .typ templates, mistakes in them, and what none of them can do."""

from __future__ import annotations

import socket
from pathlib import Path
from typing import NoReturn

import pytest

from fieldnotes.errors import TemplateError
from fieldnotes.write.typ_files import read_typ_files, typ_files

from .pdf_reader import contents_of, pdf_of

HEAD = '#import "sections.typ": *\n#show: paper.with(words.title)\n'
BUILT_IN = Path(__file__).parents[2] / "templates"


def write(folder: Path, text: str, name: str = "report.typ") -> Path:
    (folder / name).write_text(text, encoding="utf-8")
    return folder


def test_own_template_is_laid_over_the_built_in_ones(tmp_path: Path) -> None:
    own = write(tmp_path, HEAD + '#section("unit")\nMine: #visit.job.number')

    assert "Mine:J-2041" in pdf_of("report.pdf", contents_of(templates=own)).text
    assert pdf_of("claim.pdf", contents_of(templates=own)).content == pdf_of("claim.pdf").content


def test_own_words_reach_the_printed_page(tmp_path: Path) -> None:
    words = (BUILT_IN / "words.jinja").read_text(encoding="utf-8")
    own = write(tmp_path, words.replace('"Check list"', '"Prüfliste"'), "words.jinja")

    assert "Prüfliste" in pdf_of("report.pdf", contents_of(templates=own)).headings


def test_own_look_picture_and_part_are_found(tmp_path: Path) -> None:
    (tmp_path / "stamp.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>')
    write(tmp_path, "Part of ours.", "ours.typ")
    own = write(tmp_path, HEAD + '#image("stamp.svg", alt: "a stamp")\n#include "ours.typ"\n')

    assert "Partofours." in pdf_of("report.pdf", contents_of(templates=own)).text


@pytest.mark.parametrize(
    ("file", "text", "message"),
    [
        ("report.typ", "one\n#visit.job", r"report\.typ, line 2: unknown variable: visit"),
        ("report.typ", HEAD + "\n#visit.jobb", r'report\.typ, line 4: .*does not contain key "jobb"'),
        ("report.typ", HEAD + "\n\n#if {", r"report\.typ, line 5: unclosed delimiter"),
        ("report.typ", HEAD + "#lines(3)", r"line \d+: cannot loop over integer"),
        ("report.typ", HEAD + '#image("gone.svg", alt: "x")', r"report\.typ, line 3: file not found \(gone\.svg\)$"),
        ("report.typ", HEAD + '#image("timeline.svg")', r"report\.typ, line 3: .*missing alt"),
        ("report.typ", HEAD + "中", r"report\.typ, line 3: .*could not be displayed"),
        ("report.typ", "no title", r"report\.typ.*missing document title"),
        ("paper.typ", "#let paper(a, b) = b\n#let x = gone", r"paper\.typ, line 2: unknown variable: gone"),
        ("words.jinja", "a\n{% if %}", r"words\.jinja, line 2: "),
    ],
    ids=[
        "name", "field", "syntax", "value", "picture", "picture without words", "sign that no font has",
        "no title", "look", "words",
    ],
)  # fmt: skip
def test_mistake_is_told_with_file_and_line(tmp_path: Path, file: str, text: str, message: str) -> None:
    own = write(tmp_path, text, file)

    with pytest.raises(TemplateError, match=message) as told:
        pdf_of("report.pdf", contents_of(templates=own))
    assert str(tmp_path) in str(told.value) or file == "report.typ"
    assert "\n" not in str(told.value)


def test_mistake_in_a_macro_of_the_words_is_told_with_its_line(tmp_path: Path) -> None:
    lines = (BUILT_IN / "words.jinja").read_text(encoding="utf-8").splitlines()
    number = next(n for n, line in enumerate(lines) if "judgement[reading.judgement]" in line)
    lines[number] = lines[number].replace("reading.judgement", "reading.gone")
    own = write(tmp_path, "\n".join(lines), "words.jinja")

    with pytest.raises(TemplateError, match=rf"words\.jinja, line {number + 1}: .*gone"):
        pdf_of("report.pdf", contents_of(templates=own))


def test_template_that_is_not_utf8_is_refused(tmp_path: Path) -> None:
    (tmp_path / "report.typ").write_bytes(b"caf\xe9")

    with pytest.raises(TemplateError, match=r"report\.typ: the template is not UTF-8"):
        pdf_of("report.pdf", contents_of(templates=tmp_path))


def test_font_that_is_none_is_told(tmp_path: Path) -> None:
    (tmp_path / "fonts").mkdir()
    (tmp_path / "fonts" / "ours.ttf").write_bytes(b"no font")

    with pytest.raises(TemplateError, match=r"ours\.ttf: is no font that can be read"):
        pdf_of("report.pdf", contents_of(templates=tmp_path))


LOADING = [
    '#import "@preview/thing:1.0.0": x', '#import "@local/thing:1.0.0"', '#include "@preview/thing:1.0.0"',
    '#let n = "@preview/thing:1.0.0"\n#import n: x', '#{import ("@preview/thing:1.0.0")}',
    '#import "\\u{40}preview/thing:1.0.0"', '#import "gone.typ"', '#import "../paper.typ"', '#import "/paper.typ"',
    '#{import "paper.typ".replace("paper.typ", "@preview/thing:1.0.0")}',
    '#{import "paper.typ"\n.replace("paper.typ", "@preview/thing:1.0.0")}',
    '#{import "paper.typ" /* x */ .replace("paper.typ", "@preview/thing:1.0.0")}',
    '#{import "paper.typ" /* /* */ */ .replace("paper.typ", "@preview/thing:1.0.0")}',
    '#{import "paper.typ" // x\u2028 .replace("paper.typ", "@preview/thing:1.0.0")}',
    '#{include /* x */ "@preview/thing:1.0.0"}', "$x_#include(\"@preview/thing:1.0.0\")$", "Parts include a pump.",
]  # fmt: skip
RUNNING = [
    '#eval("1")', '#let e = eval\n#e("1")', '#std.eval("1")', '#dictionary(std).at("ev" + "al")("1")',
    '#import std: *', '$x_std.eval("1")$', '$2eval("1")$', "// eval", '#("a").map(eval)',
]  # fmt: skip


@pytest.mark.parametrize("text", [*LOADING, *RUNNING])
def test_template_that_could_reach_outside_is_refused(
    tmp_path: Path, text: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Before Typst sees it: no socket is opened."""

    def refuse(*_: object) -> NoReturn:
        raise AssertionError("Typst was called")

    monkeypatch.setattr("typst.compile", refuse)
    own = write(tmp_path, f"one\n{text}")

    with pytest.raises(TemplateError, match=r"report\.typ, line [23]: .*(not allowed|may only stand)"):
        pdf_of("report.pdf", contents_of(templates=own))


@pytest.mark.parametrize(
    "text",
    [
        '#import "paper.typ": *', '#import "paper.typ" as look', '#import "paper.typ"', '#include "paper.typ"',
        '#include "paper.typ" // the look\nand on', '#{import "paper.typ" /* x */; 1}', "Parts included; medieval.",
    ],
)  # fmt: skip
def test_another_template_may_be_loaded(tmp_path: Path, text: str) -> None:
    own = write(tmp_path, text)
    files = typ_files((own, BUILT_IN))

    assert read_typ_files(files)["report.typ"] == text.encode()


@pytest.mark.parametrize(
    "code",
    [
        '#read("/etc/hostname")', '#read("../secret.txt")', '#read("secret.txt")', '#json("/proc/self/environ")',
        '#image("/etc/hostname")', '#plugin("secret.txt")', '#pdf.attach("../secret.txt")', '#csv("~/.netrc")',
    ],
)  # fmt: skip
def test_template_reads_nothing_but_what_it_is_given(
    tmp_path: Path, code: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Neither the disk nor the present folder nor what lies beside the templates."""
    (tmp_path / "secret.txt").write_text("secret")
    own = tmp_path / "templates"
    own.mkdir()
    (own / "secret.txt").write_text("secret")
    write(own, HEAD + code)
    monkeypatch.chdir(tmp_path)

    with pytest.raises(TemplateError, match=r"report\.typ, line 3: .*(not found|escape)"):
        pdf_of("report.pdf", contents_of(templates=own))


def test_no_socket_is_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    """Python's sockets only; Typst's own would need a package name, which is refused above."""

    def refuse(*_: object, **__: object) -> NoReturn:
        raise AssertionError("a socket was opened")

    monkeypatch.setattr(socket, "socket", refuse)

    assert pdf_of("report.pdf").pages


@pytest.mark.parametrize(
    "name", ["report.typ", "claim.typ", "customer.typ", "sections.typ", "lines.typ", "paper.typ"]
)
def test_built_in_templates_tell_their_owner_what_they_are(name: str) -> None:
    text = (BUILT_IN / name).read_text(encoding="utf-8")

    assert text.startswith("// ")
    assert "--templates" in text or "report.typ" in text


def test_letters_and_licences_travel_with_the_templates() -> None:
    fonts = {path.name: path for path in (BUILT_IN / "fonts").iterdir()}

    assert {"OFL.txt", "DejaVu-LICENSE.txt", "README.md"} <= set(fonts)
    assert sum(path.stat().st_size for path in fonts.values()) < 3_000_000
