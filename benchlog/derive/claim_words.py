"""A maker's claim in words: as said, with what it rests on and what does not go together."""

from __future__ import annotations

from benchlog.derive.inputs import Inputs
from benchlog.errors import OurFault
from benchlog.measure.estimate import step_said
from benchlog.measure.finding import Finding
from benchlog.measure.reading import Said
from benchlog.measure.units import convert, si_unit, unit_symbol

STANDARDS = {
    "iso_4548_12": "ISO 4548-12",
    "iso_16889": "ISO 16889",
    "sae_j1858": "SAE J1858",
    "iso_4548_4": "ISO 4548-4",
    "another": "another standard",
}
"""What the standards of a claim are called, by the answer's key."""

SIZES = {
    "um_c": "µm(c)",
    "um_b": "µm(b)",
    "iso_4402": "µm by ISO 4402",
}
"""What the scales of a claimed size are called, by the answer's key."""


def no_value(standard: str | None) -> bool:
    """Whether no standard is named."""
    return standard is None or standard == "not_stated"


def said_span(inputs: Inputs, key: str) -> tuple[float, float]:
    """Return the ends, in SI, of all that a number as said may stand for; raises CannotWork.

    An interval stands as it is; a single number reaches half of its last place to either side,
    so that 99 % is 98.5 to 99.5 % and 99.0 % is 98.95 to 99.05 %.
    """
    finding = inputs.finding(key)
    said = _said(finding)
    if said.low is not None and said.high is not None:
        ends = float(said.low), float(said.high)
    else:
        half = step_said(said) / 2
        ends = float(said.value - half), float(said.value + half)
    target = si_unit(said.unit)
    return convert(ends[0], said.unit, target), convert(ends[1], said.unit, target)


def all_of_it(inputs: Inputs, standard: str | None) -> str:
    """Return a retention claim in one line, as said, and warn of what does not go together."""
    _warn_of_size(inputs, standard)
    _warn_of_ratio(inputs)
    kept = []
    if inputs.has("claim_percent"):
        kept.append(_shown(inputs.finding("claim_percent")))
    if inputs.has("claim_ratio"):
        kept.append(f"β {_shown(inputs.finding('claim_ratio'))}")
    line = " or ".join(kept)
    if inputs.has("claim_size"):
        line += f" at {_size(inputs)}"
    return f"{line}, {STANDARDS.get(standard or '', 'no standard')}"


def capacity_line(inputs: Inputs, standard: str | None) -> str:
    """Return a capacity claim in one line, as said."""
    grams, end = inputs.finding("claim_grams"), inputs.finding("claim_end_pressure")
    return f"{_shown(grams)} up to {_shown(end)}, {STANDARDS.get(standard or '', 'no standard')}"


def _size(inputs: Inputs) -> str:
    shown = _shown(inputs.finding("claim_size"))
    scale = inputs.word("claim_size_scale")
    if scale in SIZES and shown.endswith(" µm"):
        return shown.removesuffix("µm") + SIZES[scale]
    return f"{shown}, size scale {SIZES.get(scale or '', 'not stated')}"


def _warn_of_size(inputs: Inputs, standard: str | None) -> None:
    scale = inputs.word("claim_size_scale")
    if standard == "sae_j1858" and scale in ("um_c", "um_b"):
        inputs.warn(
            "SAE J1858 is cancelled and counted on the ISO 4402 scale: read the size scale again."
        )
    if standard == "iso_4548_4" and inputs.has("claim_size"):
        inputs.warn(
            "ISO 4548-4 weighs the dust that is kept: no particle size belongs to its percentage."
        )
    if inputs.has("claim_size") and scale not in SIZES:
        inputs.warn("The claim does not say on which scale its particle size is.")


def _warn_of_ratio(inputs: Inputs) -> None:
    """Say so when a claim's percentage and its ratio are not one rating."""
    if not (inputs.has("claim_percent") and inputs.has("claim_ratio")):
        return
    low, high = said_span(inputs, "claim_percent")
    least, most = (1 - 1 / max(end, 1.0) for end in said_span(inputs, "claim_ratio"))
    if most < low or high < least:
        inputs.warn("The claimed percentage and the claimed ratio are not the same rating.")


def _shown(finding: Finding) -> str:
    said = _said(finding)
    ends = (said.value,) if said.low is None else (said.low, said.high)
    return f"{' to '.join(f'{end:f}' for end in ends)} {unit_symbol(said.unit)}".strip()


def _said(finding: Finding) -> Said:
    """Return what the latest reading behind a number said; raises OurFault without one."""
    for reading in reversed(finding.readings):
        if reading.said is not None:
            return reading.said
    raise OurFault(f"the finding of {finding.attribute} holds a number that nobody said")
