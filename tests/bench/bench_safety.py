"""What does hearing the signs cost a message? python tests/bench/bench_safety.py

Every text of the safety corpora, once each after a warm round: median and p99.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path
from statistics import median, quantiles

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from bot.language.safety import read_safety

CORPORA = Path(__file__).parents[1] / "language" / "safety"


def texts() -> list[str]:
    lines = [line for path in sorted(CORPORA.glob("*.txt")) for line in path.read_text(encoding="utf-8").splitlines()]
    return [line.split(" | ", 1)[1] for line in lines if " | " in line and not line.startswith("#")]


def main() -> None:
    for text in texts():
        read_safety(text)
    costs_us = []
    for text in texts():
        began = time.process_time()
        read_safety(text)
        costs_us.append((time.process_time() - began) * 1e6)
    print(f"{len(costs_us)} texts: median {median(costs_us):.0f} us, p99 {quantiles(costs_us, n=100)[98]:.0f} us")


if __name__ == "__main__":
    main()
