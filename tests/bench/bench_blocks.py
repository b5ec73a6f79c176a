"""How long does reading a block take, and what do hostile files cost? Run by hand: python tests/bench/bench_blocks.py.

Limits: a block of 5 days and 40 slots in under 100 ms in each format; a hostile file refused in under 1 s and 200 MB. Each hostile
file is read in a process of its own, so that its memory is the whole of what it took, the catalogue included.
"""

from __future__ import annotations

import io
import random
import re
import statistics
import subprocess
import sys
import tempfile
import zipfile
from collections.abc import Callable, Iterator
from time import perf_counter

from openpyxl import Workbook

from bot.language.blocks import read_block, write_text, write_xlsx
from bot.training.exercises.catalogue import load_catalogue

BLOCK_MS, HOSTILE_S, HOSTILE_MB = 100, 1.0, 200
CATALOGUE = load_catalogue()
RANDOM = random.Random(7)
NAMES = [entry.name for entry in CATALOGUE.all if (near := CATALOGUE.names.find(entry.name)) and near[0].exercise == entry.id]
LABELS = ("A1", "A2", "B1", "B2", "C1", "C2", "D1", "D2")
SCHEMES = ("3x8-12", "4x6", "3x12/10/8", "3xAMRAP", "2x30s", "5x5 @ RPE 8", "3x10 each side", "4x8 @ 75%")
EXTRAS = ("@3110 rest 90s", "tempo 4-0-1-0, rest 2 min", "last set drop 20%", "cue: ribs down", "sub: push-up", "")
READ = """
import re, sys, time
from bot.language.blocks import read_block
from bot.training.exercises.catalogue import load_catalogue
catalogue = load_catalogue(); catalogue.names
content = open(sys.argv[1], "rb").read()
begun = time.perf_counter()
reading = read_block(content, filename=sys.argv[2], catalogue=catalogue)
seconds = time.perf_counter() - begun
peak = int(re.search("VmHWM:[^0-9]*([0-9]+)", open("/proc/self/status").read())[1]) / 1024  # unlike ru_maxrss, not the parent's
print(seconds, peak, reading.block is None, len(reading.problems))
print(reading.problems[0].sentence if reading.problems else "")
"""


def rows() -> Iterator[tuple[int, str, str, str, str]]:
    for day in range(1, 6):
        for label in LABELS:
            yield day, label, RANDOM.choice(NAMES), RANDOM.choice(SCHEMES), RANDOM.choice(EXTRAS)


def typed() -> str:
    lines = ["Bench block", "5 weeks"]
    for day, label, name, scheme, extra in rows():
        lines += [f"Day {day} - Session"] if label == "A1" else []
        lines.append(f"{label} {name} {scheme} {extra}".rstrip())
    return "\n".join(lines)


def misspelled() -> str:
    """Every name with a letter lost, so that each is looked for among all."""
    lines = []
    for day, label, name, scheme, _ in rows():
        lines += [f"Day {day}"] if label == "A1" else []
        lines.append(f"{label} {name[:3]}{name[4:]} {scheme}")
    return "\n".join(lines)


def table(mark: str) -> str:
    cells = [[f"Day {day}", label, name, "3", "8-12", "3-1-1-0", "90", extra] for day, label, name, _, extra in rows()]
    return "\n".join(mark.join(row) for row in [["Day", "Slot", "Exercise", "Sets", "Reps", "Tempo", "Rest", "Notes"], *cells])


def by_weeks() -> str:
    cells = [[f"Day {day}", label, name, "3x12", "3x10", "4x8", "2x8"] for day, label, name, _, _ in rows()]
    return "\n".join(",".join(row) for row in [["Day", "Slot", "Exercise", "Week 1", "Week 2", "Week 3", "Week 4"], *cells])


def sheets(each_day: bool) -> bytes:
    book = Workbook()
    book.remove(book.worksheets[0])
    head = ["Slot", "Exercise", "Sets", "Reps", "Tempo", "Rest", "Notes"]
    for day, label, name, _, extra in rows():
        if not book.worksheets or (each_day and label == "A1"):
            book.create_sheet(f"Day {day}" if each_day else "Block").append(head)
        if label == "A1" and not each_day:
            book.worksheets[-1].append([f"Day {day}"])
        book.worksheets[-1].append([label, name, 3, "8-12", "3-1-1-0", 90, extra])
    return saved(book)


def saved(book: Workbook) -> bytes:
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def archive(parts: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as book:
        for name, content in parts.items():
            book.writestr(name, content)
    return out.getvalue()


def changed(part: str, change: Callable[[bytes], bytes]) -> bytes:
    """An honest spreadsheet with one of its parts changed."""
    with zipfile.ZipFile(io.BytesIO(sheets(each_day=False))) as book:
        parts = {name: book.read(name) for name in book.namelist()}
    parts[part] = change(parts[part])
    return archive(parts)


def entity_bomb(sheet: bytes) -> bytes:
    levels = b"".join(b'<!ENTITY e%d "%s">' % (n, b"&e%d;" % (n - 1) * 10) for n in range(1, 10))
    bomb = b'<!DOCTYPE b [<!ENTITY e0 "haha">' + levels + b"]>"
    return bomb + re.sub(
        rb"<v>|<name val=\"", lambda found: found[0] + b"&e9;", sheet.split(b"?>", 1)[-1] if b"?>" in sheet[:99] else sheet
    )


def noise_sheet(rows: int, columns: int) -> bytes:
    book = Workbook()
    for _ in range(rows):
        book.worksheets[0].append([RANDOM.random() for _ in range(columns)])
    return saved(book)


def nested(sheet: bytes) -> bytes:
    return sheet.replace(b"</sheetData>", b"</sheetData>" + b"<x>" * 200_000 + b"</x>" * 200_000)


def hostile() -> dict[str, tuple[str, bytes]]:
    """Some far over the limits of size, others just under them, where every reader has to look at them."""
    lines = 1_190
    return {
        "sheet of 200 MB packed": ("a.xlsx", archive({"xl/worksheets/sheet1.xml": b" " * 200_000_000})),
        "archive in an archive": ("a.xlsx", archive({"xl/a.zip": archive({"b": b"\0" * 50_000_000})})),
        "entity bomb in a sheet": ("a.xlsx", changed("xl/worksheets/sheet1.xml", entity_bomb)),
        "entity bomb in the styles": ("a.xlsx", changed("xl/styles.xml", entity_bomb)),
        "tags 200 000 deep": ("a.xlsx", changed("xl/worksheets/sheet1.xml", nested)),
        "huge sheet of numbers, 2 MB": ("a.xlsx", noise_sheet(2_500, 60)),
        "sheet of numbers under the limits": ("a.xlsx", noise_sheet(900, 60)),
        "one line of 2 MB": ("a.txt", b"A1 Goblet squat 3x8 " * 100_000),
        "one line of 95 kB": ("a.txt", b"A1 Goblet squat 3x8 " * 4_700),
        "commas, 2 MB": ("a.csv", b"," * 2_000_000),
        "commas, 95 kB": ("a.csv", b"," * 95_000),
        "quotes, 95 kB": ("a.csv", b'"' * 95_000),
        "lines of 900 digits and crosses": ("a.txt", b"\n".join([b"Day 1", *[b"A1 " + b"3x8-12/" * 10] * lines])),
        "lines of dashes and spaces": ("a.txt", b"\n".join([b"Day 1", *[b"A1 row " + b" - 8" * 18] * lines])),
        "lines of week marks": ("a.txt", b"\n".join([b"Day 1", *[b"A1 row " + b"w1 3x8 " * 10] * lines])),
        "lines of unknown words": ("a.txt", b"\n".join([b"Day 1", *[b"A1 " + b"qxz wvy " * 8 + b"3x8"] * lines])),
        "brackets never closed": ("a.txt", b"\n".join([b"Day 1", *[b"A1 row " + b"(or " * 17] * lines])),
        "random bytes": ("a.txt", RANDOM.randbytes(2_000_000)),
    }


def measured(filename: str, content: bytes) -> tuple[float, float, bool, str]:
    with tempfile.NamedTemporaryFile() as file:
        file.write(content)
        file.flush()
        done = subprocess.run([sys.executable, "-c", READ, file.name, filename], capture_output=True, text=True)
    if done.returncode:
        return 0, 0, False, f"CRASHED: {done.stderr.strip().splitlines()[-1]}"
    figures, said = done.stdout.split("\n", 1)
    seconds, megabytes, refused, problems = figures.split()
    return float(seconds), float(megabytes), refused == "True", f"{problems} problems, first: {said.strip()[:90]}"


def main() -> None:
    print(f"A block of 5 days and 40 slots (limit {BLOCK_MS} ms)")
    own = read_block(typed(), catalogue=CATALOGUE).block
    assert own is not None
    formats: dict[str, tuple[str, str | bytes]] = {
        "typed": ("", typed()), "typed, every name misspelled": ("", misspelled()), "our own layout": ("", write_text(own)),
        "csv": ("a.csv", table(",")), "csv, semicolons, old encoding": ("a.csv", table(";").encode("cp1252", "replace")),
        "csv, columns of weeks": ("a.csv", by_weeks()), "xlsx, one sheet": ("a.xlsx", sheets(each_day=False)),
        "xlsx, a sheet a day": ("a.xlsx", sheets(each_day=True)), "xlsx, our own layout": ("a.xlsx", write_xlsx(own)),
    }  # fmt: skip
    for name, (filename, content) in formats.items():
        times = []
        for _ in range(15):
            begun = perf_counter()
            reading = read_block(content, filename=filename, catalogue=CATALOGUE)
            times.append((perf_counter() - begun) * 1e3)
        slow = "  OVER THE LIMIT" if statistics.median(times) > BLOCK_MS else ""
        print(
            f"  {name}: first {times[0]:.0f} ms, median {statistics.median(times):.0f} ms, slots {reading.understood.slots}{slow}"
        )
    print(f"Hostile files (limits {HOSTILE_S:g} s, {HOSTILE_MB} MB for the whole process)")
    for name, (filename, content) in hostile().items():
        seconds, megabytes, refused, said = measured(filename, content)
        bad = "  OVER THE LIMIT" if seconds > HOSTILE_S or megabytes > HOSTILE_MB or not refused else ""
        print(f"  {name} ({len(content) / 1e3:.0f} kB): {seconds:.2f} s, {megabytes:.0f} MB, {said}{bad}")


if __name__ == "__main__":
    main()
