"""Marks on cards: what each one means, how it is drawn, and that its shape alone tells it."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest

from benchlog.judge.verdict import AwardKind
from benchlog.sheet.cards.card import Card, Mark
from benchlog.sheet.cards.coverage import coverage
from benchlog.sheet.cards.faults import contrast
from benchlog.sheet.cards.look import BAND, DEEP, INK, PLATE
from benchlog.sheet.cards.marks import (
    award_mark,
    correction_mark,
    line_mark,
    tag,
    tag_colour,
    word_mark,
)
from benchlog.sheet.cards.png import card_as_image
from benchlog.tasks.plan import TAG_COLOURS, fresh_specimen
from benchlog.tasks.stand_in import LineOutcome, StandInWord
from benchlog.trade.specimen import Shape

SPECIMEN = fresh_specimen(0)
SIDE = 120


def drawn(marks: tuple[Mark, ...]) -> np.ndarray:
    """Marks as they stand on a plate in grey, from 0 for ink to 1 for the plate."""
    grid = np.ones((SIDE, SIDE))
    for mark in marks:
        found = coverage(mark.outline, 1.0)
        assert found is not None
        left, top, share = found
        part = grid[top : top + share.shape[0], left : left + share.shape[1]]
        light = float(mark.colour in (PLATE, BAND))
        part[:] = part * (1 - share) + light * share
    return grid


def dark(marks: tuple[Mark, ...], x: int, y: int) -> bool:
    return bool(drawn(marks)[y, x] < 0.5)


@pytest.mark.parametrize("kind", AwardKind)
def test_outcome_means_its_word(kind: AwardKind) -> None:
    assert {mark.means for mark in award_mark(kind, 60, 60, 50)} == {kind.value}


@pytest.mark.parametrize("outcome", LineOutcome)
def test_line_means_its_word(outcome: LineOutcome) -> None:
    assert {mark.means for mark in line_mark(outcome, 60, 60, 50)} == {outcome.value}


@pytest.mark.parametrize("word", StandInWord)
def test_stand_in_means_its_word(word: StandInWord) -> None:
    assert {mark.means for mark in word_mark(word, 60, 60, 50)} == {word.value}


@pytest.mark.parametrize("shape", Shape)
def test_tag_means_its_shape(shape: Shape) -> None:
    one = replace(SPECIMEN, shape=shape)
    assert {mark.means for mark in tag(one, 60, 60, 50)} == {f"tag: {shape.value}"}


@pytest.mark.parametrize("shape", Shape)
def test_tag_is_filled_to_its_middle(shape: Shape) -> None:
    edge, inside = tag(replace(SPECIMEN, shape=shape), 60, 60, 50)
    assert drawn((edge,))[60, 60] == 0
    outer, inner = ((1 - drawn((mark,))).sum() for mark in (edge, inside))
    assert 0.6 < inner / outer < 0.95, "a dark edge shows all round its colour"


@pytest.mark.parametrize("shape", Shape)
def test_tags_of_a_colour_are_about_one_size(shape: Shape) -> None:
    area = (1 - drawn(tag(replace(SPECIMEN, shape=shape), 60, 60, 50))).sum()
    assert 2500 < area < 8000


@pytest.mark.parametrize("r", [12.0, 30.0, 80.0])
def test_tags_stay_apart_in_shape_at_every_size(r: float) -> None:
    # The smallest tag on a card stands beside text of 62 lines: 32 of half height.
    shapes = []
    for shape in Shape:
        scaled = drawn(tag(replace(SPECIMEN, shape=shape), 60, 60, min(r, 55)))
        shapes.append(1 - scaled)
    for one, other in combinations(shapes, 2):
        assert np.abs(one - other).sum() / np.maximum(one, other).sum() > 0.1


def test_winner_has_a_tick_and_joint_winners_a_hole() -> None:
    top = round(60 - 0.22 * 50)
    alone, joint = (award_mark(k, 60, 60, 50) for k in (AwardKind.WINNER, AwardKind.JOINT_WINNERS))
    assert not dark(joint, 60, top)
    assert dark(alone, 60, top - 15)
    assert not dark(alone, 56, top + 12)
    assert {m.colour for m in alone} == {m.colour for m in joint} == {DEEP, PLATE}


def test_tie_is_an_equal_sign() -> None:
    equal = award_mark(AwardKind.TIE, 60, 60, 50)
    assert [dark(equal, 60, y) for y in (60, 45, 75, 30, 90)] == [True, False, False, True, True]


def test_not_judged_is_an_empty_ring() -> None:
    ring = award_mark(AwardKind.NOT_JUDGED, 60, 60, 50)
    assert not dark(ring, 60, 60)
    assert dark(ring, 60, 21)
    assert dark(ring, 99, 60)


def test_different_points_both_ways() -> None:
    arrows = drawn(award_mark(AwardKind.DIFFERENT, 60, 60, 50))
    assert np.allclose(arrows[:, 10:60], arrows[:, 60:110][:, ::-1])
    assert np.allclose(arrows[10:60], arrows[60:110][::-1])
    assert arrows[60, 12] < 0.5


def test_cannot_separate_is_two_rings_that_cross() -> None:
    left, right = award_mark(AwardKind.CANNOT_SEPARATE, 60, 60, 50)
    crossed = drawn((left, right))
    assert np.allclose(crossed[:, 10:60], crossed[:, 60:110][:, ::-1])
    assert not dark((left, right), 60, 60)
    assert drawn((left,))[60, 60] == drawn((right,))[60, 60] == 1


def test_unequal_line_is_crossed_through() -> None:
    match, differs = (line_mark(o, 60, 60, 50) for o in (LineOutcome.MATCH, LineOutcome.DIFFERS))
    assert dark(match, 60, 60)
    assert not dark(differs, 60, 60)
    assert len(differs) == len(match) + 1


def test_stop_is_eight_sided_with_a_bar() -> None:
    plate, hand = word_mark(StandInWord.STOPS, 60, 60, 50)
    assert len([step for step, _ in plate.outline if step in "ML"]) == 8
    assert (plate.colour, hand.colour) == (INK, PLATE)
    assert not dark((plate, hand), 60, 60)
    assert dark((plate, hand), 60, 75)


def test_correction_goes_on_to_the_right() -> None:
    shape = correction_mark(60, 60, 50)
    assert {mark.means for mark in shape} == {"correction"}
    assert dark(shape, 105, 60)
    rows = (drawn(shape) < 0.5).sum(axis=0)
    assert rows[78] > rows[100] > 0


@pytest.mark.parametrize("ground", [PLATE, BAND])
@pytest.mark.parametrize("colour", [DEEP, INK])
def test_marks_stand_out_from_their_ground(colour: str, ground: str) -> None:
    # WCAG 2.2, 1.4.11: graphics that carry meaning need a contrast of 3.
    assert contrast(colour, ground) >= 3


@pytest.mark.parametrize("colour", TAG_COLOURS)
def test_tag_colours_stand_out_from_the_plate(colour: str) -> None:
    assert contrast(colour, PLATE) >= 3


@pytest.mark.parametrize("colour", ["", "red", "#fff", "#12345g", "#1234567", "url(#a)"])
def test_what_is_no_colour_is_drawn_in_ink(colour: str) -> None:
    assert tag_colour(replace(SPECIMEN, colour=colour)) == INK


def test_tag_on_a_card_has_its_colour_within_and_ink_about() -> None:
    marks = tag(replace(SPECIMEN, shape=Shape.SQUARE, colour="#b35c00"), 960, 540, 50)
    shown = np.asarray(card_as_image(Card("tag", "", marks, ""), 1080, {}))
    assert tuple(shown[540, 960]) == (0xB3, 0x5C, 0x00, 255)
    row = shown[540, 905:960]
    first = next(pixel for pixel in row if pixel[3] == 255)
    assert tuple(first[:3]) == tuple(int(INK[n : n + 2], 16) for n in (1, 3, 5))
