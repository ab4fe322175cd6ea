"""Measure the pictures of a record again, find their scales again, and name what differs."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from benchlog.errors import EntryRefused, PictureRefused
from benchlog.measure.micrograph import MicroscopeSetUp, PictureAnswer, latest_answers
from benchlog.tasks.contents import Contents
from benchlog.tasks.picture_ports import PictureMeasurer
from benchlog.tasks.ports import Progress

SAME = 1e-3
"""Share of a value up to which it is the same: last digits differ between machines."""

VERDICT = "verdict"
SCALE = "um_per_px"
PICTURE = "picture"

PictureBytes = Callable[[str], bytes | None]
"""Returns a picture by the SHA-256 of its bytes; None where it is not at hand."""


@dataclass(frozen=True)
class Remeasured:
    """One thing that a picture says otherwise when it is measured again.

    `of` is the id of the answer, or of the set-up for its scale; `what` a figure's key, VERDICT,
    SCALE, or PICTURE for a picture that is not at hand or another one.
    """

    of: str
    what: str
    told: str
    again: str


def remeasure(
    contents: Contents, picture: PictureBytes, measurer: PictureMeasurer, progress: Progress
) -> tuple[Remeasured, ...]:
    """Return what comes out differently; the latest answer on each picture is held to account.

    `progress.step` may raise to give up. Raises WorkStopped as the measurer does.
    """
    answers = list(latest_answers(contents.answers).values())
    scales = [one for one in contents.set_ups if one.scale_picture]
    total = len(answers) + len(scales)
    found: list[Remeasured] = []
    for done, set_up in enumerate(scales):
        progress.step(done, total, set_up.name)
        found += _scale(set_up, picture, measurer)
    for done, answer in enumerate(answers, start=len(scales)):
        progress.step(done, total, f"picture {done - len(scales) + 1}")
        found += _answer(answer, contents, picture, measurer, _Within(progress, done, total))
    progress.step(total, total, "done")
    return tuple(found)


class _Within:
    """Passes on that something is under way, within one step of the whole."""

    def __init__(self, progress: Progress, done: int, total: int) -> None:
        self._progress, self._done, self._total = progress, done, total

    def step(self, _done: int, _total: int, what: str) -> None:
        self._progress.step(self._done, self._total, what)


def _scale(
    set_up: MicroscopeSetUp, picture: PictureBytes, measurer: PictureMeasurer
) -> Iterator[Remeasured]:
    data, wrong = _bytes_of(set_up.id, set_up.scale_picture, picture)
    if data is None:
        yield from wrong
        return
    told = f"{set_up.um_per_px:.6g}"
    try:
        again = measurer.stage_scale(data, set_up.division_um, set_up.division_u_um).um_per_px
    except (PictureRefused, EntryRefused) as fault:
        yield Remeasured(set_up.id, SCALE, told, f"refused: {fault.what}")
        return
    if _differ(set_up.um_per_px, again):
        yield Remeasured(set_up.id, SCALE, told, f"{again:.6g}")


def _answer(
    told: PictureAnswer,
    contents: Contents,
    picture: PictureBytes,
    measurer: PictureMeasurer,
    progress: Progress,
) -> Iterator[Remeasured]:
    micrograph = next((m for m in contents.micrographs if m.id == told.micrograph_id), None)
    set_up = next(
        (s for s in contents.set_ups if micrograph and s.id == micrograph.set_up_id), None
    )
    if micrograph is None or set_up is None:
        yield Remeasured(told.id, PICTURE, "a picture and its set-up", "neither is in the record")
        return
    data, wrong = _bytes_of(told.id, micrograph.photo_id, picture)
    if data is None:
        yield from wrong
        return
    try:
        again = measurer.measure(data, set_up, progress)
    except (PictureRefused, EntryRefused) as fault:
        yield Remeasured(told.id, VERDICT, told.verdict, f"refused: {fault.what}")
        return
    by = "" if again.method == told.method else f", by {again.method}"
    if again.verdict != told.verdict:
        yield Remeasured(told.id, VERDICT, told.verdict, again.verdict + by)
    keys = dict.fromkeys(figure.key for figure in (*told.figures, *again.figures))
    for key in keys:
        was, now = told.figure(key), again.figure(key)
        if was is None or now is None or _differ(was.value, now.value):
            said, comes = (f"{one.value:.6g}" if one else "nothing" for one in (was, now))
            yield Remeasured(told.id, key, said, comes + by)


def _bytes_of(
    of: str, sha256: str, picture: PictureBytes
) -> tuple[bytes | None, tuple[Remeasured, ...]]:
    """Return the picture, or None and why it cannot be looked at."""
    data = picture(sha256)
    if data is None:
        return None, (Remeasured(of, PICTURE, "a picture", "nothing at hand"),)
    if hashlib.sha256(data).hexdigest() != sha256:
        return None, (Remeasured(of, PICTURE, sha256[:12], "another picture"),)
    return data, ()


def _differ(one: float, other: float) -> bool:
    """Whether two numbers differ; what is no number differs from everything."""
    return not math.isclose(one, other, rel_tol=SAME)
