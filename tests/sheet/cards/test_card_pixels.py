"""Outlines are laid over pixels exactly: whole ones take the colour, edges a part of it."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from benchlog.sheet.cards.card import Card, Mark, Plate
from benchlog.sheet.cards.look import INK, Area
from benchlog.sheet.cards.paths import Path
from benchlog.sheet.cards.photos import readable
from benchlog.sheet.cards.png import card_as_image, card_as_png

NONE = readable((), lambda _photo: b"")
RED, GREEN = "#c03020", "#208040"


def square(left: float, top: float, side: float) -> Path:
    right, bottom = left + side, top + side
    return (
        ("M", (left, top)), ("L", (right, top)), ("L", (right, bottom)), ("L", (left, bottom)),
        ("Z", ()),
    )  # fmt: skip


def card(*items: Plate | Mark, opaque: bool = False) -> Card:
    return Card("name", "title", items, "said", (), opaque=opaque)


def mark(path: Path, colour: str = RED) -> Mark:
    return Mark(path, colour, "test")


def pixels(*items: Plate | Mark) -> np.ndarray:
    return np.asarray(card_as_image(card(*items), 1080, NONE))


def test_whole_pixels_take_the_colour() -> None:
    shown = pixels(mark(square(100, 50, 20)))
    assert {tuple(p) for p in shown[50:70, 100:120].reshape(-1, 4)} == {(0xC0, 0x30, 0x20, 255)}
    assert shown[:, :, 3].sum() == 255 * 20 * 20


@pytest.mark.parametrize("shift", [0.25, 0.5, 0.75])
def test_edges_take_their_share(shift: float) -> None:
    shown = pixels(mark(square(100 + shift, 50, 20)))
    left, right = shown[60, 100], shown[60, 120]
    assert left[3] == round(255 * (1 - shift))
    assert right[3] == round(255 * shift)
    assert tuple(left[:3]) == (0xC0, 0x30, 0x20), (
        "a clear pixel's own colour does not shine through"
    )


def test_edge_over_a_plate_mixes_and_stays_solid() -> None:
    shown = pixels(Plate(Area(0, 0, 400, 400), GREEN), mark(square(100.5, 50, 20)))
    mixed = [0x70, 0x58, 0x30]
    assert shown[60, 100, 3] == 255
    assert np.abs(shown[60, 100, :3].astype(int) - mixed).max() <= 1


def test_later_marks_lie_on_earlier_ones() -> None:
    shown = pixels(mark(square(10, 10, 20)), mark(square(20, 20, 20), GREEN))
    assert tuple(shown[25, 25]) == (0x20, 0x80, 0x40, 255)
    assert tuple(shown[15, 15]) == (0xC0, 0x30, 0x20, 255)


def test_marks_beyond_the_edge_are_cut_there() -> None:
    shown = pixels(mark(square(-10, -10, 20)), mark(square(1910, 1070, 20), GREEN))
    assert shown[:, :, 3].sum() == 255 * (100 + 100)
    assert tuple(shown[0, 0, :3]) == (0xC0, 0x30, 0x20)
    assert tuple(shown[1079, 1919, :3]) == (0x20, 0x80, 0x40)


@pytest.mark.parametrize("opaque", [False, True])
def test_png_holds_the_same_pixels(opaque: bool) -> None:
    shown = card(Plate(Area(0, 0, 300, 300), GREEN), mark(square(99.3, 50.7, 33.1)), opaque=opaque)
    with Image.open(io.BytesIO(card_as_png(shown, 1080, NONE))) as read:
        assert np.array_equal(np.asarray(read), np.asarray(card_as_image(shown, 1080, NONE)))
        assert read.info["Title"] == "title"


def test_clear_pixels_have_the_rims_colour() -> None:
    ink = tuple(int(INK[n : n + 2], 16) for n in (1, 3, 5))
    assert tuple(pixels(mark(square(5, 5, 5)))[900, 900]) == (*ink, 0)
