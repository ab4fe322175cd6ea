"""A weight written as a scale would write it; the inverse of reading, by the same templates."""

from __future__ import annotations

from decimal import Decimal

from benchlog.instruments.template import KINDS, MOTIONS, Template, Templates
from benchlog.tasks.ports import Steadiness


def write_line(
    shape: Template,
    templates: Templates,
    value: Decimal,
    unit: str,
    *,
    steadiness: Steadiness = Steadiness.STABLE,
    net: bool | None = False,
) -> bytes:
    """Return one line with CR and LF.

    `unit` is a full unit name; raises KeyError for a unit the templates cannot spell. A shape
    that cannot say `steadiness` or `net` leaves it out.
    """
    spelling = templates.spelling(unit)
    if shape.blank_unit_moves and steadiness is Steadiness.MOVING:
        spelling = ""
    number = f"{value.copy_abs():f}"
    line = shape.write.format(
        motion=_mark(shape.motion, {m: w for w, m in MOTIONS.items()}[steadiness]),
        kind=_mark(shape.kind, {n: w for w, n in KINDS.items()}[net]) or "",
        sign="-" if value < 0 else _plus(shape),
        number=number.replace(".", ",") if shape.decimal_comma else number,
        unit=spelling,
    )
    return line.encode("ascii") + b"\r\n"


def _mark(marks: dict[str, str], meaning: str) -> str:
    """Return the first mark with that meaning; nothing when the shape has none."""
    return next((mark for mark, means in marks.items() if means == meaning), "")


def _plus(shape: Template) -> str:
    """Return the sign of a positive weight: shapes with a column for it show it."""
    return "+" if "{sign}{number:0" in shape.write or "{sign} {" in shape.write else ""
