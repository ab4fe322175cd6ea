"""Which shape a scale's lines have: chosen once, or found out from the lines themselves."""

from __future__ import annotations

from benchlog.errors import ScaleFault
from benchlog.instruments.telegram import NotAWeight, plain_text, read_line
from benchlog.instruments.template import Template, Templates
from benchlog.tasks.ports import Weight

AUTOMATIC = "automatic"
LINES_BEFORE_CHANGE = 3


class LineReader:
    """Reads lines by the shape with `key`, or by whichever fits when the key is "automatic".

    The automatic choice tries the shapes in the file's order and keeps the first that fits. A
    line that the kept shape cannot read moves the choice at once only to a shape that says more
    (whether the weight is at rest); to one that says less only after LINES_BEFORE_CHANGE such
    lines in a row, because a line that lost its head would otherwise pass for a weight.
    `unit` is the full name of the unit of lines that carry none.
    """

    def __init__(self, templates: Templates, key: str = AUTOMATIC, unit: str = "gram") -> None:
        self._units = templates.units
        self._unit = unit
        self._automatic = key == AUTOMATIC
        self._candidates = tuple(s for s in templates.shapes if s.automatic)
        self._kept: Template | None = None
        self._rival: Template | None = None
        self._rival_lines = 0
        if not self._automatic:
            try:
                self._kept = templates.shape(key)
            except KeyError:
                known = ", ".join([AUTOMATIC, *(s.key for s in templates.shapes)])
                what = f"No shape of line is called '{key}'."
                raise ScaleFault(what, f"Choose one of: {known}.") from None

    @property
    def shape(self) -> Template | None:
        """The shape that lines are read by now; None while none has fitted."""
        return self._kept

    def read(self, raw: bytes) -> Weight | NotAWeight:
        """Read one line; never raises."""
        if self._kept is None:
            return self._first(raw)
        read = read_line(raw, self._kept, self._units, self._unit)
        if isinstance(read, Weight):
            self._rival_lines = 0
            return read
        return self._reconsider(raw, read) if self._automatic else read

    def _first(self, raw: bytes) -> Weight | NotAWeight:
        shape, read = self._fitting(raw)
        self._kept = shape
        return read

    def _reconsider(self, raw: bytes, refused: NotAWeight) -> Weight | NotAWeight:
        """Move to another shape if the line is reason enough; `refused` is what stands if not."""
        shape, read = self._fitting(raw)
        if shape is None or self._kept is None:
            self._rival_lines = 0
            return refused
        self._rival_lines = self._rival_lines + 1 if shape is self._rival else 1
        self._rival = shape
        says_more = shape.says_motion and not self._kept.says_motion
        if not says_more and self._rival_lines < LINES_BEFORE_CHANGE:
            return refused
        self._kept, self._rival, self._rival_lines = shape, None, 0
        return read

    def _fitting(self, raw: bytes) -> tuple[Template | None, Weight | NotAWeight]:
        """Return the first shape that reads the line, with what it read."""
        text = plain_text(raw)
        if isinstance(text, NotAWeight):
            return None, text
        refused = NotAWeight(raw, "has no known shape; choose the shape, check speed and parity")
        for shape in self._candidates:
            if shape.compiled.fullmatch(text) is None:
                continue
            read = read_line(raw, shape, self._units, self._unit)
            if isinstance(read, Weight):
                return shape, read
            refused = read
        return None, refused
