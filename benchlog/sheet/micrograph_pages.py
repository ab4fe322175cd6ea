"""The media through the microscope: fields at one scale, what they come to, what they are not."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest

from reportlab.platypus import Flowable, KeepTogether, Table

from benchlog.measure.micrograph import MicroscopeSetUp
from benchlog.sheet.flow import Heading, bare, gap, part, section, specimen_head, table
from benchlog.sheet.micrograph_frames import Field, FieldFrame, points_per_um
from benchlog.sheet.micrograph_plots import FibreStrips, OpeningPlot
from benchlog.sheet.micrograph_words import field_caption, figure_lines, picture_rows
from benchlog.sheet.pictures import Pictures
from benchlog.sheet.text import para
from benchlog.sheet.typography import Page
from benchlog.tasks.field_order import FieldStanding
from benchlog.tasks.media_seen import MediaView, SideSeen
from benchlog.tasks.media_view import media_view
from benchlog.tasks.record import Record
from benchlog.tasks.set_ups import scale_words, set_up_words
from benchlog.trade.specimen import Specimen

MOST_ACROSS = 3
COLUMN_GAP = 8.0
HIGHEST = 130.0

PLOT_GAP = 18.0
PLOT_LEAD = (
    "D50: half of the open area lies in circles between the fibres that are no wider. A ring is "
    "one field, the mark their mean, the bar its ± as in the table. The pale band is what scale "
    "and light shift in all media alike: it falls out where two are compared."
)


def micrographs_part(record: Record, page: Page, pictures: Pictures) -> list[Flowable]:
    """Return the part of the micrographs; nothing where none was taken."""
    view = media_view(record)
    if not view.sides:
        return []
    ahead = section("Media through the microscope", view.beside)
    parts: list[Flowable] = []
    for side in view.sides:
        parts += _side(record, page, side, pictures, ahead)
        ahead = []
    return [*parts, *_taken(record, page, view)]


def _side(
    record: Record, page: Page, side: SideSeen, pictures: Pictures, ahead: list[Flowable]
) -> list[Flowable]:
    """Return a side's pictures and what they come to; `ahead` stays on the page of the first."""
    specimens = record.lineup.specimens
    title = side.side.value.capitalize()
    grids: list[Flowable] = []
    for set_up in record.set_ups:
        own = [one for one in side.fields if _taken_with(one, set_up)]
        if own:
            name = f"All at one scale, taken with “{set_up.name}”"
            grids.append(para(name, "note"))
            grids += _grids(page, specimens, own, set_up, pictures)
    parts: list[Flowable] = [KeepTogether([*ahead, gap(6), Heading(title, 1), *grids[:2]])]
    parts += grids[2:]
    width = (page.content - PLOT_GAP) / 2
    openings = [one for one in side.figures if one.key == "D50"]
    plots = Table(
        [
            [
                OpeningPlot("Opening between fibres, D50", openings, specimens, width),
                FibreStrips("Fibres by diameter, share of length", side.strips, specimens, width),
            ]
        ],
        colWidths=[width + PLOT_GAP, width],
        style=bare(above=1, below=4),
        hAlign="LEFT",
    )
    parts.append(KeepTogether([gap(4), para(PLOT_LEAD, "note"), plots]))
    parts.append(gap(4))
    parts += [para(line, "body") for line in figure_lines(side)]
    return parts


def _taken_with(one: FieldStanding, set_up: MicroscopeSetUp) -> bool:
    return one.micrograph is not None and one.micrograph.set_up_id == set_up.id


def _grids(
    page: Page,
    specimens: Sequence[Specimen],
    own: Sequence[FieldStanding],
    set_up: MicroscopeSetUp,
    pictures: Pictures,
) -> list[Flowable]:
    """Return fields in columns of their specimens, at most so many across."""
    across = MOST_ACROSS if len(specimens) == 1 else min(len(specimens), MOST_ACROSS)
    width = (page.content - (across - 1) * COLUMN_GAP) / across
    fields = {
        specimen.id: [
            _field(one, specimen, set_up, pictures)
            for one in own
            if one.field.specimen_id == specimen.id
        ]
        for specimen in specimens
    }
    every = [field for there in fields.values() for field in there]
    per_um = points_per_um(every, width, HIGHEST)
    frame = max((per_um * field.size_um[1] for field in every), default=0.0) or width * 0.5
    made: list[Flowable] = []
    if len(specimens) == 1:
        return [_in_rows(every, width, frame, per_um)]
    shown = [specimen for specimen in specimens if fields[specimen.id]]
    for start in range(0, len(shown), across):
        group = shown[start : start + across]
        rows: list[list[Flowable | str]] = [[specimen_head(s, width) for s in group]]
        for row in zip_longest(*(fields[s.id] for s in group)):
            rows.append([FieldFrame(f, width, frame, per_um) if f is not None else "" for f in row])
        widths = [width + COLUMN_GAP] * len(group)
        made.append(
            Table(rows, colWidths=widths, style=bare(above=1, below=4), repeatRows=1, hAlign="LEFT")
        )
    return made


def _in_rows(every: Sequence[Field], width: float, frame: float, per_um: float) -> Table:
    """Return the fields of the only specimen, side by side."""
    frames: list[Flowable | str] = [FieldFrame(f, width, frame, per_um) for f in every]
    frames += [""] * (-len(frames) % MOST_ACROSS)
    rows = [frames[start : start + MOST_ACROSS] for start in range(0, len(frames), MOST_ACROSS)]
    return Table(
        rows,
        colWidths=[width + COLUMN_GAP] * MOST_ACROSS,
        style=bare(above=1, below=4),
        hAlign="LEFT",
    )


def _field(
    one: FieldStanding, specimen: Specimen, set_up: MicroscopeSetUp, pictures: Pictures
) -> Field:
    assert one.micrograph is not None
    return Field(
        pictures.of(one.micrograph.photo_id, specimen.id),
        set_up.um_per_px,
        specimen.nickname,
        field_caption(one),
    )


def _taken(record: Record, page: Page, view: MediaView) -> list[Flowable]:
    """Return how the pictures were taken, and what was held against single ones."""
    parts = part("How the pictures were taken")
    for set_up in record.set_ups:
        note = f" {set_up.note}" if set_up.note else ""
        parts.append(para(f"{set_up.name}: {set_up_words(set_up)}. {scale_words(set_up)}.{note}"))
        if set_up.scale_notes:
            parts.append(para("On the stage picture: " + " ".join(set_up.scale_notes), "note"))
    rows = picture_rows(record, view)
    if rows:
        head = ["Picture", "What was held against it", "What came of it"]
        widths = [0.30 * page.content, 0.48 * page.content, 0.22 * page.content]
        parts += [gap(2), table([head, *rows], widths)]
    else:
        parts.append(para("Nothing was held against any picture."))
    return parts
