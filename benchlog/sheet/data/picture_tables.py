"""Tables of the pictures of the media and what was measured on them; none without pictures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from benchlog.measure.micrograph import latest_answers, standing_micrographs
from benchlog.sheet.data.plan_tables import SPECIMEN_ID
from benchlog.sheet.data.table import Table, moment, number, row, text, whole, yes_no
from benchlog.tasks.record import Record

GUM = "JCGM 100:2008, 2.3.1"
SHA = "FIPS 180-4"
THICKNESS = "Hildebrand and Rüegsegger, Journal of Microscopy 185 (1997) 67"
UM = "micrometres"
UM_PER_PX = "micrometres per pixel of the file"

SET_UP_ID = text("set_up_id", "the set-up, as in set_ups.csv", required=True)
ANSWER_ID = text("answer_id", "the answer, as in picture_answers.csv", required=True)
FIGURE = text(
    "figure",
    "D10, D50, D90, D95: the diameter below which that share of the open area can be covered by no "
    "larger circle; open area; fibre mean, median, P10, P90: diameter by length of fibre",
    source=THICKNESS,
    required=True,
)


def picture_tables(record: Record, scale_paths: Mapping[str, str]) -> tuple[Table, ...]:
    """Return the tables that there are: none where no picture of a medium was taken.

    `scale_paths` say where pictures of stage micrometers lie, by their SHA-256.
    """
    if not record.micrographs:
        return ()
    return (
        set_ups_table(record, scale_paths),
        micrographs_table(record),
        picture_answers_table(record),
        picture_figures_table(record),
        picture_gates_table(record),
        fibre_histograms_table(record),
    )


def set_ups_table(record: Record, scale_paths: Mapping[str, str]) -> Table:
    """Return the set-ups that pictures were taken with."""
    fields = (
        text("id", "names the set-up; an instrument of the same id stands for it", required=True),
        text("name", "what it is called", required=True),
        text("microscope", "the microscope"),
        text("objective", "its objective or zoom"),
        text("light", "where the light comes from: above, below, or found from each picture"),
        number("um_per_px", "the scale", UM_PER_PX),
        number("u_um_per_px", "its standard uncertainty", UM_PER_PX, source=GUM),
        text("scale_from", "where the scale comes from", required=True),
        moment("at", "when it was found"),
        whole("width_px", "width of the pictures it holds for; 0 for any", "pixels"),
        whole("height_px", "height of the pictures it holds for; 0 for any", "pixels"),
        number("division_um", "what one division of the stage micrometer is; 0 without one", UM),
        number("division_u_um", "its standard uncertainty", UM, source=GUM),
        text("scale_picture", "SHA-256 of the stage micrometer's picture", source=SHA),
        text("scale_path", "where that lies in this package; empty when it is not in it"),
        text("scale_notes", "what was found on it"),
        number("edge_offset_px", "by how much a reference fibre reads too wide", "pixels"),
        text("reference_fibre", "the reference fibre"),
        text("note", "a note of the reviewer's"),
        text("replaces", "the set-up that was calibrated anew as this one"),
    )
    rows = tuple(
        row(
            *(s.id, s.name, s.microscope, s.objective, s.light, s.um_per_px, s.u_um_per_px),
            *(s.scale_from, s.at, s.width_px, s.height_px, s.division_um, s.division_u_um),
            *(s.scale_picture, scale_paths.get(s.scale_picture), s.scale_notes),
            *(s.edge_offset_px, s.reference_fibre, s.note, s.replaces),
        )
        for s in record.set_ups
    )
    return Table("set_ups", "How the media were seen: set-ups and scales", fields, rows, ("id",))


def micrographs_table(record: Record) -> Table:
    """Return every field that was taken, retaken ones and takings-back too, oldest first."""
    fields = (
        text("id", "names the micrograph", required=True),
        SPECIMEN_ID,
        text("side", "the side of the strip, as the oil meets it", required=True),
        whole("field", "counts the places of one side of one specimen from 1"),
        SET_UP_ID,
        text("photo_sha256", "its picture, as in photos.csv; empty for a taking back", source=SHA),
        moment("at", "when it was taken"),
        text("supersedes", "the earlier micrograph of the same field that this one replaces"),
        yes_no("withdrawn", "whether it only takes the earlier one back"),
        yes_no("stands", "whether it is neither replaced nor a taking back"),
    )
    stands = {one.id for one in standing_micrographs(record.micrographs)}
    rows = tuple(
        row(
            *(m.id, m.specimen_id, m.side, m.field, m.set_up_id, m.photo_id, m.at),
            *(m.supersedes, m.withdrawn, m.id in stands),
        )
        for m in record.micrographs
    )
    return Table("micrographs", "The fields of the media that were taken", fields, rows, ("id",))


def picture_answers_table(record: Record) -> Table:
    """Return what measuring said of each picture, oldest first."""
    fields = (
        text("id", "names the answer", required=True),
        text("micrograph_id", "the micrograph, as in micrographs.csv", required=True),
        moment("at", "when it was measured"),
        text("method", "the measurement and its version"),
        text("verdict", "measured or refused", required=True),
        text("light", "where the light comes from, as said or as found"),
        text("reasons", "why it was refused"),
        text("warnings", "what is worth knowing though it did not refuse the picture"),
        text("withheld", "why single figures are missing"),
        number("fibres", "how many fibres cross the field, by their length in it"),
        text("readings", "the readings that it made, as in readings.csv"),
        yes_no("latest", "whether it is the latest of its micrograph, which counts"),
    )
    latest = {one.id for one in latest_answers(record.answers).values()}
    rows = tuple(
        row(
            *(a.id, a.micrograph_id, a.at, a.method, a.verdict, a.light, a.reasons),
            *(a.warnings, a.withheld, a.fibres, a.readings, a.id in latest),
        )
        for a in record.answers
    )
    return Table("picture_answers", "What each picture said", fields, rows, ("id",))


def picture_figures_table(record: Record) -> Table:
    """Return every figure of every picture, its uncertainty by part."""
    unit = "as the value"
    fields = (
        ANSWER_ID,
        FIGURE,
        number("value", "the figure", "as in unit"),
        text("unit", "um for micrometres, 1 for a share", required=True),
        number("u", "its standard uncertainty, all parts together", unit, source=GUM),
        number("u_sampling", "how the field may differ from the medium", unit, source=GUM),
        number("u_systematic", "what light and edges may shift", unit, source=GUM),
        number("u_calibration", "what the scale may shift", unit, source=GUM),
    )
    rows = tuple(
        row(a.id, f.key, f.value, f.unit, f.u, f.sampling, f.systematic, f.calibration)
        for a in record.answers
        for f in a.figures
    )
    key = ("answer_id", "figure")
    return Table("picture_figures", "The figures of each picture", fields, rows, key)


def picture_gates_table(record: Record) -> Table:
    """Return what every picture was held against before it was measured."""
    fields = (
        ANSWER_ID,
        text("gate", "what was looked at", required=True),
        number("value", "what it came to; empty where that has no number"),
        number("limit", "what it was held against"),
        text("outcome", "passed, warned or refused", required=True),
        text("words", "what is said of it; empty where it passed"),
    )
    rows = tuple(
        row(a.id, g.key, g.value, g.limit, g.outcome, g.words)
        for a in record.answers
        for g in a.gates
    )
    key = ("answer_id", "gate")
    return Table("picture_gates", "What each picture was held against", fields, rows, key)


def fibre_histograms_table(record: Record) -> Table:
    """Return the share of fibre length by diameter, a row a class."""
    fields = (
        ANSWER_ID,
        whole("class", "counts the classes of one answer from 1"),
        number("from_um", "the diameter at which the class begins", UM),
        number("to_um", "the diameter at which it ends; the last class holds all above too", UM),
        number("share", "its share of the fibres' length"),
    )
    rows = tuple(row(*one) for one in _classes(record))
    key = ("answer_id", "class")
    return Table("fibre_histograms", "Fibre length by diameter", fields, rows, key)


def _classes(record: Record) -> Iterator[tuple[object, ...]]:
    for answer in record.answers:
        edges = zip(answer.edges_um, answer.edges_um[1:], answer.shares, strict=False)
        for place, (low, high, share) in enumerate(edges, start=1):
            yield answer.id, place, low, high, share
