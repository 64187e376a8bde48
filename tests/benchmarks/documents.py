"""How long all documents of a visit of 100 items take: python -m tests.benchmarks.documents [--rounds 4] [--folder DIR]

The visit is made up, the recording a stub; the first round is cold (templates and fonts are read), the others warm.
"""

from __future__ import annotations

import argparse
import tempfile
import time
from pathlib import Path

from fieldnotes.papers import papers
from fieldnotes.settings import Settings
from fieldnotes.vocabulary.load import load_vocabulary
from fieldnotes.write.documents import documents
from tests.write.generated_visits import transcript_of, visit_of_eighty


def main() -> None:
    """Prints the seconds of striking and of all documents, round by round."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=4)
    parser.add_argument("--folder", type=Path, help="where the documents are kept to be looked at")
    given = parser.parse_args()
    eighty = visit_of_eighty()
    visit = eighty.model_copy(update={"checks": (*eighty.checks, *eighty.checks[:20])})
    transcript = transcript_of(visit)
    vocabulary = load_vocabulary()
    folder = given.folder or Path(tempfile.mkdtemp())
    folder.mkdir(parents=True, exist_ok=True)
    for n in range(given.rounds):
        begin = time.perf_counter()
        both = papers(visit, transcript, Settings(), vocabulary)
        struck = time.perf_counter()
        made = documents(both.office, both.claim)
        end = time.perf_counter()
        print(f"round {n + 1}: striking {struck - begin:.3f} s, {len(made)} documents {end - struck:.3f} s")
    for name, content in made.items():
        (folder / name).write_bytes(content)
    print(folder)


if __name__ == "__main__":
    main()
