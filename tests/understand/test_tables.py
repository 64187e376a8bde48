"""What the tables themselves have to be."""

from __future__ import annotations

from collections import Counter
from importlib import import_module
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

LEAST_ROWS, LEAST_TRAPS = 12, 4


def tables(module: ModuleType) -> dict[str, list[Any]]:
    return {name: value for name, value in vars(module).items() if isinstance(value, list)}


@pytest.fixture(
    params=sorted(
        p.stem
        for p in Path(__file__).parent.glob("test_*.py")
        if "TRAPS" in p.read_text("utf-8") and p.stem != Path(__file__).stem
    )
)
def module(request: pytest.FixtureRequest) -> ModuleType:
    return import_module(f"{__package__}.{request.param}")


def test_every_file_has_rows_and_traps_enough(module: ModuleType) -> None:
    sizes = {name: len(table) for name, table in tables(module).items()}
    traps = sizes.pop("TRAPS")

    assert sum(sizes.values()) >= LEAST_ROWS
    assert traps >= LEAST_TRAPS


def test_every_row_has_a_name_of_its_own(module: ModuleType) -> None:
    names = Counter(row[0] for table in tables(module).values() for row in table)

    assert [name for name, count in names.items() if count > 1] == []
    assert set(module.NOT_YET) <= set(names)
