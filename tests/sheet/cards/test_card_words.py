"""Cards say what the record says: outcomes, who paid, corrections, cautions; and no more."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.errors import PublishRefused
from benchlog.judge.verdict import AwardKind
from benchlog.sheet.cards.all_cards import CardWishes, all_cards
from benchlog.sheet.cards.award_card import award_card
from benchlog.sheet.cards.card import Card, Mark, Words
from benchlog.sheet.cards.correction_card import readings_corrected
from benchlog.sheet.cards.disclosure_card import disclosure_cards
from benchlog.sheet.cards.frame import REHEARSAL, Frame
from benchlog.sheet.cards.look import Margin
from benchlog.sheet.cards.title_picture import OneNumber, title_pictures
from benchlog.sheet.cards.told import Deck, first_sentence, foot_words, with_short_names
from benchlog.tasks.stand_in import LineOutcome
from benchlog.trade.component import Component
from benchlog.trade.specimen import Paid
from tests.sheet.cards.card_scenes import (
    DENTED,
    HANDBOOK,
    named,
    overruled,
    pictured,
    sample_cards,
    stand_in,
    texts,
)
from tests.sheet.sample_record import record
from tests.tasks.sample_records import sample_record


def marks(card: Card) -> set[str]:
    return {item.means for item in card.items if isinstance(item, Mark)}


def award_of(deck: Deck, component: Component) -> Card:
    award = next(a for a in deck.record.verdict.awards if a.component is component)
    return award_card(deck, award)


def test_every_award_shows_its_mark_word_and_names() -> None:
    shown = sample_record()
    kinds = set()
    for award in shown.verdict.awards:
        card = award_card(Deck(shown, Frame()), award)
        assert award.kind.value in texts(card)
        assert award.kind.value in marks(card)
        named_here = {f"tag: {s.shape.value}" for s in shown.lineup.specimens
                      if s.id in award.winners}  # fmt: skip
        assert marks(card) - {award.kind.value} == named_here
        kinds.add(award.kind)
    assert kinds == set(AwardKind)


def test_what_was_not_judged_rests_on_nothing() -> None:
    for card in (named(sample_cards(), f"award_{key}") for key in ("can", "anti_drain_back_valve")):
        judged = "not judged" not in texts(card)
        assert ("rests on:" in texts(card)) is judged
        assert ("rests on:" in card.spoken) is judged
    assert not judged


def test_one_sentence_stands_on_an_award() -> None:
    card = named(sample_cards(), "award_can")
    assert "Cobalt is ahead of Amber by 0.7 points of 10" in texts(card)
    assert "Also behind" not in texts(card)
    assert "rests on: opinion only" in texts(card)


def test_full_stop_in_a_nickname_ends_no_sentence() -> None:
    shown = record(2)
    first, second = shown.lineup.specimens
    pair = (replace(first, nickname="Mr. Brass. The 2nd"), second)
    award = replace(
        shown.verdict.awards[0], reason="Mr. Brass. The 2nd is ahead of Birch. Nothing else."
    )
    assert first_sentence(award, pair) == "Mr. Brass. The 2nd is ahead of Birch."


def test_right_to_left_name_in_a_sentence_is_set_apart() -> None:
    first = replace(record(1).lineup.specimens[0], nickname="אלון")
    told = with_short_names("אלון is ahead by 0.7 points.", (first,))
    assert told == "\u2068אלון\u2069 is ahead by 0.7 points."


def test_overruling_stands_beside_the_rules() -> None:
    card = award_of(Deck(overruled(record(3)), Frame()), Component.CAN)
    said = texts(card)
    assert "winner" in said
    assert f"The reviewer says instead: tie. Why: {DENTED}" in said
    assert "winner" in marks(card)


def test_who_paid_comes_first_and_whole() -> None:
    made = all_cards(record(6))
    card = made.cards[0]
    assert card.name == "disclosure"
    said = texts(card)
    for words in ("Free from the maker: Birch", "Free from a seller: Elm", "Lent: Fir",
                  "Paid for by the reviewer: Alder and Damson"):  # fmt: skip
        assert words in said
    assert said.index("Free from the maker") < said.index("Paid for by the reviewer")


def test_long_names_of_payers_go_on_over_cards() -> None:
    shown = record(6)
    specimens = tuple(
        replace(s, nickname=f"{s.nickname[:6]} of the tall trees {n}")
        for n, s in enumerate(shown.lineup.specimens)
    )
    deck = Deck(replace(shown, lineup=replace(shown.lineup, specimens=specimens)),
                Frame(Margin.TEN))  # fmt: skip
    cards = disclosure_cards(deck)
    assert len(cards) > 1
    said = " ".join(texts(card) for card in cards)
    assert all(s.nickname in said for s in specimens)


@pytest.mark.parametrize("who", range(3))
def test_unanswered_payer_blocks_all_cards(who: int) -> None:
    shown = record(3)
    specimens = list(shown.lineup.specimens)
    specimens[who] = replace(specimens[who], paid=Paid.UNANSWERED)
    lineup = replace(shown.lineup, specimens=tuple(specimens))
    with pytest.raises(PublishRefused, match="Nobody said who paid"):
        all_cards(replace(shown, lineup=lineup))


def test_sealed_answers_and_odd_units_block_all_cards() -> None:
    with pytest.raises(PublishRefused, match="under seal"):
        all_cards(replace(record(2), sealed=frozenset({"r1"})))
    with pytest.raises(PublishRefused, match="'cubits' units"):
        all_cards(record(2), CardWishes(units="cubits"))


def test_rehearsal_is_said_on_every_card() -> None:
    assert all(REHEARSAL in texts(card) for card in sample_cards().cards)
    assert not any(REHEARSAL in texts(card) for card in all_cards(record(2)).cards)


def test_lower_third_names_maker_part_and_lot() -> None:
    said = texts(named(sample_cards(), "lower_third_circle"))
    assert said.endswith("Amber Tallowbay Works TB-4411 Lot 7K2 0419")
    assert texts(named(all_cards(record(3)), "lower_third_triangle")).endswith("Lot not recorded")


def test_correction_card_knows_old_and_new() -> None:
    shown = record(2)
    card = named(all_cards(shown), "correction_1")
    assert card.readings == ("r1", "r2")
    assert "misheard: a viewer saw 0.51 on the dial" in texts(card)
    assert f"Revision {shown.revision}" in texts(card)
    assert marks(card) == {"correction"}


def test_correction_card_of_a_draft_says_draft() -> None:
    shown = replace(record(2), draft=True, revision=3)
    card = named(all_cards(shown), "correction_1")
    assert "Draft of revision 3, not published of the record" not in texts(card)
    assert "Draft of revision 3, not published" in texts(card)
    assert "Draft of revision 3, not published" in card.spoken


def test_group_correction_is_one_card_with_all_its_readings() -> None:
    shown = sample_record()
    (ids,) = readings_corrected(shown)
    assert named(sample_cards(), "correction_1").readings == ids
    by_id = {r.id: r for r in shown.readings}
    old, new = ids[::2], ids[1::2]
    assert [by_id[one].supersedes for one in new] == list(old)
    assert len(new) == 6
    assert "shifted by −0.05 mm" in texts(named(sample_cards(), "correction_1"))


def test_stand_in_cards_carry_the_handbooks_number() -> None:
    check = stand_in().check
    cards = [c for c in sample_cards().cards if c.name.startswith("stand_in")]
    uncleared = [one for one in check.lines if one.outcome is not LineOutcome.MATCH]
    assert len(cards) == 1 + len(uncleared)
    assert {one.outcome for one in uncleared} == {LineOutcome.DIFFERS, LineOutcome.UNKNOWN}
    for card in cards:
        assert HANDBOOK in texts(card)
    assert check.word.value in texts(cards[0])
    for card, line in zip(cards[1:], uncleared, strict=True):
        assert line.line.label in texts(card)
        assert line.words in texts(card)
        assert line.outcome.value in marks(card)


def test_no_card_promises_what_a_bench_cannot_show() -> None:
    for card in sample_cards().cards:
        said = f" {texts(card)} ".casefold()
        for words in (" fits ", "filters better", "holds more", "flows better", "the best"):
            assert words not in said


def test_title_picture_tells_no_outcome_and_one_number_at_most() -> None:
    shown, _ = pictured(5)
    ids = [photo.id for photo in shown.photos]
    deck = Deck(shown, Frame())
    plain = title_pictures(deck, ids)
    assert [sum(i.means.startswith("photo") for i in c.items if hasattr(i, "means"))
            for c in plain] == [3, 2]  # fmt: skip
    assert not any(kind.value in texts(c) for c in plain for kind in AwardKind)
    assert not any(ch.isdigit() for c in plain for ch in texts(c))
    first, second = title_pictures(deck, ids, OneNumber("exposed_area", "s1"))
    assert "1293.5 ± 8.0 cm²" in texts(first)
    assert first.readings == ("s1-strip_length-1",)
    assert not any(ch.isdigit() for ch in texts(second))


def test_title_picture_wants_a_readable_photo() -> None:
    shown, _ = pictured(3)
    element = [p.id for p in shown.photos if p.station == "element"]
    (card,) = title_pictures(Deck(shown, Frame()), element[:2])
    assert "Copper" not in texts(card)
    assert title_pictures(Deck(shown, Frame()), []) == ()


def test_feet_are_told_in_order() -> None:
    assert foot_words([None, None]) == ""
    assert foot_words([20.0, 20.0]) == "foot 20\u00a0kPa"
    assert foot_words([20.0, None]) == "foot 20, none\u00a0kPa in this order"


def test_words_are_words_and_marks_are_marks() -> None:
    card = named(sample_cards(), "award_spring")
    assert any(isinstance(item, Words) for item in card.items)
    assert "different, not better" in card.spoken
