"""Colours, letter sizes and the small stylesheet: a dark bench theme and a light one."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QColor, QFont, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication, QWidget

DESIGN_WIDTH, DESIGN_HEIGHT = 1366, 768
LEAST_UNIT, MOST_UNIT = 0.6, 2.2
BODY_PX = 15
NUMERALS = "DejaVu Sans Condensed"  # figures of one width, and narrow enough to stand large


@dataclass(frozen=True)
class Colours:
    """The colours of one theme; text has 4.5:1 contrast or more, what cannot act is `faint`."""

    window: str
    panel: str
    raised: str
    text: str
    dim: str
    line: str
    faint: str
    accent: str
    on_accent: str
    warn: str
    on_warn: str
    good: str


DARK = Colours(
    window="#14171a",
    panel="#1c2025",
    raised="#2a3038",
    text="#f1efea",
    dim="#b0b6bd",
    line="#454d57",
    faint="#79818a",
    accent="#7fd0de",
    on_accent="#0b1d21",
    warn="#4a3200",
    on_warn="#ffdf9e",
    good="#a5dfa6",
)
LIGHT = Colours(
    window="#f3f1ec",
    panel="#fdfcf9",
    raised="#e4e1d9",
    text="#1a1c1f",
    dim="#50565d",
    line="#a8a59c",
    faint="#85827a",
    accent="#00606f",
    on_accent="#ffffff",
    warn="#fff0cc",
    on_warn="#5a3d00",
    good="#1f6a2a",
)


def is_dark(theme: str) -> bool:
    """Whether a theme's name asks for dark; "system" follows the desktop, dark if it is silent."""
    if theme == "system":
        return QGuiApplication.styleHints().colorScheme() != Qt.ColorScheme.Light
    return theme == "dark"


def colours() -> Colours:
    """Return the colours in use."""
    return LIGHT if _flag("benchLight") else DARK


def unit() -> float:
    """Return how large the window stands against 1366 × 768; all sizes are multiples of it."""
    return float(_flag("benchUnit") or 1.0)


def px(size: float) -> int:
    """Return a design size in the pixels of the window as it stands."""
    return max(1, round(size * unit()))


def unit_for(size: QSize) -> float:
    """Return the unit that makes the design fill a window of this size."""
    wanted = min(size.width() / DESIGN_WIDTH, size.height() / DESIGN_HEIGHT)
    return max(LEAST_UNIT, min(MOST_UNIT, wanted))


def apply_theme(app: QApplication, theme: str) -> None:
    """Give the whole program the palette and stylesheet of a theme; no work where it has them."""
    dark = is_dark(theme)
    app.setProperty("benchLight", not dark)
    shown = DARK if dark else LIGHT
    if app.styleSheet() == _stylesheet(shown):
        return
    app.setPalette(_palette(shown))
    for boxed in ("QCheckBox", "QRadioButton"):
        app.setPalette(_box_palette(shown), boxed)
    app.setStyleSheet(_stylesheet(shown))


def sized(widget: QWidget, size: float, *, bold: bool = False, numeral: bool = False) -> None:
    """Let a widget's letters stand `size` design pixels tall, now and after every resize."""
    widget.setProperty("px", float(size))
    widget.setProperty("pxBold", bold)
    widget.setProperty("pxNumeral", numeral)
    _apply_size(widget)


def font_of(size: float, *, bold: bool = False, numeral: bool = False) -> QFont:
    """Return a font of a design size."""
    font = QFont(QApplication.font())
    if numeral:
        font.setFamilies([NUMERALS, "DejaVu Sans", *QApplication.font().families()])
        font.setFeature(QFont.Tag("tnum"), 1)
    font.setPixelSize(px(size))
    font.setWeight(QFont.Weight.Bold if bold else QFont.Weight.Normal)
    return font


def restyle(widget: QWidget) -> None:
    """Let the stylesheet look at a widget's properties again; its letters keep their size."""
    widget.style().unpolish(widget)
    widget.style().polish(widget)
    if widget.property("px"):
        _apply_size(widget)


def rescale(app: QApplication, root: QWidget, new_unit: float) -> None:
    """Set all letter sizes under `root` to a new unit."""
    app.setProperty("benchUnit", new_unit)
    body = QFont(app.font())
    body.setPixelSize(px(BODY_PX))
    app.setFont(body)
    for widget in root.findChildren(QWidget):
        if widget.property("px"):
            _apply_size(widget)


def readable_on(colour: str) -> QColor:
    """Return white or near-black, whichever stands out more on a colour."""
    red, green, blue = (_linear(c) for c in QColor(colour).getRgbF()[:3])
    luminance = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    on_white = 1.05 / (luminance + 0.05)
    on_black = (luminance + 0.05) / 0.05
    return QColor("#ffffff") if on_white >= on_black else QColor("#101214")


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours after WCAG 2.1, 1 to 21."""
    lights = sorted(
        sum(w * _linear(c) for w, c in zip((0.2126, 0.7152, 0.0722), rgb, strict=True))
        for rgb in (QColor(one).getRgbF()[:3], QColor(other).getRgbF()[:3])
    )
    return (lights[1] + 0.05) / (lights[0] + 0.05)


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4


def _flag(name: str) -> object:
    app = QApplication.instance()
    return app.property(name) if app else None


def _apply_size(widget: QWidget) -> None:
    widget.setFont(
        font_of(
            float(widget.property("px")),
            bold=bool(widget.property("pxBold")),
            numeral=bool(widget.property("pxNumeral")),
        )
    )


def _box_palette(shown: Colours) -> QPalette:
    """Return the palette of boxes to tick, round ones too: their rim would be darker than the dark.

    The style takes the rim from the window's colour, which they do not show otherwise.
    """
    palette = _palette(shown)
    palette.setColor(QPalette.ColorRole.Window, QColor(shown.dim))
    return palette


def _palette(shown: Colours) -> QPalette:
    palette = QPalette()
    role = QPalette.ColorRole
    for which, colour in (
        (role.Window, shown.window),
        (role.Base, shown.panel),
        (role.AlternateBase, shown.raised),
        (role.Button, shown.raised),
        (role.ToolTipBase, shown.raised),
        (role.WindowText, shown.text),
        (role.Text, shown.text),
        (role.ButtonText, shown.text),
        (role.ToolTipText, shown.text),
        (role.PlaceholderText, shown.dim),
        (role.Mid, shown.line),
        (role.Highlight, shown.accent),
        (role.HighlightedText, shown.on_accent),
        (role.Accent, shown.accent),
        (role.Link, shown.accent),
    ):
        palette.setColor(which, QColor(colour))
    faint = QPalette.ColorGroup.Disabled
    for which in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(faint, which, QColor(shown.faint))
    return palette


def _stylesheet(c: Colours) -> str:
    return f"""
    QFrame[card="true"] {{ background: {c.panel}; border: 1px solid {c.line};
        border-radius: 8px; }}
    QFrame[card="true"][live="true"] {{ border: 2px solid {c.accent}; }}
    QLabel[tone="dim"] {{ color: {c.dim}; }}
    QLabel[tone="good"] {{ color: {c.good}; }}
    QLabel[tone="accent"] {{ color: {c.accent}; }}
    QFrame[strip="warn"] {{ background: {c.warn}; border: 1px solid {c.on_warn};
        border-radius: 8px; }}
    QFrame[strip="warn"] QLabel, QLabel[tone="warn"] {{ color: {c.on_warn}; }}
    QPushButton, QToolButton {{ background: {c.raised}; border: 1px solid {c.line};
        border-radius: 6px; padding: 3px 9px; }}
    QPushButton:hover, QToolButton:hover {{ border-color: {c.accent}; }}
    QPushButton:focus, QToolButton:focus {{ border: 2px solid {c.accent}; padding: 2px 8px; }}
    QPushButton:pressed, QPushButton:checked, QToolButton:checked {{ background: {c.accent};
        color: {c.on_accent}; }}
    QPushButton:disabled, QToolButton:disabled {{ background: {c.panel}; }}
    QToolButton[flat="true"] {{ background: transparent; border: 1px solid transparent; }}
    QToolButton[flat="true"]:hover {{ border-color: {c.line}; }}
    QToolButton[flat="true"]:focus {{ border: 2px solid {c.accent}; }}
    QToolButton[tight="true"] {{ padding: 3px 1px; }}
    QDialogButtonBox {{ dialogbuttonbox-buttons-have-icons: 0; }}
    QLineEdit, QPlainTextEdit {{ background: {c.panel};
        border: 1px solid {c.line}; border-radius: 6px; padding: 3px 6px; }}
    QLineEdit:focus, QPlainTextEdit:focus,
    QTableView:focus, QListView:focus {{ border: 2px solid {c.accent}; }}
    QLineEdit[bare="true"], QLineEdit[bare="true"]:focus {{ background: transparent;
        border: none; padding: 0; }}
    QTableView, QListView {{ background: {c.panel}; border: 1px solid {c.line};
        border-radius: 8px; gridline-color: {c.line}; }}
    QHeaderView::section {{ background: {c.raised}; border: none; padding: 4px 8px; }}
    """
