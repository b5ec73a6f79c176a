"""How does a program live on a machine? The real clock, the log, the signals, and what is said when it cannot start."""

from __future__ import annotations

import asyncio
import logging
import signal
import sys
from datetime import UTC, datetime

from bot.chat.intake import TokenRefused
from bot.cli.program import Hooks, Program
from bot.settings import Settings
from storage.migrations import NewerDatabase
from storage.unit_of_work import is_storage_trouble


class RealClock:
    """The time on the wall; the only place that looks at it."""

    def now(self) -> datetime:
        return datetime.now(UTC)  # noqa: TID251

    async def sleep(self, seconds: float) -> None:
        await asyncio.sleep(seconds)


def serve(settings: Settings, hooks: Hooks) -> int:
    """Run until told to stop; returns what the shell shall see."""
    open_log(settings.log_level)
    try:
        return asyncio.run(_serve(settings, hooks))
    except (TokenRefused, NewerDatabase) as error:
        print(f"The companion cannot start: {error}", file=sys.stderr)
        return 1
    except OSError as error:
        print(f"The companion cannot start: {_about_port(settings, error)}", file=sys.stderr)
        return 1
    except Exception as error:
        if not is_storage_trouble(error):
            raise
        where = settings.database_file or "the database that COMPANION_DATABASE_URL names"
        print(
            f"The companion cannot start: {where} cannot be used ({type(error).__name__}): is it there, is it free?",
            file=sys.stderr,
        )
        return 1


async def _serve(settings: Settings, hooks: Hooks) -> int:
    told = asyncio.Event()
    for number in (signal.SIGTERM, signal.SIGINT):
        asyncio.get_running_loop().add_signal_handler(number, told.set)
    program = Program(settings, RealClock(), hooks)
    try:
        for line in await program.start():
            print(line, flush=True)
        ends = asyncio.create_task(program.wait())
        waits = asyncio.create_task(told.wait())
        await asyncio.wait({ends, waits}, return_when=asyncio.FIRST_COMPLETED)
        waits.cancel()
        if ends.done():
            ends.result()
            return 1
        ends.cancel()
        return 0
    finally:
        await program.stop()


def open_log(level: str) -> None:
    """Lines of `time level event key=value` on standard error; other libraries are heard from warnings on: no URL is shown."""
    logging.basicConfig(stream=sys.stderr, format="%(asctime)s %(levelname)s %(message)s", level=logging.WARNING, force=True)
    logging.getLogger("bot").setLevel(level.upper())
    logging.getLogger("storage").setLevel(level.upper())
    for name in ("httpx", "httpcore", "aiohttp.access", "aiohttp.client"):
        logging.getLogger(name).setLevel(logging.ERROR)


def _about_port(settings: Settings, error: OSError) -> str:
    why = error.strerror or type(error).__name__
    return f"{settings.web_host}:{settings.port} cannot be opened ({why}); set COMPANION_PORT to a free port."
