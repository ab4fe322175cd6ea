"""What the reviewer chose for this machine: theme, units, paper, keys, the scale's port."""

from __future__ import annotations

import json
import logging
from dataclasses import asdict, dataclass, field, fields, replace
from pathlib import Path
from typing import Any, TypeVar

from platformdirs import user_config_path, user_data_path, user_documents_path, user_log_path

APP = "benchlog"
log = logging.getLogger(__name__)

METRIC, INCH, BOTH = "metric", "inch", "both"
UNITS_SHOWN = (METRIC, INCH, BOTH)
"""In which units values are shown; what is stored never changes."""


@dataclass(frozen=True)
class ScaleSettings:
    """How the scale is reached; `port` is "" while there is none, and may be a typed path.

    `mode` is "continuous", "on demand" or "polled"; `poll_text` is what is sent to ask for one
    line. `unit` is taken when the scale's line names none. `steady_lines` equal lines within
    `steady_seconds` count as stable when the scale itself never says.
    """

    port: str = ""
    baud: int = 9600
    data_bits: int = 8
    parity: str = "N"
    stop_bits: float = 1.0
    flow: str = "none"
    mode: str = "continuous"
    poll_text: str = "W"
    poll_seconds: float = 0.3
    template: str = "automatic"
    unit: str = "gram"
    steady_lines: int = 4
    steady_seconds: float = 2.0


@dataclass(frozen=True)
class Settings:
    """Everything kept per machine; `theme` is "system", "dark" or "light".

    `inch` says how a bare number is meant at entry; `units`, one of UNITS_SHOWN, in which units
    values are shown. `publishing` holds what goes out, by line-up, as it was last chosen;
    `publish_to` is the folder for the files of revisions, "" for one among the documents.
    `own_weights` are the reviewer's weights of components, by component, as they were typed.
    `pictures` holds how fields of the media are taken, by line-up, as it was last chosen.
    """

    theme: str = "system"
    inch: bool = False
    paper: str = "A4"
    reviewer: str = ""
    currency: str = ""
    sounds: bool = True
    scale: ScaleSettings = field(default_factory=ScaleSettings)
    keys: dict[str, str] = field(default_factory=dict)
    geometry: str = ""
    units: str = METRIC
    publishing: dict[str, Any] = field(default_factory=dict)
    publish_to: str = ""
    own_weights: dict[str, str] = field(default_factory=dict)
    pictures: dict[str, Any] = field(default_factory=dict)


def default_shelf() -> Path:
    """Return the folder of the reviewer's own shelf."""
    return user_data_path(APP, appauthor=False) / "shelf"


def default_published() -> Path:
    """Return the folder in which the files of published revisions are put."""
    return user_documents_path() / APP


def settings_file() -> Path:
    """Return where the settings are kept."""
    return user_config_path(APP, appauthor=False) / "settings.json"


def log_file() -> Path:
    """Return where the program writes its log."""
    return user_log_path(APP, appauthor=False) / "benchlog.log"


def load_settings(path: Path | None = None) -> Settings:
    """Read the settings; what is missing or makes no sense falls back to its default."""
    path = path or settings_file()
    try:
        kept = json.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return Settings()
    except (OSError, ValueError) as fault:
        log.warning("settings could not be read, defaults are used: %s", fault)
        return Settings()
    if not isinstance(kept, dict):
        return Settings()
    scale = kept.pop("scale", {})
    settings = _taken_over(Settings(), kept)
    if settings.units not in UNITS_SHOWN:
        settings = replace(settings, units=METRIC)
    return replace(
        settings, scale=_taken_over(ScaleSettings(), scale if isinstance(scale, dict) else {})
    )


def save_settings(settings: Settings, path: Path | None = None) -> None:
    """Write the settings beside the old ones, then put them in place."""
    path = path or settings_file()
    path.parent.mkdir(parents=True, exist_ok=True)
    fresh = path.with_suffix(".new")
    fresh.write_text(json.dumps(asdict(settings), indent=2, sort_keys=True), encoding="utf-8")
    fresh.replace(path)


_Kept = TypeVar("_Kept", Settings, ScaleSettings)


def _taken_over(default: _Kept, kept: dict[str, Any]) -> _Kept:
    """Return `default` with every kept value of the right type in place."""
    good: dict[str, Any] = {}
    for name in (f.name for f in fields(default)):
        value = kept.get(name)
        wanted = type(getattr(default, name))
        if wanted is float and type(value) is int:
            value = float(value)
        if type(value) is wanted:
            good[name] = value
    return replace(default, **good)
