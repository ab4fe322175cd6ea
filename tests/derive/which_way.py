"""Which way each figure must move with each of its inputs, by its formula and by physics."""

from __future__ import annotations

HOLES = "+inlet_hole_diameter +inlet_hole_count"
STRIP = "+media_length +media_width"
CAPS = "-media_length -media_width +media_hidden"
SHEET = "-media_mass +media_length +media_width +media_thickness +fibre_density"
OIL = "+oil_v40 +oil_v100 -oil_temperature"
DENSITY = "+oil_density +oil_density_at -oil_expansion"
LIQUID = "-alcohol_density -gravity"

WAYS = {
    "inlet_area": HOLES,
    "outlet_area": "+outlet_bore",
    "inlet_to_outlet": f"{HOLES} -outlet_bore",
    "thread_engagement": "+full_threads +thread_pitch +ends_of_thread",
    "thread_engagement_share": "+full_threads +thread_pitch +ends_of_thread -named_major",
    "thread_major_implied": "+outlet_bore +thread_pitch",
    "thread_basic_major": "+named_major",
    "thread_basic_pitch_diameter": "+named_major -named_pitch",
    "thread_basic_minor": "+named_major -named_pitch",
    "can_wall_from_diameters": "+can_diameter -can_inside",
    "can_diameter_over_wall": "+can_diameter -can_wall",
    "can_hoop_stress": "+can_pressure +can_diameter -can_wall",
    "can_yield_pressure": "+yield_strength -can_diameter +can_wall",
    "bypass_opening": "+bypass_force -bypass_seat",
    "hold_down_load": "+spring_load",
    "spring_rate_from_wire": "+spring_wire -spring_coil -spring_active_coils +shear_modulus",
    "tube_area_from_holes": "+tube_hole_diameter +tube_hole_count",
    "tube_to_outlet": "+tube_open_area -outlet_bore",
    "pleat_depth": "+media_length -pleat_count",
    "pleat_pitch_core": "+tube_outside -pleat_count",
    "pleat_pitch_outside": "+element_outside -pleat_count",
    "pleat_crowding": "+media_thickness +pleat_count -tube_outside",
    "exposed_area": f"{STRIP} -media_hidden",
    "whole_area": STRIP,
    "basis_weight": "+media_mass -media_length -media_width",
    "sheet_density": "+media_mass -media_length -media_width -media_thickness",
    "tips_to_flat": "+media_thickness_tips -media_thickness",
    "area_by_pleats": "+pleat_count +pleat_depth_gauge +media_width -media_hidden",
    "area_routes": "+pleat_count +pleat_depth_gauge -media_length",
    "solidity": "+media_mass -media_length -media_width -media_thickness -fibre_density",
    "porosity": SHEET,
    "permeability": "+media_thickness +media_air_flow -media_air_pressure +air_viscosity",
    "permeability_estimated": f"{SHEET} +fibre_width +fibre_width_share",
    "oil_kinematic_viscosity": OIL,
    "oil_viscosity": f"{OIL} {DENSITY}",
    "face_velocity": f"{CAPS} +flow",
    "pressure_drop": (
        f"{OIL} {DENSITY} {CAPS} +flow -media_air_flow +media_air_pressure -air_viscosity"
    ),
    # Thicker at the same weight is looser: t × α^1.5 falls as one over the root of t.
    "pressure_drop_estimated": (
        f"{OIL} {DENSITY} {CAPS} +flow +media_mass -media_thickness -fibre_density -fibre_width "
        "-fibre_width_share"
    ),
    "bubble_pressure": f"+bubble_point -bubble_depth {LIQUID}",
    "whole_bubble_pressure": f"+whole_bubble_point -whole_bubble_depth {LIQUID}",
    "bubble_diameter": ("-bubble_point +bubble_depth +alcohol_density +gravity +alcohol_tension"),
    "whole_bubble_diameter": (
        "-whole_bubble_point +whole_bubble_depth +alcohol_density +gravity +alcohol_tension"
    ),
    "area_per_price": f"{STRIP} -media_hidden -price",
    "price_per_area": f"{CAPS} +price",
    "price_per_year": "+price -claim_months",
    "claimed_ratio": "+claimed_percentage",
    "claimed_share": "+claimed_beta",
    "claimed_size_c": "+claimed_size",
}

NEITHER = {
    "spring_rate": "a slope through three pairs: which way one length moves it hangs on the others",
}
"""Figures that no single input moves one way, with the reason."""

STILL = {
    "thread_basic_major": "named_pitch",
    "hold_down_load": "spring_height spring_free_length",
    "price_per_year": "claim_distance km_per_year",
    "oil_kinematic_viscosity": "oil_at_40 oil_at_100 d341_offset",
    "oil_viscosity": "oil_at_40 oil_at_100 d341_offset",
    "pressure_drop": "oil_at_40 oil_at_100 d341_offset",
    "pressure_drop_estimated": "oil_at_40 oil_at_100 d341_offset",
}
"""Inputs looked at without being moved by, or that are the standard's own constants."""
