"""The record as plain data for the printed pages: itself, and what people read beside its values."""

from __future__ import annotations

import json

from fieldnotes.records import Doubt, Evidence, Job, Limit, Reading, Visit
from fieldnotes.settings import PageSettings, Settings, Shop
from fieldnotes.transcript import Recording, Transcript
from fieldnotes.write import Contents
from fieldnotes.write.pages import words_of
from fieldnotes.write.printed import printed

from .visits import FULL, FULL_TRANSCRIPT, MADE_WITH, breath, said

WORDS = words_of(None)


def data_of(visit: Visit, transcript: Transcript = FULL_TRANSCRIPT, **settings: object) -> dict[str, object]:
    contents = Contents(visit, transcript, Settings.model_validate(settings))
    return printed(contents, WORDS, lambda text: text)


def test_record_keeps_all_its_fields() -> None:
    def without_ours(data: object, record: object) -> object:
        if isinstance(data, dict) and isinstance(record, dict):
            return {key: without_ours(data[key], record[key]) for key in record}
        if isinstance(data, list) and isinstance(record, list):
            return [without_ours(one, other) for one, other in zip(data, record, strict=True)]
        return data

    record = FULL.model_dump(mode="json")
    assert without_ours(data_of(FULL)["visit"], record) == record


def test_reading_says_what_people_read() -> None:
    reading = Reading(
        about="drain pump", text="Pump winding.", evidence=said(61.9, 66.0, "fourteen", 0.5), value=-18, unit="degC",
        doubt=Doubt(heard=-80, fits=-18), limit=Limit(maximum=-15, unit="degC", source="", status="from memory"),
        judgement="outside", outside_by=-3,
    )  # fmt: skip
    visit = data_of(Visit(readings=(reading,), made_with=MADE_WITH))["visit"]
    assert isinstance(visit, dict)
    (told,) = visit["readings"]

    assert told["written"] == "−18\xa0°C"
    assert told["judged"] == "✗ outside limit, 3\xa0°C below"
    assert told["doubt_text"] == "⚠ please check: heard −80\xa0°C, which cannot be; −18\xa0°C would fit"
    assert told["limit"]["bounds"] == "at most −15\xa0°C"
    assert told["unnamed"] is True
    assert told["evidence"] == {
        **Evidence(start=61.9, end=66.0, quote="fourteen", confidence=0.5).model_dump(),
        "clock": "01:01",
        "doubtful": True,
    }


def test_words_with_signs_of_a_web_page_are_not_escaped() -> None:
    limit = Limit(maximum=2, unit="<b>&", source="", status="looked up")
    reading = Reading(about="x", text="x", evidence=said(None, None, "x"), value=1, unit="<b>&", limit=limit)
    visit = data_of(Visit(readings=(reading,), made_with=MADE_WITH))["visit"]
    assert isinstance(visit, dict)
    (told,) = visit["readings"]

    assert (told["written"], told["limit"]["bounds"]) == ("1\xa0<b>&", "at most 2\xa0<b>&")
    assert told["evidence"]["clock"] is None


def test_job_and_recording_have_times_as_people_read_them() -> None:
    job = Job(date="2026-03-02", started="2026-03-02T09:05:00", ended="2026-03-02T10:20:00")
    sound = Recording(file="a.flac", sha256="0" * 64, seconds=3730.0)
    visit = data_of(Visit(job=job, recording=(sound,), made_with=MADE_WITH))["visit"]
    assert isinstance(visit, dict)

    assert {key: visit["job"][key] for key in ("begun", "left", "lasted")} == {
        "begun": "09:05", "left": "10:20", "lasted": "1\xa0h 15\xa0min",
    }  # fmt: skip
    assert visit["recording"][0]["clock"] == "1:02:10"


def test_shop_paper_transcript_and_notices_are_handed_on() -> None:
    spoken = Transcript(
        breaths=(breath(61.0, "Well now."), breath(None, "")), recordings=(), notices=("two", "one")
    )
    data = data_of(
        Visit(notices=("one",), made_with=MADE_WITH),
        spoken,
        shop=Shop(name="Fell", address=("1 Quay Row",)),
        pages=PageSettings(paper="A4"),
    )

    assert data["breaths"] == [{"text": "Well now.", "clock": "01:01"}]
    assert data["notices"] == ["one", "two"]
    assert data["paper"] == "a4"
    assert data["shop"] == {
        "name": "Fell", "address": ["1 Quay Row"], "telephone": None, "email": None, "licence": None, "logo": None,
        "region": "US",
        "colour": "#0a5a78",
    }  # fmt: skip


def test_words_are_those_of_words_jinja_and_all_of_it_is_json() -> None:
    data = data_of(FULL)
    words = json.loads(json.dumps(data))["words"]

    assert words["heading"]["checks"] == "Check list"
    assert words["weight"]["1"] == "1 must have"
    assert "bounds" not in words


def test_every_text_is_made_ready_for_paper_but_the_hashes() -> None:
    data = printed(Contents(FULL, FULL_TRANSCRIPT), WORDS, str.upper)
    visit = data["visit"]

    assert visit["checks"][0]["text"] == "DRAIN HOSE IS NOT KINKED, HIGH LOOP IN PLACE."
    assert visit["readings"][0]["written"] == "14.5\xa0Ω"
    assert data["words"]["title"] == "VISIT REPORT"
    assert visit["recording"][0]["sha256"] == FULL.recording[0].sha256
