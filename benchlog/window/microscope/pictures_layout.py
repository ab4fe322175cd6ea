"""Where everything stands on the page of pictures."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSpinBox,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from benchlog.window.bench.tag_marker import SpecimenBanner
from benchlog.window.desk import Desk
from benchlog.window.microscope.field_list import FieldList
from benchlog.window.microscope.fields_now import Sides
from benchlog.window.microscope.gates_panel import GatesPanel
from benchlog.window.microscope.marks_paint import Overlay
from benchlog.window.microscope.measuring import Measuring
from benchlog.window.microscope.measuring_line import MeasuringLine
from benchlog.window.microscope.media_page import MediaPage
from benchlog.window.microscope.picture_keys import Wish
from benchlog.window.microscope.picture_legend import PictureLegend
from benchlog.window.microscope.picture_view import PictureView
from benchlog.window.microscope.say_strip import SayStrip
from benchlog.window.theme import px, sized

MOST_FIELDS = 30


@dataclass
class PicturesParts:
    """Every part of the page, by name."""

    back: QPushButton
    views: tuple[QPushButton, QPushButton]
    set_up_words: QLabel
    set_up: QPushButton
    fields: QSpinBox
    sides: QComboBox
    list: FieldList
    line: MeasuringLine
    banner: SpecimenBanner
    done: QLabel
    buttons: dict[Wish, QPushButton]
    strip: SayStrip
    yes: QPushButton
    view: PictureView
    overlays: dict[Overlay, QPushButton]
    drawing: QLabel
    gates: GatesPanel
    pages: QStackedWidget
    media: MediaPage
    legend: PictureLegend


OVERLAYS = {
    Overlay.NOTHING: "Picture alone",
    Overlay.OUTLINES: "Outlines",
    Overlay.CENTRELINES: "Centrelines",
    Overlay.CIRCLES: "Circles",
}
BUTTONS = {
    Wish.CHOOSE: "&Picture…",
    Wish.FOLDER: "&Watch folder…",
    Wish.RETAKE: "Take &again",
    Wish.MORE: "One &more",
    Wish.TAKE_BACK: "Take &back",
}


def furnish(page: QWidget, desk: Desk, measuring: Measuring) -> PicturesParts:
    """Make every part and lay them out on the page."""
    parts = PicturesParts(
        back=_button("‹ Bench", "Back to the bench"),
        views=(_button("Pictures"), _button("Media")),
        set_up_words=QLabel(),
        set_up=_button("Set-&up…", "Choose or make the microscope's set-up"),
        fields=QSpinBox(minimum=1, maximum=MOST_FIELDS),
        sides=QComboBox(),
        list=FieldList(),
        line=MeasuringLine(measuring),
        banner=SpecimenBanner(),
        done=QLabel(),
        buttons={wish: _button(words) for wish, words in BUTTONS.items()},
        strip=SayStrip(),
        yes=_button("&Yes, take it"),
        view=PictureView(),
        overlays={one: _button(words, one.value) for one, words in OVERLAYS.items()},
        drawing=QLabel(),
        gates=GatesPanel(),
        pages=QStackedWidget(),
        media=MediaPage(desk),
        legend=PictureLegend(),
    )
    for side in Sides:
        parts.sides.addItem(side.value, side)
    for widget, name in ((parts.fields, "Fields a side"), (parts.sides, "Sides looked at")):
        widget.setAccessibleName(name)
        sized(widget, 14)
    for view in (*parts.views, *parts.overlays.values()):
        view.setCheckable(True)
    pictures = QWidget()
    row = QHBoxLayout(pictures)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(px(8))
    row.addLayout(_left(parts))
    row.addLayout(_middle(parts), 1)
    for one in (pictures, parts.media):
        parts.pages.addWidget(one)
    column = QVBoxLayout(page)
    column.setContentsMargins(px(8), 0, px(8), px(6))
    column.setSpacing(px(5))
    column.addLayout(_head(parts))
    column.addWidget(parts.pages, 1)
    column.addWidget(parts.legend)
    rescale(parts)
    return parts


def rescale(parts: PicturesParts) -> None:
    """Let every part follow the window's size and theme."""
    parts.list.setFixedWidth(px(274))
    parts.line.setFixedWidth(px(274))
    parts.banner.updateGeometry()
    for part in (parts.list, parts.line, parts.gates, parts.media, parts.legend):
        part.rescaled()


def _head(parts: PicturesParts) -> QHBoxLayout:
    title = QLabel("Pictures of the media")
    sized(title, 19, bold=True)
    sized(parts.set_up_words, 14)
    parts.set_up_words.setProperty("tone", "dim")
    head = QHBoxLayout()
    head.setSpacing(px(8))
    head.addWidget(parts.back)
    head.addWidget(title)
    for view in parts.views:
        head.addWidget(view)
    head.addStretch(1)
    head.addWidget(parts.set_up_words)
    head.addWidget(parts.set_up)
    return head


def _left(parts: PicturesParts) -> QVBoxLayout:
    asked = QGridLayout()
    asked.setHorizontalSpacing(px(6))
    for column, (words, widget) in enumerate((("&Fields a side", parts.fields),
                                              ("&Sides", parts.sides))):  # fmt: skip
        label = QLabel(words)
        label.setBuddy(widget)
        label.setProperty("tone", "dim")
        sized(label, 13)
        asked.addWidget(label, 0, column)
        asked.addWidget(widget, 1, column)
    asked.setColumnStretch(1, 1)
    left = QVBoxLayout()
    left.setSpacing(px(5))
    left.addLayout(asked)
    left.addWidget(parts.list, 1)
    left.addWidget(parts.line)
    return left


def _middle(parts: PicturesParts) -> QVBoxLayout:
    acts = QHBoxLayout()
    acts.setSpacing(px(6))
    for button in parts.buttons.values():
        acts.addWidget(button)
    hint = QLabel("or drop or paste one here")
    hint.setProperty("tone", "dim")
    sized(hint, 14)
    acts.insertWidget(1, hint)
    acts.addStretch(1)
    said = QHBoxLayout()
    said.addWidget(parts.strip, 1)
    said.addWidget(parts.yes)
    sized(parts.drawing, 14)
    parts.drawing.setProperty("tone", "dim")
    over = QHBoxLayout()
    over.setSpacing(px(4))
    for button in parts.overlays.values():
        over.addWidget(button)
    over.addWidget(parts.drawing)
    over.addStretch(1)
    seen = QVBoxLayout()
    seen.setSpacing(px(4))
    seen.addWidget(parts.view, 1)
    seen.addLayout(over)
    below = QHBoxLayout()
    below.setSpacing(px(8))
    below.addLayout(seen, 1)
    below.addWidget(parts.gates)
    middle = QVBoxLayout()
    middle.setSpacing(px(5))
    sized(parts.done, 24, bold=True)
    parts.done.setProperty("tone", "good")
    for part in (parts.banner, parts.done):
        middle.addWidget(part)
    middle.addLayout(acts)
    middle.addLayout(said)
    middle.addLayout(below, 1)
    return middle


def _button(words: str, name: str = "") -> QPushButton:
    button = QPushButton(words)
    button.setAccessibleName(name or words.replace("&", ""))
    button.setAutoDefault(True)
    sized(button, 14)
    return button
