"""Judge by eye without knowing whose part it is: start a run, answer by code, reveal.

A blind answer is a reading like any other and supersedes none: it stands beside what was said of
the slot with open eyes. Words are never averaged; once revealed, the blind one counts.
"""

from __future__ import annotations

import secrets
from collections.abc import Sequence as Ordered
from dataclasses import dataclass
from random import Random

from benchlog.errors import AskAgain, EntryRefused, PlanRefused
from benchlog.judge.blind import BlindRun, Reveal
from benchlog.measure.reading import Reading, standing
from benchlog.tasks.answer import choices_of, understand
from benchlog.tasks.blind_codes import codes_for, orders_for
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock, Shelf
from benchlog.tasks.sealed import answers_in, open_run
from benchlog.tasks.withdrawing import withdrawal_of
from benchlog.trade.attribute import Attribute, Choice, Judged, Kind, Sequence
from benchlog.trade.sequence_file import load_sequence
from benchlog.trade.specimen import Lineup

NOT_JUDGED = (Judged.INPUT, Judged.IDENTITY)


@dataclass(frozen=True)
class BlindQuestion:
    """What is asked next in a run: one attribute of the part under one code; `done` of `of`."""

    attribute: Attribute
    code: str
    choices: tuple[Choice, ...]
    done: int
    of: int


@dataclass(frozen=True)
class BlindAnswer:
    """What was kept of an answer, without whose part it was."""

    code: str
    attribute: str
    said: str


def judged_by_eye(lineup: Lineup, sequence: Sequence) -> tuple[Attribute, ...]:
    """Return what the line-up asks for that an eye alone judges: words to choose, no instrument."""
    wanted = set(lineup.attributes)
    return tuple(a for a in sequence.attributes if a.key in wanted and _by_eye(a))


def _by_eye(attribute: Attribute) -> bool:
    return (
        attribute.kind in (Kind.CHOICE, Kind.PRESENCE)
        and not attribute.instrument
        and not attribute.specimen_field
        and attribute.judged not in NOT_JUDGED
    )


def start_blind(
    shelf: Shelf,
    clock: Clock,
    lineup_id: str,
    attributes: Ordered[str] = (),
    *,
    sequence: Sequence | None = None,
    seed: int | None = None,
) -> BlindRun:
    """Begin a run over some attributes judged by eye, all of them when none are named.

    `seed` makes codes and orders the same again; a fresh one is drawn unless given. Raises
    PlanRefused for an attribute that is not judged by eye here, for fewer than two specimens and
    while another run is not revealed.
    """
    lineup = shelf.lineup(lineup_id)
    asked = judged_by_eye(lineup, sequence or load_sequence(lineup.sequence))
    known = [attribute.key for attribute in asked]
    wanted = tuple(key for key in known if not attributes or key in attributes)
    strangers = [key for key in attributes if key not in known]
    if strangers or not wanted:
        what = f"'{strangers[0]}' is not" if strangers else "Nothing is"
        raise PlanRefused(f"{what} judged by eye in this line-up.", "Choose attributes that are.")
    if len(lineup.specimens) < 2:
        raise PlanRefused("One part alone cannot be judged blind.", "Add a second specimen.")
    runs = shelf.blind_runs(lineup_id)
    if open_run(runs, shelf.reveals(lineup_id)):
        raise PlanRefused("A blind run has not been revealed yet.", "End that one first.")
    drawn = secrets.randbits(53) if seed is None else seed
    random = Random(drawn)
    codes = codes_for(lineup.specimens, (code for run in runs for _, code in run.codes), random)
    orders = orders_for(codes.values(), len(wanted), random)
    owners = {code: owner for owner, code in codes.items()}
    readings = shelf.readings(lineup_id)
    run = BlindRun(
        new_id(),
        lineup_id,
        wanted,
        tuple((owners[code], code) for code in orders[0]),
        orders,
        drawn,
        clock.now(),
        readings[-1].id if readings else "",
    )
    shelf.add_blind_run(run)
    return run


def blind_next(
    shelf: Shelf, run: BlindRun, sequence: Sequence | None = None
) -> BlindQuestion | None:
    """Return the first question of a run without an answer, None when all are answered."""
    bench = sequence or load_sequence(shelf.lineup(run.lineup_id).sequence)
    answered = {(r.attribute, r.specimen_id) for r in _answers(shelf, run)}
    owners = {code: owner for owner, code in run.codes}
    questions = [
        (key, code) for key, order in zip(run.attributes, run.orders, strict=True) for code in order
    ]
    open_ones = [(key, code) for key, code in questions if (key, owners[code]) not in answered]
    if not open_ones:
        return None
    key, code = open_ones[0]
    attribute = bench.attribute(key)
    done = len(questions) - len(open_ones)
    return BlindQuestion(attribute, code, choices_of(attribute), done, len(questions))


def blind_answer(
    shelf: Shelf,
    clock: Clock,
    run: BlindRun,
    text: str,
    *,
    sequence: Sequence | None = None,
    session_s: float = 0.0,
) -> BlindAnswer:
    """Keep what was said of the part under the code that is asked; tells nobody whose it is.

    It is durable when this returns. Raises EntryRefused for what is no answer, when none is asked
    for, and after the reveal.
    """
    _still_blind(shelf, run)
    asked = blind_next(shelf, run, sequence)
    if asked is None:
        raise EntryRefused("Every part of this run has its answer.", "Reveal the codes.")
    answer = understand(asked.attribute, text, inch=False)
    owner = next(owner for owner, code in run.codes if code == asked.code)
    taken = [
        r
        for r in standing(shelf.readings(run.lineup_id))
        if (r.attribute, r.specimen_id) == (asked.attribute.key, owner)
    ]
    shelf.add_reading(
        Reading(
            id=new_id(),
            lineup_id=run.lineup_id,
            specimen_id=owner,
            attribute=asked.attribute.key,
            ordinal=1 + max((r.ordinal for r in taken), default=0),
            state=answer.state,
            text=answer.text,
            at=clock.now(),
            session_s=session_s,
            word=answer.word,
            blind=True,
        )
    )
    return BlindAnswer(asked.code, asked.attribute.key, _shown(asked, answer.word, answer.text))


def blind_take_back(
    shelf: Shelf, clock: Clock, run: BlindRun, *, session_s: float = 0.0
) -> BlindAnswer:
    """Take the latest answer of a run back; it is asked again, and stays in the log.

    Raises EntryRefused when there is none, and after the reveal.
    """
    _still_blind(shelf, run)
    given = _answers(shelf, run)
    if not given:
        raise EntryRefused("There is no answer to take back.", "")
    last = given[-1]
    why = "taken back while judging blind"
    shelf.add_reading(withdrawal_of(last, clock, why, session_s))
    return BlindAnswer(dict(run.codes)[last.specimen_id], last.attribute, last.text)


def reveal(shelf: Shelf, clock: Clock, run: BlindRun, *, sure: bool = False) -> Reveal:
    """Open the codes of a run; from now on nothing in it is blind.

    Raises PlanRefused when they were opened before, AskAgain while questions are open, unless
    `sure`.
    """
    if any(one.run_id == run.id for one in shelf.reveals(run.lineup_id)):
        raise PlanRefused("The codes of this run were opened before.", "Start another run.")
    left = len(run.codes) * len(run.attributes) - len(_answers(shelf, run))
    if left and not sure:
        raise AskAgain(
            f"{left} of the questions of this run have no answer yet.",
            "Once the codes are opened, nothing in it can be judged blind.",
        )
    opened = Reveal(new_id(), run.id, run.lineup_id, clock.now())
    shelf.add_reveal(opened)
    return opened


def unrevealed(shelf: Shelf, lineup_id: str) -> BlindRun | None:
    """Return the run of a line-up that goes on, None when there is none."""
    return open_run(shelf.blind_runs(lineup_id), shelf.reveals(lineup_id))


def _answers(shelf: Shelf, run: BlindRun) -> list[Reading]:
    readings = shelf.readings(run.lineup_id)
    return standing_among(answers_in(run, shelf.blind_runs(run.lineup_id), readings), readings)


def standing_among(some: list[Reading], every: list[Reading]) -> list[Reading]:
    """Return those of some readings that still stand among all."""
    left = {reading.id for reading in standing(every)}
    return [reading for reading in some if reading.id in left]


def _still_blind(shelf: Shelf, run: BlindRun) -> None:
    if any(one.run_id == run.id for one in shelf.reveals(run.lineup_id)):
        raise EntryRefused(
            "The codes of this run were opened; nothing in it is blind any more.",
            "Start another run, or judge at the bench.",
        )


def _shown(asked: BlindQuestion, word: str | None, text: str) -> str:
    return next((c.label for c in asked.choices if c.key == word), text)
