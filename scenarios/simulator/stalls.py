"""How often is a member said to stand still, and is it true? False alarms among members who gain, and how many of the still ones are found.

    python -m scenarios.simulator.stalls --members 500 --seed 101 102

All members train under the advice. "Gaining" means a hidden gain of more than 0.5 % a week of hard sets; "still" means none at all. A share is
taken at each look (a week's end), and over all looks of the block, because a coach looks every week.

Measured on seeds 101 to 103 (1,176 gaining, 1,500 still, 10 weeks): false alarms 3.7 to 4.4 % at each look and 11.8 % in any of six; found 16 % of
the still ones in week 5, 41 % in week 8, 56 % in week 10, 68 % at any look.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from math import sqrt

from bot.training.progression.values import SlotCase
from bot.training.reviews import review_slot
from scenarios.simulator.compare import RANGES, arguments
from scenarios.simulator.lives import WAYS, live
from scenarios.simulator.members import make_member

LOOKS = (5, 6, 7, 8, 9, 10)
GAINS = 0.005


def _looks(case: SlotCase, weeks: int) -> list[bool]:
    """At the end of each week from the fifth on: is the member said to stand still?"""
    return [review_slot(replace(case, history=case.history[:n], week=n + 1)).stalled for n in LOOKS if n <= weeks]


def measure(members: int, weeks: int, seeds: list[int]) -> dict[str, list[list[bool]]]:
    """The looks at each member, by kind."""
    found: dict[str, list[list[bool]]] = defaultdict(list)
    for seed in seeds:
        for n in range(members):
            low, high = RANGES[n % len(RANGES)]
            gaining, still = make_member(seed * 100_000 + n), make_member(seed * 100_000 + n, gain=0.0)
            if gaining.gain > GAINS:
                found["gaining"].append(_looks(live(gaining, low, high, weeks, WAYS["advice"]).case, weeks))
            found["still"].append(_looks(live(still, low, high, weeks, WAYS["advice"]).case, weeks))
    return found


def _share(hits: list[bool]) -> str:
    share = sum(hits) / len(hits)
    return f"{100 * share:5.1f} +/- {196 * sqrt(share * (1 - share) / len(hits)):.1f}"


def main() -> None:
    args = arguments(__doc__, weeks=10)
    found = measure(args.members, args.weeks, args.seed)
    print(f"said to stand still, % of members with 95 % intervals; seeds {args.seed}")
    for kind, looks in found.items():
        each = "   ".join(
            f"week {week}: {_share([look[n] for look in looks])}" for n, week in enumerate(LOOKS) if week <= args.weeks
        )
        print(f"{kind:8} ({len(looks)}): {each}   in any week: {_share([any(look) for look in looks])}")


if __name__ == "__main__":
    main()
