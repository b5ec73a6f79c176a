"""How fast may messages go out? The platform's published limits, as moments at which the next one may start.

- Over all: one every 1/30 s, strictly spaced; saved-up time is not spent in a burst (Bots FAQ: about 30 a second).
- Messages that are no answers share 24 of the 30, so that an answer never waits behind a broadcast.
- A private chat: one a second (Bots FAQ), with three in hand, which short bursts are allowed to be; a person who writes fast is
  answered fast.
- A group: 20 in any 60 seconds (Bots FAQ), and never faster than a private chat.

Pure: moments are seconds on the program's clock, handed in.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, field

CLOCK_SET_BACK_S = 5.0  # a clock that goes back further than this was set anew: old moments say nothing any more
FORGET_AFTER_S = 120.0


@dataclass
class Limits:
    """The limits; a machine whose platform allows more may say so."""

    all_per_s: float = 30.0
    others_per_s: float = 24.0
    chat_per_s: float = 1.0
    chat_burst: int = 3
    group_per_minute: int = 20


@dataclass
class _Chat:
    full_again_at: float = 0.0  # when all of the burst is in hand again
    recent: deque[float] = field(default_factory=deque)  # starts in the last minute; groups only
    paused_until: float = 0.0


class Pace:
    """Says when a message may start, and remembers what started."""

    def __init__(self, limits: Limits | None = None) -> None:
        self.limits = limits or Limits()
        self._chats: dict[int, _Chat] = {}
        self._any_at = self._other_at = self._all_paused_until = self._latest = 0.0
        self._since_swept = 0

    def chat_free_at(self, chat_id: int, now: float) -> float:
        """The moment from which this chat's next message may start, as far as the chat itself is concerned."""
        self._notice(now)
        chat = self._chats.get(chat_id)
        if chat is None:
            return 0.0
        in_hand_s = (self.limits.chat_burst - 1) / self.limits.chat_per_s
        free_at = max(chat.paused_until, chat.full_again_at - in_hand_s)
        if chat_id < 0 and len(chat.recent) >= self.limits.group_per_minute:
            free_at = max(free_at, chat.recent[-self.limits.group_per_minute] + 60.0)
        return free_at

    def all_free_at(self, *, is_answer: bool) -> float:
        """The moment from which any message of this class may start, as far as the limit over all is concerned."""
        return max(self._all_paused_until, self._any_at, 0.0 if is_answer else self._other_at)

    def started(self, chat_id: int, now: float, *, is_answer: bool) -> None:
        """A message starts now."""
        self._notice(now)
        self._any_at = now + 1.0 / self.limits.all_per_s
        if not is_answer:
            self._other_at = now + 1.0 / self.limits.others_per_s
        chat = self._chats.setdefault(chat_id, _Chat())
        chat.full_again_at = max(chat.full_again_at, now) + 1.0 / self.limits.chat_per_s
        if chat_id < 0:
            chat.recent.append(now)
            while chat.recent[0] <= now - 60.0:
                chat.recent.popleft()
        self._since_swept += 1
        if self._since_swept >= 1_000:
            self._forget_quiet(now)

    def pause_chat(self, chat_id: int, until: float) -> None:
        chat = self._chats.setdefault(chat_id, _Chat())
        chat.paused_until = max(chat.paused_until, until)

    def pause_all(self, until: float) -> None:
        self._all_paused_until = max(self._all_paused_until, until)

    def _notice(self, now: float) -> None:
        if now < self._latest - CLOCK_SET_BACK_S:
            self._chats.clear()
            self._any_at = self._other_at = self._all_paused_until = 0.0
            self._latest = now
        self._latest = max(self._latest, now)

    def _forget_quiet(self, now: float) -> None:
        self._since_swept = 0
        quiet = [key for key, chat in self._chats.items() if max(chat.full_again_at, chat.paused_until) < now - FORGET_AFTER_S]
        for key in quiet:
            del self._chats[key]
