"""Tables that say what the others mean: attributes, kinds of figure, and every column."""

from __future__ import annotations

from collections.abc import Iterable

from benchlog.sheet.data.table import Table, row, text
from benchlog.tasks.record import Record

FIGURE_SUPPORT = "how well a judgement of it would be supported"


def attributes_table(record: Record) -> Table:
    """Return everything that the sequence can ask, with units and sources."""
    fields = (
        text("attribute", "names the attribute in every other table", required=True),
        text("label", "what it is called", required=True),
        text("help", "what it means"),
        text("station", "the stop of the teardown"),
        text("component", "the component"),
        text("kind", "what sort of answer it wants"),
        text("unit", "the unit of its findings, by its name"),
        text("choices", "the answers to choose from: key = what is shown"),
        text("method", "how it is found out"),
        text("judged", "how it is judged"),
        text("support", "how well that judgement is supported"),
        text("source", "where it comes from"),
        text("warning", "what to bear in mind"),
    )
    rows = tuple(
        row(
            *(a.key, a.label, a.help, a.station, a.component, a.kind, a.unit),
            "; ".join(f"{choice.key} = {choice.label}" for choice in a.choices),
            *(a.method, a.judged, a.support, a.source, a.warning),
        )
        for a in record.sequence.attributes
    )
    return Table("attributes", "What was asked", fields, rows, ("attribute",))


def figure_kinds_table(record: Record) -> Table:
    """Return every kind of figure with its formula and where that stands."""
    fields = (
        text("figure", "names the figure in figures.csv", required=True),
        text("label", "what it is called", required=True),
        text("component", "the component"),
        text("formula", "how it is worked out"),
        text("inputs", "the attributes in it"),
        text("unit", "its unit, by its name; empty for a word"),
        text("support", FIGURE_SUPPORT),
        text("source", "where the formula stands"),
        text("note", "what to bear in mind"),
        text("beside", "the sentence that belongs beside it wherever it is shown"),
    )
    kinds = {figure.kind.key: figure.kind for figure in record.figures.values()}
    rows = tuple(
        row(
            *(k.key, k.label, k.component, k.formula, k.inputs, k.unit),
            *(k.support, k.source, k.note, k.beside),
        )
        for k in kinds.values()
    )
    return Table("figure_kinds", "How figures are worked out", fields, rows, ("figure",))


def dictionary_table(tables: Iterable[Table]) -> Table:
    """Return what every column of every table means, this one's own included."""
    fields = (
        text("table", "the table, without .csv", required=True),
        text("column", "the column", required=True),
        text("kind", "what it holds, in the words of Table Schema", required=True),
        text("about", "what it means", required=True),
        text("unit", "its unit"),
        text("source", "where the meaning stands; empty for plain words of our own"),
    )
    own = Table("dictionary", "What every column means", fields, (), ("table", "column"))
    rows = tuple(
        row(table.name, f.name, f.kind, f.about, f.unit, f.source)
        for table in (*tables, own)
        for f in table.fields
    )
    return Table(own.name, own.title, own.fields, rows, own.key)
