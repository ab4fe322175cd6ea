"""Who paid, corrections and the stand-in check on screen: whole, in order, and careful."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.errors import PublishRefused
from benchlog.measure.reading import Reading
from benchlog.sheet.cards.card import Card, Mark, Words
from benchlog.sheet.cards.correction_card import correction_cards, readings_corrected
from benchlog.sheet.cards.disclosure_card import disclosure_cards
from benchlog.sheet.cards.faults import faults
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.letters import BOLD
from benchlog.sheet.cards.look import PLAIN_TO_READ, Margin
from benchlog.sheet.cards.stand_in_card import stand_in_cards
from benchlog.sheet.cards.told import Deck
from benchlog.tasks.correction_lines import correction_lines
from benchlog.tasks.record import Record
from benchlog.tasks.stand_in import NO_HANDBOOK, LineOutcome, StandInCheck, StandInWord
from benchlog.trade.specimen import Paid
from tests.sheet.cards.card_scenes import HANDBOOK, stand_in, texts
from tests.sheet.sample_record import record

ANSWERS = [paid for paid in Paid if paid is not Paid.UNANSWERED]


def paid_by(*answers: Paid) -> Record:
    shown = record(len(answers))
    pairs = zip(shown.lineup.specimens, answers, strict=True)
    specimens = tuple(replace(s, paid=paid, giver="") for s, paid in pairs)
    return replace(shown, lineup=replace(shown.lineup, specimens=specimens))


def payers(shown: Record, **more: object) -> tuple[Card, ...]:
    return disclosure_cards(Deck(shown, Frame(**more)))  # type: ignore[arg-type]


def marks(card: Card) -> set[str]:
    return {item.means for item in card.items if isinstance(item, Mark)}


@settings(max_examples=25, deadline=None)
@given(st.lists(st.sampled_from(ANSWERS), min_size=1, max_size=6), st.sampled_from(Margin))
def test_every_specimen_stands_under_who_paid(answers: list[Paid], margin: Margin) -> None:
    shown = paid_by(*answers)
    cards = payers(shown, margin=margin)
    said = " ".join(texts(card) for card in cards)
    for specimen in shown.lineup.specimens:
        assert said.count(specimen.nickname[:6]) == 1
    assert [fault for card in cards for fault in faults(card)] == []
    assert all(w.size >= PLAIN_TO_READ for c in cards for w in c.items if isinstance(w, Words))


def test_what_was_not_paid_for_comes_first() -> None:
    (card,) = payers(paid_by(Paid.BOUGHT, Paid.LENT, Paid.GIVEN_BY_SELLER))
    lines = [w.said for w in card.items if isinstance(w, Words)]
    first = [line.partition(":")[0] for line in lines if ":" in line]
    assert first == ["Free from a seller", "Lent", "Paid for by the reviewer"]
    assert lines[0] == "Who paid"


def test_payers_are_spoken_as_shown() -> None:
    (card,) = payers(paid_by(Paid.BOUGHT, Paid.BOUGHT))
    assert card.spoken == "Who paid. Paid for by the reviewer: Alder and Birch."


def test_two_cards_of_payers_are_numbered() -> None:
    shown = paid_by(*ANSWERS[:5], Paid.BOUGHT)
    long = tuple(replace(s, nickname=f"{s.nickname[:5]} of the tall trees {n}")
                 for n, s in enumerate(shown.lineup.specimens))  # fmt: skip
    cards = payers(replace(shown, lineup=replace(shown.lineup, specimens=long)), margin=Margin.TEN)
    assert [card.name for card in cards] == [f"disclosure_{n}" for n in range(1, len(cards) + 1)]
    assert cards[0].title == f"Who paid, 1 of {len(cards)}"
    assert len(cards) > 1


def test_one_missing_answer_refuses_the_card() -> None:
    with pytest.raises(PublishRefused, match="Nobody said who paid"):
        payers(paid_by(Paid.BOUGHT, Paid.UNANSWERED))


def corrected(*extra: Reading) -> Record:
    shown = record(2)
    return replace(shown, readings=(*shown.readings, *extra))


def test_correction_says_when_what_and_why() -> None:
    shown = record(2)
    (card,) = correction_cards(Deck(shown, Frame()))
    (line,) = correction_lines(shown)
    assert line in texts(card)
    assert card.spoken == f"Correction. {line} Revision 2."
    assert "2026-03-07" in line
    assert marks(card) == {"correction"}
    heading = next(w for w in card.items if isinstance(w, Words))
    assert (heading.said, heading.face, heading.size) == ("Correction", BOLD, PLAIN_TO_READ)


def test_each_correction_has_a_card() -> None:
    last = record(2).readings[-1]
    again = replace(last, id="r3", text="0.53 mm", at=last.at + timedelta(minutes=5),
                    supersedes=last.id, reason="read once more")  # fmt: skip
    cards = correction_cards(Deck(corrected(again), Frame()))
    assert [card.name for card in cards] == ["correction_1", "correction_2"]
    assert [card.readings for card in cards] == [("r1", "r2"), ("r2", "r3")]
    assert "read once more" in texts(cards[1])


def test_scratched_reading_is_no_correction() -> None:
    last = record(2).readings[-1]
    gone = replace(last, id="r3", supersedes=last.id, withdrawn=True, reason="scratched")
    back = replace(last, id="r4", supersedes="r3", reason="put back")
    assert readings_corrected(corrected(gone, back)) == (("r1", "r2"),)
    assert len(correction_cards(Deck(corrected(gone, back), Frame()))) == 1


def test_nothing_corrected_needs_no_card() -> None:
    assert correction_cards(Deck(replace(record(2), readings=()), Frame())) == ()


def because(reason: str) -> Record:
    """The record with another reason for its correction."""
    shown = record(2)
    readings = tuple(replace(r, reason=reason) if r.id == "r2" else r for r in shown.readings)
    return replace(shown, readings=readings)


def test_minus_of_a_correction_is_a_minus() -> None:
    (card,) = correction_cards(Deck(because("off by -0.05 mm, re-read"), Frame()))
    assert "off by −0.05 mm, re-read" in texts(card)


def test_long_reason_is_shortened_and_spoken_whole() -> None:
    why = "the dial was read upside down " * 40
    (card,) = correction_cards(Deck(because(why), Frame()))
    assert len(card.shortened) == 1
    assert " ".join(why.split()) in card.spoken
    assert faults(card) == []


def checked(**more: object) -> tuple[Card, ...]:
    one = stand_in()
    check = replace(one.check, **more)  # type: ignore[arg-type]
    return stand_in_cards(Frame(), check, one.candidate, one.specified)


@pytest.mark.parametrize("word", StandInWord)
def test_word_of_the_check_is_large_with_its_mark(word: StandInWord) -> None:
    card = checked(word=word)[0]
    assert marks(card) == {word.value}
    assert word.value in texts(card)
    first = next(w for w in card.items if isinstance(w, Words))
    assert first.size >= PLAIN_TO_READ
    assert faults(card) == []


def test_tally_counts_every_line_once() -> None:
    check = stand_in().check
    said = texts(checked()[0])
    for outcome in LineOutcome:
        count = sum(line.outcome is outcome for line in check.lines)
        assert f"{count} {outcome.value}" in said


def test_each_uncleared_line_has_its_caution() -> None:
    check = stand_in().check
    cards = checked()[1:]
    lines = [line for line in check.lines if line.outcome is not LineOutcome.MATCH]
    for n, (card, line) in enumerate(zip(cards, lines, strict=True), start=1):
        assert card.name == f"stand_in_caution_{n}"
        assert line.line.caution in texts(card)
        assert f"{line.line.label}: {line.outcome.value}." in card.spoken


def test_all_cleared_lines_need_no_caution() -> None:
    cleared = tuple(replace(line, outcome=LineOutcome.MATCH) for line in stand_in().check.lines)
    cards = checked(lines=cleared, word=StandInWord.NO_DIFFERENCE)
    assert [card.name for card in cards] == ["stand_in"]


@pytest.mark.parametrize("number", [HANDBOOK, ""])
def test_handbook_stands_on_each_card_in_bold(number: str) -> None:
    shown = number or NO_HANDBOOK
    for card in checked(handbook_number=number):
        assert f"Part number by the vehicle maker's handbook: {shown}" in texts(card)
        bold = " ".join(w.said for w in card.items if isinstance(w, Words) and w.face == BOLD)
        assert shown in bold


@settings(max_examples=15, deadline=None)
@given(st.text(max_size=90), st.text(max_size=90), st.sampled_from(Margin))
def test_any_names_find_room_beside_each_other(one: str, other: str, margin: Margin) -> None:
    asked = stand_in()
    check: StandInCheck = replace(asked.check, candidate=one, specified=other)
    cards = stand_in_cards(Frame(margin), check, asked.candidate, asked.specified)
    assert [fault for card in cards for fault in faults(card)] == []
    assert all("the specified filter" in texts(card) for card in cards)
