"""An owner's own templates, and mistakes in them."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldnotes.errors import TemplateError

from .visits import page_of

PAGES = sorted(
    path
    for path in (Path(__file__).parents[2] / "templates").iterdir()
    if path.suffix in {".html", ".md", ".txt", ".svg", ".jinja"}
)


def test_own_template_is_laid_over_the_built_in_ones(tmp_path: Path) -> None:
    (tmp_path / "report.md").write_text(
        '{% import "words.jinja" as words %}{{ words.title }}: {{ visit.job.number }}\n'
    )

    assert page_of("report.md", templates=tmp_path) == "Visit report: J-2041\n"
    assert page_of("report.html", templates=tmp_path) == page_of("report.html")


def test_own_style_reaches_the_page(tmp_path: Path) -> None:
    (tmp_path / "report.css").write_text("h1 { color: #123456 }")

    assert "h1 { color: #123456 }" in page_of("report.html", templates=tmp_path)


@pytest.mark.parametrize(
    ("file", "text", "message"),
    [
        ("report.md", "one\ntwo {{ visit.jobb }}", r"report\.md, line 2: .*jobb"),
        ("report.md", "one\n{% if %}", r"report\.md, line 2: "),
        ("report.html", "a\nb\n{{ 61|clokc }}", r"report\.html, line 3: .*clokc"),
        ("report.html", "a\n{{ none|clock }}", r"report\.html, line 2: "),
        ("report.html", "a\n{{ visit.__class__ }}", r"report\.html, line 2: .*unsafe"),
        ("report.html", "a\n{{ missing }}", r"report\.html, line 2: 'missing' is undefined"),
        ("report.html", "a\n\n{% include 'none.html' %}", r"report\.html, line 3: .*none\.html"),
        ("report.css", "a\n{{ gone }}", r"report\.css, line 2: 'gone' is undefined"),
    ],
    ids=["field", "syntax", "filter", "value", "sandbox", "name", "include", "included file"],
)
def test_mistake_is_told_with_file_and_line(tmp_path: Path, file: str, text: str, message: str) -> None:
    (tmp_path / file).write_text(text)

    with pytest.raises(TemplateError, match=message):
        page_of(file if file != "report.css" else "report.html", templates=tmp_path)


def test_template_that_is_not_utf8_is_refused(tmp_path: Path) -> None:
    (tmp_path / "report.html").write_bytes(b"caf\xe9")

    with pytest.raises(TemplateError, match="not UTF-8"):
        page_of("report.html", templates=tmp_path)


def test_missing_folder_of_templates_is_refused(tmp_path: Path) -> None:
    with pytest.raises(TemplateError, match="no such folder"):
        page_of("report.html", templates=tmp_path / "nowhere")


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.name)
def test_built_in_templates_leave_the_escaping_alone(path: Path) -> None:
    """`|safe` and `~` are the two ways round it; a head comment tells the owner which names there are."""
    text = path.read_text(encoding="utf-8")

    assert "|safe" not in text.replace(" ", "")
    assert "~" not in text
    assert text.startswith("{#")
