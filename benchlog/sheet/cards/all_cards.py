"""Every card of a record, in the order in which a video shows them.

Who paid comes first, then who is who, then part by part its numbers and its outcome, then
corrections, the stand-in check, and material for the title picture.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass, field
from functools import partial

from benchlog.errors import PublishRefused
from benchlog.judge.verdict import Award
from benchlog.settings import METRIC, UNITS_SHOWN
from benchlog.sheet.cards.award_card import award_card
from benchlog.sheet.cards.block import NoRoom
from benchlog.sheet.cards.card import Card
from benchlog.sheet.cards.correction_card import correction_cards
from benchlog.sheet.cards.disclosure_card import disclosure_cards
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.look import Margin
from benchlog.sheet.cards.lower_third import lower_third
from benchlog.sheet.cards.number_card import number_cards
from benchlog.sheet.cards.stand_in_card import stand_in_cards
from benchlog.sheet.cards.strip_card import strip_cards
from benchlog.sheet.cards.title_picture import OneNumber, title_pictures
from benchlog.sheet.cards.told import Deck, seen
from benchlog.tasks.publish import check_disclosure
from benchlog.tasks.record import Record
from benchlog.tasks.stand_in import Side, StandInCheck
from benchlog.tasks.verdict_view import value_rows


@dataclass(frozen=True)
class StandIn:
    """A stand-in check with the two sides that it was made of."""

    check: StandInCheck
    candidate: Side
    specified: Side


@dataclass(frozen=True)
class CardWishes:
    """What the reviewer may choose about cards.

    `units` is "metric", "inch" or "both". `subjects` are the attributes and figures to show; None
    means the usual ones: what counts in a component, and else the first number shown of it.
    `number` is the one number of the title picture. `stand_ins` are checks to be shown.
    """

    margin: Margin = Margin.FIVE
    units: str = METRIC
    subjects: tuple[str, ...] | None = None
    number: OneNumber | None = None
    stand_ins: tuple[StandIn, ...] = ()


@dataclass(frozen=True)
class CardSet:
    """Cards in order, and the names of those that would not fit at a size that can be read."""

    cards: tuple[Card, ...]
    left_out: tuple[str, ...] = ()


@dataclass
class _Gathered:
    cards: list[Card] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)

    def add(self, what: str, make: Callable[[], Card | tuple[Card, ...]]) -> None:
        try:
            made = make()
        except NoRoom:
            self.left_out.append(what)
            return
        self.cards += [made] if isinstance(made, Card) else made


def all_cards(
    record: Record, wishes: CardWishes | None = None, readable: Collection[str] = ()
) -> CardSet:
    """Return every card; `readable` are the ids of photos that a title picture may show.

    Raises PublishRefused while it is not said who paid, while a blind run is not opened, and for
    unknown units.
    """
    wishes = wishes or CardWishes()
    _check(record, wishes)
    deck = Deck(record, Frame(wishes.margin, record.lineup.rehearsal), wishes.units)
    found = _Gathered()
    found.add("who paid", partial(disclosure_cards, deck))
    for specimen in record.lineup.specimens:
        found.add(f"lower third of {specimen.nickname}", partial(lower_third, deck, specimen))
    awards = {award.component: award for award in record.verdict.awards}
    subjects = _subjects(deck, awards.values(), wishes.subjects)
    for component, award in awards.items():
        for subject in subjects.get(component.value, ()):
            _of_subject(found, deck, subject)
        found.add(f"outcome of {component}", partial(award_card, deck, award))
    for subject in subjects.get("", ()):
        _of_subject(found, deck, subject)
    found.add("corrections", partial(correction_cards, deck))
    for one in wishes.stand_ins:
        found.add(
            "stand-in check",
            partial(stand_in_cards, deck.frame, one.check, one.candidate, one.specified),
        )
    found.add("title picture", partial(title_pictures, deck, readable, wishes.number))
    return CardSet(tuple(found.cards), tuple(found.left_out))


def _check(record: Record, wishes: CardWishes) -> None:
    check_disclosure(record.lineup)
    if record.sealed:
        raise PublishRefused(
            "A blind run of this line-up is not opened yet; its answers are under seal.",
            "Open the codes first, then publish.",
        )
    if wishes.units not in UNITS_SHOWN:
        raise PublishRefused(
            f"Values cannot be shown in '{wishes.units}' units.", "Choose metric, inch or both."
        )


def _of_subject(found: _Gathered, deck: Deck, subject: str) -> None:
    found.add(f"side by side: {subject}", partial(strip_cards, deck, subject))
    for specimen in deck.record.lineup.specimens:
        if seen(deck, subject, specimen.id).is_number:
            found.add(
                f"number: {subject} of {specimen.nickname}",
                partial(number_cards, deck, subject, specimen),
            )


def _subjects(
    deck: Deck, awards: Iterable[Award], wanted: tuple[str, ...] | None
) -> dict[str, list[str]]:
    """Return the subjects to be shown by component; under "" those that no component's rules name.

    One that nobody has a value of is left out unless it was asked for by name.
    """
    found: dict[str, list[str]] = {}
    for award in awards:
        rows = value_rows(deck.record, award.component)
        if wanted is None:
            counted = [row.subject for row in rows if row.part and _is_known(deck, row.subject)]
            numbers = [row.subject for row in rows if _is_number(deck, row.subject)]
            first = [] if set(counted) & set(numbers) else numbers[:1]
            found[award.component.value] = [*counted, *first]
        else:
            found[award.component.value] = [r.subject for r in rows if r.subject in wanted]
    if wanted is not None:
        placed = {subject for some in found.values() for subject in some}
        found[""] = [subject for subject in wanted if subject not in placed]
    return found


def _is_known(deck: Deck, subject: str) -> bool:
    return any(seen(deck, subject, s.id).known for s in deck.record.lineup.specimens)


def _is_number(deck: Deck, subject: str) -> bool:
    return any(seen(deck, subject, s.id).is_number for s in deck.record.lineup.specimens)
