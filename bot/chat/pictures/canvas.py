"""A sheet to draw on: a few marks over Pillow, told apart by shape and dash, never by colour alone."""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO

from PIL import Image, ImageDraw, ImageFont

# A small palette, so that the file stays small and the encoder fast. Ink on warm paper; all pairs differ in lightness too.
PAPER, INK, SOFT, BAND, ACCENT, FAINT = 0, 1, 2, 3, 4, 5
_COLOURS = ((252, 250, 245), (32, 36, 44), (110, 114, 122), (226, 221, 205), (0, 92, 120), (205, 203, 196))


@lru_cache(maxsize=8)
def _font(size: int) -> ImageFont.FreeTypeFont | ImageFont.ImageFont:
    return ImageFont.load_default(size)


class Canvas:
    """A sheet of width x height pixels, origin at the top left."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        self._image = Image.new("P", (width, height), PAPER)
        self._image.putpalette([value for colour in _COLOURS for value in colour])
        self._draw = ImageDraw.Draw(self._image)

    def text(self, x: float, y: float, words: str, size: int = 24, ink: int = INK, anchor: str = "ls") -> None:
        """Write words; anchor as Pillow's two letters (l, m, r and t, m, s)."""
        self._draw.text((x, y), words, fill=ink, font=_font(size), anchor=anchor)

    def text_width(self, words: str, size: int) -> float:
        return float(_font(size).getlength(words))

    def fit(self, words: str, size: int, width: float) -> str:
        """Cut words with dots so that they fit."""
        if self.text_width(words, size) <= width:
            return words
        while words and self.text_width(words + "...", size) > width:
            words = words[:-1]
        return words.rstrip() + "..."

    def line(self, points: list[tuple[float, float]], ink: int = INK, width: int = 3) -> None:
        self._draw.line(points, fill=ink, width=width, joint="curve")

    def dashed(self, x1: float, y: float, x2: float, ink: int = SOFT, *, dash: int = 8, gap: int = 7) -> None:
        """A level dashed line."""
        x = x1
        while x < x2:
            self._draw.line([(x, y), (min(x + dash, x2), y)], fill=ink, width=2)
            x += dash + gap

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
