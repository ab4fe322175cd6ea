"""A check value for every figure: what is typed, what must come out, and where that stands.

`tests/derive/test_every_figure_checked.py` works each through entry, readings and figures. A
number is held to `within`; a word must contain what is said here. Of an estimate between bounds
whose published value rests on one choice, `inside` is that value: the bounds must hold it.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from benchlog.trade.conditions import Conditions, usual_conditions
from tests.derive.oils import of_dynamic, oil


@dataclass(frozen=True)
class Check:
    """One check value. `within` is absolute, in `unit`."""

    typed: dict[str, str]
    wanted: float | str
    unit: str
    within: float
    source: str
    inside: float | None = None
    conditions: Conditions = field(default_factory=usual_conditions)


STRIP = {"media_length": "48.0 in", "media_width": "4.10 in", "media_hidden": "0.10 in"}
SHEET = {**STRIP, "media_mass": "21.4 g", "media_thickness": "0.64 mm", "media_kind": "cellulose"}
AIR = {"media_air_flow": "500 L/m2/s", "media_air_pressure": "200 Pa"}
HOLES = {"inlet_hole_count": "8", "inlet_hole_diameter": "6.00 mm"}
BORE = {"outlet_bore": "17.5 mm"}
TUBE = {"tube_hole_count": "60", "tube_hole_diameter": "5.00 mm"}
THREAD = {"thread_code": "3/4-16 UNF"}
CAN = {"can_diameter": "3.000 in", "can_wall": "0.015 in"}
BUBBLE = {"bubble_point": "1500 Pa", "bubble_depth": "12.5 mm"}
WHOLE_BUBBLE = {"whole_bubble_point": "1500 Pa", "whole_bubble_depth": "12.5 mm"}
PAIRS = {
    "spring_height": "20.0 mm",
    "spring_load": "40.0 N",
    "spring_second_length": "15.0 mm",
    "spring_second_load": "60.0 N",
}
VALVE = {"bypass_force": "1.000 kg", "bypass_seat": "12.0 mm"}

WORKED = "worked strip, 48.0 x 4.10 in, 21.4 g, 0.64 mm: calculated by hand and uncertainties 3.2.3"
CIRCLE = "geometry of a circle, by hand"
B1_1 = "ASME B1.1 constants; row of 3/4-16 UNF in a tap maker's table"
DAVIES = "Davies 1952 with the whole width of 20 um, calculated; half to all of it may count"
CAPILLARY = "D = 4 x 21.32 mN/m (Jasper 1972, 20 °C) / 1403.77 Pa: 60.751 um; 21.3 is the middle"
HEAD = "hydrostatics: 12.5 mm of 785 kg/m3 press 96.23 Pa, calculated"
ISO_16889 = "ISO 16889: E = 100 (1 - 1/b)"

CHECKS: dict[str, list[Check]] = {
    "inlet_area": [Check(HOLES, 226.195, "mm**2", 0.001, CIRCLE)],
    "outlet_area": [Check(BORE, 240.528, "mm**2", 0.001, CIRCLE)],
    "inlet_to_outlet": [Check({**HOLES, **BORE}, 0.94041, "", 1e-5, CIRCLE)],
    "inlet_ample": [
        Check({**HOLES, "outlet_bore": "10.0 mm"}, "Ample", "", 0, "2.88 times; common practice"),
    ],
    "tube_area_from_holes": [Check(TUBE, 1178.097, "mm**2", 0.001, CIRCLE)],
    "tube_to_outlet": [Check({**TUBE, **BORE}, 4.8980, "", 1e-4, CIRCLE)],
    "tube_ample": [Check({**TUBE, **BORE}, "Ample", "", 0, "4.9 times; common practice")],
    "thread_candidates": [
        Check(
            {"outlet_bore": "18.5 mm", "thread_pitch": "1.50 mm"},
            "M20 × 1.5",
            "",
            0,
            "minor diameter 18.376 to 18.676 mm: M20x1.5, 6H, ISO 965-1, calculated",
        )
    ],
    "thread_engagement": [
        Check({"full_threads": "6", "thread_pitch": "1/16 in"}, 9.525, "mm", 1e-6, "by hand"),
        Check({"full_threads": "5", "thread_pitch": "1.5 mm"}, 7.5, "mm", 1e-6, "by hand"),
    ],
    "thread_engagement_share": [
        Check({**THREAD, "full_threads": "6"}, 0.5, "", 1e-6, "9.525 of 19.05 mm, by hand")
    ],
    "thread_major_implied": [
        Check({"outlet_bore": "17.330 mm", "thread_pitch": "1.5875 mm"}, 19.05, "mm", 0.002, B1_1)
    ],
    "thread_basic_major": [Check(THREAD, 19.050, "mm", 0.0005, B1_1)],
    "thread_basic_pitch_diameter": [Check(THREAD, 18.019, "mm", 0.0005, B1_1)],
    "thread_basic_minor": [Check(THREAD, 17.330, "mm", 0.0015, B1_1)],
    "can_wall_from_diameters": [
        Check({"can_diameter": "76.20 mm", "can_inside": "75.44 mm"}, 0.38, "mm", 1e-9, "by hand")
    ],
    "can_diameter_over_wall": [Check(CAN, 200.0, "", 1e-6, "by hand")],
    "can_hoop_stress": [
        Check(
            CAN,
            10_000.0,
            "psi",
            0.01,
            "Shigley, Roark: s = p D / 2 t at 100 psi, from memory and calculated",
            conditions=replace(usual_conditions(), can_pressure_kpa=689.4757293168),
        )
    ],
    "can_yield_pressure": [
        Check(
            {"can_diameter": "76.2 mm", "can_wall": "0.38 mm"},
            303.8,
            "psi",
            0.1,
            "Barlow with 210 MPa, the middle of EN 10130's drawing steels; 202.5 psi at 140 MPa",
            inside=202.6,
        )
    ],
    "bypass_opening": [
        Check(VALVE, 12.576, "psi", 0.001, "1 kg x 9.80665 m/s2 (CGPM 1901) over 113.097 mm2")
    ],
    "bypass_agreement": [
        Check(
            {**VALVE, "bypass_marked": "12-13 psi"},
            "Force lies in the marked range",
            "",
            0,
            "12.576 psi lies between 12 and 13",
        )
    ],
    "spring_rate": [Check(PAIRS, 4.0, "N/mm", 1e-9, "20 N over 5 mm, by hand")],
    "hold_down_load": [
        Check({"spring_load": "9.0 lbf"}, 40.03399, "N", 1e-4, "NIST SP 811 B.8: 4.448222 N"),
    ],
    "spring_rate_from_wire": [
        Check(
            {"spring_wire": "0.037 in", "spring_coil": "0.437 in", "spring_active_coils": "10.5"},
            4.1311 * 75.5 / 81.7029,
            "lbf/in",
            0.0005,
            "Shigley, example 10-1 with 11.85e6 psi: 4.1311 lbf/in, from memory and calculated",
            inside=4.1311,
        )
    ],
    "pleat_depth": [
        Check({"media_length": "48.0 in", "pleat_count": "52"}, 11.723, "mm", 5e-4, WORKED)
    ],
    "pleat_pitch_core": [
        Check({"tube_outside": "30.0 mm", "pleat_count": "60"}, 1.5708, "mm", 5e-5, CIRCLE)
    ],
    "pleat_pitch_outside": [
        Check({"element_outside": "70.0 mm", "pleat_count": "60"}, 3.6652, "mm", 5e-5, CIRCLE)
    ],
    "pleat_crowding": [
        Check(
            {"tube_outside": "30.0 mm", "pleat_count": count, "media_thickness": thick},
            wanted,
            "",
            5e-5,
            "2 t N / (pi D), calculated",
        )
        for count, thick, wanted in (
            ("60", "0.70 mm", 0.8913),
            ("52", "0.90 mm", 0.9931),
            ("44", "1.20 mm", 1.1205),
        )
    ],
    "exposed_area": [
        Check(STRIP, 192.000, "in**2", 5e-4, WORKED),
        Check(STRIP, 1238.71, "cm**2", 5e-3, WORKED),
    ],
    "whole_area": [Check(STRIP, 1269.67, "cm**2", 5e-3, WORKED)],
    "basis_weight": [
        Check(SHEET, 168.547, "g/m**2", 5e-4, WORKED),
        Check(
            {"media_length": "100 mm", "media_width": "100 mm", "media_mass": "1.25 g"},
            125.0,
            "g/m**2",
            1e-6,
            "ISO 536, a sheet of 100 cm2, by hand",
        ),
    ],
    "sheet_density": [Check(SHEET, 263.355, "kg/m**3", 5e-4, WORKED)],
    "tips_to_flat": [
        Check(
            {"media_thickness_tips": "0.60 mm", "media_thickness": "0.80 mm"},
            0.75,
            "",
            1e-9,
            "by hand",
        )
    ],
    "area_by_pleats": [
        Check(
            {
                "pleat_count": "50",
                "pleat_depth_gauge": "12.0 mm",
                "media_exposed_width": "55.0 mm",
            },
            660.0,
            "cm**2",
            1e-6,
            "2 x 50 x 12 x 55 mm, by hand",
        )
    ],
    "area_routes": [
        Check(
            {"pleat_count": "51", "pleat_depth_gauge": "12.0 mm", "media_length": "1200 mm"},
            2.0,
            "percent",
            1e-6,
            "one pleat of fifty, by hand",
        )
    ],
    "solidity": [Check(SHEET, 0.17326, "", 1e-5, WORKED + "; Morton and Hearle 5.1")],
    "porosity": [Check(SHEET, 0.82674, "", 1e-5, WORKED + "; Morton and Hearle 5.1")],
    "permeability": [
        Check(
            {**AIR, "media_thickness": "0.64 mm"},
            29.120,
            "um**2",
            5e-4,
            "Darcy with air of 1.82e-5 Pa s, calculated",
        )
    ],
    "permeability_estimated": [
        Check(
            {**SHEET, "fibre_width": "20 µm"}, 67.115 * 0.75**2, "um**2", 5e-3, DAVIES, inside=67.1
        )
    ],
    "oil_kinematic_viscosity": [
        Check({}, 8.5332, "mm**2/s", 5e-5, "ASTM D341, 32/5.4", conditions=oil(32, 5.4, 80)),
        Check({}, 16.781, "mm**2/s", 5e-4, "ASTM D341, 62/10.5", conditions=oil(62, 10.5, 80)),
    ],
    "oil_viscosity": [
        Check(
            {},
            13.592,
            "mPa*s",
            5e-3,
            "16.781 mm2/s x 850 kg/m3 x (1 - 7.25e-4 x 65), by hand",
            conditions=oil(62, 10.5, 80),
        )
    ],
    "face_velocity": [Check(STRIP, 4.0365, "mm/s", 5e-5, "5.0e-4 m3/s over 0.123871 m2")],
    "pressure_drop": [
        Check({**STRIP, **AIR}, 771.8, "Pa", 0.1, "Darcy, calculated", conditions=of_dynamic(8.7))
    ],
    "pressure_drop_estimated": [
        Check(
            {**SHEET, "fibre_width": "20 µm"},
            384.91 / 0.75**2,
            "Pa",
            0.05,
            DAVIES + "; 10 mPa s",
            inside=385.0,
            conditions=of_dynamic(10.0),
        )
    ],
    "bubble_pressure": [Check(BUBBLE, 1403.77, "Pa", 0.02, HEAD)],
    "whole_bubble_pressure": [Check(WHOLE_BUBBLE, 1403.77, "Pa", 0.02, HEAD)],
    "bubble_diameter": [
        Check(BUBBLE, 60.751 * 21.3 / 21.32, "um", 0.005, CAPILLARY, inside=60.751)
    ],
    "whole_bubble_diameter": [
        Check(WHOLE_BUBBLE, 60.751 * 21.3 / 21.32, "um", 0.005, CAPILLARY, inside=60.751)
    ],
    "area_per_price": [Check(STRIP, 1238.71 / 12.5, "cm**2/money", 5e-4, WORKED)],
    "price_per_area": [Check(STRIP, 12.5 / 12.3871, "money/dm**2", 5e-5, WORKED)],
    "price_per_year": [
        Check({"claim_months": "24"}, 6.25, "money/year", 1e-6, "half of 12.50, by hand"),
        Check({"claim_distance": "30000 km"}, 6.25, "money/year", 1e-6, "15 000 km a year"),
    ],
    "claimed_ratio": [Check({"claim_percent": "99 %"}, 100.0, "", 0.01, ISO_16889, inside=66.8)],
    "claimed_share": [Check({"claim_ratio": "75"}, 98.667, "percent", 5e-4, ISO_16889)],
    "claimed_size_c": [
        Check(
            {"claim_size": "20", "claim_size_scale": "3"},
            17.5,
            "um",
            0.01,
            "pairs of ISO 4402 and ISO 11171 sizes, a maker's technical reference",
        )
    ],
    "claim_stands": [
        Check({"claim_percent": "99"}, "incomplete", "", 0, "ISO 4548-12: size and standard"),
        Check(
            {
                "claim_percent": "99 %",
                "claim_size": "20",
                "claim_size_scale": "um_c",
                "claim_standard": "iso_4548_12",
            },
            "99 % at 20 µm(c), ISO 4548-12",
            "",
            0,
            "ISO 4548-12: percentage, size, scale and standard",
        ),
    ],
    "capacity_stands": [
        Check({"claim_grams": "18 g"}, "incomplete", "", 0, "ISO 4548-12: end pressure"),
        Check(
            {
                "claim_grams": "18 g",
                "claim_end_pressure": "100 kPa",
                "claim_standard": "iso_4548_12",
            },
            "18 g up to 100 kPa, ISO 4548-12",
            "",
            0,
            "ISO 4548-12: grams, end pressure and standard",
        ),
    ],
    **{
        f"{part}_rubber": [
            Check(
                {f"{part}_material": "nbr", f"{part}_material_by": "data_sheet"},
                "Nitrile (NBR)",
                "",
                0,
                "ISO 1629 symbol",
            )
        ]
        for part in ("gasket", "adbv", "o_ring")
    },
    **{
        f"{part}_service": [
            Check(
                {f"{part}_material": "fkm", f"{part}_material_by": "data_sheet"},
                "−20 °C up to 200 to 250 °C",
                "",
                0,
                "rubber makers' tables; 200 °C from memory",
            )
        ]
        for part in ("gasket", "adbv", "o_ring")
    },
}

REASONS: dict[str, str] = {}
"""Figures without a check value, each with the reason: none at present."""
