"""A scale on a serial port: its own thread, lost and found again by itself."""

from __future__ import annotations

import contextlib
import threading

import serial

from benchlog.errors import OurFault
from benchlog.instruments.line_reader import LineReader
from benchlog.instruments.listening import Listening
from benchlog.instruments.port_fault import PORT_ERRORS, port_fault, reason
from benchlog.instruments.port_settings import Flow, PortSettings, Sending
from benchlog.instruments.steady import PanWatch, PressWatch
from benchlog.instruments.template_file import load_templates
from benchlog.tasks.ports import Clock, ScaleListener, ScaleState

TRY_AGAIN_S = 0.5
LOOK_UP_S = 1.0
"""How long a quiet port is listened to at a time; polls and close() cut it short."""

WRITE_S = 1.0
MOST_BYTES = 4096


class SerialScale:
    """A Scale over one serial port.

    The listener is called on the scale's thread. The pan is watched through lost connections, so
    a part that stays on it is not caught a second time. `clock` gives the seconds for settling.
    """

    def __init__(self, settings: PortSettings, clock: Clock) -> None:
        settings.check()
        self._settings = settings
        self._clock = clock
        self._reader = LineReader(load_templates(), settings.template, settings.unit)
        self._closing = threading.Event()
        self._asked = threading.Event()
        self._lock = threading.Lock()
        self._port: serial.Serial | None = None
        self._thread: threading.Thread | None = None

    def start(self, listener: ScaleListener) -> None:
        """Open the port and listen; raises ScaleFault when it cannot be opened."""
        if self._thread is not None:
            raise OurFault("the scale was started already")
        port = self._open()
        by_key = self._settings.sending is Sending.PRINT_KEY
        watch = PressWatch() if by_key else PanWatch(self._settings.rule)
        listening = Listening(self._reader, watch, listener)
        self._closing.clear()
        self._thread = threading.Thread(
            target=self._run, args=(port, listening, listener), name="scale", daemon=True
        )
        self._thread.start()

    def poll(self) -> None:
        """Ask a scale that wants asking; while it is lost, as soon as it is found again."""
        if self._settings.sending is Sending.POLLED:
            self._asked.set()
            self._wake()

    def close(self) -> None:
        """Stop listening and let go of the port; returns when the thread has ended."""
        self._closing.set()
        self._wake()
        thread = self._thread
        if thread is not None and thread is not threading.current_thread():
            thread.join()
            self._thread = None

    def _wake(self) -> None:
        with self._lock:
            if self._port is not None:
                self._port.cancel_read()

    def _open(self) -> serial.Serial:
        try:
            return open_port(self._settings)
        except PORT_ERRORS as error:
            raise port_fault(self._settings.path, error) from error

    def _run(self, first: serial.Serial, listening: Listening, listener: ScaleListener) -> None:
        """Listen until closed, over as many openings of the port as it takes."""
        port: serial.Serial | None = first
        try:
            while port is not None:
                self._hold(port)
                listener.scale_state(ScaleState.CONNECTED, self._settings.path)
                lost = self._listen(port, listening)
                self._let_go(port)
                if self._closing.is_set():
                    break
                listener.scale_state(ScaleState.LOST, lost)
                port = self._find_again()
        finally:
            with self._lock:
                held = self._port
            if held is not None:
                self._let_go(held)
            listener.scale_state(ScaleState.CLOSED, self._settings.path)

    def _listen(self, port: serial.Serial, listening: Listening) -> str:
        """Feed what comes in until closed or lost; returns how it was lost."""
        listening.begin(mid_stream=self._settings.sending is Sending.CONTINUOUS)
        next_poll = self._clock.seconds()
        while not self._closing.is_set():
            try:
                next_poll = self._ask_when_due(port, next_poll)
                data = port.read(1)
                if data:
                    data += port.read(min(port.in_waiting, MOST_BYTES))
            except PORT_ERRORS as error:
                return f"{self._settings.path} went away ({reason(error)})"
            # Outside the net: a fault of the listener is not a fault of the port.
            listening.feed(data, self._clock.seconds())
        return ""

    def _ask_when_due(self, port: serial.Serial, next_poll: float) -> float:
        """Send the poll when asked or due, set how long to listen, return when it is due next."""
        every = self._settings.poll_every_s
        regular = self._settings.sending is Sending.POLLED and every > 0
        now = self._clock.seconds()
        if self._asked.is_set() or (regular and now >= next_poll):
            self._asked.clear()
            self._send_poll(port)
            next_poll = now + every
        if regular:
            port.timeout = max(next_poll - now, 0)
        return next_poll

    def _send_poll(self, port: serial.Serial) -> None:
        # An end that holds us off is not a lost port: it may take the next one.
        with contextlib.suppress(serial.SerialTimeoutException):
            port.write(self._settings.poll)

    def _find_again(self) -> serial.Serial | None:
        """Try the port until it opens; None when closed first."""
        while not self._closing.wait(TRY_AGAIN_S):
            try:
                return open_port(self._settings)
            except PORT_ERRORS:
                continue
        return None

    def _hold(self, port: serial.Serial) -> None:
        with self._lock:
            self._port = port

    def _let_go(self, port: serial.Serial) -> None:
        with self._lock:
            self._port = None
        # A port that is gone for good cannot be let go of any more.
        with contextlib.suppress(*PORT_ERRORS):
            port.close()


def open_port(settings: PortSettings) -> serial.Serial:
    """Open the port for this program alone; raises what the system says."""
    return serial.Serial(
        settings.path,
        baudrate=settings.baud,
        bytesize=settings.bytesize,
        parity=settings.parity,
        stopbits=settings.stopbits,
        xonxoff=settings.flow is Flow.XONXOFF,
        rtscts=settings.flow is Flow.RTSCTS,
        timeout=LOOK_UP_S,
        write_timeout=WRITE_S,
        exclusive=True,
    )
