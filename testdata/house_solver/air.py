"""Air: pressure at altitude, moist air, density and viscosity.

ISO 2533 (pressure, and the constants of Sutherland's law of viscosity); ASHRAE
Handbook Fundamentals ch. 1 (moist air, Hyland and Wexler's saturation pressure)."""

from math import exp, log

from scipy.optimize import brentq

STANDARD_DENSITY = 0.075 * 0.45359237 / 0.3048**3
RATIO = 0.621945  # molar masses of water and dry air
GAS = 287.042  # J/(kg K), dry air


def pressure_at(altitude):
    return 101325 * (1 - 2.25577e-5 * altitude) ** 5.25588


def saturation_pressure(t):
    """Pa over water or ice at t in K."""
    if t < 273.15:
        return exp(-5.6745359e3 / t + 6.3925247 - 9.6778430e-3 * t + 6.2215701e-7 * t**2
                   + 2.0747825e-9 * t**3 - 9.4840240e-13 * t**4 + 4.1635019 * log(t))
    return exp(-5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t**2
               - 1.4452093e-8 * t**3 + 6.5459673 * log(t))


def saturated_humidity(t, p):
    pws = saturation_pressure(t)
    return RATIO * pws / (p - pws)


def humidity_from_wet_bulb(dry, wet, p):
    """kg/kg, eq. 33 of that chapter (over liquid water)."""
    d, w = dry - 273.15, wet - 273.15
    return ((2501 - 2.326 * w) * saturated_humidity(wet, p) - 1.006 * (d - w)) / (2501 + 1.86 * d - 4.186 * w)


def enthalpy(t, humidity):
    """J per kg of dry air."""
    c = t - 273.15
    return 1e3 * (1.006 * c + humidity * (2501 + 1.86 * c))


def density(t, humidity, p):
    """Mass of moist air over its volume."""
    return (1 + humidity) * p / (GAS * t * (1 + 1.607858 * humidity))


def viscosity(t):
    return 1.458e-6 * t**1.5 / (t + 110.4)


def saturation_temperature(h, p):
    """Temperature at which saturated air has enthalpy h."""
    return brentq(lambda t: enthalpy(t, saturated_humidity(t, p)) - h, 235, 330)
