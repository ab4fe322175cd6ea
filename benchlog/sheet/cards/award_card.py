"""What a component's comparison came to: its mark, its word, who is named, and one sentence."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.judge.verdict import Award, AwardKind
from benchlog.sheet.cards.block import NoRoom, Para, Ready, settle
from benchlog.sheet.cards.card import Card
from benchlog.sheet.cards.frame import INSET
from benchlog.sheet.cards.letters import BOLD
from benchlog.sheet.cards.look import LEAST, PLAIN_TO_READ, QUIET, Area
from benchlog.sheet.cards.marked import lead, place
from benchlog.sheet.cards.marks import award_mark
from benchlog.sheet.cards.pile import Pile, tagged_names
from benchlog.sheet.cards.told import (
    Deck,
    cut_words,
    first_sentence,
    name_of,
    with_short_names,
)
from benchlog.tasks.overruled_view import overruled_in
from benchlog.tasks.verdict_view import SUPPORT_WORDS
from benchlog.trade.specimen import Specimen

MARK = 96.0
"""Half the height of the mark."""

NAMED = (AwardKind.WINNER, AwardKind.JOINT_WINNERS, AwardKind.TIE)
WORDS = {AwardKind.TIE: "tie: too close to call"}
"""Outcomes that are said in more words than on the sheet's front page."""


def award_card(deck: Deck, award: Award) -> Card:
    """Return the card of one award; raises NoRoom.

    The rules' award stands; what the reviewer says instead is told beside it, with the reason.
    """
    specimens = deck.record.lineup.specimens
    named = tuple(s for s in specimens if award.kind in NAMED and s.id in award.winners)
    sentence = first_sentence(award, specimens)
    notes = cut_words(deck.record, specimens)
    if award.kind is not AwardKind.NOT_JUDGED:
        notes += f" · rests on: {SUPPORT_WORDS[award.support]}"
    overruled = _overruled(deck, award)
    room, (head, tail) = _fitted(deck, award, named, (sentence, notes, overruled))
    found = place(head, tail, room, MARK)
    mark = award_mark(award.kind, found.x, found.y, MARK)
    who = ", ".join(name_of(s) for s in named)
    spoken = (f"{_opened(award)}: {award.kind.value}.", f"{who}." if who else "", sentence,
              overruled, f"{notes}.")  # fmt: skip
    return Card(
        name=f"award_{award.component.value.lower().replace(' ', '_').replace('-', '_')}",
        title=f"Outcome: {award.component.value}, {award.kind.value}",
        items=(*deck.frame.notice, *found.items, *mark),
        spoken=" ".join(filter(None, spoken)),
        readings=_readings(deck, award),
        shortened=found.shortened,
        margin=deck.frame.margin,
    )


@dataclass(frozen=True)
class _Sizes:
    """How large outcome and names are set, how much of the sentences is told, and the gaps."""

    outcome: float = PLAIN_TO_READ
    names: float = LEAST
    clause: bool = False
    shortens: bool = False
    gap: float = 12.0


_TRIED = (
    _Sizes(116.0, PLAIN_TO_READ),
    _Sizes(),
    _Sizes(clause=True),
    _Sizes(clause=True, shortens=True),
    _Sizes(clause=True, shortens=True, gap=2.0),
)


def _fitted(
    deck: Deck, award: Award, named: tuple[Specimen, ...], texts: tuple[str, str, str]
) -> tuple[Area, tuple[Pile, Ready]]:
    for sizes in _TRIED:
        for room in (deck.frame.wide, deck.frame.tall):
            try:
                return room, _parts(award, named, texts, room, sizes)
            except NoRoom:
                continue
    raise NoRoom


def _parts(
    award: Award,
    named: tuple[Specimen, ...],
    texts: tuple[str, str, str],
    room: Area,
    sizes: _Sizes,
) -> tuple[Pile, Ready]:
    """Return what stands beside the mark, and what stands below both."""
    width, height = room.width - 2 * INSET, room.height - 2 * INSET
    sentence, notes, overruled = texts
    if sizes.clause:
        sentence = sentence.partition("; ")[0].rstrip(".") + "."
    outcome = settle(
        [
            Para(_opened(award), 69.0, LEAST, colour=QUIET),
            Para(
                WORDS.get(award.kind, award.kind.value), sizes.outcome, PLAIN_TO_READ, BOLD, most=1
            ),
        ],
        width - lead(MARK),
        height,
    )
    names = [tagged_names(named, width - lead(MARK), sizes.names)] if named else []
    head = Pile((outcome, *names))
    tail = [
        Para(sentence, 66.0, before=sizes.gap + 8.0, may_shorten=sizes.shortens),
        Para(overruled, face=BOLD, before=sizes.gap, may_shorten=sizes.shortens),
        Para(notes, colour=QUIET, before=sizes.gap),
    ]
    return head, settle(tail, width, height - max(head.height, 2 * MARK))


def _opened(award: Award) -> str:
    word = award.component.value
    return word[:1].upper() + word[1:]


def _overruled(deck: Deck, award: Award) -> str:
    told = overruled_in(deck.record, award.component)
    if told is None:
        return ""
    who = told.words.rpartition("You say: ")[2]
    said = f"The reviewer says instead: {who} Why: {' '.join(told.reason.split())}"
    return with_short_names(said, deck.record.lineup.specimens)


def _readings(deck: Deck, award: Award) -> tuple[str, ...]:
    """Return the readings behind every subject of the component's rules."""
    record = deck.record
    found: list[str] = []
    for rule in record.rules.of(award.component):
        for specimen in record.lineup.specimens:
            figure = record.figures.get((rule.subject, specimen.id))
            finding = record.findings.get((rule.subject, specimen.id))
            found += figure.readings if figure else ()
            found += (r.id for r in finding.readings) if finding else ()
    return tuple(dict.fromkeys(found))
