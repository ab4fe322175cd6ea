"""Who paid, where each specimen comes from, and what its maker claims."""

from __future__ import annotations

from reportlab.platypus import CondPageBreak, Flowable

from benchlog.sheet.flow import Cell, columns, section, specimen_head, table
from benchlog.sheet.text import para
from benchlog.sheet.typography import Page
from benchlog.sheet.words import cut_of_same, finding_words, is_claim, price_of, who_paid
from benchlog.tasks.record import Record
from benchlog.trade.specimen import Specimen

ROOM_FOR_CLAIMS = 180.0

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
    widths = columns(page.content, 96, len(specimens))
    rows: list[list[Cell]] = [
        ["", *(specimen_head(s, w, 8) for s, w in zip(specimens, widths[1:], strict=True))]
    ]
    fields = [_fields(record, s) for s in specimens]
    for index, (label, _) in enumerate(fields[0] if fields else []):
        rows.append([para(label, "label"), *(each[index][1] for each in fields)])
    return table(rows, widths)


def _claims(record: Record, page: Page) -> list[Flowable]:
    claims = [a for a in record.sequence.attributes if is_claim(a)]
    asked = [a for a in claims if _is_shown(record, a.key)]
    if not asked:
        return []
    specimens = record.lineup.specimens
    widths = columns(page.content, 96, len(specimens))
    rows: list[list[Cell]] = [
        ["Claim", *(specimen_head(s, w) for s, w in zip(specimens, widths[1:], strict=True))]
    ]
    for attribute in asked:
        cells = [finding_words(record.findings.get((attribute.key, s.id)), attribute)
                 for s in specimens]  # fmt: skip
        rows.append([para(attribute.label, "label"), *(cell.main for cell in cells)])
    opening = section("Makers’ claims, not tested here", CLAIMS_LEAD)
    return [CondPageBreak(ROOM_FOR_CLAIMS), *opening, table(rows, widths)]


def _is_shown(record: Record, key: str) -> bool:
    return key in record.lineup.attributes or any(k == key for k, _ in record.findings)


def identity_page(record: Record, page: Page) -> list[Flowable]:
    """Return the section on who paid and on identity, and the claims as claims."""
    opening = section("Who paid, and which filters these are", LEAD)
    return [*opening, _identity(record, page), *_claims(record, page)]
