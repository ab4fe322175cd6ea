"""What a maker's claim comes to: filtration ratio and percentage, size scales, what is missing.

Nothing here was tested: every figure is a claim put in other words, and says so.
"""

from __future__ import annotations

from benchlog.derive.claim_words import all_of_it, capacity_line, no_value, said_span
from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.number import Number
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component
from benchlog.trade.particle_size import Pair, SizeScale, load_size_scales

BESIDE = "The maker's claim, not tested here."

CLAIMED_RATIO = FigureKind(
    key="claimed_ratio",
    label="Claimed filtration ratio",
    component=Component.WHOLE,
    formula="β = 1 ÷ (1 − E): one ÷ the share that the claim lets through; "
    "a percentage stands for all that rounds to it",
    inputs=("claim_percent",),
    unit="dimensionless",
    inch_unit="dimensionless",
    judged=Judged.IDENTITY,
    support=Support.STANDARD,
    source="ISO 16889 and ISO 4548-12 (filtration ratio)",
    note="Between its ends: '99 %' to the whole per cent spans a ratio of 67 to 200.",
    bounded=True,
    beside=BESIDE,
)

CLAIMED_SHARE = FigureKind(
    key="claimed_share",
    label="Percentage kept, by the claimed ratio",
    component=Component.WHOLE,
    formula="E = 1 − 1 ÷ β: one − one ÷ claimed filtration ratio",
    inputs=("claim_ratio",),
    unit="percent",
    inch_unit="percent",
    judged=Judged.IDENTITY,
    support=Support.STANDARD,
    source="ISO 16889 and ISO 4548-12 (filtration ratio)",
    note="98.7 % and a ratio of 75 are one rating: the exact percentage of 75 is 98.667.",
    bounded=True,
    beside=BESIDE,
)

CLAIMED_SIZE = FigureKind(
    key="claimed_size_c",
    label="Claimed particle size, in µm(c)",
    component=Component.WHOLE,
    formula="x(c) = y₀ + (x − x₀) × (y₁ − y₀) ÷ (x₁ − x₀): between the two rows of the table of "
    "scales around the claimed size; a size in µm(c) stands",
    inputs=("claim_size", "claim_size_scale"),
    unit="micrometer",
    inch_unit="micrometer",
    judged=Judged.IDENTITY,
    support=Support.STANDARD,
    source="ISO 11171 (today's scale); the table of scales names its own sources",
    note="Only for reading an older claim; a claim whose scale is not stated stays as it is.",
    bounded=True,
    beside=BESIDE,
)

CLAIM_STANDS = FigureKind(
    key="claim_stands",
    label="Claimed retention, whole or incomplete",
    component=Component.WHOLE,
    formula="whole when particle size, percentage (or ratio) and standard are all named",
    inputs=("claim_size", "claim_size_scale", "claim_percent", "claim_ratio", "claim_standard"),
    unit="",
    inch_unit="",
    judged=Judged.IDENTITY,
    support=Support.STANDARD,
    source="ISO 4548-12 (what a result states); trade advice on reading claims",
    beside=BESIDE,
)

CAPACITY_STANDS = FigureKind(
    key="capacity_stands",
    label="Claimed capacity, whole or incomplete",
    component=Component.WHOLE,
    formula="whole when grams, end pressure and standard are all named",
    inputs=("claim_grams", "claim_end_pressure", "claim_standard"),
    unit="",
    inch_unit="",
    judged=Judged.IDENTITY,
    support=Support.STANDARD,
    source="ISO 4548-12 (capacity at an end pressure)",
    beside=BESIDE,
)


def claimed_ratio(inputs: Inputs) -> Number:
    """Filtration ratio of a claimed percentage, all that rounds to it; raises CannotWork.

    A percentage that may stand for 100 has no upper end and is refused.
    """
    low, high = said_span(inputs, "claim_percent")
    if low < 0.0 or high >= 1.0:
        least = f", a ratio of at least {1 / (1 - low):.3g}" if 0.0 <= low < 1.0 else ""
        raise CannotWork(
            f"The claimed percentage could mean {100 * low:.4g} % or more{least} without an upper "
            "end; no interval can be given."
        )
    share = inputs.between("claimed_percentage", low, high, "dimensionless", _all(low, high))
    return 1 / (1 - share)


def claimed_share(inputs: Inputs) -> Number:
    """Share kept that a claimed filtration ratio stands for (ISO 16889); raises CannotWork."""
    low, high = said_span(inputs, "claim_ratio")
    if low <= 0.0:
        raise CannotWork("The claimed ratio is not above zero; read it again.")
    said = f"The claimed ratio stands for all that rounds to it, {low:.5g} to {high:.5g}."
    return 1 - 1 / inputs.between("claimed_beta", low, high, "dimensionless", said)


def claimed_size(inputs: Inputs) -> Number:
    """Claimed size on the scale of ISO 11171; raises CannotWork without a scale to start from.

    The rows around the size itself serve for both of its ends.
    """
    named = inputs.word("claim_size_scale")
    if named is None:
        raise CannotWork(inputs.missing("claim_size_scale"))
    low, high = said_span(inputs, "claim_size")
    said = f"The size stands for all that rounds to it, {low * 1e6:.4g} to {high * 1e6:.4g} µm."
    size = inputs.between("claimed_size", low, high, "meter", said)
    if named == "um_c":
        return size
    scale = load_size_scales().get(named)
    if scale is None:
        raise CannotWork("The scale of the claimed size is not stated, so it cannot be turned.")
    return _turned(inputs, size, scale)


def _turned(inputs: Inputs, size: Number, scale: SizeScale) -> Number:
    """Linear between the two rows of the scale's table around the size."""
    rows = scale.around(_tidy(inputs.best("claimed_size") * 1e6))
    if rows is None:
        least, most = scale.reach
        raise CannotWork(
            f"The table from {scale.label} to µm(c) holds {least:g} to {most:g} µm only."
        )
    (x0, y0), (x1, y1) = (
        _row(inputs, end, row, scale) for end, row in zip("01", rows, strict=True)
    )
    half = scale.rounded_to / 2
    said = f"The sizes in µm(c) of the table are good to {half:g} µm."
    last_place = inputs.between("table_place", -half, half, "micrometer", said, shared=True)
    return y0 + (size - x0) * (y1 - y0) / (x1 - x0) + last_place


def _row(inputs: Inputs, end: str, row: Pair, scale: SizeScale) -> tuple[Number, Number]:
    said = f"{row[0]:g} {scale.label} is {row[1]:g} µm(c): {scale.source}."
    return (
        inputs.stated(f"table_old_{end}", row[0], "micrometer", said),
        inputs.stated(f"table_new_{end}", row[1], "micrometer", said),
    )


def _tidy(size_um: float) -> float:
    """Return a size without the last digits of its way through metres."""
    return float(f"{size_um:.9g}")


def _all(low: float, high: float) -> str:
    return (
        "The claimed percentage stands for all that rounds to it, "
        f"{100 * low:.5g} to {100 * high:.5g} %."
    )


def claim_stands(inputs: Inputs) -> str:
    """Say a retention claim in one line, or what it lacks; raises CannotWork without any."""
    kept = inputs.has("claim_percent") or inputs.has("claim_ratio")
    sized = inputs.has("claim_size")
    standard = inputs.word("claim_standard")
    if not kept and not sized:
        raise CannotWork(inputs.missing("claim_percent"))
    by_weight = standard == "iso_4548_4"
    lacks = []
    if not kept:
        lacks.append("micrometre without a percentage")
    if not sized and not by_weight:
        lacks.append("percentage without a particle size")
    if no_value(standard):
        lacks.append("no standard named")
    line = all_of_it(inputs, standard)
    return f"incomplete: {', '.join(lacks)}" if lacks else line


def capacity_stands(inputs: Inputs) -> str:
    """Say a capacity claim in one line, or what it lacks; raises CannotWork without any."""
    inputs.finding("claim_grams")
    standard = inputs.word("claim_standard")
    lacks = [] if inputs.has("claim_end_pressure") else ["grams without an end pressure"]
    if no_value(standard):
        lacks.append("no standard named")
    return f"incomplete: {', '.join(lacks)}" if lacks else capacity_line(inputs, standard)


FIGURES = (
    (CLAIM_STANDS, claim_stands),
    (CLAIMED_RATIO, claimed_ratio),
    (CLAIMED_SHARE, claimed_share),
    (CLAIMED_SIZE, claimed_size),
    (CAPACITY_STANDS, capacity_stands),
)
