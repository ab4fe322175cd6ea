"""Cards read back from their files: shapes and pixels agree, and every number is the record's."""

from __future__ import annotations

import io
import re
from functools import cache
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from benchlog.settings import UNITS_SHOWN
from benchlog.sheet.cards.all_cards import CardWishes, all_cards
from benchlog.sheet.cards.card import Card, Item, Mark, Plate, Words, ink_of
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.letters import BOLD, REGULAR
from benchlog.sheet.cards.look import DEEP, INK, PLATE, QUIET, Area
from benchlog.sheet.cards.paths import Path, Step, around, circle, ring
from benchlog.sheet.cards.png import card_as_image, card_as_png
from benchlog.sheet.cards.svg import card_as_svg, path_data
from benchlog.sheet.cards.told import Deck, label, seen, unlike_words
from tests.sheet.cards.card_scenes import named, sample_cards, texts
from tests.sheet.sample_record import record
from tests.tasks.sample_records import sample_record

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
STEP = re.compile(r"([MLQCZ])([^MLQCZ]*)")
DIGITS = re.compile(r"\d+\.\d+|\d+")


def path_of(data: str) -> Path:
    """The attribute d of a path as the steps that it was written from."""
    return tuple(
        (step, tuple(float(n) for n in NUMBER.findall(numbers)))
        for step, numbers in STEP.findall(data)
    )


def items_of(text: str) -> list[Item]:
    """What an SVG draws, as items in their order."""
    found: list[Item] = []
    for element in ElementTree.fromstring(text):
        if element.tag == f"{SVG}rect":
            x, y, w, h = (float(element.get(n, "")) for n in ("x", "y", "width", "height"))
            found.append(Plate(Area(x, y, x + w, y + h), element.get("fill", "")))
        elif element.tag == f"{SVG}path":
            found.append(Mark(path_of(element.get("d", "")), element.get("fill", ""), "read"))
    return found


@cache
def of_three() -> tuple[Card, ...]:
    return all_cards(record(3)).cards


@pytest.mark.parametrize(
    "name",
    ["disclosure", "lower_third_triangle", "side_by_side_can_wall", "number_can_wall_circle",
     "award_can", "award_media", "correction_1"],
)  # fmt: skip
def test_shapes_of_the_svg_give_the_pixels_of_the_png(name: str) -> None:
    card = next(c for c in of_three() if c.name == name)
    again = Card(name, "", tuple(items_of(card_as_svg(card, 1080, {}))), "")
    ours, theirs = (np.asarray(card_as_image(c, 1080, {})).astype(int) for c in (card, again))
    # Hundredths in the file move an edge by so little that no step of colour is more than a few.
    assert np.abs(ours - theirs).max() <= 8


@pytest.mark.parametrize("name", ["award_can", "side_by_side_mass"])
def test_drawing_order_is_the_items(name: str) -> None:
    card = next(c for c in all_cards(record(3), CardWishes(subjects=("mass",))).cards
                if c.name == name)  # fmt: skip
    read = items_of(card_as_svg(card, 1080, {}))
    assert len(read) == len(card.items)
    for item, drawn in zip(card.items, read, strict=True):
        assert isinstance(item, Plate) == isinstance(drawn, Plate)
        assert item.colour == drawn.colour
        one, other = ink_of(item), ink_of(drawn)
        assert one is not None
        assert other is not None
        assert (other.left, other.bottom) == pytest.approx((one.left, one.bottom), abs=0.006)


@settings(max_examples=30)
@given(st.floats(-50, 5000), st.floats(-50, 5000), st.floats(0.5, 900))
def test_path_data_is_read_back_to_hundredths(x: float, y: float, r: float) -> None:
    for path in (circle(x, y, r), ring(x, y, r + 9, 4), around(x, y, (r,), 5)):
        again = path_of(path_data(path))
        assert [step for step, _ in again] == [step for step, _ in path]
        for (_, one), (_, other) in zip(path, again, strict=True):
            assert other == pytest.approx(one, abs=0.0051)


@pytest.mark.parametrize(
    ("step", "data"),
    [
        (("M", (0.0, -0.0)), "M0 0"),
        (("L", (-0.004, 0.004)), "L0 0"),
        (("L", (1e-9, 999.999)), "L0 1000"),
        (("Q", (1234.5, 1000.0, 0.1, 20.25)), "Q1234.5 1000 0.1 20.25"),
        (("Z", ()), "Z"),
    ],
)
def test_numbers_of_a_path_are_plain(step: Step, data: str) -> None:
    assert path_data((step,)) == data


def test_no_number_of_a_card_has_an_exponent() -> None:
    text = card_as_svg(named(sample_cards(), "side_by_side_whole_mass"), 2160, {})
    drawn = "".join(re.findall(r' d="([^"]*)"', text))
    assert drawn
    assert "e" not in drawn
    assert set(re.sub(r"[\d\s.\-]", "", drawn)) <= set("MLQCZ")


def colour_numbers(colour: str) -> tuple[int, ...]:
    return tuple(int(colour[n : n + 2], 16) for n in (1, 3, 5))


@pytest.mark.parametrize("name", ["number_mass_circle", "award_spring"])
def test_pixels_lie_between_the_items_colours(name: str) -> None:
    made = all_cards(record(3), CardWishes(subjects=("mass",)))
    shown = np.asarray(card_as_image(named(made, name), 1080, {}))
    solid = shown[shown[..., 3] == 255][:, :3]
    low = min(min(colour_numbers(c)) for c in (INK, QUIET, PLATE, DEEP, "#0b4f8a"))
    assert solid.min() >= low - 1
    assert solid.max() <= max(colour_numbers(PLATE))


def test_a_word_is_where_its_letters_are() -> None:
    card = next(c for c in of_three() if c.name == "number_pleats_circle")
    word = next(i for i in card.items if isinstance(i, Words) and i.said == "60")
    shown = np.asarray(card_as_image(card, 1080, {}))
    area = ink_of(word)
    assert area is not None
    box = shown[int(area.top) : int(area.bottom) + 1, int(area.left) : int(area.right) + 1]
    assert (box[..., 0] < 60).mean() > 0.3
    margin = shown[int(area.top) - 8 : int(area.top) - 2, int(area.left) : int(area.right)]
    assert (margin[..., 0] > 200).all()


@pytest.mark.parametrize("name", ["lower_third_circle", "number_pleats_circle"])
def test_file_is_straight_not_multiplied(name: str) -> None:
    # Laid over white and over black by the rule of straight alpha a clear pixel leaves no trace.
    card = next(c for c in of_three() if c.name == name)
    with Image.open(io.BytesIO(card_as_png(card, 1080, {}))) as read:
        for ground in ("#ffffff", "#000000"):
            under = Image.new("RGBA", read.size, ground)
            over = np.asarray(Image.alpha_composite(under, read))
            clear = np.asarray(read)[..., 3] == 0
            assert (over[clear][:, :3] == colour_numbers(ground)).all()
            full = np.asarray(read)[..., 3] == 255
            assert (over[full] == np.asarray(read)[full]).all()


def allowed_numbers(subject: str, units: str) -> set[str]:
    """Every number that may stand on a card of one subject: values, counts, feet, and 95 %."""
    shown = sample_record()
    deck = Deck(shown, Frame(), units)
    # Filters cut and parts of a line-up are at most as many as its specimens.
    words = ["95", *map(str, range(1, len(shown.lineup.specimens) + 1))]
    words += [label(deck, subject), unlike_words(deck, subject)]
    for one in shown.lineup.specimens:
        found = seen(deck, subject, one.id)
        words += [*found.lines, str(found.count), found.beside]
        words += [f"{found.foot_kpa:g}"] if found.foot_kpa else []
    return {number for text in words for number in DIGITS.findall(text)}


@pytest.mark.parametrize("units", UNITS_SHOWN)
def test_every_number_of_a_value_card_is_the_records(units: str) -> None:
    subjects = {key for key, _ in (*sample_record().figures, *sample_record().findings)}
    told = 0
    for card in sample_cards(units).cards:
        kind, _, rest = card.name.partition("number_" if "number_" in card.name else "by_side_")
        if kind not in ("", "side_"):
            continue
        subject = max((s for s in subjects if rest.startswith(s)), key=len)
        strange = set(DIGITS.findall(texts(card))) - allowed_numbers(subject, units)
        assert not strange, card.name
        told += 1
    assert told > 30


@pytest.mark.parametrize("units", UNITS_SHOWN)
def test_large_digits_are_one_rounded_figure(units: str) -> None:
    shown = sample_record()
    by_shape = {s.shape.value: s for s in shown.lineup.specimens}
    told = 0
    for card in sample_cards(units).cards:
        match = re.fullmatch(r"number_(\w+?)_([a-z]+)(?:_(metric|inch))?(?:_\d)?", card.name)
        if match is None or match[2] not in by_shape:
            continue
        found = seen(Deck(shown, Frame(), match[3] or units), match[1], by_shape[match[2]].id)
        words = [i for i in card.items if isinstance(i, Words)]
        size = max(w.size for w in words)
        large = " ".join(w.said for w in words if w.size == size).replace("\u00a0", " ")
        assert large == found.lines[0]
        told += 1
    assert told > 20


def test_faces_are_two() -> None:
    faces = {i.face for card in sample_cards().cards for i in card.items if isinstance(i, Words)}
    assert faces == {REGULAR, BOLD}
