"""A sum as plain text, to be pasted wherever it is asked for."""

from __future__ import annotations

from benchlog.tasks.budget_view import BudgetRow
from benchlog.tasks.figure_view import Sum, SumInput


def sum_text(shown: Sum) -> str:
    """Return a sum in lines: result, formula, inputs with their readings, budget, warnings."""
    parts = [
        [f"{shown.title}: {shown.result}"],
        [shown.beside],
        [shown.formula],
        ["Inputs", *(line for one in shown.inputs for line in _input_lines(one))],
        ["Uncertainty budget", *map(_row_line, shown.rows), shown.coverage],
        ["Assumed", *shown.assumed],
        ["Warnings", *shown.warnings],
        [f"Source: {shown.source}. {shown.note}".strip()],
    ]
    headed = ("Inputs", "Uncertainty budget", "Assumed", "Warnings")
    kept = [[line for line in part if line] for part in parts]
    return "\n\n".join(
        "\n".join(part) for part in kept if part and (len(part) > 1 or part[0] not in headed)
    )


def _input_lines(one: SumInput) -> list[str]:
    lines = [f"  {one.label}: {one.text}"]
    lines += [f"    {', '.join(readings)} ({tool})" for tool, readings in one.by_instrument]
    return lines + ([f"    {one.note}"] if one.note else [])


def _row_line(row: BudgetRow) -> str:
    cells = [
        f"{row.value}" if row.value else "",
        f"u {row.u}" if row.u else "",
        row.spread,
        f"ν {row.freedom}" if row.freedom else "",
        f"c {row.sensitivity}" if row.sensitivity else "",
        f"|c|·u {row.contribution}",
        row.share_text if not row.inset else f"({row.share_text})",
        row.note,
    ]
    indent = "      " if row.inset else "  "
    return f"{indent}{row.label}: " + "; ".join(cell for cell in cells if cell)
