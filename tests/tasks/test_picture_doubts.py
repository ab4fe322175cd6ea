"""The doubt in readings of pictures, from the answers behind them, and as a record shows it."""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal

import pytest

from benchlog.derive.sum_shown import budget_of_finding
from benchlog.judge.differences import attribute_differences
from benchlog.measure.micrograph import Side
from benchlog.measure.reading import Reading, Said
from benchlog.shelf import SqlShelf
from benchlog.tasks.budget_view import source_words
from benchlog.tasks.contents import contents_of
from benchlog.tasks.doubt import standing_doubts
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.field_order import WantedField
from benchlog.tasks.fields import keep_answer, take_picture
from benchlog.tasks.picture_doubts import picture_doubts, spreads_of
from benchlog.tasks.record import Record
from benchlog.tasks.set_ups import instrument_of_set_up
from benchlog.tasks.work_out import worked_out
from tests.small_media import SET_UP, SPIN_ON, fields, measured, picture
from tests.small_trade import HandClock

D50 = "opening_d50_in"
OPEN = {"s-a": (40.0, 42.0, 41.0), "s-b": (50.0, 53.0, 51.0), "s-c": (39.0,)}


def looked_at(shelf: SqlShelf, clock: HandClock) -> Record:
    """Put fields of three specimens on the shelf and draw the record up."""
    shelf.add_set_up(SET_UP, instrument_of_set_up(SET_UP))
    for specimen, d50s in OPEN.items():
        for number, d50 in enumerate(d50s, 1):
            field = WantedField(specimen, Side.IN, number)
            data = picture(int(10 * d50))
            made = take_picture(shelf, clock, "l-1", field, SET_UP.id, "field.png", data)
            keep_answer(shelf, clock, SPIN_ON, "l-1", made.id, measured(d50))
    return draw_up(shelf, "l-1", SPIN_ON)


def corrected(reading: Reading, **more: object) -> Reading:
    said = Said("43 µm", Decimal(43), "micrometer")
    changed = {"id": "fresh", "supersedes": reading.id, "said": said, "text": said.text} | more
    return replace(reading, **changed)


def test_the_doubt_is_that_of_the_figure() -> None:
    readings, micrographs, answers = fields("s-a", [40.0])
    (doubt,) = picture_doubts(readings, micrographs, answers).values()
    assert doubt.set_up == SET_UP.id
    assert (doubt.sampling, doubt.scale) == (pytest.approx(2.4), pytest.approx(0.2))
    assert math.hypot(doubt.light, doubt.own_light) == pytest.approx(2.0)


def test_a_corrected_reading_keeps_the_doubt() -> None:
    readings, micrographs, answers = fields("s-a", [40.0])
    fresh = corrected(readings[0])
    doubts = picture_doubts([*readings, fresh], micrographs, answers)
    assert doubts["fresh"] == doubts[readings[0].id]
    by_hand = corrected(readings[0], instrument_id="other")
    assert "fresh" not in picture_doubts([*readings, by_hand], micrographs, answers)


def test_answers_without_their_micrograph_say_nothing() -> None:
    readings, _, answers = fields("s-a", [40.0])
    assert picture_doubts(readings, [], answers) == {}


def test_media_of_unlike_set_ups_share_nothing() -> None:
    one, other = fields("s-a", [40.0, 42.0, 44.0]), fields("s-b", [50.0, 53.0, 56.0], "m-2")
    readings, micrographs, answers = ([*a, *b] for a, b in zip(one, other, strict=True))
    doubts = picture_doubts(readings, micrographs, answers)
    spreads = spreads_of(readings, SPIN_ON, doubts)
    assert [spreads[D50, s].freedom for s in ("s-a", "s-b")] == [4, 4]
    together = fields("s-b", [50.0, 53.0, 56.0])
    readings, micrographs, answers = ([*a, *b] for a, b in zip(one, together, strict=True))
    doubts = picture_doubts(readings, micrographs, answers)
    assert spreads_of(readings, SPIN_ON, doubts)[D50, "s-a"].freedom == 12


def test_readings_of_two_set_ups_are_left_to_their_scatter() -> None:
    one, other = fields("s-a", [40.0, 42.0]), fields("s-a", [43.0], "m-2")
    readings, micrographs, answers = ([*a, *b] for a, b in zip(one, other, strict=True))
    doubts = picture_doubts(readings, micrographs, answers)
    assert len(doubts) == 3
    assert spreads_of(readings, SPIN_ON, doubts) == {}


def test_a_record_holds_fields_and_their_doubt(fair: SqlShelf, clock: HandClock) -> None:
    record = looked_at(fair, clock)
    assert record.set_ups == (SET_UP,)
    assert len(record.micrographs) == len(record.answers) == 7
    finding = record.findings[D50, "s-a"]
    assert finding.quantity is not None
    assert finding.quantity.magnitude.nominal_value == pytest.approx(41.0)
    assert finding.set_ups == ((SET_UP.id, SET_UP.name),)
    assert "2 media, 4 degrees of freedom" in finding.scatter
    assert (D50, SET_UP.id) not in record.scatters


def test_a_sum_names_its_parts_plainly(fair: SqlShelf, clock: HandClock) -> None:
    record = looked_at(fair, clock)
    budget = budget_of_finding(record.findings[D50, "s-a"])
    assert budget is not None
    assert {source_words(record, source) for source in budget.sources} == {
        "how fields of one medium differ",
        "the last digit read",
        "the scale of the set-up, in all its pictures alike",
        "what light and edges shift, in all pictures of the set-up alike",
        "what light shifts in this medium alone",
    }


def test_what_viewers_work_out_is_the_same(fair: SqlShelf, clock: HandClock) -> None:
    record = looked_at(fair, clock)
    again = worked_out(contents_of(record))
    for key, finding in record.findings.items():
        if finding.quantity is not None:
            other = again.findings[key].quantity
            assert other is not None
            assert other.magnitude.std_dev == finding.quantity.magnitude.std_dev
    assert again.digest == record.digest


def test_the_verdict_tells_or_cannot_tell(fair: SqlShelf, clock: HandClock) -> None:
    record = looked_at(fair, clock)
    standings = attribute_differences(
        record.lineup.specimens, record.findings, record.figures, record.rules, SPIN_ON
    )
    standing = next(s for s in standings if s.subject == D50)
    gaps = {(pair.first, pair.second): pair for pair in standing.pairs}
    assert gaps["s-a", "s-b"].differs
    assert "only one field of Moss was measured" in gaps["s-a", "s-c"].refused


def test_fields_that_differ_raise_no_doubt(fair: SqlShelf, clock: HandClock) -> None:
    fair.add_set_up(SET_UP, instrument_of_set_up(SET_UP))
    for number, d50 in enumerate((40.0, 90.0, 60.0), 1):
        field = WantedField("s-a", Side.IN, number)
        data = picture(number)
        made = take_picture(fair, clock, "l-1", field, SET_UP.id, "field.png", data)
        keep_answer(fair, clock, SPIN_ON, "l-1", made.id, measured(d50))
    assert standing_doubts(draw_up(fair, "l-1", SPIN_ON)) == ()
