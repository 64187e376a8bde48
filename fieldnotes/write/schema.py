"""`visit.json`: how it is written, and the JSON Schema that says what may stand in it."""

from __future__ import annotations

import json
from typing import Any

from fieldnotes.records import SCHEMA_NAME, Visit

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def visit_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of `visit.json`, made from the record itself."""
    schema = Visit.model_json_schema(by_alias=True, mode="serialization")
    schema.pop("title", None)
    head = {"$schema": DIALECT, "$id": f"urn:{SCHEMA_NAME.replace('/', ':')}", "title": "Visit record"}
    return head | schema


def visit_json(visit: Visit) -> str:
    """The record as JSON text: keys in the record's own order, free-form parts by name."""
    plain = visit.model_dump(mode="json", by_alias=True)
    plain["appliance"]["evidence"] = dict(sorted(plain["appliance"]["evidence"].items()))
    plain["made_with"]["settings"] = dict(sorted(plain["made_with"]["settings"].items()))
    return json.dumps(plain, ensure_ascii=False, indent=2, allow_nan=False) + "\n"
