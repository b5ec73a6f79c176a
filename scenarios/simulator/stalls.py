"""How often is a lift said to stand still, and is it true? False alarms among members who gain, and how many of the still ones are found.

    python -m scenarios.simulator.stalls --members 500 --seed 101 102
    python -m scenarios.simulator.stalls --members 500 --seed 401 402 --lifts 3

All members train under the advice. "Gaining" means a hidden gain of more than 0.5 % a week of hard sets; "still" means none at all. A share is
taken at each look (a week's end), and over all looks of the block, because a coach looks every week. With several lifts of one pattern they are
also judged together: all of them still, one of them, or two; each lift's own gain lies about the member's, and each has days of its own.

Measured with one lift on seeds 101 to 103 (1,176 gaining, 1,500 still, 10 weeks): false alarms 3.7 to 4.4 % at each look and 11.8 % in any of six;
found 16 % of the still ones in week 5, 41 % in week 8, 56 % in week 10, 68 % at any look.
With three lifts of one pattern on seeds 401 and 402 (1,000 members; the bounds were chosen on 11 to 13), beside the same lifts each judged by
itself: false alarms while all gain 3.4 to 5.9 % (3.3 to 5.6), in any week 14.2 % (13.2); found where all three stand still 19 % in week 5, 57 % in
week 8, 70 % in week 10 (16, 42, 55); where two do 16, 45, 61 % (16, 41, 55); where one does 15, 40, 52 % (17, 42, 54). Its price: a gaining lift
beside one that stands still is named with it in up to 14 % of looks (6), beside two in up to 28 %.
Tried and dropped: least squares instead of Theil-Sen, guessed reserves, topped sessions as bounds, a likelihood ratio; at equal false alarms none
found more than two points more with one lift.
"""

from __future__ import annotations

import random
from argparse import ArgumentParser
from collections import defaultdict
from dataclasses import replace
from math import sqrt

from bot.training.progression.values import SlotCase
from bot.training.reviews import SlotReview, review_slot, stalls_among
from scenarios.simulator.compare import RANGES, arguments
from scenarios.simulator.lives import WAYS, live
from scenarios.simulator.members import make_member

LOOKS = (5, 6, 7, 8, 9, 10)
GAINS = 0.005
APART = 0.0025  # how far the gains of one member's lifts lie apart (ours)
LEAST = 0.002  # a gaining lift gains at least so much
Looks = list[list[bool]]


def _looks(case: SlotCase, weeks: int) -> list[SlotReview]:
    """What is seen at the end of each week from the fifth on."""
    return [
        replace(review_slot(replace(case, history=case.history[:n], week=n + 1)), pattern="one pattern")
        for n in LOOKS
        if n <= weeks
    ]


def measure(members: int, weeks: int, seeds: list[int]) -> dict[str, Looks]:
    """The looks at members with one lift, by kind."""
    found: dict[str, Looks] = defaultdict(list)
    for seed in seeds:
        for n in range(members):
            low, high = RANGES[n % len(RANGES)]
            gaining, still = make_member(seed * 100_000 + n), make_member(seed * 100_000 + n, gain=0.0)
            for kind, member in (("gaining", gaining), ("still", still)):
                if kind == "still" or member.gain > GAINS:
                    case = live(member, low, high, weeks, WAYS["advice"]).case
                    found[kind].append([look.stalled for look in _looks(case, weeks)])
    return found


def measure_together(members: int, weeks: int, seeds: list[int], lifts: int) -> dict[str, Looks]:
    """The looks at single lifts of members with several of one pattern, by what is true of the lift and of the ones beside it."""
    found: dict[str, Looks] = defaultdict(list)
    for seed in seeds:
        for n in range(members):
            chance = random.Random(seed * 7919 + n)
            gain = _own_gain(chance)
            gains = [max(LEAST, gain + chance.gauss(0, APART)) for _ in range(lifts)]
            seen = {}
            for at in range(lifts):
                low, high = RANGES[(n + at) % len(RANGES)]
                for kind, own in (("gaining", gains[at]), ("still", 0.0)):
                    member = make_member(seed * 1_000_000 + n * 10 + at, gain=own)
                    seen[at, kind] = _looks(live(member, low, high, weeks, WAYS["advice"]).case, weeks)
            for still in range(lifts + 1):
                kinds = ["still"] * still + ["gaining"] * (lifts - still)
                named = [_named([seen[at, kinds[at]][look] for at in range(lifts)]) for look in range(len(seen[0, "still"]))]
                for at, kind in enumerate(kinds):
                    found[f"{kind}, {still} of {lifts} still"].append([at in look for look in named])
    return found


def _own_gain(chance: random.Random) -> float:
    """A gaining member's, as `make_member` draws it."""
    while True:
        gain = chance.gauss(0.009, 0.005)
        if gain > GAINS:
            return gain


def _named(reviews: list[SlotReview]) -> set[int]:
    alone, together = stalls_among(reviews)
    return {*alone, *(at for places in together for at in places)}


def _share(hits: list[bool]) -> str:
    share = sum(hits) / len(hits)
    return f"{100 * share:5.1f} +/- {196 * sqrt(share * (1 - share) / len(hits)):.1f}"


def main() -> None:
    def several(parser: ArgumentParser) -> None:
        parser.add_argument("--lifts", type=int, default=1, help="lifts of one pattern that each member has")

    args = arguments(__doc__, weeks=10, more=several)
    if args.lifts > 1:
        found = measure_together(args.members, args.weeks, args.seed, args.lifts)
    else:
        found = measure(args.members, args.weeks, args.seed)
    print(f"said to stand still, % of lifts with 95 % intervals; seeds {args.seed}")
    for kind, looks in found.items():
        each = "   ".join(
            f"week {week}: {_share([look[n] for look in looks])}" for n, week in enumerate(LOOKS) if week <= args.weeks
        )
        print(f"{kind:24} ({len(looks)}): {each}   in any week: {_share([any(look) for look in looks])}")


if __name__ == "__main__":
    main()
