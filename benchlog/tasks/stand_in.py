"""Could this filter stand in for the one that is specified? Held against it line by line.

A bench cannot answer that with yes. Each line comes to match, differs, or unknown, which is not
cleared; together they come to one of three words, and the handbook's part number stands beside
them wherever they are shown.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from benchlog.errors import PlanRefused
from benchlog.measure.finding import Finding
from benchlog.measure.finding_text import finding_text
from benchlog.measure.state import State
from benchlog.tasks.stand_in_numbers import Gap, gap_between
from benchlog.trade.attribute import Sequence
from benchlog.trade.stand_in import Compare, StandInLine, StandInSubject, Weight, load_stand_in

NO_HANDBOOK = "not given"


class LineOutcome(StrEnum):
    """What a line comes to, in the words that are printed."""

    MATCH = "match"
    DIFFERS = "differs"
    UNKNOWN = "unknown: not cleared"


class StandInWord(StrEnum):
    """What all lines come to, in the words that are printed."""

    STOPS = "Stops here"
    ASK = "Ask the engine maker"
    NO_DIFFERENCE = "No difference found in what we measured"


@dataclass(frozen=True)
class Told:
    """What the reviewer says of a line that no reading answers, and where it was found."""

    outcome: LineOutcome
    note: str = ""


@dataclass(frozen=True)
class SubjectResult:
    """One subject: what it comes to, both values in words, and why."""

    subject: StandInSubject
    label: str
    outcome: LineOutcome
    candidate: str
    specified: str
    why: str
    gap: Gap | None = None


@dataclass(frozen=True)
class LineResult:
    """One line: a difference in any subject makes it differ, else an unknown one leaves it open."""

    line: StandInLine
    outcome: LineOutcome
    subjects: tuple[SubjectResult, ...]

    @property
    def words(self) -> str:
        """What is said of the line: the difference, the caution when it is not cleared, or ""."""
        if self.outcome is LineOutcome.MATCH:
            return ""
        said = f"{self.line.words} " if self.outcome is LineOutcome.DIFFERS else ""
        return said + self.line.caution


@dataclass(frozen=True)
class StandInCheck:
    """The whole check. `handbook_number` is that of the specified filter, by the handbook."""

    candidate: str
    specified: str
    handbook_number: str
    lines: tuple[LineResult, ...]
    word: StandInWord

    @property
    def handbook(self) -> str:
        """What stands beside the word wherever it is shown."""
        return f"Part number by the vehicle maker's handbook: {self.handbook_number or NO_HANDBOOK}"


@dataclass(frozen=True)
class Side:
    """One of the two filters: its name and what was found of it, by attribute key."""

    name: str
    findings: Mapping[str, Finding]


def check_stand_in(
    candidate: Side,
    specified: Side,
    sequence: Sequence,
    handbook_number: str,
    told: Mapping[str, Told] | None = None,
    lines: tuple[StandInLine, ...] | None = None,
) -> StandInCheck:
    """Hold a candidate against the specified filter of the same kind.

    `told` answers the subjects that are asked by hand, by their keys; what is not answered is
    unknown. `lines` are the shipped ones unless given. Raises PlanRefused for an answer to what
    is not asked by hand, and for a kind of filter that has no lines.
    """
    asked = load_stand_in(sequence.key) if lines is None else lines
    if not asked:
        raise PlanRefused(
            f"There is no check for filters of the kind '{sequence.label}'.",
            "Add its lines to resources/trade/stand_in.toml.",
        )
    by_hand = {s.key for one in asked for s in one.subjects if s.compare is Compare.BY_HAND}
    for key in told or {}:
        if key not in by_hand:
            raise PlanRefused(
                f"'{key}' is not answered by hand here.",
                f"Answer only {', '.join(sorted(by_hand)) or 'what is asked'}.",
            )
    results = tuple(
        _line(one, candidate.findings, specified.findings, sequence, told or {}) for one in asked
    )
    number = " ".join(handbook_number.split())
    return StandInCheck(candidate.name, specified.name, number, results, _word(results, number))


def _word(lines: tuple[LineResult, ...], handbook_number: str) -> StandInWord:
    differing = [one for one in lines if one.outcome is LineOutcome.DIFFERS]
    if any(one.line.differs is Weight.STOPS for one in differing):
        return StandInWord.STOPS
    unknown = any(one.outcome is LineOutcome.UNKNOWN for one in lines)
    if differing or unknown or not handbook_number:
        return StandInWord.ASK
    return StandInWord.NO_DIFFERENCE


def _line(
    line: StandInLine,
    candidate: Mapping[str, Finding],
    specified: Mapping[str, Finding],
    sequence: Sequence,
    told: Mapping[str, Told],
) -> LineResult:
    results = []
    for subject in line.subjects:
        if subject.compare is Compare.BY_HAND:
            results.append(_by_hand(line, subject, told.get(subject.key)))
        else:
            pair = candidate.get(subject.key), specified.get(subject.key)
            results.append(_subject(subject, *pair, sequence))
    outcomes = {one.outcome for one in results}
    worst = next(
        o for o in (LineOutcome.DIFFERS, LineOutcome.UNKNOWN, LineOutcome.MATCH) if o in outcomes
    )
    return LineResult(line, worst, tuple(results))


def _by_hand(line: StandInLine, subject: StandInSubject, told: Told | None) -> SubjectResult:
    outcome = told.outcome if told else LineOutcome.UNKNOWN
    why = " ".join(told.note.split()) if told else "Nobody looked it up."
    if told and not why:
        outcome, why = LineOutcome.UNKNOWN, "It is not said where that was found."
    return SubjectResult(subject, line.label, outcome, "", "", why)


def _subject(
    subject: StandInSubject, mine: Finding | None, theirs: Finding | None, sequence: Sequence
) -> SubjectResult:
    attribute = sequence.attribute(subject.key)
    values = _words(mine, sequence, subject), _words(theirs, sequence, subject)

    def result(outcome: LineOutcome, why: str, gap: Gap | None = None) -> SubjectResult:
        return SubjectResult(subject, attribute.label, outcome, *values, why, gap)

    if subject.compare is Compare.ONE_OF:
        return result(*_of_one(subject, mine))
    if mine is None or theirs is None or not (_is_settled(mine) and _is_settled(theirs)):
        return result(LineOutcome.UNKNOWN, "Not known of both.")
    absent = [one.state is State.NOT_APPLICABLE for one in (mine, theirs)]
    if all(absent):
        return result(LineOutcome.MATCH, "Neither has that part.")
    if any(absent):
        return result(LineOutcome.DIFFERS, "One has that part, the other has not.")
    if not subject.compare.of_numbers:
        return result(*_of_words(subject, mine.word or "", theirs.word or ""))
    if mine.quantity is None or theirs.quantity is None:
        return result(LineOutcome.UNKNOWN, "Not known of both as a number.")
    gap = gap_between(subject, mine.quantity, theirs.quantity)
    outcome = LineOutcome.MATCH if gap.inside else LineOutcome.UNKNOWN
    return result(LineOutcome.DIFFERS if gap.beyond else outcome, gap.sentence, gap)


def _is_settled(finding: Finding) -> bool:
    """Whether it is known what stands there, or that the part does not exist."""
    return finding.state.has_value or finding.state is State.NOT_APPLICABLE


def _of_one(subject: StandInSubject, mine: Finding | None) -> tuple[LineOutcome, str]:
    if mine is None or not mine.word or mine.word in subject.unsure:
        return LineOutcome.UNKNOWN, "The answer does not tell enough."
    if mine.word in subject.cleared:
        return LineOutcome.MATCH, "Held against the original at the bench."
    return LineOutcome.DIFFERS, "Not as on the original, held against it at the bench."


def _of_words(subject: StandInSubject, mine: str, theirs: str) -> tuple[LineOutcome, str]:
    if not mine or not theirs or mine in subject.unsure or theirs in subject.unsure:
        return LineOutcome.UNKNOWN, "The answer does not tell enough."
    if subject.compare is Compare.KEPT:
        missing = theirs == "yes" and mine != "yes"
        return (
            (LineOutcome.DIFFERS, "The specified filter has it, the candidate has not.")
            if missing
            else (LineOutcome.MATCH, "What the specified filter has is there.")
        )
    if mine == theirs:
        return LineOutcome.MATCH, "The same answer."
    if any({mine, theirs} <= set(group) for group in subject.alike):
        return LineOutcome.MATCH, "Another answer, which comes to the same for this line."
    return LineOutcome.DIFFERS, "Not the same answer."


def _words(finding: Finding | None, sequence: Sequence, subject: StandInSubject) -> str:
    if finding is None:
        return State.NOT_MEASURED.value
    attribute = sequence.attribute(subject.key)
    told = finding_text(finding, subject.unit or attribute.unit)
    return next((c.label for c in attribute.choices if c.key == told), told)
