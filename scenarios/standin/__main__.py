"""Runs the stand-in by itself: `python -m scenarios.standin --port 0` prints its URL and serves until it is stopped.

People act, and faults are set, by POST /act, /misbehave and /behave; GET /calls is the log (see `by_hand`).
"""

from __future__ import annotations

import argparse
import asyncio
import signal

from scenarios.standin.by_hand import OpenStandIn
from scenarios.standin.platform import MADE_UP_TOKEN


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m scenarios.standin", description=__doc__)
    parser.add_argument("--host", default="127.0.0.1", help="address to listen on (default: this machine only)")
    parser.add_argument("--port", type=int, default=0, help="port to listen on; 0 takes a free one (default)")
    parser.add_argument("--token", default=MADE_UP_TOKEN, help="the bot token to accept")
    asked = parser.parse_args()
    asyncio.run(_serve(asked.host, asked.port, asked.token))


async def _serve(host: str, port: int, token: str) -> None:
    standin = OpenStandIn(token=token)
    print(await standin.start(host=host, port=port), flush=True)
    print(f"token {token}", flush=True)
    stopped = asyncio.Event()
    for sign in (signal.SIGINT, signal.SIGTERM):
        asyncio.get_running_loop().add_signal_handler(sign, stopped.set)
    await stopped.wait()
    await standin.stop()


if __name__ == "__main__":
    main()
