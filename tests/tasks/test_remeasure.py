"""Pictures of a record measured again: what comes out the same is not told, all else is."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from benchlog.errors import ScaleRefused
from benchlog.measure.micrograph import MicroscopeSetUp, PictureAnswer
from benchlog.microscope.measured_pictures import PicturesHere
from benchlog.tasks.contents import Contents
from benchlog.tasks.picture_ports import PictureMeasurer, StageScale
from benchlog.tasks.ports import Progress
from benchlog.tasks.remeasure import Remeasured, remeasure
from tests.small_media import picture
from tests.tasks.pictured_records import AT, pictured_contents

LINES = b"fine lines"


def sha(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


@pytest.fixture
def contents() -> Contents:
    """The pictured contents with pictures whose bytes are their micrographs' ids."""
    found = pictured_contents()
    made = tuple(replace(m, photo_id=sha(m.id.encode())) for m in found.micrographs)
    set_up = replace(found.set_ups[0], scale_picture=sha(LINES))
    return replace(found, micrographs=made, set_ups=(set_up,))


def bytes_of(contents: Contents) -> Callable[[str], bytes | None]:
    known = {m.photo_id: m.id.encode() for m in contents.micrographs} | {sha(LINES): LINES}
    return known.get


class Measurer(PictureMeasurer):
    """Says of each picture what the record says, unless told to say something else."""

    def __init__(self, contents: Contents) -> None:
        self.answers = {a.micrograph_id: a for a in contents.answers}
        self.um_per_px = contents.set_ups[0].um_per_px

    def measure(self, data: bytes, _set_up: MicroscopeSetUp, progress: Progress) -> PictureAnswer:
        progress.step(1, 5, "fibres")
        blank = {"id": "", "micrograph_id": "", "readings": (), "at": AT}
        return replace(self.answers[data.decode()], **blank)

    def stage_scale(self, *_asked: object) -> StageScale:
        if self.um_per_px <= 0.0:
            raise ScaleRefused("Fewer than 10 lines were found.")
        return StageScale(self.um_per_px, 0.003, 20.0, 640, 480, (), 0, 0.0, 0.0)


class Steps:
    def __init__(self) -> None:
        self.seen: list[tuple[int, int, str]] = []

    def step(self, done: int, total: int, what: str) -> None:
        self.seen.append((done, total, what))


def again(contents: Contents, measurer: Measurer) -> list[Remeasured]:
    return list(remeasure(contents, bytes_of(contents), measurer, Steps()))


def changed(measurer: Measurer, of: str, d50: float) -> None:
    answer = measurer.answers[of]
    first, *others = answer.figures
    figures = (replace(first, value=d50), *others)
    measurer.answers[of] = replace(answer, figures=figures)


def test_the_same_is_not_told(contents: Contents) -> None:
    steps, measurer = Steps(), Measurer(contents)
    changed(measurer, "m3", 41.5 * 1.0009)  # last digits differ between machines
    assert remeasure(contents, bytes_of(contents), measurer, steps) == ()
    assert steps.seen[0] == (0, 5, "stereo, 4x")
    assert steps.seen[-1] == (5, 5, "done")
    assert [done for done, *_ in steps.seen] == [0, 1, 1, 2, 2, 3, 3, 4, 4, 5]


def test_another_figure_is_told(contents: Contents) -> None:
    measurer = Measurer(contents)
    changed(measurer, "m3", 41.5 * 1.0011)
    assert again(contents, measurer) == [Remeasured("a3", "D50", "41.5", "41.5457")]


def test_another_method_is_named(contents: Contents) -> None:
    measurer = Measurer(contents)
    changed(measurer, "m2", 40.0)
    measurer.answers["m2"] = replace(measurer.answers["m2"], method="version 2")
    assert again(contents, measurer) == [Remeasured("a2", "D50", "31.5", "40, by version 2")]


def test_another_verdict_takes_its_figures_along(contents: Contents) -> None:
    measurer = Measurer(contents)
    measurer.answers["m2"] = replace(measurer.answers["m1"], micrograph_id="m2")
    assert again(contents, measurer) == [
        Remeasured("a2", "verdict", "measured", "refused"),
        Remeasured("a2", "D50", "31.5", "nothing"),
        Remeasured("a2", "open area", "0.55", "nothing"),
    ]


def test_another_scale_is_told(contents: Contents) -> None:
    measurer = Measurer(contents)
    measurer.um_per_px = 0.51
    assert again(contents, measurer) == [Remeasured("u-1", "um_per_px", "0.5", "0.51")]
    measurer.um_per_px = 0.0
    (told,) = again(contents, measurer)
    assert told.again == "refused: Fewer than 10 lines were found."


def test_pictures_that_are_not_there_are_named(contents: Contents) -> None:
    none = remeasure(contents, lambda _sha: None, Measurer(contents), Steps())
    assert {(one.of, one.what, one.again) for one in none} == {
        (of, "picture", "nothing at hand") for of in ("u-1", "a1", "a2", "a3", "a4")
    }
    other = remeasure(contents, lambda _sha: b"other", Measurer(contents), Steps())
    assert {one.again for one in other} == {"another picture"}


def test_an_answer_of_nothing_is_named(contents: Contents) -> None:
    lost = replace(contents, micrographs=contents.micrographs[1:])
    (told,) = again(lost, Measurer(contents))
    assert (told.of, told.again) == ("a1", "neither is in the record")


@pytest.mark.parametrize("told", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_named(contents: Contents, told: float) -> None:
    answer = contents.answers[-1]
    d50 = replace(answer.figures[0], value=told)
    claimed = replace(answer, figures=(d50, *answer.figures[1:]))
    hostile = replace(contents, answers=(*contents.answers[:-1], claimed))
    (found,) = again(hostile, Measurer(contents))
    assert (found.of, found.what) == (answer.id, d50.key)


def test_a_set_up_that_is_none_is_named(contents: Contents) -> None:
    data = picture(size=(64, 64))
    odd = replace(contents.set_ups[0], light="left", division_um=0.0, scale_picture=sha(data))
    seen = replace(contents.micrographs[0], photo_id=sha(data))
    hostile = replace(contents, set_ups=(odd,), micrographs=(seen,), answers=contents.answers[:1])
    found = remeasure(hostile, lambda _sha: data, PicturesHere(), Steps())
    assert {one.what for one in found} == {"um_per_px", "verdict"}
    assert {one.again for one in found} == {
        "refused: 0.0 is no division.", "refused: 'left' is no direction of light.",
    }  # fmt: skip


def test_giving_up_ends_it(contents: Contents) -> None:
    class GivenUp(Exception):
        pass

    class Stop:
        def step(self, *_done: object) -> None:
            raise GivenUp

    with pytest.raises(GivenUp):
        remeasure(contents, bytes_of(contents), Measurer(contents), Stop())
