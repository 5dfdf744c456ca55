"""How people write units: spellings in daily use, and words that mean more than one unit."""

from __future__ import annotations

import math
from typing import Literal

G0 = 9.80665
"""Standard gravity [m/s2]; CGPM 1901."""

INCH, FOOT, POUND = 0.0254, 0.3048, 0.45359237

Kind = Literal[
    "length",
    "diameter",
    "mass",
    "force",
    "moment",
    "pressure",
    "angle",
    "slope",
    "area",
    "volume",
    "density",
    "acceleration",
    "speed",
    "ratio",
    "turn rate",
    "time",
    "voltage",
    "bearing",
    "thickness",
    "creep",
    "slow speed",
]

_PSI = POUND * G0 / INCH**2
DEGREE = math.pi / 180
"""[rad]"""

TABLE: dict[str, dict[str, float]] = {
    "length": {
        "m": 1.0, "metre": 1.0, "metres": 1.0, "meter": 1.0, "meters": 1.0,
        "cm": 0.01, "centimetre": 0.01, "centimetres": 0.01, "mm": 0.001, "millimetre": 0.001,
        "millimetres": 0.001, "ft": FOOT, "foot": FOOT, "feet": FOOT, "in": INCH, "inch": INCH,
        "inches": INCH, "yd": 3 * FOOT, "yard": 3 * FOOT, "yards": 3 * FOOT,
    },
    "mass": {
        "kg": 1.0, "kilogram": 1.0, "kilograms": 1.0, "kilo": 1.0, "kilos": 1.0, "g": 0.001,
        "t": 1000.0, "tonne": 1000.0, "tonnes": 1000.0, "lb": POUND, "lbs": POUND,
        "pound": POUND, "pounds": POUND,
    },
    "force": {
        "N": 1.0, "newton": 1.0, "newtons": 1.0, "kN": 1000.0, "kgf": G0, "lbf": POUND * G0,
    },
    "moment": {
        "Nm": 1.0, "N·m": 1.0, "kNm": 1000.0, "kN·m": 1000.0, "lbfft": POUND * G0 * FOOT,
        "lbf·ft": POUND * G0 * FOOT, "lbft": POUND * G0 * FOOT, "ftlb": POUND * G0 * FOOT,
    },
    "pressure": {
        "Pa": 1.0, "kPa": 1e3, "MPa": 1e6, "bar": 1e5, "psi": _PSI,
    },
    "angle": {
        "deg": DEGREE, "degree": DEGREE, "degrees": DEGREE, "°": DEGREE, "rad": 1.0,
    },
    "area": {"m2": 1.0, "m²": 1.0, "cm2": 1e-4, "cm²": 1e-4, "ft2": FOOT**2, "ft²": FOOT**2},
    "volume": {
        "m3": 1.0, "m³": 1.0, "ft3": FOOT**3, "ft³": FOOT**3, "l": 0.001, "L": 0.001,
        "litre": 0.001, "litres": 0.001,
    },
    "density": {
        "kg/m3": 1.0, "kg/m³": 1.0, "lb/ft3": POUND / FOOT**3, "lb/ft³": POUND / FOOT**3,
    },
    "acceleration": {"m/s2": 1.0, "m/s²": 1.0},
    "speed": {"m/s": 1.0, "km/h": 1 / 3.6, "kph": 1 / 3.6, "mph": 1609.344 / 3600},
    "ratio": {"%": 0.01, "percent": 0.01},
    "turn rate": {"deg/s": DEGREE, "°/s": DEGREE, "rad/s": 1.0, "rpm": math.tau / 60},
    "time": {"s": 1.0, "sec": 1.0, "second": 1.0, "seconds": 1.0},
    "creep": {"mm/min": 0.001 / 60, "cm/min": 0.01 / 60, "in/min": INCH / 60, "m/s": 1.0},
    "voltage": {"V": 1.0, "volt": 1.0, "volts": 1.0, "kV": 1000.0},
}  # fmt: skip

EXAMPLES: dict[str, str] = {
    "length": '"4.2 m", "420 cm" or "13 ft 6 in"',
    "diameter": '"55 cm", "22 in" or "girth 173 cm"',
    "mass": '"850 kg", "1.2 tonne" or "1870 lb"',
    "force": '"12 kN" or "2700 lbf"',
    "moment": '"40 kNm"',
    "pressure": '"200 bar", "20 MPa" or "2900 psi"',
    "angle": '"30 deg" or "-15°"',
    "slope": '"3 deg", "5 %" or "1 in 20"',
    "area": '"0.36 m2" or "4 ft2"',
    "volume": '"0.85 m3" or "30 ft3"',
    "density": '"900 kg/m3" or "56 lb/ft3"',
    "acceleration": '"1.5 m/s2"',
    "speed": '"6 km/h" or "4 mph"',
    "ratio": '"85 %" or "0.85"',
    "turn rate": '"20 deg/s"',
    "time": '"1.5 s"',
    "voltage": '"11 kV"',
    "creep": '"20 mm/min" or "0.8 in/min"',
}

_TON = 'a short ton is 907 kg, a long ton 1016 kg; write "tonne" for 1000 kg, or kg or lb'
_HUNDREDWEIGHT = "a hundredweight is 45.4 kg or 50.8 kg by country; write kg or lb"
AMBIGUOUS: dict[str, str] = {
    "ton": _TON,
    "tons": _TON,
    "cwt": _HUNDREDWEIGHT,
    "hundredweight": _HUNDREDWEIGHT,
    "T": 'write "t" or "tonne" for 1000 kg',
    "M": 'write "m" for metres',
    "kt": "a kt is a knot or a kilotonne; write km/h, or tonne",
    "g-force": "write m/s2",
}
