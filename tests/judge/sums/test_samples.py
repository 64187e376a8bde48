"""Every sum of the vocabulary against the samples that stand beside it."""

from __future__ import annotations

import pytest

from fieldnotes.vocabulary.sums import SumRule, SumSample

from ..visits import judged_readings, rules_for, sums, visit_of

SAMPLES = [
    pytest.param(rule, sample, id=f"{rule.id}-{'holds' if holds else 'not'}-{n}")
    for rule in sums().sums
    for holds, samples in ((True, rule.holds_for), (False, rule.not_for))
    for n, sample in enumerate(samples)
]


@pytest.mark.parametrize(("rule", "sample"), SAMPLES)
def test_every_sum_keeps_its_own_samples(rule: SumRule, sample: SumSample) -> None:
    if rule.formula in ("superheat", "subcooling"):
        pytest.importorskip("CoolProp")
    read = judged_readings(visit_of(sample))[0]
    made = [one.value for one in read.sums if one.id == rule.id]

    assert made == ([] if sample.gives is None else [sample.gives])
    assert read.judgement == sample.judgement


@pytest.mark.parametrize("rule", [rule for rule in sums().sums if rule.bounds], ids=lambda rule: rule.id)
def test_samples_are_judged_by_the_sum_alone(rule: SumRule) -> None:
    """Without the sum no rule of the vocabulary would judge them; the lead's limit takes the place of one."""
    for sample in rule.holds_for if rule.id != "protective-conductor" else ():
        other = rules_for(visit_of(sample))[0]
        assert other is None or other.bounds == (None, None)
