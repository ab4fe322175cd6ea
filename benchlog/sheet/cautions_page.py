"""The usual cautions for this work, and what a bench like this cannot show."""

from __future__ import annotations

from reportlab.platypus import Flowable

from benchlog.sheet.flow import boxed, part, section
from benchlog.sheet.paragraph import Text
from benchlog.sheet.text import markup, para
from benchlog.sheet.typography import STYLES, Page
from benchlog.tasks.record import Record

# Common practice of the trade, no source.
USUAL = (
    ("Cut edges", "A cut can, its swarf and its base plate are sharp: gloves and eye shield."),
    ("Springs", "Springs and valves sit under load and jump when set free: keep faces away."),
    ("Used oil", "Keep it off the skin, drain fully, and hand it in with the used filters."),
    ("Alcohol vapour", "Wash and soak well aired, far from grinders, heaters and any spark."),
    ("Pressure", "Compressed air stores energy: small volume, low pressure, behind a shield."),
)

DEFER = (
    "Local rules on waste and safety, the vehicle maker’s handbook and licensed practice come "
    "before anything on this sheet."
)

LIMITS = (
    "Size, weight, count and look of parts were recorded. What a filter catches, how much it "
    "takes up and how oil passes through it in an engine were not, so nothing here speaks of "
    "them. Nor does this sheet say that a filter suits a vehicle."
)


def _of_stations(record: Record) -> list[Flowable]:
    """Return what the sequence itself warns of, station by station."""
    runs = [
        f"<b>{markup(station.label)}:</b> {markup(' '.join(map(_sentence, station.cautions)))}"
        for station in record.sequence.stations
        if station.cautions
    ]
    if not runs:
        return []
    heading = part("Said at the stations of this teardown", 90)
    return [*heading, Text(" ".join(runs), STYLES["run"])]


def _sentence(text: str) -> str:
    return text if text.endswith((".", "!", "?")) else f"{text}."


def cautions_page(record: Record, page: Page) -> list[Flowable]:
    """Return the section of cautions and limits."""
    usual: list[Flowable] = [para(text, "gutter_cell", label) for label, text in USUAL]
    return [
        *section("Cautions"),
        boxed([*usual, para(DEFER)], page.content),
        *part("What this sheet does not show", 70),
        para(LIMITS),
        *_of_stations(record),
    ]
