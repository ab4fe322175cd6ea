"""What is shown while judging blind: what may be judged so, whose code is whose, how it ended."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.judge.blind import BlindRun
from benchlog.judge.rules import ValueKind
from benchlog.measure.state import State
from benchlog.tasks.judge_blind import BlindQuestion, judged_by_eye
from benchlog.tasks.lock import rules_in_force
from benchlog.tasks.ports import Shelf
from benchlog.trade.attribute import Sequence
from benchlog.trade.component import Component
from benchlog.trade.specimen import Lineup, Specimen

KEYS = "123456789"
NONE_KEY = "0"
NO_TELLING = State.COULD_NOT_TELL.value


@dataclass(frozen=True)
class BlindOffer:
    """One thing that the eye judges; `counts` tells that the rules in force score it."""

    key: str
    label: str
    component: Component
    counts: bool


@dataclass(frozen=True)
class KeyedChoice:
    """One answer with the key that gives it; `text` is what is kept as said."""

    key: str
    label: str
    text: str


def blind_offers(shelf: Shelf, lineup: Lineup, sequence: Sequence) -> tuple[BlindOffer, ...]:
    """Return what a line-up may judge blind, in the order of the bench."""
    scored = {
        rule.subject
        for rule in rules_in_force(shelf, lineup).entries
        if rule.kind is not ValueKind.NONE and rule.compared
    }
    return tuple(
        BlindOffer(one.key, one.label, one.component, one.key in scored)
        for one in judged_by_eye(lineup, sequence)
    )


def keyed_choices(question: BlindQuestion) -> tuple[KeyedChoice, ...]:
    """Return the answers to a question, a key each; the last one says that nobody could tell."""
    given = zip(KEYS, question.choices, strict=False)
    found = [KeyedChoice(key, choice.label, choice.label) for key, choice in given]
    return (*found, KeyedChoice(NONE_KEY, NO_TELLING, NO_TELLING))


def codes_by_owner(run: BlindRun, lineup: Lineup) -> tuple[tuple[str, Specimen], ...]:
    """Return every code with its specimen, by code: that order tells nothing else."""
    owners = {specimen.id: specimen for specimen in lineup.specimens}
    return tuple(sorted(((code, owners[one]) for one, code in run.codes), key=lambda row: row[0]))
