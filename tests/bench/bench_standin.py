"""How many sends a second does the stand-in take, beside a bare server that does nothing with them?

    python -m tests.bench.bench_standin [sends]

Server and client are two processes, as when a program is played; 16 requests run side by side. The bare server answers the same
bytes to everything, so the ratio is what the platform's rules and the log cost.
"""

from __future__ import annotations

import asyncio
import json
import statistics
import subprocess
import sys
import time
import urllib.request

import aiohttp

PARALLEL = 16
BARE = """
import asyncio
from aiohttp import web
BODY = b'{"ok": true, "result": {"message_id": 2, "date": 1767614400, "text": "A1: 12 x 20 kg. Next A2.", "chat": {"id": 1}}}'
async def answer(request):
    await request.read()
    return web.Response(body=BODY, content_type="application/json")
async def main():
    app = web.Application()
    app.router.add_route("*", "/{path:.*}", answer)
    runner = web.AppRunner(app, access_log=None)
    await runner.setup()
    await web.TCPSite(runner, "127.0.0.1", 0).start()
    print("http://%s:%s" % runner.addresses[0][:2], flush=True)
    print("token 1:x", flush=True)
    await asyncio.Event().wait()
asyncio.run(main())
"""


def main() -> None:
    sends = int(sys.argv[1]) if len(sys.argv) > 1 else 4_000
    bare = _rate([sys.executable, "-c", BARE], sends)
    standin = _rate([sys.executable, "-m", "scenarios.standin"], sends)
    print(f"bare server    {bare:8.0f} sends/s")
    print(f"the stand-in   {standin:8.0f} sends/s, {standin / bare:.2f} of the bare one")


def _rate(command: list[str], sends: int) -> float:
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    url, token = process.stdout.readline().strip(), process.stdout.readline().split()[1]
    try:
        chat_id = _somebody(url)
        return statistics.median(asyncio.run(_send_many(f"{url}/bot{token}/sendMessage", chat_id, sends)) for _ in range(5))
    finally:
        process.terminate()
        process.wait(10)


def _somebody(url: str) -> int:
    data = json.dumps({"person": "Mira", "does": "starts"}).encode()
    request = urllib.request.Request(f"{url}/act", data=data, headers={"Content-Type": "application/json"})
    with urllib.request.urlopen(request) as answer:
        return int(json.load(answer).get("person", 1))


async def _send_many(url: str, chat_id: int, sends: int) -> float:
    fields = {"chat_id": str(chat_id), "text": "<b>A1</b> set 1: 12 x 20 kg. Next A2.", "parse_mode": "HTML"}
    left = iter(range(sends))

    async def one_after_the_other(session: aiohttp.ClientSession) -> None:
        for _ in left:
            async with session.post(url, data=fields) as answer:
                assert answer.status == 200
                await answer.read()

    async with aiohttp.ClientSession() as session:
        started = time.perf_counter()
        await asyncio.gather(*(one_after_the_other(session) for _ in range(PARALLEL)))
        return sends / (time.perf_counter() - started)


if __name__ == "__main__":
    main()
