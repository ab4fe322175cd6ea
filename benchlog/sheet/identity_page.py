"""Who paid, where each specimen comes from, and what its maker claims."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from reportlab.platypus import CondPageBreak, Flowable

from benchlog.sheet.flow import Cell, section, specimen_head, table
from benchlog.sheet.text import para
from benchlog.sheet.typography import Page
from benchlog.sheet.value_rows import Row
from benchlog.sheet.values_table import ValuesTable, value_columns
from benchlog.sheet.words import cut_of_same, price_of, who_paid
from benchlog.tasks.record import Record
from benchlog.trade.specimen import Specimen

ROOM_FOR_CLAIMS = 150.0

LEAD = (
    "A filter is known by its part number, its lot and its origin together. What the box says, "
    "what the can says and what the reviewer infers are three answers, kept apart."
)

CLAIMS_LEAD = (
    "Printed as found on box, can or leaflet. None of it was tested here, and none of it "
    "enters a score."
)


def _fields(record: Record, specimen: Specimen) -> list[tuple[str, str]]:
    unknown = "not recorded"
    return [
        ("Who paid", who_paid(specimen)),
        ("Maker", specimen.maker or unknown),
        ("Part number", specimen.part_number or unknown),
        ("Lot or date code", specimen.lot or unknown),
        ("Origin, box says", specimen.origin_box or unknown),
        ("Origin, can says", specimen.origin_can or unknown),
        ("Origin, reviewer infers", specimen.origin_inferred or unknown),
        ("Price", price_of(specimen)),
        ("Bought or received", specimen.bought_on or unknown),
        ("Cut of this part number", f"n = {cut_of_same(record, specimen)}"),
        ("Note", specimen.note or "none"),
    ]


def _identity(record: Record, page: Page) -> Flowable:
    specimens = record.lineup.specimens
    widths = value_columns(page, len(specimens))
    rows: list[list[Cell]] = [
        ["", *(specimen_head(s, w, 8) for s, w in zip(specimens, widths[1:], strict=True))]
    ]
    fields = [_fields(record, s) for s in specimens]
    for index, (label, _) in enumerate(fields[0] if fields else []):
        rows.append([para(label, "cell"), *(each[index][1] for each in fields)])
    return table(rows, widths)


def _claims(record: Record, page: Page, claims: Iterable[Row]) -> list[Flowable]:
    rows = list(claims)
    if not rows:
        return []
    grown = ValuesTable(record, page)
    grown.add([replace(row, beside="") for row in rows])
    opening = section("Makers’ claims, not tested here", CLAIMS_LEAD)
    return [CondPageBreak(ROOM_FOR_CLAIMS), *opening, *grown.flowables()]


def identity_page(record: Record, page: Page, claims: Iterable[Row]) -> list[Flowable]:
    """Return the section on who paid and on identity, and the claims as claims."""
    opening = section("Who paid, and which filters these are", LEAD)
    return [*opening, _identity(record, page), *_claims(record, page, claims)]
