"""The measurement as the tasks know it: a file's bytes and a set-up in, a plain answer out."""

from __future__ import annotations

import hashlib
import math
from datetime import UTC, datetime
from typing import TYPE_CHECKING, TypeAlias, cast

from benchlog.errors import EntryRefused
from benchlog.measure.micrograph import MicroscopeSetUp, PictureAnswer, PictureGate
from benchlog.tasks.picture_ports import PictureMarks, StageScale
from benchlog.tasks.ports import Progress

if TYPE_CHECKING:
    from collections.abc import Iterable

    import numpy as np

    from benchlog.microscope.gates import Gate
    from benchlog.microscope.measure import Measured, SetUp
    from benchlog.microscope.picture import GreyPicture

METHOD = "covering circles, fitted edges; version 1"
"""Goes up when the same picture would be answered otherwise; a test holds it to what it answers."""

UNSET = datetime.fromtimestamp(0, UTC)
"""The time of an answer that its caller has not yet filled in."""

MARK_DIGITS = 2

_Key: TypeAlias = "tuple[str, MicroscopeSetUp]"


class PicturesHere:
    """Measures pictures in this very process: for a rehearsal, and inside the worker."""

    def __init__(self) -> None:
        self._last: tuple[_Key, Measured, tuple[PictureGate, ...]] | None = None

    def look(self, data: bytes, set_up: MicroscopeSetUp) -> tuple[PictureGate, ...]:
        """Return the gates that can be told at once."""
        from benchlog.microscope.quick_look import quick_look  # noqa: PLC0415 - slow to import

        picture = _picture(data)
        gates = _size_gate(picture, set_up)
        return (*gates, *(_gate(one) for one in quick_look(picture, _own_set_up(set_up))))

    def measure(self, data: bytes, set_up: MicroscopeSetUp, progress: Progress) -> PictureAnswer:
        """Return the answer, with what names it left blank."""
        seen, size = self._measured(data, set_up, progress)
        return answer_of(seen, size)

    def marks(self, data: bytes, set_up: MicroscopeSetUp, progress: Progress) -> PictureMarks:
        """Return what to draw over the picture; at once for the one that was measured last."""
        from benchlog.microscope.overlay import overlay_of  # noqa: PLC0415 - slow to import

        seen, _ = self._measured(data, set_up, progress)
        if seen.working is None:
            return PictureMarks((), (), ())
        overlay = overlay_of(seen.working)
        circles = tuple((x, y, r) for x, y, r in overlay.circles.round(MARK_DIGITS).tolist())
        return PictureMarks(_rows(overlay.outlines), _rows(overlay.centrelines), circles)

    def stage_scale(self, data: bytes, division_um: float, division_u_um: float) -> StageScale:
        """Return the scale that the lines of a stage micrometer give."""
        from benchlog.microscope.scale import find_scale  # noqa: PLC0415 - slow to import

        if not (math.isfinite(division_um) and division_um > 0.0):
            raise EntryRefused(
                f"{division_um} is no division.", "Say how many micrometres lie between two lines."
            )
        if not (math.isfinite(division_u_um) and division_u_um >= 0.0):
            raise EntryRefused(
                f"{division_u_um} is no uncertainty of a division.", "Say it as 0 or more."
            )
        picture = _picture(data)
        found = find_scale(picture)
        um_per_px, u = found.um_per_px(division_um, division_u_um)
        ends = found.lines.reshape(-1, 4).round(MARK_DIGITS).tolist()
        return StageScale(
            um_per_px=um_per_px,
            u_um_per_px=u,
            px_per_division=found.px_per_division,
            width_px=picture.width,
            height_px=picture.height,
            lines=tuple((x0, y0, x1, y1) for x0, y0, x1, y1 in ends),
            lines_missing=found.missing,
            residual_share=found.residual,
            curvature_share=found.curvature,
            problems=found.notes,
        )

    def close(self) -> None:
        """Let go of what was kept."""
        self._last = None

    def _measured(
        self, data: bytes, set_up: MicroscopeSetUp, progress: Progress
    ) -> tuple[Measured, tuple[PictureGate, ...]]:
        from benchlog.microscope.measure import measure  # noqa: PLC0415 - slow to import

        key = (hashlib.sha256(data).hexdigest(), set_up)
        if self._last is None or self._last[0] != key:
            self._last = None  # first let go of the old one: both need not fit into memory
            picture = _picture(data)
            seen = measure(picture, _own_set_up(set_up), progress.step)
            self._last = key, seen, _size_gate(picture, set_up)
        return self._last[1:]


def answer_of(seen: Measured, size: tuple[PictureGate, ...] = ()) -> PictureAnswer:
    """Return what was seen as the answer of a micrograph that its caller will name.

    A refusing gate in `size` refuses the whole: without a scale no figure has a unit.
    """
    wrong = tuple(one.words for one in size if one.outcome == "refused")
    figures = () if wrong else tuple(seen.figures.values())
    bars = None if wrong else seen.histogram
    return PictureAnswer(
        id="",
        micrograph_id="",
        at=UNSET,
        method=METHOD,
        verdict="refused" if wrong else seen.verdict,
        light=seen.light,
        reasons=wrong + seen.reasons,
        warnings=seen.warnings,
        withheld=() if wrong else seen.withheld,
        gates=size + tuple(_gate(one) for one in seen.gates),
        figures=tuple(figures),
        fibres=seen.fibres,
        edges_um=() if bars is None else bars.edges,
        shares=() if bars is None else bars.shares,
    )


def _picture(data: bytes) -> GreyPicture:
    from benchlog.microscope.picture import read_picture  # noqa: PLC0415 - slow to import

    return read_picture(data)


def _own_set_up(set_up: MicroscopeSetUp) -> SetUp:
    """Return a set-up as it is measured with; one of a package may hold anything."""
    from benchlog.microscope.figures import Scale  # noqa: PLC0415 - slow to import
    from benchlog.microscope.masking import Light  # noqa: PLC0415
    from benchlog.microscope.measure import SetUp  # noqa: PLC0415
    from benchlog.microscope.odd_set_up import refuse_odd  # noqa: PLC0415

    scale = Scale(set_up.um_per_px, set_up.u_um_per_px)
    own = SetUp(scale, cast(Light, set_up.light), set_up.edge_offset_px)
    refuse_odd(own)
    return own


def _gate(gate: Gate) -> PictureGate:
    value = gate.value if math.isfinite(gate.value) else None
    return PictureGate(gate.key, value, gate.limit, gate.outcome, gate.words)


def _size_gate(picture: GreyPicture, set_up: MicroscopeSetUp) -> tuple[PictureGate, ...]:
    """Return the gate of the picture's size: a scale in µm per pixel holds for one size alone."""
    if not set_up.width_px or not set_up.height_px:
        return ()
    taken = sorted((picture.width, picture.height))
    wanted = sorted((set_up.width_px, set_up.height_px))
    good = taken == wanted  # a camera may have been turned
    words = (
        f"The picture has {picture.width} × {picture.height} pixels, the set-up's scale is for "
        f"{set_up.width_px} × {set_up.height_px}: take it at that size, or find the scale anew."
    )
    value, limit = float(taken[1]), float(wanted[1])
    return (
        PictureGate("size", value, limit, "passed" if good else "refused", "" if good else words),
    )


def _rows(lines: Iterable[np.ndarray]) -> tuple[tuple[tuple[float, float], ...], ...]:
    return tuple(tuple((x, y) for x, y in one.round(MARK_DIGITS).tolist()) for one in lines)
