"""How the verdict was kept fair: the rules' lock, blind judging, purposes, changed plans."""

from __future__ import annotations

from reportlab.platypus import Flowable

from benchlog.judge.blind import BlindRun
from benchlog.sheet.flow import part
from benchlog.sheet.text import para
from benchlog.sheet.words import subject_label
from benchlog.tasks.declared_view import declared_story
from benchlog.tasks.lock import lock_story, moment_text
from benchlog.tasks.record import Record

TURNS = (
    "At the bench the specimens take turns at being first, in orders balanced over the stations."
)

HOW_BLIND = (
    "The parts lay under codes, in an order that is balanced over what was asked, so that none is "
    "always first; whose code it was stayed shut until the codes were opened."
)


def fairness_part(record: Record) -> list[Flowable]:
    """Return the part; of what was not done nothing stands, and of a lock that there is none."""
    told = [("Lock", sentence) for sentence in lock_story(record)]
    if record.lineup.balanced:
        told.append(("Turns", TURNS))
    told += [("Judged blind", sentence) for sentence in blind_story(record)]
    told += [("Purpose", sentence) for sentence in declared_story(record.declarations)]
    told += [
        ("Plan changed", f"{moment_text(change.at)}: {_ended(change.sentence)}")
        for change in record.plan_changes
    ]
    return [
        *part("How the verdict was kept fair", 90),
        *(para(words, "gutter", _once(label, i, told)) for i, (label, words) in enumerate(told)),
    ]


def blind_story(record: Record) -> tuple[str, ...]:
    """Return how each blind run was held, oldest first; none where nothing was judged blind.

    The seed is told only once the codes are opened: from it they can be worked out.
    """
    opened = {reveal.run_id: reveal.at for reveal in record.reveals}
    told = []
    for run in record.blind_runs:
        at = opened.get(run.id)
        end = (
            f"codes opened {moment_text(at)}, seed {run.seed}" if at
            else "codes not opened so far, and its answers in nothing that is shown here"
        )  # fmt: skip
        told.append(f"{moment_text(run.at)}, {_asked(record, run)}; {end}.")
    return (HOW_BLIND, *told) if told else ()


def _asked(record: Record, run: BlindRun) -> str:
    labels = ", ".join(subject_label(record, key) for key in run.attributes)
    return f"{len(run.codes)} parts: {labels}"


def _once(label: str, index: int, told: list[tuple[str, str]]) -> str:
    """Return the label where it begins; further sentences under it carry none."""
    return "" if index and told[index - 1][0] == label else label


def _ended(sentence: str) -> str:
    return sentence if sentence.endswith((".", "!", "?")) else f"{sentence}."
