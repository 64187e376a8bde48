"""A new kind of appliance is a new file and no Python."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldnotes.vocabulary_bench.check import check_vocabulary
from fieldnotes.vocabulary_bench.trying import Reported, Tried, try_sentences

TOWER = """\
kind: cold brew tower
spoken: [brew tower, drip tower]
parts:
  - name: drip valve
    spoken: [(drip|needle) valve]
    misheard: [trip valve]
  - name: ice chamber
    spoken: [(ice|upper) (chamber|globe)]
symptoms:
  - {name: drips too fast, spoken: ["(drips|dripping|runs) (far|way)? too fast"]}
trials:
  - {name: full drip, spoken: ["full (drip|brew)"]}
expects:
  - complaint: [drips too fast]
    look_for:
      - {about: [drip valve, full drip], why: "The valve sets the drip."}
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    (tmp_path / "appliances").mkdir()
    (tmp_path / "appliances" / "cold-brew-tower.yaml").write_text(TOWER, encoding="utf-8")
    return tmp_path


def names(tried: Tried, shop: Path) -> list[tuple[str, str, str]]:
    """The words, what they name, and the line of the shop's file, for names from that file."""
    prefix = f"{shop / 'appliances' / 'cold-brew-tower.yaml'}:"
    return [
        (" ".join(tried.words[seen.first : seen.last]), seen.text, seen.where.removeprefix(prefix))
        for seen in tried.seen
        if seen.sort == "name" and seen.where.startswith(prefix)
    ]


def test_kind_parts_symptoms_and_trials_are_recognised(shop: Path) -> None:
    tried = try_sentences(
        [
            "Customer says the drip tower runs way too fast.",
            "The trip valve is fine and so are the upper globes.",
            "Ran a full brew.",
        ],
        shop=shop,
    )

    assert (tried.kind, tried.kind_from) == ("cold brew tower", "said")
    assert names(tried, shop) == [
        ("drip tower", "kind cold brew tower", "2"),
        ("runs way too fast", "symptom drips too fast", "10"),
        ("trip valve", "part drip valve (misheard)", "6"),
        ("upper globes", "part ice chamber", "8"),
        ("full brew", "trial full drip", "12"),
    ]


def test_check_of_a_new_part_is_reported(shop: Path) -> None:
    tried = try_sentences(["The needle valve looks fine."], kind="cold brew tower", shop=shop)

    assert tried.reported == (
        Reported(
            "checks",
            "drip valve",
            "outcome good, certainty certain",
            "Drip valve: good; the needle valve looks fine.",
        ),
    )


def test_new_kind_has_no_mistake_of_its_own(shop: Path) -> None:
    assert [m for m in check_vocabulary(shop).mistakes if m.path.is_relative_to(shop)] == []
