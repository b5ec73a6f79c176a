"""Kill the program at random moments and count: `python -m tests.crash.crash_pipes [kills] [seed]`. Takes about two seconds a kill."""

from __future__ import annotations

import asyncio
import sys
import tempfile
from pathlib import Path

from tests.crash.harness import harry


def main() -> int:
    kills, seed = (int(given) for given in (*sys.argv[1:], *("20", "1")[len(sys.argv) - 1 :]))
    command = [sys.executable, "-m", "tests.crash.echo_program"]
    with tempfile.TemporaryDirectory() as folder:
        report = asyncio.run(harry(command, folder=Path(folder), people=80, texts_each=max(2, kills), kills=kills, seed=seed))
    print(report)
    for name in ("lost", "unanswered", "doubled_records"):
        if found := getattr(report, name):
            print(f"{name}: {', '.join(found[:10])}")
    return 0 if report.passed else 1


if __name__ == "__main__":
    sys.exit(main())
