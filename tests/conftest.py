"""What holds for every test."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

import fieldnotes.write.pages


@pytest.fixture(scope="session", autouse=True)
def _templates_are_compiled_for_the_tests_alone(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """The developer's own cache is neither used nor filled."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(fieldnotes.write.pages, "USER_CACHE", Path(tmp_path_factory.mktemp("cache")))
        yield
