"""What goes out and in which way: kept with each revision, and held against the next one's."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from benchlog.errors import PublishRefused
from benchlog.settings import METRIC
from benchlog.tasks.changed import CARDS, CHAPTERS, DESCRIPTION, SHEET, WishChange
from benchlog.tasks.chapters import chapters_of
from benchlog.tasks.footage import timeline_of
from benchlog.tasks.publish_wishes import PublishWishes, kept_wishes
from benchlog.tasks.record import Record

Plain = Mapping[str, Any]

PARTS = {
    SHEET: ("The sheet was", SHEET),
    CARDS: ("Cards were", CARDS),
    CHAPTERS: ("Chapters and subtitles were", CHAPTERS),
    DESCRIPTION: ("The description was", DESCRIPTION),
    "large print": ("Large print was", SHEET),
    "sums": ("Sums were", SHEET),
    "stand-in page": ("A stand-in page was", SHEET),
    "stand-in cards": ("Stand-in cards were", CARDS),
}
"""How each part that may be left out is told of, and the kind of output that it stands in."""

NAMED = {"paper": ("Paper", (SHEET,)), "units": ("Units", (SHEET, CARDS))}
"""Ways that are told with what they were and are."""

OTHERWISE = {
    "card heights": ("The sizes of the cards were changed", (CARDS,)),
    "stand-in": ("The stand-in check was changed", (SHEET, CARDS)),
    "address": ("The address of the data was changed", (SHEET,)),
    "clips": ("The video's clips were set otherwise", (CHAPTERS, DESCRIPTION)),
    "words": ("The description's links, question or length were changed", (DESCRIPTION,)),
}
"""Ways of which only that they changed is told."""


def wanted_of(
    record: Record, wishes: PublishWishes, paper: str = "A4", units: str = METRIC
) -> dict[str, Any]:
    """Return what the wishes let go out, in JSON's own kinds: its parts, and the ways of each.

    Chapters are no part of it while nothing was read at the bench, for there are none then. Nor is
    the data: it goes out by its licence, which is told of by itself.
    """
    asked = wishes.stand_in
    there = {kind: wishes.goes_out(kind) for kind in (SHEET, CARDS, CHAPTERS, DESCRIPTION)}
    there[CHAPTERS] = there[CHAPTERS] and _has_chapters(record, wishes)
    there |= {
        "large print": there[SHEET] and wishes.large_print,
        "sums": there[SHEET] and wishes.sums,
        "stand-in page": there[SHEET] and asked is not None and asked.on_sheet,
        "stand-in cards": there[CARDS] and asked is not None and asked.on_cards,
    }
    # Where the check stands is told by its parts, not by the check.
    check = None if asked is None else replace(asked, on_cards=False, on_sheet=False)
    kept = kept_wishes(replace(wishes, stand_in=check))
    ways = {
        "paper": (paper, there[SHEET]),
        "units": (units, there[SHEET] or there[CARDS]),
        "card heights": (sorted(wishes.heights), there[CARDS]),
        "stand-in": (kept["stand_in"], there["stand-in page"] or there["stand-in cards"]),
        "address": (wishes.links.data, there[SHEET]),
        "clips": ([kept["footage"], kept["kept"]], there[CHAPTERS] or there[DESCRIPTION]),
        "words": ([kept["links"], wishes.ask, wishes.limit], there[DESCRIPTION]),
    }
    made: dict[str, Any] = json.loads(
        json.dumps({
            "parts": [part for part, out in there.items() if out],
            "ways": {way: value for way, (value, matters) in ways.items() if matters},
        })
    )  # fmt: skip
    return made


def _has_chapters(record: Record, wishes: PublishWishes) -> bool:
    try:
        return bool(chapters_of(record, timeline_of(record, wishes.footage, wishes.kept)))
    except PublishRefused:  # the clips do not match; publishing says so when it comes to them
        return True


def wished_between(older: Plain | None, newer: Plain | None) -> Iterator[WishChange]:
    """Return what is wanted otherwise; nothing where it was not kept, or is not asked about.

    A way is compared where it mattered both times.
    """
    if older is None or newer is None:
        return
    for part, (words, kind) in PARTS.items():
        if (part in older["parts"]) != (part in newer["parts"]):
            how = "added" if part in newer["parts"] else "left out"
            yield WishChange(f"{words} {how}", "", "", shown_in=(kind,))
    both = [way for way in older["ways"] if way in newer["ways"]]
    for way in both:
        old, new = older["ways"][way], newer["ways"][way]
        if old == new:
            continue
        if way in NAMED:
            words, kinds = NAMED[way]
            yield WishChange(words, old, new, shown_in=kinds)
        elif way in OTHERWISE:
            words, kinds = OTHERWISE[way]
            yield WishChange(words, "", "", shown_in=kinds)
