"""Who paid, said in every channel in which the comparison is made.

The wording follows the principle of 16 CFR Part 255 (255.5(a), 255.0(f)): a connection that
viewers would not expect is said in plain words, hard to miss, in the same means as the claim, so
spoken where the review is spoken and shown where it is shown. What was not paid for comes first.
"""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.tasks.publish import check_disclosure
from benchlog.trade.specimen import Lineup, Paid, Specimen

ELSEWHERE = (
    "The wording follows the principle of 16 CFR Part 255 (United States): plain, hard to miss, in "
    "the same channel as the comparison. Other countries have rules of their own, and a platform's "
    "own tick-box may not be enough: look up those that hold where you publish."
)

_ORDER = (Paid.GIVEN_BY_MAKER, Paid.GIVEN_BY_SELLER, Paid.GIVEN_BY_VIEWER, Paid.LENT, Paid.BOUGHT)

_SPOKEN = {
    Paid.GIVEN_BY_MAKER: "{names} {was} given to me free by the maker{by}.",
    Paid.GIVEN_BY_SELLER: "{names} {was} given to me free by a seller{by}.",
    Paid.GIVEN_BY_VIEWER: "{names} {was} given to me free by a viewer{by}.",
    Paid.LENT: "{names} {was} lent to me, and I paid nothing for {it}{by}.",
    Paid.BOUGHT: "I paid for {names} with my own money.",
}
_SHOWN = {
    Paid.GIVEN_BY_MAKER: "Free from the maker: {names}",
    Paid.GIVEN_BY_SELLER: "Free from a seller: {names}",
    Paid.GIVEN_BY_VIEWER: "Free from a viewer: {names}",
    Paid.LENT: "Lent: {names}",
    Paid.BOUGHT: "Paid for by the reviewer: {names}",
}
_COLUMN = {
    Paid.GIVEN_BY_MAKER: "Given free by the maker",
    Paid.GIVEN_BY_SELLER: "Given free by a seller",
    Paid.GIVEN_BY_VIEWER: "Given free by a viewer",
    Paid.LENT: "Lent; nothing was paid",
    Paid.BOUGHT: "Paid for by the reviewer",
}


@dataclass(frozen=True)
class Disclosure:
    """Who paid, for every channel.

    `spoken` is read aloud before the first comparison, `on_screen` shown with it, `description`
    is the first line of the description, `sheet` stands on the sheet, and `columns` pair each
    specimen's id with what stands in its row of the data. `elsewhere` is for the reviewer.
    """

    spoken: str
    on_screen: str
    description: str
    sheet: str
    columns: tuple[tuple[str, str], ...]
    elsewhere: str = ELSEWHERE


def disclosure_of(lineup: Lineup) -> Disclosure:
    """Return who paid in every channel's words.

    Raises PublishRefused while it is not answered for even one specimen: nothing may go out then.
    """
    check_disclosure(lineup)
    groups = [(paid, [s for s in lineup.specimens if s.paid is paid]) for paid in _ORDER]
    groups = [(paid, group) for paid, group in groups if group]
    on_screen = " · ".join(_SHOWN[p].format(names=_names(group)) for p, group in groups)
    spoken = " ".join(_spoken(paid, group) for paid, group in groups)
    return Disclosure(
        spoken=spoken,
        on_screen=on_screen,
        description=f"Who paid: {spoken}",
        sheet=f"Who paid · {on_screen}",
        columns=tuple((s.id, _column(s)) for s in lineup.specimens),
    )


def _spoken(paid: Paid, group: list[Specimen]) -> str:
    givers = list(dict.fromkeys(_line(s.giver) for s in group if s.giver.strip()))
    many = len(group) > 1
    return _SPOKEN[paid].format(
        names=_names(group),
        was="were" if many else "was",
        it="them" if many else "it",
        by=f" ({'; '.join(givers)})" if givers else "",
    )


def _column(specimen: Specimen) -> str:
    """Return the data's words; of what was bought the giver is the seller, who gave nothing."""
    giver = "" if specimen.paid is Paid.BOUGHT else _line(specimen.giver)
    return f"{_COLUMN[specimen.paid]}: {giver}" if giver else _COLUMN[specimen.paid]


def _names(group: list[Specimen]) -> str:
    names = [_line(s.nickname) for s in group]
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def _line(text: str) -> str:
    return " ".join(text.split())
