"""Where everything stands in the dialog of the rules."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QSize
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
)

from benchlog.window.lineup.field import Field, line
from benchlog.window.lineup.rule_form import RuleForm
from benchlog.window.lineup.rules_table import RulesTable
from benchlog.window.theme import px, sized


@dataclass
class RulesParts:
    """Every part of the dialog, by name."""

    sets: QComboBox
    state: QLabel
    table: RulesTable
    form: RuleForm
    coverage: Field
    points: Field
    own_name: Field
    reason: Field
    told: QLabel
    undo: QPushButton
    redo: QPushButton
    compare: QPushButton
    save: QPushButton
    lock: QPushButton
    close: QPushButton


def lay_out(dialog: QDialog) -> RulesParts:
    """Make every part and lay them out."""
    parts = RulesParts(
        sets=QComboBox(),
        state=QLabel(wordWrap=True),
        table=RulesTable(),
        form=RuleForm(),
        coverage=Field("No score below", line(), "of a component's weight"),
        points=Field("Scores count as apart from", line(), "points of 10"),
        own_name=Field("Name of a set of your own", line()),
        reason=Field("Why the rules change", line()),
        told=QLabel(wordWrap=True),
        undo=_button("&Undo", "Take the latest edit back"),
        redo=_button("&Redo", "Make the edit again that was taken back"),
        compare=_button("Co&mpare…", "Compare with another set"),
        save=_button("&Save as own set", "Save as a set of your own, with name and version"),
        lock=_button("&Lock the rules", "Lock the rules"),
        close=_button("Close", "Close the rules"),
    )
    parts.sets.setAccessibleName("Set of rules")
    parts.told.setProperty("tone", "warn")
    parts.told.hide()
    parts.reason.hide()
    for part, size in ((parts.sets, 15), (parts.state, 15), (parts.told, 15)):
        sized(part, size)
    parts.form.rescaled()
    parts.table.rescaled()
    _place(dialog, parts)
    dialog.resize(_room(dialog))
    return parts


def _place(dialog: QDialog, parts: RulesParts) -> None:
    head = QHBoxLayout()
    head.addWidget(parts.sets, 2)
    head.addWidget(parts.state, 3)
    scroll = QScrollArea()
    scroll.setWidget(parts.form)
    scroll.setWidgetResizable(True)
    scroll.setFrameShape(QFrame.Shape.NoFrame)
    scroll.setAccessibleName("The chosen rule")
    middle = QHBoxLayout()
    middle.addWidget(parts.table, 62)
    middle.addWidget(scroll, 38)
    limits = QHBoxLayout()
    for field in (parts.coverage, parts.points, parts.own_name):
        limits.addWidget(field, 1)
    limits.addWidget(parts.save)
    foot = QHBoxLayout()
    foot.addWidget(parts.undo)
    foot.addWidget(parts.redo)
    foot.addWidget(parts.compare)
    foot.addWidget(parts.told, 1)
    foot.addStretch(0)
    foot.addWidget(parts.lock)
    foot.addWidget(parts.close)
    column = QVBoxLayout(dialog)
    column.addLayout(head)
    column.addLayout(middle, 1)
    column.addLayout(limits)
    column.addWidget(parts.reason)
    column.addLayout(foot)


def _room(dialog: QDialog) -> QSize:
    """Return nearly the size of the window beneath."""
    window = dialog.parentWidget().window().size()
    return QSize(max(window.width() - px(60), px(700)), max(window.height() - px(50), px(420)))


def _button(name: str, spoken: str) -> QPushButton:
    button = QPushButton(name)
    button.setAccessibleName(spoken)
    button.setAutoDefault(False)
    sized(button, 16)
    return button
