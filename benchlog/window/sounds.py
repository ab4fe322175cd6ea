"""Short sounds, so that eyes may stay on the part: accepted, refused, caught."""

from __future__ import annotations

import logging
import math
import struct
import tempfile
import wave
from enum import Enum
from pathlib import Path

from PySide6.QtCore import QLoggingCategory, QUrl
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication

log = logging.getLogger(__name__)
RATE_HZ = 22_050


class Sound(Enum):
    """What is to be heard: tones in hertz, one after another, 70 ms each."""

    ACCEPTED = (1047, 1568)
    REFUSED = (220, 196)
    ASKED_AGAIN = (660, 660, 660)
    CAUGHT = (1319,)


class Sounds:
    """Plays the sounds while they are wanted; falls back to the desktop's beep."""

    def __init__(self, *, wanted: bool) -> None:
        self.wanted = wanted
        self._made: dict[Sound, object] | None = None
        self._folder: tempfile.TemporaryDirectory[str] | None = None

    def play(self, sound: Sound) -> None:
        """Let a sound be heard, if sounds are wanted."""
        if not self.wanted or QGuiApplication.platformName() == "offscreen":
            return
        if self._made is None:
            self._made = self._make()
        effect = self._made.get(sound)
        if effect is None:
            QApplication.beep()
        else:
            effect.play()

    def prepare(self) -> None:
        """Make the sounds ready, so that the first one does not come late."""
        if self.wanted and self._made is None and QGuiApplication.platformName() != "offscreen":
            self._made = self._make()

    def _make(self) -> dict[Sound, object]:
        QLoggingCategory.setFilterRules("qt.multimedia.*=false")
        try:
            from PySide6.QtMultimedia import QMediaDevices, QSoundEffect  # noqa: PLC0415 - slow

            if QMediaDevices.defaultAudioOutput().isNull():
                return {}
            self._folder = tempfile.TemporaryDirectory(prefix="benchlog-sounds-")
        except (ImportError, OSError) as fault:
            log.info("the desktop's beep is used: %s", fault)
            return {}
        made: dict[Sound, object] = {}
        for sound in Sound:
            path = Path(self._folder.name) / f"{sound.name.lower()}.wav"
            write_tones(path, sound.value)
            effect = QSoundEffect()
            effect.setSource(QUrl.fromLocalFile(str(path)))
            made[sound] = effect
        return made


def write_tones(path: Path, tones_hz: tuple[int, ...]) -> None:
    """Write tones as a wave file: 70 ms each, rising and falling softly."""
    length = RATE_HZ * 70 // 1000
    samples = [
        round(9000 * math.sin(math.pi * n / length) * math.sin(2 * math.pi * tone * n / RATE_HZ))
        for tone in tones_hz
        for n in range(length)
    ]
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE_HZ)
        file.writeframes(struct.pack(f"<{len(samples)}h", *samples))
