"""A coach shows an exercise: a video sent with its slot or name is kept, and goes to members who ask how it is done.

What is kept is the platform's own id of the file, so that nothing is fetched or stored here; the id is good for this bot alone. It
belongs to the exercise, wherever in the block it stands, and stays over the blocks until the coach sends another.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from bot.coaching import replies
from bot.coaching.scene import Choice, Scene, deed
from bot.training import people
from bot.training.blocks import Block, Day, ExerciseId, Slot

_ASKED_AT_MOST = 40  # buttons of one question; a block of more exercises is asked about by name
_PLACE = re.compile(
    r"\b(?:day\s*(?P<day>\d{1,2})\s*[,:]?\s*)?(?P<label>[a-z]\d{1,2})\b(?:\s*[,:]?\s*(?:on\s+|of\s+)?day\s*(?P<day2>\d{1,2}))?",
    re.I,
)


@dataclass(frozen=True, slots=True)
class KeepDemo:
    """This file shows this exercise. file: "file:<kind>:<the platform's id>"."""

    name: str
    exercise: ExerciseId
    file: str


@dataclass(frozen=True, slots=True)
class ForgetDemo:
    exercise: ExerciseId


def hear_video(scene: Scene, group: people.Group, kind: str, file_id: str, caption: str) -> None:
    """A coach's video: kept for the exercise that its caption names, or asked about. kind: as the platform calls the file."""
    file = f"file:{kind}:{file_id}"
    block = _block(scene, group)
    named = _named(scene, group, block, caption) if caption.strip() else {}
    if len(named) == 1:
        exercise, name = next(iter(named.items()))
        keep_demo(scene, KeepDemo(name, exercise, file))
        return
    offered = named or {slot.exercise: slot.exercise_name for _, slot in _slots(block) if slot.exercise}
    if not offered or len(offered) > _ASKED_AT_MOST:
        scene.say(replies.DemoNotPlaced(bool(offered), caption[:60]))
        return
    choices = [Choice(KeepDemo(name, exercise, file), name[:40]) for exercise, name in offered.items()]
    scene.say(replies.DemoAsked(caption[:60] if caption.strip() else "", several=bool(named)), *choices, code="demo")


def _block(scene: Scene, group: people.Group) -> Block | None:
    """The newest block that the coach works on: a draft before the published one."""
    live = (people.RevisionState.DRAFT, people.RevisionState.SCHEDULED, people.RevisionState.PUBLISHED)
    found = [revision for revision in scene.uow.revisions.find(group_id=group.id) if revision.state in live]
    return found[-1].block if found else None


def _slots(block: Block | None) -> Iterator[tuple[Day, Slot]]:
    for day in block.days if block else ():
        for slot in day.slots:
            yield day, slot


def _named(scene: Scene, group: people.Group, block: Block | None, caption: str) -> dict[ExerciseId, str]:
    """Exercises that a caption may mean: of the slot it names, else those whose name it says. Several where it leaves that open."""
    place = _PLACE.search(caption)
    if place:
        number = place["day"] or place["day2"]
        there = {
            slot.exercise: slot.exercise_name
            for day, slot in _slots(block)
            if slot.label == place["label"].upper() and slot.exercise and number in (None, str(day.number))
        }
        if there:
            return there
    words = _fold(caption)
    said = {
        slot.exercise: slot.exercise_name for _, slot in _slots(block) if slot.exercise and _fold(slot.exercise_name) == words
    }
    catalogue = scene.catalogue(group.id)
    if said:
        return said
    of_block = {slot.exercise: slot.exercise_name for _, slot in _slots(block) if slot.exercise}
    mentioned = [mention.match.exercise for mention in catalogue.names.mentions(caption)]
    within = {exercise: of_block[exercise] for exercise in mentioned if exercise in of_block}
    if within:
        return within
    sure = catalogue.names.find(caption, limit=1)
    entry = catalogue.get(sure[0].exercise) if sure and sure[0].score >= 0.9 else None
    return {entry.id: entry.name} if entry else {}


def _fold(text: str) -> str:
    return " ".join(re.sub(r"[^\w]+", " ", text.casefold()).split())


@deed(KeepDemo)
def keep_demo(scene: Scene, wish: KeepDemo) -> None:
    """Keep a video for an exercise, in place of an earlier one."""
    group = scene.uow.groups.newest(coach_chat_id=scene.chat_id)
    if group is None:
        return
    before = _kept(scene, group.id, wish.exercise)
    known = scene.uow.own_names.newest(group_id=group.id, name=wish.name)
    for old in before:
        scene.uow.own_names.save(replace(old, demo=""))
    if known is not None and known.exercise == wish.exercise:
        scene.uow.own_names.save(replace(known, demo=wish.file))
    else:
        name = wish.name if known is None else f"{wish.name} (video)"
        scene.uow.own_names.add(people.OwnName(group_id=group.id, name=name, exercise=wish.exercise, demo=wish.file))
    places = tuple(
        f"day {day.number} {slot.label}" for day, slot in _slots(_block(scene, group)) if slot.exercise == wish.exercise
    )
    scene.say(replies.DemoKept(wish.name, places, bool(before)), Choice(ForgetDemo(wish.exercise)), code="demo_kept")


@deed(ForgetDemo)
def forget_demo(scene: Scene, wish: ForgetDemo) -> None:
    group = scene.uow.groups.newest(coach_chat_id=scene.chat_id)
    for kept in _kept(scene, group.id, wish.exercise) if group else ():
        scene.uow.own_names.save(replace(kept, demo=""))
    scene.say(replies.CoachSaysSentence("demo_forgotten"))


def _kept(scene: Scene, group_id: people.GroupId, exercise: ExerciseId) -> list[people.OwnName]:
    return [name for name in scene.uow.own_names.find(group_id=group_id) if name.exercise == exercise and name.demo]


def demos_of(scene: Scene, group_id: people.GroupId) -> Mapping[ExerciseId, str]:
    """Every exercise's video in this group, as "file:<kind>:<id>"."""
    return {name.exercise: name.demo for name in scene.uow.own_names.find(group_id=group_id) if name.demo}


def file_of(demo: str) -> tuple[str, str] | None:
    """(kind, id) of a kept file; None where a demo is a link or nothing. An id alone, as blocks may have it, is a video's."""
    if not demo.startswith("file:"):
        return None
    kind, _, file_id = demo.removeprefix("file:").rpartition(":")
    return kind or "video", file_id
