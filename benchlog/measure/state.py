"""The seven states of a value; a blank is never stored."""

from __future__ import annotations

from enum import StrEnum


class State(StrEnum):
    """How a value stands, in the words that are printed."""

    MEASURED = "measured"
    ESTIMATE = "estimate"
    NOT_MARKED = "not marked"
    NOT_MEASURED = "not measured"
    COULD_NOT_TELL = "could not tell"
    NOT_APPLICABLE = "not applicable"
    SPOILED = "spoiled"

    @property
    def has_value(self) -> bool:
        """Whether a value stands behind this state."""
        return self in (State.MEASURED, State.ESTIMATE)


WITHOUT_VALUE = tuple(state for state in State if not state.has_value)

MEANING = {
    State.MEASURED: "read from the part or an instrument",
    State.ESTIMATE: "judged by eye or memory; carries an interval",
    State.NOT_MARKED: "looked, and nothing is printed or stamped there",
    State.NOT_MEASURED: "nobody looked",
    State.COULD_NOT_TELL: "looked, and it stayed unclear",
    State.NOT_APPLICABLE: "the part does not exist in this design",
    State.SPOILED: "cut through, dropped or torn before it could be read",
}
