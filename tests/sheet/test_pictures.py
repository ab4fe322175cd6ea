from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from pypdf import PdfReader

from benchlog.errors import ShelfDamaged
from benchlog.sheet.pictures import UNREADABLE, Shrunk, downscaled, prepare
from tests.sheet.reading_back import words, write
from tests.sheet.sample_record import PictureShelf, Told, photos, picture_bytes, record

BOX = (160.0, 120.0)


def opened(data: bytes) -> Image.Image:
    return Image.open(io.BytesIO(data))


def saved(image: Image.Image, kind: str, **more: object) -> bytes:
    out = io.BytesIO()
    image.save(out, kind, **more)
    return out.getvalue()


def test_shrinks_to_print_size() -> None:
    jpeg, width, height = downscaled(picture_bytes(1, (4000, 3000)), BOX)
    assert opened(jpeg).size == (width, height)
    # 160 pt at 200 dots an inch
    assert (width, height) == (444, 333)


def test_small_picture_is_not_blown_up() -> None:
    _, width, height = downscaled(picture_bytes(1, (120, 90)), BOX)
    assert (width, height) == (120, 90)


def test_turns_as_the_camera_noted() -> None:
    image = Image.new("RGB", (800, 400), "white")
    image.paste("red", (0, 0, 400, 400))
    notes = image.getexif()
    notes[0x0112] = 6  # Exif 2.3, Orientation: the row 0 is the right-hand side
    jpeg, width, height = downscaled(saved(image, "JPEG", exif=notes), BOX)
    assert height > width
    turned = opened(jpeg)
    top, bottom = (turned.getpixel((width // 2, y)) for y in (height // 4, 3 * height // 4))
    assert top[0] > 200
    assert top[1] < 100
    assert min(bottom) > 200


def test_leaves_the_camera_notes_behind() -> None:
    image = Image.open(io.BytesIO(picture_bytes(2)))
    notes = image.getexif()
    notes[0x010E] = "shot at home"
    data = saved(image, "JPEG", exif=notes, comment=b"a secret")
    jpeg, _, _ = downscaled(data, BOX)
    assert b"secret" in data
    assert b"secret" not in jpeg
    assert b"shot at home" not in jpeg
    assert not opened(jpeg).getexif()


@pytest.mark.parametrize("mode", ["L", "LA", "P", "RGBA", "1", "I;16", "CMYK"])
def test_any_colours_become_plain(mode: str) -> None:
    kind = "TIFF" if mode == "CMYK" else "PNG"
    jpeg, _, _ = downscaled(saved(Image.new(mode, (60, 40)), kind), BOX)
    assert opened(jpeg).mode == "RGB"


def test_see_through_lies_on_white() -> None:
    clear = Image.new("RGBA", (60, 40), (255, 0, 0, 0))
    jpeg, _, _ = downscaled(saved(clear, "PNG"), BOX)
    assert min(opened(jpeg).getpixel((30, 20))) > 250


@given(st.binary(max_size=400))
def test_noise_is_unreadable_not_worse(data: bytes) -> None:
    with pytest.raises(UNREADABLE):
        downscaled(data, BOX)


@settings(max_examples=40)
@given(st.integers(0, 4000), st.binary(min_size=1, max_size=60))
def test_damaged_picture_never_escapes(at: int, junk: bytes) -> None:
    data = bytearray(picture_bytes(3, (200, 150)))
    data[at : at + len(junk)] = junk
    try:
        jpeg, width, height = downscaled(bytes(data), BOX)
    except UNREADABLE:
        return
    assert opened(jpeg).size == (width, height)


class DamagedShelf(PictureShelf):
    def photo_bytes(self, photo_id: str) -> bytes:
        raise ShelfDamaged(f"The file of picture {photo_id} is gone.")


def test_unreadable_pictures_leave_labelled_frames(tmp_path: Path) -> None:
    sample = record()
    made, shelf = photos(sample.lineup.specimens, ("outside",))
    broken = PictureShelf({made[0].id: b"not a picture", made[1].id: shelf.photo_bytes(made[1].id)})
    text = words(write(replace(sample, photos=made), tmp_path, "A4", broken))
    assert "cannot be read: s1-outside.jpg" in text
    assert "cannot be read: s3-outside.jpg" in text
    assert "cannot be read: s2-outside.jpg" not in text


def test_shelf_fault_leaves_frames_too(tmp_path: Path) -> None:
    sample = record()
    made, _ = photos(sample.lineup.specimens, ("outside",))
    text = words(write(replace(sample, photos=made), tmp_path, "A4", DamagedShelf({})))
    assert text.count("cannot be read") == 2 * len(made)  # first page and photo page


def test_missing_station_says_so(tmp_path: Path) -> None:
    sample = record()
    made, shelf = photos(sample.lineup.specimens, ("cut",))
    text = words(write(replace(sample, photos=made[:2]), tmp_path, "A4", shelf))
    assert text.count("no picture here") == 1
    assert "The cut" in text


def test_same_picture_is_kept_once(tmp_path: Path) -> None:
    sample = record()
    made, shelf = photos(sample.lineup.specimens, ("outside",))
    reader = PdfReader(write(replace(sample, photos=made), tmp_path, "A4", shelf))
    images = {
        o.indirect_reference.idnum
        for page in reader.pages
        for o in (x.get_object() for x in page["/Resources"].get("/XObject", {}).values())
        if o["/Subtype"] == "/Image"
    }
    assert len(images) == len(made)


def test_a_picture_of_two_stands_with_both() -> None:
    """As the shelf keeps it: one file, and a record of it at every place."""
    sample = record()
    (made, *_), shelf = photos(sample.lineup.specimens, ("outside",))
    one, other = sample.lineup.specimens[:2]
    both = tuple(replace(made, specimen_id=s.id, caption=s.nickname) for s in (one, other))
    kept = prepare(replace(sample, photos=both), shelf, BOX, Told(), 9)  # type: ignore[arg-type]
    assert [[p.photo for p in kept.at("outside", s.id)] for s in (one, other)] == [
        [photo] for photo in both
    ]
    found = kept.of(made.id, other.id)
    assert found is not None
    assert found.photo.caption == other.nickname
    assert kept.without({made.id}).stations() == []


def test_best_picture_stands_first() -> None:
    made, shelf = photos(record().lineup.specimens, ("outside", "cut"))
    broken = PictureShelf({p.id: shelf.photo_bytes(p.id) for p in made if p.station == "cut"})
    kept = prepare(replace(record(), photos=made), broken, BOX, Told(), 9)  # type: ignore[arg-type]
    first = kept.first_of("s1")
    assert first is not None
    assert first.photo.station == "cut"
    assert kept.first_of("nobody") is None


class CountingShelf(PictureShelf):
    """Tells which photos were read, and can lose them."""

    def __init__(self, shelf: PictureShelf) -> None:
        self._shelf, self.read, self.lost = shelf, [], False

    def photo_bytes(self, photo_id: str) -> bytes:
        self.read.append(photo_id)
        if self.lost:
            raise ShelfDamaged("The picture is gone.", "Put it back.")
        return self._shelf.photo_bytes(photo_id)


def test_photo_made_small_once_for_a_size() -> None:
    made, bare = photos(record(2).lineup.specimens, ("cut",))
    shelf, shrunk = CountingShelf(bare), Shrunk()
    first = shrunk.picture(made[0], shelf, BOX)
    assert shrunk.picture(made[0], shelf, BOX) == first
    assert shelf.read == [made[0].id]
    assert shrunk.picture(made[0], shelf, (80.0, 60.0)).width < first.width
    assert shrunk.picture(made[1], shelf, BOX).jpeg != first.jpeg


def test_new_caption_on_a_kept_picture() -> None:
    made, shelf = photos(record(1).lineup.specimens, ("cut",))
    shrunk = Shrunk()
    first = shrunk.picture(made[0], shelf, BOX)
    other = shrunk.picture(replace(made[0], caption="seen from below"), shelf, BOX)
    assert other.photo.caption == "seen from below"
    assert other.jpeg == first.jpeg


def test_unreadable_photo_is_tried_again() -> None:
    made, bare = photos(record(1).lineup.specimens, ("cut",))
    shelf, shrunk = CountingShelf(bare), Shrunk()
    shelf.lost = True
    assert shrunk.picture(made[0], shelf, BOX).jpeg == b""
    shelf.lost = False
    assert shrunk.picture(made[0], shelf, BOX).jpeg


def test_many_pictures_are_not_kept_for_ever(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Shrunk, "MOST", 2)
    made, bare = photos(record(3).lineup.specimens, ("cut",))
    shelf, shrunk = CountingShelf(bare), Shrunk()
    for photo in (*made, made[0]):
        shrunk.picture(photo, shelf, BOX)
    assert len(shelf.read) == 4
