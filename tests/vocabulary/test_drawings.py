"""Drawings of explanations: shapes and words, nothing that acts or is fetched."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldnotes.errors import VocabularyError
from fieldnotes.places import data_folder
from fieldnotes.vocabulary.explanations import read_drawing
from fieldnotes.vocabulary.load import load_vocabulary

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">'


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (HEAD + "<script>alert(1)</script></svg>", "<script> may not stand in a drawing"),
        (HEAD + '<path d="M0 0" onclick="alert(1)"/></svg>', 'onclick="alert'),
        (HEAD + '<image href="http://a.example/x.png"/></svg>', "<image> may not"),
        (HEAD + '<rect fill="url(http://a.example/x)"/></svg>', 'fill="url'),
        (HEAD + "<style>* { }</style></svg>", "<style> may not"),
        (HEAD + "<foreignObject/></svg>", "<foreignObject> may not"),
        (HEAD + "\n<path></svg>", r"line 2: is no well-formed SVG"),
        ('<svg xmlns="http://www.w3.org/2000/svg"/>', "with a viewBox"),
        ("<html/>", "with a viewBox"),
    ],
    ids=["script", "handler", "picture", "fetched fill", "style", "html", "broken", "no size", "no svg"],
)
def test_drawing_that_could_do_something_is_refused(tmp_path: Path, text: str, message: str) -> None:
    (tmp_path / "a.svg").write_text(text)

    with pytest.raises(VocabularyError, match=message):
        read_drawing(tmp_path / "a.svg")


def test_missing_drawing_is_refused(tmp_path: Path) -> None:
    with pytest.raises(VocabularyError, match="no such drawing"):
        read_drawing(tmp_path / "gone.svg")


def test_every_drawing_is_used_and_says_what_it_shows() -> None:
    rules = load_vocabulary().explanations.values()

    assert {rule.drawing for rule in rules} == {
        path.name for path in (data_folder("vocab") / "drawings").iterdir()
    }
    assert all(len(rule.alt.split()) > 10 for rule in rules)


def test_shop_adds_a_matter_and_replaces_a_drawing(tmp_path: Path) -> None:
    for name in ("explanations", "drawings"):
        (tmp_path / name).mkdir()
    (tmp_path / "explanations" / "ours.yaml").write_text(
        "explanations:\n  - {id: limescale, title: Limescale, text: [It insulates.], drawing: scale.svg,"
        ' alt: "An element with a crust.", status: "common practice, no source", cues: [limescale],'
        " gives: [descale it against limescale], spares: [weigh it on the scale]}\n"
    )
    (tmp_path / "drawings" / "scale.svg").write_text(HEAD + "</svg>")
    (tmp_path / "drawings" / "foam.svg").write_text(HEAD + '<path d="M0 0"/></svg>')
    vocabulary = load_vocabulary(tmp_path)

    assert vocabulary.explanations["limescale"].title == "Limescale"
    assert "path" in vocabulary.drawings["foam"]
    assert len(vocabulary.drawings["foam"]) < 200 < len(vocabulary.drawings["how-full"])


def test_missing_drawing_of_a_shop_is_told_with_the_rest(tmp_path: Path) -> None:
    (tmp_path / "explanations").mkdir()
    (tmp_path / "explanations" / "ours.yaml").write_text(
        "explanations:\n  - {id: a, title: A, text: [B.], drawing: none.svg, alt: C,"
        ' status: "common practice, no source", cues: [a], gives: [a], spares: [b]}\n'
    )

    with pytest.raises(VocabularyError, match=r"none\.svg: there is no such drawing"):
        load_vocabulary(tmp_path)
