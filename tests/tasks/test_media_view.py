"""The media side by side: means and intervals, who is tighter, how many fields more, refusals."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from benchlog.measure.micrograph import NOT_A_RATING, Side
from benchlog.shelf import SqlShelf
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.field_order import FieldState, WantedField
from benchlog.tasks.fields import keep_answer, take_picture
from benchlog.tasks.media_seen import MediaView, PairOutcome, PairSeen
from benchlog.tasks.media_view import media_view
from benchlog.tasks.set_ups import instrument_of_set_up
from tests.small_media import SET_UP, SPIN_ON, measured, picture, refused
from tests.small_trade import HandClock

OPEN = {"s-a": (40.0, 42.0, 41.0), "s-b": (50.0, 53.0, 51.0), "s-c": (41.0, 39.0, 43.0)}


@pytest.fixture
def media(fair: SqlShelf) -> SqlShelf:
    fair.add_set_up(SET_UP, instrument_of_set_up(SET_UP))
    return fair


def take(shelf: SqlShelf, clock: HandClock, field: WantedField, **said: object) -> None:
    number = len(shelf.micrographs("l-1"))
    data = picture(number)
    made = take_picture(shelf, clock, "l-1", field, SET_UP.id, f"{number}.png", data)
    answer = refused() if said.get("blurred") else measured(**said)
    keep_answer(shelf, clock, SPIN_ON, "l-1", made.id, answer)


def all_taken(shelf: SqlShelf, clock: HandClock, fields: int = 3) -> None:
    for specimen, d50s in OPEN.items():
        for number, d50 in enumerate(d50s[:fields], 1):
            take(shelf, clock, WantedField(specimen, Side.IN, number), d50=d50)


def seen(shelf: SqlShelf) -> MediaView:
    return media_view(draw_up(shelf, "l-1", SPIN_ON))


def pair(view: MediaView, first: str, second: str, key: str = "D50") -> PairSeen:
    return next(
        p for p in view.sides[0].pairs if (p.key, p.first, p.second) == (key, first, second)
    )


def test_without_pictures_nothing_is_shown(fair: SqlShelf) -> None:
    view = seen(fair)
    assert (view.sides, view.refusals) == ((), ())
    assert view.beside == NOT_A_RATING


def test_fields_come_to_mean_and_interval(media: SqlShelf, clock: HandClock) -> None:
    all_taken(media, clock)
    (side,) = seen(media).sides
    amber = next(f for f in side.figures if (f.key, f.specimen_id) == ("D50", "s-a"))
    assert amber.values == (40.0, 42.0, 41.0)
    assert (amber.mean, amber.spread) == (pytest.approx(41.0), pytest.approx(1.0))
    assert amber.low is not None
    assert amber.high is not None
    assert 41.0 - amber.low == pytest.approx(amber.high - 41.0)
    assert amber.label == "Opening between fibres, D50"
    # Value and ± are those that every table prints: two digits of the expanded uncertainty.
    half = f"{amber.high - 41.0:.1f}"
    assert amber.text == f"41.0 ± {half} µm"
    assert {f.key for f in side.figures} == {"D50", "open area", "fibre median"}


def test_media_a_fifth_apart_are_told(media: SqlShelf, clock: HandClock) -> None:
    all_taken(media, clock)
    view = seen(media)
    tighter = pair(view, "s-a", "s-b")
    assert (tighter.outcome, tighter.answer) == (PairOutcome.SMALLER, "tighter")
    assert tighter.words.startswith("Amber is tighter than Cobalt (−10.3 ± ")
    assert pair(view, "s-b", "s-c").answer == "more open"
    level = pair(view, "s-a", "s-c")
    assert (level.answer, level.outcome) == ("cannot tell", PairOutcome.CANNOT_TELL)
    assert level.words.startswith("Amber against Moss: cannot tell (0.0 ± ")


def test_one_field_is_not_compared(media: SqlShelf, clock: HandClock) -> None:
    all_taken(media, clock, 1)
    told = pair(seen(media), "s-a", "s-b")
    assert told.outcome is PairOutcome.NOT_COMPARED
    assert told.words == (
        "Amber and Cobalt are not compared: only one field of Amber was measured, and fields of "
        "one medium differ."
    )


def test_fields_wanted_for_a_tenth_are_counted(media: SqlShelf, clock: HandClock) -> None:
    all_taken(media, clock)
    few = {f.specimen_id: f.more_fields for f in seen(media).sides[0].figures if f.key == "D50"}
    # With the fields' share s near 5 %: (2.4 + 0.84)² · 2 · s² / 0.10² is about five, and light
    # of its own in each medium adds one or two.
    assert all(more is not None and 1 <= more <= 12 for more in few.values())
    for number in range(4, 8):
        take(media, clock, WantedField("s-a", Side.IN, number), d50=41.0)
    more = {f.specimen_id: f.more_fields for f in seen(media).sides[0].figures if f.key == "D50"}
    assert more["s-a"] is not None
    assert few["s-a"] is not None
    assert more["s-a"] < few["s-a"]


def test_specimens_of_one_part_make_fewer_pairs(media: SqlShelf, clock: HandClock) -> None:
    """Fields are counted for the pairs that are compared, as the verdict counts them."""
    all_taken(media, clock)
    record = draw_up(media, "l-1", SPIN_ON)
    first, *_, last = record.lineup.specimens
    twin = replace(first, id=last.id, nickname=last.nickname, maker="Larkfield", part_number="LF-1")
    one = replace(first, maker="Larkfield", part_number="LF-1")
    lineup = replace(record.lineup, specimens=(one, *record.lineup.specimens[1:-1], twin))
    apart, together = (
        next(f for f in media_view(r).sides[0].figures if f.key == "D50").more_fields
        for r in (record, replace(record, lineup=lineup))
    )
    assert apart is not None
    assert together is not None
    assert together < apart


def test_strips_stand_on_common_edges(media: SqlShelf, clock: HandClock) -> None:
    wide = {"edges_um": (0.0, 24.0, 48.0), "shares": (0.5, 0.5)}
    take(media, clock, WantedField("s-a", Side.IN, 1))
    take(media, clock, WantedField("s-b", Side.IN, 1), **wide)
    take(media, clock, WantedField("s-c", Side.IN, 1), edges_um=(), shares=())
    strips = seen(media).sides[0].strips
    assert [s.specimen_id for s in strips] == ["s-a", "s-b"]
    for strip in strips:
        assert strip.edges_um == tuple(2.0 * n for n in range(25))
        assert math.fsum(strip.shares) == pytest.approx(1.0)
        assert not strip.few
    assert strips[0].shares[:5] == pytest.approx([0.04] * 5)
    assert strips[1].shares == pytest.approx([0.5 / 12] * 24)


def test_refusals_stay_told_when_taken_again(media: SqlShelf, clock: HandClock) -> None:
    field = WantedField("s-b", Side.IN, 1)
    take(media, clock, field, blurred=True)
    (told,) = seen(media).refusals
    assert (told.specimen_id, told.field, told.replaced) == ("s-b", 1, False)
    assert seen(media).sides[0].of("s-b")[0].state is FieldState.REFUSED
    take(media, clock, field)
    (told,) = seen(media).refusals
    assert told.replaced
    assert "blurred" in told.reasons[0]
    assert seen(media).sides[0].of("s-b")[0].state is FieldState.MEASURED


def test_sides_stand_apart(media: SqlShelf, clock: HandClock) -> None:
    take(media, clock, WantedField("s-a", Side.OUT, 1), d50=30.0)
    take(media, clock, WantedField("s-a", Side.IN, 1), d50=40.0)
    view = seen(media)
    assert [s.side for s in view.sides] == [Side.IN, Side.OUT]
    means = [next(f.mean for f in s.figures if f.key == "D50") for s in view.sides]
    assert means == [pytest.approx(40.0), pytest.approx(30.0)]


def test_older_rules_compare_all_the_same(media: SqlShelf, clock: HandClock) -> None:
    all_taken(media, clock)
    record = draw_up(media, "l-1", SPIN_ON)
    entries = tuple(e for e in record.rules.entries if not e.subject.startswith("opening"))
    older = replace(record, rules=replace(record.rules, entries=entries))
    assert pair(media_view(older), "s-a", "s-b").answer == "tighter"
