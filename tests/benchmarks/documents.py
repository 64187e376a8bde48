"""How long all documents of a visit of 100 items take: python -m tests.benchmarks.documents [--rounds 3] [--folder DIR]

The visit is made up, the recording a stub. Each round is a process of its own, which writes the documents twice: at
first templates, phrases and fonts have to be read. Before the first round nothing was compiled, as after installing.
"""

from __future__ import annotations

import argparse
import multiprocessing
import tempfile
import time
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import fieldnotes.write.pages
from fieldnotes.papers import papers
from fieldnotes.settings import Settings
from fieldnotes.vocabulary.load import load_vocabulary
from fieldnotes.write.documents import documents
from tests.write.generated_visits import transcript_of, visit_of_eighty

Seconds = tuple[float, float]  # of striking out private words, and of the documents


def main() -> None:
    """Prints the seconds of striking and of all documents, round by round."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--folder", type=Path, help="where the documents are kept to be looked at")
    given = parser.parse_args()
    folder = given.folder or Path(tempfile.mkdtemp())
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as cache:
        for n in range(given.rounds):
            with ProcessPoolExecutor(1, multiprocessing.get_context("spawn")) as fresh:
                first, again = fresh.submit(_round, folder, Path(cache)).result()
            kept = "templates kept" if n else "no templates kept"
            print(f"process {n + 1} ({kept}): {_told(first)}; the same again: {_told(again)}")
    print(folder)


def _told(seconds: Seconds) -> str:
    striking, writing = seconds
    return f"striking {striking:.2f} s + documents {writing:.2f} s = {striking + writing:.2f} s"


def _round(folder: Path, cache: Path) -> tuple[Seconds, Seconds]:
    setattr(fieldnotes.write.pages, "USER_CACHE", cache)  # noqa: B010 - a constant to all others
    eighty = visit_of_eighty()
    visit = eighty.model_copy(update={"checks": (*eighty.checks, *eighty.checks[:20])})
    transcript = transcript_of(visit)
    vocabulary = load_vocabulary()

    def timed() -> Seconds:
        begin = time.perf_counter()
        both = papers(visit, transcript, Settings(), vocabulary)
        struck = time.perf_counter()
        made = documents(both.office, both.claim)
        end = time.perf_counter()
        for name, content in made.items():
            (folder / name).write_bytes(content)
        return struck - begin, end - struck

    return timed(), timed()


if __name__ == "__main__":
    main()
