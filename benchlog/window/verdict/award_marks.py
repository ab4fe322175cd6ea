"""The marks of an outcome, the same shapes as on the sheet: a shape first, a colour second."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from benchlog.judge.verdict import AwardKind
from benchlog.window.theme import colours


def draw_award(painter: QPainter, kind: AwardKind, centre: QPointF, radius: float) -> None:
    """Draw the mark of an outcome around a centre; `radius` is half its height."""
    shown = colours()
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(centre)
    painter.scale(radius, radius)
    if kind in (AwardKind.WINNER, AwardKind.JOINT_WINNERS):
        ground = QColor(shown.on_accent)
        _rosette(painter, QColor(shown.accent), ground, joint=kind is AwardKind.JOINT_WINNERS)
    elif kind is AwardKind.TIE:
        _equal_box(painter, QColor(shown.text), QColor(shown.line))
    elif kind is AwardKind.DIFFERENT:
        _two_way(painter, QColor(shown.text))
    elif kind is AwardKind.CANNOT_SEPARATE:
        _overlap(painter, QColor(shown.text))
    else:
        painter.setPen(QPen(QColor(shown.dim), 0.22))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawEllipse(QPointF(0, 0), 0.78, 0.78)
    painter.restore()


def _rosette(painter: QPainter, colour: QColor, ground: QColor, *, joint: bool) -> None:
    """A filled rosette with two ribbons: a tick in it for one winner, a hole for several."""
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    for side in (-1, 1):
        ribbon = [(0.62 * side, 0.0), (0.72 * side, 1.3), (0.05 * side, 0.75)]
        painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in ribbon]))
    middle = QPointF(0, -0.15)
    edge = []
    for step in range(24):
        reach = 1.0 if step % 2 == 0 else 0.82
        angle = step * math.pi / 12
        edge.append(middle + QPointF(reach * math.sin(angle), -reach * math.cos(angle)))
    painter.drawPolygon(QPolygonF(edge))
    if joint:
        painter.setBrush(ground)
        painter.drawEllipse(middle, 0.5, 0.5)
        return
    painter.setPen(QPen(ground, 0.22))
    tick = [(-0.42, -0.12), (-0.1, 0.2), (0.44, -0.5)]
    painter.drawPolyline(QPolygonF([QPointF(x, y) for x, y in tick]))


def _equal_box(painter: QPainter, ink: QColor, grey: QColor) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(grey)
    painter.drawRect(QRectF(-1.15, -0.95, 2.3, 1.9))
    painter.setPen(QPen(ink, 0.3))
    for height in (-0.34, 0.34):
        painter.drawLine(QPointF(-0.62, height), QPointF(0.62, height))


def _two_way(painter: QPainter, ink: QColor) -> None:
    painter.setPen(QPen(ink, 0.26))
    painter.drawLine(QPointF(-0.8, 0), QPointF(0.8, 0))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ink)
    for side in (-1, 1):
        head = [(1.3 * side, 0.0), (0.55 * side, 0.55), (0.55 * side, -0.55)]
        painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in head]))


def _overlap(painter: QPainter, ink: QColor) -> None:
    painter.setPen(QPen(ink, 0.22))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for side in (-0.45, 0.45):
        painter.drawEllipse(QPointF(side, 0), 0.75, 0.75)
