"""The picture of weekly sets, measured in its pixels with Pillow."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from bot.chat.pictures.canvas import _RAMP, ACCENT
from bot.chat.pictures.volume import FOOT, HEAD, ROW, WIDTH, draw_volume

BAR = tuple(_RAMP[3 * ACCENT : 3 * ACCENT + 3])


def _picture(now: dict[str, float], before: dict[str, float] | None = None) -> Image.Image:
    return Image.open(io.BytesIO(draw_volume(now, before or {}))).convert("RGB")


def _bar(picture: Image.Image, row: int) -> int:
    """The length of a row's bar: its accent pixels just above the lower edge, below the letters and beside the stroke."""
    y = HEAD + row * ROW + 31
    return sum(picture.getpixel((x, y)) == BAR for x in range(picture.width))


@pytest.mark.parametrize("groups", [1, 6, 14])
def test_the_picture_has_a_row_for_each_group(groups: int) -> None:
    picture = _picture({f"group {n}": float(n + 1) for n in range(groups)})
    assert picture.size == (WIDTH, HEAD + ROW * groups + FOOT)


def test_bars_are_as_long_as_their_sets_most_first() -> None:
    picture = _picture({"lats": 5.0, "chest": 20.0, "calves": 10.0})
    most, middle, least = (_bar(picture, row) for row in range(3))
    assert most > WIDTH / 2
    assert middle == pytest.approx(most / 2, abs=3)
    assert least == pytest.approx(most / 4, abs=3)


def test_many_sets_stay_inside_the_picture() -> None:
    picture = _picture({"chest": 60.0, "lats": 30.0})
    assert _bar(picture, 0) > WIDTH / 2
    assert _bar(picture, 1) == pytest.approx(_bar(picture, 0) / 2, abs=3)
    ground = picture.getpixel((WIDTH - 1, HEAD + 20))
    assert all(picture.getpixel((WIDTH - 2, y)) == ground for y in range(HEAD, picture.height))


def test_the_last_block_s_mark_is_seen_without_colour() -> None:
    """In shades of grey the row with a mark still differs from the row without."""
    without = _picture({"chest": 12.0}).convert("L")
    marked = _picture({"chest": 12.0}, {"chest": 6.0}).convert("L")
    box = (0, HEAD, WIDTH, HEAD + ROW)
    assert without.crop(box).tobytes() != marked.crop(box).tobytes()


def test_a_block_without_counted_sets_still_gives_a_picture() -> None:
    assert _picture({}).size == (WIDTH, HEAD + ROW + FOOT)
