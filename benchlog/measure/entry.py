"""From an entry as people say it to a number, its unit and, where one was said, its interval."""

from __future__ import annotations

import re
from decimal import Decimal

from benchlog.errors import EntryRefused
from benchlog.measure.compound import compound_said
from benchlog.measure.dimensions import DIMENSIONS
from benchlog.measure.estimate import estimate_interval, pitch_said, step_said
from benchlog.measure.plain_text import plain
from benchlog.measure.reading import Said
from benchlog.measure.said_number import NUMBER, number_said
from benchlog.measure.unit_words import UNIT_WORDS, unit_said

__all__ = ["UNIT_WORDS", "estimate_interval", "expected", "parse_entry", "step_said"]

_LONGEST = 80
_GROUPED = re.compile(r"[1-9]\d{0,2}( \d{3})+(?!\d|[./])", re.ASCII)
"""Thousands set apart as in print; two readings in a row could look the same, so it is asked."""
_UNIT = r"[^\d\s,.+~-][^~]*?"
_ABOUT = re.compile(
    r"(?:~|(?:about|approximately|approx\.?|around|roughly|circa|ca\.?)(?![a-z]))\s*(?P<rest>.*)",
    re.IGNORECASE,
)
_FROM = re.compile(r"(?:between|from)\s+(?P<rest>.*)", re.IGNORECASE)
_ONE = re.compile(rf"(?P<number>{NUMBER})\s*(?P<unit>{_UNIT})?", re.ASCII | re.IGNORECASE)
_TWO = re.compile(
    rf"(?P<low>{NUMBER})\s*(?P<low_unit>{_UNIT})?\s*(?:-|\.\.\.?|to(?![a-z])|and(?![a-z]))\s*"
    rf"(?P<high>{NUMBER})\s*(?P<unit>{_UNIT})?",
    re.ASCII | re.IGNORECASE,
)
_PLUS_MINUS = re.compile(
    rf"(?P<number>{NUMBER})\s*(?P<first_unit>{_UNIT})?\s*\+/-\s*"
    rf"(?P<half>{NUMBER})\s*(?P<unit>{_UNIT})?",
    re.ASCII | re.IGNORECASE,
)


def parse_entry(text: str, usual_unit: str, dimension: str) -> Said:
    """Return what an entry says; a number without a unit is in `usual_unit`.

    Taken are numbers with decimal point or comma, fractions and mixed numbers ("3 7/16 in"),
    intervals ("8-11 psi", "8 to 11 psi", "between 8 and 11 psi", "5 +/- 0.5"), feet and inches,
    pounds and ounces, threads in an inch for a pitch ("16 tpi"), and a leading "~" or "about",
    which marks the number as approximate. An interval's value is its middle. `dimension` is a
    word of `DIMENSIONS`; `Said.unit` is a name the unit registry knows. The sign is not judged
    here; ranges are.

    Raises EntryRefused, saying what was expected, for everything else.
    """
    rest = plain(text)
    if not rest:
        raise EntryRefused("Nothing was typed.", f"Type {expected(dimension)}.")
    if len(rest) > _LONGEST:
        raise EntryRefused("That is too long for one number.", f"Type {expected(dimension)}.")
    about = _ABOUT.fullmatch(rest)
    if about:
        rest = about["rest"]
    between = _FROM.fullmatch(rest)
    if between:
        rest = between["rest"]
    entry = _Entry(text, rest, usual_unit, dimension, about is not None)
    said = entry.one() or entry.threads() or entry.compound()
    said = said or entry.plus_minus() or entry.interval()
    if said is None or (between and said.low is None):
        raise entry.not_understood()
    return said


def expected(dimension: str) -> str:
    """Return what may be typed for a dimension: "a length such as 12.3 mm or 1/2 in"."""
    known = DIMENSIONS.get(dimension)
    if known is None:
        return "a number, with its unit if it is not the usual one"
    return f"{known.phrase} such as {known.example}"


class _Entry:
    """One entry being understood; each way of reading it returns None when it is not that."""

    def __init__(
        self, text: str, rest: str, usual_unit: str, dimension: str, approximate: bool
    ) -> None:
        self.text = text
        self.rest = rest
        self.usual_unit = usual_unit
        self.dimension = dimension
        self.approximate = approximate

    def one(self) -> Said | None:
        match = _ONE.fullmatch(self.rest)
        number = number_said(match["number"]) if match else None
        if match is None or number is None or not self._is_unit(match["unit"]):
            return None
        return self._said(number[0], self._unit(match["unit"]))

    def threads(self) -> Said | None:
        """Read threads in an inch, as pitch gauges are marked, where a length is asked for."""
        found = pitch_said(self.rest) if self.dimension == "length" else None
        if found is None:
            return None
        return self._said(found[0], "inch")

    def compound(self) -> Said | None:
        found = compound_said(self.rest)
        if found is None:
            return None
        return self._said(found[0], self._unit(found[1]))

    def interval(self) -> Said | None:
        match = _TWO.fullmatch(self.rest)
        if match is None:
            return None
        low, high = number_said(match["low"]), number_said(match["high"])
        if low is None or high is None:
            return None
        unit = self._common_unit(match["low_unit"], match["unit"])
        return self._between(low[0], high[0], unit)

    def plus_minus(self) -> Said | None:
        match = _PLUS_MINUS.fullmatch(self.rest)
        if match is None:
            return None
        middle, half = number_said(match["number"]), number_said(match["half"])
        if middle is None or half is None:
            return None
        width = half[0]
        if (match["unit"] or "").strip() == "%" and self.dimension != "ratio":
            width = abs(middle[0]) * half[0] / 100
            unit = self._unit(match["first_unit"])
        else:
            unit = self._common_unit(match["first_unit"], match["unit"])
        if width <= 0:
            raise EntryRefused(
                f"'{self.rest}' has nothing after the +/-.", "Type for example 5 +/- 0.5."
            )
        return self._said(middle[0], unit, middle[0] - width, middle[0] + width)

    def not_understood(self) -> EntryRefused:
        """Return the refusal that fits an entry which is none of the known forms."""
        typed = self.rest if len(self.rest) <= 40 else self.rest[:39] + "…"
        what = f"'{typed or self.text.strip()}' is not understood as one number."
        match = _ONE.fullmatch(self.rest)
        if match and match["unit"] and not re.search(r"(?:^\W*|\s)\d", match["unit"]):
            what = f"'{match['unit'].strip()}' is not a unit known here."
        elif len(re.findall(r"[\d.,/]*\d", self.rest)) > 1:
            what = f"'{typed}' holds several numbers."
            if _GROUPED.match(self.rest):
                return EntryRefused(what, "If it is one, type it without the gap: 15000.")
        elif "<" in typed or ">" in typed:
            what = f"'{typed}' has only one end."
        return EntryRefused(what, f"Type {expected(self.dimension)}; an interval as 8-11.")

    def _between(self, low: Decimal, high: Decimal, unit: str) -> Said:
        if low >= high:
            raise EntryRefused(
                f"'{self.rest}' is no interval: its first end is not the smaller.",
                "Type the smaller number first, or one number alone.",
            )
        return self._said((low + high) / 2, unit, low, high)

    def _said(
        self, value: Decimal, unit: str, low: Decimal | None = None, high: Decimal | None = None
    ) -> Said:
        return Said(self.text, value, unit, low, high, self.approximate)

    def _is_unit(self, words: str | None) -> bool:
        return not words or unit_said(words, self.dimension, self.usual_unit) is not None

    def _common_unit(self, first: str | None, second: str | None) -> str:
        if first and second and self._unit(first) != self._unit(second):
            raise EntryRefused(
                f"'{self.rest}' mixes two units.", "Type both numbers in the same unit."
            )
        return self._unit(second or first)

    def _unit(self, words: str | None) -> str:
        """Return the registry's name for a unit as said, the usual one for none."""
        if not words:
            return self.usual_unit or self._default_unit()
        found = unit_said(words, self.dimension, self.usual_unit)
        if found is None:
            raise self.not_understood()
        unit, measures = found
        if self.dimension in DIMENSIONS and measures != self.dimension:
            if {measures, self.dimension} == {"turn", "angle"}:
                return unit
            wanted = DIMENSIONS[self.dimension]
            raise EntryRefused(
                f"'{words.strip()}' measures {DIMENSIONS[measures].phrase}, and "
                f"{wanted.phrase} is asked for here.",
                f"Type {expected(self.dimension)}.",
            )
        return unit

    def _default_unit(self) -> str:
        known = DIMENSIONS.get(self.dimension)
        return known.si_unit if known else "dimensionless"
