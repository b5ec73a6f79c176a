"""How do updates reach a bot that asked for pushes? One at a time within a chat, chats side by side, repeated until accepted.

Read in the open server (WebhookActor.cpp): anything but 2xx is repeated at once, then after 2 s, 4 s and so on up to a minute; a
`Retry-After` header is honoured up to an hour; presses have a queue of their own per person; an update is dropped once it
outlives its retention; 23 hours of 410 close the webhook. Pauses run on the stand-in's clock. Plain http is taken here, as all
is on loopback.
"""

from __future__ import annotations

import asyncio
import json
from collections import defaultdict, deque
from collections.abc import Callable
from typing import Any

import aiohttp

from scenarios.standin.queue import UpdateQueue, Waiting
from scenarios.standin.wall import Clock

MAX_PAUSE_S = 60.0
GONE_CLOSES_S = 23 * 3600
ANSWER_S = 60.0


class Webhook:
    """Pushes while a URL is set. on_closed is called when it closes itself."""

    def __init__(
        self, queue: UpdateQueue, clock: Clock, *, url: str, secret: str, parallel: int, on_closed: Callable[[], None]
    ) -> None:
        self.url, self.secret, self.parallel = url, secret, parallel
        self.last_error: tuple[int, str] | None = None
        self._queue, self._clock, self._on_closed = queue, clock, on_closed
        self._lanes: dict[str, deque[Waiting]] = defaultdict(deque)
        self._busy: dict[str, asyncio.Task[None]] = {}
        self._places = asyncio.Semaphore(parallel)
        self._session: aiohttp.ClientSession | None = None
        self._gone_since: float | None = None

    def start(self) -> None:
        """Begin with what waits already."""
        self._session = aiohttp.ClientSession(
            timeout=aiohttp.ClientTimeout(total=ANSWER_S), connector=aiohttp.TCPConnector(limit=self.parallel)
        )
        for waiting in self._queue.all_waiting():
            self.push(waiting)

    def push(self, waiting: Waiting) -> None:
        """Put an update into its lane."""
        self._lanes[waiting.lane].append(waiting)
        if waiting.lane not in self._busy:
            self._busy[waiting.lane] = asyncio.create_task(self._work_off(waiting.lane))

    async def stop(self) -> None:
        tasks = list(self._busy.values())
        for task in tasks:
            task.cancel()
        await asyncio.gather(*tasks, return_exceptions=True)
        if self._session:
            await self._session.close()

    async def _work_off(self, lane: str) -> None:
        try:
            while self._lanes[lane]:
                waiting = self._lanes[lane][0]
                await self._deliver(waiting)
                self._lanes[lane].popleft()
        finally:
            self._busy.pop(lane, None)
            if not self._lanes[lane]:
                self._lanes.pop(lane, None)

    async def _deliver(self, waiting: Waiting) -> None:
        tries = 0
        while not self._queue.is_over(waiting):
            async with self._places:
                pause_s = await self._try(waiting.body)
            if pause_s is None and not waiting.repeats:
                break
            if pause_s is None:
                waiting.repeats -= 1
                continue
            # The first repeat comes at once, unless the bot itself asked for a pause.
            await self._clock.sleep(pause_s if pause_s > 0 else 0.0 if tries == 0 else min(2.0**tries, MAX_PAUSE_S))
            tries += 1
        self._queue.remove(waiting)

    async def _try(self, body: Any) -> float | None:
        """One push: None when accepted, else the pause that the bot asked for (0 for none)."""
        headers = {"Content-Type": "application/json"} | ({"X-Telegram-Bot-Api-Secret-Token": self.secret} if self.secret else {})
        assert self._session is not None
        try:
            async with self._session.post(self.url, data=json.dumps(body).encode(), headers=headers) as answer:
                await answer.read()
                status, asked = answer.status, answer.headers.get("Retry-After", "")
        except (aiohttp.ClientError, TimeoutError) as error:
            return self._failed(f"Connection failed: {type(error).__name__}")
        if 200 <= status < 300:
            self._gone_since = None
            return None
        self._note_gone(status)
        pause_s = float(min(int(asked), 3600)) if asked.isdigit() else 0.0
        return self._failed(f"Wrong response from the webhook: {status}", pause_s)

    def _failed(self, words: str, pause_s: float = 0.0) -> float:
        self.last_error = (int(self._clock.now().timestamp()), words)
        return pause_s

    def _note_gone(self, status: int) -> None:
        now = self._clock.now().timestamp()
        if status != 410:
            self._gone_since = None
        elif self._gone_since is None:
            self._gone_since = now
        elif now - self._gone_since >= GONE_CLOSES_S:
            self._on_closed()
