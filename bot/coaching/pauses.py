"""How long to wait before the next try? Longer after each failure, up to a limit, for as many failures as there may be."""

from __future__ import annotations

_DOUBLED_AT_MOST = 60  # a machine may be off the net for a day: two to the power of its 1,100 failures is no float any more


def growing_pause_s(failures: int, *, first_s: float, most_s: float) -> float:
    """Seconds to wait after so many failures in a row (from 1): the first pause, then twice as long each time."""
    return min(first_s * 2.0 ** min(failures - 1, _DOUBLED_AT_MOST), most_s)
