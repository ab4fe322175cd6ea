"""A check box can be seen, ticked or not, in the dark as in the light."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QCheckBox

from benchlog.window.theme import DARK, LIGHT, apply_theme, contrast


@pytest.mark.parametrize(("theme", "shown"), [("dark", DARK), ("light", LIGHT)])
@pytest.mark.parametrize("ticked", [False, True])
def test_rim_of_a_box_stands_out(qtbot, themed, theme, shown, ticked) -> None:
    apply_theme(themed, theme)
    box = QCheckBox()
    qtbot.addWidget(box)
    box.setChecked(ticked)
    box.show()
    picture = box.grab().toImage()
    seen = {
        picture.pixelColor(x, y).name()
        for x in range(picture.width())
        for y in range(picture.height())
    }
    apply_theme(themed, "dark")
    # WCAG 2.1, 1.4.11: what is needed to see a control has 3 : 1 against what lies beside it.
    rim = max(contrast(colour, shown.panel) for colour in seen)
    assert rim >= 3.0
