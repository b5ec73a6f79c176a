"""What did a coach send: a text, a CSV or a spreadsheet? Chooses the reader, or refuses with a sentence."""

from __future__ import annotations

import re
from collections.abc import Mapping

from bot.language.blocks.dictation import spoken, with_figures
from bot.language.blocks.other_languages import other_language
from bot.language.blocks.results import BlockReading
from bot.language.blocks.typed import read_typed
from bot.language.problems import Place, error
from bot.training.blocks import ExerciseId
from bot.training.exercises.catalogue import Catalogue

LINES_LIMIT = 1_200
TEXT_LIMIT, FILE_LIMIT = 100_000, 1_500_000  # bytes; a block of 60 slots is about 8 000 as text and 20 000 as a spreadsheet
_KINDS: tuple[tuple[bytes, str], ...] = (
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"RIFF", "a sound or video"),
    (b"OggS", "a sound"),
    (b"ID3", "a sound"),
    (b"\x1f\x8b", "a packed archive"),
    (b"7z\xbc\xaf", "a packed archive"),
    (b"Rar!", "a packed archive"),
    (b"{\\rtf", "a rich-text document"),
    (b"\x7fELF", "a program"),
    (b"MZ", "a program"),
)


# Which kinds are read, as it is said to whoever sent another.
_READ = "I read a message, a .txt, a .csv and an .xlsx"
_OLD_SHEET = re.compile(r"\.(?:xls|xlt|xlw|xlsb|ods|numbers|doc|pages|wk\d|wps|slk|dbf)$", re.IGNORECASE)
# How spreadsheets began that were written before they were kept in the container refused below: the record of a sheet's beginning, by version.
_OLD_STREAMS = (b"\x09\x00\x04\x00", b"\x09\x02\x06\x00", b"\x09\x04\x06\x00", b"\x09\x08\x08\x00", b"\x09\x08\x10\x00")


class Refused(Exception):
    """The file as a whole cannot be read; one sentence and what to send instead."""

    def __init__(self, wrong: str, instead: str) -> None:
        super().__init__(wrong)
        self.wrong, self.instead = wrong, instead


def read_block(
    content: str | bytes,
    *,
    filename: str = "",
    catalogue: Catalogue,
    own_names: Mapping[str, ExerciseId] = {},
) -> BlockReading:
    """Read a block from a chat text or a file's bytes. Never raises: what is wrong is in the reading.

    own_names: the coach's words that are known to mean an exercise, in any case.
    """
    try:
        return _read(content, filename, catalogue, own_names)
    except Refused as refusal:
        return BlockReading(None, (error(Place(), filename, refusal.wrong, refusal.instead),))


def _read(content: str | bytes, filename: str, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]) -> BlockReading:
    if isinstance(content, str):
        if len(content) > TEXT_LIMIT:
            raise Refused("the text is too long for a block", "send the plan of one block only")
        return _read_text(content, filename, catalogue, own_names)
    _refuse_foreign(content, filename)
    if _OLD_SHEET.search(filename) and content[:4] != b"PK\x03\x04":
        return _of_old_kind(content, filename, catalogue, own_names)
    if content[:4] == b"PK\x03\x04":
        from bot.language.blocks.sheets import read_sheets

        return read_sheets(content, catalogue=catalogue, own_names=own_names)
    if len(content) > TEXT_LIMIT:
        raise Refused("the file is too large for a block", "send one block only, as text, CSV or .xlsx under 100 kB")
    return _read_text(decode(content), filename, catalogue, own_names)


def _of_old_kind(content: bytes, filename: str, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]) -> BlockReading:
    """A file by the name of a kind that is not read: plain text under it is taken, and what is none is refused for its kind."""
    reading = _read_text(decode(content[:TEXT_LIMIT]), filename, catalogue, own_names)
    if reading.block is None:
        ending = filename[filename.rindex(".") :].lower()
        raise Refused(f"{ending} is a kind of file that I cannot read", f"save it as .xlsx and send that: {_READ}")
    return reading


def _refuse_foreign(content: bytes, filename: str) -> None:
    instead = "send the block as a message, a .txt, a .csv or an .xlsx"
    if not content.strip(b"\x00 \r\n\t"):
        raise Refused("the file is empty", instead)
    if len(content) > FILE_LIMIT:
        raise Refused(f"the file is too large for a block ({len(content) / 1e6:.1f} MB)", "send one block only, under 1.5 MB")
    if content[:8] == b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1":
        raise Refused(
            "the file is an old or a password-protected spreadsheet or document", f"save it as .xlsx without a password: {_READ}"
        )
    if content.startswith(_OLD_STREAMS):
        raise Refused("the file is a spreadsheet of an old kind", f"save it as .xlsx: {_READ}")
    for start, kind in _KINDS:
        if content.startswith(start):
            raise Refused(f"the file is {kind}, not a block", instead)
    if content[4:8] == b"ftyp":
        raise Refused("the file is a video, not a block", instead)
    if re.match(rb"\s*(?:<\?xml|<!doctype|<html|<svg)", content[:200], re.I):
        raise Refused("the file is a web page or XML, not a block", instead)
    if (
        content[:2] != b"PK"
        and content[:2] not in (b"\xff\xfe", b"\xfe\xff")
        and content[:4000].count(0) > len(content[:4000]) / 20
    ):
        raise Refused("the file is neither text nor a spreadsheet", instead)


# What western office programs write beyond ASCII. Their old encoding is the commonest, and a few letters tell no program which it is.
_WESTERN = frozenset("àáâãäåæçèéêëìíîïñòóôõöøùúûüýßÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÑÒÓÔÕÖØÙÚÛÜœŒ–—‘’“”„•…×°º½¼¾·«»€£§¿¡\u00a0")


def decode(content: bytes) -> str:
    """Text of unknown encoding: UTF-8 or what its mark says, else the likeliest."""
    for mark, name in ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16")):
        if content.startswith(mark):
            return content.decode(name, errors="replace")
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError:
        western = content.decode("cp1252", errors="replace")
        if all(char in _WESTERN for char in western if ord(char) > 127):
            return western
        from charset_normalizer import from_bytes

        # A block is mostly ASCII with a few dashes and signs, too little to tell rare encodings apart: the common ones only.
        best = from_bytes(content, cp_isolation=["cp1252", "utf_16", "utf_16_le", "utf_16_be", "cp1250", "mac_roman"]).best()
        return str(best) if best is not None else content.decode("cp1252", errors="replace")


def _read_text(text: str, filename: str, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]) -> BlockReading:
    if not text.strip():
        raise Refused("the text is empty", "write the block below a line such as Day 1")
    lines = sum(bool(line.strip()) for line in text.splitlines())
    if lines > LINES_LIMIT:
        raise Refused(f"the plan has {lines} lines, more than a block", f"send one block only, at most {LINES_LIMIT} lines")
    language = other_language(text)
    if language is not None:
        text = language.in_english(text)
    if spoken(text):
        text = with_figures(text)
    from bot.language.blocks.tables import looks_like_table, read_table_text

    if looks_like_table(text, filename):
        return read_table_text(text, catalogue=catalogue, own_names=own_names)
    return read_typed(text, catalogue=catalogue, own_names=own_names)
