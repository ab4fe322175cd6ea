"""The appendix: the sum behind every figure, with its uncertainty budget, when it is asked for."""

from __future__ import annotations

from collections.abc import Iterator

from reportlab.platypus import CondPageBreak, Flowable, Table

from benchlog.derive.figure import FigureKind
from benchlog.sheet.flow import Cell, Heading, gap, section, shares, table
from benchlog.sheet.numbered import number_text
from benchlog.sheet.paragraph import Text
from benchlog.sheet.sum_inputs import sum_inputs
from benchlog.sheet.text import markup, para, shortened
from benchlog.sheet.typography import FACE, SMALL, STYLES, WHITE, Page
from benchlog.sheet.value_words import figure_words
from benchlog.sheet.words import names
from benchlog.tasks.budget_view import BudgetRow, instrument_words
from benchlog.tasks.figure_view import Sum, sum_of
from benchlog.tasks.record import Record

MIDDLE = 16.0

LEAD = (
    "Every figure with its formula, what went into it, and what its uncertainty is made of (JCGM "
    "100): value and standard uncertainty u of each input, its distribution (spread), degrees of "
    "freedom ν, sensitivity, contribution to u of the figure, and share of the variance. What an "
    "input’s own u is made of stands once, at the end."
)

EXACT = "exact"
"""What a line of a budget says of a number that nothing makes doubtful."""

HEAD: list[Cell] = ["Input", "Value", "u", "Spread", "ν", "Sensitivity", "Part of u", "Share"]

Same = tuple[tuple[str, ...], Sum]
"""Specimens whose sum reads alike, and that sum."""


def sums_pages(record: Record, page: Page, units: str) -> list[Flowable]:
    """Return the appendix of sums, figure by figure in the order of components."""
    tools = {instrument_words(i): i.name for i in record.instruments}
    parts: list[Flowable] = []
    short: list[list[Flowable]] = []
    for kind, sums in _figures(record, units):
        if any(_has_budget(one) for _, one in sums):
            parts += _side_by_side(short, page)
            short = []
            parts += _long(record, kind, sums, tools, page, units)
        else:
            short.append(_short(record, kind, sums, tools, units))
    parts += _side_by_side(short, page)
    if not parts:
        return []
    return [*section("The sums", LEAD), *parts, *sum_inputs(record, page, units)]


def _figures(record: Record, units: str) -> Iterator[tuple[FigureKind, list[Same]]]:
    """Yield each kind of figure that somebody has, with its sums, alike ones together."""
    kinds = {f.kind.key: f.kind for f in record.figures.values()}
    for kind in kinds.values():
        alike: dict[tuple[object, ...], Same] = {}
        for specimen in record.lineup.specimens:
            figure = record.figures.get((kind.key, specimen.id))
            if figure is None or figure.refusal:
                continue
            one = sum_of(record, kind.key, specimen.id, units)
            told = (one.result, one.inputs, one.rows, one.coverage, one.warnings)
            alike[told] = ((*alike.get(told, ((), one))[0], specimen.id), one)
        if alike:
            yield kind, list(alike.values())


def _has_budget(one: Sum) -> bool:
    return any(row.share for row in one.rows)


def _told(kind: FigureKind, sums: list[Same]) -> list[Flowable]:
    """Return what holds for every specimen: formula, source, assumptions, what must stand by."""
    formula = f"<b>{markup(kind.formula)}</b>"
    source = f" Source: {markup(kind.source)}." if kind.source else ""
    notes = [kind.note, kind.beside]
    assumed = dict.fromkeys(text for _, one in sums for text in one.assumed)
    notes += [f"Assumed: {'; '.join(assumed)}"] if assumed else []
    told = [Text(formula + source, STYLES["cell_small"])]
    said = " ".join(_sentence(note) for note in notes if note)
    return [*told, para(said, "cell_muted")] if said else list(told)


def _long(
    record: Record,
    kind: FigureKind,
    sums: list[Same],
    tools: dict[str, str],
    page: Page,
    units: str,
) -> list[Flowable]:
    """Return a figure with budgets: one table, each specimen's lines under its result."""
    rows: list[list[Cell]] = [HEAD]
    style: list[tuple[object, ...]] = []
    for ids, one in sums:
        first = len(rows)
        rows.append([_result(record, kind, ids, one, units), *[""] * 7])
        spans = [first]
        for line in _budget(one):
            if isinstance(line, str):
                spans.append(len(rows))
                rows.append([para(line, "cell_muted"), *[""] * 7])
                style.append(("NOSPLIT", (0, len(rows) - 2), (-1, len(rows) - 1)))
            else:
                rows.append(line)
        last = len(rows)
        rows.append([para(_from(one, tools), "cell_muted"), *[""] * 7])
        style += [("SPAN", (0, at), (-1, at)) for at in (*spans, last)]
        style += [
            ("LINEBELOW", (0, first), (-1, last - 1), 0.5, WHITE),
            ("NOSPLIT", (0, first), (-1, min(first + 2, last))),
            ("NOSPLIT", (0, last - 1), (-1, last)),
        ]
    widths = shares(page, 25, 13, 11, 11, 5, 17, 11, 7)
    return [
        CondPageBreak(185), gap(2), Heading(kind.label, 1), *_told(kind, sums), gap(2),
        table(rows, widths, small=True, more=style), gap(4),
    ]  # fmt: skip


def _short(
    record: Record, kind: FigureKind, sums: list[Same], tools: dict[str, str], units: str
) -> list[Flowable]:
    """Return a figure that is a word or exact: half a page wide, without a budget."""
    parts: list[Flowable] = [Heading(kind.label, 1), *_told(kind, sums)]
    for ids, one in sums:
        parts += [_result(record, kind, ids, one, units), para(_from(one, tools), "cell_muted")]
    return parts


def _side_by_side(blocks: list[list[Flowable]], page: Page) -> list[Flowable]:
    """Return blocks two by two, each pair kept on one page."""
    half = (page.content - MIDDLE) / 2
    style = [
        ("FONT", (0, 0), (-1, -1), FACE, SMALL),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (0, -1), MIDDLE),
        ("RIGHTPADDING", (1, 0), (1, -1), 0),
    ]
    found: list[Flowable] = []
    for pair in (blocks[i : i + 2] for i in range(0, len(blocks), 2)):
        if len(pair) == 1:
            found += [CondPageBreak(110), *pair[0]]
        else:
            widths = [half + MIDDLE, half]
            found.append(Table([pair], colWidths=widths, style=style, hAlign="LEFT"))
    return found


def _result(record: Record, kind: FigureKind, ids: tuple[str, ...], one: Sum, units: str) -> Text:
    """Return the figure as it stands among the values, then the foot of its budget."""
    specimen = next(s for s in record.lineup.specimens if s.id == ids[0])
    printed = figure_words(record.figures[kind.key, specimen.id], specimen.currency, units)
    said = ", ".join(filter(None, [printed.main, printed.also]))
    coverage = f"  {one.coverage}" if one.coverage else ""
    return number_text(
        f"<b>{markup(names(record, ids))}: {markup(shortened(said, 300))}</b> {markup(coverage)}",
        STYLES["cell_small"],
        (kind.key, specimen.id),
    )


def _budget(one: Sum) -> Iterator[list[Cell] | str]:
    """Yield the budget's lines; what several inputs share in a sentence, what is exact not here.

    What a single input is made of stands once, under the inputs, and not in every figure.
    """
    for row in one.rows:
        if not row.inset and row.spread != EXACT:
            yield _budget_line(row)


def _budget_line(row: BudgetRow) -> list[Cell] | str:
    note = f" ({row.note})" if row.note and row.note != row.label else ""
    if not row.value:
        return (
            f"{row.label}{note}: {row.contribution}, {row.spread}, ν {row.freedom} "
            f"({row.share_text})"
        )
    return [
        f"{row.label}{note}", row.value, row.u, row.spread, row.freedom, row.sensitivity,
        row.contribution, row.share_text,
    ]  # fmt: skip


def _from(one: Sum, tools: dict[str, str]) -> str:
    """Return what was read, with what, and what to bear in mind; a budget holds the values."""
    budget = _has_budget(one)
    by_tool: dict[str, list[str]] = {}
    for entry in one.inputs:
        if entry.readings:
            taken = ", ".join(tools.get(tool, f"no instrument ({tool})")
                              for tool, _ in entry.by_instrument)  # fmt: skip
            said = entry.label if budget else f"{entry.label} {entry.text}"
            by_tool.setdefault(taken, []).append(said)
    read = "; ".join(f"{tool}: {', '.join(said)}" for tool, said in by_tool.items())
    exact = ", ".join(f"{row.label} {row.value}" for row in one.rows if row.spread == EXACT)
    told = [f"Read with {read}." if read else "Nothing was read for it."]
    told += [f"Exact: {exact}."] if exact else []
    return " ".join([*told, *one.warnings])


def _sentence(text: str) -> str:
    return text if text.endswith((".", "!", "?")) else f"{text}."
