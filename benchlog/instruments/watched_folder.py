"""A folder into which a camera program saves: which of its files are new and fully written."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from benchlog.errors import PictureRefused

KINDS = (".jpg", ".jpeg", ".png", ".tif", ".tiff", ".bmp", ".webp")
STILL_S = 1.0
"""So long a file must have stopped growing; common practice, no source."""


@dataclass(frozen=True)
class _Seen:
    size: int
    changed_ns: int
    since_s: float


@dataclass
class WatchedFolder:
    """Tells new pictures of a folder once each, oldest first, when they have stopped growing.

    What lay in the folder at the first look is not new. A file that is written anew under a name
    that was told before is told again.
    """

    folder: Path
    _known: dict[str, tuple[int, int]] = field(default_factory=dict)
    _growing: dict[str, _Seen] = field(default_factory=dict)
    _begun: bool = False

    def look(self, now_s: float) -> tuple[Path, ...]:
        """Return the pictures that have come to rest; raises PictureRefused without the folder.

        `now_s` are seconds of a steady clock.
        """
        there = self._there()
        if not self._begun:
            self._begun = True
            self._known = there
            return ()
        done = []
        for name, (size, changed) in there.items():
            if self._known.get(name) == (size, changed):
                continue
            seen = self._growing.get(name)
            if seen is None or (seen.size, seen.changed_ns) != (size, changed):
                self._growing[name] = _Seen(size, changed, now_s)
            elif size > 0 and now_s - seen.since_s >= STILL_S:
                del self._growing[name]
                self._known[name] = (size, changed)
                done.append((changed, name))
        for gone in set(self._growing) - set(there):
            del self._growing[gone]
        return tuple(self.folder / name for _changed, name in sorted(done))

    def _there(self) -> dict[str, tuple[int, int]]:
        found = {}
        try:
            for path in self.folder.iterdir():
                if path.suffix.lower() in KINDS and not path.name.startswith("."):
                    try:
                        stat = path.stat()
                    except OSError:  # gone since it was listed, or held by who writes it
                        continue
                    found[path.name] = (stat.st_size, stat.st_mtime_ns)
        except OSError as fault:
            raise PictureRefused(
                f"The folder {self.folder} cannot be read: {fault.strerror}.",
                "Choose the folder into which the camera program saves.",
            ) from fault
        return found
