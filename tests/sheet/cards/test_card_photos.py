"""Photos for title pictures: upright, cut from their middle, on a plain ground; and 1280 by 720."""

from __future__ import annotations

import io
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from benchlog.errors import ShelfDamaged
from benchlog.sheet.cards.card import Card, PhotoArea, Plate, Words
from benchlog.sheet.cards.faults import faults
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.look import BAND, HEIGHT, PLATE, PLAYERS_CORNER, WIDTH, Area, Margin
from benchlog.sheet.cards.photos import photo_for, readable
from benchlog.sheet.cards.png import card_as_image
from benchlog.sheet.cards.title_picture import (
    STATIONS,
    OneNumber,
    photo_of,
    photos_wanted,
    title_pictures,
)
from benchlog.sheet.cards.told import Deck
from tests.sheet.cards.card_scenes import pictured, texts

RED, BLUE = (200, 30, 30), (30, 30, 200)


def halves(size: tuple[int, int] = (60, 40)) -> Image.Image:
    """Red on the left, blue on the right."""
    image = Image.new("RGB", size, RED)
    image.paste(BLUE, (size[0] // 2, 0, *size))
    return image


def saved(image: Image.Image, kind: str = "PNG", **more: object) -> bytes:
    out = io.BytesIO()
    image.save(out, kind, **more)
    return out.getvalue()


def area(width: float, height: float) -> PhotoArea:
    return PhotoArea(Area(0, 0, width, height), "p", "photo of Moss")


def test_photo_is_turned_as_the_camera_says() -> None:
    # EXIF 2.32, tag 0x0112: 6 means that the top of the scene lies at the right of the picture.
    exif = Image.Exif()
    exif[0x0112] = 6
    found = readable(["p"], lambda _: saved(halves(), "JPEG", quality=95, exif=exif))["p"]
    assert found.size == (40, 60)
    top, bottom = (found.getpixel((20, y)) for y in (5, 55))
    assert top[0] > 150 > top[2]
    assert bottom[2] > 150 > bottom[0]


def test_large_photo_is_made_small_once() -> None:
    found = readable(["p"], lambda _: saved(halves((2400, 1200)), "JPEG"))["p"]
    assert found.size == (1600, 800)


def test_see_through_photo_stands_on_a_plain_ground() -> None:
    clear = Image.new("RGBA", (30, 30), (*RED, 0))
    found = readable(["p"], lambda _: saved(clear))["p"]
    assert found.mode == "RGB"
    assert found.getpixel((5, 5)) == tuple(int(BAND[n : n + 2], 16) for n in (1, 3, 5))


@pytest.mark.parametrize("mode", ["L", "P", "RGBA", "1", "LA"])
def test_every_kind_of_pixel_is_read(mode: str) -> None:
    image = halves().convert("L").convert(mode) if mode in ("LA", "1") else halves().convert(mode)
    assert readable(["p"], lambda _: saved(image))["p"].mode == "RGB"


@pytest.mark.parametrize(
    "data", [b"", b"no picture", saved(halves())[:60], saved(halves(), "JPEG")[:100]]
)
def test_damaged_photo_is_left_out(data: bytes) -> None:
    assert readable(["p"], lambda _: data) == {}


def test_photo_that_is_gone_is_left_out() -> None:
    def one_of(photo_id: str) -> bytes:
        if photo_id == "gone":
            raise ShelfDamaged("The photo is gone.", "Restore it.")
        return saved(halves())

    assert set(readable(["gone", "kept"], one_of)) == {"kept"}


@pytest.mark.parametrize("height", [720, 1080, 2160])
def test_cut_is_as_large_as_its_area(height: int) -> None:
    cut = photo_for(area(330, 501), {"p": halves()}, height)
    scale = height / HEIGHT
    assert cut.image.size == (round(330 * scale), round(501 * scale))


def test_cut_is_from_the_middle() -> None:
    cut = photo_for(area(200, 400), {"p": halves((900, 300))}, 1080).image
    left, right = cut.getpixel((10, 200)), cut.getpixel((190, 200))
    assert (left, right) == (RED, BLUE)


def test_file_of_a_cut_carries_no_notes() -> None:
    exif = Image.Exif()
    exif[0x010F] = "camera"
    photos = readable(["p"], lambda _: saved(halves(), "JPEG", exif=exif))
    with Image.open(io.BytesIO(photo_for(area(90, 60), photos, 1080).png)) as read:
        assert (read.format, read.size) == ("PNG", (90, 60))
        assert not read.getexif()
        assert not read.info.get("exif")


def test_photo_not_given_is_an_error() -> None:
    with pytest.raises(KeyError):
        photo_for(area(90, 60), {}, 1080)


def deck_of(count: int, margin: Margin = Margin.FIVE) -> tuple[Deck, list[str]]:
    shown, _ = pictured(count)
    return Deck(shown, Frame(margin)), [p.id for p in shown.photos]


def photos_on(card: Card) -> list[PhotoArea]:
    return [item for item in card.items if isinstance(item, PhotoArea)]


def test_cut_element_is_shown_first() -> None:
    deck, ids = deck_of(1)
    specimen = deck.record.lineup.specimens[0]
    by_id = {p.id: p for p in deck.record.photos}
    assert by_id[photo_of(deck, specimen, ids)].station == "element"
    outside = [p for p in ids if by_id[p].station == "outside"]
    assert by_id[photo_of(deck, specimen, outside)].station == "outside"
    assert photo_of(deck, specimen, []) == ""


def test_any_photo_will_do_at_last() -> None:
    deck, ids = deck_of(1)
    photos = tuple(replace(p, station="thread") for p in deck.record.photos)
    other = replace(deck, record=replace(deck.record, photos=photos))
    assert photo_of(other, deck.record.lineup.specimens[0], ids) == photos[0].id
    assert photos_wanted(other.record) == []


def test_wanted_photos_are_those_of_the_stations() -> None:
    shown, _ = pictured(2)
    wanted = photos_wanted(shown)
    stations = {p.id: p.station for p in shown.photos}
    assert len(wanted) == len(set(wanted)) == 4
    assert {stations[one] for one in wanted} <= set(STATIONS)


@pytest.mark.parametrize(
    ("count", "sets"), [(1, [1]), (2, [2]), (3, [3]), (4, [2, 2]), (5, [3, 2]), (6, [3, 3])]
)
def test_three_at_most_stand_on_one_picture(count: int, sets: list[int]) -> None:
    deck, ids = deck_of(count)
    cards = title_pictures(deck, ids)
    assert [len(photos_on(card)) for card in cards] == sets
    assert len({card.name for card in cards}) == len(sets)
    assert all(card.heights == (720,) and card.opaque for card in cards)


@pytest.mark.parametrize("margin", Margin)
@pytest.mark.parametrize("count", [1, 2, 3])
def test_photos_are_alike_and_apart(count: int, margin: Margin) -> None:
    deck, ids = deck_of(count, margin)
    (card,) = title_pictures(deck, ids, OneNumber("exposed_area", "s1"))
    areas = [photo.area for photo in photos_on(card)]
    assert len({(round(a.width, 6), round(a.height, 6)) for a in areas}) == 1
    assert not any(a.meets(b) for n, a in enumerate(areas) for b in areas[n + 1 :])
    assert min(a.height for a in areas) > 0.3 * HEIGHT
    assert faults(card) == []
    assert "1293.5 ± 8.0 cm²" in texts(card)
    assert not any(PLAYERS_CORNER.meets(a) for a in areas)


def test_picture_is_read_back_as_1280_by_720() -> None:
    shown, shelf = pictured(2)
    photos = readable([p.id for p in shown.photos], shelf.photo_bytes)
    (card,) = title_pictures(Deck(shown, Frame()), photos)
    drawn = np.asarray(card_as_image(card, 720, photos))
    assert drawn.shape == (720, 1280, 4)
    assert (drawn[..., 3] == 255).all()
    ground = card.items[0]
    assert isinstance(ground, Plate)
    assert ground.area == Area(0, 0, WIDTH, HEIGHT)
    assert tuple(drawn[5, 5][:3]) == tuple(int(PLATE[n : n + 2], 16) for n in (1, 3, 5))


def test_names_on_it_are_plain_at_720() -> None:
    deck, ids = deck_of(2)
    (card,) = title_pictures(deck, ids)
    names = [item for item in card.items if isinstance(item, Words)]
    assert {name.said for name in names} == {"Alder", "Birch"}
    # In a list of videos the picture is small: names get 60 of its own 720 lines at least.
    assert min(name.size for name in names) * 720 / HEIGHT >= 60
