"""The package's README: what is in it, in plain words, and how to work it out again."""

from __future__ import annotations

from benchlog.judge.rules_file import set_version
from benchlog.measure.micrograph import NOT_A_RATING
from benchlog.sheet.data.licence import Licence
from benchlog.sheet.data.table import Table
from benchlog.tasks.disclosure import disclosure_of
from benchlog.tasks.record import Record
from benchlog.tasks.revision import revision_told

TRAPS = """\
How the tables are to be read
-----------------------------
CSV as RFC 4180 has it: UTF-8, commas, lines ended by CR LF, the first line names the columns.
An empty cell means that there is nothing; it never means nought. Why a value is missing stands in
the column "state", in one of seven words: measured, estimate, not marked, not measured, could not
tell, not applicable, spoiled.
Numbers have a point, and all digits that the program has. The column "printed" has the number as
it is printed: rounded to what is known of it, with the expanded uncertainty (95 %) after the ±.
Times are in UTC.
Text that a spreadsheet would run as a formula (it begins with = + - @ or their full-width signs),
and text that begins with an apostrophe, a tab or a line break, has one apostrophe put in front.
Take that one off and you have the text as it was. The workbook needs no such sign: its cells are
text by their kind.
What each column means, in which unit, and where that stands: dictionary.csv.
"""

AGAIN = """\
How to work it out again
------------------------
The program benchlog alone is enough. Its command "benchlog recompute" takes this
folder, or a zip file of it, works findings, figures, scores, awards and ranks out of readings.csv
and instruments.csv, with the rules and the plan in record.json, and names every cell in which a
table differs. Printed numbers must be the same, digit by digit; others must agree to nine
significant digits, since the last digits of a sum may differ between machines.
record.json holds everything that went in, so that the whole record can be made again from it.
Some uncertainties rest on what earlier teardowns scatter by: those scatters are in record.json too.
Ranks, where there are any, are shares of draws: they come out the same with the seed beside them,
as long as NumPy, which draws, keeps its streams.
"""

PICTURES = f"""\
Pictures of the media
---------------------
picture_figures.csv holds what was read from each picture through a microscope, each figure with its
standard uncertainty by part; picture_gates.csv what each picture was held against, and why some
were refused. {NOT_A_RATING}
Pictures of unlike set-ups are not compared. "benchlog recompute --pictures" measures the pictures
in this package again, finds their scales again, and names every figure that differs.
"""


def readme_of(record: Record, licence: Licence, tables: tuple[Table, ...]) -> str:
    """Return the README; who paid is the first thing it says."""
    lineup, said = record.lineup, revision_told(record)
    files = "\n".join(f"{f'{t.name}.csv':<20} {t.title}; {_rows(t)}" for t in tables)
    parts = (
        disclosure_of(lineup).description,
        f"{lineup.name or 'Teardown'}\n{lineup.question}".rstrip(),
        f"{said[:1].upper()}{said[1:]}, digest {record.digest}",
        f"Rules: {record.rules.label}, version {set_version(record.rules)}",
        f"Licence: {licence.title} ({licence.name}), {licence.path}\n{licence.asks}",
        f"What is here\n------------\n{files}\n"
        f"{'tables.xlsx':<20} The same tables as a workbook\n"
        f"{'record.json':<20} Everything that went in, for programs\n"
        f"{'datapackage.json':<20} What is in it, with checksums (Data Package, version 2)",
        TRAPS.rstrip(),
        AGAIN.rstrip(),
        *([PICTURES.rstrip()] if record.micrographs else []),
        "What a bench cannot tell: how finely a filter filters, how much dirt it holds, how long "
        "it lasts.\nWhat a maker claims is given as a claim. We cut the pieces named here; others "
        "of the same number may differ.",
    )
    return "\n\n".join(parts) + "\n"


def _rows(table: Table) -> str:
    return "1 row" if len(table.rows) == 1 else f"{len(table.rows)} rows"
