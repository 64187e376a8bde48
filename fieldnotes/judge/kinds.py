"""A kind of appliance and the wider kinds that it is a sort of."""

from __future__ import annotations

from collections.abc import Mapping

from fieldnotes.records import Appliance
from fieldnotes.vocabulary.packs import AppliancePack

Packs = Mapping[str, AppliancePack]


def kinds_of(kind: str | None, packs: Packs) -> tuple[str, ...]:
    """The kind first, then ever wider ones: ("electric dryer", "dryer"). Empty where it is not known."""
    chain: list[str] = []
    while kind and kind not in chain:
        chain.append(kind)
        pack = packs.get(kind)
        kind = pack.wider if pack else None
    return tuple(chain)


def kinds_said(appliance: Appliance, packs: Packs) -> tuple[str, ...]:
    """As `kinds_of`, but empty where the kind was only guessed from the parts: no ground for a judgement."""
    return () if appliance.kind_inferred else kinds_of(appliance.kind, packs)
