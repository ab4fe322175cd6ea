"""The only place that builds the real shelf and real devices and hands them to the tasks."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

from benchlog.errors import PlanRefused
from benchlog.settings import ScaleSettings
from benchlog.tasks.clock import SystemClock
from benchlog.tasks.picture_ports import PictureMeasurer
from benchlog.tasks.ports import Clock, OutputWriter, Progress, Scale, ScriptedScale, SheetWriter
from benchlog.tasks.sheet_wishes import USUAL, SheetWishes

if TYPE_CHECKING:
    from decimal import Decimal

    from benchlog.sheet.data.recompute import Difference
    from benchlog.shelf import SqlShelf
    from benchlog.tasks.publish_wishes import PublishWishes
    from benchlog.tasks.record import Record
    from benchlog.tasks.stand_in import StandInCheck
    from benchlog.tasks.walk import Teardown


@dataclass
class Workshop:
    """An open shelf and a clock; close it when done, or use `with`."""

    shelf: SqlShelf
    folder: Path
    clock: Clock = field(default_factory=SystemClock)

    def close(self) -> None:
        """Let go of the shelf."""
        self.shelf.close()

    def __enter__(self) -> Workshop:
        return self

    def __exit__(self, *_fault: object) -> None:
        self.close()


def open_workshop(folder: Path, *, read_only: bool = False) -> Workshop:
    """Open the shelf in `folder` (made when missing); raises ShelfFault kinds."""
    from benchlog.shelf import open_shelf  # noqa: PLC0415 - SQLAlchemy is slow to import

    return Workshop(open_shelf(folder, read_only=read_only), folder)


def sheet_writer() -> SheetWriter:
    """Return the writer of the viewers' sheet."""
    from benchlog.sheet.pdf_sheet import PdfSheet  # noqa: PLC0415 - ReportLab is slow to import

    return PdfSheet()


OUTPUT_KINDS = ("sheet", "cards", "data", "chapters", "description")


def output_writers(
    paper: str = "A4",
    wishes: SheetWishes = USUAL,
    licence: str = "",
    kinds: Collection[str] = OUTPUT_KINDS,
) -> list[OutputWriter]:
    """Return the writers of everything that a revision is made of.

    `kinds` are those wanted; the data package is left out while no licence is chosen for it.
    """
    from benchlog.sheet import outputs  # noqa: PLC0415 - only when publishing

    every: list[OutputWriter] = [
        outputs.SheetOutput(paper, wishes),
        outputs.CardsOutput(wishes.units),
        outputs.VideoOutput(),
        outputs.DescriptionOutput(),
    ]
    if licence:
        every.insert(2, outputs.DataOutput(licence))
    return [writer for writer in every if writer.kind in kinds]


def publishing_writers(paper: str, units: str, wishes: PublishWishes) -> list[OutputWriter]:
    """Return the writers of what the reviewer wants to go out, and for which nothing is missing."""
    from benchlog.sheet import outputs  # noqa: PLC0415 - only when publishing
    from benchlog.tasks.footage import Timeline, timeline_of  # noqa: PLC0415

    def timeline(record: Record) -> Timeline:
        return timeline_of(record, wishes.footage, wishes.kept)

    asked = wishes.stand_in
    every: list[OutputWriter] = [
        outputs.SheetOutput(paper, wishes.of_sheet(units)),
        outputs.CardsOutput(
            units,
            heights=wishes.heights,
            stand_in=asked if asked is not None and asked.on_cards else None,
        ),
        outputs.DataOutput(wishes.licence),
        outputs.VideoOutput(timeline),
        outputs.DescriptionOutput(wishes.links, wishes.ask, wishes.limit, timeline),
    ]
    return [writer for writer in every if wishes.goes_out(writer.kind)]


def data_licences() -> tuple[tuple[str, str], ...]:
    """Return the licences for the data, each with what it asks of those who use it."""
    from benchlog.sheet.data.licence import LICENCES  # noqa: PLC0415 - only when publishing

    return tuple((one.name, f"{one.title}. {one.asks}") for one in LICENCES)


def stand_in_words(check: StandInCheck) -> str:
    """Return a stand-in check as plain text."""
    from benchlog.sheet.stand_in_text import stand_in_text  # noqa: PLC0415 - only when asked for

    return stand_in_text(check)


def recompute_package(package: Path) -> tuple[Difference, ...]:
    """Return where a published data package differs from what its readings come to."""
    from benchlog.sheet.data.recompute import recompute  # noqa: PLC0415

    return recompute(package)


def remeasure_package(
    package: Path, progress: Progress, measurer: PictureMeasurer | None = None
) -> tuple[Difference, ...]:
    """Return where the pictures of a published data package say otherwise, measured again.

    They are measured by `measurer`, or in a process that ends with it. Raises PlanRefused when the
    package cannot be read, WorkStopped when measuring ended early.
    """
    from benchlog.sheet.data.packed_pictures import as_difference, pictures_in  # noqa: PLC0415
    from benchlog.sheet.data.read_package import read_package, unpacked  # noqa: PLC0415
    from benchlog.tasks.remeasure import remeasure  # noqa: PLC0415

    used = measurer or picture_measurer()
    try:
        with unpacked(package) as folder:
            packed = read_package(folder)
            found = remeasure(packed.contents, pictures_in(folder, packed), used, progress)
    finally:
        if measurer is None:
            used.close()
    return tuple(as_difference(one) for one in found)


def serial_scale(settings: ScaleSettings, clock: Clock | None = None) -> Scale:
    """Return the scale at the port of the settings; raises ScaleFault for settings that cannot be.

    Its `start` raises ScaleFault when the port cannot be opened.
    """
    from benchlog.instruments.port_settings import (  # noqa: PLC0415 - only with a scale
        Flow,
        PortSettings,
        Sending,
    )
    from benchlog.instruments.serial_scale import SerialScale  # noqa: PLC0415
    from benchlog.instruments.steady import SteadyRule  # noqa: PLC0415

    flows = {"none": Flow.NONE, "xonxoff": Flow.XONXOFF, "rtscts": Flow.RTSCTS}
    ways = {
        "continuous": Sending.CONTINUOUS,
        "on demand": Sending.PRINT_KEY,
        "polled": Sending.POLLED,
    }
    port = PortSettings(
        path=settings.port,
        baud=settings.baud,
        bytesize=settings.data_bits,
        parity=settings.parity,
        stopbits=settings.stop_bits,
        flow=flows.get(settings.flow, Flow.NONE),
        sending=ways.get(settings.mode, Sending.CONTINUOUS),
        poll=f"{settings.poll_text}\r\n".encode(),
        poll_every_s=settings.poll_seconds,
        template=settings.template,
        unit=settings.unit,
        rule=SteadyRule(settings.steady_lines, settings.steady_seconds),
    )
    return SerialScale(port, clock or SystemClock())


def rehearsal_scale(weight: Decimal, unit: str, *, pace: float = 0.0) -> ScriptedScale:
    """Return a scale that will weigh one load of `weight` (of `unit`), through the real code.

    `pace` is in seconds a line; with 0 the load is played at once when it is polled.
    """
    from benchlog.instruments.placing import Placing  # noqa: PLC0415
    from benchlog.instruments.rehearsal import RehearsalScale  # noqa: PLC0415

    return RehearsalScale([Placing(weight, unit)], pace=pace)


def picture_measurer(*, here: bool = False) -> PictureMeasurer:
    """Return what measures pictures; its process begins with the first of them.

    With `here` it measures in this process, and cannot be ended: for small pictures.
    """
    if here:
        from benchlog.microscope.measured_pictures import PicturesHere  # noqa: PLC0415

        return PicturesHere()
    from benchlog.microscope.picture_process import PictureProcess  # noqa: PLC0415

    return PictureProcess()


def picture_answer(
    path: Path,
    um_per_px: float,
    u_um_per_px: float,
    light: str,
    edge_offset_px: float | None,
    progress: Progress,
) -> dict[str, Any]:
    """Return what measuring the picture in a file says, as plain values.

    Raises PictureRefused for what is no picture, EntryRefused for a scale or light that is none.
    """
    from benchlog.microscope.answers import measure_picture  # noqa: PLC0415 - slow to import
    from benchlog.microscope.figures import Scale  # noqa: PLC0415
    from benchlog.microscope.masking import Light  # noqa: PLC0415
    from benchlog.microscope.measure import SetUp  # noqa: PLC0415

    set_up = SetUp(Scale(um_per_px, u_um_per_px), cast(Light, light), edge_offset_px)
    return measure_picture(path, set_up, step=progress.step)


def scale_answer(path: Path, division_um: float, division_u_um: float) -> dict[str, Any]:
    """Return the scale of a stage micrometer's picture in a file, as plain values.

    Raises ScaleRefused where its lines cannot be trusted, and as `picture_answer` does.
    """
    from benchlog.microscope.answers import measure_scale  # noqa: PLC0415 - slow to import

    return measure_scale(path, division_um, division_u_um)


def media_answer(
    first: list[dict[str, Any]], second: list[dict[str, Any]], wanted: float
) -> dict[str, Any]:
    """Return how two media differ by the answers of their pictures, as plain values.

    `wanted` is the share to be told apart. Raises EntryRefused when they cannot be compared.
    """
    from benchlog.microscope.media_answers import compare_media  # noqa: PLC0415

    return compare_media(first, second, wanted)


def open_teardown(workshop: Workshop, lineup_id: str, *, inch: bool = False) -> Teardown:
    """Return the teardown of a line-up, standing where it stood."""
    from benchlog.tasks.walk import Teardown  # noqa: PLC0415
    from benchlog.trade.sequence_file import load_sequence  # noqa: PLC0415

    sequence = load_sequence(workshop.shelf.lineup(lineup_id).sequence)
    return Teardown(workshop.shelf, workshop.clock, sequence, lineup_id, inch=inch)


def record_of(workshop: Workshop, lineup_id: str) -> Record:
    """Return the record of a line-up under the rules in force."""
    from benchlog.tasks.draw_up import draw_up  # noqa: PLC0415
    from benchlog.trade.sequence_file import load_sequence  # noqa: PLC0415

    sequence = load_sequence(workshop.shelf.lineup(lineup_id).sequence)
    return draw_up(workshop.shelf, lineup_id, sequence)


def rehearse_sample(workshop: Workshop, progress: Progress) -> str:
    """Walk the whole sample line-up on the open shelf; returns the line-up's id."""
    from benchlog.tasks.rehearse import rehearse  # noqa: PLC0415
    from benchlog.tasks.sample import load_sample  # noqa: PLC0415
    from benchlog.trade.sequence_file import load_sequence  # noqa: PLC0415

    sample = load_sample()
    sequence = load_sequence(sample.lineup.sequence)
    return rehearse(
        workshop.shelf,
        workshop.clock,
        sequence,
        sample,
        rehearsal_scale,
        progress,
        measurer=picture_measurer(here=True),
    )


def find_lineup(workshop: Workshop, wanted: str) -> str:
    """Return the id of the one line-up of that name, or whose id begins so.

    Raises PlanRefused when none or several answer to it.
    """
    briefs = workshop.shelf.lineups()
    found = [b for b in briefs if b.name.casefold() == wanted.casefold()] or [
        b for b in briefs if b.id.startswith(wanted)
    ]
    if len(found) == 1:
        return found[0].id
    if not found:
        known = ", ".join(b.name for b in briefs[:5]) or "none; the shelf is empty"
        raise PlanRefused(f"No line-up '{wanted}' on this shelf.", f"There are: {known}.")
    ids = ", ".join(b.id[:8] for b in found)
    raise PlanRefused(f"{len(found)} line-ups answer to '{wanted}'.", f"Say which: {ids}.")


def check_shelf(folder: Path) -> list[str]:
    """Return what is wrong with the shelf in `folder`; nothing when it is sound."""
    from benchlog.shelf import check_shelf as check  # noqa: PLC0415

    return check(folder)
