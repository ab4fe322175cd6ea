"""Find what somebody means by the name of a figure and of a specimen."""

from __future__ import annotations

from difflib import get_close_matches

from benchlog.errors import PlanRefused
from benchlog.tasks.record import Record
from benchlog.tasks.value_text import label_of
from benchlog.trade.specimen import Specimen


def find_number(record: Record, wanted: str) -> str:
    """Return the key of the figure or attribute meant: its key, its label, or the key in words.

    Raises PlanRefused naming the nearest ones.
    """
    keys = list(dict.fromkeys(key for key, _ in (*record.figures, *record.findings)))
    names = {key.casefold(): key for key in keys}
    names.update((label_of(record, key).casefold(), key) for key in reversed(keys))
    said = " ".join(wanted.casefold().split())
    found = names.get(said) or names.get(said.replace(" ", "_").replace("-", "_"))
    if found:
        return found
    near = dict.fromkeys(names[name] for name in get_close_matches(said, names, n=6, cutoff=0.5))
    listed = ", ".join(near) or ", ".join(keys[:6])
    told = "Nearest are" if near else "There are, among others"
    raise PlanRefused(f"No figure '{wanted}' in this line-up.", f"{told}: {listed}.")


def find_specimens(record: Record, wanted: str | None) -> tuple[Specimen, ...]:
    """Return the one specimen of that nickname or position (from 1), or all of them for None.

    Raises PlanRefused naming those that there are.
    """
    specimens = record.lineup.specimens
    if wanted is None:
        return specimens
    for specimen in specimens:
        if specimen.nickname.casefold() == wanted.strip().casefold():
            return (specimen,)
    if wanted.strip().isdecimal() and 1 <= int(wanted) <= len(specimens):
        return (specimens[int(wanted) - 1],)
    listed = ", ".join(f"{n} {s.nickname}" for n, s in enumerate(specimens, 1))
    raise PlanRefused(f"No specimen '{wanted}' in this line-up.", f"There are: {listed}.")
