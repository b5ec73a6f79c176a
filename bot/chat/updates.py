"""An update came in: who is speaking, and which deed is it? Deciding is here, doing is in coaching.

private text      a coach's or a member's words; /start carries an invite or a claim code
edited text       the member mends an earlier message
button            an answer of a stored question
file              a coach's block; a coach's video shows an exercise
my_chat_member    blocked or came back
group             a coach links the shared chat; all else is left alone
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from telegram import Chat, Message, Update, User

from bot.chat.lanes import IncomingFile
from bot.coaching import ask_coach, coach, demos, hearing, join, outside, own_data, publish, replies
from bot.coaching.log_sets import member_here
from bot.coaching.scene import Choice, Desk, Scene, answer_by_press
from bot.training import people

# Larger files are no block; refused before they are fetched (the bound for a hostile file is 2 MB).
MAX_BLOCK_BYTES = 2_000_000


@dataclass(frozen=True)
class Updates:
    """Handles updates at one desk; `handle` runs inside the update's transaction."""

    desk: Desk

    def handle(self, update: Update, raw: dict[str, Any], uow: Any, now: datetime, *, file: IncomingFile | None = None) -> None:
        if update.callback_query is not None:
            self._press(update, uow, now)
        elif update.my_chat_member is not None:
            self._membership(update, uow, now)
        elif update.edited_message is not None:
            self._edit(update.edited_message, uow, now)
        elif update.message is not None:
            self._message(update.message, uow, now, file)

    def _scene(self, uow: Any, now: datetime, chat: Chat, user: User | None, message: Message | None) -> Scene:
        name = (user.first_name if user else "") or ""
        reply_to = message.reply_to_message.message_id if message and message.reply_to_message else None
        return Scene(
            uow=uow, now=now, desk=self.desk, chat_id=chat.id, person_name=name[:60], locale=(user.language_code if user else None) or "en",
            message_id=message.message_id if message else 0, reply_to=reply_to,
        )  # fmt: skip

    def _press(self, update: Update, uow: Any, now: datetime) -> None:
        query = update.callback_query
        assert query is not None
        message = query.message
        if message is None or not query.data:
            return
        scene = self._scene(uow, now, message.chat, query.from_user, None)
        scene.pressed_message = message.message_id
        member = member_here(scene)
        if member:
            uow.members.save(replace(member, last_heard_at=now, silence_told=False, reachable=True))
        if not answer_by_press(scene, query.data):
            scene.say(replies.AnswerOver())

    def _membership(self, update: Update, uow: Any, now: datetime) -> None:
        changed = update.my_chat_member
        assert changed is not None
        if changed.chat.type != Chat.PRIVATE:
            return
        gone = changed.new_chat_member.status in ("kicked", "left")
        mark_reachable(uow, changed.chat.id, now, self.desk, reachable=not gone)

    def _edit(self, message: Message, uow: Any, now: datetime) -> None:
        text = message.text or message.caption
        if message.chat.type != Chat.PRIVATE or not text:
            return
        scene = self._scene(uow, now, message.chat, message.from_user, message)
        member = member_here(scene)
        if member and member.state is people.MemberState.ACTIVE:
            hearing.hear_edit(scene, member, text)

    def _message(self, message: Message, uow: Any, now: datetime, file: IncomingFile | None) -> None:
        scene = self._scene(uow, now, message.chat, message.from_user, message)
        if message.chat.type != Chat.PRIVATE:
            _in_group(scene, message)
        elif (video := _video(message)) is not None and (group := coach.group_here(scene)) is not None:
            demos.hear_video(scene, group, *video, message.caption or "")
        elif message.document is not None and video is None:
            _file(scene, message, file)
        elif words := message.text or message.caption:
            scene.attached = _shown(message)
            _words(scene, words)
            if message.text is None and (member_here(scene) or coach.group_here(scene)):
                scene.say(replies.OnlyText(_what(message), beside_words=True, passed_on=scene.passed_on))
        elif message.effective_attachment is not None:  # anything else tells what happened to the chat, and asks for no answer
            _unreadable(scene, message)


def wants_file(update: Update) -> str | None:
    """Fetch only what may be a block: a document of reasonable size in a private chat."""
    message = update.message
    if message is None or message.document is None or message.chat.type != Chat.PRIVATE or _video(message):
        return None
    return message.document.file_id if (message.document.file_size or 0) <= MAX_BLOCK_BYTES else None


def _video(message: Message) -> tuple[str, str] | None:
    """(kind, id) of a video, in whichever way it was sent. An animation comes with a document of the same file."""
    for kind in ("video", "animation", "video_note"):
        found = getattr(message, kind, None)
        if found is not None:
            return kind, found.file_id
    document = message.document
    is_video = document is not None and (document.mime_type or "").startswith("video/")
    return ("document", document.file_id) if document is not None and is_video else None


def _words(scene: Scene, text: str) -> None:
    command, _, argument = text.partition(" ")
    if command.split("@")[0] == "/start" and argument.strip():
        _start(scene, argument.strip())
        return
    group = coach.group_here(scene)
    member = member_here(scene)
    if group is None and command.split("@")[0] == "/claim" and coach.claim(scene, argument):
        return  # a member of somebody's group may become a coach as well
    if group is not None and (member is None or coach.speaks_as_coach(scene, group, text)):
        coach.hear(scene, group, text)
    elif member is not None:
        hearing.hear(scene, member, text)
    elif not (coach.claim(scene, text.removeprefix("/claim").strip()) or outside.hear_emergency(scene, text)):
        _from_outside(scene, text)


def _from_outside(scene: Scene, text: str) -> None:
    """Words of somebody who trains with nobody here (any more)."""
    former = own_data.former_member(scene)
    if former is not None:
        outside.hear_former(scene, former, text)
    else:
        scene.say(replies.Stranger())


def _start(scene: Scene, code: str) -> None:
    if coach.claim(scene, code):
        return
    join.start(scene, code)


def _file(scene: Scene, message: Message, file: IncomingFile | None) -> None:
    group = coach.group_here(scene)
    assert message.document is not None
    if group is None:
        scene.say(replies.CoachSaysSentence("members_send_text") if member_here(scene) else replies.Stranger())
    elif (message.document.file_size or 0) > MAX_BLOCK_BYTES or (file and file.problem == "too big"):
        scene.say(replies.CoachSaysSentence("file_too_large"))
    elif file is None or file.problem:
        scene.say(replies.CoachSaysSentence("file_not_fetched"))
    else:
        publish.hear_block(scene, group, file.content, message.document.file_name or "")


def _in_group(scene: Scene, message: Message) -> None:
    """In a group the bot only listens to its coach linking the chat."""
    text = (message.text or "").split("@")[0].strip().lower()
    user = message.from_user
    if text != "/link" or user is None:
        return
    group = scene.uow.groups.newest(coach_chat_id=user.id)
    if group is not None:
        scene.uow.groups.save(replace(group, shared_chat_id=message.chat.id))
        scene.say(replies.CoachSaysSentence("group_linked"))


def _unreadable(scene: Scene, message: Message) -> None:
    """Something without words. Of an album, which comes as many messages, only the first is answered."""
    member = member_here(scene)
    known = coach.group_here(scene) is not None, member is not None
    album = f"album:{scene.chat_id}:{message.media_group_id}" if message.media_group_id else None
    shown = _shown(message) if member is not None and member.state is people.MemberState.ACTIVE and album is None else None
    choices = [Choice(ask_coach.PassOn(*shown))] if shown else []
    said = replies.OnlyText(_what(message), coach=known == (True, False)) if any(known) else replies.Stranger()
    scene.say(said, *choices, key=album, code="attached")


def _shown(message: Message) -> tuple[str, str] | None:
    """(kind, id) of what a person may show their coach: a picture in its largest size, a video, a voice."""
    if message.photo:
        return "photo", message.photo[-1].file_id
    return ("voice", message.voice.file_id) if message.voice else _video(message)


def _what(message: Message) -> str:
    kinds: tuple[tuple[str, str], ...] = (
        ("photo", "pictures"), ("voice", "voice messages"), ("sticker", "stickers"), ("video", "videos"), ("audio", "audio"),
        ("location", "places on a map"), ("contact", "contacts"), ("animation", "videos"), ("video_note", "videos"), ("poll", "polls"),
    )  # fmt: skip
    return next((words for kind, words in kinds if getattr(message, kind, None)), "that")


def mark_reachable(uow: Any, chat_id: int, now: datetime, desk: Desk, *, reachable: bool) -> None:
    """A member blocked the bot, or came back: remember it, stop what was planned, tell the coach once."""
    from bot.coaching import reminders

    for member in uow.members.find(chat_id=chat_id):
        if member.reachable == reachable:
            continue
        member = uow.members.save(replace(member, reachable=reachable))
        scene = Scene(uow=uow, now=now, desk=desk, chat_id=chat_id)
        group = uow.groups.get(member.group_id)
        if reachable:
            reminders.schedule(scene, member)
            reminders.schedule_week_end(scene, member)
        else:
            uow.due.cancel_all(member_id=int(member.id), kind="reminder")
        if group:
            scene.say(replies.Unreachable(member.name, back=reachable), to=group.coach_chat_id, member=member.id)


Parked = Callable[[Any, Any, datetime, str], None]


def on_parked(desk: Desk) -> Parked:
    """Tell a person whose message could not be handled, once, without a code or a blame."""

    def tell(uow: Any, row: Any, now: datetime, reason: str) -> None:
        if row.chat_id:
            Scene(uow=uow, now=now, desk=desk, chat_id=row.chat_id).say(
                replies.CoachSaysSentence("trouble"), key=f"parked:{row.update_id}"
            )

    return tell


def on_moved(uow: Any, old_id: int, new_id: int) -> None:
    """A group chat got a new id: the value says so too (its key columns are rewritten by the pipes)."""
    for group in uow.groups.find(shared_chat_id=old_id) + uow.groups.find(shared_chat_id=new_id):
        uow.groups.save(replace(group, shared_chat_id=new_id))
