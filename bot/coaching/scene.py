"""In which surroundings does a deed run? One transaction, one moment, and what was found out about who is speaking.

A deed never sends: `say` puts the reply into the outbox as data, in the deed's own transaction, so that a reply and the change it
speaks of are on disk together or not at all. A button is an answer of a stored question, so that it works after a restart, and
the same answer can be typed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from typing import Any, Protocol, TypeVar
from zoneinfo import ZoneInfo

from bot.coaching import ports
from bot.training import people
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Exercise
from bot.training.plain import from_plain, to_plain

V = TypeVar("V")


class Shelf(Protocol[V]):
    """The values of one class; see storage.shelf for how keys are matched."""

    def add(self, value: V) -> V: ...
    def save(self, value: V) -> V: ...
    def get(self, value_id: int) -> V | None: ...
    def find(self, **keys: Any) -> list[V]: ...
    def newest(self, **keys: Any) -> V | None: ...
    def foresee(self, key: str, wanted: Collection[int], **same: Any) -> None: ...
    def count(self, **keys: Any) -> int: ...
    def remove(self, **keys: Any) -> int: ...


class UnitOfWork(Protocol):
    """One transaction over everything that is kept."""

    inbox: ports.Inbox
    outbox: ports.Outbox
    due: ports.DueList
    groups: Shelf[people.Group]
    invites: Shelf[people.Invite]
    claims: Shelf[people.Claim]
    members: Shelf[people.Member]
    revisions: Shelf[people.Revision]
    assignments: Shelf[people.Assignment]
    sessions: Shelf[people.Session]
    messages: Shelf[people.Message]
    records: Shelf[people.KeptRecord]
    asked: Shelf[people.Asked]
    pains: Shelf[people.Pain]
    relays: Shelf[people.Relay]
    swaps: Shelf[people.SwapTaken]
    advice: Shelf[people.Advice]
    own_names: Shelf[people.OwnName]


@dataclass
class Desk:
    """What deeds need from outside besides the unit of work.

    button_words: the words on a deed's button (wording lives in chat). bot_name: the bot's own name on the platform, for links.
    public_url: where the operator serves the calendar feed, "" if nowhere.
    """

    catalogue: Catalogue
    button_words: Callable[[Any], str]
    bot_name: str = "companion"
    public_url: str = ""
    own_catalogues: dict[int, tuple[tuple[Any, ...], Catalogue]] = field(default_factory=dict)


@dataclass(frozen=True)
class Choice:
    """A button: the deed it stands for, and its words where data decides them ("" lets the wording choose)."""

    deed: Any
    words: str = ""


@dataclass
class Scene:
    """One deed's surroundings.

    now: aware UTC. chat_id: where the person is speaking. pressed_message: the message whose button was used. attached: (kind, the
    platform's id) of the picture, video or voice that the words stand beside. passed_on: it went to the coach with them.
    """

    uow: UnitOfWork
    now: datetime
    desk: Desk
    chat_id: int
    person_name: str = ""
    locale: str = "en"
    message_id: int = 0
    pressed_message: int | None = None
    reply_to: int | None = None
    attached: tuple[str, str] | None = None
    passed_on: bool = False

    def say(
        self,
        reply: Any,
        *choices: Choice,
        to: int | None = None,
        lane: str = "answer",
        edit: bool = False,
        row: int = 2,
        code: str = "",
        about: int | None = None,
        key: str | None = None,
        expires_at: datetime | None = None,
        not_before: datetime | None = None,
        member: int | None = None,
    ) -> int:
        """Queue a reply; with choices it is a question whose buttons and typed words do the same.

        row: how many buttons stand beside each other. edit: change the message whose button was pressed instead of sending a
        new one. about: the Message.id that the question is about. member: of whom a message to the coach tells. Returns the outbox row's id (0 if the key was there before).
        """
        chat_id = self.chat_id if to is None else to
        fields: dict[str, Any] = {"reply": to_plain(reply)}
        if member is not None:
            fields["member"] = int(member)
        if choices:
            answers = tuple((c.words or self.desk.button_words(c.deed), pack(c.deed)) for c in choices)
            before = self.uow.messages.newest(chat_id=chat_id)
            asked = self.uow.asked.add(
                people.Asked(
                    chat_id=chat_id, code=code or type(reply).__name__, answers=answers, asked_at=self.now, message_id=about,
                    after=before.id if before else 0,
                )
            )  # fmt: skip
            fields["buttons"] = [[words, f"a:{asked.id}:{n}"] for n, (words, _) in enumerate(answers)]
            fields["row"] = row
            fields["asked"] = asked.id
        if edit and self.pressed_message and chat_id == self.chat_id:
            fields["edit"] = self.pressed_message
        how: dict[str, Any] = {"lane": lane, "key": key}
        if expires_at is not None:
            how["expires_at_utc"] = expires_at
        if not_before is not None:
            how["not_before_utc"] = not_before
        return self.uow.outbox.put(chat_id, type(reply).__name__, fields, **how)

    def catalogue(self, group_id: int) -> Catalogue:
        """The catalogue with this group's own exercises in it."""
        named = [name for name in self.uow.own_names.find(group_id=group_id) if name.entry]
        if not named:
            return self.desk.catalogue
        # Building the index of names takes 20 ms, so it is kept until the coach's own exercises change.
        key = tuple((name.id, name.exercise, name.entry.get("pattern")) for name in named)
        kept = self.desk.own_catalogues.get(group_id)
        if kept is None or kept[0] != key:
            own = tuple(from_plain(name.entry, Exercise) for name in named)
            kept = (key, self.desk.catalogue.with_own(own))
            self.desk.own_catalogues[group_id] = kept
        return kept[1]

    def local(self, zone: str) -> datetime:
        return self.now.astimezone(ZoneInfo(zone))

    def today(self, member: people.Member) -> date:
        """The member's own date now."""
        return self.local(member.zone).date()

    def in_chat(self, chat_id: int) -> Scene:
        """The same transaction and moment, speaking to another chat."""
        return replace(self, chat_id=chat_id, pressed_message=None, message_id=0, reply_to=None)


Handler = Callable[[Scene, Any], None]
_DEEDS: dict[str, tuple[type[Any], Handler]] = {}


def deed(kind: type[Any]) -> Callable[[Handler], Handler]:
    """Say which function does a deed: `@deed(TakeSwap)`. The deed is a frozen dataclass of plain fields."""

    def register(handler: Handler) -> Handler:
        _DEEDS[kind.__name__] = (kind, handler)
        return handler

    return register


def pack(the_deed: Any) -> dict[str, Any]:
    """A deed as plain data, for a stored button."""
    return {"deed": type(the_deed).__name__, **to_plain(the_deed)}


def unpack(data: Mapping[str, Any]) -> Any:
    kind, _ = _DEEDS[data["deed"]]
    return from_plain(dict(data), kind)


def do(scene: Scene, the_deed: Any) -> None:
    """Carry a deed out."""
    _, handler = _DEEDS[type(the_deed).__name__]
    handler(scene, the_deed)


def answer_by_press(scene: Scene, data: str) -> bool:
    """Carry out the answer that a button stands for; False if the data is none of ours, or of somebody else's question.

    A question is answered once: a second press of any of its buttons does nothing again, and is False as well.
    """
    found = re.fullmatch(r"a:(\d{1,18}):(\d{1,3})", data)
    asked = scene.uow.asked.get(int(found[1])) if found else None
    if found is None or asked is None or asked.chat_id != scene.chat_id or int(found[2]) >= len(asked.answers):
        return False
    return choose(scene, asked, int(found[2]))


def choose(scene: Scene, asked: people.Asked, number: int) -> bool:
    """Take one answer of a question. Deeds that only look (repeatable ones) leave it open."""
    the_deed = unpack(asked.answers[number][1])
    if getattr(the_deed, "repeatable", False):
        do(scene, the_deed)
        return True
    if not asked.open:
        return False
    scene.uow.asked.save(replace(asked, open=False, chosen=number))
    do(scene, the_deed)
    return True


# A typed answer to a question of ours is one for this long; afterwards the same words start something new (our choice).
_ANSWERED_WITHIN = timedelta(hours=12)
_NUMBER_WITHIN = timedelta(hours=2)
_YES = frozenset(("yes", "yes please", "yep", "yeah", "yup", "y"))
_NO = frozenset(("no", "no thanks", "no thank you", "nope", "nah", "n"))


def answer_by_words(scene: Scene, text: str) -> bool:
    """Is this text the words of one of the open question's buttons? Then it is that answer.

    Only the newest open question counts. A bare number is one only as the very next message: later on it is a set.
    """
    asked = scene.uow.asked.newest(chat_id=scene.chat_id, open=True)
    folded = _fold(text)
    pain = scene.uow.asked.newest(chat_id=scene.chat_id, open=True, code="pain") if folded.isdigit() else None
    if pain is not None and _still_about_pain(scene, pain):
        asked = pain
    if asked is None or not folded or scene.now - asked.asked_at > _ANSWERED_WITHIN:
        return False
    if folded[0].isdigit() and not (is_very_next(scene, asked) or _still_about_pain(scene, asked)):
        return False
    if folded == "undo" and _recorded_since(scene, asked):
        return False  # it takes the set back, not what was said before it
    for number, (words, _) in enumerate(asked.answers):
        if folded == _fold(words):
            return choose(scene, asked, number)
    place = _picked(folded, asked) if asked.code == "swap" and is_very_next(scene, asked) else None
    if place is not None:
        return choose(scene, asked, place)
    word = "yes" if folded in _YES else "no" if folded in _NO else ""
    fits = [number for number, (words, _) in enumerate(asked.answers) if word and _fold(words).split()[:1] == [word]]
    # "yes" for "Yes, keep it"; only as the very next message, since it may answer something else later on.
    if not fits and asked.code == "reading" and word:
        # A doubt about a set has its reading (or readings) first and "none of these" last.
        fits = [0] if word == "yes" and len(asked.answers) == 2 else [len(asked.answers) - 1] if word == "no" else []
    return len(fits) == 1 and is_very_next(scene, asked) and choose(scene, asked, fits[0])


def _still_about_pain(scene: Scene, asked: people.Asked) -> bool:
    """How bad it hurts may be said after a word in between; a set in between means that the training went on."""
    since = scene.uow.messages.count(chat_id=scene.chat_id, id=(asked.after + 1, 2**62))
    near = since <= 2 and scene.now - asked.asked_at <= _NUMBER_WITHIN
    return asked.code == "pain" and near and not _recorded_since(scene, asked)


def _recorded_since(scene: Scene, asked: people.Asked) -> bool:
    """Has a set that stands gone on record since the question?"""
    since = scene.uow.messages.find(chat_id=scene.chat_id, id=(asked.after + 1, 2**62))
    return any(scene.uow.records.count(message_id=message.id, active=True) for message in since)


_ORDINALS = {"first": 0, "1st": 0, "second": 1, "2nd": 1, "third": 2, "3rd": 2, "last": -1}


def _picked(folded: str, asked: people.Asked) -> int | None:
    """Which of the offered things "1", "the second one", "A1" or "number 3" means; None where it means none of them."""
    labels = [_fold(words) for words, _ in asked.answers]
    found = re.fullmatch(r"(?:the |number |no |option |nr )*(?P<word>[a-z0-9]+)(?: one| please| pls)*", folded)
    if found is None:
        return None
    word = found["word"]
    if word in _ORDINALS and len(labels) > 1:
        place = _ORDINALS[word] % len(labels)
        return place if _ORDINALS[word] < len(labels) else None
    if word.isdigit():
        return int(word) - 1 if 1 <= int(word) <= len(labels) else None
    begins = [place for place, label in enumerate(labels) if label.split()[:1] == [word]]
    return begins[0] if len(begins) == 1 and re.fullmatch(r"[a-z]\d{1,2}", word) else None


def is_very_next(scene: Scene, asked: people.Asked) -> bool:
    """Is the text that is being heard the first one since the question?"""
    since = scene.uow.messages.count(chat_id=scene.chat_id, id=(asked.after + 1, 2**62))
    return since <= 1 and scene.now - asked.asked_at <= _NUMBER_WITHIN


def close_questions(scene: Scene, codes: Sequence[str] = ()) -> None:
    """Withdraw open questions that the talk has left behind."""
    for asked in scene.uow.asked.find(chat_id=scene.chat_id, open=True):
        if not codes or asked.code in codes:
            scene.uow.asked.save(replace(asked, open=False))


def _fold(text: str) -> str:
    return re.sub(r"[^\w.+:-]+", " ", text.casefold()).strip()
