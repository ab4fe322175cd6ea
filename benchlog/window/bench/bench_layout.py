"""Where everything stands on the bench, and what each part shows of a view."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QStackedWidget, QVBoxLayout, QWidget

from benchlog.tasks.bench_view import Asked, BenchView
from benchlog.tasks.lock_view import owed_at_bench
from benchlog.window.bench.answer_strip import AnswerStrip
from benchlog.window.bench.asked_panel import AskedPanel
from benchlog.window.bench.bench_menu import BenchMenu
from benchlog.window.bench.caution_note import CautionNote
from benchlog.window.bench.choice_row import ChoiceRow
from benchlog.window.bench.entry_row import EntryBox
from benchlog.window.bench.legend import Legend
from benchlog.window.bench.no_value_panel import NoValuePanel
from benchlog.window.bench.one_way_page import OneWayPage
from benchlog.window.bench.photo_strip import PhotoStrip
from benchlog.window.bench.scale_panel import ScalePanel
from benchlog.window.bench.station_finder import StationFinder
from benchlog.window.bench.station_list import StationList
from benchlog.window.bench.station_table import StationTable
from benchlog.window.bench.tag_marker import SpecimenBanner
from benchlog.window.desk import Desk
from benchlog.window.theme import px


@dataclass
class Parts:
    """Every part of the bench, by name."""

    stations: StationList
    cautions: CautionNote
    menu: BenchMenu
    banner: SpecimenBanner
    asked: AskedPanel
    entry: EntryBox
    scale: ScalePanel
    choices: ChoiceRow
    strip: AnswerStrip
    table: StationTable
    photos: PhotoStrip
    no_value: NoValuePanel
    finder: StationFinder
    one_way: OneWayPage
    legend: Legend
    lower: QStackedWidget
    """The table with the photos, or a panel in their place."""
    below: QWidget
    work: QStackedWidget
    """What is asked, or the page before a one-way step."""
    asking: QWidget
    answering: QWidget
    """Entry, scale and choices; out of the way while a panel is open."""
    side: QVBoxLayout
    """The column beside all of that."""


def furnish(bench: QWidget, desk: Desk) -> Parts:
    """Make every part and lay them out on the bench."""
    entry = EntryBox()
    parts = Parts(
        stations=StationList(),
        cautions=CautionNote(),
        menu=BenchMenu(),
        banner=SpecimenBanner(),
        asked=AskedPanel(),
        entry=entry,
        scale=ScalePanel(),
        choices=ChoiceRow(),
        strip=AnswerStrip(entry.field),
        table=StationTable(),
        photos=PhotoStrip(desk.workshop.shelf, desk.faults),
        no_value=NoValuePanel(),
        finder=StationFinder(),
        one_way=OneWayPage(owed=lambda: owed_at_bench(desk.workshop.shelf, desk.lineup_id)),
        legend=Legend(),
        lower=QStackedWidget(),
        below=QWidget(),
        work=QStackedWidget(),
        asking=QWidget(),
        answering=QWidget(),
        side=QVBoxLayout(),
    )
    _lay_out_asking(parts)
    side = parts.side
    side.setSpacing(4)
    side.addWidget(parts.stations, 1)
    side.addWidget(parts.cautions)
    side.addWidget(parts.menu)
    whole = QHBoxLayout(bench)
    whole.setContentsMargins(8, 0, 8, 6)
    whole.setSpacing(8)
    whole.addLayout(side)
    whole.addWidget(parts.work, 1)
    return parts


def _lay_out_asking(parts: Parts) -> None:
    beside = QHBoxLayout(parts.below)
    beside.setContentsMargins(0, 0, 0, 0)
    beside.setSpacing(6)
    beside.addWidget(parts.table, 1)
    beside.addWidget(parts.photos)
    for page in (parts.below, parts.no_value, parts.finder):
        parts.lower.addWidget(page)
    numbers = QHBoxLayout()
    numbers.setSpacing(8)
    numbers.addWidget(parts.entry, 1)
    numbers.addWidget(parts.scale, 1)
    answering = QVBoxLayout(parts.answering)
    answering.setContentsMargins(0, 0, 0, 0)
    answering.setSpacing(5)
    answering.addLayout(numbers)
    answering.addWidget(parts.choices)
    parts.answering.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
    column = QVBoxLayout(parts.asking)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(5)
    column.addWidget(parts.banner)
    column.addWidget(parts.asked)
    column.addWidget(parts.answering)
    column.addWidget(parts.strip)
    column.addWidget(parts.lower, 1)
    column.addWidget(parts.legend)
    parts.work.addWidget(parts.asking)
    parts.work.addWidget(parts.one_way)


def show(parts: Parts, view: BenchView) -> None:
    """Show a view in every part."""
    asked = view.asked
    parts.stations.show_rows(view.stations)
    parts.cautions.show_view(view)
    parts.banner.show_specimen(asked.specimen if asked else None, repeat_words(asked))
    parts.asked.show_view(view)
    parts.entry.show_asked(asked)
    parts.choices.show_choices(asked.choices if asked else ())
    parts.scale.show_hint(
        takes_weight=asked is not None and asked.takes_weight,
        large=asked is None or asked.attribute.is_number,
    )
    parts.table.show_view(view)
    if view.yes_wanted:
        parts.one_way.show_view(view)
        parts.work.setCurrentWidget(parts.one_way)
    else:
        parts.one_way.left_behind()
        parts.work.setCurrentWidget(parts.asking)


def show_panel(parts: Parts, panel: QWidget) -> None:
    """Show a panel in place of the table, or the table again with `parts.below`."""
    parts.lower.setCurrentWidget(panel)
    parts.answering.setVisible(panel is parts.below)


def repeat_words(asked: Asked | None) -> str:
    """Return which reading is asked, where more than one is: "reading 2 of 3"."""
    if asked is None or asked.wanted < 2:
        return ""
    return f"reading {asked.ordinal} of {asked.wanted}"


def rescale(parts: Parts) -> None:
    """Let every part follow the window's size and theme."""
    for part in (
        parts.stations,
        parts.cautions,
        parts.asked,
        parts.strip,
        parts.table,
        parts.photos,
        parts.one_way,
        parts.legend,
        parts.menu,
    ):
        part.rescaled()
    # The panels need more room than the table; they get it while the answers make way.
    parts.lower.setMinimumHeight(px(130))
    parts.banner.updateGeometry()
    parts.entry.field.fit()
    parts.scale.digits.fit()


def key_takers(parts: Parts) -> list[QWidget]:
    """Return the widgets whose key presses are led to actions: all that can have the focus."""
    return [
        parts.entry.field,
        parts.one_way.field,
        parts.stations,
        parts.table,
        parts.photos.list,
        parts.photos.add,
        parts.photos.fields,
        *parts.legend.buttons.values(),
        *parts.menu.buttons.values(),
    ]
