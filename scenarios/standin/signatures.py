"""Which parameters does each method take, and of what kind? The stand-in refuses all else.

That is stricter than the platform, which ignores names it does not know. One line a method; `!` marks what must be there.
Kinds: int, float, bool, str; `chat` is an id or an @name; `obj` and `list` are JSON; `file` is an upload or text (a file_id or an
address). Source: Bot API manual 10.0, "Available methods" and after.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from scenarios.standin.refusal import bad

_SENDING = (
    "business_connection_id:str chat_id!:chat message_thread_id:int direct_messages_topic_id:int disable_notification:bool"
    " protect_content:bool allow_paid_broadcast:bool message_effect_id:str suggested_post_parameters:obj reply_parameters:obj"
    " reply_markup:obj"
)
_CAPTIONED = "caption:str parse_mode:str caption_entities:list"
_EDITING = "business_connection_id:str chat_id:chat message_id:int inline_message_id:str reply_markup:obj"

_LINES = {
    "getMe": "",
    "logOut": "",
    "close": "",
    "getUpdates": "offset:int limit:int timeout:int allowed_updates:list",
    "setWebhook": "url:str certificate:file ip_address:str max_connections:int allowed_updates:list drop_pending_updates:bool"
    " secret_token:str",
    "deleteWebhook": "drop_pending_updates:bool",
    "getWebhookInfo": "",
    "sendMessage": f"{_SENDING} text!:str parse_mode:str entities:list link_preview_options:obj",
    "sendPhoto": f"{_SENDING} {_CAPTIONED} photo!:file show_caption_above_media:bool has_spoiler:bool",
    "sendDocument": f"{_SENDING} {_CAPTIONED} document!:file thumbnail:file disable_content_type_detection:bool",
    "sendVoice": f"{_SENDING} {_CAPTIONED} voice!:file duration:int",
    "sendAudio": f"{_SENDING} {_CAPTIONED} audio!:file duration:int performer:str title:str thumbnail:file",
    "sendVideo": f"{_SENDING} {_CAPTIONED} video!:file duration:int width:int height:int thumbnail:file cover:file"
    " start_timestamp:int show_caption_above_media:bool has_spoiler:bool supports_streaming:bool",
    "sendMediaGroup": "business_connection_id:str chat_id!:chat message_thread_id:int direct_messages_topic_id:int media!:list"
    " disable_notification:bool protect_content:bool allow_paid_broadcast:bool message_effect_id:str reply_parameters:obj",
    "sendPoll": "business_connection_id:str chat_id!:chat message_thread_id:int disable_notification:bool protect_content:bool"
    " allow_paid_broadcast:bool message_effect_id:str reply_parameters:obj reply_markup:obj question!:str question_parse_mode:str"
    " question_entities:list options!:list is_anonymous:bool type:str allows_multiple_answers:bool allows_revoting:bool"
    " shuffle_options:bool allow_adding_options:bool hide_results_until_closes:bool correct_option_ids:list explanation:str"
    " explanation_parse_mode:str explanation_entities:list open_period:int close_date:int is_closed:bool members_only:bool"
    " description:str description_parse_mode:str description_entities:list",
    "sendChatAction": "business_connection_id:str chat_id!:chat message_thread_id:int action!:str",
    "forwardMessage": "chat_id!:chat message_thread_id:int direct_messages_topic_id:int from_chat_id!:chat message_id!:int"
    " disable_notification:bool protect_content:bool video_start_timestamp:int message_effect_id:str"
    " suggested_post_parameters:obj",
    "copyMessage": f"{_SENDING.removeprefix('business_connection_id:str ')} {_CAPTIONED} from_chat_id!:chat message_id!:int"
    " show_caption_above_media:bool"
    " video_start_timestamp:int",
    "editMessageText": f"{_EDITING} text!:str parse_mode:str entities:list link_preview_options:obj",
    "editMessageCaption": f"{_EDITING} {_CAPTIONED} show_caption_above_media:bool",
    "editMessageReplyMarkup": _EDITING,
    "deleteMessage": "chat_id!:chat message_id!:int",
    "deleteMessages": "chat_id!:chat message_ids!:list",
    "answerCallbackQuery": "callback_query_id!:str text:str show_alert:bool url:str cache_time:int",
    "getFile": "file_id!:str",
    "setMyCommands": "commands!:list scope:obj language_code:str",
    "deleteMyCommands": "scope:obj language_code:str",
    "getMyCommands": "scope:obj language_code:str",
    "setMyDescription": "description:str language_code:str",
    "getMyDescription": "language_code:str",
    "setMyShortDescription": "short_description:str language_code:str",
    "getMyShortDescription": "language_code:str",
    "setChatMenuButton": "chat_id:int menu_button:obj",
    "getChatMenuButton": "chat_id:int",
    "setMessageReaction": "chat_id!:chat message_id!:int reaction:list is_big:bool",
    "getChat": "chat_id!:chat",
    "getChatMember": "chat_id!:chat user_id!:int",
    "getChatMemberCount": "chat_id!:chat",
    "getChatAdministrators": "chat_id!:chat return_bots:bool",
    "leaveChat": "chat_id!:chat",
    "pinChatMessage": "business_connection_id:str chat_id!:chat message_id!:int disable_notification:bool",
    "unpinChatMessage": "business_connection_id:str chat_id!:chat message_id:int",
    "exportChatInviteLink": "chat_id!:chat",
    "createChatInviteLink": "chat_id!:chat name:str expire_date:int member_limit:int creates_join_request:bool",
}


@dataclass(frozen=True)
class Upload:
    """A file that came with a call."""

    filename: str
    content: bytes
    mime: str


@dataclass(frozen=True)
class Signature:
    """One method. kinds: parameter to kind; needed: those that must be there."""

    name: str
    kinds: Mapping[str, str]
    needed: frozenset[str]


def _signature(name: str, line: str) -> Signature:
    pairs = [part.split(":") for part in line.split()]
    kinds = {key.rstrip("!"): kind for key, kind in pairs}
    return Signature(name, kinds, frozenset(key[:-1] for key, _ in pairs if key.endswith("!")))


SIGNATURES = {name.lower(): _signature(name, line) for name, line in _LINES.items()}


def checked(signature: Signature, given: Mapping[str, Any], uploads: Mapping[str, Upload]) -> dict[str, Any]:
    """The parameters with their right types.

    given: text from a form, or values from a JSON body. An empty text counts as left out, as on the platform.

    Raises:
        Refusal: 400 for an unknown name, a wrong kind, or something missing.
    """
    values: dict[str, Any] = {}
    for name, value in given.items():
        kind = signature.kinds.get(name)
        if kind is None:
            raise bad(f'unknown parameter "{name}" of {signature.name}')
        if value == "" or value is None:
            continue
        values[name] = _converted(name, kind, value)
    for name, upload in uploads.items():
        if signature.kinds.get(name) == "file":
            values[name] = upload
        elif not _points_to(values, name):
            raise bad(f'unknown file "{name}" of {signature.name}')
    for name, kind in signature.kinds.items():
        if kind == "file" and isinstance(values.get(name), str) and values[name].startswith("attach://"):
            values[name] = _attached(values[name], uploads)
    missing = sorted(name for name in signature.needed if name not in values)
    if missing:
        raise bad(_missing(signature, missing[0]))
    return values


def _points_to(values: Mapping[str, Any], name: str) -> bool:
    mark = f"attach://{name}"
    return any(mark in json.dumps(value) for value in values.values() if isinstance(value, str | list | dict))


def _attached(mark: str, uploads: Mapping[str, Upload]) -> Upload:
    try:
        return uploads[mark.removeprefix("attach://")]
    except KeyError:
        raise bad(f"there is no file for {mark!r} in the request") from None


def _missing(signature: Signature, name: str) -> str:
    if name == "chat_id":
        return "chat_id is empty"
    if name == "text":
        return "message text is empty"
    if signature.kinds[name] == "file":
        return f"there is no {name} in the request"
    return f'parameter "{name}" is required'


def _converted(name: str, kind: str, value: Any) -> Any:
    try:
        return _READERS[kind](value)
    except (ValueError, TypeError):
        raise bad(f'parameter "{name}" must be {_SAID[kind]}') from None


def _whole(value: Any) -> int:
    if isinstance(value, bool) or (isinstance(value, float) and not value.is_integer()):
        raise ValueError(value)
    return int(value)


def _number(value: Any) -> float:
    if isinstance(value, bool):
        raise ValueError(value)
    return float(value)


def _yes_no(value: Any) -> bool:
    if isinstance(value, bool):
        return value
    return (
        {"true": True, "false": False, "1": True, "0": False}[str(value).lower()]
        if str(value).lower() in _YES_NO
        else _wrong(value)
    )


_YES_NO = {"true", "false", "1", "0"}


def _wrong(value: Any) -> Any:
    raise ValueError(value)


def _text(value: Any) -> str:
    return value if isinstance(value, str) else _wrong(value)


def _chat(value: Any) -> int | str:
    if isinstance(value, str) and value.startswith("@") and len(value) > 1:
        return value
    return _whole(value)


def _json(value: Any, kind: type) -> Any:
    data = json.loads(value) if isinstance(value, str) else value
    return data if isinstance(data, kind) else _wrong(value)


_READERS = {
    "int": _whole, "float": _number, "bool": _yes_no, "str": _text, "chat": _chat, "file": _text,
    "obj": lambda value: _json(value, dict), "list": lambda value: _json(value, list),
}  # fmt: skip
_SAID = {
    "int": "of type Integer",
    "float": "of type Number",
    "bool": "of type Boolean",
    "str": "a string",
    "chat": "a chat identifier or @name",
    "file": "a file, a file identifier or an address",
    "obj": "a JSON object",
    "list": "a JSON array",
}
