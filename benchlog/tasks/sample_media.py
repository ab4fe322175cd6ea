"""The micrographs of the sample line-up: one set-up by a stage picture, and fields in order."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from benchlog.measure.micrograph import MicroscopeSetUp, Side
from benchlog.tasks.field_order import WantedField
from benchlog.tasks.fields import keep_answer, measured, take_picture
from benchlog.tasks.picture_ports import PictureMeasurer
from benchlog.tasks.ports import Clock, Progress, Shelf
from benchlog.tasks.set_ups import SetUpWords, add_stage_set_up, current_set_ups
from benchlog.trade.attribute import Sequence
from benchlog.trade.resource_file import Entry, ResourceFile, resources_folder
from benchlog.trade.specimen import Lineup

MICROGRAPHS = "sample/micrographs"


@dataclass(frozen=True)
class SampleSetUp:
    """The set-up of the sample file; `stage` names the picture of the stage micrometer."""

    key: str
    name: str
    microscope: str
    objective: str
    light: str
    stage: str
    division_um: float
    division_u_um: float
    note: str = ""

    @property
    def words(self) -> SetUpWords:
        """What a reviewer would type of it."""
        return SetUpWords(self.name, self.microscope, self.objective, self.light, note=self.note)


@dataclass(frozen=True)
class SampleMicrograph:
    """One picture of the sample file, named as its entry; a later one of a field is a retake."""

    key: str
    specimen: str
    side: Side
    field: int


@dataclass(frozen=True)
class _Within:
    """Tells of the picture at hand, whatever step its measurement is at."""

    progress: Progress
    done: int
    total: int
    name: str

    def step(self, _done: int, _total: int, _what: str) -> None:
        """Tell the same again."""
        self.progress.step(self.done, self.total, self.name)


def read_set_up(file: ResourceFile, entry: Entry) -> SampleSetUp:
    """Return the set-up of the sample file; raises ResourceFault."""
    return file.convert(entry, SampleSetUp)


def read_micrograph(file: ResourceFile, entry: Entry, specimens: set[str]) -> SampleMicrograph:
    """Return one micrograph of the sample file; raises ResourceFault for one of nobody."""
    made = file.convert(entry, SampleMicrograph)
    if made.specimen not in specimens:
        raise file.fault(entry, "specimen", f"'{made.specimen}' is no specimen of this file")
    return made


def micrograph_of(name: str, root: Path | None = None) -> Path:
    """Return where a micrograph of the sample lies."""
    return (root or resources_folder()) / MICROGRAPHS / f"{name}.jpg"


def rehearse_media(
    shelf: Shelf,
    clock: Clock,
    sequence: Sequence,
    lineup: Lineup,
    ids: dict[str, str],
    set_up: SampleSetUp,
    pictures: Iterable[SampleMicrograph],
    measurer: PictureMeasurer,
    progress: Progress,
    root: Path | None = None,
    *,
    session_s: float = 0.0,
) -> None:
    """Calibrate, then take and measure every picture in turn, as at the bench.

    `ids` are the specimens' by their keys in the file. `progress` hears of whole pictures; it may
    raise within one.
    """
    kept = _calibrated(shelf, clock, set_up, measurer, root)
    every = list(pictures)
    for done, picture in enumerate(every):
        name = f"Microscope: {picture.key.replace('_', ' ')}"
        progress.step(done, len(every), name)
        path = micrograph_of(picture.key, root)
        field = WantedField(ids[picture.specimen], picture.side, picture.field)
        made = take_picture(
            shelf, clock, lineup.id, field, kept.id, path.name, path.read_bytes(),
            session_s=session_s,
        )  # fmt: skip
        said = measured(shelf, measurer, made, _Within(progress, done, len(every), name))
        keep_answer(shelf, clock, sequence, lineup.id, made.id, said, session_s=session_s)


def _calibrated(
    shelf: Shelf,
    clock: Clock,
    wanted: SampleSetUp,
    measurer: PictureMeasurer,
    root: Path | None,
) -> MicroscopeSetUp:
    """Return the sample's set-up, found on its stage picture; one there is already is taken."""
    stage = micrograph_of(wanted.stage, root).read_bytes()
    known = next((s for s in current_set_ups(shelf) if s.name == wanted.name), None)
    if known is not None:
        return known
    found = measurer.stage_scale(stage, wanted.division_um, wanted.division_u_um)
    division = wanted.division_um, wanted.division_u_um
    return add_stage_set_up(shelf, clock, wanted.words, found, *division, stage, sure=True)
