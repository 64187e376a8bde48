"""Read one YAML file into a pydantic model, so that every mistake comes back with file, line and remedy.

Scalars are read as text and the model makes numbers of them: plain YAML would turn `no`, `off` and `1:30`
into something else, and this trade says all of these. Repeated keys are refused.
"""

from __future__ import annotations

from difflib import get_close_matches
from pathlib import Path
from typing import Any, TypeVar, get_args

import yaml
from pydantic import BaseModel, ValidationError

from fieldnotes.errors import VocabularyError

Model = TypeVar("Model", bound=BaseModel)
Lines = dict[tuple[str | int, ...], int]
_Loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)  # the C one is about ten times as fast


def load_yaml(path: Path, model: type[Model]) -> Model:
    """The file as `model`. Raises VocabularyError with all mistakes, one a line: `file, line N: ...`."""
    plain, lines = read_yaml(path)
    try:
        return model.model_validate(plain, context={"file": str(path)})
    except ValidationError as fault:
        raise VocabularyError(
            "\n".join(
                f"{path}, line {line_of(lines, e['loc'])}: {_wording(e, model)}" for e in fault.errors()
            )
        ) from fault


def read_yaml(path: Path) -> tuple[Any, Lines]:
    """The file as dicts, lists and text, and the line of every place in it: `("rules", 3, "finds", 0)`.

    Raises VocabularyError where it cannot be read, is no YAML, or repeats a key.
    """
    try:
        node = yaml.compose(path.read_text(encoding="utf-8"), Loader=_Loader)
    except OSError as fault:
        raise VocabularyError(f"{path}: cannot be read: {fault.strerror}") from fault
    except UnicodeDecodeError as fault:
        raise VocabularyError(f"{path}: is not UTF-8 text (byte {fault.start}); save it as UTF-8") from fault
    except yaml.MarkedYAMLError as fault:
        line = fault.problem_mark.line + 1 if fault.problem_mark else 1
        raise VocabularyError(
            f"{path}, line {line}: {fault.problem}. A text with any of : # [ ] {{ }} needs quotes."
        ) from fault
    except yaml.YAMLError as fault:  # a control character, which has no line
        raise VocabularyError(f"{path}: is no YAML: {' '.join(str(fault).split())}") from fault
    lines: Lines = {}
    mistakes: list[str] = []
    plain = _plain(node, (), lines, mistakes) if node else {}
    if mistakes:
        raise VocabularyError("\n".join(f"{path}, {text}" for text in mistakes))
    return plain, lines


def line_of(lines: Lines, at: tuple[str | int, ...]) -> int:
    """The line of the deepest known part of a place; pydantic adds parts that the file does not have."""
    known = tuple(at)
    while known and known not in lines:
        known = known[:-1]
    return lines.get(known, 1)


def _plain(node: yaml.Node, at: tuple[str | int, ...], lines: Lines, mistakes: list[str]) -> Any:
    """The node as dicts, lists and text; notes each place's line and every repeated key."""
    lines[at] = node.start_mark.line + 1
    if isinstance(node, yaml.MappingNode):
        result: dict[str, Any] = {}
        for key_node, value in node.value:
            key = str(key_node.value)
            if key in result:
                line = key_node.start_mark.line + 1
                mistakes.append(f"line {line}: {key!r} stands here a second time. Take one of the two out.")
            result[key] = _plain(value, (*at, key), lines, mistakes)
            lines[(*at, key)] = key_node.start_mark.line + 1
        return result
    if isinstance(node, yaml.SequenceNode):
        return [_plain(child, (*at, i), lines, mistakes) for i, child in enumerate(node.value)]
    plain_null = getattr(node, "style", None) is None and node.value in ("null", "~", "")
    return None if plain_null else str(node.value)


def _wording(error: Any, model: type[BaseModel]) -> str:
    where = ".".join(str(part) for part in error["loc"] if not isinstance(part, int))
    if error["type"] == "extra_forbidden":
        known = _keys(model, error["loc"][:-1])
        near = get_close_matches(str(error["loc"][-1]), known, 1)
        mend = f'Did you mean "{near[0]}"?' if near else f"It can be one of {', '.join(known)}."
        return f"unknown key {error['loc'][-1]!r}. {mend}"
    if error["type"] == "literal_error":
        expected = [word.strip(" '") for word in error["ctx"]["expected"].replace(" or ", ", ").split(", ")]
        near = get_close_matches(str(error["input"]), expected, 1)
        hint = f' Did you mean "{near[0]}"?' if near else ""
        return f'{where} "{error["input"]}" is not one of {", ".join(expected)}.{hint}'
    if error["type"] == "missing":
        return f"{where} is missing. Add it."
    return (
        f"{where}: {error['msg'].removeprefix('Value error, ')}"
        if where
        else error["msg"].removeprefix("Value error, ")
    )


def _keys(model: type[BaseModel], at: tuple[str | int, ...]) -> list[str]:
    """The keys that the entry at a place can have."""
    shape: Any = model
    for step in (step for step in at if isinstance(step, str)):
        if isinstance(shape, type) and issubclass(shape, BaseModel):
            fields = {field.alias or name: field.annotation for name, field in shape.model_fields.items()}
            shape = _entry_shape(fields[step]) if step in fields else shape  # else the key of a dict
    return sorted(field.alias or name for name, field in shape.model_fields.items())


def _entry_shape(annotation: Any) -> Any:
    """The model inside `tuple[Model, ...]`, `dict[str, Model]` or `Model | None`."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for part in get_args(annotation) if (found := _entry_shape(part))), None)
