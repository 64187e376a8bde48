"""Visit -> the cautions that its own work, parts and findings call for."""

from __future__ import annotations

from fieldnotes.judge.kinds import Packs, kinds_of
from fieldnotes.judge.triggers import pointed_at
from fieldnotes.records import Caution, Visit
from fieldnotes.vocabulary.limits import CautionsFile


def cautions_for(visit: Visit, cautions: CautionsFile, packs: Packs) -> tuple[Caution, ...]:
    """In file order, each once; the deferral to local codes and licensed persons comes last."""
    kinds = kinds_of(visit.appliance.kind, packs)
    called = [
        Caution(about=rule.about, text=rule.text, for_customer=rule.for_customer)
        for rule in cautions.cautions
        if (not rule.kinds or set(rule.kinds) & set(kinds))
        and any(True for _ in pointed_at(rule.triggers, visit))
    ]
    if called:
        called.append(
            Caution(
                about=cautions.deferral_about,
                text=cautions.deferral,
                for_customer=cautions.deferral_for_customer,
            )
        )
    return tuple(called)
