"""Findings from what was typed, in the unit and dimension of the attribute itself."""

from __future__ import annotations

from dataclasses import replace

from benchlog.measure.finding import Finding
from benchlog.measure.observe import Observer
from benchlog.measure.reading import Reading
from benchlog.tasks.answer import understand
from benchlog.trade.sequence_file import load_sequence
from tests.derive.found import reading

SEQUENCES = ("spin_on", "cartridge")


def attribute(key: str):
    """The attribute of that key, of whichever sequence asks it."""
    asked = {a.key: a for s in SEQUENCES for a in load_sequence(s).attributes}
    return asked[key]


def said(key: str, *texts: str) -> Finding:
    """What typing `texts` at the bench comes to."""
    asked = attribute(key)
    readings: list[Reading] = []
    for ordinal, text in enumerate(texts, 1):
        answer = understand(asked, text, inch=False)
        readings.append(
            replace(
                reading(key, "a"),
                id=f"{key}-{ordinal}",
                ordinal=ordinal,
                state=answer.state,
                text=answer.text,
                said=answer.said,
                word=answer.word,
            )
        )
    return Observer(()).observe(key, "a", readings, asked.unit)
