"""SVG cards: well formed, alone, with their words as text and as outlines that match the PNG."""

from __future__ import annotations

import json
import re
from xml.etree import ElementTree

import pytest

from benchlog.sheet.cards.card import Card, Mark, Words
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.look import INK
from benchlog.sheet.cards.paths import bounds, circle
from benchlog.sheet.cards.photos import readable
from benchlog.sheet.cards.svg import card_as_svg, path_data
from benchlog.sheet.cards.title_picture import title_pictures
from benchlog.sheet.cards.told import Deck
from tests.sheet.cards.card_scenes import named, pictured, sample_cards

SVG = "{http://www.w3.org/2000/svg}"
NAMESPACE = "http://www.w3.org/2000/svg"


def test_every_card_is_well_formed_and_refers_to_nothing() -> None:
    for card in sample_cards().cards:
        if card.opaque:
            continue
        text = card_as_svg(card, 1080, {})
        root = ElementTree.fromstring(text)
        assert root.tag == f"{SVG}svg"
        assert root.find(f"{SVG}title").text == card.title
        assert not re.search(r"href|url\(|<text|<style|font", re.sub(r"<(title|desc)>.*", "", text))
        assert set(re.findall(r"https?://[^\"]+", text)) == {NAMESPACE}


def test_readings_stand_in_the_metadata() -> None:
    card = named(sample_cards(), "number_exposed_area_triangle")
    root = ElementTree.fromstring(card_as_svg(card, 1080, {}))
    told = json.loads(root.find(f"{SVG}metadata").text)
    assert tuple(told["readings"]) == card.readings


@pytest.mark.parametrize(("height", "width"), [(1080, 1920), (2160, 3840)])
def test_size_changes_and_layout_does_not(height: int, width: int) -> None:
    card = named(sample_cards(), "award_can")
    root = ElementTree.fromstring(card_as_svg(card, height, {}))
    assert (root.get("width"), root.get("height")) == (str(width), str(height))
    assert root.get("viewBox") == "0 0 1920 1080"
    usual = ElementTree.fromstring(card_as_svg(card, 1080, {}))
    drawn = [element.attrib for element in root]
    assert drawn == [element.attrib for element in usual]


def test_each_item_is_drawn_where_it_stands() -> None:
    card = named(sample_cards(), "award_can")
    root = ElementTree.fromstring(card_as_svg(card, 1080, {}))
    paths = [e.get("d") for e in root.iter(f"{SVG}path")]
    items = [i for i in card.items if isinstance(i, Words | Mark)]
    assert len(paths) == len(items)
    for data, item in zip(paths, items, strict=True):
        numbers = list(map(float, re.findall(r"-?\d+(?:\.\d+)?", data)))
        area = bounds(item.outline)
        assert area is not None
        assert min(numbers[::2]) == pytest.approx(area.left, abs=0.01)
        assert max(numbers[1::2]) == pytest.approx(area.bottom, abs=0.01)


def test_steps_are_written_to_hundredths() -> None:
    assert path_data((("M", (1.23456, 2)), ("Q", (3, 4, 1000.126, 6)), ("Z", ()))) == (
        "M1.23 2Q3 4 1000.13 6Z"
    )


def test_photos_stand_inside_the_file() -> None:
    shown, shelf = pictured(2)
    photos = readable([p.id for p in shown.photos], shelf.photo_bytes)
    (card,) = title_pictures(Deck(shown, Frame()), photos)
    root = ElementTree.fromstring(card_as_svg(card, 720, photos))
    images = list(root.iter(f"{SVG}image"))
    assert len(images) == 2
    assert all(i.get("href").startswith("data:image/png;base64,") for i in images)
    assert images[0].get("aria-label") == "photo of Alder"


def test_words_that_xml_cannot_hold_are_kept_out() -> None:
    nasty = "a\x00b\ud800c <script>&\"'"
    card = Card("n", nasty, (Mark(circle(9, 9, 3), INK, "tag"),), nasty)
    root = ElementTree.fromstring(card_as_svg(card, 1080, {}))
    assert root.find(f"{SVG}desc").text == "a b c <script>&\"'"
