"""The pictures in a data package, and what measuring them again says of its tables."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from benchlog.sheet.data.read_package import Package, inside
from benchlog.sheet.data.recompute import Difference
from benchlog.tasks.remeasure import PICTURE, SCALE, VERDICT, Remeasured

_PLACES = (("photos", "sha256", "path"), ("set_ups", "scale_picture", "scale_path"))
_COLUMNS = {
    SCALE: ("set_ups", SCALE),
    VERDICT: ("picture_answers", VERDICT),
    PICTURE: ("picture_answers", PICTURE),
}


def pictures_in(folder: Path, package: Package) -> Callable[[str], bytes | None]:
    """Return what gives a package's pictures by their SHA-256; None for one that is not in it.

    Raises PlanRefused, when asked, for a path that leads out of the package.
    """
    paths = {
        row[sha256]: row[path]
        for table, sha256, path in _PLACES
        for row in package.tables.get(table, ())
        if row.get(sha256) and row.get(path)
    }

    def picture(sha256: str) -> bytes | None:
        path = inside(folder, paths[sha256]) if sha256 in paths else None
        return path.read_bytes() if path is not None and path.is_file() else None

    return picture


def as_difference(one: Remeasured) -> Difference:
    """Return what was measured otherwise as a difference of the tables."""
    if one.what in _COLUMNS:
        table, column = _COLUMNS[one.what]
        return Difference(table, one.of, column, one.told, one.again)
    return Difference("picture_figures", f"{one.of} / {one.what}", "value", one.told, one.again)
