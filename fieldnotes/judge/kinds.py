"""A kind of appliance and the wider kinds that it is a sort of."""

from __future__ import annotations

from collections.abc import Mapping

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
