from __future__ import annotations

import threading
from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt

from benchlog.errors import ScaleFault
from benchlog.measure.reading import Source
from benchlog.tasks.ports import Capture, ScaleState, Steadiness, Weight
from tests.window.bench_scenes import PlainScale, Seat


@pytest.fixture
def scale(seat: Seat) -> PlainScale:
    plain = PlainScale()
    seat.place.attach_scale(plain)
    return plain


def elsewhere(work: Callable[[], object]) -> None:
    """Do something on a thread of its own, as a scale does."""
    thread = threading.Thread(target=work)
    thread.start()
    thread.join()


def panel_text(seat: Seat) -> str:
    return seat.bench.parts.scale.accessibleName()


def test_line_shows_large_with_words(seat: Seat, scale: PlainScale, qtbot) -> None:
    elsewhere(lambda: scale.says("287.4"))
    panel = seat.bench.parts.scale
    qtbot.waitUntil(lambda: panel.digits.text() == "287.4")
    assert panel.unit.text() == "g"
    assert panel.steadiness.text() == "stable"
    assert panel.capture.text() == "settling"
    assert panel.hint.text() == "weights go into this answer"
    assert seat.readings() == []


def test_caught_weight_answers(seat: Seat, scale: PlainScale, qtbot) -> None:
    elsewhere(lambda: scale.catches("287.4"))
    qtbot.waitUntil(lambda: seat.cells("whole_mass")[0] == "287.4 g")
    kept = seat.readings()[0]
    assert (kept.source, kept.raw) == (Source.SCALE, b"ST,GS,+287.4  g")
    assert seat.asked == ("whole_mass", "Cobalt")
    assert seat.bench.parts.scale.capture.text() == "caught; clear the pan"


def test_caught_weight_for_another_question(seat: Seat, scale: PlainScale) -> None:
    seat.go_to("can_height")
    scale.catches("287.4")
    assert seat.readings() == []
    assert "A weight came in, but Height" in seat.strip
    assert seat.bench.parts.scale.hint.text() == ""


def test_unusual_weight_wants_enter(seat: Seat, scale: PlainScale) -> None:
    scale.catches("75.2")
    assert seat.readings() == []
    seat.enter()
    assert seat.cells("whole_mass")[0] == "75.2 g"
    assert seat.readings()[0].source is Source.SCALE


def test_weight_waits_while_something_is_typed(seat: Seat, scale: PlainScale) -> None:
    seat.type("30")
    scale.catches("287.4")
    assert seat.entry.text() == "30"
    assert seat.readings() == []
    assert "287.4 g was caught while you were typing" in seat.strip
    seat.press(Qt.Key.Key_Asterisk)
    seat.enter()
    assert seat.cells("whole_mass")[0] == "287.4 g"


def test_typed_value_sends_the_held_weight_away(seat: Seat, scale: PlainScale) -> None:
    seat.type("300")
    scale.catches("287.4")
    seat.enter()
    assert seat.cells("whole_mass") == ["300 g", "", ""]
    seat.enter()
    assert seat.cells("whole_mass") == ["300 g", "", ""]


def test_garbage_is_shown_and_never_stored(seat: Seat, scale: PlainScale, qtbot) -> None:
    lines: list[str] = []
    seat.bench.scale.line_told.connect(lines.append)
    elsewhere(lambda: scale.listener.scale_garbage(b"\xff\x00#", "not a weight"))
    qtbot.waitUntil(lambda: bool(lines))
    assert "line not understood: not a weight" in panel_text(seat)
    assert lines == ["\\xff\\x00#   not understood: not a weight"]
    assert seat.readings() == []


def test_unplugged_is_shown_at_once(seat: Seat, scale: PlainScale, qtbot) -> None:
    scale.says("287.4")
    elsewhere(lambda: scale.listener.scale_state(ScaleState.LOST, "gone"))
    panel = seat.bench.parts.scale
    qtbot.waitUntil(lambda: "unplugged" in panel.caption.text())
    assert panel.digits.text() != "287.4"
    assert panel.capture.text() == "typing a weight always works"
    seat.answer("287.4")
    assert seat.cells("whole_mass")[0] == "287.4 g"


def test_overload_is_a_word(seat: Seat, scale: PlainScale) -> None:
    scale.listener.scale_line(Weight(None, Steadiness.OVERLOAD, None, b"OL"), Capture.SETTLING)
    assert seat.bench.parts.scale.digits.text() == "overload"


def test_enter_on_empty_asks_the_scale(seat: Seat, scale: PlainScale) -> None:
    seat.enter()
    assert scale.polled == 1
    assert seat.readings() == []


def test_new_scale_takes_the_place_of_the_old(seat: Seat, scale: PlainScale) -> None:
    fresh = PlainScale()
    seat.place.attach_scale(fresh)
    assert scale.closed
    scale.says("1.0")
    assert seat.bench.parts.scale.digits.text() != "1.0"
    fresh.says("2.0")
    assert seat.bench.parts.scale.digits.text() == "2.0"


class Unreachable(PlainScale):
    def start(self, _listener: object) -> None:
        raise ScaleFault("There is no such port.", "Pick another.")


def test_unreachable_scale_is_not_kept(seat: Seat) -> None:
    with pytest.raises(ScaleFault):
        seat.place.attach_scale(Unreachable())
    assert not seat.bench.scale.attached
