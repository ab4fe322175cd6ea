from __future__ import annotations

import hashlib
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from benchlog.errors import PictureRefused
from benchlog.shelf import SqlShelf
from benchlog.tasks.photos import add_photo, looked_at
from tests.small_trade import HandClock


def picture(kind: str = "PNG", size: tuple[int, int] = (40, 30)) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", size, "#806040").save(out, kind)
    return out.getvalue()


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "TIFF", "WEBP", "BMP"])
def test_picture_lies_on_the_shelf_unchanged(shelf: SqlShelf, clock: HandClock, kind: str) -> None:
    data = picture(kind)
    photo = add_photo(shelf, clock, "l-1", "s-a", "outside", "front", data)
    assert photo.id == hashlib.sha256(data).hexdigest()
    assert (photo.width, photo.height) == (40, 30)
    assert shelf.photo_bytes(photo.id) == data
    assert shelf.photos("l-1") == [photo]


def test_a_phones_several_pictures_are_a_jpeg() -> None:
    """Phones put a second picture behind the first; whatever opens a JPEG shows the first."""
    out = io.BytesIO()
    first, second = (Image.new("RGB", (40, 30), ink) for ink in ("#806040", "#204060"))
    first.save(out, "MPO", save_all=True, append_images=[second])
    assert looked_at("bag.jpg", out.getvalue()) == ("image/jpeg", 40, 30)


def test_what_is_no_picture_is_refused(shelf: SqlShelf, clock: HandClock) -> None:
    for data in (b"", b"hello", picture()[:40], picture("JPEG")[:10]):
        with pytest.raises(PictureRefused, match="bag\\.jpg"):
            add_photo(shelf, clock, "l-1", "s-a", "outside", "bag.jpg", data)
    assert shelf.photos("l-1") == []


@given(st.binary(max_size=200), st.integers(0, 60))
def test_hostile_bytes_are_refused_in_plain_words(noise: bytes, keep: int) -> None:
    data = picture()[:keep] + noise
    refusal = None
    found = ("image/png", 1, 1)
    try:
        found = looked_at("odd.png", data)
    except PictureRefused as refused:
        refusal = refused
    assert found[0] == "image/png"
    assert min(found[1:]) > 0
    assert refusal is None or refusal.do
