"""One line of a scale understood: bytes in, a Weight or the reason why not; never an exception."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from benchlog.instruments.lines import LONGEST_LINE
from benchlog.instruments.template import KINDS, MOTIONS, NO_WEIGHT, Template
from benchlog.measure.reading import Said
from benchlog.tasks.ports import Steadiness, Weight

BEYOND = (Steadiness.OVERLOAD, Steadiness.UNDERLOAD)


@dataclass(frozen=True)
class NotAWeight:
    """A line that no weight can be read from; `why` in words for the reviewer."""

    raw: bytes
    why: str


def read_line(raw: bytes, shape: Template, units: dict[str, str], unit: str) -> Weight | NotAWeight:
    """Read one line by one shape.

    `units` maps spellings to full unit names; `unit` is taken where the line has none. The
    number keeps its digits: "287.40" stays 287.40.
    """
    text = plain_text(raw)
    if isinstance(text, NotAWeight):
        return text
    match = shape.compiled.fullmatch(text)
    if match is None:
        return NotAWeight(raw, f"does not have the chosen shape ({shape.key})")
    return _weigh(raw, match, shape, units, unit)


def plain_text(raw: bytes) -> str | NotAWeight:
    """Return the line as text without NULs and trailing blanks, or say what is wrong with it."""
    if len(raw) > LONGEST_LINE:
        return NotAWeight(raw, "longer than a scale's line; check speed and line settings")
    try:
        text = raw.replace(b"\0", b"").decode("ascii").rstrip()
    except UnicodeDecodeError:
        return NotAWeight(raw, "holds bytes that are no text; check speed, data bits and parity")
    if not text:
        return NotAWeight(raw, "an empty line")
    return text


def _weigh(
    raw: bytes, match: re.Match[str], shape: Template, units: dict[str, str], unit: str
) -> Weight | NotAWeight:
    groups = match.groupdict(default="")
    sign = groups.get("sign", "")
    steadiness = _steadiness(groups, shape)
    if steadiness is None:
        return NotAWeight(raw, "the scale says that it has no weight to give now")
    net = KINDS[shape.kind.get(groups.get("kind", "").strip(), "unknown")]
    if steadiness is Steadiness.OVERLOAD and sign == "-":
        steadiness = Steadiness.UNDERLOAD
    if steadiness in BEYOND:
        return Weight(None, steadiness, net, raw)
    number = groups["number"]
    if not number:
        return NotAWeight(raw, "holds no number")
    spelling = groups.get("unit", "")
    name = _unit_name(spelling, units) if spelling else unit
    if not name:
        return NotAWeight(raw, f"weighs in '{spelling}', a unit that is not known here")
    return Weight(_said(number, sign, name, spelling), steadiness, net, raw)


def _steadiness(groups: dict[str, str], shape: Template) -> Steadiness | None:
    """Return what the marks say, None for a scale that cannot weigh now."""
    mark = groups.get("limit") or groups.get("motion", "")
    meaning = shape.motion.get(_one_of_a_run(mark.strip()), "")
    if meaning == NO_WEIGHT:
        return None
    if not meaning and shape.blank_unit_moves:
        return Steadiness.STABLE if groups.get("unit") else Steadiness.MOVING
    return MOTIONS.get(meaning, Steadiness.SILENT)


def _one_of_a_run(mark: str) -> str:
    """Return one sign for a run of the same one: "-----" is "-"."""
    return mark[0] if len(mark) > 1 and mark == mark[0] * len(mark) else mark


def _unit_name(spelling: str, units: dict[str, str]) -> str | None:
    """Look a spelling up as it stands, then without regard to capitals."""
    if spelling in units:
        return units[spelling]
    lowered = spelling.lower()
    return next((name for key, name in units.items() if key.lower() == lowered), None)


def _said(number: str, sign: str, unit: str, spelling: str) -> Said:
    value = Decimal(number.replace(",", "."))
    if sign == "-" and value:
        # copy_negate, unlike unary minus, never rounds to the context's precision.
        value = value.copy_negate()
    return Said(f"{value:f} {spelling or unit}", value, unit)
