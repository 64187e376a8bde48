"""The stage as a whole: it adds and never alters, and judging twice is judging once."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from fieldnotes.judge.judging import judge
from fieldnotes.records import Visit
from fieldnotes.vocabulary.limits import LimitRule, kinds_named
from fieldnotes.vocabulary.quantities import QUANTITY_OF
from fieldnotes.vocabulary.sums import SampleReading

from .visits import PACKS, caution_rules, gap_rules, item, limits, measures, reading, sums, visit

SAMPLES: list[SampleReading] = [
    *(sample for limit in limits().limits for sample in (*limit.holds_for, *limit.not_for)),
    *(sample for rule in sums().sums for sample in (*rule.holds_for, *rule.not_for)),
]
ABOUTS = sorted({sample.about for sample in SAMPLES})
QUOTES = sorted({sample.said for sample in SAMPLES})
KINDS = [
    None,
    "dryer",
    "electric dryer",
    "dishwasher",
    "refrigerator",
    "freezer",
    "microwave",
    "water heater",
    "gas range",
]
READINGS = st.builds(
    reading,
    st.sampled_from(ABOUTS),
    st.floats(min_value=-50, max_value=500, allow_nan=False)
    | st.integers(min_value=-99, max_value=500).map(float),
    st.sampled_from(sorted(QUANTITY_OF)),
    st.sampled_from(QUOTES),
    note=st.sampled_from([None, "heard twice", limits().unit_does_not_fit, sums().needs_coolprop]),
)
ITEMS = st.builds(item, st.sampled_from(ABOUTS), st.sampled_from(QUOTES))
VISITS = st.builds(
    visit,
    st.sampled_from(KINDS),
    readings=st.lists(READINGS, max_size=5).map(tuple),
    safety=st.lists(ITEMS, max_size=3).map(tuple),
    complaints=st.lists(ITEMS, max_size=2).map(tuple),
)


def judged(one: Visit) -> Visit:
    return judge(
        one,
        limits=limits(),
        sums=sums(),
        gaps=gap_rules(),
        cautions=caution_rules(),
        explanations=(),
        packs=PACKS,
        measures=measures(),
    )


@settings(deadline=None)  # the first run compiles the vocabulary
@given(VISITS)
def test_judging_twice_is_judging_once(one: Visit) -> None:
    assert judged(judged(one)) == judged(one)


@settings(deadline=None)  # the first run compiles the vocabulary
@given(VISITS)
def test_judging_loses_nothing_that_was_heard(one: Visit) -> None:
    def heard(v: Visit) -> Visit:
        plain = {
            "limit": None,
            "judgement": "no limit known",
            "outside_by": None,
            "note": None,
            "doubt": None,
            "sums": (),
        }
        readings = tuple(
            r.model_copy(update={**plain, "value": r.doubt.heard if r.doubt else r.value}) for r in v.readings
        )
        return v.model_copy(update={"readings": readings, "gaps": (), "cautions": ()})

    assert heard(judged(one)) == heard(one)


@settings(deadline=None)  # the first run compiles the vocabulary
@given(VISITS)
def test_judged_visit_survives_json(one: Visit) -> None:
    done = judged(one)

    assert Visit.model_validate_json(done.model_dump_json(by_alias=True)) == done


@settings(deadline=None)  # the first run compiles the vocabulary
@given(VISITS)
def test_no_judgement_without_a_limit_and_its_unit(one: Visit) -> None:
    for done in judged(one).readings:
        assert (done.limit is None) == (done.judgement == "no limit known")
        if done.limit:
            assert QUANTITY_OF[done.limit.unit] == QUANTITY_OF[done.unit]
            assert done.limit.source or done.limit.status == "common practice, no source"


@settings(deadline=None)  # the first run compiles the vocabulary
@given(VISITS)
def test_every_sum_shows_its_inputs_and_its_source(one: Visit) -> None:
    heard = {reading.evidence.quote for reading in one.readings} | {
        item.evidence.quote for item in one.safety
    }
    heard |= {item.evidence.quote for item in one.complaints}
    for made in (made for done in judged(one).readings for made in done.sums):
        assert made.inputs
        assert made.source or made.status == "common practice, no source"
        for one_input in made.inputs:
            evidence = one_input.evidence
            assert evidence is None or any(evidence.quote in quote for quote in heard)


def test_vocabulary_of_limits_is_not_empty() -> None:
    assert all(isinstance(rule, LimitRule) for rule in limits().limits)
    assert len(limits().limits) > 40


def test_kinds_named_are_gathered_from_all_four_files() -> None:
    named = kinds_named(limits(), sums(), gap_rules(), caution_rules())

    assert {"electric dryer", "freezer", "microwave", "water heater"} <= named
