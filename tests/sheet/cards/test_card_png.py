"""PNG cards by their pixels: straight alpha, margins, one layout at both sizes, same bytes."""

from __future__ import annotations

import io
import json
from functools import cache

import numpy as np
import pytest
from PIL import Image

from benchlog.sheet.cards.card import Card, Mark, PhotoArea, Plate
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.look import INK, PLATE, Area, Margin
from benchlog.sheet.cards.paths import circle
from benchlog.sheet.cards.photos import readable
from benchlog.sheet.cards.png import card_as_image, card_as_png
from benchlog.sheet.cards.title_picture import title_pictures
from benchlog.sheet.cards.told import Deck
from tests.sheet.cards.card_scenes import named, pictured, sample_cards

KINDS = (
    "disclosure", "lower_third_circle", "number_exposed_area_triangle",
    "side_by_side_exposed_area", "award_can", "award_gasket", "correction_1", "stand_in",
    "stand_in_caution_1",
)  # fmt: skip


@cache
def pixels(name: str, height: int = 1080, margin: Margin = Margin.FIVE) -> np.ndarray:
    return np.asarray(card_as_image(named(sample_cards("metric", margin), name), height, {}))


def colours(shown: np.ndarray) -> set[tuple[int, ...]]:
    """Every colour among some pixels, whatever their alpha."""
    red, green, blue = (shown[..., n].astype(np.uint32) for n in range(3))
    packed = np.flatnonzero(np.bincount(((red << 16) | (green << 8) | blue).ravel()))
    return {(int(c) >> 16, int(c) >> 8 & 255, int(c) & 255) for c in packed}


@pytest.mark.parametrize("name", KINDS)
def test_edges_keep_their_colour(name: str) -> None:
    # A card whose plate has the rim's colour at every edge: with straight alpha no pixel that is
    # partly or wholly clear may be of any other colour.
    shown = pixels(name)
    assert shown.shape == (1080, 1920, 4)
    clear = shown[shown[..., 3] < 255]
    assert len(clear) > 100_000
    assert colours(clear) == {(0x14, 0x19, 0x1E)}
    assert (shown[..., 3] == 255).sum() > 100_000


def test_half_covered_pixels_are_not_darkened() -> None:
    free = Card("free", "", (Mark(circle(960, 540, 100.3), "#b35c00", "tag"),), "")
    shown = np.asarray(card_as_image(free, 1080, {}))
    edge = shown[(shown[..., 3] > 0) & (shown[..., 3] < 255)]
    assert len(edge) > 300
    assert colours(edge) == {(0xB3, 0x5C, 0x00)}


@pytest.mark.parametrize("margin", Margin)
@pytest.mark.parametrize("name", KINDS)
def test_margins_and_corner_stay_clear(name: str, margin: Margin) -> None:
    alpha = pixels(name, 1080, margin)[..., 3]
    rows, columns = np.nonzero(alpha)
    x, y = round(1920 * margin.value), round(1080 * margin.value)
    assert columns.min() >= x
    assert columns.max() < 1920 - x
    assert rows.min() >= y
    assert rows.max() < 1080 - y
    assert not alpha[886:, 1568:].any()


@pytest.mark.parametrize("name", ["award_can", "side_by_side_exposed_area"])
def test_both_sizes_have_one_layout(name: str) -> None:
    large = pixels(name, 2160)
    assert large.shape == (2160, 3840, 4)
    summed = sum(large[n::2, m::2].astype(np.int16) for n in (0, 1) for m in (0, 1))
    off = np.abs(summed - 4 * pixels(name).astype(np.int16)).max(axis=2)
    assert (off > 4 * 48).mean() < 0.0005


def test_capitals_measure_sixty_lines() -> None:
    shown = pixels("disclosure")
    card = named(sample_cards(), "disclosure")
    paid = next(i for i in card.items if getattr(i, "said", "") == "Who paid")
    left, line = round(paid.x), round(paid.baseline)
    dark = shown[line - 90 : line + 30, left : left + 60, :3].mean(axis=2) < 140
    assert 60 <= dark.any(axis=1).sum() <= 62


def test_same_card_gives_the_same_bytes() -> None:
    card = named(sample_cards(), "number_exposed_area_triangle")
    assert card_as_png(card, 1080, {}) == card_as_png(card, 1080, {})


def test_file_tells_what_it_shows() -> None:
    card = named(sample_cards(), "number_exposed_area_triangle")
    with Image.open(io.BytesIO(card_as_png(card, 1080, {}))) as image:
        assert (image.mode, image.size) == ("RGBA", (1920, 1080))
        assert image.text["Title"] == card.title
        assert image.text["Description"] == card.spoken
        assert tuple(json.loads(image.text["Readings"])) == card.readings


def test_plate_is_sharp_and_as_large_as_said() -> None:
    card = Card("plate", "", (Plate(Area(100, 200, 300, 260), PLATE),), "")
    for height, size in ((1080, 200 * 60), (2160, 400 * 120)):
        alpha = np.asarray(card_as_image(card, height, {}))[..., 3]
        assert (alpha == 255).sum() == size
        assert (alpha == 0).sum() + size == alpha.size


def test_title_picture_is_opaque_and_shows_its_photos() -> None:
    shown, shelf = pictured(3)
    photos = readable([p.id for p in shown.photos], shelf.photo_bytes)
    (card,) = title_pictures(Deck(shown, Frame()), photos)
    picture = card_as_image(card, 720, photos)
    assert picture.size == (1280, 720)
    drawn = np.asarray(picture)
    assert (drawn[..., 3] == 255).all()
    for item in card.items:
        if isinstance(item, PhotoArea):
            area = item.area
            inside = drawn[round(area.top / 1.5) + 200, round(area.left / 1.5) + 60]
            assert tuple(inside[:3]) not in {(0xF6, 0xF7, 0xF8), (0x14, 0x19, 0x1E)}


def test_pictures_that_cannot_be_read_are_left_out() -> None:
    shown, shelf = pictured(2)
    first, *others = [p.id for p in shown.photos]

    def some(photo_id: str) -> bytes:
        if photo_id == first:
            return b"no picture"
        return shelf.photo_bytes(photo_id)

    assert set(readable([first, *others], some)) == set(others)


def test_ink_is_the_colour_of_clear_pixels() -> None:
    empty = Card("empty", "", (), "")
    shown = np.asarray(card_as_image(empty, 1080, {}))
    assert not shown[..., 3].any()
    assert colours(shown) == {tuple(int(INK[n : n + 2], 16) for n in (1, 3, 5))}
