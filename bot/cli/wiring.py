"""Which deed meets which hook? The one place where chat, coaching and storage are plugged into the program."""

from __future__ import annotations

import gc
from collections.abc import Callable, Sequence
from datetime import UTC, date, datetime
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from bot.chat.outgoing import Outgoing
from bot.chat.updates import Updates, mark_reachable, on_moved, on_parked, wants_file
from bot.chat.wording import HEAVY, load_wording, render
from bot.chat.wording.buttons import button_words
from bot.chat.wording.in_place import in_place_of
from bot.cli.program import Hooks, Program
from bot.coaching import coach, own_data, publish, reminders, review
from bot.coaching.course import foresee_courses
from bot.coaching.scene import Desk, Scene
from bot.language import read
from bot.language.questions import read_questions
from bot.language.safety import read_safety
from bot.language.situation import Situation
from bot.training import people
from bot.training.exercises.catalogue import Catalogue, load_catalogue
from storage.shelves import Shelves
from storage.unit_of_work import UnitOfWork

if TYPE_CHECKING:
    from aiohttp import web


class CompanionUnitOfWork(UnitOfWork):
    """The unit of work with all values of the domain on it."""

    def attach(self) -> None:
        self._shelves = Shelves(self.session)
        self.__dict__.update(vars(self._shelves))

    def undone(self) -> None:
        self._shelves.forget()


def make_hooks(public_url: str = "") -> Hooks:
    """Everything the program needs of chat and coaching."""
    catalogue = load_catalogue()
    _warm(catalogue)
    desk = Desk(catalogue=catalogue, button_words=button_words, public_url=public_url)
    own_data.use_calendar(_calendar)
    return Hooks(
        handle=Updates(desk).handle,
        render=_render,
        deeds=_deeds(desk),
        missed=_missed(desk),
        foresee=_foresee(desk),
        on_start=_on_start,
        on_bot=lambda name, _id: setattr(desk, "bot_name", name),
        on_unreachable=lambda uow, chat_id: mark_reachable(uow, chat_id, uow.now, desk, reachable=False),
        on_moved=on_moved,
        on_parked=on_parked(desk),
        instead=in_place_of,
        wants_file=wants_file,
        heavy=HEAVY,
        routes=lambda program: _routes(program, desk),
        unit_of_work=CompanionUnitOfWork,
    )


def _warm(catalogue: Catalogue) -> None:
    """Build now what is built at its first use (names, patterns, sentences), so that no member waits for it: about 1 s once."""
    load_wording()
    situation = Situation(now=datetime(2026, 1, 1, tzinfo=UTC))
    read("20 x 12", situation, catalogue)
    read_safety("20 x 12")
    read_questions("what is a superset?", situation)
    _leave_alone()


@lru_cache(maxsize=1)
def _leave_alone() -> None:
    """Take what was just built, which stays for good, out of the garbage collector's rounds: each would stop an answer for 0.1 s."""
    gc.collect()
    gc.freeze()


def _render(kind: str, fields: dict[str, Any], row: Any) -> Outgoing:
    return render(kind, fields, row)


def _calendar(*given: Any, **named: Any) -> bytes:
    from bot.chat.calendar_file import calendar_of

    return calendar_of(*given, **named)


def _on_start(uow: Any, now: datetime) -> Sequence[str]:
    """The operator's lines: how the owner becomes coach, while there is none."""
    code = coach.new_claim(uow, now)
    if code is None:
        return []
    return [
        "There is no coach yet. Whoever sends this code to the bot first becomes coach; it works once and is shown only here:",
        f"    {code}",
    ]


def _deeds(desk: Desk) -> dict[str, Any]:
    """What runs when a due row's time has come, by kind."""

    def scene(uow: Any, now: datetime) -> Scene:
        return Scene(uow=uow, now=now, desk=desk, chat_id=0)

    return {
        "reminder": lambda uow, fields, row, now: reminders.remind(
            scene(uow, now), fields["member"], date.fromisoformat(fields["on"])
        ),
        "reminder_again": lambda uow, fields, row, now: reminders.remind(
            scene(uow, now), fields["member"], date.fromisoformat(fields["on"]), second=True, once=fields.get("once", "")
        ),
        "rest_over": lambda uow, fields, row, now: reminders.rest_over(scene(uow, now), fields["member"]),
        "week_end": lambda uow, fields, row, now: review.member_week_due(
            scene(uow, now), fields["member"], date.fromisoformat(fields["last"])
        ),
        "group_week": lambda uow, fields, row, now: review.group_week_due(scene(uow, now), fields["group"]),
        "publish": lambda uow, fields, row, now: publish.publish_due(scene(uow, now), fields["revision"]),
        "deliver": lambda uow, fields, row, now: publish.deliver_due(scene(uow, now), fields["revision"], fields["member"]),
    }


def _foresee(desk: Desk) -> dict[str, Any]:
    """What reads ahead, by kind, where many of a kind are due at once.

    Only for deeds that save nothing of what they read: what is saved is best read a moment before.
    """

    def courses(uow: Any, rows: Sequence[Any], now: datetime) -> None:
        foresee_courses(Scene(uow=uow, now=now, desk=desk, chat_id=0), {row.fields["member"] for row in rows})

    return {"reminder": courses, "reminder_again": courses}


def _missed(desk: Desk) -> dict[str, Any]:
    """What comes again every day or week goes on although one time was missed: the machine was off, or the deed failed."""

    def of_member(plan: Callable[[Scene, people.Member], None]) -> Any:
        def run(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
            member = uow.members.get(fields["member"])
            if member is not None:
                plan(Scene(uow=uow, now=now, desk=desk, chat_id=member.chat_id), member)

        return run

    def group_week(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
        group = uow.groups.get(fields["group"])
        if group is not None:
            review.schedule_group(Scene(uow=uow, now=now, desk=desk, chat_id=group.coach_chat_id), group)

    return {
        "reminder": of_member(reminders.schedule),
        "week_end": of_member(reminders.schedule_week_end),
        "group_week": group_week,
    }


def _routes(program: Program, desk: Desk) -> Sequence[web.RouteDef]:
    """The private calendar feed, where the operator has a public address."""
    from aiohttp import web

    async def feed(request: web.Request) -> web.Response:
        key = request.match_info["key"]

        def read() -> bytes | None:
            with program.open_uow(reads=True) as uow:
                whole: Any = uow
                member = whole.members.newest(feed_key=key) if len(key) >= 20 else None
                if member is None:
                    return None
                return own_data.calendar_bytes(Scene(uow=whole, now=program.clock.now(), desk=desk, chat_id=0), member)

        data = await program.in_database(read)
        if data is None:
            raise web.HTTPNotFound
        return web.Response(body=data, content_type="text/calendar")

    return [web.get("/calendar/{key}.ics", feed)] if desk.public_url else []
