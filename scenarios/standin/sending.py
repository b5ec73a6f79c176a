"""What happens when the bot sends? One function a method: (platform, values, uploads) -> result, refusals raised."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from scenarios.standin.chats import Chat, Message
from scenarios.standin.files import StoredFile
from scenarios.standin.markup import NOTHING, Markup, read_markup
from scenarios.standin.platform import Platform
from scenarios.standin.refusal import bad
from scenarios.standin.signatures import Upload
from scenarios.standin.wording import read_caption, read_text

Values = Mapping[str, Any]
Uploads = Mapping[str, Upload]
Method = Callable[[Platform, Values, Uploads], Any]

_REPLY_KNOWN = {"message_id", "chat_id", "allow_sending_without_reply", "quote", "quote_parse_mode", "quote_entities",
                "quote_position", "checklist_task_id", "poll_option_id"}  # fmt: skip
_PREVIEW_KNOWN = {"is_disabled", "url", "prefer_small_media", "prefer_large_media", "show_above_text"}
_ACTIONS = {
    "typing", "upload_photo", "record_video", "upload_video", "record_voice", "upload_voice", "upload_document", "choose_sticker",
    "find_location", "record_video_note", "upload_video_note",
}  # fmt: skip


def send_message(platform: Platform, values: Values, _: Uploads) -> Any:
    chat = platform.chat_to_write(values["chat_id"])
    text, entities = read_text(values)
    _known(values.get("link_preview_options"), _PREVIEW_KNOWN, "link preview options")
    return platform.post(chat, platform.bot, text, entities=entities, **_around(chat, values)).to_json()


def _file_method(kind: str) -> Method:
    def send(platform: Platform, values: Values, _: Uploads) -> Any:
        chat = platform.chat_to_write(values["chat_id"])
        caption, entities = read_caption(values)
        around = _around(chat, values)
        file = _kept(platform, kind, values[kind], values.get("duration", 0))
        return platform.post(chat, platform.bot, caption, entities=entities, file=file, **around).to_json()

    return send


def send_media_group(platform: Platform, values: Values, uploads: Uploads) -> Any:
    chat = platform.chat_to_write(values["chat_id"])
    items = values["media"]
    if not 2 <= len(items) <= 10:
        raise bad("group send failed: 2 to 10 files are expected")
    kinds = {item.get("type") if isinstance(item, dict) else None for item in items}
    if not kinds <= {"photo", "video", "document", "audio"} or (len(kinds) > 1 and kinds & {"document", "audio"}):
        raise bad("group send failed: documents and audios go only with their own kind")
    around = _around(chat, values)
    ready = []
    for item in items:
        source = str(item.get("media", ""))
        if source.startswith("attach://") and source.removeprefix("attach://") not in uploads:
            raise bad(f"there is no file for {source!r} in the request")
        content = uploads[source.removeprefix("attach://")] if source.startswith("attach://") else source
        ready.append((_kept(platform, item["type"], content, 0), *read_caption(item)))
    album = platform.next_album()
    posted = [
        platform.post(chat, platform.bot, caption, entities=entities, file=file, album=album, **around)
        for file, caption, entities in ready
    ]
    return [message.to_json() for message in posted]


def send_poll(platform: Platform, values: Values, _: Uploads) -> Any:
    chat = platform.chat_to_write(values["chat_id"])
    options = [option["text"] if isinstance(option, dict) else option for option in values["options"]]
    if not 1 <= len(values["question"]) <= 300:
        raise bad("poll question length must not exceed 300")
    if not 1 <= len(options) <= 12 or not all(isinstance(option, str) and 1 <= len(option) <= 100 for option in options):
        raise bad("poll must have 1 to 12 options of 1 to 100 characters")
    poll = {
        "id": str(9_000_000 + len(chat.messages)), "question": values["question"], "total_voter_count": 0, "is_closed": False,
        "options": [{"text": option, "voter_count": 0, "persistent_id": str(at)} for at, option in enumerate(options)],
        "is_anonymous": values.get("is_anonymous", True), "type": values.get("type", "regular"),
        "allows_multiple_answers": values.get("allows_multiple_answers", False), "allows_revoting": False, "members_only": False,
    }  # fmt: skip
    return platform.post(chat, platform.bot, poll=poll, **_around(chat, values)).to_json()


def send_chat_action(platform: Platform, values: Values, _: Uploads) -> Any:
    chat = platform.chat_to_write(values["chat_id"])
    if values["action"] not in _ACTIONS:
        raise bad("wrong parameter action in request")
    chat.doing = values["action"]
    return True


def forward_message(platform: Platform, values: Values, _: Uploads) -> Any:
    chat, source = platform.chat_to_write(values["chat_id"]), _source(platform, values, "forward")
    sent = platform.post(
        chat, platform.bot, source.text, entities=list(source.entities), file=source.file, **_around(chat, values)
    )
    sent.forwarded_from = source.sender
    return sent.to_json()


def copy_message(platform: Platform, values: Values, _: Uploads) -> Any:
    chat, source = platform.chat_to_write(values["chat_id"]), _source(platform, values, "copy")
    text, entities = read_caption(values) if "caption" in values else (source.text, list(source.entities))
    sent = platform.post(chat, platform.bot, text, entities=entities, file=source.file, **_around(chat, values))
    return {"message_id": sent.id}


METHODS: dict[str, Method] = {
    "sendMessage": send_message,
    **{f"send{kind.capitalize()}": _file_method(kind) for kind in ("photo", "document", "voice", "audio", "video")},
    "sendMediaGroup": send_media_group,
    "sendPoll": send_poll,
    "sendChatAction": send_chat_action,
    "forwardMessage": forward_message,
    "copyMessage": copy_message,
}


def _around(chat: Chat, values: Values) -> dict[str, Any]:
    """What goes with every kind of message: keyboard, reply, topic."""
    thread_id = values.get("message_thread_id")
    if thread_id and thread_id not in chat.topics:
        raise bad("message thread not found")
    markup: Markup = read_markup(values["reply_markup"]) if "reply_markup" in values else NOTHING
    return {
        "markup": markup,
        "reply_to": _replied(chat, values.get("reply_parameters")),
        "thread_id": thread_id,
        "silent": values.get("disable_notification", False),
    }


def _replied(chat: Chat, raw: dict[str, Any] | None) -> Message | None:
    if raw is None:
        return None
    _known(raw, _REPLY_KNOWN, "reply parameters")
    message = chat.messages.get(raw.get("message_id", 0))
    if (message is None or message.deleted) and not raw.get("allow_sending_without_reply"):
        raise bad("message to be replied not found")
    return None if message is None or message.deleted else message


def _known(raw: dict[str, Any] | None, known: set[str], what: str) -> None:
    strange = sorted(set(raw or ()) - known)
    if strange:
        raise bad(f'can\'t parse {what}: unknown field "{strange[0]}"')


def _kept(platform: Platform, kind: str, given: Upload | str, duration: int) -> StoredFile:
    if isinstance(given, Upload):
        return platform.files.keep(kind, given, duration=duration)
    return platform.files.again(kind, given)


def _source(platform: Platform, values: Values, verb: str) -> Message:
    message = platform.chat(values["from_chat_id"]).messages.get(values["message_id"])
    if message is None or message.deleted:
        raise bad(f"message to {verb} not found")
    return message
