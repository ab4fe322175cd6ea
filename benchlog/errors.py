"""Every error of the program, in two families.

BenchlogError
├── WorldError            the world's fault: shown to the reviewer, with what to do
│   ├── EntryRefused      what was typed or sent cannot be taken as it stands
│   ├── AskAgain          unusual, yet possible: wants one more yes, or a typed reason
│   ├── PlanRefused       a line-up, specimen or rule that cannot stand
│   ├── ShelfFault        the shelf cannot be opened, read or written
│   │   ├── ShelfLocked   another window holds it
│   │   ├── ShelfFull     no room on the disk
│   │   ├── ShelfReadOnly the folder cannot be written to
│   │   ├── ShelfDamaged  the file is not a sound shelf
│   │   └── ShelfNewer    written by a newer version of this program
│   ├── ScaleFault        a port cannot be opened, or has gone away
│   ├── ResourceFault     a file in resources/ is wrong; names file, line, entry and field
│   ├── PictureRefused    not a picture, or one that cannot be read
│   │   └── ScaleRefused  no stage micrometer whose lines can be trusted
│   ├── WorkStopped       a process that worked for us ended before its answer
│   └── PublishRefused    something must be answered before anything leaves the program
└── OurFault              a fault of this program: logged and reported, never explained away
"""

from __future__ import annotations


class BenchlogError(Exception):
    """Anything this program raises on purpose."""


class WorldError(BenchlogError):
    """The world's fault: `what` went wrong and why, and what to `do` next, in plain words."""

    def __init__(self, what: str, do: str = "") -> None:
        super().__init__(f"{what} {do}".strip())
        self.what = what
        self.do = do


class EntryRefused(WorldError):
    """What was typed or sent cannot be taken as it stands; nothing was stored."""


class AskAgain(WorldError):
    """An unusual value: soft range wants one more yes, hard range a typed reason."""

    def __init__(self, what: str, do: str = "", *, reason_wanted: bool = False) -> None:
        super().__init__(what, do)
        self.reason_wanted = reason_wanted


class PlanRefused(WorldError):
    """A line-up, specimen or rule that cannot stand.

    `field` names the field at fault and `specimen_id` whose it is; "" where none is to blame.
    """

    def __init__(self, what: str, do: str = "", *, field: str = "", specimen_id: str = "") -> None:
        super().__init__(what, do)
        self.field = field
        self.specimen_id = specimen_id


class ShelfFault(WorldError):
    """The shelf cannot be opened, read or written; what was acknowledged is safe."""


class ShelfLocked(ShelfFault):
    """Another window holds the shelf."""


class ShelfFull(ShelfFault):
    """No room on the disk."""


class ShelfReadOnly(ShelfFault):
    """The shelf's folder cannot be written to."""


class ShelfDamaged(ShelfFault):
    """The file is not a sound shelf."""


class ShelfNewer(ShelfFault):
    """The shelf was written by a newer version of this program."""


class ScaleFault(WorldError):
    """A port cannot be opened, or has gone away."""


class ResourceFault(WorldError):
    """A file in resources/ is wrong."""

    def __init__(
        self, file: str, what: str, *, entry: str = "", field: str = "", line: int | None = None
    ) -> None:
        place = file if line is None else f"{file}, line {line}"
        if entry:
            place += f", entry '{entry}'"
        if field:
            place += f", field '{field}'"
        super().__init__(f"{place}: {what}", "Put the file right, or restore the one shipped.")
        self.file = file
        self.entry = entry
        self.field = field
        self.line = line


class PictureRefused(WorldError):
    """Not a picture, or one that cannot be read."""


class ScaleRefused(PictureRefused):
    """A picture in which no stage micrometer's lines can be found and trusted."""


class WorkStopped(WorldError):
    """A process that worked for us ended before its answer; what is on the shelf is safe."""


class PublishRefused(WorldError):
    """Something must be answered before anything leaves the program."""


class OurFault(BenchlogError):
    """A fault of this program."""
