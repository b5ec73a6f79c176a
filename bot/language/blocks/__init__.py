"""Blocks as coaches write them: read from text, CSV and XLSX, amended, and written back to the same meaning."""

from bot.language.blocks.amend import read_amendment
from bot.language.blocks.reader import read_block
from bot.language.blocks.results import AmendmentReading, BlockReading, UnknownName
from bot.language.blocks.sheet_written import template_text, template_xlsx, write_xlsx
from bot.language.blocks.written import write_text

__all__ = [
    "AmendmentReading",
    "BlockReading",
    "UnknownName",
    "read_amendment",
    "read_block",
    "template_text",
    "template_xlsx",
    "write_text",
    "write_xlsx",
]
