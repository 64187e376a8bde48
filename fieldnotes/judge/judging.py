"""The judge stage: reads a visit as understood, adds judgements on readings, gaps and cautions.

Reads appliance, item lists, verdict, job and the words around readings; sets `limit`, `judgement` and `note`
of readings, `gaps` and `cautions`. Same visit, words and vocabulary, same result; again changes nothing.
"""

from __future__ import annotations

from fieldnotes.judge.cautions import cautions_for
from fieldnotes.judge.gaps import gaps_of
from fieldnotes.judge.kinds import Packs
from fieldnotes.judge.readings import judge_readings
from fieldnotes.records import Visit
from fieldnotes.transcript import Transcript
from fieldnotes.vocabulary.limits import CautionsFile, GapsFile, LimitsFile
from fieldnotes.vocabulary.measures import Measures


def judge(
    visit: Visit,
    *,
    limits: LimitsFile,
    gaps: GapsFile,
    cautions: CautionsFile,
    packs: Packs,
    measures: Measures | None = None,
    transcript: Transcript | None = None,
) -> Visit:
    """The visit with its readings judged, and what it lacks and calls for. `packs` by kind of appliance.

    With the transcript a reading is seen in its whole breath ("plus four, and falling"), not its quote alone;
    with the measures a limit is also worked out from a rating that was said beside it.
    """
    readings = judge_readings(visit, limits, packs, measures, transcript)
    judged = visit.model_copy(update={"readings": readings})
    return judged.model_copy(
        update={
            "gaps": gaps_of(judged, gaps, packs),
            "cautions": cautions_for(judged, cautions, packs),
        }
    )
