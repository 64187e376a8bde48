"""Data flows one way: hear -> tidy -> understand -> judge -> photos -> private -> write; none looks to its right."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest

from fieldnotes.places import PACKAGE

FLOW = ("hear", "tidy", "understand", "judge", "photos", "private", "write")
GROUND = {
    "errors",
    "places",
    "present",
    "staging",
    "bag",
    "settings",
    "words",
    "sounds",
    "transcript",
    "records",
    "vocabulary",
    "wall_clock",
}  # all stages stand on these
TOP = {
    "papers",
    "job_file",
    "sharing",
    "cli",
    "commands",
    "visit",
    "progress",
    "trade_terms",
    "vocabulary_bench",
    "__main__",
}  # these stand on the stages
# What each part may import beside itself, the standard library and other people's packages. Stages hand on
# plain records; tidied text is read by the two that look at single words again.
ALLOWED: dict[str, set[str]] = {
    **dict.fromkeys((*GROUND, "hear", "tidy", "photos", "private", "write"), GROUND),
    "understand": {*GROUND, "tidy"},
    "judge": {*GROUND, "tidy"},  # ratings that were said beside a reading are numbers in words
    **{name: {*GROUND, *FLOW, *TOP} for name in TOP},
    "__init__": set(),
}
HEAVY = {  # the modules that may load each
    "spacy": {"understand/words/nouns.py"},
    "faster_whisper": {"hear/whisper.py"},
    "ctranslate2": {"hear/whisper.py"},
    "av": {"hear/sound.py", "private/silencing.py"},  # it decodes; it writes the silenced copy
    "pint": {"judge/units.py"},
    "CoolProp": {"judge/sums/refrigerant.py"},
    "jinja2": {"write/pages.py", "write/compiled.py"},
    "cryptography": {"bag/keys.py"},
    "typst": {"write/pdf.py"},
    "fontTools": {"write/glyphs.py"},
    "PIL": {"photos/pictures.py"},
    "pi_heif": {"photos/pictures.py"},
}
MODULES = sorted(PACKAGE.rglob("*.py"))


def part_of(path: Path) -> str:
    """`fieldnotes/hear/sound.py` -> hear; `fieldnotes/cli.py` -> cli."""
    return path.relative_to(PACKAGE).with_suffix("").parts[0]


def imports_in(source: str, path: Path) -> Iterator[tuple[int, str]]:
    """Line and full name of everything imported, also inside functions; relative names are made whole."""
    inside = ("fieldnotes", *path.relative_to(PACKAGE).parent.parts)
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, name.name) for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            head = inside[: len(inside) - node.level + 1] if node.level else ()
            module = ".".join([*head, *([node.module] if node.module else [])])
            yield from ((node.lineno, f"{module}.{name.name}") for name in node.names)


def wrong_ways(source: str, path: Path) -> list[str]:
    """Imports of the project's own parts that go against the flow."""
    part, found = part_of(path), []
    for line, name in imports_in(source, path):
        owner, _, rest = name.partition(".")
        target = rest.partition(".")[0]
        if owner == "fieldnotes" and target not in {part, "__version__"} | ALLOWED.get(part, set()):
            found.append(f"{path.relative_to(PACKAGE)}, line {line}: {name}")
    return found


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_module_imports_nothing_to_its_right(path: Path) -> None:
    assert part_of(path) in ALLOWED
    assert wrong_ways(path.read_text(encoding="utf-8"), path) == []


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_heavy_package_is_loaded_in_named_modules_only(path: Path) -> None:
    here = path.relative_to(PACKAGE).as_posix()
    loaded = {name.partition(".")[0] for _, name in imports_in(path.read_text(encoding="utf-8"), path)}

    assert {name: HEAVY[name] for name in loaded & set(HEAVY) if here not in HEAVY[name]} == {}


@pytest.mark.parametrize(("left", "right"), list(pairwise(FLOW)), ids=lambda stage: stage)
def test_import_to_the_right_is_seen_even_in_a_function(left: str, right: str) -> None:
    path = PACKAGE / left / "made_up.py"
    source = f"def late():\n    from fieldnotes.{right}.thing import work\n    from ..{right} import thing\n"

    assert wrong_ways(source, path) == [
        f"{left}/made_up.py, line 2: fieldnotes.{right}.thing.work",
        f"{left}/made_up.py, line 3: fieldnotes.{right}.thing",
    ]


def test_what_is_allowed_keeps_to_the_flow() -> None:
    backwards = {part: ALLOWED[part] & set(FLOW[place + 1 :]) for place, part in enumerate(FLOW)}
    upwards = {part: ALLOWED[part] & {*FLOW, *TOP} for part in GROUND}

    assert not any(backwards.values())
    assert not any(upwards.values())


def test_import_to_the_left_is_allowed() -> None:
    source = "from fieldnotes.tidy.text import TidyText\nfrom fieldnotes.records import Visit\nimport re\n"

    assert wrong_ways(source, PACKAGE / "understand" / "made_up.py") == []
