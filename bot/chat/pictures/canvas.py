"""A sheet to draw on: a few marks over Pillow, one ink on warm paper, told apart by shape and dash, never by colour.

The sixteen entries of the palette are one ramp from paper (0) to ink (15). A soft edge of a letter is therefore simply the number in
between, and the file holds four bits a pixel. Rendered words are kept, since most of them stand in every picture.
"""

from __future__ import annotations

import unicodedata
from functools import lru_cache
from io import BytesIO

from PIL import Image, ImageDraw, ImageFont

PAPER, BAND, FAINT, SOFT, ACCENT, INK = 0, 2, 4, 10, 12, 15
_PAPER_RGB, _INK_RGB = (252, 250, 245), (14, 34, 48)
_RAMP = tuple(round(p + (i - p) * step / INK) for step in range(INK + 1) for p, i in zip(_PAPER_RGB, _INK_RGB, strict=True))
Box = tuple[float, float, float, float]
# Free typefaces of most systems, asked only for words that Pillow's own one cannot write.
_WIDER_FACES = ("DejaVuSans.ttf", "NotoSans-Regular.ttf", "LiberationSans-Regular.ttf", "FreeSans.ttf", "Arial Unicode.ttf")
_PLAIN = str.maketrans(
    {"–": "-", "—": "-", "×": "x", "→": ">", "ß": "ss", "ø": "o", "Ø": "O", "ł": "l", "Ł": "L", "æ": "ae", "ı": "i"}
)


@lru_cache(maxsize=16)
def _font(size: int) -> ImageFont.FreeTypeFont:
    found = ImageFont.load_default(size)
    assert isinstance(found, ImageFont.FreeTypeFont)
    return found


@lru_cache(maxsize=16)
def _wider_font(size: int) -> ImageFont.FreeTypeFont | None:
    for name in _WIDER_FACES:
        try:
            return ImageFont.truetype(name, size)
        except OSError:
            continue
    return None


@lru_cache(maxsize=2048)
def _has(char: str) -> bool:
    """Can Pillow's own typeface write this letter? One it lacks looks like the box that stands for none."""
    return char == " " or bytes(_font(20).getmask(char)) != bytes(_font(20).getmask("\uffff"))


@lru_cache(maxsize=1024)
def writable(words: str) -> str:
    """The words as the typeface can write them: accents taken off where it lacks them ("Übung" -> "Ubung")."""
    if all(map(_has, words)):
        return words
    bare = unicodedata.normalize("NFKD", words.translate(_PLAIN)).replace("\u2044", "/")  # a half comes apart with its own stroke
    return "".join(char for char in bare if not unicodedata.combining(char))


def _face(words: str, size: int) -> ImageFont.FreeTypeFont:
    return _font(size) if all(map(_has, words)) else _wider_font(size) or _font(size)


@lru_cache(maxsize=4096)
def _advance(char: str, size: int) -> float:
    return float(_face(char, size).getlength(char))


@lru_cache(maxsize=512)
def _mask(words: str, size: int, anchor: str) -> tuple[Image.Image, int, int]:
    """The words as a mask of soft edges, and where its corner lies from the anchor."""
    face = _face(words, size)
    left, top, right, bottom = face.getbbox(words, anchor=anchor)
    mask = Image.new("L", (max(1, round(right - left)), max(1, round(bottom - top))))
    ImageDraw.Draw(mask).text((-left, -top), words, fill=255, font=face, anchor=anchor)
    return mask, round(left), round(top)


class Canvas:
    """A sheet of width x height pixels, origin at the top left. written: the boxes of all words so far, in order."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        self.written: list[tuple[str, Box]] = []
        self._image = Image.new("P", (width, height), PAPER)
        self._image.putpalette(_RAMP)
        self._draw = ImageDraw.Draw(self._image)

    def text(
        self, x: float, y: float, words: str, size: int = 24, ink: int = INK, anchor: str = "ls", *, on_paper: bool = False
    ) -> None:
        """Write words; anchor as Pillow's two letters (l, m, r and t, m, s). on_paper: clear what lies behind them first."""
        if not words.strip():
            return
        words = writable(words)
        mask, dx, dy = _mask(words, size, anchor)
        left, top = round(x) + dx, round(y) + dy
        if on_paper:
            self.block(left - 3, top - 3, left + mask.width + 2, top + mask.height + 2, PAPER)
        self._image.paste(ink, (left, top), mask)
        self.written.append((words, (left, top, left + mask.width, top + mask.height)))

    def text_width(self, words: str, size: int) -> float:
        return sum(_advance(char, size) for char in writable(words))

    def fit(self, words: str, size: int, width: float) -> str:
        """Cut words with dots so that they fit."""
        words = writable(words)
        if self.text_width(words, size) <= width:
            return words
        room = width - self.text_width("...", size)
        kept = 0
        for char in words:
            room -= _advance(char, size)
            if room < 0:
                break
            kept += 1
        return words[:kept].rstrip() + "..."

    def line(self, points: list[tuple[float, float]], ink: int = INK, width: int = 3) -> None:
        self._draw.line(points, fill=ink, width=width, joint="curve")

    def dashed(self, x1: float, y: float, x2: float, ink: int = SOFT, *, dash: int = 8, gap: int = 7) -> None:
        """A level dashed line."""
        y = round(y)
        for x in range(round(x1), round(x2), dash + gap):
            self._draw.rectangle([x, y, min(x + dash, x2), y + 1], fill=ink)

    def block(self, x1: float, y1: float, x2: float, y2: float, ink: int = BAND) -> None:
        self._draw.rectangle([x1, y1, x2, y2], fill=ink)

    def dot(self, x: float, y: float, r: float, ink: int = INK, *, hollow: bool = False) -> None:
        self._draw.ellipse([x - r, y - r, x + r, y + r], fill=PAPER if hollow else ink, outline=ink, width=3)

    def peak(self, x: float, y: float, r: float, ink: int = INK) -> None:
        """A triangle pointing up."""
        self._draw.polygon([(x, y - r - 1), (x - r - 1, y + r), (x + r + 1, y + r)], fill=ink)

    def cross(self, x: float, y: float, r: float, ink: int = INK) -> None:
        self._draw.line([(x - r, y - r), (x + r, y + r)], fill=ink, width=3)
        self._draw.line([(x - r, y + r), (x + r, y - r)], fill=ink, width=3)

    def png(self) -> bytes:
        out = BytesIO()
        self._image.save(out, "PNG", compress_level=1)
        return out.getvalue()
