"""The stage itself. Reads tidied text; adds all sections of the record, each item with its evidence.

Sections are filled in an order in which each takes its clauses before the next looks: what the customer said and
what is advice cannot be a check.
"""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.records import (
    Appliance,
    Cause,
    Check,
    Code,
    Item,
    Part,
    Reading,
    Trial,
    Verdict,
    Work,
)
from fieldnotes.tidy.text import TidyText
from fieldnotes.understand.afterwards.safety import safety_in
from fieldnotes.understand.afterwards.told import advice_in, follow_ups_in
from fieldnotes.understand.checks.checks import checks_in
from fieldnotes.understand.complaints.complaints import complaints_in
from fieldnotes.understand.conclusions.causes import causes_in
from fieldnotes.understand.conclusions.conclusions import verdict_from_causes, verdict_from_repair, verdict_in
from fieldnotes.understand.plate.codes import codes_in
from fieldnotes.understand.plate.identity import identity_in
from fieldnotes.understand.plate.listed_makes import ListedMakes
from fieldnotes.understand.plate.makes import familiar_words
from fieldnotes.understand.readings.readings import readings_in
from fieldnotes.understand.trials.trials import trials_in
from fieldnotes.understand.words.clauses import clauses_of
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.reader import Reader
from fieldnotes.understand.words.retractions import taken_back
from fieldnotes.understand.work.parts_used import parts_in
from fieldnotes.understand.work.works import work_in
from fieldnotes.vocabulary.load import Vocabulary


@dataclass(frozen=True)
class Findings:
    """What was found in the words, in the sections of the record."""

    appliance: Appliance
    complaints: list[Item]
    checks: list[Check]
    readings: list[Reading]
    trials: list[Trial]
    codes: list[Code]
    work: list[Work]
    parts: list[Part]
    causes: list[Cause]
    verdict: Verdict
    advice: list[Item]
    follow_ups: list[Item]
    safety: list[Item]


class Understanding:
    """Understands tidied text by a vocabulary. Built once, used for many visits."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self._vocabulary = vocabulary
        self._reader = Reader(vocabulary)
        self._familiar = familiar_words(vocabulary)
        self._listed = ListedMakes(vocabulary.makes, self._familiar)

    def read(self, text: TidyText) -> Narration:
        """The words with all that is recognised in them, before anything is made of it."""
        return self._reader.read(text)

    def findings(self, text: TidyText) -> Findings:
        narration = self.read(text)
        clauses = clauses_of(narration)
        gone = taken_back(narration, clauses, self._vocabulary.measures.retractions)
        appliance, plate = identity_in(
            narration, clauses, self._familiar, self._listed, self._vocabulary.measures
        )
        complaints, reported = complaints_in(narration, clauses, plate, gone)
        claimed = plate | reported
        follow_ups, open_points = follow_ups_in(narration, clauses, claimed, gone)
        claimed |= open_points
        advice, advised = advice_in(narration, clauses, claimed, gone)
        claimed |= advised
        verdict, concluding = verdict_in(narration, clauses, gone)
        causes, causal = causes_in(narration, clauses, claimed, gone, reported)
        verdict = verdict if verdict.finding else verdict_from_causes(causes)
        claimed |= causal | concluding
        pack = self._vocabulary.packs.get(narration.kind or "")
        codes, coded = codes_in(
            narration,
            clauses,
            plate | reported,
            gone,
            self._vocabulary.measures,
            pack.code_shapes if pack else (),
        )
        trials, tried, running = trials_in(narration, clauses, claimed, gone)
        work, fitted = work_in(narration, clauses, claimed, gone)
        parts = parts_in(narration, clauses, claimed - open_points, gone, fitted, self._vocabulary.measures)
        readings, measured = readings_in(narration, clauses, claimed, gone, self._vocabulary.measures)
        checks = checks_in(narration, clauses, claimed | tried | coded, gone, measured, running)
        if not verdict.finding:
            verdict = verdict_from_repair(checks, work)
        return Findings(
            appliance=appliance,
            complaints=complaints,
            checks=checks,
            readings=readings,
            trials=trials,
            codes=codes,
            work=work,
            parts=parts,
            causes=causes,
            verdict=verdict,
            advice=advice,
            follow_ups=follow_ups,
            safety=safety_in(narration, clauses, claimed, gone),
        )
