"""report.html opened from disk in headless Chromium."""

from __future__ import annotations

import math
import shutil
import struct
import subprocess
import wave
from pathlib import Path

import pytest

from fieldnotes.transcript import Recording
from fieldnotes.write import Contents, write_job

from .visits import FULL, FULL_TRANSCRIPT, sha256

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="no chromium on the PATH"),
]
# Clicks a link to the check at 01:01, notes what plays, and lets the words come to their end.
CLICK = """
<script>
addEventListener("load", async () => {
  const link = document.querySelector('PLACE a[href="kitchen.wav#t=61.2,66"]');
  const audio = document.querySelector("audio");
  const note = (name, value) => document.body.setAttribute("data-" + name, value);
  const ready = () => new Promise((done) => setTimeout(done, 200));
  while (audio.readyState < 1) await ready();
  link.dispatchEvent(new MouseEvent("click", { bubbles: true, cancelable: true }));
  await ready();
  note("started", [Math.floor(audio.currentTime), audio.paused, link.getAttribute("aria-current")].join());
  audio.currentTime = 66.5;
  await ready();
  note("ended", [audio.paused, link.getAttribute("aria-current")].join());
});
</script>
"""


@pytest.fixture
def report(tmp_path: Path) -> Path:
    source = tmp_path / "kitchen.wav"
    with wave.open(str(source), "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(2)
        sound.setframerate(8000)
        tone = b"".join(struct.pack("<h", int(9000 * math.sin(n / 3))) for n in range(8000))
        sound.writeframes(tone * 90)
    recording = Recording(file="kitchen.wav", sha256=sha256(source.read_bytes()), seconds=90.0)
    visit = FULL.model_copy(update={"recording": (recording,)})
    transcript = FULL_TRANSCRIPT.model_copy(update={"breaths": FULL_TRANSCRIPT.breaths[:3]})
    return write_job(Contents(visit, transcript), [source], tmp_path / "job")


def open_in_chromium(page: Path, *options: str) -> str:
    assert CHROMIUM is not None
    profile = page.parent.parent / "profile"
    command = [
        CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
        "--enable-logging=stderr", "--autoplay-policy=no-user-gesture-required",
        f"--user-data-dir={profile}", *options, page.as_uri(),
    ]  # fmt: skip
    done = subprocess.run(command, capture_output=True, text=True, timeout=90, check=True)
    assert "CONSOLE" not in done.stderr, [line for line in done.stderr.splitlines() if "CONSOLE" in line]
    return done.stdout


def test_page_opens_from_disk_and_shows_the_lines(report: Path) -> None:
    page = open_in_chromium(report, "--dump-dom")

    assert "Drain hose is not kinked, high loop in place." in page
    assert '<html lang="en" class="scripted">' in page


@pytest.mark.parametrize(
    ("document", "place"),
    [("report.html", "td"), ("report.html", ".timeline"), ("claim.html", "td")],
    ids=["time in the report", "mark of the timeline", "time in the claim"],
)
def test_link_plays_its_words_and_stops(report: Path, document: str, place: str) -> None:
    clicking = report.with_name("clicking.html")
    page = report.with_name(document).read_text(encoding="utf-8")
    clicking.write_text(page.replace("</body>", CLICK.replace("PLACE", place) + "</body>"), encoding="utf-8")
    page = open_in_chromium(clicking, "--virtual-time-budget=6000", "--dump-dom")

    assert 'data-started="61,false,true"' in page
    assert 'data-ended="true,"' in page


def test_page_prints_to_pdf(report: Path) -> None:
    pdf = report.with_name("report.pdf")
    open_in_chromium(report, f"--print-to-pdf={pdf}")

    assert pdf.read_bytes().startswith(b"%PDF-")
