"""What measuring pictures needs from outside: where they are kept, and what measures them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from benchlog.measure.instrument import Instrument
from benchlog.measure.micrograph import Micrograph, MicroscopeSetUp, PictureAnswer, PictureGate
from benchlog.measure.reading import Reading

if TYPE_CHECKING:
    from benchlog.tasks.ports import Progress


class PictureShelf(Protocol):
    """Set-ups, micrographs and what was measured on them, oldest first.

    `add_set_up` stores a set-up with its instrument and, where its scale came from one, the
    picture of the stage micrometer; `add_micrograph` a field with the withdrawals of the readings
    of the picture that it replaces; `add_picture_answer` an answer with the readings that it made:
    each all or nothing, durable before it returns. All raise ShelfFault kinds; `scale_picture`
    KeyError for what is not there.
    """

    def add_set_up(
        self, set_up: MicroscopeSetUp, instrument: Instrument, scale_picture: bytes | None = None
    ) -> None: ...
    def set_ups(self) -> list[MicroscopeSetUp]: ...
    def scale_picture(self, set_up_id: str) -> bytes: ...
    def add_micrograph(self, micrograph: Micrograph, withdrawals: list[Reading]) -> None: ...
    def micrographs(self, lineup_id: str) -> list[Micrograph]: ...
    def add_picture_answer(self, answer: PictureAnswer, readings: list[Reading]) -> None: ...
    def picture_answers(self, lineup_id: str) -> list[PictureAnswer]: ...


@dataclass(frozen=True)
class StageScale:
    """What was found on the picture of a stage micrometer, `division_um` being what one step is.

    `lines` are the found ones, each two ends x, y in pixels of the file; `problems` say what is
    worth knowing before it is trusted.
    """

    um_per_px: float
    u_um_per_px: float
    px_per_division: float
    width_px: int
    height_px: int
    lines: tuple[tuple[float, float, float, float], ...]
    lines_missing: int
    residual_share: float
    curvature_share: float
    problems: tuple[str, ...] = ()


@dataclass(frozen=True)
class PictureMarks:
    """What was measured on a picture, to draw over it: x, y in pixels of the file.

    `outlines` of fibres and accepted `centrelines` are rows of points; `circles` rows of x, y,
    radius.
    """

    outlines: tuple[tuple[tuple[float, float], ...], ...]
    centrelines: tuple[tuple[tuple[float, float], ...], ...]
    circles: tuple[tuple[float, float, float], ...]


class PictureMeasurer(Protocol):
    """Measures pictures in a process of its own, one at a time; slow calls, for worker threads.

    `look` gives the gates of light and sharpness that can be told at once; `measure` the answer,
    with `id`, `micrograph_id`, `at` and `readings` left blank for the caller to fill; `marks` what
    to draw over a measured picture. All raise PictureRefused for what is no picture, `stage_scale`
    ScaleRefused for one whose lines cannot be trusted, and WorkStopped when the process ended
    before the answer; the next call starts another. `progress.step` may raise to give up.
    """

    def look(self, data: bytes, set_up: MicroscopeSetUp) -> tuple[PictureGate, ...]: ...
    def measure(
        self, data: bytes, set_up: MicroscopeSetUp, progress: Progress
    ) -> PictureAnswer: ...
    def marks(self, data: bytes, set_up: MicroscopeSetUp, progress: Progress) -> PictureMarks: ...
    def stage_scale(self, data: bytes, division_um: float, division_u_um: float) -> StageScale: ...
    def close(self) -> None: ...
