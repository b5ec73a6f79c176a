"""Is each call that the bot made one that the platform describes? Judged by another library's typed description of the Bot API.

aiogram's method models (3.31: Bot API 10.3) know every method's parameters and their types, nested objects included. They
let unknown names pass and check no lengths, so both are added here; the lengths are those of the Bot API manual.

    assert problems_of(standin.calls) == []
"""

from __future__ import annotations

import json
import typing
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from html.parser import HTMLParser
from typing import Any

from pydantic import BaseModel, TypeAdapter, ValidationError

from scenarios.standin import Call

# Where it is said how long something may be: parameter to (most, what is counted).
LENGTHS: dict[tuple[str, str], int] = {
    ("answerCallbackQuery", "text"): 200,
    ("sendPoll", "question"): 300,
    ("setMyDescription", "description"): 512,
    ("setMyShortDescription", "short_description"): 120,
}
MAX_TEXT, MAX_CAPTION, MAX_DATA_BYTES, MAX_BUTTONS, MAX_IN_ROW = 4096, 1024, 64, 100, 8


def problems_of(calls: Iterable[Call]) -> list[str]:
    """One line for each thing that is wrong with a call, in order of the calls; empty when all is well."""
    return [f"call {call.number}, {call.method}: {problem}" for call in calls for problem in _problems(call)]


def problems_of_answers(calls: Iterable[Call]) -> list[str]:
    """The same for what the stand-in answered: each result must be what the method is described to return."""
    problems = []
    for call in calls:
        if call.status == 200 and call.method in _models():
            adapter = TypeAdapter(_models()[call.method].__returning__)  # type: ignore[attr-defined]
            try:
                checked = adapter.validate_python(call.answer)
            except ValidationError as error:
                problems += [f"call {call.number}, {call.method}: {each['loc']}: {each['msg']}" for each in error.errors()[:3]]
            else:
                problems += [f"call {call.number}, {call.method}: {problem}" for problem in _unknown_inside(checked, "result")]
    return problems


def _problems(call: Call) -> Iterator[str]:
    model = _models().get(call.method)
    if model is None:
        yield "no such method"
        return
    values = {name: _decoded(model, name, value) for name, value in call.fields.items() if value != ""}
    values |= {name: f"attach://{name}" for name in call.files if name in model.model_fields}
    unknown = sorted(set(values) - set(model.model_fields))
    if unknown:
        yield f"unknown parameters {unknown}"
    try:
        checked = model.model_validate(values)
    except ValidationError as error:
        for each in error.errors():
            if each["loc"][0] != "reply_markup" or each == error.errors()[-1]:  # a union reports once for each of its members
                yield f"{'.'.join(map(str, each['loc']))}: {each['msg']}"
        return
    yield from _unknown_inside(checked, "")
    yield from _too_long(call.method, values)


@cache
def _models() -> dict[str, type[BaseModel]]:
    import aiogram.methods  # takes seconds, so only where it is asked for

    found = (getattr(aiogram.methods, name) for name in aiogram.methods.__all__)
    return {model.__api_method__: model for model in found if hasattr(model, "__api_method__")}


def _decoded(model: type[BaseModel], name: str, value: Any) -> Any:
    """A form carries nested values as JSON text; what may be text by its type stays text."""
    if not isinstance(value, str) or name not in model.model_fields or _may_be_text(model, name):
        return value
    try:
        return json.loads(value)
    except json.JSONDecodeError:
        return value


@cache
def _may_be_text(model: type[BaseModel], name: str) -> bool:
    annotation = model.model_fields[name].annotation
    return str in (annotation, *typing.get_args(annotation))


def _unknown_inside(value: Any, place: str) -> Iterator[str]:
    if isinstance(value, BaseModel):
        if value.model_extra and place:
            yield f"{place}: unknown fields {sorted(value.model_extra)}"
        for name in type(value).model_fields:
            yield from _unknown_inside(getattr(value, name, None), f"{place}.{name}" if place else name)
    elif isinstance(value, list | tuple):
        for at, each in enumerate(value):
            yield from _unknown_inside(each, f"{place}[{at}]")


def _too_long(method: str, values: Mapping[str, Any]) -> Iterator[str]:
    for name, most in (("text", MAX_TEXT), ("caption", MAX_CAPTION)):
        if name in values and method != "answerCallbackQuery":
            length = _units(_shown(values[name], values.get("parse_mode", "")))
            if length > most or (name == "text" and length == 0):
                yield f"{name} of {length} UTF-16 units, expected 1 to {most}"
    for (of_method, name), most in LENGTHS.items():
        if method == of_method and _units(str(values.get(name, ""))) > most:
            yield f"{name} longer than {most}"
    for item in values.get("media", ()):
        if isinstance(item, dict) and _units(_shown(item.get("caption", ""), item.get("parse_mode", ""))) > MAX_CAPTION:
            yield f"caption longer than {MAX_CAPTION}"
    if method == "sendMediaGroup" and not 2 <= len(values.get("media", ())) <= 10:
        yield "an album has 2 to 10 files"
    yield from _keyboard(values.get("reply_markup"))


def _keyboard(markup: Any) -> Iterator[str]:
    rows = markup.get("inline_keyboard", ()) if isinstance(markup, dict) else ()
    if sum(map(len, rows)) > MAX_BUTTONS or any(len(row) > MAX_IN_ROW for row in rows):
        yield f"more than {MAX_BUTTONS} buttons, or more than {MAX_IN_ROW} in a row"
    for button in (button for row in rows for button in row):
        if "callback_data" in button and not 1 <= len(button["callback_data"].encode()) <= MAX_DATA_BYTES:
            yield f"button {button['text']!r}: data of {len(button['callback_data'].encode())} bytes"
        actions = set(button) - {"text", "style", "icon_custom_emoji_id"}
        if len(actions) != 1:
            yield f"button {button.get('text')!r}: exactly one action expected, found {sorted(actions)}"


class _Words(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.words: list[str] = []

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def _shown(text: str, parse_mode: str) -> str:
    if str(parse_mode).lower() != "html":
        return text
    reader = _Words()
    reader.feed(text)
    reader.close()
    return "".join(reader.words)


def _units(text: str) -> int:
    return len(text.encode("utf-16-le")) // 2
