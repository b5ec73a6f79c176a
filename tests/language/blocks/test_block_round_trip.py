"""What a block is written as is read back to the same block, as text and as a spreadsheet."""

from decimal import Decimal

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.language.blocks import read_block, write_text, write_xlsx
from bot.training.blocks import (
    Block,
    Day,
    Drop,
    LoadRule,
    Measure,
    Partials,
    PolicyKind,
    Rest,
    SetKind,
    SetTarget,
    Sides,
    Slot,
    WeekSets,
)  # fmt: skip
from bot.training.exercises.catalogue import load_catalogue
from bot.training.kit import KitItem
from bot.training.loads import BODY_WEIGHT, Load, LoadKind, Unit
from bot.training.tempo import Tempo

CATALOGUE = load_catalogue()
NAMES = [e.name for e in CATALOGUE if (near := CATALOGUE.names.find(e.name)) and near[0].exact and near[0].exercise == e.id]
IDS = {e.name: e.id for e in CATALOGUE}
WORDS = st.lists(
    st.sampled_from(["slow", "steady", "hips", "ribs", "down", "chest", "up", "brace", "breathe", "long", "tall", "knees"]),
    min_size=1,
    max_size=4,
).map(" ".join)
NOTE = st.one_of(st.just(""), WORDS)


def one_of(*figures: str) -> st.SearchStrategy[Decimal]:
    return st.sampled_from([Decimal(figure) for figure in figures])


TEMPOS = st.builds(Tempo, st.integers(0, 9), st.integers(0, 4), st.one_of(st.none(), st.integers(0, 5)), st.integers(0, 3))
LOADS = st.one_of(
    st.just(BODY_WEIGHT),
    st.builds(
        lambda a, u, p: Load(LoadKind.IMPLEMENT, a, u, pair=p), one_of("5", "12.5", "32"), st.sampled_from(Unit), st.booleans()
    ),
    st.builds(lambda kind, a: Load(kind, a, Unit.KG), st.sampled_from([LoadKind.ADDED, LoadKind.ASSISTED]), one_of("5", "10")),
    st.builds(
        lambda b: Load(LoadKind.BAND, bands=tuple(b)), st.lists(st.sampled_from(["red", "black"]), min_size=1, unique=True)
    ),
)
RARELY = st.integers(0, 3).map(lambda n: n == 0)


@st.composite
def targets(draw: st.DrawFn) -> SetTarget:
    def rarely(strategy):  # type: ignore[no-untyped-def]
        return draw(strategy) if draw(RARELY) else None

    kind = draw(st.sampled_from([SetKind.WORK] * 4 + [SetKind.WARM_UP, SetKind.BURNOUT]))
    amrap, low = draw(st.booleans()), draw(st.integers(1, 60))
    span = (None, None) if amrap and draw(st.booleans()) else (low, low + draw(st.integers(0, 10)))
    drops = st.lists(
        st.builds(lambda cut, n: Drop(cut, None, n, n), st.none() | st.integers(10, 50), st.none() | st.integers(3, 15)),
        max_size=2,
    )
    return SetTarget(
        *span, draw(st.sampled_from(Measure)), amrap, kind, rarely(TEMPOS), rarely(one_of("0", "1", "2.5", "3")),
        rarely(one_of("6", "7.5", "9")), rarely(one_of("60", "72.5", "85")), rarely(LOADS),
        rarely(st.builds(Partials, st.integers(1, 15), st.sampled_from(["", "top", "bottom", "quarter", "half"]))),
        tuple(rarely(drops) or ()), draw(NOTE),
    )  # fmt: skip


@st.composite
def slots(draw: st.DrawFn, label: str) -> Slot:
    name, rest = draw(st.sampled_from(NAMES)), draw(st.integers(0, 300))
    alike = [draw(targets())] * draw(st.integers(1, 5))
    sets = tuple(alike if draw(st.booleans()) else draw(st.lists(targets(), min_size=1, max_size=5)))
    weeks: tuple[WeekSets, ...] = ()
    if draw(RARELY):
        other = [draw(targets())] * draw(st.integers(1, 4))
        pairs = [(2, tuple(other)), (4, tuple(draw(st.lists(targets(), min_size=1, max_size=3))))]
        weeks = tuple(WeekSets(week, now) for n, (week, now) in enumerate(pairs) if now != ([sets] + [p[1] for p in pairs])[n])
        if draw(RARELY):
            weeks = (*weeks, WeekSets(6, weeks[-1].sets if weeks else sets, Rest(400, 400)))
    return Slot(
        label, name, sets, IDS[name], draw(st.sampled_from(Sides)), draw(st.sampled_from(LoadRule)),
        draw(st.one_of(st.none(), st.just(Rest(rest, rest + 30)))), tuple(draw(st.lists(WORDS, max_size=2))),
        tuple(draw(st.lists(st.sampled_from(NAMES), max_size=2, unique=True))), draw(st.frozensets(st.sampled_from(KitItem), max_size=2)),
        draw(st.sampled_from(["", "neutral", "wide"])), draw(st.one_of(st.none(), st.integers(-15, 75))),
        draw(st.sampled_from(["", "https://example.org/a?b=1", "file:AgACAgQAAx1"])), draw(st.sampled_from(PolicyKind)), draw(NOTE),
        weeks,
    )  # fmt: skip


@st.composite
def blocks(draw: st.DrawFn) -> Block:
    days = []
    for number in range(1, draw(st.integers(1, 4)) + 1):
        labels = sorted(
            draw(st.lists(st.sampled_from(["A1", "A2", "A3", "B1", "C1", "D1"]), min_size=1, max_size=3, unique=True))
        )
        name = draw(st.sampled_from(["", "Lower", "Push", "Monday", "rest day fun", "Upper A", "Legs & glutes"]))
        warm_up = tuple(draw(st.lists(WORDS, max_size=2)))
        days.append(Day(number, name, tuple(draw(slots(label)) for label in labels), warm_up, draw(NOTE)))
    rhythm = (True, *draw(st.lists(st.booleans(), max_size=9)))
    weeks = draw(st.integers(4, 8))
    return Block(
        draw(NOTE), tuple(days), rhythm, weeks, weeks - draw(st.integers(0, 3)), weeks + draw(st.integers(0, 3)),
        tuple(draw(st.lists(WORDS, max_size=3))), draw(NOTE), draw(st.sampled_from(PolicyKind)),
    )  # fmt: skip


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(blocks())
def test_a_block_written_as_text_reads_back_to_the_same_block(block: Block) -> None:
    text = write_text(block)

    reading = read_block(text, catalogue=CATALOGUE)

    assert reading.block == block, text + "\n".join(problem.sentence for problem in reading.problems)


@settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
@given(blocks())
def test_a_block_written_as_a_spreadsheet_reads_back_to_the_same_block(block: Block) -> None:
    reading = read_block(write_xlsx(block), filename="block.xlsx", catalogue=CATALOGUE)

    assert reading.block == block
