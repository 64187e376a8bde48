"""One understanding for the whole folder: building it takes about a second."""

from __future__ import annotations

import pytest

from fieldnotes.understand.understanding import Understanding
from fieldnotes.vocabulary.load import Vocabulary, load_vocabulary

from .spoken import Understood, understood_by


@pytest.fixture(scope="session")
def vocabulary() -> Vocabulary:
    return load_vocabulary()


@pytest.fixture(scope="session")
def understood(vocabulary: Vocabulary) -> Understood:
    """Said -> findings."""
    return understood_by(vocabulary, Understanding(vocabulary).findings)
