"""What happens when the bot asks about chats, or sets itself up? Commands, descriptions, members, files."""

from __future__ import annotations

import re
from typing import Any

from scenarios.standin.chats import Chat, User
from scenarios.standin.platform import Platform, scope_key
from scenarios.standin.refusal import Refusal, bad
from scenarios.standin.sending import Method, Uploads, Values

_COMMAND = re.compile(r"[a-z0-9_]{1,32}")
_SCOPES = {
    "default": (), "all_private_chats": (), "all_group_chats": (), "all_chat_administrators": (), "chat": ("chat_id",),
    "chat_administrators": ("chat_id",), "chat_member": ("chat_id", "user_id"),
}  # fmt: skip


def get_me(platform: Platform, values: Values, _: Uploads) -> Any:
    flags = {
        "can_join_groups": True, "can_read_all_group_messages": not platform.privacy, "supports_inline_queries": False,
        "can_connect_to_business": False, "has_main_web_app": False, "has_topics_enabled": False,
        "allows_users_to_create_topics": False, "can_manage_bots": False,
    }  # fmt: skip
    return platform.bot.to_json() | flags


def get_file(platform: Platform, values: Values, _: Uploads) -> Any:
    stored = platform.files.to_download(values["file_id"])
    return {"file_id": stored.id, "file_unique_id": stored.unique_id, "file_size": len(stored.content), "file_path": stored.path}


def set_commands(platform: Platform, values: Values, _: Uploads) -> Any:
    commands = values["commands"]
    if len(commands) > 100:
        raise bad("too many commands specified")
    for command in commands:
        if not isinstance(command, dict) or not _COMMAND.fullmatch(str(command.get("command", ""))):
            raise bad("BOT_COMMAND_INVALID")
        if not 1 <= len(str(command.get("description", ""))) <= 256:
            raise bad("BOT_COMMAND_DESCRIPTION_INVALID")
    platform.commands[_scope(platform, values)] = commands
    return True


def delete_commands(platform: Platform, values: Values, _: Uploads) -> Any:
    platform.commands.pop(_scope(platform, values), None)
    return True


def get_commands(platform: Platform, values: Values, _: Uploads) -> Any:
    return platform.commands.get(_scope(platform, values), [])


def _text_setter(name: str, limit: int) -> Method:
    def set_text(platform: Platform, values: Values, _: Uploads) -> Any:
        text = values.get(name, "")
        if len(text) > limit:
            raise bad(f"bot {name.replace('_', ' ')} is too long")
        platform.texts[name, values.get("language_code", "")] = text
        return True

    return set_text


def _text_getter(name: str) -> Method:
    def get_text(platform: Platform, values: Values, _: Uploads) -> Any:
        return {name: platform.texts.get((name, values.get("language_code", "")), "")}

    return get_text


def set_menu_button(platform: Platform, values: Values, _: Uploads) -> Any:
    button = values.get("menu_button", {"type": "default"})
    if button.get("type") not in ("default", "commands", "web_app"):
        raise bad("can't parse menu button: unknown type")
    if "chat_id" in values:
        platform.chat(values["chat_id"]).menu_button = button
    else:
        platform.menu_button = button
    return True


def get_menu_button(platform: Platform, values: Values, _: Uploads) -> Any:
    chat = platform.chat(values["chat_id"]) if "chat_id" in values else None
    return (chat.menu_button if chat else None) or platform.menu_button


def get_chat(platform: Platform, values: Values, _: Uploads) -> Any:
    chat = _inside(platform, values)
    full = {"accent_color_id": 0, "max_reaction_count": 11, "accepted_gift_types": _NO_GIFTS}
    return chat.to_json() | full | ({"is_forum": True} if chat.topics else {})


_NO_GIFTS = dict.fromkeys(
    ("unlimited_gifts", "limited_gifts", "unique_gifts", "premium_subscription", "gifts_from_channels"), False
)


def get_chat_member(platform: Platform, values: Values, _: Uploads) -> Any:
    chat = _inside(platform, values)
    if values["user_id"] == platform.bot.id:
        return platform.bot_member("administrator" if chat.bot_is_admin else "member")
    user = chat.members.get(values["user_id"]) or (chat.person if chat.person and chat.person.id == values["user_id"] else None)
    if user is None:
        known = platform.people.get(values["user_id"])
        if known is None:
            raise bad("user not found")
        return {"user": known.to_json(), "status": "left"}
    return _member(chat, user)


def get_chat_member_count(platform: Platform, values: Values, _: Uploads) -> Any:
    return len(_inside(platform, values).members) + 1


def get_chat_administrators(platform: Platform, values: Values, _: Uploads) -> Any:
    chat = _inside(platform, values)
    if chat.is_private:
        raise bad("there are no administrators in the private chat")
    found = [_member(chat, user) for user in chat.members.values() if user.id in chat.admins]
    return found + ([platform.bot_member("administrator")] if chat.bot_is_admin else [])


def leave_chat(platform: Platform, values: Values, _: Uploads) -> Any:
    chat = platform.chat_to_write(values["chat_id"])
    if chat.is_private:
        raise bad("chat member status can't be changed in private chats")
    chat.bot_inside = False
    return True


def export_link(platform: Platform, values: Values, _: Uploads) -> Any:
    return _new_link(platform, values)


def create_link(platform: Platform, values: Values, _: Uploads) -> Any:
    link = _new_link(platform, values)
    said = {
        "invite_link": link, "creator": platform.bot.to_json(), "creates_join_request": values.get("creates_join_request", False),
        "is_primary": False, "is_revoked": False,
    }  # fmt: skip
    return said | {name: values[name] for name in ("name", "expire_date", "member_limit") if name in values}


METHODS: dict[str, Method] = {
    "getMe": get_me,
    "getFile": get_file,
    "setMyCommands": set_commands,
    "deleteMyCommands": delete_commands,
    "getMyCommands": get_commands,
    "setMyDescription": _text_setter("description", 512),
    "getMyDescription": _text_getter("description"),
    "setMyShortDescription": _text_setter("short_description", 120),
    "getMyShortDescription": _text_getter("short_description"),
    "setChatMenuButton": set_menu_button,
    "getChatMenuButton": get_menu_button,
    "getChat": get_chat,
    "getChatMember": get_chat_member,
    "getChatMemberCount": get_chat_member_count,
    "getChatAdministrators": get_chat_administrators,
    "leaveChat": leave_chat,
    "exportChatInviteLink": export_link,
    "createChatInviteLink": create_link,
}


def _scope(platform: Platform, values: Values) -> str:
    scope = values.get("scope", {"type": "default"})
    needed = _SCOPES.get(scope.get("type"))
    if needed is None or any(name not in scope for name in needed):
        raise bad("can't parse BotCommandScope")
    if "chat_id" in scope:
        platform.chat(int(scope["chat_id"]))
    return scope_key(scope, values.get("language_code", ""))


def _inside(platform: Platform, values: Values) -> Chat:
    chat = platform.chat(values["chat_id"])
    if not chat.bot_inside:
        raise Refusal(403, f"bot is not a member of the {chat.kind} chat")
    return chat


def _member(chat: Chat, user: User) -> dict[str, Any]:
    if user.id in chat.admins:
        return {"user": user.to_json(), "status": "creator", "is_anonymous": False}
    return {"user": user.to_json(), "status": "member"}


def _new_link(platform: Platform, values: Values) -> str:
    chat = platform.chat_to_write(values["chat_id"])
    if chat.is_private or not chat.bot_is_admin:
        raise bad("not enough rights to manage chat invite link")
    chat.invite_links += 1
    return f"https://t.me/+standin{abs(chat.id)}x{chat.invite_links}"
