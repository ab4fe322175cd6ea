"""A small line-up and its records, for tests that need one and not any."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

from benchlog.judge.blind import BlindRun, Poll, Reveal
from benchlog.judge.declared import Declaration
from benchlog.judge.locked import RulesLock
from benchlog.judge.overruling import Overruling
from benchlog.judge.purposes import Purpose
from benchlog.judge.rules import Anchor, AttributeRule, Rules, ValueKind
from benchlog.judge.rules_file import digest
from benchlog.judge.verdict import AwardKind
from benchlog.measure.check import Check, CheckMoment, GroupCorrection, Remedy
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.reading import Reading, Said, Source
from benchlog.measure.state import State
from benchlog.shelf import SqlShelf
from benchlog.tasks.ports import Moment, Photo, Place, Remark
from benchlog.tasks.publication import Output, Publication
from benchlog.trade.attribute import Support
from benchlog.trade.component import Component
from benchlog.trade.conditions import Conditions
from benchlog.trade.specimen import Lineup, Paid, Shape, Specimen

Folders = Callable[[], Path]
"""Each call gives the folder of another closed shelf without records."""

NOON = datetime(2026, 5, 4, 12, 0, tzinfo=UTC)
SCALE = Instrument("scale", "bench scale", InstrumentKind.SCALE, "gram", 0.1, 0.2)
ALFA = Specimen(
    "alfa", "Alfa", Shape.CIRCLE, "#0072b2", lot="L1", paid=Paid.BOUGHT, price=Decimal("9.90")
)
BRAVO = Specimen("bravo", "Bravo", Shape.SQUARE, "#d55e00")
LINEUP = Lineup(
    id="spring",
    name="Spring pair",
    question="Which is built more carefully?",
    sequence="spin-on",
    rules="plain",
    created_at=NOON,
    specimens=(ALFA, BRAVO),
    attributes=("mass", "can_height"),
)
VERIFIED = Instrument(
    "verified",
    "verified scale",
    InstrumentKind.SCALE,
    "gram",
    0.1,
    0,
    accuracy_class="III",
    verification_interval=1,
)
CONDITIONS = Conditions(20.0, "", 90.5, 14.25, 850.0, 80.0, 700.0, 15000.0)
RULES = Rules(
    key="own",
    label="Own rules",
    version="1",
    smallest_coverage=0.5,
    meaningful_score=0.1,
    entries=(
        AttributeRule(
            "can_wall",
            Component.CAN,
            ValueKind.PIECEWISE,
            2.0,
            Support.OPINION,
            "common practice, no source",
            "A thicker wall dents less.",
            "millimeter",
            (Anchor(0.2, 2.0), Anchor(0.7, 10.0)),
            meaningful=0.05,
        ),
    ),
)
PURPOSE = Purpose(
    key="own_weights",
    label="Your own weights",
    weights=(("can", 3.0), ("gasket", 1.5)),
    left_open=("media",),
    open_share=1 / 3,
    support=Support.OPINION,
    source="the reviewer's own choice",
    reason="Only proportions count.",
    criteria=RULES.entries,
)
PICTURE = b"a picture of a can"
DIGEST = "d1" * 32
FROZEN = f'{{"digest": "{DIGEST}", "readings": ["287.40 g"]}}'
PAGES = {"sheet.pdf": b"the sheet, as it went out", "cards/alfa.png": b"a card of the first"}


def reading(name: str, supersedes: str | None = None, reason: str = "") -> Reading:
    """Return a weight of the first specimen."""
    return Reading(
        id=name,
        lineup_id=LINEUP.id,
        specimen_id=ALFA.id,
        attribute="mass",
        ordinal=1,
        state=State.MEASURED,
        text="287.40 g",
        at=NOON,
        session_s=12.5,
        source=Source.SCALE,
        said=Said("287.40 g", Decimal("287.40"), "gram"),
        si_value=0.2874,
        si_unit="kilogram",
        instrument_id=SCALE.id,
        raw=b"ST,GS,+00287.40  g\r\n",
        reason=reason,
        supersedes=supersedes,
    )


def check(name: str, after: str = "first") -> Check:
    """Return a closing check of the scale, 0.3 g off."""
    return Check(
        id=name,
        lineup_id=LINEUP.id,
        instrument_id=SCALE.id,
        moment=CheckMoment.CLOSING,
        known=100.0,
        tolerance=0.005,
        said=Said("100.30 g", Decimal("100.30"), "gram"),
        at=NOON,
        session_s=20.0,
        after=after,
        standard="check weight 100 g, class M1",
    )


def group_correction(name: str, check_id: str, takes_back: str = "") -> GroupCorrection:
    """Return the shift that the closing check asks for."""
    return GroupCorrection(
        name,
        LINEUP.id,
        SCALE.id,
        check_id,
        Remedy.SHIFT,
        -0.3,
        "scale drifted",
        NOON,
        takes_back,
    )


def photo(data: bytes = PICTURE, specimen_id: str = "alfa", caption: str = "") -> Photo:
    """Return the record of a picture at the first station."""
    name = hashlib.sha256(data).hexdigest()
    return Photo(
        name, LINEUP.id, specimen_id, "outside", "can.jpg", "image/jpeg", 640, 480, NOON, caption
    )


def remark(name: str) -> Remark:
    """Return a remark on the first specimen's can."""
    return Remark(name, LINEUP.id, "can", ALFA.id, "dented at the seam", NOON)


def place(station: str = "weighing", lineup_id: str = LINEUP.id) -> Place:
    """Return a place at the bench with half a number typed."""
    return Place(lineup_id, station, "mass", ALFA.id, True, "28", ("cut",), (("scale", SCALE.id),))


def moment(name: str) -> Moment:
    """Return a flagged moment."""
    return Moment(name, LINEUP.id, NOON, 12.5, "the spring jumped out")


def rules_lock(name: str, reason: str = "", after: str = "") -> RulesLock:
    """Return a lock of the own rules."""
    return RulesLock(name, LINEUP.id, RULES, digest(RULES), NOON, reason, after, bool(after))


def overruling(name: str, kind: AwardKind | None = AwardKind.WINNER) -> Overruling:
    """Return what the reviewer says of the can."""
    winners = (BRAVO.id,) if kind else ()
    return Overruling(name, LINEUP.id, Component.CAN, kind, winners, "dented in my hands", NOON)


def blind_run(name: str, after: str = "") -> BlindRun:
    """Return a round of blind judging of both specimens by one attribute."""
    codes = (("bravo", "KT"), ("alfa", "VR"))
    return BlindRun(name, LINEUP.id, ("dents",), codes, (("KT", "VR"),), 2**62, NOON, after)


def reveal(name: str, run_id: str) -> Reveal:
    """Return the opening of a run's codes."""
    return Reveal(name, run_id, LINEUP.id, NOON)


def poll(name: str) -> Poll:
    """Return what viewers picked before the reveal."""
    return Poll(name, LINEUP.id, "Which would you buy?", (("alfa", 12), ("bravo", 30)), True, NOON)


def declaration(name: str, purpose: Purpose | None = PURPOSE, after: str = "") -> Declaration:
    """Return the declaring of a purpose, or its taking back."""
    return Declaration(name, LINEUP.id, purpose, NOON, "asked by viewers", after, bool(after))


def published(revision: int, pages: dict[str, bytes] | None = None) -> Publication:
    """Return a revision of the line-up with its list of files."""
    outputs = tuple(
        Output(name, name[:5], hashlib.sha256(data).hexdigest(), len(data))
        for name, data in sorted((PAGES if pages is None else pages).items())
    )
    why = "a weight was misread" if revision > 1 else ""
    return Publication(f"published-{revision}", LINEUP.id, revision, NOON, DIGEST, why, outputs)


def publish(shelf: SqlShelf, revision: int, pages: dict[str, bytes] | None = None) -> Publication:
    """Publish a revision of the line-up, with its files."""
    made = published(revision, pages)
    with shelf.publication_draft() as draft:
        for name, data in (PAGES if pages is None else pages).items():
            (draft / name).parent.mkdir(exist_ok=True)
            (draft / name).write_bytes(data)
        shelf.add_publication(made, FROZEN, draft)
    return made


def judge(shelf: SqlShelf, after: str) -> None:
    """Put one of everything of judging on a shelf, the lock and the run after a reading."""
    shelf.add_own_rules(RULES, NOON)
    shelf.add_rules_lock(rules_lock("locked"))
    shelf.add_rules_lock(rules_lock("changed", "a wall was mistyped", after))
    shelf.add_overruling(overruling("by hand"))
    shelf.add_overruling(overruling("taken back", None))
    shelf.add_blind_run(blind_run("run", after))
    shelf.add_reveal(reveal("opened", "run"))
    shelf.add_poll(poll("channel"))
    shelf.add_declaration(declaration("declared"))
    shelf.add_declaration(declaration("given up", None, after))


def set_up(shelf: SqlShelf) -> None:
    """Put the line-up and its scale on a shelf."""
    shelf.save_instrument(SCALE)
    shelf.save_lineup(LINEUP)
