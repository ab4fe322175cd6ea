"""Pictures of media without a microscope: a set-up, what measuring says, and fields, for tests."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime

from PIL import Image

from benchlog.measure.micrograph import (
    Micrograph,
    MicroscopeSetUp,
    PictureAnswer,
    PictureFigure,
    PictureGate,
    ScaleFrom,
    Side,
)
from benchlog.measure.reading import Reading
from benchlog.tasks.picture_readings import readings_of_answer
from benchlog.trade.sequence_file import load_sequence
from tests.small_trade import HandClock

SPIN_ON = load_sequence("spin_on")
AT = datetime(2026, 5, 4, 9, 0, tzinfo=UTC)
SET_UP = MicroscopeSetUp(
    "m-1", "Ten times", "Bench microscope", "10×", "above", 0.46, 0.0023, ScaleFrom.TYPED, AT
)
REFUSAL = "The picture is blurred: focus on the uppermost fibres and take it again."


def figure(
    key: str, value: float, sampling: float = 0.06, light: float = 0.05, unit: str = "um"
) -> PictureFigure:
    """A figure that states shares of its value: sampling, half-width by light, 0.5 % of scale."""
    scale = 0.005 * value if unit == "um" else 0.0
    return PictureFigure(key, value, unit, sampling * value, light * value / math.sqrt(3), scale)


def measured(
    d50: float = 40.0, open_share: float = 0.6, fibre: float | None = 14.0, **more: object
) -> PictureAnswer:
    """What measuring a good picture says; `fibre` None where its fibres are too few."""
    figures = [figure("D50", d50), figure("open area", open_share, 0.02, unit="1")]
    if fibre is not None:
        figures.append(figure("fibre median", fibre, 0.04))
    gates = (PictureGate("brightness", 180.0, 45.0, "passed"),)
    said = PictureAnswer(
        "", "", AT, "1", "measured", "above", gates=gates, figures=tuple(figures), fibres=110.0,
        edges_um=(0.0, 10.0, 20.0, 30.0), shares=(0.2, 0.7, 0.1),
    )  # fmt: skip
    return replace(said, **more)


def refused(reason: str = REFUSAL) -> PictureAnswer:
    """What measuring a blurred picture says."""
    gates = (PictureGate("sharpness", 1.6, 2.0, "refused", reason),)
    return PictureAnswer("", "", AT, "1", "refused", "above", reasons=(reason,), gates=gates)


def picture(number: int = 0, size: tuple[int, int] = (8, 6)) -> bytes:
    """A picture of its own for every number."""
    out = io.BytesIO()
    Image.new("RGB", size, (number % 256, number // 256, 7)).save(out, "PNG")
    return out.getvalue()


def fields(
    specimen: str,
    d50s: Sequence[float],
    set_up: str = SET_UP.id,
    side: Side = Side.IN,
    sampling: float = 0.06,
) -> tuple[list[Reading], list[Micrograph], list[PictureAnswer]]:
    """The readings of so many fields of one specimen, with their micrographs and answers."""
    readings: list[Reading] = []
    micrographs, answers = [], []
    clock = HandClock()
    for number, d50 in enumerate(d50s, 1):
        name = f"{specimen}-{side.name}-{number}-{set_up}"
        shown = Micrograph(name, "l-1", specimen, side, number, set_up, "photo", AT)
        said = replace(
            measured(d50), id=f"answer-{name}", micrograph_id=name,
            figures=(figure("D50", d50, sampling),),
        )  # fmt: skip
        made = readings_of_answer(said, shown, None, readings, SPIN_ON, clock).readings
        readings += made
        micrographs.append(shown)
        answers.append(replace(said, readings=tuple(r.id for r in made)))
    return readings, micrographs, answers
