"""The judge stage: reads a visit as understood, adds judgements on readings, gaps, cautions and what to explain.

Reads appliance, item lists, verdict, job and the words around readings; sets `limit`, `judgement`, `sums` and
`note` of readings, `gaps`, `cautions` and `explained`. Same visit, words and vocabulary, same
result; again changes nothing.
"""

from __future__ import annotations

from collections.abc import Sequence

from fieldnotes.judge.cautions import cautions_for
from fieldnotes.judge.explanations import explained
from fieldnotes.judge.gaps import gaps_of
from fieldnotes.judge.kinds import Packs
from fieldnotes.judge.readings import judge_readings
from fieldnotes.records import Visit
from fieldnotes.transcript import Transcript
from fieldnotes.vocabulary.explanations import ExplanationRule
from fieldnotes.vocabulary.limits import CautionsFile, GapsFile, LimitsFile
from fieldnotes.vocabulary.measures import Measures
from fieldnotes.vocabulary.sums import SumsFile


def judge(
    visit: Visit,
    *,
    limits: LimitsFile,
    sums: SumsFile,
    gaps: GapsFile,
    cautions: CautionsFile,
    explanations: Sequence[ExplanationRule],
    packs: Packs,
    measures: Measures,
    transcript: Transcript | None = None,
) -> Visit:
    """The visit with its readings judged, and what it lacks and calls for. `packs` by kind of appliance.

    With the transcript a reading is seen in its whole breath ("plus four, and falling"), not its quote alone.
    The measures read the numbers that sums are made from ("plate says fifty four hundred watts").
    """
    readings = judge_readings(visit, limits, sums, packs, measures, transcript)
    judged = visit.model_copy(update={"readings": readings})
    return judged.model_copy(
        update={
            "gaps": gaps_of(judged, gaps, packs),
            "cautions": cautions_for(judged, cautions, packs),
            "explained": explained(judged, explanations, packs),
        }
    )
