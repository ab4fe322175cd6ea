"""Where everything stands in the dialog of set-ups."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from PySide6.QtWidgets import (
    QButtonGroup,
    QDialog,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QRadioButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from benchlog.window.microscope.say_strip import SayStrip
from benchlog.window.microscope.set_up_fields import SetUpFields
from benchlog.window.microscope.set_up_list import SetUpList
from benchlog.window.microscope.stage_form import StageForm
from benchlog.window.microscope.typed_form import TypedForm
from benchlog.window.theme import px, sized

SAVE = "&Keep it and use it"


@dataclass
class SetUpParts:
    """Every part of the dialog, by name."""

    list: SetUpList
    use: QPushButton
    anew: QPushButton
    fresh: QPushButton
    title: QLabel
    fields: SetUpFields
    by_stage: QRadioButton
    by_typing: QRadioButton
    scales: QStackedWidget
    stage: StageForm
    typed: TypedForm
    strip: SayStrip
    save: QPushButton
    leave: QPushButton


def furnish(dialog: QDialog, cap: str) -> SetUpParts:
    """Make every part and lay them out in the dialog."""
    parts = SetUpParts(
        list=SetUpList(),
        use=_button("&Use this one"),
        anew=_button("Calibrate &anew…"),
        fresh=_button("&New set-up…"),
        title=QLabel(),
        fields=SetUpFields(),
        by_stage=QRadioButton("Scale from a &stage micrometer"),
        by_typing=QRadioButton("Scale &typed"),
        scales=QStackedWidget(),
        stage=StageForm(cap),
        typed=TypedForm(),
        strip=SayStrip(),
        save=_button(SAVE),
        leave=_button("&Close"),
    )
    sized(parts.title, 20, bold=True)
    left = QVBoxLayout()
    parts.list.setFixedWidth(px(310))
    left.addWidget(parts.list, 1)
    for button in (parts.use, parts.anew, parts.fresh):
        left.addWidget(button)
    row = QHBoxLayout(dialog)
    row.setSpacing(px(10))
    row.addLayout(left)
    row.addLayout(_right(dialog, parts), 1)
    _order(parts)
    return parts


def _right(dialog: QDialog, parts: SetUpParts) -> QVBoxLayout:
    ways = QHBoxLayout()
    ways.setSpacing(px(16))
    group = QButtonGroup(dialog)
    for way in (parts.by_stage, parts.by_typing):
        sized(way, 16, bold=True)
        way.setAccessibleName(way.text().replace("&", ""))
        group.addButton(way)
        ways.addWidget(way)
    ways.addStretch(1)
    for form in (parts.stage, parts.typed):
        parts.scales.addWidget(form)
    foot = QHBoxLayout()
    foot.addWidget(parts.strip, 1)
    foot.addWidget(parts.save)
    foot.addWidget(parts.leave)
    right = QVBoxLayout()
    right.setSpacing(px(6))
    right.addWidget(parts.title)
    right.addWidget(parts.fields)
    right.addLayout(ways)
    right.addWidget(parts.scales, 1)
    right.addLayout(foot)
    return right


def _order(parts: SetUpParts) -> None:
    f, s, t = parts.fields, parts.stage, parts.typed
    stops = [
        parts.list, parts.use, parts.anew, parts.fresh, f.name, f.microscope, f.objective,
        *f.lights.values(), f.fibre, f.offset, parts.by_stage, parts.by_typing, s.choose, s.view,
        s.division, s.within, *(field.editor for field in t.fields.values()),
        parts.save, parts.leave,
    ]  # fmt: skip
    for one, other in pairwise(stops):
        QWidget.setTabOrder(one, other)


def _button(words: str) -> QPushButton:
    button = QPushButton(words)
    sized(button, 16)
    button.setAccessibleName(words.replace("&", ""))
    button.setAutoDefault(False)
    return button
