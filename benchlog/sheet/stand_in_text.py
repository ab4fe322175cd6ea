"""The stand-in check as text for a page, a description or a card."""

from __future__ import annotations

from benchlog.tasks.stand_in import LineResult, StandInCheck, SubjectResult

NOT_A_PROMISE = (
    "Only what is listed was held against the specified filter. Whether a filter may be used on an "
    "engine is for the engine's maker and the handbook to say."
)


def stand_in_text(check: StandInCheck) -> str:
    """Return the check in plain text: the word and the handbook's number first, then each line."""
    return "\n".join(
        (
            f"{check.word.value}",
            f"{check.candidate} beside {check.specified}, the specified filter",
            check.handbook,
            "",
            *(row for line in check.lines for row in (*_line(line), "")),
            NOT_A_PROMISE,
        )
    )


def _line(line: LineResult) -> list[str]:
    told = [f"{line.line.label}: {line.outcome.value}", f"  {line.line.rule}"]
    told += [f"  {_subject(one)}" for one in line.subjects]
    return [*told, f"  {line.words}"] if line.words else told


def _subject(one: SubjectResult) -> str:
    values = f"{one.candidate} beside {one.specified}. " if one.candidate or one.specified else ""
    return f"{one.label}: {values}{one.why}"
