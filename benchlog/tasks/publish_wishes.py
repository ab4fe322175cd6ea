"""What the reviewer chose about everything that goes out, kept from one revision to the next."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from benchlog.errors import PlanRefused
from benchlog.tasks.changed import CARDS, CHAPTERS, DATA, DESCRIPTION, SHEET
from benchlog.tasks.description import LIMIT, Links
from benchlog.tasks.footage import Footage, Kept
from benchlog.tasks.sheet_wishes import SheetWishes
from benchlog.tasks.stand_in_wish import StandInWish

KINDS = (SHEET, CARDS, DATA, CHAPTERS, DESCRIPTION)
_ADDRESS = re.compile(r"https?://[^\s/]+\.?\S*")
HEIGHTS = (1080, 2160)
"""Lines of the two sizes in which cards are drawn."""


@dataclass(frozen=True)
class PublishWishes:
    """One line-up's choices. `kinds` are the outputs wanted, `heights` the sizes of cards.

    `licence` is that of the data, "" while none is chosen. `footage` are the clips in the order of
    the openings of the bench. `ask` is a question to viewers, `limit` counts characters of the
    description. `large_print` asks for one page in large letters beside the sheet. `kept` are the
    ranges of the uncut footage that the finished video shows, in its order; none for all of it.
    """

    kinds: tuple[str, ...] = KINDS
    sums: bool = False
    heights: tuple[int, ...] = HEIGHTS
    licence: str = ""
    footage: tuple[Footage, ...] = ()
    links: Links = field(default_factory=Links)
    ask: str = ""
    limit: int = LIMIT
    stand_in: StandInWish | None = None
    large_print: bool = False
    kept: tuple[Kept, ...] = ()

    def of_sheet(self, units: str) -> SheetWishes:
        """Return what of this is the sheet's."""
        page = self.stand_in is not None and self.stand_in.on_sheet
        return SheetWishes(
            units,
            self.sums,
            stand_in=self.stand_in if page else None,
            address=self.links.data,
            large_print=self.large_print,
        )

    def goes_out(self, kind: str) -> bool:
        """Whether an output is wanted and nothing that it needs is missing."""
        return kind in self.kinds and (kind != DATA or bool(self.licence))


def with_words(wishes: PublishWishes, typed: Mapping[str, str]) -> PublishWishes:
    """Return wishes with links, question and limit as typed.

    Raises PlanRefused, naming the field, for an address that is none and for a limit that cannot
    hold anything.
    """
    links = {name: typed[name].strip() for name in ("sheet", "data", "method")}
    for name, address in links.items():
        if address and not _ADDRESS.fullmatch(address):
            raise PlanRefused(
                f"'{address}' is no address of a page.",
                "Paste it as it stands in the browser, from https:// on; or leave it empty.",
                field=name,
            )
    text = typed["limit"].strip() or str(LIMIT)
    if not text.isdecimal() or not 200 <= int(text) <= 100_000:
        raise PlanRefused(
            f"'{text}' characters is no limit.", "Type a number from 200 to 100000.", field="limit"
        )
    ask = " ".join(typed["ask"].split())
    return replace(wishes, links=Links(**links), ask=ask, limit=int(text))


def kept_wishes(wishes: PublishWishes) -> dict[str, Any]:
    """Return wishes in JSON's own kinds."""
    import msgspec  # noqa: PLC0415 - only when something is kept

    made: dict[str, Any] = msgspec.to_builtins(wishes)
    return made


def wishes_back(kept: Mapping[str, Any]) -> PublishWishes:
    """Return what was kept; what makes no sense any more falls back to the usual."""
    import msgspec  # noqa: PLC0415 - only when something was kept

    try:
        return msgspec.convert(dict(kept), PublishWishes)
    except msgspec.ValidationError:
        return PublishWishes()
