"""A line-up while it is being planned: typed, perhaps not yet fit to stand on the shelf."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, field, replace
from datetime import datetime
from decimal import Decimal, InvalidOperation
from typing import Any

from benchlog.errors import PlanRefused
from benchlog.tasks.plan import added_specimen, new_lineup, save_plan, usual_attributes
from benchlog.tasks.ports import Clock, Shelf
from benchlog.trade.attribute import Sequence
from benchlog.trade.sequence_file import load_sequence
from benchlog.trade.specimen import Lineup, Paid, Specimen

KINDS = ("spin_on", "cartridge")
"""Keys of the sequences that a line-up can follow."""


@dataclass(frozen=True)
class Draft:
    """A line-up as it stands in the form; `price_texts` keeps prices as typed, by specimen id."""

    lineup: Lineup
    price_texts: dict[str, str] = field(default_factory=dict)

    def specimen(self, specimen_id: str) -> Specimen:
        """Return one specimen; raises KeyError."""
        for specimen in self.lineup.specimens:
            if specimen.id == specimen_id:
                return specimen
        raise KeyError(specimen_id)

    def price_text(self, specimen_id: str) -> str:
        """Return the price as it was typed, or as it stands."""
        price = self.specimen(specimen_id).price
        return self.price_texts.get(specimen_id, "" if price is None else f"{price:f}")


def fresh_draft(clock: Clock, reviewer: str = "", currency: str = "") -> Draft:
    """Return a new plan with three empty specimens and no name yet."""
    lineup = new_lineup(clock, load_sequence(KINDS[0]), name="", reviewer=reviewer)
    specimens = tuple(replace(s, currency=currency) for s in lineup.specimens)
    return Draft(replace(lineup, specimens=specimens))


def with_heading(draft: Draft, **changes: Any) -> Draft:
    """Return the draft with other words in its heading: name, question, reviewer."""
    return replace(draft, lineup=replace(draft.lineup, **changes))


def with_specimen(draft: Draft, specimen_id: str, **changes: Any) -> Draft:
    """Return the draft with one specimen changed; `price_text` is a price as typed."""
    texts = draft.price_texts
    if "price_text" in changes:
        texts = {**texts, specimen_id: changes.pop("price_text")}
    specimens = tuple(
        replace(s, **changes) if s.id == specimen_id else s for s in draft.lineup.specimens
    )
    return Draft(replace(draft.lineup, specimens=specimens), texts)


def with_added(draft: Draft, currency: str = "") -> tuple[Draft, str]:
    """Return the draft with one specimen more, and its id; raises PlanRefused when it is full."""
    fresh = replace(added_specimen(draft.lineup.specimens), currency=currency)
    specimens = (*draft.lineup.specimens, fresh)
    return replace(draft, lineup=replace(draft.lineup, specimens=specimens)), fresh.id


def without(draft: Draft, specimen_id: str, read: Collection[str] = ()) -> Draft:
    """Return the draft without one specimen.

    Raises PlanRefused when it is the last one, or one of `read`, the ids that have readings.
    """
    if specimen_id in read:
        raise PlanRefused(
            f"{draft.specimen(specimen_id).nickname} has readings and cannot be taken out.",
            "Readings are never deleted; leave it in the line-up.",
        )
    left = tuple(s for s in draft.lineup.specimens if s.id != specimen_id)
    if not left:
        raise PlanRefused(
            "A line-up holds at least one specimen.", "Change this one instead of removing it."
        )
    return replace(draft, lineup=replace(draft.lineup, specimens=left))


def moved(draft: Draft, specimen_id: str, by: int) -> Draft:
    """Return the draft with one specimen moved in bench order, as far as the ends allow."""
    specimens = list(draft.lineup.specimens)
    here = [s.id for s in specimens].index(specimen_id)
    there = min(max(here + by, 0), len(specimens) - 1)
    specimens.insert(there, specimens.pop(here))
    return replace(draft, lineup=replace(draft.lineup, specimens=tuple(specimens)))


def asking(draft: Draft, sequence: Sequence, keys: Iterable[str]) -> Draft:
    """Return the draft asking for the attributes of `keys` at the bench, in the sequence's order.

    Attributes that are answered in the line-up itself stay asked.
    """
    wanted = set(keys)
    asked = tuple(a.key for a in sequence.attributes if a.key in wanted or a.specimen_field)
    return replace(draft, lineup=replace(draft.lineup, attributes=asked))


def of_kind(draft: Draft, sequence: Sequence) -> Draft:
    """Return the draft for another kind of filter, asking for what is usual there."""
    changed = replace(draft.lineup, sequence=sequence.key, attributes=usual_attributes(sequence))
    return replace(draft, lineup=changed)


def price_said(text: str) -> Decimal | None:
    """Return a typed price, None for an empty one; a comma may stand for the point.

    Raises PlanRefused when it is no number.
    """
    trimmed = text.strip()
    if not trimmed:
        return None
    try:
        price = Decimal(trimmed.replace(",", "."))
    except InvalidOperation:
        price = Decimal("NaN")
    if not price.is_finite():
        raise PlanRefused(
            f"'{trimmed}' is no price.",
            "Type a number such as 8.90; the currency stands beside it.",
        )
    return price


def remarks_on(draft: Draft, specimen_id: str) -> dict[str, str]:
    """Return what reads as unfinished in a specimen's form, by field; it can be kept all the same.

    A price is owed its currency. A date is written year first, as far as it is known.
    """
    specimen = draft.specimen(specimen_id)
    remarks = {}
    if draft.price_text(specimen_id).strip() and not specimen.currency.strip():
        remarks["currency"] = "Say the currency."
    if specimen.bought_on.strip() and not is_date(specimen.bought_on):
        remarks["bought_on"] = "Write the date as 2026-03-02."
    return remarks


def is_date(text: str) -> bool:
    """Whether a text is a day, a month or a year that exists, as 2026-03-02, 2026-03 or 2026."""
    for shape, length in (("%Y-%m-%d", 10), ("%Y-%m", 7), ("%Y", 4)):
        if len(text.strip()) == length:
            try:
                datetime.strptime(text.strip(), shape)
            except ValueError:
                return False
            return True
    return False


def settled(draft: Draft) -> Lineup:
    """Return the line-up that the draft comes to; raises PlanRefused for a price that is none."""
    specimens = []
    for specimen in draft.lineup.specimens:
        try:
            price = price_said(draft.price_text(specimen.id))
        except PlanRefused as refusal:
            named = f"{specimen.nickname}: {refusal.what}" if specimen.nickname else refusal.what
            raise PlanRefused(named, refusal.do, field="price", specimen_id=specimen.id) from None
        specimens.append(replace(specimen, price=price))
    return replace(draft.lineup, specimens=tuple(specimens))


def save_draft(shelf: Shelf, draft: Draft) -> Lineup:
    """Put the plan on the shelf and return it; raises PlanRefused naming the field at fault."""
    lineup = settled(draft)
    save_plan(shelf, lineup)
    return lineup


def at_fault(draft: Draft, refusal: PlanRefused, shown: str) -> str:
    """Return the id of the specimen beside which a refusal belongs, "" for none.

    Of two specimens that share a tag it is the one that is `shown`, if it is one of them.
    """
    if refusal.field not in ("nickname", "shape") or not refusal.specimen_id:
        return refusal.specimen_id
    blamed, here = draft.specimen(refusal.specimen_id), draft.specimen(shown)
    same_name = blamed.nickname.strip().casefold() == here.nickname.strip().casefold()
    shared = same_name if refusal.field == "nickname" else blamed.shape == here.shape
    return shown if shared else refusal.specimen_id


def owed(lineup: Lineup) -> tuple[Specimen, ...]:
    """Return the specimens of which it is not said yet who paid."""
    return tuple(s for s in lineup.specimens if s.paid is Paid.UNANSWERED)
