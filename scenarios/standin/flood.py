"""When does the platform say "too many"? Its published limits (Bots FAQ), for stand-ins that are told to keep them.

About one message a second to a person, with short bursts let through (how short is not published; five here), 20 in a minute to a
group, 30 in a second over all.
"""

from __future__ import annotations

import math
from collections import defaultdict, deque

ALL_PER_S = 30
GROUP_PER_MINUTE = 20
BURST = 5


class Flood:
    """Moments are seconds on the stand-in's clock."""

    def __init__(self) -> None:
        self._all: deque[float] = deque()
        self._groups: dict[int, deque[float]] = defaultdict(deque)
        self._full_again_at: dict[int, float] = defaultdict(float)

    def wait_for(self, chat_id: int, now: float) -> int:
        """Whole seconds to wait before this send may happen; 0 when it may."""
        wait = _over(self._all, now, 1.0, ALL_PER_S)
        if chat_id < 0:
            wait = max(wait, _over(self._groups[chat_id], now, 60.0, GROUP_PER_MINUTE))
        else:
            wait = max(wait, self._full_again_at[chat_id] - (BURST - 1) - now)
        if wait > 0:
            return max(1, math.ceil(wait))
        self._all.append(now)
        if chat_id < 0:
            self._groups[chat_id].append(now)
        else:
            self._full_again_at[chat_id] = max(self._full_again_at[chat_id], now) + 1.0
        return 0


def _over(moments: deque[float], now: float, window_s: float, most: int) -> float:
    while moments and moments[0] <= now - window_s:
        moments.popleft()
    return moments[0] + window_s - now if len(moments) >= most else 0.0
