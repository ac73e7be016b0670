"""Quantities as a job file writes them, "1200 cfm", turned into SI numbers.

Factors: NIST SP 811. One inch of water is the conventional 249.08891 Pa; the
Btu is that of the International Table."""

import re

INCH = 0.0254
FOOT = 0.3048
INCH_OF_WATER = 249.08891
BTU = 1055.05585262
CFM = FOOT**3 / 60
FPM = FOOT / 60
TON = 12000 * BTU / 3600
YEAR = 365.25 * 86400
MONTH = YEAR / 12

FACTORS = {
    "length": {"in": INCH, "ft": FOOT, "mm": 1e-3, "cm": 1e-2, "m": 1},
    "airflow": {"cfm": CFM, "L/s": 1e-3, "m3/h": 1 / 3600, "m3/s": 1},
    "speed": {"fpm": FPM, "m/s": 1},
    "pressure": {"in. w.c.": INCH_OF_WATER, "Pa": 1, "mm w.c.": INCH_OF_WATER / 25.4, "kPa": 1e3},
    "power": {"W": 1, "kW": 1e3, "hp": 745.69987158227022},
    "capacity": {"ton": TON, "kW": 1e3, "W": 1, "Btu/h": BTU / 3600, "kBtu/h": BTU / 3.6},
    "area": {"in2": INCH**2, "ft2": FOOT**2, "cm2": 1e-4, "m2": 1},
    "mass": {"g": 1e-3, "kg": 1, "lb": 0.45359237, "oz": 0.45359237 / 16},
    "dust": {"g/day": 1e-3 / 86400, "g/h": 1e-3 / 3600, "kg/s": 1},
    "time": {"h": 3600, "day": 86400, "month": MONTH, "year": YEAR, "s": 1},
    "resistance": {"Pa s/m": 1, "in. w.c./fpm": INCH_OF_WATER / FPM},
    "permeability": {"cfm/ft2": CFM / FOOT**2, "L/s/m2": 1e-3, "m/s": 1},
    "money": {"$": 1},
    "price": {"$/kWh": 1 / 3.6e6, "cents/kWh": 0.01 / 3.6e6, "$/J": 1},
    "difference": {"F": 5 / 9, "K": 1},
}


def read(kind, text):
    """Gives the SI value of a quantity, or None where it is left open."""
    if text is None:
        return None
    number, unit = re.fullmatch(r"\s*([-+0-9.eE]+)\s*(.*?)\s*", text).groups()
    if kind == "temperature":
        return {"F": lambda t: (t + 459.67) / 1.8, "C": lambda t: t + 273.15, "K": float}[unit](float(number))
    return float(number) * FACTORS[kind][unit]
