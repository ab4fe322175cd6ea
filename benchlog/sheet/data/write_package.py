"""Writing a record as an open data package: a folder, or that folder as one zip file."""

from __future__ import annotations

import hashlib
import json
import shutil
import tempfile
import zipfile
from collections.abc import Callable
from pathlib import Path

from benchlog.errors import PublishRefused
from benchlog.sheet.data.csv_text import table_as_csv
from benchlog.sheet.data.descriptor import Written, descriptor_of
from benchlog.sheet.data.licence import licence
from benchlog.sheet.data.readme import readme_of
from benchlog.sheet.data.table import Table
from benchlog.sheet.data.tables import tables_of
from benchlog.sheet.data.workbook import write_workbook
from benchlog.tasks.contents import contents_of
from benchlog.tasks.contents_json import plain_contents
from benchlog.tasks.ports import Progress
from benchlog.tasks.publish import check_disclosure
from benchlog.tasks.record import Record

PhotoBytes = Callable[[str], bytes]
"""Returns a photo's bytes by its id; raises KeyError."""

ScaleBytes = Callable[[str], bytes]
"""Returns the picture of a stage micrometer by the id of its set-up; raises KeyError."""

RECORD_FILE = "record.json"
DESCRIPTOR_FILE = "datapackage.json"
README_FILE = "README.txt"
WORKBOOK_FILE = "tables.xlsx"
_ENDINGS = {"image/jpeg": "jpg", "image/png": "png", "image/tiff": "tif", "image/webp": "webp"}
_EARLIEST = (1980, 1, 1, 0, 0, 0)


def write_package(
    record: Record,
    folder: Path,
    licence_name: str,
    photo_bytes: PhotoBytes | None = None,
    progress: Progress | None = None,
    scale_bytes: ScaleBytes | None = None,
) -> Path:
    """Write the package into a new folder and return it; all of it or nothing.

    Photos go in when `photo_bytes` is given, pictures of stage micrometers when `scale_bytes` is.
    What `progress` raises, a wish to stop, leaves
    nothing behind. Raises PublishRefused while it is not said who paid, for an unknown licence,
    while a blind run is not opened, for a photo that is not what its checksum says, for a folder
    that has something in it, and when it cannot be written.
    """
    check_disclosure(record.lineup)
    chosen = licence(licence_name)
    if record.sealed:
        raise PublishRefused(
            "A blind run of this line-up is not opened yet; its answers are under seal.",
            "Open the codes first, then publish.",
        )
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise PublishRefused(
            f"{folder.name} is there already and is not an empty folder.", "Choose a new folder."
        )
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=folder.parent, prefix=".being-written-") as place:
            made = Path(place) / "package"
            made.mkdir()
            tell = _Telling(progress, len(record.photos) if photo_bytes else 0)
            photos = _write_photos(record, made, photo_bytes, tell) if photo_bytes else {}
            photos |= _write_scales(record, made, scale_bytes) if scale_bytes else {}
            tell.step("tables")
            tables = tables_of(record, photos)
            _write_files(record, made, tables)
            tell.step("workbook")
            write_workbook(tables, made / WORKBOOK_FILE)
            tell.step("checksums")
            files = tuple(
                _written(made, path) for path in sorted(made.rglob("*")) if path.is_file()
            )
            descriptor = descriptor_of(record, chosen, {f"{t.name}.csv": t for t in tables}, files)
            _write_json(made / DESCRIPTOR_FILE, descriptor)
            _write_text(made / README_FILE, readme_of(record, chosen, tables))
            tell.step("done")
            if folder.exists():
                folder.rmdir()
            made.rename(folder)
    except OSError as fault:
        raise _cannot(folder, fault) from fault
    return folder


def zip_package(folder: Path, path: Path) -> Path:
    """Put a package's folder into one zip file; the same folder gives the same bytes."""
    try:
        with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as packed:
            for file in sorted(one for one in folder.rglob("*") if one.is_file()):
                name = f"{folder.name}/{file.relative_to(folder).as_posix()}"
                entry = zipfile.ZipInfo(name, _EARLIEST)
                # Pictures are packed already; doing it twice costs time and gains nothing.
                packed_already = file.suffix in (".jpg", ".png", ".webp", ".xlsx")
                entry.compress_type = zipfile.ZIP_STORED if packed_already else zipfile.ZIP_DEFLATED
                entry.external_attr = 0o644 << 16
                with packed.open(entry, "w") as into, file.open("rb") as out:
                    shutil.copyfileobj(out, into)
    except OSError as fault:
        raise _cannot(path, fault) from fault
    return path


def _write_files(record: Record, folder: Path, tables: tuple[Table, ...]) -> None:
    for table in tables:
        _write_text(folder / f"{table.name}.csv", table_as_csv(table))
    _write_json(folder / RECORD_FILE, plain_contents(contents_of(record)))


class _Telling:
    """Counts the steps: one for each photo, and four for the rest."""

    def __init__(self, progress: Progress | None, photos: int) -> None:
        self._progress = progress
        self._total = photos + 4
        self._done = 0

    def step(self, what: str) -> None:
        self._done = self._total if what == "done" else self._done + 1
        if self._progress is not None:
            self._progress.step(self._done, self._total, what)


def _write_photos(
    record: Record, folder: Path, photo_bytes: PhotoBytes, tell: _Telling
) -> dict[str, str]:
    """Write each photo once and return the paths by their ids."""
    paths: dict[str, str] = {}
    for photo in record.photos:
        tell.step(photo.name)
        if photo.id in paths:
            continue
        path = f"photos/{photo.id[:16]}.{_ENDINGS.get(photo.media_type, 'bin')}"
        (folder / "photos").mkdir(exist_ok=True)
        data = photo_bytes(photo.id)
        _check_same(data, photo.id, photo.name)
        (folder / path).write_bytes(data)
        paths[photo.id] = path
    return paths


def _write_scales(record: Record, folder: Path, scale_bytes: ScaleBytes) -> dict[str, str]:
    """Write the picture of each stage micrometer, unchanged, and return the paths by SHA-256."""
    paths: dict[str, str] = {}
    for one in record.set_ups:
        if not one.scale_picture:
            continue
        data = scale_bytes(one.id)
        _check_same(data, one.scale_picture, f"of the scale of {one.name}")
        path = f"scales/{one.scale_picture[:16]}.{ending_of(data)}"
        (folder / "scales").mkdir(exist_ok=True)
        (folder / path).write_bytes(data)
        paths[one.scale_picture] = path
    return paths


def ending_of(data: bytes) -> str:
    """Return the ending of a picture's file by how its bytes begin; "bin" for any other kind."""
    signs = {b"\xff\xd8\xff": "jpg", b"\x89PNG": "png", b"II*\x00": "tif", b"MM\x00*": "tif"}
    if data[8:12] == b"WEBP":
        return "webp"
    return next((ending for sign, ending in signs.items() if data.startswith(sign)), "bin")


def _check_same(data: bytes, sha256: str, name: str) -> None:
    if hashlib.sha256(data).hexdigest() != sha256:
        raise PublishRefused(
            f"The picture {name} is not the one that was taken in.",
            "Let the shelf be checked, or take the picture out.",
        )


def _written(folder: Path, path: Path) -> Written:
    name = path.relative_to(folder).as_posix()
    kinds = {".csv": "text/csv", ".json": "application/json", ".jpg": "image/jpeg"} | {
        ".png": "image/png",
        ".tif": "image/tiff",
        ".webp": "image/webp",
        ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    }
    kind = kinds.get(path.suffix, "application/octet-stream")
    with path.open("rb") as file:
        digest = hashlib.file_digest(file, "sha256").hexdigest()
    return Written(name, path.stat().st_size, digest, kind)


def _write_text(path: Path, text: str) -> None:
    path.write_bytes(text.encode())


def _write_json(path: Path, value: object) -> None:
    _write_text(path, json.dumps(value, ensure_ascii=False, indent=1) + "\n")


def _cannot(path: Path, fault: OSError) -> PublishRefused:
    why = fault.strerror or str(fault)
    return PublishRefused(f"{path.name} cannot be written ({why}).", "Choose another place.")
