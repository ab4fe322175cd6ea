from __future__ import annotations

import pytest

from benchlog.errors import EntryRefused
from benchlog.measure.reading import standing
from benchlog.measure.state import State
from benchlog.shelf import SqlShelf
from benchlog.tasks.correct import correct
from benchlog.tasks.walk import Teardown
from tests.small_trade import SMALL, HandClock


def put_right(shelf: SqlShelf, clock: HandClock, reading: str, text: str, reason: str = "misread"):
    return correct(shelf, clock, SMALL, "l-1", reading, text, reason)


def test_correction_supersedes_and_keeps_both(
    bench: Teardown, shelf: SqlShelf, clock: HandClock
) -> None:
    old = bench.accept("287.4").reading
    new = put_right(shelf, clock, old.id, "278.4 g", "digits swapped")
    kept = shelf.readings("l-1")
    assert kept == [old, new]
    assert standing(kept) == [new]
    assert (new.supersedes, new.reason, new.ordinal) == (old.id, "digits swapped", old.ordinal)
    assert new.si_value == pytest.approx(0.2784)


def test_correction_may_say_why_no_value(
    bench: Teardown, shelf: SqlShelf, clock: HandClock
) -> None:
    old = bench.accept("287.4").reading
    new = put_right(shelf, clock, old.id, "spoiled", "the tray was on the pan")
    assert (new.state, new.said, new.si_value, new.si_unit) == (State.SPOILED, None, None, "")


def test_correction_without_reason_is_refused(
    bench: Teardown, shelf: SqlShelf, clock: HandClock
) -> None:
    old = bench.accept("287.4").reading
    with pytest.raises(EntryRefused, match="reason"):
        put_right(shelf, clock, old.id, "278.4 g", "  ")
    assert shelf.readings("l-1") == [old]


def test_superseded_reading_cannot_be_corrected_again(
    bench: Teardown, shelf: SqlShelf, clock: HandClock
) -> None:
    old = bench.accept("287.4").reading
    put_right(shelf, clock, old.id, "278.4 g")
    with pytest.raises(EntryRefused, match="corrected or scratched before"):
        put_right(shelf, clock, old.id, "279.4 g")


def test_bench_sees_the_correction_after_reload(
    bench: Teardown, shelf: SqlShelf, clock: HandClock
) -> None:
    old = bench.accept("287.4").reading
    put_right(shelf, clock, old.id, "278.4 g")
    bench.reload()
    assert bench.view().table[0].cells[0].text == "278.4 g"
