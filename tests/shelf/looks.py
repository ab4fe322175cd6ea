"""What lies in a folder, to tell whether anything in it was touched."""

from __future__ import annotations

import hashlib
from pathlib import Path


def listing(folder: Path) -> dict[str, str]:
    """Return every file with a digest of its bytes, but for the log's index.

    The index (-shm) holds SQLite's marks of who reads; a reader beside a writer has to set one.
    """
    return {
        str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest()
        if path.is_file() and not path.name.endswith("-shm")
        else ""
        for path in sorted(folder.rglob("*"))
    }
