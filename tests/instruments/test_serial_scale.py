"""A scale on a real pseudo-terminal: read, asked, unplugged, found again, closed."""

from __future__ import annotations

import errno
import os
import random
import select
import subprocess
import sys
import termios
import threading
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
import serial

from benchlog.errors import OurFault, ScaleFault
from benchlog.instruments import serial_scale
from benchlog.instruments.port_settings import PortSettings, Sending
from benchlog.instruments.serial_scale import SerialScale
from benchlog.tasks.ports import Capture, ScaleState, Weight

ZERO, LOAD, LESS = b"ST,GS,+00000.0  g\r\n", b"ST,GS,+00287.4  g\r\n", b"ST,GS,+00031.0  g\r\n"
MOVING = b"US,GS,+00150.0  g\r\n"
PATIENCE_S = 20


class WallClock:
    def now(self) -> datetime:
        return datetime.now(UTC)

    def seconds(self) -> float:
        return time.monotonic()


class Cable:
    """The scale's end of a pseudo-terminal, behind a path that can be pointed elsewhere."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.fd = -1
        self.plug()

    def plug(self) -> None:
        self.fd, other = os.openpty()
        new = self.path.with_suffix(".new")
        new.symlink_to(os.ttyname(other))
        new.replace(self.path)
        self._other = other

    def unplug(self) -> None:
        os.close(self.fd)
        os.close(self._other)
        self.fd = -1

    def send(self, *lines: bytes) -> None:
        data = b"".join(lines)
        while data:
            data = data[os.write(self.fd, data) :]

    def receive(self, size: int) -> bytes:
        got = b""
        while len(got) < size:
            ready, _, _ = select.select([self.fd], [], [], PATIENCE_S)
            assert ready, f"only {got!r} came"
            got += os.read(self.fd, size - len(got))
        return got


@pytest.fixture
def cable(tmp_path) -> Iterator[Cable]:
    cable = Cable(tmp_path / "scale")
    yield cable
    if cable.fd >= 0:
        cable.unplug()


@pytest.fixture
def scale_on(cable):
    """Make a scale on the cable, with whatever settings; closed at the end."""
    made = []

    def make(**settings) -> SerialScale:
        settings = {"template": "words-before", **settings}
        made.append(SerialScale(PortSettings(str(cable.path), **settings), WallClock()))
        return made[-1]

    yield make
    for scale in made:
        scale.close()


def values(weights: list[Weight]) -> list[str]:
    return [str(w.said.value) for w in weights if w.said]


def scale_threads() -> list[str]:
    return [t.name for t in threading.enumerate() if t.name == "scale"]


def test_weights_of_another_process_are_caught(cable, scale_on, heard):
    scale_on().start(heard)
    code = "import os, sys; [os.write(int(sys.argv[1]), eval(line)) for line in sys.argv[2:]]"
    lines = [repr(line) for line in (b"\r\n", ZERO, MOVING, LOAD, LOAD, ZERO, LESS)]
    subprocess.run(
        [sys.executable, "-c", code, str(cable.fd), *lines], pass_fds=[cable.fd], check=True
    )
    heard.wait(lambda: len(heard.caught) == 2, "two weights")
    assert values(heard.caught) == ["287.4", "31.0"]
    assert heard.caught[0].raw == LOAD.strip()
    assert heard.captures[:3] == [Capture.WAITING, Capture.SETTLING, Capture.CAUGHT]
    assert heard.garbage == []


def test_line_cut_by_plugging_in_is_dropped(cable, scale_on, heard):
    scale_on(template="plain").start(heard)
    cable.send(b"7.4  g\r\n", b"  0.0 g\r\n")
    heard.wait(lambda: len(heard.lines) == 1, "one line")
    assert heard.lines[0][0].raw == b"  0.0 g"


def test_single_bytes_make_lines(cable, scale_on, heard):
    scale_on().start(heard)
    for byte in b"\r\n" + LOAD:
        cable.send(bytes([byte]))
    heard.wait(lambda: bool(heard.caught), "a weight")
    assert values(heard.caught) == ["287.4"]


def test_silent_scale_is_timed_by_the_clock(cable, scale_on, heard):
    scale_on(template="plain").start(heard)
    cable.send(b"\r\n", *[b"  287.4 g\r\n"] * 4)
    heard.wait(lambda: bool(heard.caught), "a weight")
    assert heard.captures == [Capture.SETTLING] * 3 + [Capture.CAUGHT]


def test_unplugging_is_told_and_mended(cable, scale_on, heard):
    scale_on().start(heard)
    cable.send(b"\r\n", LOAD)
    heard.wait(lambda: bool(heard.caught), "a weight")
    cable.unplug()
    heard.wait_state(ScaleState.LOST)
    cable.plug()
    heard.wait_state(ScaleState.CONNECTED)
    cable.send(b"\r\n", LOAD, ZERO, LESS)
    heard.wait(lambda: len(heard.caught) > 1, "the next weight")
    assert values(heard.caught) == ["287.4", "31.0"], "what stayed on the pan counts once"
    states = [state for state, _ in heard.states]
    assert states == [ScaleState.CONNECTED, ScaleState.LOST, ScaleState.CONNECTED]
    assert str(cable.path) in heard.states[1][1]


def test_search_goes_on_until_found(monkeypatch, cable, scale_on, heard):
    failures: list[Exception] = []
    opened: list[serial.Serial] = []

    def open_port(settings: PortSettings) -> serial.Serial:
        try:
            opened.append(really_open(settings))
            return opened[-1]
        except serial.SerialException as error:
            with heard.change:
                failures.append(error)
                heard.change.notify_all()
            raise

    really_open = serial_scale.open_port
    monkeypatch.setattr(serial_scale, "open_port", open_port)
    monkeypatch.setattr(serial_scale, "TRY_AGAIN_S", 0.01)
    scale_on().start(heard)
    cable.unplug()
    heard.wait(lambda: len(failures) >= 3, "three vain attempts")
    cable.plug()
    heard.wait_state(ScaleState.CONNECTED)
    states = [state for state, _ in heard.states]
    assert states == [ScaleState.CONNECTED, ScaleState.LOST, ScaleState.CONNECTED]
    assert [port.is_open for port in opened] == [False, True], "the lost one is let go of"


def test_half_line_before_unplugging_is_forgotten(cable, scale_on, heard):
    scale_on(sending=Sending.PRINT_KEY).start(heard)
    cable.send(MOVING, b"ST,GS,+0")
    heard.wait(lambda: bool(heard.lines), "a line")
    cable.unplug()
    heard.wait_state(ScaleState.LOST)
    cable.plug()
    heard.wait_state(ScaleState.CONNECTED)
    cable.send(LESS)
    heard.wait(lambda: bool(heard.caught), "a weight")
    assert (values(heard.caught), heard.garbage) == (["31.0"], [])


def test_polled_scale_is_asked(cable, scale_on, heard):
    scale_on(sending=Sending.POLLED, poll=b"SI\r\n", poll_every_s=0.01).start(heard)
    for answer in (ZERO, LOAD, LOAD, ZERO, LESS):
        assert cable.receive(4) == b"SI\r\n"
        cable.send(answer)
    heard.wait(lambda: len(heard.caught) == 2, "two weights")
    assert values(heard.caught) == ["287.4", "31.0"]


def test_poll_asks_at_once(cable, scale_on, heard):
    scale = scale_on(sending=Sending.POLLED, poll_every_s=0)
    scale.start(heard)
    for answer in (LOAD, ZERO):
        scale.poll()
        assert cable.receive(3) == b"W\r\n"
        cable.send(answer)
    heard.wait(lambda: len(heard.lines) == 2, "two answers")
    assert values(heard.caught) == ["287.4"]
    scale.close()
    assert select.select([cable.fd], [], [], 0)[0] == [], "asked once for each"


def test_unasked_scale_is_left_alone(cable, scale_on, heard):
    scale = scale_on()
    scale.start(heard)
    scale.poll()
    cable.send(b"\r\n", LOAD)
    heard.wait(lambda: bool(heard.caught), "a weight")
    assert select.select([cable.fd], [], [], 0) == ([], [], [])


def test_print_key_counts_each_press(cable, scale_on, heard):
    scale_on(sending=Sending.PRINT_KEY).start(heard)
    cable.send(LOAD, LOAD, MOVING)
    heard.wait(lambda: len(heard.lines) == 3, "three lines")
    assert values(heard.caught) == ["287.4", "287.4"]


def test_garbage_flood_never_enters(cable, scale_on, heard):
    scale_on(template="automatic").start(heard)
    chance = random.Random(20261125)
    # High bits set in every byte, as a wrong speed makes them: no line of it can be a weight.
    cable.send(bytes(chance.randrange(128, 256) for _ in range(200_000)), b"\r\n")
    cable.send(*[bytes([chance.randrange(1, 32) | 128, 13]) for _ in range(2000)])
    cable.send(LOAD)
    heard.wait(lambda: bool(heard.caught), "the weight after the flood")
    assert values(heard.caught) == ["287.4"]
    assert len(heard.lines) == 1
    assert len(heard.garbage) >= 2000
    assert all(len(raw) < 100 and why for raw, why in heard.garbage)


def test_close_ends_a_quiet_wait(monkeypatch, scale_on, heard):
    monkeypatch.setattr(serial_scale, "LOOK_UP_S", 3600)
    scale = scale_on()
    scale.start(heard)
    heard.wait_state(ScaleState.CONNECTED)
    scale.close()
    assert scale_threads() == []
    assert heard.states[-1][0] is ScaleState.CLOSED
    scale.close()


def test_close_ends_the_search(cable, scale_on, heard):
    scale = scale_on()
    scale.start(heard)
    cable.unplug()
    heard.wait_state(ScaleState.LOST)
    scale.close()
    assert scale_threads() == []
    assert heard.states[-1][0] is ScaleState.CLOSED


def test_close_from_the_listener_is_safe(cable, scale_on, heard):
    scale = scale_on()

    def caught(weight: Weight) -> None:
        scale.close()
        heard.caught.append(weight)

    heard.scale_caught = caught
    scale.start(heard)
    cable.send(b"\r\n", LOAD)
    heard.wait_state(ScaleState.CLOSED)
    assert values(heard.caught) == ["287.4"]


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")
def test_failing_listener_lets_go_of_the_port(cable, scale_on, heard):
    def caught(weight: Weight) -> None:
        raise OSError(errno.ENOSPC, "the listener's own trouble")

    heard.scale_caught = caught
    scale_on().start(heard)
    cable.send(b"\r\n", LOAD)
    heard.wait_state(ScaleState.CLOSED)
    assert ScaleState.LOST not in [state for state, _ in heard.states]


def test_port_is_held_for_one(cable, scale_on, heard):
    scale_on().start(heard)
    with pytest.raises(ScaleFault, match="Another program holds"):
        scale_on().start(heard)


def test_second_start_is_our_fault(scale_on, heard):
    scale = scale_on()
    scale.start(heard)
    with pytest.raises(OurFault, match="already"):
        scale.start(heard)


def test_missing_port_says_what_to_do(tmp_path, heard):
    scale = SerialScale(PortSettings(str(tmp_path / "gone")), WallClock())
    with pytest.raises(ScaleFault, match=r"no port .*gone.* Plug the scale in.*Typing"):
        scale.start(heard)
    assert heard.states == []


def test_plain_file_is_no_port(tmp_path, heard):
    (tmp_path / "notes.txt").write_text("ST,GS,+00287.4  g\n")
    scale = SerialScale(PortSettings(str(tmp_path / "notes.txt")), WallClock())
    with pytest.raises(ScaleFault, match="is not a serial port"):
        scale.start(heard)


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (PermissionError(errno.EACCES, "denied"), "dialout"),
        (OSError(errno.EBUSY, "busy"), "Another program"),
        (OSError(errno.EIO, "error"), "handbook"),
        (termios.error(errno.EINVAL, "invalid"), "handbook"),
        (serial.SerialException("wordless"), "no answer"),
    ],
)
def test_refusal_is_put_in_plain_words(monkeypatch, scale_on, heard, error, words):
    """An administrator is refused nothing, so the refusal itself is what is handed in here."""

    def refuse(settings: PortSettings) -> None:
        raise error

    monkeypatch.setattr(serial_scale, "open_port", refuse)
    with pytest.raises(ScaleFault, match=words):
        scale_on().start(heard)


def test_path_with_a_nul_is_refused(heard):
    with pytest.raises(ScaleFault, match="cannot be opened"):
        SerialScale(PortSettings("/dev/\0tty"), WallClock()).start(heard)
