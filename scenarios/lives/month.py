"""The harbour group's month, played through the whole program: what each person writes and when, and nothing else.

week 0   Ines becomes coach, sends her block, mends what was wrong, publishes; six people join
week 1   everyone gets used to it; Priya asks what a tempo means and swaps what her kit lacks; Jonas corrects himself
week 2   Noor's knee hurts; Teo moves a session; Dale asks something only the coach can answer
week 3   Dale goes quiet; Mira is away for two days; Ines changes one slot
week 4   Ines sends the next block for the Monday after
"""

from __future__ import annotations

import re
from collections.abc import Awaitable, Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from functools import partial
from importlib.resources import files
from zoneinfo import ZoneInfo

from scenarios.lives.cast import CAST, COACH, Role, Said, pasted, tidy
from scenarios.lives.reading_along import ShownSlot, read_session
from scenarios.player import OpenedPlay, Person

START = date(2026, 3, 2)  # a Monday; the northern clocks change within the month, the southern ones just after
WEEKS = 4
BEFORE = datetime(2026, 2, 27, 9, 0, tzinfo=UTC)  # when the play begins
KG_PER_LB = 0.45359237
ZONES = {
    "Mira": "Europe/Lisbon", "Jonas": "Europe/Berlin", "Priya": "Asia/Kolkata", "Dale": "America/Denver", "Noor": "Australia/Adelaide",
    "Teo": "America/Sao_Paulo",
}  # fmt: skip
Act = Callable[[], Awaitable[None]]


@dataclass
class Life:
    """One member in the play: the person on the platform, and what they remember of their own loads."""

    role: Role
    person: Person
    loads: dict[str, float] = field(default_factory=dict)
    quiet: bool = False

    @property
    def zone(self) -> ZoneInfo:
        return ZoneInfo(ZONES[self.role.name])


class Month:
    """Plays the month. tell: called after each act with the share of the month that is over and the coach's date."""

    def __init__(self, play: OpenedPlay, *, weeks: int = WEEKS) -> None:
        self.play, self.program, self.claim_code, self.weeks = play, play.program, play.claim_code, weeks
        self.tell: Callable[[float, str], None] = lambda share, what: None
        self.coach = play.person(COACH, language_code="pt")
        self.lives = [Life(role, play.person(role.name, language_code=role.language)) for role in CAST]

    def chats(self) -> list[tuple[Person, ZoneInfo]]:
        """Everybody's private chat, with the zone that it is read in."""
        return [(self.coach, ZoneInfo("Europe/Lisbon")), *((life.person, life.zone) for life in self.lives)]

    def about(self, person: Person) -> str:
        role = next((life.role for life in self.lives if life.person is person), None)
        return "The coach." if role is None else f"Trains in {role.place} with {role.kit}."

    async def run(self) -> None:
        await self._opening()
        for on, act in self._acts():
            if on >= datetime.combine(START + timedelta(weeks=self.weeks), time(), UTC):
                break
            await self.program.live_until(max(on, self.play.clock.now()))
            await act()
            self.tell(self._share(on), f"{on.astimezone(ZoneInfo('Europe/Lisbon')):%a %d %b}")
        await self.program.live_until(datetime.combine(START + timedelta(weeks=self.weeks, days=1), time(12), UTC))
        self.tell(1.0, "the month is over")

    def _share(self, on: datetime) -> float:
        return min(1.0, max(0.0, (on - datetime.combine(START, time(), UTC)) / timedelta(weeks=self.weeks)))

    # Before the first Monday

    async def _opening(self) -> None:
        coach = self.coach
        await coach.follows_link(f"https://t.me/{self.play.standin.username}?start={self.claim_code}")
        link = _first_link(coach.last.text)
        await coach.says("I live in Porto")
        await coach.says("call my group Harbour group")
        text = files("scenarios.lives").joinpath("harbour_block.txt").read_text(encoding="utf-8")
        await coach.sends_file(
            "harbour.txt", text.replace("3x8-12 @ 3-1-1-0\n  cue: elbows", "3x8-12 @ 3-1-\n  cue: elbows").encode()
        )
        await coach.sends_file("harbour.txt", text.encode())
        await self._answer_names(coach)
        await coach.presses("See day 1")
        await coach.presses("Publish now")
        for life in self.lives:
            await self._join(life, link)
        await coach.says("/group")

    async def _answer_names(self, coach: Person) -> None:
        """Unknown exercise names are asked about one by one; the coach takes the nearest."""
        for _ in range(20):
            labels = coach.last.labels
            if not labels or "Publish now" in labels:
                return
            await coach.presses(labels[0])

    async def _join(self, life: Life, link: str) -> None:
        person, role = life.person, life.role
        await person.follows_link(link)
        await person.presses("Yes, I agree")
        await person.presses(role.unit)
        await person.says(role.place)
        await person.presses(person.last.labels[0])
        await person.says(role.kit)
        await person.presses("Done")
        await person.presses(role.first_day)
        await person.says(role.reminder)
        await self._later(7)

    # The weeks

    def _acts(self) -> Iterator[tuple[datetime, Act]]:
        """Everything that people do of their own accord, in order of time."""
        acts: list[tuple[datetime, Act]] = []
        for life in self.lives:
            for day in range(WEEKS * 7):
                on = START + timedelta(days=day)
                at = datetime.combine(on, time(*life.role.trains_at), life.zone).astimezone(UTC)
                acts.append((at, partial(self._maybe_train, life, on)))
        acts += self._happenings()
        return iter(sorted(acts, key=lambda act: act[0]))

    def _happenings(self) -> list[tuple[datetime, Act]]:
        def at(week: int, weekday: int, hour: int, minute: int, zone: str = "Europe/Lisbon") -> datetime:
            return datetime.combine(
                START + timedelta(weeks=week - 1, days=weekday), time(hour, minute), ZoneInfo(zone)
            ).astimezone(UTC)

        lives = {life.role.name: life for life in self.lives}
        return [
            (at(2, 0, 8, 0, ZONES["Teo"]), lambda: self._says(lives["Teo"], "move wednesday to thursday")),
            (
                at(2, 3, 20, 30, ZONES["Dale"]),
                lambda: self._says(lives["Dale"], "is it ok if I do the whole thing in the garage at 5 degrees?"),
            ),
            (at(2, 3, 22, 30, ZONES["Dale"]), self._coach_answers),
            (at(3, 0, 9, 0), lambda: self._says(lives["Mira"], "away thu till fri")),
            (at(3, 0, 9, 5, ZONES["Dale"]), lambda: self._goes_quiet(lives["Dale"])),
            (at(3, 1, 21, 0), self._coach_amends),
            (at(4, 4, 21, 0), self._coach_sends_next),
        ]

    async def _says(self, life: Life, text: str) -> None:
        await life.person.says(text)
        await self._answer_question(life)

    async def _goes_quiet(self, life: Life) -> None:
        life.quiet = True

    async def _coach_answers(self) -> None:
        asked = [message for message in self.coach.from_bot() if "garage" in message.text]
        if asked:
            await self.coach.replies(
                asked[-1], "Yes. Warm up twice as long, keep a jacket on till the first work set, and watch your grip."
            )
            await self.coach.presses("Yes, keep it")

    async def _coach_amends(self) -> None:
        await self.coach.says("day 3 A1: 4x8-10 @ 2-1-1-0")
        if "Publish now" in self.coach.last.labels:
            await self.coach.presses("Publish now")

    async def _coach_sends_next(self) -> None:
        text = files("scenarios.lives").joinpath("harbour_block.txt").read_text(encoding="utf-8")
        text = text.replace("Harbour block 1: steady hands", "Harbour block 2: longer ropes").replace("3x8-12", "4x6-10")
        await self.coach.sends_file("harbour2.txt", text.encode())
        await self._answer_names(self.coach)
        publish = next((label for label in reversed(self.coach.last.labels) if label.startswith("Publish Mon")), None)
        if publish:
            await self.coach.presses(publish)

    # A session

    async def _maybe_train(self, life: Life, on: date) -> None:
        """Ask for today's session; on a rest day that is all there is to it (and nobody asks on most of them)."""
        if life.quiet or not self._would_look(life, on):
            return
        asked = await life.person.says("today")
        shown = [message.text for message in life.person.since(asked)]
        slots = read_session("\n".join(shown))
        if not slots:
            return
        week = (on - START).days // 7 + 1
        await self._train(life, slots, week, on)

    def _would_look(self, life: Life, on: date) -> bool:
        """People look on days when the bot reminded them, as it does on training days only."""
        reminded = [
            m
            for m in life.person.from_bot()
            if "Send today for the whole session" in m.text and self._local_date(life, m.at) == on
        ]
        return bool(reminded)

    def _local_date(self, life: Life, at: datetime) -> date:
        return at.astimezone(life.zone).date()

    async def _train(self, life: Life, slots: list[ShownSlot], week: int, on: date) -> None:
        role, person = life.role, life.person
        if role.how is tidy and week == 1 and on <= START + timedelta(days=1):
            await self._set_by_set(life, slots, week)
            await self._finish(life)
            return
        lines: list[str] = []
        for number, slot in enumerate(slots):
            if role.swaps and week == 1:
                slot = await self._swap_if_lacking(life, slot)
            if role.name == "Noor" and week == 2 and slot.name == "Goblet squat" and number == 0 and not role.lifter.held_back:
                await self._knee(life, slot, week)
                continue
            said = self._do(life, slot, week)
            texts = role.how(slot.label, slot.name, said, _unit_words(slot))
            if role.how is pasted or (
                role.name in ("Jonas", "Noor", "Dale") and week > 1
            ):  # habits settle: a whole session in one go
                lines += texts
                continue
            for text in texts:
                await self._later(2.5)
                await person.says(text)
                await self._answer_question(life)
            if role.name == "Priya" and week == 1 and number == 0:
                await person.says("what does 3-1-1-0 mean again?")
            if role.name == "Jonas" and week == 1 and number == 1:
                await person.says("last one was 9")
                await self._answer_question(life)
        if lines:
            await self._later(40)
            await person.says("\n".join(lines))
            await self._answer_question(life)
        await self._finish(life)

    async def _set_by_set(self, life: Life, slots: list[ShownSlot], week: int) -> None:
        """A text after every set, in the order that the bot asks for: A1, A2, A1 ..."""
        said = {slot.label: (slot, self._do(life, slot, week)) for slot in slots}
        for letter in dict.fromkeys(slot.label[0] for slot in slots):
            group = [said[slot.label] for slot in slots if slot.label[0] == letter]
            for number in range(max(len(done[1]) for _, done in group)):
                for slot, (load, counts) in group:
                    if number < len(counts):
                        await self._later(2)
                        text = f"{load:g}x{counts[number]}" if load else str(counts[number])
                        await life.person.says(text + _unit_words(slot))
                        await self._answer_question(life)

    async def _later(self, minutes: float) -> None:
        """Time goes by; what fell due meanwhile is done with the next act."""
        await self.play.clock.advance_to(self.play.clock.now() + timedelta(minutes=minutes))

    async def _finish(self, life: Life) -> None:
        person = life.person
        if "10" not in person.last.labels:
            await person.says("done")
        if "10" in person.last.labels:
            await person.presses(str(6 + (len(person.sees()) % 3)), on=person.last)

    async def _swap_if_lacking(self, life: Life, slot: ShownSlot) -> ShownSlot:
        """Priya has no bench and no bar: she asks, and takes the first choice for the whole block."""
        if not re.search(r"bench|pull-up|barbell|dumbbell|face pull", slot.name, re.IGNORECASE):
            return slot
        await life.person.says(f"i dont have the kit for {slot.label.lower()}, what instead?")
        labels = life.person.last.labels
        if not labels:
            return slot
        await life.person.presses(labels[0])
        if "For the whole block" in life.person.last.labels:
            await life.person.presses("For the whole block")
        name = labels[0]
        return ShownSlot(
            slot.label, name, slot.sets, slot.low, slot.high, slot.unit_of_count, slot.each_side, None, "", None, slot.rising
        )

    async def _knee(self, life: Life, slot: ShownSlot, week: int) -> None:
        person = life.person
        load = self._load(life, slot, week)
        await person.says(f"{slot.label} {load:g}x8 and my left knee hurts going down")
        for label in ("4",):
            if label in person.last.labels:
                await person.presses(label, on=person.last)
        life.role.lifter.held_back = 0.5

    async def _answer_question(self, life: Life) -> None:
        """The bot asked which reading is meant: take the likeliest, which stands first."""
        labels = life.person.last.labels
        if "None of these" in labels:
            await life.person.presses(labels[0], on=life.person.last)

    def _load(self, life: Life, slot: ShownSlot, week: int) -> float:
        """The load to take, in the member's unit: what the bot suggests, else last time's, else a cautious first guess."""
        pounds = life.role.unit == "pounds"
        if slot.target_load is not None:
            return slot.target_load
        if slot.label + slot.name in life.loads:
            return life.loads[slot.label + slot.name]
        ten = life.role.lifter.ten_rep_kg(slot.name, 1) or 10
        wanted = (ten * 0.9) / (KG_PER_LB if pounds else 1)
        return min(life.role.steps, key=lambda step: abs(step - wanted))

    def _do(self, life: Life, slot: ShownSlot, week: int) -> Said:
        """What happens in the sets of one slot."""
        lifter = life.role.lifter
        counts: list[int] = []
        if lifter.ten_rep_kg(slot.name, week) is None:
            first = lifter.count(slot.name, week)
            for _ in range(slot.sets):
                counts.append(max(2, first))
                first -= lifter.tired(2)
            return None, counts
        load = self._load(life, slot, week)
        life.loads[slot.label + slot.name] = load
        kg = load * (KG_PER_LB if life.role.unit == "pounds" else 1)
        if slot.unit_of_count:
            return load, [slot.high or 30] * slot.sets
        most = lifter.reps(slot.name, kg, week)
        for _ in range(slot.sets):
            counts.append(max(3, min(most, (slot.high or 30))))
            most -= lifter.tired(2)
        return load, counts


def _unit_words(slot: ShownSlot) -> str:
    return {"s": "s", "steps": " steps", "m": "m"}.get(slot.unit_of_count, "")


def _first_link(text: str) -> str:
    found = re.search(r"https://t\.me/\S+", text)
    assert found is not None, f"no invite link in {text!r}"
    return found[0].rstrip(".,")
