"""Writing cards into a folder: a PNG and an SVG of each in every size, and what each one shows."""

from __future__ import annotations

import hashlib
import json
import tempfile
from dataclasses import dataclass
from pathlib import Path

from benchlog.errors import PublishRefused
from benchlog.sheet.cards.all_cards import CardSet, CardWishes, all_cards
from benchlog.sheet.cards.card import Card, PhotoArea
from benchlog.sheet.cards.look import HEIGHT, WIDTH
from benchlog.sheet.cards.photos import CardPhotos, PhotoBytes, readable
from benchlog.sheet.cards.png import card_as_png
from benchlog.sheet.cards.svg import card_as_svg
from benchlog.sheet.cards.title_picture import photos_wanted
from benchlog.tasks.ports import Progress
from benchlog.tasks.record import Record

SIDECAR = "cards.json"


@dataclass(frozen=True)
class WrittenCards:
    """Where the cards stand, which they are, and which would not fit."""

    folder: Path
    cards: tuple[Card, ...]
    files: tuple[Path, ...]
    left_out: tuple[str, ...]


def write_cards(
    record: Record,
    folder: Path,
    photo_bytes: PhotoBytes,
    progress: Progress,
    wishes: CardWishes | None = None,
    heights: tuple[int, ...] = (1080, 2160),
) -> WrittenCards:
    """Write all cards of a record into a new or empty folder, all of them or nothing.

    Each size has its folder; `heights` are those wanted of the two for the video, title pictures
    come in their own. `cards.json` tells of each card which readings it shows. What `progress`
    raises, a wish to stop, leaves nothing behind. Raises PublishRefused as `all_cards` does, for a
    folder that has something in it, and when it cannot be written.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise PublishRefused(
            f"{folder.name} is there already and is not an empty folder.", "Choose a new folder."
        )
    photos = readable(photos_wanted(record), photo_bytes)
    made = all_cards(record, wishes, photos)
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=folder.parent, prefix=".being-written-") as place:
            new = Path(place) / "cards"
            new.mkdir()
            names = _write(made, record, new, photos, progress, heights)
            if folder.exists():
                folder.rmdir()
            new.rename(folder)
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise PublishRefused(
            f"{folder.name} cannot be written ({why}).", "Choose another place."
        ) from fault
    return WrittenCards(folder, made.cards, tuple(folder / n for n in names), made.left_out)


def file_name(card: Card, place: int, of: int) -> str:
    """Return a card's file stem: "01_disclosure"; as many digits as sort it into its place."""
    digits = max(2, len(str(of)))
    return f"{place:0{digits}d}_{card.name}"


def _write(
    made: CardSet,
    record: Record,
    folder: Path,
    photos: CardPhotos,
    progress: Progress,
    heights: tuple[int, ...],
) -> list[str]:
    total = len(made.cards)
    names: list[str] = []
    told: list[dict[str, object]] = []
    for place, card in enumerate(made.cards, start=1):
        progress.step(place - 1, total, card.title)
        stem = file_name(card, place, total)
        files = {}
        for height in card.heights if card.opaque else [h for h in card.heights if h in heights]:
            size = f"{round(height * WIDTH / HEIGHT)}x{height}"
            (folder / size).mkdir(exist_ok=True)
            for ending, data in (
                ("png", card_as_png(card, height, photos)),
                ("svg", card_as_svg(card, height, photos).encode()),
            ):
                name = f"{size}/{stem}.{ending}"
                (folder / name).write_bytes(data)
                files[name] = hashlib.sha256(data).hexdigest()
        names += files
        told.append(_entry(card, files))
    about = {
        "lineup": record.lineup.name,
        "revision": record.revision,
        "digest": record.digest,
        "cards": told,
        "left_out": list(made.left_out),
    }
    text = json.dumps(about, ensure_ascii=False, indent=1) + "\n"
    (folder / SIDECAR).write_bytes(text.encode("utf-8", "replace"))
    progress.step(total, total, "done")
    return [*names, SIDECAR]


def _entry(card: Card, files: dict[str, str]) -> dict[str, object]:
    return {
        "title": card.title,
        "says": card.spoken,
        "readings": list(card.readings),
        "photos": [item.photo_id for item in card.items if isinstance(item, PhotoArea)],
        "shortened": list(card.shortened),
        "files": files,
    }
