"""The licences under which a reviewer may give the data away."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.errors import PublishRefused


@dataclass(frozen=True)
class Licence:
    """One licence: `name` as the Open Definition writes it, where its text stands, what it asks."""

    name: str
    title: str
    path: str
    asks: str


LICENCES = (
    Licence(
        "CC0-1.0",
        "Creative Commons Zero 1.0",
        "https://creativecommons.org/publicdomain/zero/1.0/",
        "Nothing is asked of those who use the data.",
    ),
    Licence(
        "CC-BY-4.0",
        "Creative Commons Attribution 4.0",
        "https://creativecommons.org/licenses/by/4.0/",
        "Those who use the data name where they have it from.",
    ),
    Licence(
        "CC-BY-SA-4.0",
        "Creative Commons Attribution Share-Alike 4.0",
        "https://creativecommons.org/licenses/by-sa/4.0/",
        "Those who use the data name where they have it from, and share alike.",
    ),
    Licence(
        "ODbL-1.0",
        "Open Data Commons Open Database License 1.0",
        "https://opendatacommons.org/licenses/odbl/1-0/",
        "Those who use the data name where they have it from, and keep what they add open.",
    ),
)


def licence(name: str) -> Licence:
    """Return the licence of that name; raises PublishRefused for one that is not known."""
    for one in LICENCES:
        if one.name == name:
            return one
    raise PublishRefused(
        f"'{name}' is no licence known here." if name else "No licence was chosen for the data.",
        f"Choose one of {', '.join(one.name for one in LICENCES)}.",
    )
