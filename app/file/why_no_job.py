"""Why a tree of plain values is no job, in one sentence that names the place in words."""

from typing import Any

import msgspec
from msgspec import inspect

from app.file.place_in_file import Step, nearest, place
from geometry.job import Job, NotAJob


class Fault(Exception):
    """The first thing that is wrong."""


def explain(tree: Any) -> str | None:
    """What keeps `tree` from being a job, in one sentence; None where nothing was found."""
    try:
        _look(tree, inspect.type_info(Job), ())
    except Fault as fault:
        return str(fault)
    return None


def _look(value: Any, kind: inspect.Type, at: tuple[Step, ...]) -> None:
    match kind:
        case inspect.StructType():
            _look_at_record(value, kind, at)
        case inspect.DictType():
            _need(value, dict, "a block in braces {…}", at)
            for key, of in value.items():
                _look_at_key(key, kind.key_type, at)
                _look(of, kind.value_type, (*at, key))
        case inspect.VarTupleType():
            _need(value, list, "a list in brackets […]", at)
            for count, of in enumerate(value, 1):
                _look(of, kind.item_type, (*at, count))
        case inspect.TupleType():
            _need(value, list, f"a list of {len(kind.item_types)} values", at)
            if len(value) != len(kind.item_types):
                raise Fault(_said(at, f"a list of {len(kind.item_types)} values belongs here, but it has {len(value)}"))
            for count, (of, item) in enumerate(zip(value, kind.item_types, strict=True), 1):
                _look(of, item, (*at, count))
        case inspect.UnionType():
            _look_at_choice(value, kind.types, at)
        case _:
            if not _fits(value, kind):
                raise Fault(_said(at, f"{_wanted(kind, value)}"))


def _look_at_key(key: str, kind: inspect.Type, at: tuple[Step, ...]) -> None:
    if isinstance(kind, inspect.IntType) and not key.isdecimal():
        raise Fault(_said(at, f"the key “{_cut(key)}” should be a whole number"))
    if isinstance(kind, inspect.LiteralType) and key not in kind.values:
        raise Fault(_said(at, f"the key {_wanted(kind, key)}"))


def _look_at_record(value: Any, kind: inspect.StructType, at: tuple[Step, ...]) -> None:
    _need(value, dict, "a block in braces {…}", at)
    fields = {field.encode_name: field for field in kind.fields}
    for key in value:
        if key not in fields:
            where = f" in {place(at)}" if at else ""
            raise Fault(f"the key “{_cut(key)}”{where} is not known; {nearest(key, fields)}")
    for name, field in fields.items():
        if name in value:
            _look(value[name], field.type, (*at, name))
        elif field.required:
            raise Fault(_said(at, f"the key “{name}” is missing"))
    try:
        msgspec.convert(value, kind.cls, str_keys=True)
    except msgspec.ValidationError as error:
        said = str(error.__cause__) if isinstance(error.__cause__, NotAJob) else str(error)
        raise Fault(said if _tells_where(said, value, at) else _said(at, said)) from None


def _tells_where(said: str, value: dict[str, Any], at: tuple[Step, ...]) -> bool:
    """Whether a sentence tells by itself which record it is of: one that stands in the file alone, or that it names."""
    if not said[:1].isupper():
        return not at
    names = (value.get("name"), value.get("id"), at[-1] if at else "")
    return len(at) < 2 or any(isinstance(name, str) and name and name in said for name in names)


def _look_at_choice(value: Any, kinds: tuple[inspect.Type, ...], at: tuple[Step, ...]) -> None:
    if any(_fits(value, kind) for kind in kinds):
        return
    deeper = [kind for kind in kinds if _same_shape(value, kind)]
    if len(deeper) == 1:
        _look(value, deeper[0], at)
        return
    if isinstance(value, str):
        for kind in kinds:
            if isinstance(kind, inspect.LiteralType):
                raise Fault(_said(at, _wanted(kind, value)))
    wanted = " or ".join(_name(kind) for kind in kinds if not isinstance(kind, inspect.NoneType))
    if any(isinstance(kind, inspect.FloatType) for kind in kinds) and any(
        isinstance(k, inspect.StrType) for k in kinds
    ):
        wanted = "a length (a number of mm, or text with its unit like “1/16 in”)"
    raise Fault(_said(at, f"{wanted} belongs here, not {_shown(value)}"))


def _same_shape(value: Any, kind: inspect.Type) -> bool:
    if isinstance(value, dict):
        return isinstance(kind, (inspect.StructType, inspect.DictType))
    return isinstance(value, list) and isinstance(kind, (inspect.VarTupleType, inspect.TupleType))


def _fits(value: Any, kind: inspect.Type) -> bool:
    match kind:
        case inspect.NoneType():
            return value is None
        case inspect.BoolType():
            return isinstance(value, bool)
        case inspect.IntType():
            return isinstance(value, int) and not isinstance(value, bool)
        case inspect.FloatType():
            return isinstance(value, (int, float)) and not isinstance(value, bool)
        case inspect.StrType():
            return isinstance(value, str)
        case inspect.LiteralType():
            return value in kind.values
    return False


def _wanted(kind: inspect.Type, value: Any) -> str:
    if isinstance(kind, inspect.LiteralType) and isinstance(value, str):
        return f"“{_cut(value)}” is not one of {', '.join(f'“{known}”' for known in kind.values)}"
    return f"{_name(kind)} belongs here, not {_shown(value)}"


def _name(kind: inspect.Type) -> str:
    match kind:
        case inspect.BoolType():
            return "true or false"
        case inspect.IntType():
            return "a whole number"
        case inspect.FloatType():
            return "a number"
        case inspect.LiteralType():
            return " or ".join(f"“{known}”" for known in kind.values)
        case inspect.VarTupleType() | inspect.TupleType():
            return "a list"
        case inspect.StructType() | inspect.DictType():
            return "a block in braces {…}"
    return "text"


def _need(value: Any, kind: type, name: str, at: tuple[Step, ...]) -> None:
    if not isinstance(value, kind):
        raise Fault(_said(at, f"{name} belongs here, not {_shown(value)}"))


def _shown(value: Any) -> str:
    match value:
        case None:
            return "null"
        case bool():
            return str(value).lower()
        case str():
            return f"the text “{_cut(value)}”"
        case dict():
            return "a block in braces {…}"
        case list():
            return "a list"
    return f"the number {value}"


def _cut(text: str) -> str:
    return text if len(text) <= 40 else text[:38] + "…"


def _said(at: tuple[Step, ...], what: str) -> str:
    return f"{place(at)}: {what}" if at else what
