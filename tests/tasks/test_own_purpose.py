"""The reviewer's own weights: typed in plain words, told so that they can be repeated."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import PlanRefused
from benchlog.judge.purposes import OWN, Purpose
from benchlog.judge.purposes_file import load_purposes
from benchlog.judge.ranking import ranking_of
from benchlog.tasks.own_purpose import kept_weights, own_offer, own_purpose, own_weights_said
from benchlog.trade.attribute import Support
from benchlog.trade.component import Component
from tests.derive.found import number
from tests.judge.bench_of import evidence, piecewise, rules

weights = st.integers(1, 1000).map(lambda n: f"{n / 100:g}") | st.just("open")
typed = st.dictionaries(st.sampled_from([c.value for c in Component]), weights, min_size=1)


def said_again(purpose: Purpose) -> dict[str, str]:
    """What a viewer would type who reads the weights off."""
    listed = own_weights_said(purpose).removeprefix("Your own weights: ")
    pairs = (one.rpartition(" ") for one in listed.split(", "))
    return {name: text for name, _, text in pairs if name != "all others"}


@given(typed)
def test_said_weights_can_be_repeated(texts: dict[str, str]) -> None:
    purpose = own_purpose(texts)
    assert said_again(purpose) == texts
    assert own_purpose(said_again(purpose)) == purpose


@given(typed)
def test_shares_make_one_whole(texts: dict[str, str]) -> None:
    purpose = own_purpose(texts)
    assert set(purpose.asks) == set(texts)
    assert sum(purpose.share(key) for key in purpose.asks) == pytest.approx(1.0)
    average = 1 / len(texts)
    for key in purpose.left_open:
        assert purpose.share(key) == pytest.approx(average)


@given(typed, st.integers(2, 9))
def test_only_proportions_count(texts: dict[str, str], times: int) -> None:
    smaller = {
        key: "open" if text == "open" else f"{float(text) / times:.12f}"
        for key, text in texts.items()
    }
    one, other = own_purpose(texts), own_purpose(smaller)
    assert [one.share(k) for k in one.asks] == pytest.approx([other.share(k) for k in one.asks])


def test_weights_are_read_as_people_type() -> None:
    purpose = own_purpose({"media": " 2,5 ", "can": "1/2", "thread": " OPEN", "spring": "0"})
    assert purpose.weights == (("can", 0.5), ("media", 2.5))
    assert purpose.left_open == ("thread",)
    assert purpose.open_share == pytest.approx(1 / 3)
    assert (purpose.key, purpose.support) == (OWN, Support.OPINION)


@pytest.mark.parametrize(
    "text", ["11", "10.001", "-1", "much", "2-3", "~2", "3 g", "nan", "inf", "1e400", "opens"]
)
def test_unfit_weight_names_its_component(text: str) -> None:
    with pytest.raises(PlanRefused, match="is no weight") as refusal:
        own_purpose({"can": "3", "media": text})
    assert refusal.value.field == "media"
    assert text in refusal.value.what


@pytest.mark.parametrize("texts", [{}, {"media": "0"}, {"media": " ", "can": "0.0"}])
def test_no_weight_at_all_is_refused(texts: dict[str, str]) -> None:
    with pytest.raises(PlanRefused, match="No component weighs anything yet") as refusal:
        own_purpose(texts)
    assert refusal.value.field == ""


def test_offer_says_weights_and_shares() -> None:
    offer = own_offer({"media": "3", "pleats": "1", "can": "open", "thread": "open"})
    assert offer.weights == (
        "Your own weights: can open, thread open, pleats 1, media 3, all others 0. "
        "That is media 38 %; pleats 12 %; 50 % left open among can and thread"
    )
    assert "opinion" in offer.support


def test_shipped_purposes_are_not_own() -> None:
    assert {own_weights_said(purpose) for purpose in load_purposes()} == {""}


def test_kept_weights_leave_out_nonsense() -> None:
    kept = {"media": "3", "can": 4, "engine": "5", "thread": " ", "pleats": "open"}
    assert kept_weights(kept) == {"media": "3", "pleats": "open"}


def test_own_weights_decide_the_ranks() -> None:
    """Alpha has the better can, Bravo the better thread: the weights say who comes first."""
    by = rules(piecewise("can_wall", (0, 0), (1, 10)), piecewise("full_threads", (0, 0), (10, 10)))
    known = evidence(
        [
            number("can_wall", 0.8, "mm", 0.001, "a"),
            number("can_wall", 0.2, "mm", 0.001, "b"),
            number("full_threads", 2, "count", 0.0, "a"),
            number("full_threads", 8, "count", 0.0, "b"),
        ]
    )

    def first(texts: dict[str, str]) -> list[float]:
        shares = ranking_of(own_purpose(texts), by, known, 20_000).shares
        assert shares is not None
        return [own[0] for own in shares.acceptability]

    assert first({"can": "10", "thread": "1"}) == [1.0, 0.0]
    assert first({"can": "1", "thread": "10"}) == [0.0, 1.0]
    assert first({"can": "open", "thread": "open"}) == pytest.approx([0.5, 0.5], abs=0.015)
