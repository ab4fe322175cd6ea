"""Pictures measured in a process of their own: the same answers, whatever becomes of it."""

from __future__ import annotations

import io
import multiprocessing
import os
import select
import signal
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from benchlog import wiring
from benchlog.errors import OurFault, PictureRefused, ScaleRefused, WorkStopped
from benchlog.measure.micrograph import MicroscopeSetUp, ScaleFrom
from benchlog.microscope.measured_pictures import PicturesHere
from benchlog.microscope.picture import coded
from benchlog.microscope.picture_process import PictureProcess
from tests.microscope import drawn_scale
from tests.microscope.drawn_fibres import Mat, drawn

ROOT = Path(__file__).parents[2]
LONGEST_S = 60
SET_UP = MicroscopeSetUp(
    "m1", "bench", "stereo", "4x", "above", 0.5, 0.005, ScaleFrom.TYPED,
    datetime(2026, 11, 1, tzinfo=UTC),
)  # fmt: skip


def as_png(coded_light: np.ndarray) -> bytes:
    out = io.BytesIO()
    Image.fromarray(coded_light).save(out, "PNG")
    return out.getvalue()


class Steps:
    """A Progress that calls something at its first real step."""

    def __init__(self, first: Callable[[], object] = lambda: None) -> None:
        self.seen: list[tuple[int, int, str]] = []
        self._first: Callable[[], object] | None = first

    def step(self, done: int, total: int, what: str) -> None:
        self.seen.append((done, total, what))
        if total > 1 and self._first is not None:
            first, self._first = self._first, None
            first()


@pytest.fixture(scope="module")
def field() -> bytes:
    return as_png(drawn(Mat(size=(320, 240), width=8.0, open_share=0.5, seed=2)).coded)


@pytest.fixture(scope="module")
def small() -> bytes:
    """One that takes the least time."""
    return as_png(drawn(Mat(size=(240, 180), width=9.0, seed=2)).coded)


@pytest.fixture(scope="module")
def ruler() -> bytes:
    light = drawn_scale.drawn(drawn_scale.Scale(period=20.0)).light
    return as_png(coded(light).round().astype(np.uint8))


@pytest.fixture(scope="module")
def here() -> PicturesHere:
    return PicturesHere()


@pytest.fixture
def process() -> Iterator[PictureProcess]:
    made = PictureProcess()
    yield made
    made.close()
    assert made.process_ids() == ()


def test_nothing_begins_before_a_question():
    measurer = wiring.picture_measurer()
    assert isinstance(measurer, PictureProcess)
    assert measurer.process_ids() == ()
    measurer.close()


def test_it_answers_as_here(process, here, field, ruler):
    steps = Steps()
    answer = process.measure(field, SET_UP, steps)
    assert answer == here.measure(field, SET_UP, Steps())
    assert answer.verdict == "measured"
    assert [what for done, _, what in dict.fromkeys(steps.seen)] == [
        "the picture", "the light", "fibres", "widths", "layers", "openings",
    ]  # fmt: skip
    assert process.marks(field, SET_UP, Steps()) == here.marks(field, SET_UP, Steps())
    assert process.look(field, SET_UP) == here.look(field, SET_UP)
    assert process.stage_scale(ruler, 10.0, 0.0) == here.stage_scale(ruler, 10.0, 0.0)


def test_a_killed_process_says_so(process, here, small):
    pid = []

    def kill() -> None:
        pid.extend(process.process_ids())
        os.kill(pid[0], signal.SIGKILL)

    with pytest.raises(WorkStopped, match="before its answer"):
        process.measure(small, SET_UP, Steps(kill))
    assert process.measure(small, SET_UP, Steps()) == here.measure(small, SET_UP, Steps())
    assert process.process_ids() != tuple(pid)


def test_giving_up_ends_the_work(process, here, small):
    class GivenUp(Exception):
        pass

    def give_up() -> None:
        raise GivenUp

    with pytest.raises(GivenUp):
        process.measure(small, SET_UP, Steps(give_up))
    assert process.process_ids() == ()
    assert process.measure(small, SET_UP, Steps()) == here.measure(small, SET_UP, Steps())


def test_a_refusal_keeps_its_words(process, field):
    with pytest.raises(PictureRefused, match="could not be read as a picture") as refused:
        process.look(b"no picture at all", SET_UP)
    assert "JPEG, PNG or TIFF" in refused.value.do
    first = process.process_ids()
    with pytest.raises(ScaleRefused):
        process.stage_scale(field, 10.0, 0.0)
    assert process.process_ids() == first, "a refusal is an answer, and ends nothing"


def test_our_fault_is_told_as_ours(process, small):
    with pytest.raises(OurFault, match="Traceback"):
        process.look(small, None)  # type: ignore[arg-type]


def test_a_look_is_not_waited_for_without_end(small):
    process = PictureProcess(longest_look_s=0.0)
    with pytest.raises(WorkStopped, match="not read within 0 seconds"):
        process.look(small, SET_UP)
    assert process.process_ids() == (), "what hangs is ended"
    process.close()


def test_a_look_need_not_wait(process, small):
    order = []
    steps = Steps(lambda: order.append(process.look(small, SET_UP)))
    process.measure(small, SET_UP, steps)
    order.append("measured")
    assert order[-1] == "measured"
    assert order[0][0].key == "brightness"


def test_an_idle_process_ends_and_another_begins(small):
    process = PictureProcess(idle_s=0.2)
    process.look(small, SET_UP)
    (child,) = multiprocessing.active_children()
    child.join(LONGEST_S)
    assert child.exitcode == 0
    assert process.process_ids() == ()
    assert process.look(small, SET_UP)
    process.close()


def test_closing_ends_what_runs(small):
    process, outcome, running = PictureProcess(), [], threading.Event()

    def work() -> None:
        try:
            process.measure(small, SET_UP, Steps(running.set))
        except WorkStopped as stopped:
            outcome.append(stopped)

    thread = threading.Thread(target=work)
    thread.start()
    assert running.wait(LONGEST_S)
    process.close()
    thread.join(LONGEST_S)
    assert len(outcome) == 1, "the measurement ended before its answer, and said so"
    assert process.process_ids() == ()
    with pytest.raises(WorkStopped, match="closed"):
        process.look(small, SET_UP)


def test_a_step_may_close(small):
    process = PictureProcess()
    with pytest.raises(WorkStopped):
        process.measure(small, SET_UP, Steps(process.close))
    assert process.process_ids() == ()


ASKER = """
import sys
from contextlib import suppress
from benchlog.errors import PictureRefused
from benchlog.microscope.picture_process import PictureProcess
from tests.microscope.test_picture_process import SET_UP
process = PictureProcess()
with suppress(PictureRefused):
    process.look(b"no picture", SET_UP)
print(process.process_ids()[0], flush=True)
sys.stdin.read()
"""


@pytest.mark.skipif(not hasattr(os, "pidfd_open"), reason="wants a handle on a process")
@pytest.mark.parametrize("killed", [True, False])
def test_no_process_outlives_who_asked(killed):
    """Neither when the program is killed nor when it ends without closing anything."""
    command = [sys.executable, "-c", ASKER]
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "text": True}
    with subprocess.Popen(command, cwd=ROOT, **pipes) as asker:
        assert asker.stdout is not None
        handle = os.pidfd_open(int(asker.stdout.readline()))
        try:
            assert select.select([handle], [], [], 0.0)[0] == [], "it waits for a question"
            if killed:
                asker.kill()
            else:
                asker.communicate("")
            assert select.select([handle], [], [], LONGEST_S)[0] == [handle]
        finally:
            os.close(handle)


def test_another_size_has_no_scale(here, small):
    other = replace(SET_UP, width_px=1280, height_px=960)
    answer = here.measure(small, other, Steps())
    assert answer.verdict == "refused"
    assert answer.figures == ()
    assert "240 × 180" in answer.reasons[0]
    assert here.look(small, other)[0].outcome == "refused"
    turned = replace(SET_UP, width_px=180, height_px=240)
    assert here.look(small, turned)[0].outcome == "passed"


def test_marks_of_the_last_picture_come_at_once(here, small):
    here.measure(small, SET_UP, Steps())
    steps = Steps()
    assert here.marks(small, SET_UP, steps).outlines
    assert steps.seen == [], "nothing was measured again"
    here.marks(small, replace(SET_UP, light="below"), steps)
    assert steps.seen, "another set-up is another measurement"


def test_a_look_sees_dark_and_blurred(here):
    dark = as_png(drawn(Mat(size=(320, 240), exposure=0.01)).coded)
    blurred = as_png(drawn(Mat(size=(640, 480), width=14.0, blur=5.0, vignette=1.0, seed=3)).coded)
    empty = as_png(np.full((240, 320), 128, np.uint8))
    refused = [
        [one.words for one in here.look(data, SET_UP) if one.outcome == "refused"]
        for data in (dark, blurred, empty)
    ]
    assert any("too dark" in words for words in refused[0])
    assert any("blurred" in words for words in refused[1])
    assert refused[2]


def test_a_look_and_the_measurement_agree(here, field):
    """On a picture smaller than what is looked at, gate by gate."""
    looked = {gate.key: gate for gate in here.look(field, SET_UP)}
    whole = {gate.key: gate for gate in here.measure(field, SET_UP, Steps()).gates}
    assert set(looked) >= {"contrast", "sharpness", "pixels a fibre", "fibre-like"}
    for key in ("contrast", "sharpness", "pixels a fibre"):
        assert looked[key].value == pytest.approx(whole[key].value, rel=0.05)
