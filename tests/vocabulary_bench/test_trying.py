"""`vocab try`: every word with what it is taken for, and where that is written."""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path

import pytest
from rich.console import Console

from fieldnotes.errors import FieldnotesError
from fieldnotes.vocabulary_bench.tried_page import show
from fieldnotes.vocabulary_bench.trying import Reported, Seen, Tried, try_sentences


def told(tried: Tried) -> list[Seen]:
    return sorted(tried.seen, key=lambda seen: (seen.first, seen.sort))


def test_names_rules_and_numbers_are_seen_with_their_lines(vocab: Path) -> None:
    tried = try_sentences(["uh the tab is really fine at two hundred volts"], kind="urn")

    assert [tried.words[c.first : c.last] for c in tried.clauses] == [
        ("the", "tab", "is", "really", "fine", "at", "two", "hundred", "volts")
    ]
    assert told(tried) == [
        Seen(2, 3, "name", "part tap (misheard)", "appliances/urn.yaml:7"),
        Seen(4, 6, "rule", "outcome: good (fine)", "rules/fine.yaml:5"),
        Seen(7, 10, "number", "200 V", ""),
    ]


def test_spelled_string_is_seen(vocab: Path) -> None:
    tried = try_sentences(["P X W five zero four two"])

    assert [seen for seen in told(tried) if "spelled" in seen.text] == [
        Seen(0, 7, "number", "spelled PXW5042")
    ]


def test_each_sentence_is_a_breath_of_its_own(vocab: Path) -> None:
    tried = try_sentences(["the tap", "the lid"], kind="urn")

    assert [(c.breath, c.stance) for c in tried.clauses] == [(1, "fact"), (2, "fact")]


def test_stance_is_that_of_its_cue(vocab: Path) -> None:
    tried = try_sentences(["cue for plan the tap all fine"], kind="urn")

    assert ([c.stance for c in tried.clauses], tried.reported) == (["plan"], ())


@pytest.mark.parametrize(
    ("kind", "sentence", "expected"),
    [
        ("urn", "the lid", ("urn", "given")),
        (None, "the tea urn leaks", ("urn", "said")),
        (None, "nothing", (None, "")),
    ],
)
def test_kind_is_told_with_where_it_comes_from(
    vocab: Path, kind: str | None, sentence: str, expected: tuple[str | None, str]
) -> None:
    tried = try_sentences([sentence], kind=kind)

    assert (tried.kind, tried.kind_from if tried.kind else "") == expected


@pytest.mark.parametrize(
    ("sentences", "kind", "message"),
    [
        ([" "], None, "there is no word to be tried"),
        (["..."], "urn", "there is no word to be tried"),
        (["the lid"], "earn", r'--kind "earn" is not in the vocabulary \(big urn, urn\)'),
    ],
)
def test_what_cannot_be_tried_is_told(
    vocab: Path, sentences: list[str], kind: str | None, message: str
) -> None:
    with pytest.raises(FieldnotesError, match=message):
        try_sentences(sentences, kind=kind)


def test_page_shows_a_word_a_row_and_what_is_reported(vocab: Path) -> None:
    tried = try_sentences(["drip tap all fine"], kind="urn")
    plain = io.StringIO()
    show(
        Tried(tried.kind, tried.kind_from, tried.words, tried.clauses, tried.seen, (REPORTED,)),
        Console(file=plain),
    )

    assert [" ".join(line.split()) for line in plain.getvalue().splitlines()] == [
        "Kind of appliance: urn (given)",
        "clause word name rule number",
        "1 fact drip part tap appliances/urn.yaml:5",
        "tap │",
        "all outcome: good (fine) rules/fine.yaml:5",
        "fine │",
        "Would be reported:",
        "checks tap outcome good Tap found good.",
    ]


REPORTED = Reported("checks", "tap", "outcome good", "Tap found good.")


@pytest.mark.parametrize(
    ("arguments", "code", "out", "err"),
    [
        (["try", "the drain pump", "--kind", "dishwasher"], 0, "part drain pump", ""),
        (["show", "dishwasher"], 0, "dishwasher: parts.yaml under appliances/dishwasher.yaml", ""),
        (["show", "dishwahser"], 2, "", 'Did you mean "dishwasher"?'),
        (["check", "nowhere"], 2, "", "nowhere: is no folder"),
        (
            ["check", "SHOP"],
            1,
            "kettle.yaml, line 2: unknown key 'spokn'. Did you mean \"spoken\"?",
            "mistake",
        ),
    ],
    ids=["try", "show", "show unknown", "check nowhere", "check"],
)
def test_commands_end_in_the_right_exit_code(
    tmp_path: Path, arguments: list[str], code: int, out: str, err: str
) -> None:
    (tmp_path / "appliances").mkdir()
    (tmp_path / "appliances" / "kettle.yaml").write_text("kind: kettle\nspokn: [kettle]\n", encoding="utf-8")
    given = [str(tmp_path) if argument == "SHOP" else argument for argument in arguments]
    run = subprocess.run(
        [sys.executable, "-m", "fieldnotes", "vocab", *given], capture_output=True, text=True, check=False
    )

    assert (run.returncode, out in run.stdout, err in run.stderr) == (code, True, True), (
        run.stdout + run.stderr
    )
