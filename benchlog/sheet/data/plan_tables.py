"""Tables of what was planned and used: specimens and who paid, instruments, rules, locks."""

from __future__ import annotations

from benchlog.judge.rules_file import set_version
from benchlog.sheet.data.table import Table, cell, moment, number, row, text, whole, yes_no
from benchlog.tasks.disclosure import disclosure_of
from benchlog.tasks.record import Record

SPECIMEN_ID = text("specimen_id", "the specimen, as in specimens.csv", required=True)
INSTRUMENT_ID = text("instrument_id", "the instrument, as in instruments.csv")


def specimens_table(record: Record) -> Table:
    """Return the specimens in bench order, each with who paid for it."""
    told = dict(disclosure_of(record.lineup).columns)
    fields = (
        text("id", "names the specimen in every other table", required=True),
        text("nickname", "what the specimen is called on camera", required=True),
        text("shape", "the shape of its tag", required=True),
        text("colour", "the colour of its tag, #rrggbb", required=True),
        text("maker", "the name on it"),
        text("part_number", "the part number on it"),
        text("lot", "lot or date code, raw"),
        text("origin_box", "origin, as the box says"),
        text("origin_can", "origin, as the can says"),
        text("origin_inferred", "origin, as the reviewer infers it"),
        text("paid", "who paid, in one of six words", required=True),
        text("giver", "who gave, lent or sold it"),
        text("disclosure", "who paid, as a sentence", source="16 CFR 255.5(a)", required=True),
        number("price", "the price of one piece", "the currency beside it"),
        text("currency", "the currency of the price"),
        text("bought_on", "the day on which it was bought or given"),
        text("note", "a note of the reviewer's"),
    )
    rows = tuple(
        row(
            *(s.id, s.nickname, s.shape, s.colour, s.maker, s.part_number, s.lot),
            *(s.origin_box, s.origin_can, s.origin_inferred, s.paid, s.giver, told[s.id]),
            *(s.price, s.currency, s.bought_on, s.note),
        )
        for s in record.lineup.specimens
    )
    return Table("specimens", "The filters, and who paid for them", fields, rows, ("id",))


def instruments_table(record: Record) -> Table:
    """Return the instruments with what their readings may be wrong by."""
    fields = (
        text("id", "names the instrument in every other table", required=True),
        text("name", "what the reviewer calls it"),
        text("kind", "its kind", required=True),
        text("unit", "the unit of its resolution and permissible error"),
        number("resolution", "the smallest step that it shows", "the unit beside it"),
        number(
            "permissible_error",
            "the half-width within which it may be wrong",
            "the unit beside it",
            source="JCGM 200:2012, 4.26",
        ),
        number("contact_pressure_kpa", "pressure of its foot on soft material", "kPa"),
        text("note", "a note of the reviewer's"),
        text("accuracy_class", "the class of a verified scale", source="OIML R 76-1, table 3"),
        number("verification_interval", "its verification interval e", "the unit beside it"),
    )
    rows = tuple(
        row(
            *(i.id, i.name, i.kind, i.unit, i.resolution, i.permissible_error),
            *(i.contact_pressure_kpa, i.note, i.accuracy_class, i.verification_interval),
        )
        for i in record.instruments
    )
    return Table("instruments", "What the readings were taken with", fields, rows, ("id",))


def rules_table(record: Record) -> Table:
    """Return the rules of judging, one subject a row."""
    fields = (
        text("subject", "the attribute or figure that is judged", required=True),
        text("component", "the component in which it counts", required=True),
        text("kind", "how a value becomes 0 to 10", required=True),
        number("weight", "how much it counts in its component"),
        text("unit", "the unit of the corners and of the meaningful difference"),
        text("corners", "value → points, between which points rise or fall evenly"),
        text("ranks", "answer → points"),
        number("meaningful", "the smallest difference that means anything", "as said beside it"),
        yes_no("meaningful_is_share", "whether that is a share of the smaller value"),
        text("support", "how well the judgement is supported", required=True),
        text("source", "where it comes from"),
        text("reason", "why it is judged like this"),
        yes_no("compared", "whether the rules compare it at all"),
    )
    rows = tuple(
        row(
            *(rule.subject, rule.component, rule.kind, rule.weight, rule.unit),
            "; ".join(f"{a.at!r} → {a.value!r}" for a in rule.anchors),
            "; ".join(f"{rank.key} → {rank.value!r}" for rank in rule.ranks),
            *(rule.meaningful, rule.meaningful_is_share),
            *(rule.support, rule.source, rule.reason, rule.compared),
        )
        for rule in record.rules.entries
    )
    return Table("rules", "The rules of judging", fields, rows, ("subject", "component"))


def locks_table(record: Record) -> Table:
    """Return when the rules were locked, and every change of them."""
    fields = (
        text("id", "names the lock", required=True),
        moment("at", "when the rules were locked or changed"),
        text("label", "the name of the set"),
        text("version", "its version, “, edited” behind it where it says otherwise than it came"),
        text("digest", "SHA-256 of the rules' canonical form", required=True),
        text("reason", "why they were changed; empty for the first lock"),
        text("after", "the latest reading at that moment; empty before the first"),
        yes_no("after_cut", "whether the cut had been made by then"),
    )
    rows = tuple(
        row(
            *(k.id, k.at, k.rules.label, set_version(k.rules), k.digest),
            *(k.reason, k.after, k.after_cut),
        )
        for k in record.locks
    )
    return Table("rule_locks", "When the rules were locked", fields, rows, ("id",))


def plan_changes_table(record: Record) -> Table:
    """Return what was changed in the plan after it counted."""
    fields = (
        whole("number", "counts the changes from 1"),
        moment("at", "when it was changed"),
        text("what", "what was changed", required=True),
        text("old", "what stood there before"),
        text("new", "what stands there since"),
    )
    rows = tuple(
        row(number, cell(change.at), change.what, change.old, change.new)
        for number, change in enumerate(record.plan_changes, start=1)
    )
    return Table("plan_changes", "Changes of the plan since it counted", fields, rows, ("number",))
