"""visit.json against its published schema (JSON Schema 2020-12, checked by the jsonschema library)."""

from __future__ import annotations

import json

import pytest
from jsonschema import Draft202012Validator

from fieldnotes.records import Visit
from fieldnotes.write.schema import visit_json, visit_schema

from .visits import FULL, LONG_WORDS, NOTHING_HEARD


def test_schema_itself_is_a_valid_schema() -> None:
    schema = visit_schema()

    Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"


@pytest.mark.parametrize(
    "visit", [FULL, NOTHING_HEARD, LONG_WORDS], ids=["full", "nothing heard", "long words"]
)
def test_record_keeps_to_the_schema_and_reads_back(visit: Visit) -> None:
    text = visit_json(visit)

    assert list(Draft202012Validator(visit_schema()).iter_errors(json.loads(text))) == []
    assert Visit.model_validate_json(text) == visit


@pytest.mark.parametrize(
    ("place", "wrong"),
    [
        (("checks", 0, "outcome"), "god"),
        (("readings", 0, "value"), "14.5"),
        (("verdict", "finding"), "broken"),
        (("checks", 0, "evidence", "confidence"), 1.5),
        (("schema",), "fieldnotes-visit/2"),
    ],
    ids=lambda value: str(value),
)
def test_schema_refuses_what_the_record_cannot_hold(place: tuple[str | int, ...], wrong: object) -> None:
    plain = json.loads(visit_json(FULL))
    inner = plain
    for step in place[:-1]:
        inner = inner[step]
    inner[place[-1]] = wrong

    assert list(Draft202012Validator(visit_schema()).iter_errors(plain)) != []


def test_keys_stand_in_the_order_of_the_record() -> None:
    text = visit_json(FULL)

    assert text.startswith('{\n  "schema": "fieldnotes-visit/1",\n  "job": {\n    "number": "J-2041",')
    assert list(json.loads(text)["appliance"]["evidence"]) == ["make", "model", "serial"]
    assert "Mrs. Tansley" in text
    assert text.endswith("}\n")
