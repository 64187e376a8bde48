"""verify, seal, amend, share and key new, as they are called."""

from __future__ import annotations

import io
import json
import zipfile
from pathlib import Path

import numpy as np
import pytest

from fieldnotes.bag import verify
from fieldnotes.hear.sound import RATE, SoundFile
from tests.hear.sounds import Beeper, write_sound
from tests.write.pdf_reader import Pdf

from .conftest import Run, files_in

PRIVATE = (
    "Dishwasher, serial K4 0718822.\nThe customer is Dorothy Tansley, her number's 202 555 0134.\n"
    "The gate code is 4471.\nThe drain pump is seized, that's the cause.\n"
)
WORDS = ("Tansley", "Dorothy", "0134", "4471")


@pytest.fixture
def job(run: Run, here: Path) -> Path:
    """A job folder with private words in it, and a key."""
    (here / "private.txt").write_text(PRIVATE)
    run("write", "private.txt", "--out", "job", "--customer", "Dorothy Tansley")
    run("key", "new", "office.key")
    return here / "job"


def text_of(folder: Path) -> str:
    """All that can be read in a folder: of a PDF its letters and what is attached, else every file as it is."""
    texts = []
    for name, content in files_in(folder).items():
        if content is not None and name.endswith(".pdf"):
            page = Pdf(content)
            with page.opened() as file:
                texts += [
                    page.text,
                    *(str(each.get_file().read_bytes()) for each in file.attachments.values()),
                ]
                texts += [str(value) for value in dict(file.docinfo.items()).values()]
        elif content is not None:
            texts.append(content.decode(errors="ignore"))
    return "\n".join(texts)


def test_whole_folder_is_said_to_be_whole(run: Run, job: Path) -> None:
    ran = run("verify", "job")

    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith("job is whole: ")
    assert "carries no seal: this shows only that nothing changed by accident" in ran.out


def test_changed_file_is_named_and_ends_in_one(run: Run, job: Path) -> None:
    (job / "data" / "report.md").write_text("better")
    ran = run("verify", "job")

    assert ran.code == 1
    assert "changed: data/report.md\n" in ran.out
    assert ran.err == "job is not as it was: 1 problem\n"


def test_folder_that_is_no_job_is_refused(run: Run, here: Path) -> None:
    (here / "other").mkdir()
    ran = run("verify", "other")

    assert (ran.code, ran.out) == (2, "")
    assert "other is no job folder" in ran.err


def test_seal_is_seen_and_guards_the_folder(run: Run, job: Path) -> None:
    sealed = run("seal", "job", "--key", "office.key", "--signer", "A. Lind, office")
    ran = run("verify", "job", "--key", "office.key.pub")
    again = run("write", "private.txt", "--out", "job", "--replace")

    assert (sealed.code, sealed.out) == (0, "job/seals/seal-1.json\n")
    assert (
        "seal 1 holds: A. Lind, office sealed the folder on 2026-03-10 at 12:00:00 UTC with key " in ran.out
    )
    assert again.code == 2
    assert "is sealed and is not replaced; add a later version: fieldnotes amend" in again.err


def test_altered_folder_is_not_sealed(run: Run, job: Path) -> None:
    (job / "data" / "report.md").write_text("better")
    ran = run("seal", "job", "--key", "office.key", "--signer", "A. Lind")

    assert ran.code == 2
    assert not (job / "seals").exists()


def corrected(job: Path) -> dict[str, object]:
    record: dict[str, object] = json.loads((job / "data" / "visit.json").read_text())
    record["appliance"]["serial"] = "K40718829"  # type: ignore[index]
    return record


def test_later_version_stands_beside_the_earlier(run: Run, here: Path, job: Path) -> None:
    run("seal", "job", "--key", "office.key", "--signer", "A. Lind")
    before = files_in(job)
    (here / "corrected.json").write_text(json.dumps(corrected(job)))
    ran = run("amend", "job", "--record", "corrected.json", "--reason", "serial", "--by", "A. Lind")

    assert (ran.code, ran.out) == (0, f"{job}/data/version-2/report.html\n")
    after = files_in(job)
    kept = {name: content for name, content in before.items() if name.startswith(("data/", "seals/"))}
    assert {name: after[name] for name in kept} == kept
    assert "K40718829" in (job / "data" / "version-2" / "report.html").read_text()
    told = json.loads((job / "data" / "version-2" / "amendment.json").read_text())
    assert (told["version"], told["reason"], told["by"]) == (2, "serial", "A. Lind")
    assert (verify(job).problems, verify(job).versions) == ((), 2)
    assert "seal 1 holds: A. Lind sealed version 1 of 2 on " in run("verify", "job").out


@pytest.mark.parametrize(
    ("record", "message"),
    [
        (lambda one: one, "says the same as the present version"),
        (lambda one: {**corrected_recordings(one)}, "is of other recordings"),
        (lambda one: {**one, "colour": "red"}, "is no visit record: colour: "),
        (lambda one: None, "cannot be read"),
    ],
    ids=["nothing new", "other recordings", "unknown field", "missing"],
)
def test_record_that_will_not_do_is_refused(
    run: Run, here: Path, job: Path, record: object, message: str
) -> None:
    present = json.loads((job / "data" / "visit.json").read_text())
    made = record(present)  # type: ignore[operator]
    if made is not None:
        (here / "corrected.json").write_text(json.dumps(made))
    before = files_in(job)
    ran = run("amend", "job", "--record", "corrected.json", "--reason", "x", "--by", "y")

    assert ran.code == 2
    assert message in ran.err
    assert files_in(job) == before


def corrected_recordings(record: dict[str, object]) -> dict[str, object]:
    return {**record, "recording": []}


def test_claim_sheet_has_no_private_words_and_the_report_has_them(job: Path) -> None:
    claim = (job / "data" / "claim.html").read_text()
    report = (job / "data" / "report.html").read_text()

    assert [word for word in WORDS if word in claim] == []
    assert [word for word in WORDS if word in report] == list(WORDS)
    assert "K4 0718822" in claim or "K40718822" in claim


def test_all_documents_are_struck_on_request(run: Run, here: Path, job: Path) -> None:
    run("write", "private.txt", "--out", "struck", "--customer", "Dorothy Tansley", "--strike-private")
    (here / "struck" / "data" / "private.txt").unlink()  # the shop's own source stays as it was

    assert [word for word in WORDS if word in text_of(here / "struck" / "data")] == []


def unpacked(path: Path, folder: Path) -> Path:
    with zipfile.ZipFile(path) as archive:
        archive.extractall(folder)
    return folder / path.stem


def test_copy_for_a_claim_holds_nothing_private(run: Run, here: Path, job: Path) -> None:
    ran = run("share", "job", "--for", "claim", "--out", "claim.zip")
    copy = unpacked(here / "claim.zip", here / "unpacked")

    assert (ran.code, ran.out) == (0, "claim.zip\n")
    assert "code: 1" in ran.err
    assert "Not everything private can be found" in ran.err
    assert [word for word in WORDS if word in text_of(copy)] == []
    assert verify(copy).problems == ()
    assert not (copy / "data" / "private.txt").exists()


def test_copy_for_the_customer_holds_the_customer_page_alone(run: Run, here: Path, job: Path) -> None:
    run("share", "job", "--for", "customer", "--out", "copy.zip")
    copy = unpacked(here / "copy.zip", here / "unpacked")

    assert {name.split(".")[0] for name, content in files_in(copy / "data").items() if content} == {
        "customer"
    }
    assert verify(copy).problems == ()


def test_same_folder_gives_the_same_copy(run: Run, here: Path, job: Path) -> None:
    for name in ("one.zip", "one-again.zip"):
        run("share", "job", "--for", "claim", "--out", name)
    contents = []
    for name in ("one.zip", "one-again.zip"):
        with zipfile.ZipFile(io.BytesIO((here / name).read_bytes())) as archive:
            contents.append([archive.read(entry) for entry in archive.infolist()])

    assert contents[0] == contents[1]


def test_copy_is_never_written_over(run: Run, here: Path, job: Path) -> None:
    (here / "claim.zip").write_text("precious")
    ran = run("share", "job", "--for", "claim", "--out", "claim.zip")

    assert ran.code == 2
    assert (here / "claim.zip").read_text() == "precious"


def test_sound_is_silent_where_private_words_were_said(
    run: Run, here: Path, engines: list[Beeper], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A tone of six seconds under captions: silent for the name and the number, sounding under all else."""
    tone = (np.sin(np.arange(RATE * 6) * 0.3) * 9000).astype(np.int16)
    write_sound(here / "kitchen.wav", tone, "pcm_s16le")
    run("write", "kitchen.wav", "--out", "job", "--appliance", "dishwasher")
    transcript = json.loads((here / "job" / "data" / "transcript.json").read_text())
    words = [
        ("The", 0.2),
        ("gate", 0.5),
        ("code", 0.8),
        ("is", 1.1),
        ("4471.", 1.4),
        ("The", 3.0),
        ("pump", 3.3),
    ]
    transcript["breaths"] = [
        {
            "words": [{"text": text, "start": at, "end": at + 0.3, "confidence": 1.0} for text, at in words],
            "part": 0,
        }
    ]
    _rewritten(here / "job", transcript)
    run("share", "job", "--for", "claim", "--out", "claim.zip")
    copy = unpacked(here / "claim.zip", here / "unpacked")
    with SoundFile(copy / "data" / "recording-1.flac") as sound:
        heard = np.concatenate(list(sound.blocks()))

    assert np.abs(heard[int(1.45 * RATE) : int(1.65 * RATE)]).max() == 0
    assert np.abs(heard[int(0.2 * RATE) : int(1.2 * RATE)]).max() > 0.1
    assert np.abs(heard[int(3.0 * RATE) : int(5.0 * RATE)]).max() > 0.1


def _rewritten(job: Path, transcript: dict[str, object]) -> None:
    """Another transcript, and the manifests to it."""
    from fieldnotes.bag import close_bag

    (job / "data" / "transcript.json").write_text(json.dumps(transcript))
    close_bag(job, {})
