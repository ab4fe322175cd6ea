"""What is said of one field: how it stands, its figures, and what else is worth knowing."""

from __future__ import annotations

from collections.abc import Sequence

from benchlog.measure.micrograph import NOT_A_RATING, PictureAnswer, PictureFigure, PictureGate
from benchlog.measure.rounding import rounded
from benchlog.tasks.field_order import FieldStanding, FieldState
from benchlog.window.microscope.gates_panel import GatesPanel

SHOWN = ("D10", "D50", "D90", "D95", "open area", "fibre median", "fibre mean")
RETAKE = "Take it again now"
LOOKS_GOOD = "Light and sharpness will do"


def refused_at_once(gates: Sequence[PictureGate]) -> bool:
    """Whether a first look already says that the picture is no good."""
    return any(gate.outcome == "refused" for gate in gates)


def show_verdict(
    panel: GatesPanel, one: FieldStanding | None, gates: Sequence[PictureGate], *, under_way: bool
) -> None:
    """Show what came of a field, or what the first look says while it is measured."""
    if one is None or one.micrograph is None:
        panel.clear()
    elif one.answer is not None:
        _answered(panel, one.answer)
    elif refused_at_once(gates):
        panel.bad(RETAKE, sentences(gates), gates)
    elif gates:
        panel.waiting(f"{LOOKS_GOOD}; it is being measured." if under_way else LOOKS_GOOD, gates)
    else:
        panel.waiting("It is being looked at." if under_way else FieldState.WAITING.value, ())


def left_behind(pictures: int) -> str:
    """Return what is said of pictures that were left with the one before them, "" for none."""
    several = f"The {pictures} after it were not taken."
    return {0: "", 1: "The one after it was not taken."}.get(pictures, several)


def sentences(gates: Sequence[PictureGate]) -> str:
    """Return the words of all gates that say something, each once."""
    return " ".join(dict.fromkeys(gate.words for gate in gates if gate.words))


def figure_lines(answer: PictureAnswer | None) -> str:
    """Return the figures of an answer, a line each, and what they are not; "" without any."""
    if answer is None or answer.verdict != "measured":
        return ""
    found = [answer.figure(key) for key in SHOWN]
    lines = [figure_line(figure) for figure in found if figure is not None]
    return "\n".join((*lines, "± one standard uncertainty", "", NOT_A_RATING)) if lines else ""


def figure_line(figure: PictureFigure) -> str:
    """Return a figure with its standard uncertainty: "D50  38.2 ± 1.9 µm"."""
    factor, unit = (100.0, "%") if figure.unit == "1" else (1.0, "µm")
    value, u = rounded(factor * figure.value, factor * figure.u)
    return f"{figure.key}  {value} ± {u} {unit}"


def _answered(panel: GatesPanel, answer: PictureAnswer) -> None:
    more = " ".join((*answer.warnings, *answer.withheld))
    if answer.verdict == "measured":
        panel.good("Measured", more, answer.gates)
    else:
        panel.bad("Refused: take it again", " ".join((*answer.reasons, more)).strip(), answer.gates)
