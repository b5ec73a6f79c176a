"""How does a value become plain data, and a value again? One codec for storage, queued replies and button deeds.

Frozen dataclasses become JSON objects; Decimal becomes text, so that 17.5 never turns into 17.499; dates and moments ISO text; a
field that may hold one of several classes carries the class's name under "_".

    to_plain(weight("17.5")) -> {"kind": "implement", "amount": "17.5", "unit": "kg", ...}
    from_plain(data, Load)   -> the same value
"""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from dataclasses import is_dataclass
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from types import NoneType, UnionType
from typing import Any, TypeVar, Union, get_args, get_origin

from cattrs import Converter
from cattrs.preconf.json import make_converter

T = TypeVar("T")
TAG = "_"


def _choices(kind: Any) -> tuple[Any, ...]:
    """The dataclasses that a union may hold; empty for everything that is no such union."""
    if get_origin(kind) not in (Union, UnionType):
        return ()
    members = tuple(member for member in get_args(kind) if member is not NoneType)
    return members if len(members) > 1 and all(is_dataclass(member) for member in members) else ()


def _make() -> Converter:
    converter = make_converter(omit_if_default=True, unstruct_collection_overrides={AbstractSet: sorted})
    for kind in (datetime, date, time):
        converter.register_unstructure_hook(kind, lambda value: value.isoformat())
        converter.register_structure_hook(kind, lambda text, kind: kind.fromisoformat(text))
    converter.register_unstructure_hook(Decimal, str)
    converter.register_structure_hook(Decimal, lambda text, _: Decimal(text))
    converter.register_unstructure_hook(timedelta, lambda value: value.total_seconds())
    converter.register_structure_hook(timedelta, lambda seconds, _: timedelta(seconds=seconds))

    def from_tagged(data: Any, kind: Any) -> Any:
        if data is None:
            return None
        named = {choice.__name__: choice for choice in _choices(kind)}
        return converter.structure(data, named[data[TAG]])

    def to_tagged(value: Any) -> Any:
        return None if value is None else {TAG: type(value).__name__, **converter.unstructure(value)}

    converter.register_structure_hook_func(lambda kind: bool(_choices(kind)), from_tagged)
    converter.register_unstructure_hook_func(lambda kind: bool(_choices(kind)), to_tagged)
    return converter


_CONVERTER = _make()


def to_plain(value: Any) -> Any:
    """Turn a value into JSON-ready data; fields at their default are left out."""
    return _CONVERTER.unstructure(value)


def from_plain(data: Any, kind: type[T]) -> T:
    """Build a value of this class from `to_plain`'s data. Unknown fields are ignored, so that older code reads newer rows."""
    return _CONVERTER.structure(data, kind)
