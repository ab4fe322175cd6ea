"""The files of what was published, in published/<line-up>/<revision>/.

They are written into a draft beside them first, which takes its place in one step; a folder
without an entry in the table was left by a program that stopped in between.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path, PurePosixPath

from benchlog.errors import OurFault, ShelfDamaged
from benchlog.shelf.files import HALF, make_folder, sync_folder
from benchlog.tasks.publication import Output, Publication

FOLDER = "published"
PUT_BACK = "Put the file back from a copy of the shelf."

_own_drafts: set[Path] = set()
"""Drafts that this program is writing into."""


def folder_of(folder: Path, lineup_id: str, revision: int) -> Path:
    """Return where the files of a revision lie; OurFault for an id that is no plain name."""
    if PurePosixPath(lineup_id).name != lineup_id or lineup_id.startswith(".") or "\\" in lineup_id:
        raise OurFault(f"The line-up '{lineup_id}' cannot be the name of a folder.")
    return folder / FOLDER / lineup_id / str(revision)


def path_of(folder: Path, publication: Publication, output: Output) -> Path:
    """Return where one file of a revision lies."""
    return folder_of(folder, publication.lineup_id, publication.revision) / output.name


def new_draft(folder: Path) -> Path:
    """Make an empty folder to write into, and return it; raises OSError.

    Only one program holds the shelf, so drafts that are not its own were left by one that stopped.
    """
    place = folder / FOLDER
    make_folder(place)
    for left in place.glob(f"*{HALF}"):
        if left not in _own_drafts:
            throw_away(left)
    made = Path(tempfile.mkdtemp(prefix="draft-", suffix=HALF, dir=place))
    _own_drafts.add(made)
    made.chmod(0o755)
    return made


def throw_away(made: Path) -> None:
    """Take away what is still in a draft."""
    shutil.rmtree(made, ignore_errors=True)
    _own_drafts.discard(made)


def settle(publication: Publication, made: Path) -> None:
    """Make a draft durable; raises OSError.

    OurFault when it does not hold exactly the files that the publication lists.
    """
    there = {path.relative_to(made).as_posix(): path.stat().st_size for path in _every_file(made)}
    if there != {output.name: output.bytes for output in publication.outputs}:
        raise OurFault("The files to publish are not those that the publication lists.")
    for path in _every_file(made):
        _sync_file(path)
    for place in (*(p for p in sorted(made.rglob("*"), reverse=True) if p.is_dir()), made):
        sync_folder(place)


def take_place(folder: Path, publication: Publication, made: Path) -> Path:
    """Let a settled draft take its place in one step, and return that; raises OSError."""
    target = folder_of(folder, publication.lineup_id, publication.revision)
    make_folder(target.parent)
    discard(target)
    made.rename(target)
    sync_folder(target.parent)
    sync_folder(folder / FOLDER)
    return target


def discard(target: Path) -> None:
    """Take away a revision's folder that has no entry in the table."""
    if not target.exists():
        return
    aside = Path(tempfile.mkdtemp(prefix="leftover-", suffix=HALF, dir=target.parent.parent))
    target.rename(aside / target.name)
    shutil.rmtree(aside, ignore_errors=True)


def read(folder: Path, publication: Publication, output: Output) -> bytes:
    """Return a published file's bytes; raises ShelfDamaged when they are gone or not the same."""
    path = path_of(folder, publication, output)
    try:
        data = path.read_bytes()
    except FileNotFoundError as gone:
        raise ShelfDamaged(f"The published file {path} is missing.", PUT_BACK) from gone
    if hashlib.sha256(data).hexdigest() != output.sha256:
        raise ShelfDamaged(f"The published file {path} is no longer what was published.", PUT_BACK)
    return data


def on_disk(folder: Path) -> Iterator[Path]:
    """Yield every file among what was published, drafts included."""
    return _every_file(folder / FOLDER)


def is_draft(folder: Path, path: Path) -> bool:
    """Whether a file was still being written when the program stopped."""
    return any(part.endswith(HALF) for part in path.relative_to(folder / FOLDER).parts)


def _every_file(place: Path) -> Iterator[Path]:
    return (path for path in sorted(place.rglob("*")) if path.is_file())


def _sync_file(path: Path) -> None:
    handle = os.open(path, os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
