"""The picture of a member's own lifts: its size, what is written where, and that nothing is written over anything else."""

from __future__ import annotations

import io
from itertools import combinations

import pytest
from PIL import Image

from bot.chat.pictures.canvas import INK, PAPER, Box, Canvas, writable
from bot.chat.pictures.lifts import FOOT, HEAD, MOST_STRIPS, STRIP, WIDTH, Series, SeriesPoint, _mark, draw_lifts, sheet_of

# The Bot API takes photos of up to 10 MB whose sides add up to no more than 10,000 pixels (core.telegram.org/bots/api#sendphoto).
MOST_BYTES, MOST_SIDES = 10_000_000, 10_000


def lift(*counts: tuple[int, ...], name: str = "Goblet squat", loads: tuple[str, ...] = (), **more: object) -> Series:
    points = tuple(
        SeriesPoint(week, sets, loads[min(week, len(loads)) - 1] if loads else "20 kg") for week, sets in enumerate(counts, 1)
    )
    return Series(name, points, 8, 12, **more)  # type: ignore[arg-type]


EVERY_KIND = {
    "rising": lift((10, 9, 8), (12, 11, 10), (12, 12, 12), (9, 8, 8), loads=("20 kg",) * 3 + ("22.5 kg",), next="22.5 kg: 10, 9, 9", trend="better"),
    "topped last": lift((12, 12, 12), (12, 12, 12), next="22.5 kg: 8, 8, 8", trend="same"),
    "long words": lift(
        (7, 6), (13, 12), name="Single-arm dumbbell row with a long pause at the top of every repetition",
        loads=("pair of 12.5 kg", "pair of 15 kg"), next="pair of 15 kg: 12, 12, 12 each side, tempo 3-1-1-0; pair of 12.5 kg: 15+", trend="worse",
    ),
    "a new load every week": lift(*((14 - n, 13 - n) for n in range(10)), loads=tuple(f"pair of {20 + n / 2:g} kg" for n in range(10))),
    "hold": Series("Plank", (SeriesPoint(1, (45, 40, 40)), SeriesPoint(2, (60, 60, 60))), 60, 60, "s", "+5 kg: 45, 45, 45 s"),
    "narrow range far below": Series("Push-up", (SeriesPoint(1, (8,)), SeriesPoint(2, (60,))), 8, 10, next="body weight: 61"),
    "no range": Series("Pull-up", (SeriesPoint(1, (8, 6)), SeriesPoint(3, (9, 6))), None, None, next="body weight: 10+, 7+"),
    "only doubtful": Series("Row", (SeriesPoint(1, (120,), unsure=True),), 8, 12),
    "zero": lift((0, 0), (1, 0)),
}  # fmt: skip


def _open(drawn: bytes) -> Image.Image:
    return Image.open(io.BytesIO(drawn))


@pytest.mark.parametrize("lifts", [1, 4, MOST_STRIPS, MOST_STRIPS + 3])
def test_the_picture_is_phone_wide_with_a_strip_a_lift_and_within_what_the_platform_takes(lifts: int) -> None:
    drawn = draw_lifts([EVERY_KIND["rising"]] * lifts, title="Autumn block, week 4")

    picture = _open(drawn)
    assert picture.size == (WIDTH, HEAD + STRIP * min(lifts, MOST_STRIPS) + FOOT)
    assert sum(picture.size) <= MOST_SIDES
    assert len(drawn) < MOST_BYTES / 100


@pytest.mark.parametrize("one", EVERY_KIND.values(), ids=EVERY_KIND.keys())
def test_no_word_is_written_over_another_or_off_the_sheet(one: Series) -> None:
    sheet = sheet_of(
        [one, EVERY_KIND["rising"], one], title="A block with a name that is far too long for the width of a phone's screen"
    )

    for (words, a), (others, b) in combinations(sheet.written, 2):
        assert not _overlap(a, b), f"{words!r} at {a} runs into {others!r} at {b}"
    for words, (left, top, right, bottom) in sheet.written:
        assert left >= 0 and top >= 0 and right <= sheet.width and bottom <= sheet.height, f"{words!r} leaves the sheet"


def _overlap(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def test_the_strip_says_the_name_the_trend_the_next_target_and_the_latest_count() -> None:
    words = [words for words, _ in sheet_of([EVERY_KIND["rising"]]).written]

    for wanted in ("Goblet squat", "getting stronger", "next 22.5 kg: 10, 9, 9", "20 kg", "22.5 kg", "9", "8", "12", "week", "4"):
        assert wanted in words
    assert words.count("20 kg") == 1  # under the first week it was used, not under each


def test_the_axis_says_what_it_counts_and_a_name_is_not_cut_for_the_next_target() -> None:
    name = "Dumbbell shoulder press"
    words = [
        words
        for words, _ in sheet_of(
            [
                lift((12, 10), name=name, next="pair of 10 kg: 13, 12; pair of 12 kg: 6 (range 6-8)", trend="better"),
                EVERY_KIND["hold"],
            ]
        ).written
    ]

    assert name in words and "(reps)" in words and "(s)" in words
    assert not any(word.endswith("...") for word in words)


def test_a_slot_that_rests_has_no_next_target() -> None:
    words = [words for words, _ in sheet_of([lift((12, 12), (11, 11), next="rests until cleared", rests=True)]).written]

    assert "rests until cleared" in words and not any(word.startswith("next") for word in words)


def test_loads_of_one_strip_are_written_in_one_form() -> None:
    loads = ("pair of 12 kg", "pair of 14 kg", "pair of 16 kg", "pair of 18 kg")
    ten, twelve = ([words for words, _ in sheet_of([lift(*((10,) for _ in range(n)), loads=loads)]).written] for n in (10, 12))

    assert [word for word in ten if word.endswith(" kg")] == ["12 kg", "14 kg", "16 kg", "18 kg"]
    assert [word for word in twelve if word in ("12 kg", "14", "16", "18")][:4] == ["12 kg", "14", "16", "18"]


def test_where_no_range_is_asked_for_the_axis_names_its_ends() -> None:
    words = [words for words, _ in sheet_of([EVERY_KIND["no range"]]).written]

    assert "6" in words and "9" in words


def test_a_week_that_is_not_counted_is_crossed_and_stretches_nothing() -> None:
    """A slip of 120 would squeeze the rest to a line; it is drawn at the edge."""
    sure = [lift((10, 9, 8), (11, 10, 9))]
    slipped = [Series("Goblet squat", (*sure[0].points, SeriesPoint(3, (120, 11), unsure=True)), 8, 12)]

    plain, crossed = (_open(draw_lifts(series)).convert("L") for series in (sure, slipped))
    weeks = 4
    column = (WIDTH - 70 - 64) // weeks
    two = (70, HEAD + 46, 70 + 2 * column, HEAD + STRIP - 30)
    third = (70 + 2 * column, HEAD + 46, 70 + 3 * column, HEAD + STRIP - 30)
    assert plain.crop(two).tobytes() == crossed.crop(two).tobytes()
    assert plain.crop(third).tobytes() != crossed.crop(third).tobytes()


def test_marks_differ_in_shape_so_that_no_colour_is_needed() -> None:
    """In black and white, above, inside, below and not counted are four pictures, none of them empty."""
    drawn = {_open(Canvas(40, 40).png()).convert("1").tobytes()}
    for point in (SeriesPoint(1, (14,)), SeriesPoint(1, (10,)), SeriesPoint(1, (5,)), SeriesPoint(1, (10,), unsure=True)):
        canvas = Canvas(40, 40)
        _mark(canvas, lift((10,)), point, 20, 20)
        drawn.add(_open(canvas.png()).convert("1").tobytes())

    assert len(drawn) == 5


def test_nothing_on_record_is_said_so() -> None:
    assert "Nothing on record yet." in [words for words, _ in sheet_of([Series("Squat", ())]).written]


def test_ink_on_paper_has_the_contrast_that_small_text_needs() -> None:
    """WCAG 2.2, 1.4.3: 4.5 to 1 for text, 3 to 1 for large text; the softest text is measured too."""
    from bot.chat.pictures.canvas import _RAMP, SOFT

    def luminance(step: int) -> float:
        parts = [value / 255 for value in _RAMP[3 * step : 3 * step + 3]]
        red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    def ratio(step: int) -> float:
        return (luminance(PAPER) + 0.05) / (luminance(step) + 0.05)

    assert ratio(INK) > 7
    assert ratio(SOFT) > 4.5


@pytest.mark.parametrize(
    ("words", "written"),
    [
        ("Übung für Füße", "Ubung fur Fusse"),
        ("3 × 10 – easy", "3 x 10 - easy"),
        ("Łydki", "Lydki"),
        ("Plain", "Plain"),
        ("½ squat", "1/2 squat"),
    ],
)
def test_letters_that_the_typeface_lacks_lose_their_accents_and_never_become_boxes(words: str, written: str) -> None:
    assert writable(words) == written


def test_words_too_long_are_cut_with_dots_inside_their_room() -> None:
    canvas = Canvas(100, 100)
    cut = canvas.fit("A very long name of an exercise", 20, 120)

    assert cut.endswith("...") and canvas.text_width(cut, 20) <= 120
    assert canvas.fit("Short", 20, 120) == "Short"
