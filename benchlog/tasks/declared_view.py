"""What was declared, changed and taken back, in words: when, and on which side of the cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from benchlog.judge.declared import Declaration
from benchlog.judge.purposes import OWN, Purpose
from benchlog.judge.purposes_file import load_purposes
from benchlog.tasks.lock import moment_text
from benchlog.tasks.own_purpose import weights_typed
from benchlog.tasks.record import Record

DECLARE = "Declare it"
OWN_NAME = "the reviewer's own weights"


def purpose_name(purpose: Purpose) -> str:
    """Return what a purpose is called on paper, with its version.

    A shipped one that is not what came under its name and version is told as edited; of a version
    that is not here any more nobody can tell.
    """
    if purpose.key == OWN:
        return f"{OWN_NAME} ({weights_typed(purpose)})"
    same = [p for p in load_purposes() if (p.key, p.version) == (purpose.key, purpose.version)]
    edited = ", edited" if same and purpose not in same else ""
    return f"“{purpose.label}”, version {purpose.version}{edited}"


def purpose_title(purpose: Purpose) -> str:
    """Return a purpose as it stands in a heading: "long interval", "own weights"."""
    if purpose.key == OWN:
        return "own weights"
    label = purpose.label
    return label if label[1:2].isupper() else label[:1].lower() + label[1:]


def when_declared(declaration: Declaration) -> str:
    """Return when it was declared or taken back, and on which side of the cut."""
    return f"{moment_text(declaration.at)}, {side_of_cut(declaration)}"


def side_of_cut(declaration: Declaration) -> str:
    """Return "before the cut" where no opened filter had been looked into, else "after the cut"."""
    return f"{'after' if declaration.after_cut else 'before'} the cut"


def declared_story(every: Sequence[Declaration]) -> tuple[str, ...]:
    """Return a sentence for each declaration, oldest first."""
    told = []
    standing: Purpose | None = None
    for one in every:
        why = f" Reason: {one.reason.rstrip('.')}." if one.reason else ""
        if one.purpose is None:
            said = f"Taken back on {when_declared(one)}."
        else:
            verb = "Declared" if standing is None else "Changed"
            joint = ":" if standing is None else " to"
            said = f"{verb} on {when_declared(one)}{joint} {purpose_name(one.purpose)}."
        standing = one.purpose
        told.append(f"{said}{why}")
    return tuple(told)


@dataclass(frozen=True)
class DeclareState:
    """What is declared against what is looked at, and what may be done about it.

    `declare` is what declaring is called now, "" where there is nothing to declare.
    """

    said: str
    declare: str
    may_take_back: bool


def declare_state(record: Record, chosen: Purpose | None) -> DeclareState:
    """Return how a purpose that is looked at stands to the one that is declared."""
    standing = record.declared.declaration if record.declared else None
    if standing is None or standing.purpose is None:
        if chosen is None:
            return DeclareState("", "", may_take_back=False)
        late = " It would be declared after the cut, and told so." if record.cut_made else ""
        said = f"Looked at only: while it is not declared, it is not on the sheet.{late}"
        return DeclareState(said, DECLARE, may_take_back=False)
    named = f"{purpose_name(standing.purpose)}, was declared on {when_declared(standing)}"
    named = named[:1].upper() + named[1:]
    if chosen is None or chosen == standing.purpose:
        return DeclareState(f"{named}. It stands on the sheet.", "", may_take_back=True)
    said = f"Looked at only. {named}, and stands on the sheet."
    return DeclareState(said, "Declare this one instead", may_take_back=False)
