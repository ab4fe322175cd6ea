"""Cards of outcomes, single numbers and specimens: what each says, shows and knows."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.judge.verdict import Award, AwardKind
from benchlog.settings import BOTH, INCH, METRIC
from benchlog.sheet.cards.award_card import award_card
from benchlog.sheet.cards.card import Card, Mark, Words
from benchlog.sheet.cards.faults import faults
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.letters import BOLD
from benchlog.sheet.cards.look import LEAST, PLAIN_TO_READ, Margin
from benchlog.sheet.cards.lower_third import lower_third
from benchlog.sheet.cards.number_card import number_cards, number_notes
from benchlog.sheet.cards.told import DOUBTED, Deck, seen
from benchlog.tasks.record import Record
from benchlog.trade.component import Component
from tests.sheet.cards.card_scenes import in_doubt, overruled, texts
from tests.sheet.sample_record import MASS, measured, record

TEXTS = st.text(st.sampled_from("abcW .;"), max_size=60).map(lambda text: text * 2)
LARGEST = 210.0


def award_of(shown: Record, component: Component, **more: object) -> Award:
    found = next(a for a in shown.verdict.awards if a.component is component)
    return replace(found, **more)  # type: ignore[arg-type]


def words(card: Card) -> list[Words]:
    return [item for item in card.items if isinstance(item, Words)]


def sized(card: Card, said: str) -> float:
    return next(w.size for w in words(card) if w.said.replace("\u00a0", " ").startswith(said))


def number_of(shown: Record, subject: str, n: int = 0, units: str = METRIC) -> Card:
    (card,) = number_cards(Deck(shown, Frame(), units), subject, shown.lineup.specimens[n])
    return card


@pytest.mark.parametrize("count", range(1, 7))
@pytest.mark.parametrize("kind", AwardKind)
def test_outcome_is_large_for_any_line_up(kind: AwardKind, count: int) -> None:
    shown = record(count)
    named = (AwardKind.WINNER, AwardKind.JOINT_WINNERS, AwardKind.TIE)
    ids = tuple(s.id for s in shown.lineup.specimens)
    winners = ids[:1] if kind is AwardKind.WINNER else ids if kind in named else ()
    card = award_card(Deck(shown, Frame()), award_of(shown, Component.CAN, kind=kind,
                                                     winners=winners))  # fmt: skip
    assert sized(card, kind.value) >= PLAIN_TO_READ
    assert faults(card) == []
    tags = {m.means for m in card.items if isinstance(m, Mark) and m.means.startswith("tag")}
    assert len(tags) == len(winners)


def test_outcome_is_spoken_in_full() -> None:
    shown = record(2)
    card = award_card(Deck(shown, Frame()), award_of(shown, Component.CAN))
    assert card.spoken == (
        "Can: winner. Alder. By the rules the can comes out as 'winner'. "
        "1 filter of each part cut · rests on: engineering argument."
    )


def test_award_knows_the_readings_behind_its_rules() -> None:
    shown = record(2)
    card = award_card(Deck(shown, Frame()), award_of(shown, Component.CAN))
    expected = [r.id for s in shown.lineup.specimens
                for r in shown.findings["can_wall", s.id].readings]  # fmt: skip
    assert list(card.readings) == expected
    media = award_card(Deck(shown, Frame()), award_of(shown, Component.MEDIA))
    assert set(media.readings) == {"s1-strip_length-1", "s2-strip_length-1"}


def test_card_names_are_plain_file_stems() -> None:
    shown = record(2)
    names = [award_card(Deck(shown, Frame()), a).name for a in shown.verdict.awards]
    assert "award_anti_drain_back_valve" in names
    assert all(name.replace("_", "").isalnum() and name.islower() for name in names)
    assert len(set(names)) == len(names)


def test_tie_says_how_it_came() -> None:
    shown = record(2)
    card = award_card(Deck(shown, Frame()), award_of(shown, Component.GASKET))
    assert "tie: too close to call" in texts(card)


def test_overruling_is_bold_and_the_rules_outcome_stays() -> None:
    shown = overruled(record(2))
    card = award_card(Deck(shown, Frame()), award_of(shown, Component.CAN))
    told = [w for w in words(card) if "reviewer says instead" in w.said]
    assert [w.face for w in told] == [BOLD]
    assert "winner" in texts(card)
    assert "The reviewer says instead" in card.spoken


@settings(max_examples=20, deadline=None)
@given(TEXTS, TEXTS, st.sampled_from(Margin))
def test_any_reason_finds_room(reason: str, by_hand: str, margin: Margin) -> None:
    shown = overruled(record(6), reason=by_hand or "none")
    for kind in (AwardKind.TIE, AwardKind.NOT_JUDGED):
        award = award_of(shown, Component.CAN, kind=kind, reason=reason,
                         winners=tuple(s.id for s in shown.lineup.specimens))  # fmt: skip
        card = award_card(Deck(shown, Frame(margin, rehearsal=True)), award)
        assert faults(card) == []
        assert kind.value in texts(card)


def test_number_is_the_largest_on_its_card() -> None:
    card = number_of(record(2), "pleats")
    assert sized(card, "60") == LARGEST
    assert max(w.size for w in words(card) if w.said != "60") <= PLAIN_TO_READ
    assert card.name == "number_pleats_circle"
    assert card.spoken == "Alder: Pleat count: 60. n = 1 reading · 1 filter cut."


def test_number_notes_tell_what_stands_behind_it() -> None:
    shown = record(3)
    deck = Deck(shown, Frame())
    third = shown.lineup.specimens[2]
    notes = number_notes(deck, seen(deck, "thickness", "s3"), third).replace("\u00a0", " ")
    assert notes == "n = 1 reading · 1 filter cut · foot 50 kPa · ± at 95 %"


def test_doubt_about_a_number_is_bold() -> None:
    card = number_of(in_doubt(record(2)), "can_wall")
    assert [w.face for w in words(card) if w.said == DOUBTED] == [BOLD]
    assert card.spoken.endswith(DOUBTED)
    assert DOUBTED not in texts(number_of(in_doubt(record(2)), "can_wall", 1))


def test_second_unit_is_smaller_than_the_first() -> None:
    shown = record(2)
    card = number_of(shown, "can_wall", units=BOTH)
    first, second = seen(Deck(shown, Frame(), BOTH), "can_wall", "s1").lines
    assert sized(card, first[:7]) > sized(card, second[:7]) >= PLAIN_TO_READ


@pytest.mark.parametrize("units", [METRIC, INCH, BOTH])
def test_number_has_its_doubt_and_unit_beside_it(units: str) -> None:
    shown = record(2)
    card = number_of(shown, "can_wall", units=units)
    for line in seen(Deck(shown, Frame(), units), "can_wall", "s1").lines:
        assert line in texts(card)
    assert card.readings == tuple(f"s1-can_wall-{n}" for n in range(1, 5))


def test_estimate_says_about() -> None:
    card = number_of(record(3), "turns", 2)
    assert "about 5 turns (4.5 to 5.5)" in texts(card)


def test_long_sentence_is_shared_out_and_every_card_has_the_number() -> None:
    shown = record(2)
    told = " ".join(f"Sentence {n} says something of some length." for n in range(16))
    kind = replace(shown.figures["exposed_area", "s1"].kind, beside=told)
    figures = {key: replace(f, kind=kind) for key, f in shown.figures.items()}
    shown = replace(shown, figures=figures)
    cards = number_cards(Deck(shown, Frame()), "exposed_area", shown.lineup.specimens[0])
    assert 1 < len(cards) <= 4
    assert len({card.name for card in cards}) == len(cards)
    assert all("1293.5 ± 8.0 cm²" in texts(card) for card in cards)
    said = " ".join(texts(card) for card in cards)
    assert all(f"Sentence {n} says" in said for n in range(16))
    assert [fault for card in cards for fault in faults(card)] == []


@settings(max_examples=15, deadline=None)
@given(st.floats(1e-4, 1e5), st.floats(1e-5, 1e3), st.sampled_from(Margin))
def test_any_number_is_plain_to_read(number: float, doubt: float, margin: Margin) -> None:
    shown = record(1)
    findings = {**shown.findings, ("mass", "s1"): measured("s1", MASS, number, doubt)}
    deck = Deck(replace(shown, findings=findings), Frame(margin))
    (card,) = number_cards(deck, "mass", shown.lineup.specimens[0])
    (line,) = seen(deck, "mass", "s1").lines
    assert line in texts(card)
    first = line.partition(" ")[0]
    assert sized(card, first) >= PLAIN_TO_READ
    assert faults(card) == []


@pytest.mark.parametrize(
    ("more", "part", "lot"),
    [
        ({}, "Northfold Filters NF-2140", "Lot L2611-07"),
        ({"maker": "", "part_number": " "}, "maker not recorded", "Lot L2611-07"),
        ({"maker": ""}, "NF-2140", "Lot L2611-07"),
        ({"lot": "\n"}, "Northfold Filters NF-2140", "Lot not recorded"),
        ({"lot": "A 1\nB 2"}, "Northfold Filters NF-2140", "Lot A 1 B 2"),
    ],
)
def test_lower_third_says_what_is_recorded(more: dict[str, str], part: str, lot: str) -> None:
    shown = record(1)
    one = replace(shown.lineup.specimens[0], **more)
    card = lower_third(Deck(shown, Frame()), one)
    assert [w.said for w in words(card)] == ["Alder", part, lot]
    assert card.spoken == f"Alder (circle). {part}. {lot}."
    assert card.readings == ()


def test_lower_third_stands_low_and_left() -> None:
    shown = record(6)
    for specimen in shown.lineup.specimens:
        card = lower_third(Deck(shown, Frame()), specimen)
        assert card.name == f"lower_third_{specimen.shape.value}"
        assert min(w.baseline for w in words(card)) > 540
        assert sized(card, specimen.nickname[:6]) >= PLAIN_TO_READ
        assert min(w.size for w in words(card)) >= LEAST


def test_six_winners_overruled_in_a_rehearsal_find_room() -> None:
    # The fullest card there is: band, wide margins, six names, and a reason by hand.
    shown = overruled(record(6), reason="dented all round, and the seam of the third one is open")
    ids = tuple(s.id for s in shown.lineup.specimens)
    award = award_of(shown, Component.CAN, kind=AwardKind.TIE, winners=ids)
    card = award_card(Deck(shown, Frame(Margin.TEN, rehearsal=True)), award)
    assert faults(card) == []
    assert "tie: too close to call" in texts(card)
    assert "The reviewer says instead" in texts(card)


@pytest.mark.parametrize("kind", [AwardKind.NOT_JUDGED, AwardKind.DIFFERENT])
def test_nobody_is_named_where_nobody_is_ahead(kind: AwardKind) -> None:
    shown = record(2)
    award = award_of(shown, Component.CAN, kind=kind, winners=("s1",))
    card = award_card(Deck(shown, Frame()), award)
    assert not [m for m in card.items if isinstance(m, Mark) and m.means.startswith("tag")]
    assert "Alder" not in texts(card)
