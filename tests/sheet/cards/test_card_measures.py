"""The frame that cards keep to: margins, the players' corner, plates, and the rehearsal's band."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.sheet.cards.block import NoRoom, Para
from benchlog.sheet.cards.card import Plate, Words
from benchlog.sheet.cards.frame import (
    INSET,
    REHEARSAL,
    Frame,
    first_that_fits,
    lower_left,
    plate,
)
from benchlog.sheet.cards.look import (
    GAP,
    HEIGHT,
    INK,
    LEAST,
    PLATE,
    PLAYERS_CORNER,
    RIM,
    WIDTH,
    Area,
    Margin,
    safe_area,
)

EDGES = st.tuples(st.floats(0, 900), st.floats(0, 900), st.floats(901, 1800), st.floats(901, 1800))
FRAMES = [Frame(margin, rehearsal) for margin in Margin for rehearsal in (False, True)]


@given(EDGES)
def test_area_holds_and_meets_itself(edges: tuple[float, float, float, float]) -> None:
    area = Area(*edges)
    assert area.holds(area)
    assert area.meets(area)
    assert area.holds(area.inset(0.3))
    assert not area.inset(0.3).holds(area)
    assert area.inset(-0.3).inset(0.3).width == pytest.approx(area.width)


@given(EDGES, EDGES)
def test_meeting_is_mutual(
    one: tuple[float, float, float, float], two: tuple[float, float, float, float]
) -> None:
    a, b = Area(*one), Area(*two)
    assert a.meets(b) == b.meets(a)
    assert not a.holds(b) or a.meets(b)


def test_touching_areas_do_not_meet() -> None:
    left, right = Area(0, 0, 10, 10), Area(10, 0, 20, 10)
    assert not left.meets(right)
    assert Area(0, 0, 10.4, 10).meets(right)
    assert not Area(0, 0, 10.4, 10).meets(right, slack=0.5)
    assert left.holds(Area(-0.4, 0, 10, 10), slack=0.5)


@pytest.mark.parametrize(
    ("margin", "area"),
    [
        # EBU R 95, "Safe areas for 16:9 television production": graphics keep 5 % from each edge.
        (Margin.FIVE, Area(96, 54, 1824, 1026)),
        # Older practice, no source: title safe at 10 %.
        (Margin.TEN, Area(192, 108, 1728, 972)),
    ],
)
def test_safe_area_is_the_margins(margin: Margin, area: Area) -> None:
    assert safe_area(margin) == area


@pytest.mark.parametrize("frame", FRAMES)
def test_both_rooms_keep_clear_of_the_players_corner(frame: Frame) -> None:
    for room in (frame.tall, frame.wide):
        assert safe_area(frame.margin).holds(room)
        assert not room.meets(PLAYERS_CORNER)
    assert frame.wide.width > frame.tall.width
    assert frame.tall.height > frame.wide.height
    assert frame.wide.bottom + GAP == PLAYERS_CORNER.top
    assert frame.tall.right + GAP == PLAYERS_CORNER.left


@pytest.mark.parametrize("margin", Margin)
def test_rehearsal_is_said_above_both_rooms(margin: Margin) -> None:
    frame = Frame(margin, rehearsal=True)
    band, *words = frame.notice
    assert isinstance(band, Plate)
    assert band.colour == INK
    assert " ".join(w.said for w in words if isinstance(w, Words)) == REHEARSAL
    assert all(isinstance(w, Words) and w.colour == PLATE for w in words)
    assert safe_area(margin).holds(band.area)
    assert frame.tall.top == frame.wide.top == band.area.bottom + GAP


def test_nothing_is_said_of_a_real_bench() -> None:
    frame = Frame(Margin.FIVE)
    assert frame.notice == ()
    assert frame.tall.top == safe_area(Margin.FIVE).top


@given(EDGES)
def test_plate_has_a_rim_on_whole_pixels(edges: tuple[float, float, float, float]) -> None:
    outer, inner = plate(Area(*edges))
    assert isinstance(outer, Plate)
    assert isinstance(inner, Plate)
    assert (outer.colour, inner.colour) == (INK, PLATE)
    area = outer.area
    sides = (area.left, area.top, area.right, area.bottom)
    assert all(side == int(side) for side in sides)
    assert max(abs(a - b) for a, b in zip(sides, edges, strict=True)) <= 0.5
    assert inner.area == area.inset(RIM)


@pytest.mark.parametrize("frame", FRAMES)
def test_short_words_take_a_small_plate_low_left(frame: Frame) -> None:
    area, block = lower_left([Para("Moss")], frame.tall)
    assert (area.left, area.bottom) == (frame.tall.left, frame.tall.bottom)
    assert area.width < 400
    (word,) = block.items
    assert isinstance(word, Words)
    assert word.x == area.left + INSET
    assert area.inset(INSET).holds(Area(word.x, word.baseline - 45, word.x + word.width,
                                        word.baseline), slack=0.01)  # fmt: skip


def test_long_words_stay_within_the_room() -> None:
    frame = Frame()
    area, _ = lower_left([Para("word " * 40, LEAST)], frame.tall)
    assert area.right <= frame.tall.right
    assert frame.tall.holds(area)


def test_second_room_is_taken_when_the_first_is_full() -> None:
    frame = Frame()
    wide = Para("W" * 27, LEAST, strict=True, most=1)
    area, _ = first_that_fits([wide], [frame.tall, frame.wide])
    assert area.bottom == frame.wide.bottom
    with pytest.raises(NoRoom):
        first_that_fits([Para("W" * 60, strict=True, most=1)], [frame.tall, frame.wide])


def test_frame_is_full_high_definition() -> None:
    # ITU-R BT.709: 1920 by 1080.
    assert (WIDTH, HEIGHT) == (1920, 1080)
