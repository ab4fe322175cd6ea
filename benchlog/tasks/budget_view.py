"""An uncertainty budget as it is shown: a line an input, its sources, and what inputs share."""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchlog.derive.sum_shown import Budget, Source, TermRow, in_unit
from benchlog.measure.instrument import Instrument
from benchlog.measure.rounding import as_is, exact_number, rounded
from benchlog.measure.units import convert, unit_symbol
from benchlog.tasks.record import Record
from benchlog.tasks.value_text import label_of, shown_units

ALONE = {
    "repeats": "scatter of the repeats",
    "resolution": "the last digit read",
    "counts": "counts that disagree",
    "fields": "how fields of one medium differ",
    "light": "what light shifts in this medium alone",
}
"""What a finding's own sources are called, by the end of their name."""

PICTURED = {
    "picture scale": "the scale of the set-up, in all its pictures alike",
    "picture light": "what light and edges shift, in all pictures of the set-up alike",
}
"""What all pictures of one set-up share, by the beginning of its name."""


@dataclass(frozen=True)
class BudgetRow:
    """One line of a budget, as texts; `share` is its part of the variance, 0 to 1.

    The shares of all lines that are not `inset` make up 1; an inset line tells one source of the
    line above it. `note` says what the source is, or that it cancels.
    """

    label: str
    value: str
    u: str
    spread: str
    freedom: str
    sensitivity: str
    contribution: str
    share: float
    share_text: str
    note: str = ""
    inset: bool = False

    def speaking(self, currency: str) -> BudgetRow:
        """Return the line with the name of a currency for "money"."""
        return replace(
            self,
            value=self.value.replace("money", currency),
            sensitivity=self.sensitivity.replace("money", currency),
            contribution=self.contribution.replace("money", currency),
            note=self.note.replace("money", currency),
        )


def budget_rows(
    record: Record, budget: Budget, unit: str, units: str = "metric"
) -> tuple[BudgetRow, ...]:
    """Return a budget line by line: the inputs, largest share first, then what they share.

    The number itself is in `unit`, its inputs in metric or inch units.
    """
    step = convert(1.0, budget.unit, unit) - convert(0.0, budget.unit, unit)
    lines: list[BudgetRow] = []
    for term in sorted(budget.terms, key=lambda t: (-t.share, -t.contribution)):
        seen = in_unit(term, _unit_of(record, term, units))
        own = [s for s in budget.sources if s.inputs == (term.key,)]
        lines.append(_term_line(record, seen, own, unit, step))
        if len(own) > 1:
            lines += [_source_line(record, source, unit, step, inset=True) for source in own]
    apart = [s for s in budget.sources if len(s.inputs) != 1]
    return (*lines, *(_source_line(record, source, unit, step, inset=False) for source in apart))


def coverage_words(budget: Budget, unit: str) -> str:
    """Return the foot of a budget: u, effective degrees of freedom, k and U for 95 %."""
    if not budget.u:
        return "Exact: nothing in it is uncertain."
    step = convert(1.0, budget.unit, unit) - convert(0.0, budget.unit, unit)
    return (
        f"u = {amount(budget.u * step, unit)}, "
        f"effective degrees of freedom {freedom_text(budget.freedom)}, "
        f"coverage factor k = {budget.factor:.2f}, "
        f"U = {amount(budget.expanded * step, unit)} (95 %)"
    )


def source_words(record: Record, source: Source) -> str:
    """Return what a source of uncertainty is, in words."""
    kind, _, rest = source.name.partition("/")
    if kind == "instrument":
        names = {i.id: i for i in record.instruments}
        return f"permissible error of {names[rest].name}" if rest in names else "an instrument"
    if kind == "correction":
        return "the shift of a group correction"
    if kind == "assumed":
        return "assumed interval"
    if kind in PICTURED:
        return PICTURED[kind]
    attribute, _, specimen_id = source.name.rpartition("/")[0].partition("/")
    finding = record.findings.get((attribute, specimen_id))
    if source.name.endswith("/resolution") and finding and finding.low is not None:
        return "the interval said"
    return ALONE.get(source.name.rpartition("/")[2], source.name.replace("_", " "))


def instrument_words(instrument: Instrument) -> str:
    """Return an instrument with what it is good for: "Calliper, reads to 0.01 mm, ± 0.02 mm"."""
    symbol = unit_symbol(instrument.unit)
    words = [instrument.name, f"reads to {as_is(instrument.resolution)} {symbol}".rstrip()]
    if instrument.accuracy_class:
        step = f"e = {as_is(instrument.verification_interval)} {symbol}".rstrip()
        words.append(f"class {instrument.accuracy_class}, {step}")
    elif instrument.permissible_error:
        words.append(f"permissible error ± {as_is(instrument.permissible_error)} {symbol}".rstrip())
    if instrument.contact_pressure_kpa is not None:
        words.append(f"foot pressure {as_is(instrument.contact_pressure_kpa)} kPa")
    return ", ".join(words)


def term_text(record: Record, term: TermRow, units: str) -> str:
    """Return a term's value with its unit, for one that is no reading."""
    seen = in_unit(term, _unit_of(record, term, units))
    return _with_symbol(_value(seen), seen.unit)


def freedom_text(freedom: float) -> str:
    """Return degrees of freedom, one decimal below a hundred."""
    return "∞" if freedom > 1e6 else as_is(round(freedom, 1 if freedom < 100 else 0))


def _term_line(
    record: Record, term: TermRow, own: list[Source], unit: str, step: float
) -> BudgetRow:
    one = own[0] if len(own) == 1 else None
    exact = not term.u
    spread = term.spread.value if term.spread else "exact" if exact else "several"
    return BudgetRow(
        label=term_label(record, term),
        value=_with_symbol(_value(term), term.unit),
        u="0" if exact else amount(term.u, term.unit),
        spread=spread,
        freedom="" if exact else freedom_text(term.freedom),
        sensitivity=_with_slope(term.sensitivity * step, unit, term.unit),
        contribution=amount(term.contribution * step, unit),
        share=term.share,
        share_text=_percent(term.share),
        note="" if exact else source_words(record, one) if one else "",
    )


def _source_line(
    record: Record, source: Source, unit: str, step: float, *, inset: bool
) -> BudgetRow:
    words = source_words(record, source)
    joined = " + ".join(label_of(record, key) for key in source.inputs)
    note = ""
    if len(source.inputs) > 1:
        note = words + (_cancelling(source, unit, step) if source.cancels else ", shared")
    size = amount(source.contribution * step, unit)
    return BudgetRow(
        label=words if inset or not joined else joined,
        value="",
        u=size if not source.inputs else "",
        spread=source.spread.value,
        freedom=freedom_text(source.freedom),
        sensitivity="1" if not source.inputs else "",
        contribution=size,
        share=source.share,
        share_text=_percent(source.share),
        note=note,
        inset=inset,
    )


def _cancelling(source: Source, unit: str, step: float) -> str:
    apart = amount(source.apart * step, unit)
    how = "cancels" if not source.contribution else "cancels in part"
    return f", shared: {how}; apart it would be {apart}"


def term_label(record: Record, term: TermRow) -> str:
    """Return what a term is called; an assumption's key as words."""
    label = label_of(record, term.key)
    return label[:1].upper() + label[1:]


def _unit_of(record: Record, term: TermRow, units: str) -> str:
    """Return the unit to show a term in: its attribute's, or the one it was stated in."""
    for attribute in record.sequence.attributes:
        if attribute.key == term.key and attribute.unit:
            return shown_units(attribute.unit, attribute.inch_unit, units)[0]
    return term.said_in or term.unit


def _value(term: TermRow) -> str:
    if term.unit.startswith("money"):
        return exact_number(term.value, term.unit)
    return rounded(term.value, term.u)[0]


def _digits(size: float) -> str:
    return rounded(size, abs(size))[1]


def amount(size: float, unit: str) -> str:
    """Return an uncertainty with its symbol, two significant digits."""
    return _with_symbol(_digits(size), unit)


def _with_symbol(number: str, unit: str) -> str:
    symbol = unit if unit == "money" else unit_symbol(unit)
    return f"{number} {symbol}".rstrip()


def _with_slope(slope: float, unit: str, per: str) -> str:
    above, below = unit_symbol(unit), unit_symbol(per)
    number = as_is(float(f"{slope:.3g}"))
    if above == below or not (above or below):
        return number
    above, below = (f"({s})" if "/" in s or "·" in s else s for s in (above, below))
    return f"{number} {above}/{below}" if above and below else f"{number} {above or '1/' + below}"


def _percent(share: float) -> str:
    return f"{100 * share:.1f} %"
