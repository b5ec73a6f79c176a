"""How long do a member's weekly review and its chart take, beside floors measured in the same run; and does memory stay flat?

    python tests/bench/bench_review.py --members 10000

The review: 25 slots, ten weeks of three sets each. Floors: scipy's Theil-Sen over the same series (one part of what a review computes), and
Pillow writing an empty picture of the chart's size. The run over many members makes each one's records afresh and keeps nothing.
"""

from __future__ import annotations

import argparse
import gc
import io
import resource
from collections.abc import Callable
from pathlib import Path
from time import perf_counter_ns

from PIL import Image
from scipy import stats  # type: ignore[import-untyped]

from bot.chat.pictures.canvas import _RAMP
from bot.chat.pictures.lifts import draw_lifts
from bot.training.progression.history import sessions_of
from bot.training.reviews import review_week, strength_points
from tests.builders.review_cases import full_member

_PAGE_KB = resource.getpagesize() // 1024
_CHARTED = 4


def _ms(what: str, act: Callable[[], object], *, times: int = 60) -> float:
    figures = []
    for _ in range(times):
        began = perf_counter_ns()
        act()
        figures.append((perf_counter_ns() - began) / 1e6)
    figures.sort()
    print(f"{what:58} median {figures[times // 2]:6.2f} ms   p95 {figures[int(times * 0.95)]:6.2f} ms")
    return figures[times // 2]


def one_member() -> None:
    cases = full_member()
    began = perf_counter_ns()
    review = review_week(cases)
    series = [slot.series for slot in review.slots][:_CHARTED]
    picture = draw_lifts(series, title="First of all")
    print(f"the very first review and chart of a process: {(perf_counter_ns() - began) / 1e6:.1f} ms")
    size = Image.open(io.BytesIO(picture)).size
    points = [strength_points(case, sessions_of(case)) for case in cases]
    made = _ms("review, 25 slots x 10 weeks x 3 sets", lambda: review_week(cases))
    drawn = _ms(
        f"chart of {_CHARTED} lifts, {size[0]} x {size[1]}, {len(picture) / 1000:.0f} kB",
        lambda: draw_lifts(series, title="Block"),
    )
    print(f"{'together':58} median {made + drawn:6.2f} ms (aim: under 20)")

    def slopes() -> None:
        for one in points:
            stats.theilslopes([point.value for point in one], [point.on.toordinal() for point in one])

    def empty() -> None:
        sheet = Image.new("P", size)
        sheet.putpalette(_RAMP)
        sheet.save(io.BytesIO(), "PNG", compress_level=1)

    _ms("floor: scipy's Theil-Sen over the same 25 series", slopes)
    _ms("floor: Pillow writes an empty picture of that size", empty)


def _resident_mb() -> float:
    return int(Path("/proc/self/statm").read_text().split()[1]) * _PAGE_KB / 1024


def many_members(members: int) -> None:
    marks = {max(1, members // 10), members // 2, members}
    began = perf_counter_ns()
    spent = 0
    for n in range(1, members + 1):
        cases = full_member(seed=n)
        at = perf_counter_ns()
        review = review_week(cases)
        draw_lifts([slot.series for slot in review.slots][:_CHARTED], title=f"Member {n}")
        spent += perf_counter_ns() - at
        if n in marks:
            print(
                f"after {n:6} members: {_resident_mb():6.1f} MB resident, {spent / n / 1e6:.2f} ms a member for review and chart"
            )
    print(f"{members} members in {(perf_counter_ns() - began) / 1e9:.0f} s on one core, their records made up as well")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--members", type=int, default=1000)
    args = parser.parse_args()
    gc.collect()
    one_member()
    many_members(args.members)


if __name__ == "__main__":
    main()
