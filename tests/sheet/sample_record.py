"""Records made by hand: invented makers, every state, a tie, a winner, a correction."""

from __future__ import annotations

import hashlib
import io
import math
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from decimal import Decimal

from PIL import Image, ImageDraw
from uncertainties import ufloat

from benchlog.derive.figure import Figure, FigureKind
from benchlog.judge.rules import Anchor, AttributeRule, Rules, ValueKind
from benchlog.judge.verdict import Award, AwardKind, Contribution, Score, Verdict
from benchlog.measure.finding import Finding
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.reading import Reading, Said
from benchlog.measure.state import State
from benchlog.measure.units import registry
from benchlog.tasks.ports import Moment, Photo, Remark
from benchlog.tasks.record import Record
from benchlog.trade.attribute import Attribute, Choice, Judged, Kind, Sequence, Station, Support
from benchlog.trade.component import Component
from benchlog.trade.specimen import Lineup, Paid, Shape, Specimen

START = datetime(2026, 3, 7, 9, 0, tzinfo=UTC)
LINEUP = "lineup-1"

SPECIMENS = (
    Specimen(
        "s1", "Alder", Shape.CIRCLE, "#0b4f8a", "Northfold Filters", "NF-2140", "L2611-07",
        "Made in Aland", "ALAND", "same plant as the box says", Paid.BOUGHT, "Corner Motor Shop",
        Decimal("8.90"), "EUR", "2026-02-11",
    ),
    Specimen(
        "s2", "Birch", Shape.SQUARE, "#b3541e", "Greyharbour Autoparts and Sealing Company",
        "GH 88-1204/B (long box)", "26033B", "", "Made in Birland", "", Paid.GIVEN_BY_MAKER,
        "Greyharbour press desk", None, "", "2026-02-20", "arrived with a letter asking for a link",
    ),
    Specimen(
        "s3", "Copper beech from the market", Shape.TRIANGLE, "#3f6b2a", "Tillmark", "T7", "",
        "", "", "", Paid.GIVEN_BY_VIEWER, "a viewer", Decimal("4.25"), "EUR",
    ),
    Specimen("s4", "Damson", Shape.DIAMOND, "#6a3d85", "Quillon", "Q-19", "0426",
             paid=Paid.BOUGHT, price=Decimal("12.00"), currency="EUR"),
    Specimen("s5", "Elm", Shape.CROSS, "#8a1c2b", "Ostrander & Vale", "OV115", "K9",
             paid=Paid.GIVEN_BY_SELLER, giver="Pit Lane Parts"),
    Specimen("s6", "Fir", Shape.STAR, "#1e6f6a", "Northfold Filters", "NF-2140", "L2613-01",
             origin_can="Made in Aland", paid=Paid.LENT, giver="a workshop"),
)  # fmt: skip


def _attribute(
    key: str, label: str, component: Component, kind: Kind, judged: Judged, unit: str = "",
    inch: str = "", **more: object,
) -> Attribute:  # fmt: skip
    settings = {"station": "outside", "support": Support.ENGINEERING, **more}
    return Attribute(
        key, label, "What is asked.", component=component, kind=kind, judged=judged,
        source="common practice, no source", method="as usual", unit=unit, inch_unit=inch,
        **settings,  # type: ignore[arg-type]
    )  # fmt: skip


C, K, J = Component, Kind, Judged
CLAIMED = _attribute("claim_distance", "Claimed distance", C.WHOLE, K.CLAIM, J.IDENTITY)
MASS = _attribute("mass", "Whole weight as received", C.WHOLE, K.QUANTITY, J.DIFFERENT, "gram")
HARDNESS = _attribute("gasket_hardness", "Gasket hardness", C.GASKET, K.QUANTITY, J.BAND,
                      "dimensionless")  # fmt: skip
SECTION = _attribute(
    "gasket_section", "Gasket section", C.GASKET, K.CHOICE, J.DIFFERENT,
    choices=(Choice("bevel", "bevelled"), Choice("square", "square cut")),
)  # fmt: skip
WALL = _attribute("can_wall", "Can wall thickness", C.CAN, K.QUANTITY, J.MORE, "millimeter",
                  "inch", station="cut")  # fmt: skip
TURNS = _attribute("turns", "Full threads engaged", C.THREAD, K.QUANTITY, J.MORE, "turn")
FLAP = _attribute("adbv_material", "Valve material", C.ADBV, K.CHOICE, J.RANK, station="cut")
BYPASS = _attribute("bypass_setting", "Bypass setting, marked", C.BYPASS, K.QUANTITY, J.BAND,
                    "pound_force_per_square_inch")  # fmt: skip
SPRING = _attribute("spring_kind", "Hold-down spring kind", C.SPRING, K.CHOICE, J.DIFFERENT)
CAPS = _attribute("cap_gap", "Gap at an end cap", C.END_CAPS, K.PRESENCE, J.FAULT)
PLEATS = _attribute("pleats", "Pleat count", C.PLEATS, K.COUNT, J.DIFFERENT, "count")
LENGTH = _attribute("strip_length", "Strip length, unfolded", C.MEDIA, K.QUANTITY, J.INPUT,
                    "millimeter", "inch", station="media")  # fmt: skip
THICK = _attribute("thickness", "Media thickness", C.MEDIA, K.QUANTITY, J.DIFFERENT,
                   "millimeter", "inch", station="media",
                   comparable_when=("contact_pressure",))  # fmt: skip
LOOK = _attribute("media_look", "Look under the microscope", C.MEDIA, K.TEXT, J.IDENTITY)

SEQUENCE = Sequence(
    "spin-on", "Spin-on filter, fixed order", "1",
    (
        Station("outside", "Outside, before the cut", "What shows before the cut."),
        Station("cut", "The cut", "Open it.", one_way=True, lost_after=("leak-down",),
                cautions=("Cut edges are sharp: gloves and eye shield.",)),
        Station("media", "Media unfolded", "Strip on the table."),
    ),
    (CLAIMED, MASS, HARDNESS, SECTION, WALL, TURNS, FLAP, BYPASS, SPRING, CAPS, PLEATS,
     LENGTH, THICK, LOOK),
)  # fmt: skip

AREA = FigureKind(
    "exposed_area", "Exposed media area", C.MEDIA, "length × (width − hidden by both end caps)",
    ("strip_length",), "centimeter ** 2", "inch ** 2", J.MORE, Support.ENGINEERING,
    "worked out here", "Not capacity and not efficiency.",
)  # fmt: skip


def quantity(value: float, u: float, unit: str) -> object:
    """Return a quantity with a standard uncertainty."""
    return registry().Quantity(ufloat(value, u) if u else value, unit)


def _readings(specimen: str, key: str, texts: tuple[str, ...], unit: str) -> tuple[Reading, ...]:
    return tuple(
        Reading(
            f"{specimen}-{key}-{i}", LINEUP, specimen, key, i, State.MEASURED, text,
            START + timedelta(minutes=i), 60.0 * i, said=Said(text, Decimal(text), unit),
            instrument_id="i1",
        )
        for i, text in enumerate(texts, start=1)
    )  # fmt: skip


def measured(
    specimen: str, attribute: Attribute, value: float, u: float, texts: tuple[str, ...] = (),
    **more: object,
) -> Finding:  # fmt: skip
    """Return a measured finding with its readings."""
    readings = _readings(specimen, attribute.key, texts or (str(value),), attribute.unit)
    number = quantity(value, u, attribute.unit)
    return Finding(attribute.key, specimen, State.MEASURED, readings, number, **more)  # type: ignore[arg-type]


def state(specimen: str, attribute: Attribute, which: State) -> Finding:
    """Return a finding without a value."""
    return Finding(attribute.key, specimen, which)


def word(specimen: str, attribute: Attribute, said: str) -> Finding:
    """Return a finding in words."""
    return Finding(attribute.key, specimen, State.MEASURED, word=said)


def _three_findings() -> list[Finding]:
    return [
        word("s1", CLAIMED, "20 000 km, says the box"),
        state("s2", CLAIMED, State.NOT_MARKED), word("s3", CLAIMED, "99 % at 25 micron"),
        measured("s1", MASS, 287.4, 0.06, ("287.4", "287.5", "287.3")),
        measured("s2", MASS, 301.2, 0.06), measured("s3", MASS, 244.9, 0.06),
        measured("s1", HARDNESS, 71, 1.1), measured("s2", HARDNESS, 69, 1.2),
        measured("s3", HARDNESS, 62, 2.0),
        word("s1", SECTION, "bevel"), word("s2", SECTION, "square"), word("s3", SECTION, "bevel"),
        measured("s1", WALL, 0.51, 0.006, ("0.51", "0.50", "0.52", "0.51")),
        measured("s2", WALL, 0.38, 0.006), state("s3", WALL, State.SPOILED),
        measured("s1", TURNS, 6, 0), measured("s2", TURNS, 5, 0.3),
        Finding("turns", "s3", State.ESTIMATE, quantity=quantity(5, 0.29, "turn"),  # type: ignore[arg-type]
                low=4.5, high=5.5),
        word("s1", FLAP, "orange, material not tested"), state("s2", FLAP, State.COULD_NOT_TELL),
        state("s3", FLAP, State.NOT_APPLICABLE),
        measured("s1", BYPASS, 9.5, 0.9, ("9.5",), low=8.0, high=11.0),
        state("s2", BYPASS, State.NOT_MARKED), state("s3", BYPASS, State.NOT_MEASURED),
        word("s1", SPRING, "coil"), word("s2", SPRING, "leaf"), word("s3", SPRING, "leaf"),
        word("s1", CAPS, "no"), word("s2", CAPS, "no"), word("s3", CAPS, "yes"),
        measured("s1", PLEATS, 60, 0), measured("s2", PLEATS, 55, 0), measured("s3", PLEATS, 45, 0),
        measured("s1", LENGTH, 1422.4, 0.8), measured("s2", LENGTH, 1371.6, 0.8),
        measured("s3", LENGTH, 1346.2, 1.4),
        measured("s1", THICK, 0.71, 0.012, contact_pressure_kpa=2.0),
        measured("s2", THICK, 0.89, 0.014, contact_pressure_kpa=2.0),
        measured("s3", THICK, 1.18, 0.02, contact_pressure_kpa=50.0),
        word("s1", LOOK, "flat ribbons, few round fibres"),
        word("s2", LOOK, "flat ribbons with many round, smooth fibres laid on one side; "
             "between crossed films part of them stays dark. " * 4),
        state("s3", LOOK, State.NOT_MEASURED),
    ]  # fmt: skip


def _more_findings(specimens: tuple[Specimen, ...]) -> list[Finding]:
    found = []
    for index, s in enumerate(specimens[3:], start=1):
        found += [
            measured(s.id, MASS, 250.0 + 31 * index, 0.06), measured(s.id, WALL, 0.40, 0.01),
            measured(s.id, HARDNESS, 66 + index, 1.5), measured(s.id, TURNS, 4 + index, 0),
            measured(s.id, PLEATS, 48 + index, 0), measured(s.id, LENGTH, 1200.0 + index, 0.9),
            measured(s.id, THICK, 0.8 + index / 10, 0.02, contact_pressure_kpa=2.0),
            state(s.id, BYPASS, State.NOT_MARKED), word(s.id, FLAP, "black rubber"),
        ]  # fmt: skip
    return found


def _figures(specimens: tuple[Specimen, ...]) -> dict[tuple[str, str], Figure]:
    values = [1293.5, 1316.8, None, 1120.0, 1180.0, 1290.0]
    made = {}
    for s, value in zip(specimens, values, strict=False):
        has = None if value is None else quantity(value, 4.1, "centimeter ** 2")
        why = "" if has is not None else "The hidden width could not be told."
        made["exposed_area", s.id] = Figure(AREA, s.id, has, why, (f"{s.id}-strip_length-1",))  # type: ignore[arg-type]
    return made


def _rule(
    subject: str, component: Component, meaningful: float, unit: str = "", **more: object
) -> AttributeRule:
    return AttributeRule(
        subject, component, ValueKind.PIECEWISE, 1.0, Support.ENGINEERING,
        "common practice, no source", "More of it is better up to a point.", unit,
        (Anchor(0.2, 0), Anchor(0.7, 10)), meaningful=meaningful, **more,  # type: ignore[arg-type]
    )  # fmt: skip


RULES = Rules(
    "bench", "Bench rules", "3", 0.5, 1.0,
    (
        _rule("can_wall", C.CAN, 0.05, "millimeter"), _rule("gasket_hardness", C.GASKET, 5),
        _rule("turns", C.THREAD, 1, "turn"),
        _rule("exposed_area", C.MEDIA, 0.05, meaningful_is_share=True),
        AttributeRule("pleats", C.PLEATS, ValueKind.NONE, 0, Support.OPINION, "no source",
                      "More is not better."),
    ),
)  # fmt: skip

OUTCOMES = {
    C.GASKET: AwardKind.TIE, C.CAN: AwardKind.WINNER, C.THREAD: AwardKind.JOINT_WINNERS,
    C.ADBV: AwardKind.NOT_JUDGED, C.BYPASS: AwardKind.NOT_JUDGED, C.SPRING: AwardKind.DIFFERENT,
    C.END_CAPS: AwardKind.TIE, C.PLEATS: AwardKind.DIFFERENT, C.MEDIA: AwardKind.CANNOT_SEPARATE,
}  # fmt: skip

SCORED = (C.GASKET, C.CAN, C.THREAD, C.END_CAPS, C.MEDIA)


def _award(component: Component, kind: AwardKind, ids: tuple[str, ...]) -> Award:
    winners = {
        AwardKind.WINNER: ids[:1], AwardKind.JOINT_WINNERS: ids[:2], AwardKind.TIE: ids,
    }.get(kind, ())  # fmt: skip
    behind = ids[len(winners) :] if kind in (AwardKind.WINNER, AwardKind.JOINT_WINNERS) else ()
    return Award(
        component, kind, winners, behind, Support.ENGINEERING,
        f"By the rules the {component.value} comes out as '{kind.value}'.",
        "A gap of one point more between the first two.",
    )  # fmt: skip


def _score(component: Component, specimen: str, index: int) -> Score:
    why = "could not tell" if component is C.ADBV else "not measured"
    lost = Contribution("adbv_material", 1.0, None, why_not=why)
    if component not in SCORED or (component is C.CAN and specimen == "s3"):
        return Score(component, specimen, None, None, None, 0, 1, 0.0, (lost,))
    value = 7.6 - 1.3 * index + 0.2 * len(component.value) / 4
    value = min(9.8, max(0.4, value))
    return Score(
        component, specimen, value, max(0.0, value - 0.7), min(10.0, value + 0.7), 2, 3, 0.8,
        (Contribution("can_wall", 0.8, value, 0.3), lost),
    )  # fmt: skip


def _verdict(specimens: tuple[Specimen, ...]) -> Verdict:
    ids = tuple(s.id for s in specimens)
    awards = tuple(_award(c, kind, ids) for c, kind in OUTCOMES.items())
    scores = tuple(_score(c, s, i) for c in OUTCOMES for i, s in enumerate(ids))
    return Verdict("bench", "3", scores, awards)


def _corrected() -> tuple[Reading, ...]:
    wrong = Reading("r1", LINEUP, "s1", "can_wall", 1, State.MEASURED, "5.1 mm", START, 10.0)
    right = replace(wrong, id="r2", text="0.51 mm", at=START + timedelta(minutes=9),
                    supersedes="r1", reason="misheard: a viewer saw 0.51 on the dial")  # fmt: skip
    return wrong, right


INSTRUMENTS = (
    Instrument("i1", "Bench scale", InstrumentKind.SCALE, "gram", 0.1, 0.2),
    Instrument("i2", "Foot gauge", InstrumentKind.THICKNESS_GAUGE, "millimeter", 0.01, 0.02, 2.0,
               "foot 16 mm across"),
)  # fmt: skip


class PictureShelf:
    """Gives out picture bytes by id, and nothing else."""

    def __init__(self, pictures: dict[str, bytes]) -> None:
        self._pictures = pictures

    def photo_bytes(self, photo_id: str) -> bytes:
        return self._pictures[photo_id]


class Told:
    """Keeps what progress was told."""

    def __init__(self) -> None:
        self.steps: list[tuple[int, int, str]] = []

    def step(self, done: int, total: int, what: str) -> None:
        self.steps.append((done, total, what))


def picture_bytes(seed: int, size: tuple[int, int] = (1200, 900)) -> bytes:
    """Return a JPEG of an invented cut can, different for each seed."""
    image = Image.new("RGB", size, (214 - seed % 40, 208, 196 + seed % 30))
    draw = ImageDraw.Draw(image)
    w, h = size
    for ring in range(18):
        angle = 2 * math.pi * (ring + seed / 7) / 18
        x, y = w / 2 + w * 0.25 * math.cos(angle), h / 2 + h * 0.3 * math.sin(angle)
        draw.ellipse((x - 40, y - 40, x + 40, y + 40), fill=(90 + 8 * ring, 70 + 5 * seed % 90, 60))
    draw.ellipse((w * 0.3, h * 0.25, w * 0.7, h * 0.75), outline=(40, 40, 44), width=w // 50)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=90)
    return out.getvalue()


def photos(
    specimens: tuple[Specimen, ...], stations: tuple[str, ...] = ("outside", "cut", "media"),
    size: tuple[int, int] = (1200, 900),
) -> tuple[tuple[Photo, ...], PictureShelf]:  # fmt: skip
    """Return one photo per specimen and station, and the shelf that holds their bytes."""
    made, kept = [], {}
    for i, station in enumerate(stations):
        for j, s in enumerate(specimens):
            data = picture_bytes(10 * i + j, size)
            digest = hashlib.sha256(data).hexdigest()
            kept[digest] = data
            made.append(Photo(digest, LINEUP, s.id, station, f"{s.id}-{station}.jpg", "image/jpeg",
                              *size, START, caption=f"{s.nickname}, {station}"))  # fmt: skip
    return tuple(made), PictureShelf(kept)


def record(count: int = 3, **changes: object) -> Record:
    """Return a record of `count` specimens (1 to 6), without photos."""
    specimens = SPECIMENS[:count]
    ids = {s.id for s in specimens}
    found = [f for f in _three_findings() if f.specimen_id in ids] + _more_findings(specimens)
    lineup = Lineup(
        LINEUP, "Three for the same mount", "Which of these would go on the same engine mount?",
        "spin-on", "bench", START, specimens, tuple(a.key for a in SEQUENCE.attributes),
        reviewer="R. Benchwright",
    )  # fmt: skip
    remark = Remark("m1", LINEUP, C.CAN.value, "", "The thin one dented under a thumb.", START)
    readings = tuple(r for f in found for r in f.readings) + _corrected()
    made = Record(
        lineup, SEQUENCE, RULES, readings, {(f.attribute, f.specimen_id): f for f in found},
        _figures(specimens), _verdict(specimens), INSTRUMENTS, (),
        (Moment("f1", LINEUP, START, 754.0, "spring jumped off the tray"),),
        {(C.CAN.value, ""): remark},
        hashlib.sha256(b"sample").hexdigest(), 2,
    )  # fmt: skip
    return replace(made, **changes)  # type: ignore[arg-type]
