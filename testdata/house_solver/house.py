"""A whole house: return branches in parallel, then the central filter, coil and
supply in series, against a blower table; then dust, month by month, and money.

Continuity of air and pressure; the table read by a monotone cubic (Fritsch and
Carlson), scaled for density by the fan laws; the operating point by Brent's
bracketed root. Cooling coil by apparatus dew point and bypass factor, with the
default direct-expansion coil of an open building-energy reference."""

from math import exp, log
from types import SimpleNamespace

from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

import air
from parts import Filter, Run, crack_flow, fitting_constant, grille_constant
from quantities import CFM, INCH, TON, YEAR, read

DUST = {"low": 0.6, "ordinary": 1.2, "pets": 2.4, "works": 10.0}  # g a day of running, invented



class Blower:
    """One tap: airflow and watts over static, for the density of the house."""

    def __init__(self, tap, ratio, speed=1.0):
        static = [read("pressure", p["external_static"]) * speed**2 for p in tap["points"]]
        flow = [read("airflow", p["airflow"]) * speed for p in tap["points"]]
        watts = [read("power", p["power"]) * speed**3 for p in tap["points"]]
        self.ratio = ratio
        self.low, self.high = static[0] * ratio, static[-1] * ratio
        self._flow, self._watts = PchipInterpolator(static, flow), PchipInterpolator(static, watts)
        self.least, self.most = min(flow), max(flow)

    def flow(self, static):
        return float(self._flow(static / self.ratio))

    def watts(self, static):
        return float(self._watts(static / self.ratio)) * self.ratio


class Branch:
    """Grille, its filter, fittings and runs from a room to the return plenum."""

    def __init__(self, data, filters, laws, here):
        runs = data.get("runs", [])
        self.name = data.get("name", "")
        grille = data.get("grille")
        self.grille = grille_constant(grille, here) if grille else 0.0
        self.runs = [Run(r, here) for r in runs]
        self.fittings = sum(fitting_constant(f, runs[0] if runs else None, here) for f in data.get("fittings", []))
        self.filter = None
        if "filter" in data:
            w, h = read("length", grille["width"]), read("length", grille["height"])
            self.filter = Filter(filters[data["filter"]], w, h, here, laws.get(data["filter"]))
        self.guess = 0.1

    def filter_drop(self, q):
        return self.filter.drop(q / self.filter.face) if self.filter else 0.0

    def drop(self, q):
        return (self.grille + self.fittings) * q * q + sum(r.drop(q) for r in self.runs) + self.filter_drop(q)

    def flow(self, suction):
        """q of drop(q) = suction, by Newton from the last answer."""
        if suction <= 0:
            return 0.0
        q = self.guess
        for _ in range(20):
            d, step = self.drop(q), q * 1e-5
            slope = (self.drop(q + step) - d) / step
            move = (suction - d) / slope
            q = max(q + move, q / 4)
            if abs(move) < 1e-10 * q:
                self.guess = q
                return q
        # Where laminar flow turns over, Newton swings to and fro.
        self.guess = brentq(lambda q: self.drop(q) - suction, 0, 100)
        return self.guess


class UsualReturn:
    """Where no return is described: a fifth of the rated static at the design
    airflow, square law; common practice, no source."""

    filter, name = None, ""

    def __init__(self, rated_static, design):
        self.constant = 0.2 * rated_static / design**2
        self.guess = 0.0

    def flow(self, suction):
        self.guess = (max(suction, 0) / self.constant) ** 0.5
        return self.guess

    def filter_drop(self, q):
        return 0.0


class Slot:
    """The central filter place, with the gap round its frame."""

    def __init__(self, data, filters, laws, here):
        self.here = here
        self.width, self.height = read("length", data["width"]), read("length", data["height"])
        self.face = self.width * self.height
        self.entry = data.get("entry_coefficient", 0) * here.density / 2 / self.face**2
        self.gap = read("length", data.get("gap")) or 0.0
        self.bends = data.get("gap_bends", 0)
        self.cover = read("length", data.get("edge_cover")) or INCH / 2
        self.filter = Filter(filters[data["filter"]], self.width, self.height, here, laws.get(data["filter"]))
        make = self.filter.make
        nominal = read("length", make["width"])
        self.clearance = (nominal - (read("length", make.get("actual_width")) or nominal - INCH / 2)) / 2

    def leak(self, drop):
        """Flow round the frame. Each edge is drawn in by (4/3) w^2/L, a parabola
        over the short span; the path shortens by that. An edge drawn in past its
        cover has left its seat: the gap is then the bow."""
        w = self.filter.bow(drop, self.width, self.height)
        drawn = 4 / 3 * w * w / min(self.width, self.height)
        gap = self.gap
        if drawn + self.clearance > self.cover:
            gap = max(gap, w)
        return crack_flow(drop, gap, 2 * (self.width + self.height), self.filter.depth - drawn, self.bends, self.here)

    def state(self, q):
        """Drop over the filter and leak share at total flow q."""
        if self.gap == 0:
            return self.filter.drop(q / self.face), 0.0

        def excess(drop):
            passed = q - self.leak(drop)
            return self.filter.drop(passed / self.face) - drop
        top = self.filter.drop(q / self.face)
        low = 0.9 * top if excess(0.9 * top) > 0 else 0.01 * top
        drop = brentq(excess, low, top, xtol=1e-8, rtol=1e-11)
        return drop, self.leak(drop) / q


class House:
    """One option of a job, in cooling or heating."""

    def __init__(self, job, option, laws):
        site, self.equipment, self.limits = job["site"], job["equipment"], job["limits"]
        self.site = site
        # ISO 2533 counts geopotential height.
        z = read("length", site.get("altitude", "0 m"))
        self.pressure = air.pressure_at(6356766 * z / (6356766 + z))
        self.dry, wet = read("temperature", site["indoor_dry_bulb"]), read("temperature", site["indoor_wet_bulb"])
        self.wet = wet
        self.humidity = air.humidity_from_wet_bulb(self.dry, wet, self.pressure)
        self.here = SimpleNamespace(density=air.density(self.dry, self.humidity, self.pressure), viscosity=air.viscosity(self.dry))
        self.ratio = self.here.density / air.STANDARD_DENSITY
        filters = {f["name"]: f for f in job.get("filters", [])}
        slot = dict(option.get("slot") or job.get("slot") or {"none": True})
        returns = [dict(r) for r in option.get("returns") or job.get("returns", [])]
        if "filter" in option:
            slot["filter"] = option["filter"]
            for r in returns:
                if "filter" in r:
                    r["filter"] = option["filter"]
        self.branches = [Branch(r, filters, laws, self.here) for r in returns]
        self.slot = None if slot.get("none") or "filter" not in slot else Slot(slot, filters, laws, self.here)
        self.places = [b.filter for b in self.branches if b.filter] + ([self.slot.filter] if self.slot else [])
        self.design = read("airflow", job["design_airflow"])
        if not self.branches:
            self.branches = [UsualReturn(read("pressure", self.equipment["rated_external_static"]), self.design)]
        self.coil, self.supply = self._part(job.get("coil"), 1.8), self._part(job.get("supply"), 2)
        table = self.equipment["blower"]
        self.includes = table.get("includes", [])
        # A table measured with a filter in place holds the drop of a clean
        # throw-away one, MERV 4, of a size usual for the design airflow: invented,
        # and a Study lists it with what it assumes.
        self.included = lambda q: 0.0
        if "filter" in self.includes:
            cfm = self.design / CFM
            size = ("16 in", "20 in") if cfm < 900 else ("16 in", "25 in") if cfm < 1400 else ("20 in", "25 in")
            face = {"width": size[0], "height": size[1]}
            clean = Filter({**face, "depth": "1 in", "merv": 4, "bracing": "none", "dust_capacity": "1 g", "final_drop": "100 Pa"},
                           read("length", face["width"]), read("length", face["height"]), self.here)
            self.included = lambda q: clean.clean(q / clean.face)
        taps = {t["name"]: t for t in table["taps"]}
        speed = option.get("speed_ratio", 1)
        self.last = {}
        self.cooling = Blower(taps[option.get("tap", table["cooling_tap"])], self.ratio, speed)
        self.heating = Blower(taps[table["heating_tap"]], self.ratio, speed)
        self.fan = Blower(taps[table.get("fan_tap", table["cooling_tap"])], self.ratio, speed)

    def _part(self, part, exponent):
        if not part:
            return None
        drop, flow = read("pressure", part["drop"]), read("airflow", part.get("airflow")) or self.design
        n = part.get("exponent", exponent)
        return lambda q: drop * (q / flow) ** n

    def _after_returns(self, q, heating):
        s = SimpleNamespace(filter=0.0, leak=0.0, entry=0.0, coil=0.0, coil_held=0.0)
        if self.slot:
            s.filter, s.leak = self.slot.state(q)
            s.entry = self.slot.entry * q * q
        if self.coil:
            wet = self.coil(q)
            s.coil = wet * (self.equipment.get("coil_dry_share", 0.8) if heating else 1)
            # In the table a wet coil is not external, and where it is dry the table
            # holds more than there is. Inside an air handler it never is external.
            if "wet_coil" in self.includes:
                s.coil_held = wet
            elif self.equipment["kind"] == "air_handler":
                s.coil_held = s.coil
        s.supply = self.supply(q)
        return s

    def point(self, blower, heating=False):
        """The operating point: the plenum suction at which the blower, at the
        static that the house then asks, moves just the air that the branches pass."""
        def at(suction):
            q = sum(b.flow(suction) for b in self.branches)
            s = self._after_returns(q, heating)
            s.airflow, s.suction = q, suction
            s.static = suction + s.entry + s.coil - s.coil_held + s.supply
            s.branch_filter = sum(b.filter_drop(b.guess) * b.guess for b in self.branches) / q
            s.static += s.filter - self.included(q)
            return s
        def excess(p):
            s = at(p)
            return blower.flow(min(max(s.static, blower.low), blower.high)) - s.airflow
        low, high = 0.05, 2500
        if blower in self.last:  # the dust since the last point moved it a little
            a, b = 0.95 * self.last[blower], 1.05 * self.last[blower]
            if excess(a) > 0 > excess(b):
                low, high = a, b
        self.last[blower] = brentq(excess, low, high, xtol=1e-8, rtol=1e-11)
        s = at(self.last[blower])
        s.inside = blower.low <= s.static <= blower.high
        s.flows = [b.guess for b in self.branches]
        # Share of the air that passes no filter: round the central one's frame, or
        # through the branches that have none.
        if self.places and not self.slot:
            s.leak = sum(q for b, q in zip(self.branches, s.flows) if not b.filter) / s.airflow
        s.watts = blower.watts(s.static)
        s.ports = [-s.suction, -(s.suction + s.entry + s.filter), s.coil + s.supply, s.supply]
        return s

    def rise(self, airflow):
        """Temperature rise: heating output into moist air at 30 % humidity."""
        t = read("temperature", self.site["heating_indoor"])
        pv = 0.3 * air.saturation_pressure(t)
        w = air.RATIO * pv / (self.pressure - pv)
        cp = (1006 + 1860 * w) / (1 + w)
        output = read("capacity", self.equipment["heating_output"])
        return output / (air.density(t, w, self.pressure) * cp * airflow)

    # The cooling coil -----------------------------------------------------

    def _coil_ntu_mass(self):
        """NTU times mass flow, a constant of the coil, from its rating: 400 cfm
        a ton at sea level, entering at 80 F dry and 67 F wet bulb."""
        capacity, shr = read("capacity", self.equipment["cooling_capacity"]), self.equipment["sensible_heat_ratio"]
        dry, wet, p = read("temperature", "80 F"), read("temperature", "67 F"), 101325
        w = air.humidity_from_wet_bulb(dry, wet, p)
        mass = air.density(dry, w, p) * capacity / TON * 400 * CFM / (1 + w)
        h = air.enthalpy(dry, w)
        leaving = h - capacity / mass
        c = dry - 273.15
        w2 = ((h - (1 - shr) * capacity / mass) / 1e3 - 1.006 * c) / (2501 + 1.86 * c)
        t2 = (leaving / 1e3 - 2501 * w2) / (1.006 + 1.86 * w2) + 273.15
        adp = brentq(lambda t: w + (w2 - w) * (t - dry) / (t2 - dry) - air.saturated_humidity(t, p), t2 - 15, t2)
        h3 = air.enthalpy(adp, air.saturated_humidity(adp, p))
        return -log((leaving - h3) / (h - h3)) * mass, mass

    def sensible(self, airflow):
        """Sensible capacity in W at the airflow, in the house's air."""
        ntu_mass, rated = self._coil_ntu_mass()
        mass = self.here.density * airflow / (1 + self.humidity)
        capacity = read("capacity", self.equipment["cooling_capacity"])
        # 1.4 % for each degree Fahrenheit of wet bulb off the rating: common practice, no source.
        wet = 1 - 0.014 * (read("temperature", "67 F") - self.wet) * 1.8
        total = capacity * (0.8 + 0.2 * mass / rated) * wet
        h = air.enthalpy(self.dry, self.humidity)
        bypass = exp(-ntu_mass / mass)
        h3 = h - total / mass / (1 - bypass)
        adp = air.saturation_temperature(h3, self.pressure)
        w3 = air.saturated_humidity(adp, self.pressure)
        if w3 >= self.humidity:  # dry coil: no moisture leaves
            return total
        w2 = w3 + bypass * (self.humidity - w3)
        leaving = (h - total / mass) / 1e3
        t2 = (leaving - 2501 * w2) / (1.006 + 1.86 * w2) + 273.15
        return mass * (1006 + 1860 * w2) * (self.dry - t2)

    # Dust, month by month ---------------------------------------------------

    def _feed(self, s):
        """Rate at which each place catches dust, kg/s of calendar time."""
        running = sum(read("time", self.site.get(k)) or 0 for k in ("cooling_hours", "heating_hours", "fan_hours"))
        rate = read("dust", self.site.get("dust_rate")) or DUST[self.site["dust"]] * 1e-3 / 86400
        rate *= running / YEAR
        caught, passed = [], rate
        for b, q in zip(self.branches, s.flows):
            if b.filter:
                held = rate * q / s.airflow * b.filter.caught()
                caught.append(held)
                passed -= held
        if self.slot:
            caught.append(passed * (1 - s.leak) * self.slot.filter.caught())
        return caught

    def _set_dust(self, masses):
        for place, mass in zip(self.places, masses):
            place.set_dust(mass)

    def _margin(self, s, masses, clean, time):
        """What is left of each limit of change, as a share of it; life ends where one is used up."""
        limits = self.limits
        margins = [("airflow", (s.airflow / clean.airflow - 1) / limits["change_airflow_loss"] + 1),
                ("time", 1 - time / read("time", limits["change_months"]))]
        allowed = read("pressure", limits.get("change_drop"))
        drops = [b.filter_drop(q) for b, q in zip(self.branches, s.flows) if b.filter] + ([s.filter] if self.slot else [])
        for place, drop, mass in zip(self.places, drops, masses):
            margins.append(("final drop", 1 - drop / place.final))
            if allowed:
                margins.append(("change drop", 1 - drop / allowed))
            margins.append(("capacity", 1 - mass / place.capacity))
        return min(margins, key=lambda x: x[1])

    def march(self):
        """Dust on every place from clean to the first limit of change. Gives the
        clean state, the state at the end, the life, what ends it, and rows of
        what the year's cost needs."""
        if not self.places:
            s = self.point(self.cooling)
            return s, s, None, None, [self._row(0, s)]
        # Once coarsely to know the life, once in eight steps of it.
        coarse = self._walk(read("time", self.limits["change_months"]) / 4)
        if coarse[2] == 0:
            return coarse
        return self._walk(coarse[2] / 8)

    def _walk(self, step):
        """Runge-Kutta steps of second order (Heun); bow and leak are solved anew
        with the operating point at each."""
        masses, time = [0.0] * len(self.places), 0.0
        self._set_dust(masses)
        clean = s = self.point(self.cooling)
        rows = [self._row(time, s)]
        why, left = self._margin(s, masses, clean, time)
        if left <= 0:
            return clean, clean, 0, why, rows  # past a limit when new

        def ahead(h):
            first = self._feed(s)
            self._set_dust([m + f * h for m, f in zip(masses, first)])
            second = self._feed(self.point(self.cooling))
            after = [m + (a + b) / 2 * h for m, a, b in zip(masses, first, second)]
            self._set_dust(after)
            there = self.point(self.cooling)
            return after, there, self._margin(there, after, clean, time + h)

        while True:
            after, there, (why, left) = ahead(step)
            if left <= 0:
                h = brentq(lambda h: ahead(h)[2][1], 0, step, rtol=1e-7)
                after, there, (why, left) = ahead(h)
                rows.append(self._row(time + h, there))
                return clean, there, time + h, why, rows
            masses, s, time = after, there, time + step
            rows.append(self._row(time, s))

    def _row(self, time, s):
        """Watts by season at one time, with the dust that is on the filters."""
        s.heat = self.point(self.heating, heating=True)
        fan = self.point(self.fan, heating=True) if self.site.get("fan_hours") else s.heat  # its coil is dry too
        return SimpleNamespace(time=time, cooling=s.watts, heating=s.heat.watts, fan=fan.watts, sensible=self.sensible(s.airflow) - s.watts)


def mean(rows, name):
    """Over the time between the rows, by trapezoids."""
    if len(rows) == 1:
        return getattr(rows[0], name)
    total = sum((b.time - a.time) * (getattr(a, name) + getattr(b, name)) / 2 for a, b in zip(rows, rows[1:]))
    return total / (rows[-1].time - rows[0].time)
