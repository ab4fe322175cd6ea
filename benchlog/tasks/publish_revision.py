"""Publish a record as a numbered revision: every output from the one record, all or nothing."""

from __future__ import annotations

import hashlib
import shutil
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path, PurePosixPath
from typing import Any

from benchlog.errors import OurFault, PublishRefused
from benchlog.tasks.changed import Change, LicenceChange, ReadingChange, RuleChange, WishChange
from benchlog.tasks.changed_between import changed_between
from benchlog.tasks.frozen_record import frozen, frozen_text, thawed
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock, OutputWriter, Progress, Shelf
from benchlog.tasks.publication import Output, Publication
from benchlog.tasks.publish import check_ready
from benchlog.tasks.record import Record
from benchlog.tasks.revision import revision_of
from benchlog.tasks.revision_lines import published_lines, revision_line

Wanted = Mapping[str, Any]
"""What goes out and in which way, as `wanted_of` gives it."""

SHARE = 100
"""Steps of progress that each output counts as."""


class _Part:
    """The progress of one output, as its share of the whole."""

    def __init__(self, whole: Progress, name: str, before: int, outputs: int) -> None:
        self._whole, self._name = whole, name
        self._before, self._total = before * SHARE, outputs * SHARE
        self.step(0, 1, "begun")

    def step(self, done: int, total: int, what: str) -> None:
        """Tell the whole how far this output has come."""
        share = SHARE * min(done, total) // max(total, 1)
        self._whole.step(self._before + share, self._total, f"{self._name}: {what}")


def publish_revision(
    shelf: Shelf,
    clock: Clock,
    record: Record,
    writers: Sequence[OutputWriter],
    folder: Path | None,
    progress: Progress,
    reason: str = "",
    licence: str = "",
    wanted: Wanted | None = None,
) -> Publication:
    """Write every output of a record, freeze them on the shelf as the next revision, return it.

    Copies go into `folder` unless it is None. Whoever is told of the progress may stop it by
    raising, up to the last step; then, as after any fault, nothing is published. A further
    revision needs a `reason`; corrected readings and changed rules lend it theirs when it is
    left out. `licence` is that of the data, "" where it does not go out; another one than before
    is a change of its own, and so is it when something else is `wanted` than the last time; None
    where that is not asked about.

    Raises PublishRefused when something has to come first, when nothing changed since the last
    revision, for a folder that is not empty, and when an output cannot be written; ShelfFault
    kinds when the shelf's disk is full or may not be written to. When only the copies fail, the
    revision is published and the message says so.
    """
    fresh = next_revision(shelf, record, reason, licence, wanted)
    found = changes_of(shelf, fresh, licence, wanted)
    changes = [change.sentence for change in found]
    chosen = [change.sentence for change in found if isinstance(change, WishChange)]
    if folder is not None:
        refuse_filled(folder)
    steps = len(writers) + 1
    with shelf.publication_draft() as draft:
        outputs: list[Output] = []
        for done, writer in enumerate(writers):
            part = _Part(progress, writer.name, done, steps)
            outputs += _written(writer, fresh, shelf, draft, part)
        if not outputs:
            raise PublishRefused("There is nothing to publish.", "Choose at least the sheet.")
        progress.step(len(writers) * SHARE, steps * SHARE, f"freezing revision {fresh.revision}")
        made = Publication(
            new_id(),
            fresh.lineup.id,
            fresh.revision,
            clock.now(),
            fresh.digest,
            fresh.revision_reason,
            tuple(outputs),
        )
        shelf.add_publication(made, frozen_text(fresh, changes, licence, wanted, chosen), draft)
    if folder is not None:
        _hand_out_new(shelf, made, folder)
    return made


def next_revision(
    shelf: Shelf,
    record: Record,
    reason: str = "",
    licence: str = "",
    wanted: Wanted | None = None,
) -> Record:
    """Return the record as its next revision, for writers and cards; nothing is published by it.

    Raises PublishRefused as `publish_revision` does.
    """
    check_ready(record)
    published = shelf.publications(record.lineup.id)
    standing = revision_of(published, record.digest)
    if not standing.draft and chosen_since(shelf, record, licence, wanted):
        standing = replace(standing, revision=standing.revision + 1)
    elif not standing.draft:
        raise PublishRefused(
            f"Nothing changed since revision {standing.revision} was published.",
            "Hand out that one again, or correct what is wrong first.",
        )
    fresh = replace(record, revision=standing.revision, draft=False, revision_reason="")
    if standing.revision == 1:
        return fresh
    changes = changes_of(shelf, fresh, licence, wanted)
    why = " ".join(reason.split()) or _reasons(changes)
    if not why:
        raise PublishRefused(
            f"Revision {standing.revision} needs its reason.",
            "Say in a few words why there is a further revision; viewers read it.",
        )
    lines = published_lines(shelf, published, fresh.revision)
    corrected = [change.sentence for change in changes if not isinstance(change, WishChange)]
    if corrected or not changes:  # a wish alone corrects nothing, so the sheet has no line for it
        lines = (*lines, revision_line(fresh.revision, why, corrected))
    return replace(fresh, revision_reason=why, revision_lines=lines)


def chosen_since(
    shelf: Shelf, record: Record, licence: str, wanted: Wanted | None = None
) -> tuple[LicenceChange | WishChange, ...]:
    """Return what of a published record would go out otherwise than it did the last time."""
    following = replace(record, revision=record.revision + 1)
    found = changes_of(shelf, following, licence, wanted)
    return tuple(c for c in found if isinstance(c, (LicenceChange, WishChange)))


def changes_of(
    shelf: Shelf, record: Record, licence: str = "", wanted: Wanted | None = None
) -> tuple[Change, ...]:
    """Return what differs in a record from the last revision published before it; none at first.

    `licence` is that of the data, "" where it is not asked about; nor are wishes where `wanted`
    is None.
    """
    earlier = [p for p in shelf.publications(record.lineup.id) if p.revision < record.revision]
    if not earlier:
        return ()
    last = thawed(shelf.published_record(record.lineup.id, earlier[-1].revision))
    return changed_between(last, frozen(record, licence=licence, wanted=wanted))


def hand_out(shelf: Shelf, publication: Publication, folder: Path) -> tuple[Path, ...]:
    """Copy every file of a revision into a new folder, byte for byte, and return the paths.

    Raises PublishRefused for a folder that is not empty or cannot be written to; ShelfDamaged
    when a file on the shelf is gone or no longer what was published.
    """
    refuse_filled(folder)
    made: list[Path] = []
    new = not folder.exists()
    try:
        for output in publication.outputs:
            data = shelf.publication_file(publication.lineup_id, publication.revision, output.name)
            path = folder / output.name
            path.parent.mkdir(parents=True, exist_ok=True)
            made.append(path)
            path.write_bytes(data)
    except BaseException as fault:
        _take_back(folder, made, new=new)
        if not isinstance(fault, OSError):
            raise
        why = fault.strerror or str(fault)
        raise PublishRefused(
            f"The files could not be copied to {folder} ({why}).",
            "Choose another folder, with room in it.",
        ) from fault
    return tuple(made)


def refuse_filled(folder: Path) -> None:
    """Raise PublishRefused for a folder that has something in it, or is none."""
    try:
        filled = folder.exists() and (not folder.is_dir() or any(folder.iterdir()))
    except OSError as fault:
        raise PublishRefused(
            f"{folder} cannot be looked into ({fault.strerror or fault}).", "Choose a new folder."
        ) from fault
    if filled:
        raise PublishRefused(
            f"{folder} is there already and is not an empty folder.", "Choose a new folder."
        )


def _written(
    writer: OutputWriter, record: Record, shelf: Shelf, draft: Path, progress: Progress
) -> list[Output]:
    try:
        names = writer.write(record, shelf, draft, progress)
        return [_output(draft, name, writer.kind) for name in names]
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise PublishRefused(
            f"The {writer.name} could not be written ({why}); nothing was published.",
            "See that the shelf's disk has room and may be written to, then publish again.",
        ) from fault


def _output(draft: Path, name: str, kind: str) -> Output:
    inside = PurePosixPath(name)
    if inside.is_absolute() or ".." in inside.parts:
        raise OurFault(f"'{name}' lies outside the folder to publish.")
    path = draft / name
    with path.open("rb") as file:
        digest = hashlib.file_digest(file, "sha256").hexdigest()
    return Output(name, kind, digest, path.stat().st_size)


def _reasons(changes: Sequence[Change]) -> str:
    """Return the reasons that corrections and changed rules were given, each once.

    A changed licence is a reason of its own; wishes are one where the record is unchanged.
    """
    told = [c.reason for c in changes if isinstance(c, (ReadingChange, RuleChange))]
    told += [f"licence of the data: {c.new}" for c in changes if isinstance(c, LicenceChange)]
    if all(isinstance(c, (LicenceChange, WishChange)) for c in changes):
        told += [c.in_passing for c in changes if isinstance(c, WishChange)]
    return "; ".join(dict.fromkeys(filter(None, told)))


def _hand_out_new(shelf: Shelf, made: Publication, folder: Path) -> None:
    try:
        hand_out(shelf, made, folder)
    except PublishRefused as fault:
        raise PublishRefused(
            f"Revision {made.revision} is published and on the shelf, yet: {fault.what}",
            "Hand it out again into another folder.",
        ) from fault


def _take_back(folder: Path, made: Iterable[Path], *, new: bool) -> None:
    """Take away what was copied before a fault, and the folder when it was made for that."""
    if new:
        shutil.rmtree(folder, ignore_errors=True)
        return
    for path in made:
        path.unlink(missing_ok=True)
