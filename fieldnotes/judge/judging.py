"""The judge stage: reads a visit as understood, adds judgements on readings, gaps and cautions.

Reads appliance, all item lists, verdict and job; sets `limit`, `judgement` and `note` of readings, `gaps` and
`cautions`. Same visit and vocabulary, same result; judging a judged visit again changes nothing.
"""

from __future__ import annotations

from fieldnotes.judge.cautions import cautions_for
from fieldnotes.judge.gaps import gaps_of
from fieldnotes.judge.kinds import Packs
from fieldnotes.judge.limits import judge_readings
from fieldnotes.records import Visit
from fieldnotes.vocabulary.limits import CautionsFile, GapsFile, LimitsFile


def judge(visit: Visit, *, limits: LimitsFile, gaps: GapsFile, cautions: CautionsFile, packs: Packs) -> Visit:
    """The visit with its readings judged, and what it lacks and calls for. `packs` by kind of appliance."""
    judged = visit.model_copy(update={"readings": judge_readings(visit, limits, packs)})
    return judged.model_copy(
        update={
            "gaps": gaps_of(judged, gaps, packs),
            "cautions": cautions_for(judged, cautions, packs),
        }
    )
