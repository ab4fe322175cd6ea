"""The three invented specimens, as far as a picture shows them. Lengths in millimetres."""

from __future__ import annotations

from dataclasses import dataclass

Colour = tuple[int, int, int]

STEEL: Colour = (176, 180, 184)
DARK_STEEL: Colour = (120, 124, 130)
RUBBER: Colour = (44, 44, 47)
SHADE: Colour = (22, 22, 25)


@dataclass(frozen=True)
class Model:
    """What one specimen looks like."""

    key: str
    enamel: Colour
    band: Colour
    lettering: Colour
    media: Colour
    cap: Colour
    cap_is_card: bool
    valve: Colour
    holes: int
    pleats: int
    can_diameter: float
    can_height: float
    element_diameter: float
    element_height: float
    strip_width: float
    strip_length: float
    spring_turns: float
    fibre_um: tuple[float, float]
    """Thinnest and thickest fibre in the close-up, micrometres."""
    seed: int

    @property
    def nickname(self) -> str:
        return self.key.capitalize()


MODELS = (
    Model(
        key="amber",
        enamel=(214, 129, 28),
        band=(58, 44, 34),
        lettering=(250, 214, 150),
        media=(203, 171, 120),
        cap=STEEL,
        cap_is_card=False,
        valve=(196, 88, 40),
        holes=8,
        pleats=60,
        can_diameter=93.0,
        can_height=122.0,
        element_diameter=72.0,
        element_height=95.0,
        strip_width=93.5,
        strip_length=1422.4,
        spring_turns=4.0,
        fibre_um=(12.0, 34.0),
        seed=11,
    ),
    Model(
        key="cobalt",
        enamel=(38, 76, 158),
        band=(232, 234, 238),
        lettering=(30, 58, 122),
        media=(231, 226, 210),
        cap=(196, 160, 108),
        cap_is_card=True,
        valve=(40, 40, 43),
        holes=6,
        pleats=55,
        can_diameter=93.0,
        can_height=126.0,
        element_diameter=73.0,
        element_height=100.0,
        strip_width=98.6,
        strip_length=1371.6,
        spring_turns=3.0,
        fibre_um=(7.0, 30.0),
        seed=23,
    ),
    Model(
        key="moss",
        enamel=(76, 104, 58),
        band=(196, 204, 178),
        lettering=(48, 66, 38),
        media=(198, 203, 206),
        cap=DARK_STEEL,
        cap_is_card=False,
        valve=(58, 74, 96),
        holes=8,
        pleats=45,
        can_diameter=94.0,
        can_height=124.0,
        element_diameter=76.0,
        element_height=100.0,
        strip_width=98.8,
        strip_length=1346.2,
        spring_turns=5.0,
        fibre_um=(5.0, 16.0),
        seed=37,
    ),
)
