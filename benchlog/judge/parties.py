"""Who is compared with whom: a specimen alone, or several specimens of one part together."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import TypeAlias

from benchlog.trade.specimen import Specimen

Party: TypeAlias = tuple[str, ...]
"""The ids of the specimens that are compared as one, in bench order; the first stands for all."""

MADE_IN = re.compile(r"^made in\s+", re.IGNORECASE)

SILENT = ("", "not marked", "unknown")
"""What is written of an origin that nobody knows."""

COUNTS = ("no", "one", "two", "three", "four", "five", "six")


def parties_of(specimens: Sequence[Specimen]) -> tuple[Party, ...]:
    """Return the parties of a line-up in bench order.

    Specimens of the same maker, part number and origin are one party; maker or number left blank
    says nothing. One part number from two origins is two parties, as it may be two things, and an
    origin that is not known is not taken for one that is. The lot is not asked: how far lots
    differ is what several specimens are there to show. Where that would leave a single party
    there would be nobody to compare it with, so then every specimen stands for itself.
    """
    found: dict[tuple[str, ...], list[str]] = {}
    for specimen in specimens:
        found.setdefault(part_key(specimen), []).append(specimen.id)
    parties = tuple(tuple(ids) for ids in found.values())
    return parties if len(parties) > 1 else tuple((specimen.id,) for specimen in specimens)


def within(parties: Iterable[Party], ids: Iterable[str]) -> tuple[Party, ...]:
    """Return what is left of parties when only `ids` stand; emptied ones are left out."""
    standing = set(ids)
    left = (tuple(one for one in party if one in standing) for party in parties)
    return tuple(party for party in left if party)


def part_name(party: Party, specimens: Iterable[Specimen]) -> str:
    """Return what several specimens of one part are called: 'these three Larkfield LF-1 parts'.

    The origin is named where the same part number stands in the line-up from another one too.
    """
    every = tuple(specimens)
    first = next(specimen for specimen in every if specimen.id == party[0])
    count = COUNTS[len(party)] if len(party) < len(COUNTS) else str(len(party))
    name = f"these {count} {first.maker.strip()} {first.part_number.strip()} parts"
    if len({part_key(s) for s in every if part_key(s)[:2] == part_key(first)[:2]}) == 1:
        return name
    where = origin_of(first)
    return f"{name} from {where}" if where else f"{name} of unknown origin"


def origin_of(specimen: Specimen) -> str:
    """Return where a specimen is from, as the can, else the box says, else as inferred; or ""."""
    said = (specimen.origin_can, specimen.origin_box, specimen.origin_inferred)
    where = (MADE_IN.sub("", text.strip()) for text in said)
    return next((text for text in where if text.casefold() not in SILENT), "")


def part_key(specimen: Specimen) -> tuple[str, ...]:
    """Return what is alike in specimens of one part, and in no others of a line-up."""
    maker, number = (text.strip().casefold() for text in (specimen.maker, specimen.part_number))
    return (maker, number, origin_of(specimen).casefold()) if maker and number else (specimen.id,)
