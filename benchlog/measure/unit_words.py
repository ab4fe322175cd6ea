"""The words and signs by which a unit may be said, each with the registry's name for it.

The registry never reads free text: to it `in`, `ct`, `gr` and `mil` are traps (a mil is an angle
there). Two spellings differ only by case where the trade needs it (mPa is not MPa).
"""

from __future__ import annotations

UNITS_SAID: dict[str, tuple[str, str]] = {
    "millimeter": ("length", "mm millimeter millimetre millimeters millimetres"),
    "centimeter": ("length", "cm centimeter centimetre centimeters centimetres"),
    "meter": ("length", "m meter metre meters metres"),
    "micrometer": ("length", "um micron microns micrometer micrometre micrometers micrometres"),
    "inch": ("length", 'in " inch inches'),
    "foot": ("length", "ft ' foot feet"),
    "yard": ("length", "yd yds yard yards"),
    "thou": ("length", "thou thous mil mils"),
    "kilometer": ("length", "km kms kilometer kilometre kilometers kilometres"),
    "mile": ("length", "mi mile miles"),
    "gram": ("mass", "g gm gms gram grams gramme grammes"),
    "kilogram": ("mass", "kg kgs kilo kilos kilogram kilograms"),
    "milligram": ("mass", "mg milligram milligrams"),
    "ounce": ("mass", "oz ozs ounce ounces"),
    "pound": ("mass", "lb lbs lbm pound pounds"),
    "carat": ("mass", "ct cts carat carats"),
    "grain": ("mass", "gr grs gn grain grains"),
    "pound_force_per_square_inch": ("pressure", "psi psig psid lbf/in2 lb/in2"),
    "kilopascal": ("pressure", "kpa kilopascal kilopascals"),
    "megapascal": ("pressure", "MPa megapascal megapascals"),
    "pascal": ("pressure", "pa pascal pascals"),
    "bar": ("pressure", "bar bars"),
    "millibar": ("pressure", "mbar millibar millibars"),
    "hectopascal": ("pressure", "hpa hectopascal hectopascals"),
    "force_kilogram / centimeter ** 2": ("pressure", "kgf/cm2 kg/cm2 kp/cm2"),
    "millimeter_Hg": ("pressure", "mmhg mm_hg torr"),
    "inch_Hg": ("pressure", "inhg in_hg"),
    "inch_H2O": (
        "pressure",
        'inh2o in_h2o "h2o "_h2o inwc in_wc inwg in_wg in_water in_of_water inaq in_aq',
    ),
    "millimeter_H2O": ("pressure", "mmh2o mm_h2o mmwc mm_wc mmwg mm_wg mm_water mm_of_water"),
    "centimeter_H2O": ("pressure", "cmh2o cm_h2o cmwc cm_wc cm_water cm_of_water"),
    "newton": ("force", "n newton newtons"),
    "force_pound": ("force", "lbf"),
    "force_ounce": ("force", "ozf"),
    "force_kilogram": ("force", "kgf kp"),
    "force_gram": ("force", "gf"),
    "millimeter ** 2": ("area", "mm2 sq_mm sqmm"),
    "centimeter ** 2": ("area", "cm2 sq_cm sqcm"),
    "decimeter ** 2": ("area", "dm2 sq_dm sqdm"),
    "meter ** 2": ("area", "m2 sq_m sqm"),
    "inch ** 2": ("area", "in2 sq_in sqin square_inch square_inches"),
    "foot ** 2": ("area", "ft2 sq_ft sqft square_foot square_feet"),
    "gram / meter ** 2": ("area_mass", "g/m2 gsm g/sqm g/sq_m"),
    "ounce / yard ** 2": ("area_mass", "oz/yd2 oz/sq_yd osy"),
    "gram / centimeter ** 3": ("density", "g/cm3 g/cc g/ml"),
    "kilogram / meter ** 3": ("density", "kg/m3"),
    "pound / foot ** 3": ("density", "lb/ft3"),
    "milliliter": ("volume", "ml cc cm3 milliliter millilitre milliliters millilitres"),
    "liter": ("volume", "l liter litre liters litres"),
    "milliliter / hour": ("volume_rate", "ml/h ml/hr ml/hour cc/h cc/hr cc/hour"),
    "milliliter / minute": ("volume_rate", "ml/min ml/minute cc/min"),
    "liter / hour": ("volume_rate", "l/h l/hr l/hour lph"),
    "liter / minute": ("volume_rate", "l/min l/minute lpm"),
    "gallon / minute": ("volume_rate", "us_gal/min gal/min gal/minute us_gpm gpm"),
    "gallon / hour": ("volume_rate", "us_gal/h gal/h gal/hr gal/hour us_gph gph"),
    "fluid_ounce / hour": ("volume_rate", "us_fl_oz/h fl_oz/h fl_oz/hr floz/h floz/hr"),
    "liter / meter ** 2 / second": ("face_flow", "l/m2/s l/m2s l/m2_s l/(m2_s)"),
    "millimeter / second": ("face_flow", "mm/s mm/sec"),
    "centimeter / second": ("face_flow", "cm/s cm/sec cm3/cm2/s"),
    "foot / minute": ("face_flow", "ft/min fpm cfm/ft2 ft3/min/ft2 ft3/ft2/min cfm/sq_ft"),
    "newton / millimeter": ("spring_rate", "n/mm"),
    "newton / centimeter": ("spring_rate", "n/cm"),
    "newton / meter": ("spring_rate", "n/m"),
    "force_kilogram / millimeter": ("spring_rate", "kgf/mm kg/mm"),
    "force_pound / inch": ("spring_rate", "lbf/in lb/in lbs/in"),
    "meter * newton": ("torque", "n_m nm newton_metre newton_metres"),
    "foot * force_pound": ("torque", "ft_lb ft_lbf ft-lb ft-lbf ftlb lbf_ft lb-ft"),
    "force_pound * inch": ("torque", "in_lb in_lbf in-lb in-lbf lbf_in"),
    "dimensionless": ("hardness", "shore_a shorea sha a point points pt pts"),
    "percent": ("ratio", "% percent per_cent pct"),
    "count": (
        "count",
        "count counts pc pcs piece pieces pleat pleats fold folds hole holes "
        "thread threads louvre louvres louver louvers tear tears ring rings spot spots",
    ),
    "turn": ("turn", "turn turns rev revs revolution revolutions"),
    "degree": ("angle", "deg degree degrees °"),
    "second": ("time", "s sec secs second seconds"),
    "minute": ("time", "min mins minute minutes"),
    "hour": ("time", "h hr hrs hour hours"),
    "day": ("time", "d day days"),
    "month": ("time", "mo month months"),
    "year": ("time", "yr yrs year years"),
    "degree_Celsius": ("temperature", "°c c degc deg_c celsius"),
    "degree_Fahrenheit": ("temperature", "°f f degf deg_f fahrenheit"),
    "kelvin": ("temperature", "k kelvin"),
}
"""Registry name to the dimension's word and the ways to say it (`_` stands for a space).

A gallon and a fluid ounce are those of the United States, and printed so: the imperial ones differ
by a fifth and by a twenty-fifth. Air through an area of cloth, cfm/ft², is a speed like any other.
"""

AS_FORCE = {
    "pound": "force_pound",
    "ounce": "force_ounce",
    "kilogram": "force_kilogram",
    "gram": "force_gram",
}
"""A force read off a scale is said in its units of mass: "0.83 kg" on a spring."""

AS_WATER = {
    "millimeter": "millimeter_H2O",
    "centimeter": "centimeter_H2O",
    "inch": "inch_H2O",
}
"""A pressure read off a water column is said as its height: "89 mm" where mmH2O is usual."""


def _by_word() -> dict[str, tuple[str, str]]:
    table: dict[str, tuple[str, str]] = {}
    for unit, (dimension, words) in UNITS_SAID.items():
        for word in words.split():
            table[word.replace("_", " ")] = (unit, dimension)
    return table


UNIT_WORDS = _by_word()
"""A unit as said, spaces single, to (registry name, dimension's word)."""


def unit_said(words: str, asked: str = "", usual_unit: str = "") -> tuple[str, str] | None:
    """Return (registry name, dimension's word) for a unit as said, None when nobody says that.

    The spelling is tried as it stands, then in small letters. `asked` is the dimension wanted:
    under "force", a unit of mass is the pull of that mass; under "pressure" with a water column
    for `usual_unit`, a length is the column's height.
    """
    spelt = " ".join(words.replace("*", " ").split()).replace(" per ", "/")
    spelt = "/".join(part.strip() for part in spelt.split("/"))
    for form in (spelt, spelt.lower(), spelt.lower().rstrip(".")):
        found = UNIT_WORDS.get(form)
        if found is not None:
            return _in_context(found, asked, usual_unit)
    return None


def _in_context(found: tuple[str, str], asked: str, usual_unit: str) -> tuple[str, str]:
    unit = found[0]
    if asked == "force" and unit in AS_FORCE:
        return AS_FORCE[unit], asked
    if asked == "pressure" and usual_unit in AS_WATER.values() and unit in AS_WATER:
        return AS_WATER[unit], asked
    return found
