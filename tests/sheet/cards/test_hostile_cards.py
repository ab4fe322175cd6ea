"""No name, however odd, stops a card, overlaps on it or breaks its file."""

from __future__ import annotations

from dataclasses import replace
from xml.etree import ElementTree

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchlog.sheet.cards.all_cards import CardWishes, all_cards
from benchlog.sheet.cards.faults import faults
from benchlog.sheet.cards.look import Margin
from benchlog.sheet.cards.png import card_as_image
from benchlog.sheet.cards.svg import card_as_svg
from benchlog.tasks.record import Record
from tests.sheet.cards.card_scenes import in_doubt, overruled
from tests.sheet.sample_record import record

NAMES = st.one_of(
    st.text(max_size=40),
    st.text(st.characters(min_codepoint=0x590, max_codepoint=0x6FF), min_size=1, max_size=30),
    st.text(st.characters(min_codepoint=0x1F300, max_codepoint=0x1FAFF), min_size=1, max_size=12),
    st.text(st.sampled_from("<>&/b;\"'%\\()\x00\n\u202e\u2068\u2069·. "), max_size=30),
    st.text(st.sampled_from("ẴẪgjy\u0301\u0327\u0338"), max_size=30),
    st.integers(50, 3000).map(lambda n: "W" * n),
    st.integers(20, 300).map(lambda n: "a long name " * n),
)


def renamed(shown: Record, name: str, other: str) -> Record:
    specimens = tuple(
        replace(s, nickname=name if n % 2 else other, maker=other, part_number=name, lot=other,
                colour=other[:7])
        for n, s in enumerate(shown.lineup.specimens)
    )  # fmt: skip
    reason = f"{other} is ahead of {name}. And so on."
    awards = tuple(replace(a, reason=reason) for a in shown.verdict.awards)
    readings = tuple(replace(r, reason=other) if r.supersedes else r for r in shown.readings)
    return replace(
        shown, lineup=replace(shown.lineup, name=name, specimens=specimens), readings=readings,
        verdict=replace(shown.verdict, awards=awards),
    )  # fmt: skip


@settings(max_examples=7, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(NAMES, NAMES, st.sampled_from([1, 2, 3, 6]), st.sampled_from(Margin))
def test_no_name_stops_or_spoils_a_card(name: str, other: str, count: int, margin: Margin) -> None:
    hostile = overruled(in_doubt(renamed(record(count), name, other)), reason=other or "none said")
    made = all_cards(hostile, CardWishes(margin, subjects=("can_wall", "exposed_area")))
    assert not made.left_out
    for card in made.cards:
        assert faults(card) == []
        root = ElementTree.fromstring(card_as_svg(card, 1080, {}))
        assert len(root) == 3 + len(card.items)


@pytest.mark.parametrize("name", ["W" * 400, "שלום עולם", "مرحبا بالعالم", "🦊🦊", ""])
def test_odd_names_are_drawn(name: str) -> None:
    made = all_cards(renamed(record(2), name, "Birch"), CardWishes(subjects=("can_wall",)))
    for card in made.cards:
        image = card_as_image(card, 1080, {})
        assert image.getchannel("A").getbbox() is not None


@settings(max_examples=15, deadline=None)
@given(st.text(min_size=1, max_size=600))
def test_words_found_at_the_bench_find_room(words: str) -> None:
    shown = record(3)
    key = ("look", "s1") if ("look", "s1") in shown.findings else ("media_look", "s1")
    found = {**shown.findings, key: replace(shown.findings[key], word=words)}
    made = all_cards(replace(shown, findings=found), CardWishes(subjects=(key[0],)))
    assert not made.left_out
    assert [fault for card in made.cards for fault in faults(card)] == []
