"""Which field is wanted next: interleaved, balanced, and refused ones first."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.measure.micrograph import Micrograph, PictureAnswer, Side
from benchlog.tasks.field_order import (
    FieldState,
    WantedField,
    field_words,
    fields_in_order,
    fields_standing,
    further_field,
    next_field,
)
from tests.small_media import AT, SET_UP, measured, refused
from tests.small_trade import small_lineup, specimens

LINEUP = small_lineup()


def shown(field: WantedField, name: str = "", supersedes: str = "") -> Micrograph:
    made = name or f"{field.specimen_id}-{field.side.name}-{field.field}"
    return Micrograph(
        made, "l-1", field.specimen_id, field.side, field.field, SET_UP.id, "p", AT, supersedes
    )


def said(micrograph: Micrograph, answer: PictureAnswer) -> PictureAnswer:
    return replace(answer, id=f"of {micrograph.id}", micrograph_id=micrograph.id)


@given(st.integers(1, 3), st.integers(1, 5))
def test_every_field_is_wanted_once(count: int, fields: int) -> None:
    lineup = small_lineup(specimens=specimens()[:count])
    order = fields_in_order(lineup, fields)
    assert Counter(order) == Counter(
        WantedField(s.id, side, n) for s in lineup.specimens for side in Side
        for n in range(1, fields + 1)
    )  # fmt: skip


def test_rounds_hold_every_specimen_once() -> None:
    order = fields_in_order(LINEUP, 3)
    rounds = [order[start : start + 3] for start in range(0, len(order), 3)]
    for one in rounds:
        assert {f.specimen_id for f in one} == {"s-a", "s-b", "s-c"}
        assert len({(f.side, f.field) for f in one}) == 1
    assert [one[0].side.name for one in rounds] == ["IN", "OUT", "OUT", "IN", "IN", "OUT"]
    # Six rounds of three: each specimen is first in two (a pair of Williams squares, 1949).
    assert Counter(one[0].specimen_id for one in rounds) == {"s-a": 2, "s-b": 2, "s-c": 2}


def test_one_side_alone_can_be_asked() -> None:
    assert {f.side for f in fields_in_order(LINEUP, 2, (Side.OUT,))} == {Side.OUT}


def test_what_waits_for_its_answer_holds_nobody_up() -> None:
    order = fields_in_order(LINEUP, 1)
    first, second = order[:2]
    standings = fields_standing(order, [shown(first)], [])
    assert standings[0].state is FieldState.WAITING
    assert next_field(standings) == second


def test_a_refused_field_is_wanted_again_at_once() -> None:
    order = fields_in_order(LINEUP, 1)
    one, two = shown(order[0]), shown(order[1])
    standings = fields_standing(order, [one, two], [said(one, refused()), said(two, measured())])
    assert [s.state for s in standings[:2]] == [FieldState.REFUSED, FieldState.MEASURED]
    assert next_field(standings) == order[0]
    again = shown(order[0], "again", supersedes=one.id)
    standings = fields_standing(order, [one, two, again], [said(one, refused())])
    assert standings[0].state is FieldState.WAITING
    assert next_field(standings) == order[2]


def test_nothing_is_wanted_when_all_is_measured() -> None:
    order = fields_in_order(LINEUP, 1)
    taken = [shown(field) for field in order]
    standings = fields_standing(order, taken, [said(m, measured()) for m in taken])
    assert next_field(standings) is None


def test_fields_beyond_the_plan_stand_behind_it() -> None:
    order = fields_in_order(LINEUP, 1)
    further = further_field(fields_standing(order, [], []), "s-b", Side.OUT)
    assert further == WantedField("s-b", Side.OUT, 2)
    taken = shown(further)
    standings = fields_standing(order, [taken], [said(taken, refused())])
    assert standings[-1].field == further
    assert further_field(standings, "s-b", Side.OUT).field == 3
    assert further_field((), "s-b", Side.OUT).field == 1


def test_a_picture_taken_back_leaves_its_field_wanted() -> None:
    order = fields_in_order(LINEUP, 1)
    one = shown(order[0])
    gone = replace(one, id="gone", supersedes=one.id, withdrawn=True, photo_id="")
    assert next_field(fields_standing(order, [one, gone], [])) == order[0]


@pytest.mark.parametrize(("side", "words"), [(Side.IN, "inlet side"), (Side.OUT, "outlet side")])
def test_a_field_is_named_in_words(side: Side, words: str) -> None:
    assert field_words(LINEUP, WantedField("s-b", side, 2)) == f"Cobalt, {words}, field 2"
