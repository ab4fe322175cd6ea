"""Nothing cut off, everything named, large enough, readable: over every attribute there is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from pathlib import Path

import pytest
from PySide6.QtCore import QEventLoop
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QListView,
    QPlainTextEdit,
    QTableView,
    QWidget,
)

from benchlog.tasks import plan
from benchlog.trade.sequence_file import load_sequence
from benchlog.window import theme
from benchlog.window.bench.bench_place import BenchPlace
from benchlog.window.bench.legend import Legend
from benchlog.window.dialogs import open_dialog
from benchlog.window.keys import Action
from tests.window.bench_scenes import PlainScale, Seat, desk_over, workshop_in

INTERACTIVE = (
    QAbstractButton,
    QAbstractSpinBox,
    QComboBox,
    QLineEdit,
    QListView,
    QPlainTextEdit,
    QTableView,
)
SEQUENCE = load_sequence("spin_on")
SIZES = {"1366 × 768": (1366, 734), "the same at 150 %": (911, 488), "1920 × 1080": (1920, 1040)}


def settle() -> None:
    """Let Qt lay everything out."""
    for _ in range(4):
        QApplication.processEvents(QEventLoop.ProcessEventsFlag.AllEvents)


def unnamed(root: QWidget) -> list[str]:
    """Interactive widgets without an accessible name; those inside a combo or spin box aside."""
    found = []
    for widget in root.findChildren(QWidget):
        inner = isinstance(widget.parent(), QComboBox | QAbstractSpinBox | QTableView)
        popup = any(isinstance(p, QComboBox) for p in parents(widget))
        nameless = isinstance(widget, INTERACTIVE) and not widget.accessibleName()
        if nameless and not inner and not popup:
            found.append(f"{type(widget).__name__} {widget.objectName()}")
    return found


def parents(widget: QWidget) -> Iterator[QWidget]:
    while (widget := widget.parentWidget()) is not None:
        yield widget


def cut_off(root: QWidget) -> list[str]:
    """Visible labels and buttons that are smaller than what they say, or stick out."""
    found = []
    for widget in root.findChildren(QWidget):
        if not widget.isVisible() or not isinstance(widget, QLabel | QAbstractButton):
            continue
        words = widget.text()
        if not words or any(isinstance(p, QTableView) for p in parents(widget)):
            continue
        wanted = widget.sizeHint()
        if isinstance(widget, QLabel) and widget.wordWrap():
            tall = widget.heightForWidth(widget.width())
            short = widget.height() < tall
        else:
            wide = widget.fontMetrics().horizontalAdvance(words)
            short = widget.width() < min(wide, wanted.width())
            letters = widget.fontMetrics().tightBoundingRect(words)
            short = short or widget.height() < letters.height()
        parent = widget.parentWidget().rect()
        out = not parent.adjusted(-1, -1, 1, 1).contains(widget.geometry())
        if short or out:
            found.append(f"{words!r}: {widget.geometry()} in {parent}")
    return found


@pytest.fixture(params=SIZES)
def full_bench(request, qtbot, themed, tmp_path: Path) -> Iterator[BenchPlace]:
    """A bench that asks for every attribute of the sequence, at one size of window."""
    workshop = workshop_in(tmp_path / "shelf")
    lineup = plan.new_lineup(
        workshop.clock,
        SEQUENCE,
        name="Everything",
        specimens=tuple(plan.fresh_specimen(n) for n in range(6)),
        attributes=tuple(a.key for a in SEQUENCE.attributes),
    )
    plan.save_plan(workshop.shelf, lineup)
    desk = desk_over(workshop)
    desk.open_lineup(lineup.id)
    place = BenchPlace(desk)
    qtbot.addWidget(place)
    width, height = SIZES[request.param]
    place.resize(width, height)
    place.show()
    window = place.size() + theme.QSize(0, round(height * 0.045))
    theme.rescale(themed, place, theme.unit_for(window))
    place.rescaled()
    desk.teardown.say_yes()
    yield place
    place.leave()
    workshop.close()


def test_nothing_is_cut_off_whatever_is_asked(full_bench: BenchPlace) -> None:
    bench = full_bench.bench
    teardown = bench.hands.teardown
    teardown.place = teardown.place.__class__(
        **{f.name: getattr(teardown.place, f.name) for f in fields(teardown.place)}
        | {"passed": tuple(s.key for s in SEQUENCE.stations if s.one_way)}
    )
    wrong = {}
    for attribute in SEQUENCE.attributes:
        if attribute.specimen_field:
            continue
        bench.hands.go_to(attribute.key, bench.view.lineup.specimens[0].id)
        settle()
        assert full_bench.width() <= 1920
        if found := cut_off(full_bench):
            wrong[attribute.key] = found
    assert wrong == {}


def test_squeezed_and_nameless_are_found(qtbot, themed) -> None:
    root = QWidget()
    qtbot.addWidget(root)
    root.resize(300, 100)
    label = QLabel("a long sentence that needs its room", root)
    label.setGeometry(0, 0, 40, 30)
    field = QLineEdit(root)
    root.show()
    settle()
    assert len(cut_off(root)) == 1
    assert unnamed(root) == ["QLineEdit "]
    label.setGeometry(0, 0, 290, 30)
    field.setAccessibleName("Reason")
    assert cut_off(root) == []
    assert unnamed(root) == []


def test_window_never_wants_to_be_larger(full_bench: BenchPlace) -> None:
    wanted = full_bench.minimumSizeHint()
    assert wanted.width() <= full_bench.width()
    assert wanted.height() <= full_bench.height()


def test_panels_and_pages_are_not_cut_off(full_bench: BenchPlace) -> None:
    bench = full_bench.bench
    for station in ("cut", "unfold"):
        bench.hands.go_to_station(station)
        settle()
        assert bench.parts.one_way.isVisible()
        assert cut_off(full_bench) == []
    bench.hands.go_to_station("gasket")
    for action in (Action.NO_VALUE, Action.GO_TO):
        bench.act(action)
        settle()
        assert cut_off(full_bench) == []


def test_figures_stand_a_tenth_of_the_window(seat: Seat) -> None:
    scale = PlainScale()
    seat.place.attach_scale(scale)
    scale.says("2287.40")
    seat.type("2287.40")
    settle()
    for widget in (seat.entry, seat.bench.parts.scale.digits):
        assert widget.fontMetrics().tightBoundingRect("8").height() >= 768 / 10
        assert widget.fontMetrics().horizontalAdvance("2287.40") <= widget.width()
        assert widget.height() >= widget.fontMetrics().tightBoundingRect("8").height()


def test_figures_have_one_width(seat: Seat) -> None:
    widths = {seat.entry.fontMetrics().horizontalAdvance(digit) for digit in "0123456789"}
    assert len(widths) == 1


def test_long_entry_shrinks_before_it_is_cut(seat: Seat) -> None:
    seat.type("about 3 and 7 sixteenths of an inch")
    letters = seat.entry.fontMetrics()
    assert letters.horizontalAdvance(seat.entry.text()) <= seat.entry.width()


def test_everything_on_the_bench_is_named(seat: Seat) -> None:
    seat.go_to("dents")
    assert unnamed(seat.place) == []


@pytest.mark.parametrize("name", ["scale", "tool", "checks", "keys", "settings"])
def test_everything_in_a_dialog_is_named(seat: Seat, name: str) -> None:
    dialog = open_dialog(name, seat.bench)
    assert unnamed(dialog) == []
    assert dialog.windowTitle()
    assert dialog.sizeHint().width() <= 911
    assert dialog.sizeHint().height() <= 560
    dialog.reject()


@pytest.mark.parametrize("colours", [theme.DARK, theme.LIGHT], ids=["dark", "light"])
def test_colours_that_meet_stand_out(colours: theme.Colours) -> None:
    # WCAG 2.1, 1.4.3: at least 4.5:1 for text, and 1.4.11: 3:1 for what shows the focus.
    for ink in (colours.text, colours.dim, colours.accent, colours.good):
        for ground in (colours.window, colours.panel):
            assert theme.contrast(ink, ground) >= 4.5
    assert theme.contrast(colours.text, colours.raised) >= 4.5
    assert theme.contrast(colours.on_warn, colours.warn) >= 4.5
    assert theme.contrast(colours.on_warn, colours.window) >= 4.5
    assert theme.contrast(colours.on_accent, colours.accent) >= 4.5


@pytest.mark.parametrize("colour", [*plan.TAG_COLOURS, "#ffffff", "#000000", "#ffee00"])
def test_name_on_its_tag_colour_stands_out(colour: str) -> None:
    assert theme.contrast(theme.readable_on(colour).name(), colour) >= 4.5


def test_contrast_matches_the_published_ends() -> None:
    # WCAG 2.1, definition of contrast ratio: black on white is 21:1, a colour on itself 1:1.
    assert theme.contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert theme.contrast("#7fd0de", "#7fd0de") == pytest.approx(1.0)


def test_theme_changes_at_once(seat: Seat, qapp) -> None:
    dark = seat.place.palette().window().color()
    theme.apply_theme(qapp, "light")
    assert seat.place.palette().window().color().lightness() > 200 > dark.lightness()
    assert seat.entry.palette().text().color().lightness() < 60


def test_states_are_words_in_the_table(seat: Seat) -> None:
    from benchlog.measure.state import State

    seat.bench.hands.no_value(State.NOT_MARKED, "")
    table = seat.bench.parts.table
    assert table.item(0, 0).text() == "not marked"
    spoken = table.item(0, 1).data(theme.Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == "Whole weight, as received, Cobalt: missing"


def test_stations_tell_what_is_missing(seat: Seat) -> None:
    spoken = [
        seat.bench.parts.stations.item(n).data(theme.Qt.ItemDataRole.AccessibleTextRole)
        for n in range(seat.bench.parts.stations.count())
    ]
    assert spoken[1] == "2 Outside, 12 of 12 missing"
    assert spoken[5] == "6 Cut, 3 of 3 missing, cannot be undone"
    seat.answer("287.4")
    told = seat.bench.parts.stations.item(1).toolTip()
    assert told == "2 Outside, 11 of 12 missing"


def test_cautions_leave_every_station_in_sight(seat: Seat) -> None:
    stations = seat.bench.parts.stations
    for row in seat.view.stations:
        seat.bench.hands.go_to_station(row.key)
        seat.bench.hands.say_yes()
        settle()
        assert stations.verticalScrollBar().maximum() == 0, row.key


def test_cautions_past_the_gate_take_two_lines(seat: Seat) -> None:
    seat.bench.hands.go_to_station("cut")
    note = seat.bench.parts.cautions
    assert not note.isVisible()
    seat.bench.hands.say_yes()
    settle()
    assert note.isVisible()
    assert note.text().splitlines()[1] == "5 cautions: rest the pointer here"
    assert note.height() <= 2 * note.fontMetrics().lineSpacing() + 4
    assert note.toolTip().splitlines() == list(seat.view.station.cautions)


def test_cautions_without_a_gate_are_written_out(seat: Seat) -> None:
    seat.bench.hands.go_to_station("gasket")
    assert seat.bench.parts.cautions.text() == "\n".join(seat.view.station.cautions)


def test_legend_shows_both_keyboards_keys(seat: Seat) -> None:
    settle()
    buttons = seat.bench.parts.legend.buttons
    caps = {action: button.cap for action, button in buttons.items()}
    assert caps[Action.NO_VALUE] == "pad / or F3"
    assert caps[Action.NEXT] == "pad + or PgDn"
    assert caps[Action.CLEAR] == "pad * or Esc"
    assert caps[Action.ACCEPT] == "Enter"
    assert caps[Action.FLAG] == "F2"
    assert buttons[Action.ACCEPT].toolTip() == "accept: pad Enter or Enter"
    assert buttons[Action.NEXT].toolTip() == "next: pad + or Page down"


def test_legend_keeps_to_two_lines(full_bench: BenchPlace) -> None:
    settle()
    legend = full_bench.bench.parts.legend
    assert legend.lines(legend.width()) == 2
    assert legend.buttons[Action.NO_VALUE].cap == "pad / or F3"


def test_legend_at_the_microscope_leads_to_the_pictures(full_bench: BenchPlace) -> None:
    legend = full_bench.bench.parts.legend
    assert legend.buttons[Action.FIELDS].isHidden()
    full_bench.bench.hands.go_to_station("microscope")
    settle()
    assert legend.buttons[Action.FIELDS].isVisible()
    assert legend.buttons[Action.FIELDS].cap == "Ctrl+M"
    assert legend.lines(legend.width()) == 2
    assert legend.buttons[Action.NO_VALUE].cap == "pad / or F3"


def test_narrow_legend_shows_first_keys(qtbot, themed) -> None:
    legend = Legend()
    qtbot.addWidget(legend)
    legend.resize(700, 60)
    legend.show()
    assert legend.buttons[Action.NO_VALUE].cap == "pad /"
    legend.resize(1106, 60)
    assert legend.buttons[Action.NO_VALUE].cap == "pad / or F3"
