"""The sample line-up: an invented scenario to look around in and to rehearse with."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path

from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.tasks.plan import new_id, new_lineup
from benchlog.tasks.ports import Clock
from benchlog.tasks.sample_checks import SampleCheck, read_check
from benchlog.tasks.sample_media import (
    SampleMicrograph,
    SampleSetUp,
    read_micrograph,
    read_set_up,
)
from benchlog.trade.attribute import Sequence
from benchlog.trade.resource_file import Entry, ResourceFile, read_resource, resources_folder
from benchlog.trade.specimen import Lineup, Paid, Shape, Specimen

SAMPLE = "sample/lineup.toml"
PICTURES = "sample/pictures"

TABLES = (
    "lineup", "specimen", "instrument", "answer", "remark", "picture", "check", "set_up",
    "micrograph",
)  # fmt: skip


@dataclass(frozen=True)
class SampleLineup:
    """The heading of the sample file."""

    name: str
    question: str
    reviewer: str
    sequence: str
    also: tuple[str, ...] = ()
    """Attributes that are asked beyond the usual ones."""


@dataclass(frozen=True)
class SampleSpecimen:
    """One specimen of the sample file; `key` also begins the names of its pictures."""

    key: str
    nickname: str
    shape: Shape
    colour: str
    maker: str
    part_number: str
    lot: str
    origin_box: str
    origin_can: str
    origin_inferred: str
    paid: Paid
    giver: str
    price: str = ""
    currency: str = ""
    bought_on: str = ""
    note: str = ""

    def specimen(self) -> Specimen:
        """Return it as a specimen with an identity of its own."""
        return Specimen(
            id=new_id(),
            nickname=self.nickname,
            shape=self.shape,
            colour=self.colour,
            maker=self.maker,
            part_number=self.part_number,
            lot=self.lot,
            origin_box=self.origin_box,
            origin_can=self.origin_can,
            origin_inferred=self.origin_inferred,
            paid=self.paid,
            giver=self.giver,
            price=Decimal(self.price) if self.price else None,
            currency=self.currency,
            bought_on=self.bought_on,
            note=self.note,
        )


@dataclass(frozen=True)
class SampleInstrument:
    """One instrument of the sample file."""

    key: str
    name: str
    kind: InstrumentKind
    unit: str
    resolution: float
    permissible_error: float
    contact_pressure_kpa: float | None = None
    accuracy_class: str = ""
    verification_interval: float = 0.0


@dataclass(frozen=True)
class SampleAnswer:
    """What is answered for one attribute: nickname key to texts, one a repeat.

    `tool` names, per specimen, an instrument other than the usual one of its kind.
    """

    attribute: str
    texts: dict[str, tuple[str, ...]]
    tool: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Sample:
    """The whole scenario."""

    lineup: SampleLineup
    specimens: tuple[SampleSpecimen, ...]
    instruments: tuple[SampleInstrument, ...]
    answers: dict[str, SampleAnswer]
    remarks: dict[str, str]
    captions: dict[str, tuple[str, str]]
    """Picture name after the specimen's key, to (station, caption)."""
    checks: tuple[SampleCheck, ...] = ()
    set_up: SampleSetUp | None = None
    micrographs: tuple[SampleMicrograph, ...] = ()

    def plan(self, clock: Clock, sequence: Sequence) -> tuple[Lineup, dict[str, str]]:
        """Return a fresh line-up of the sample, and each specimen id's key in the file."""
        specimens = tuple(s.specimen() for s in self.specimens)
        lineup = new_lineup(
            clock,
            sequence,
            name=self.lineup.name,
            question=self.lineup.question,
            specimens=specimens,
            attributes=tuple(
                a.key for a in sequence.attributes if a.usual or a.key in self.lineup.also
            ),
            reviewer=self.lineup.reviewer,
            rehearsal=True,
        )
        return lineup, {
            made.id: kept.key for made, kept in zip(specimens, self.specimens, strict=True)
        }

    def tools(self) -> dict[str, Instrument]:
        """Return the sample's instruments by their keys; ids are the same on every shelf."""
        return {
            i.key: Instrument(
                id=f"sample-{i.key}",
                name=i.name,
                kind=i.kind,
                unit=i.unit,
                resolution=i.resolution,
                permissible_error=i.permissible_error,
                contact_pressure_kpa=i.contact_pressure_kpa,
                note="from the sample line-up",
                accuracy_class=i.accuracy_class,
                verification_interval=i.verification_interval,
            )
            for i in self.instruments
        }


def load_sample(root: Path | None = None) -> Sample:
    """Read the sample line-up; raises ResourceFault naming file, line, entry and field."""
    file = read_resource(SAMPLE, root)
    file.only(*TABLES)
    specimens = tuple(file.convert(e, SampleSpecimen) for e in file.entries("specimen"))
    instruments = tuple(file.convert(e, SampleInstrument) for e in file.entries("instrument"))
    keys = {s.key for s in specimens}
    tools = {i.key for i in instruments}
    return Sample(
        lineup=file.convert(file.single("lineup"), SampleLineup),
        specimens=specimens,
        instruments=instruments,
        answers={e.key: _answer(file, e, keys, tools) for e in file.entries("answer")},
        remarks={e.key: _text(file, e, "text") for e in file.entries("remark")},
        captions={
            e.key: (_text(file, e, "station"), _text(file, e, "caption"))
            for e in file.entries("picture")
        },
        checks=tuple(read_check(file, e, tools) for e in file.entries("check")),
        set_up=next((read_set_up(file, e) for e in file.entries("set_up")), None),
        micrographs=tuple(read_micrograph(file, e, keys) for e in file.entries("micrograph")),
    )


def picture_of(specimen_key: str, picture: str, root: Path | None = None) -> Path:
    """Return where a picture of the sample lies."""
    return (root or resources_folder()) / PICTURES / f"{specimen_key}_{picture}.jpg"


def _answer(file: ResourceFile, entry: Entry, keys: set[str], tools: set[str]) -> SampleAnswer:
    texts: dict[str, tuple[str, ...]] = {}
    for name, given in entry.fields.items():
        if name == "tool":
            continue
        if name not in keys:
            raise file.fault(entry, name, f"'{name}' is no specimen of this file")
        said = given if isinstance(given, list) else [given]
        if not said or not all(isinstance(text, str) and text for text in said):
            raise file.fault(entry, name, "wants a text, or a list of texts, one a repeat")
        texts[name] = tuple(said)
    chosen = entry.fields.get("tool", {})
    for name, tool in chosen.items():
        if name not in keys or tool not in tools:
            raise file.fault(entry, "tool", f"'{name} = {tool}' names no specimen and instrument")
    return SampleAnswer(entry.key, texts, dict(chosen))


def _text(file: ResourceFile, entry: Entry, name: str) -> str:
    text = entry.fields.get(name)
    if not isinstance(text, str):
        raise file.fault(entry, name, "wants a text")
    return text
