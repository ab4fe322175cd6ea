"""Who paid, in every channel: nothing goes out while one answer is missing."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import PublishRefused
from benchlog.tasks.disclosure import ELSEWHERE, disclosure_of
from benchlog.trade.specimen import Lineup, Paid
from tests.strategies import lineups
from tests.tasks.sample_records import sample_record

ANSWERED = [paid for paid in Paid if paid is not Paid.UNANSWERED]


def paid_by(*payers: Paid, giver: str = "") -> Lineup:
    lineup = sample_record().lineup
    specimens = tuple(
        replace(s, paid=paid, giver=giver)
        for s, paid in zip(lineup.specimens, payers, strict=False)
    )
    return replace(lineup, specimens=specimens)


@given(lineups)
def test_nothing_goes_out_while_one_is_open(lineup: Lineup) -> None:
    if any(s.paid is Paid.UNANSWERED for s in lineup.specimens):
        with pytest.raises(PublishRefused, match="Nobody said who paid"):
            disclosure_of(lineup)
        return
    told = disclosure_of(lineup)
    for channel in (told.spoken, told.on_screen, told.description, told.sheet):
        for specimen in lineup.specimens:
            assert " ".join(specimen.nickname.split()) in channel
        assert "\n" not in channel
    assert [one for one, _ in told.columns] == [s.id for s in lineup.specimens]


@given(st.lists(st.sampled_from(ANSWERED), min_size=3, max_size=3))
def test_every_channel_names_what_was_free(payers: list[Paid]) -> None:
    # 16 CFR 255.5(a): money, and free or discounted goods, are disclosed; 255.0(f): hard to miss,
    # in the same means as the claim.
    told = disclosure_of(paid_by(*payers))
    given_free = [p for p in payers if p not in (Paid.BOUGHT, Paid.LENT)]
    assert ("free" in told.spoken) is bool(given_free)
    assert ("Free" in told.on_screen) is bool(given_free)
    assert ("lent" in told.spoken) is (Paid.LENT in payers)


def test_free_goods_come_before_bought_ones() -> None:
    told = disclosure_of(paid_by(Paid.BOUGHT, Paid.GIVEN_BY_MAKER, Paid.BOUGHT, giver="Quillmark"))
    assert told.spoken == (
        "Cobalt was given to me free by the maker (Quillmark). "
        "I paid for Amber and Moss with my own money."
    )
    assert told.on_screen == (
        "Free from the maker: Cobalt · Paid for by the reviewer: Amber and Moss"
    )
    assert told.description == f"Who paid: {told.spoken}"
    assert told.sheet == f"Who paid · {told.on_screen}"


def test_seller_of_what_was_bought_is_no_giver() -> None:
    told = disclosure_of(paid_by(Paid.BOUGHT, Paid.LENT, Paid.BOUGHT, giver="Corner Store"))
    columns = [text for _, text in told.columns]
    assert columns == [
        "Paid for by the reviewer",
        "Lent; nothing was paid: Corner Store",
        "Paid for by the reviewer",
    ]


def test_one_and_several_are_told_in_good_grammar() -> None:
    one = disclosure_of(paid_by(Paid.GIVEN_BY_SELLER, Paid.BOUGHT, Paid.BOUGHT)).spoken
    all_of_them = disclosure_of(paid_by(*[Paid.LENT] * 3)).spoken
    assert one.startswith("Amber was given to me free by a seller.")
    assert all_of_them == ("Amber, Cobalt and Moss were lent to me, and I paid nothing for them.")


def test_other_countries_are_pointed_to() -> None:
    assert "16 CFR Part 255" in ELSEWHERE
    assert "Other countries have rules of their own" in ELSEWHERE
    assert disclosure_of(sample_record().lineup).elsewhere == ELSEWHERE
