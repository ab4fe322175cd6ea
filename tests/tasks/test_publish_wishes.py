"""Choices are kept whole, fall back when they make no sense, and are refused when unclear."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import PlanRefused
from benchlog.tasks.description import LIMIT, Links
from benchlog.tasks.footage import Anchor, Footage
from benchlog.tasks.publish_wishes import (
    KINDS,
    PublishWishes,
    kept_wishes,
    wishes_back,
    with_words,
)
from benchlog.tasks.stand_in import LineOutcome, Told
from benchlog.tasks.stand_in_wish import StandInWish
from benchlog.wiring import data_licences, publishing_writers

TYPED = {"sheet": "", "data": "", "method": "", "ask": "", "limit": ""}
seconds = st.floats(-1e6, 1e6)
tolds = st.builds(Told, st.sampled_from(LineOutcome), st.text(max_size=20))
wished = st.builds(
    PublishWishes,
    kinds=st.lists(st.sampled_from(KINDS), unique=True).map(tuple),
    sums=st.booleans(),
    heights=st.sampled_from([(1080, 2160), (1080,), (2160,)]),
    licence=st.sampled_from(["", *(name for name, _ in data_licences())]),
    footage=st.lists(
        st.builds(Footage, st.lists(st.builds(Anchor, seconds, seconds), max_size=2).map(tuple)),
        max_size=3,
    ).map(tuple),
    links=st.builds(Links, st.text(max_size=9), st.text(max_size=9), st.text(max_size=9)),
    ask=st.text(max_size=20),
    limit=st.integers(200, 100_000),
    stand_in=st.none()
    | st.builds(
        StandInWish,
        st.text(max_size=5),
        st.text(max_size=5),
        st.text(max_size=5),
        st.none() | st.dictionaries(st.text(max_size=5), tolds, max_size=3),
        st.booleans(),
    ),
)


@given(wished)
def test_kept_wishes_come_back_whole(wishes: PublishWishes) -> None:
    assert wishes_back(json.loads(json.dumps(kept_wishes(wishes)))) == wishes


@pytest.mark.parametrize("kept", [{"sums": "perhaps"}, {"footage": [{"anchors": 3}]}])
def test_kept_nonsense_falls_back_to_the_usual(kept: dict) -> None:
    assert wishes_back(kept) == PublishWishes()


def test_licence_alone_is_taken_over() -> None:
    assert wishes_back({"licence": "CC0-1.0"}) == PublishWishes(licence="CC0-1.0")


def test_typed_words_are_taken_tidied() -> None:
    wishes = with_words(
        PublishWishes(),
        TYPED | {"sheet": " https://example.org/s.pdf ", "ask": "What\n next? ", "limit": "900"},
    )
    assert wishes.links == Links(sheet="https://example.org/s.pdf")
    assert (wishes.ask, wishes.limit) == ("What next?", 900)
    assert with_words(wishes, TYPED) == PublishWishes(limit=LIMIT)


@pytest.mark.parametrize(
    ("field", "text"),
    [("data", "my page"), ("sheet", "https://"), ("method", "javascript:alert(1)")]
    + [("limit", text) for text in ("many", "199", "100001", "-5", "1e3")],
)
def test_unclear_words_name_their_field(field: str, text: str) -> None:
    with pytest.raises(PlanRefused) as refusal:
        with_words(PublishWishes(), TYPED | {field: text})
    assert refusal.value.field == field


def test_writers_are_those_wanted_and_possible() -> None:
    def kinds(wishes: PublishWishes) -> list[str]:
        return [writer.kind for writer in publishing_writers("A4", "metric", wishes)]

    assert kinds(PublishWishes()) == ["sheet", "cards", "chapters", "description"]
    assert kinds(PublishWishes(licence="CC0-1.0")) == list(KINDS)
    assert kinds(PublishWishes(kinds=("data", "description"), licence="CC0-1.0")) == [
        "data",
        "description",
    ]
    assert kinds(PublishWishes(kinds=())) == []


def test_every_licence_says_what_it_asks() -> None:
    licences = dict(data_licences())
    assert "CC-BY-4.0" in licences
    assert all(words.endswith(".") for words in licences.values())
