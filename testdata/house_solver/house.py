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
from parts import Filter, Place, Run, fitting_constant, grille_constant, with_ends
from quantities import BTU, CFM, FOOT, INCH, TON, YEAR, read

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
        data = with_ends(data)
        runs = data.get("runs", [])
        self.name = data.get("name", "")
        grille = data.get("grille")
        self.grille = grille_constant(grille, here) if grille else 0.0
        self.runs = [Run(r, here) for r in runs]
        self.fittings = sum(fitting_constant(f, runs[0] if runs else None, here) for f in data.get("fittings", []))
        self.grille_kept = self.ducts_kept = 1.0
        self.place = None
        if "filter" in data:
            w, h = read("length", grille["width"]), read("length", grille["height"])
            make = Filter(filters[data["filter"]], w, h, here, laws.get(data["filter"]))
            self.place = Place(make, w, h, make.depth, here)
        self.guess = 0.1

    def filter_drop(self, q):
        return self.place.drop(q) if self.place else 0.0

    def drop(self, q):
        return (self.grille_kept * self.grille * q * q
                + self.ducts_kept * (self.fittings * q * q + sum(r.drop(q) for r in self.runs)) + self.filter_drop(q))

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

    place, name = None, ""

    def __init__(self, drop, airflow):
        self.constant = drop / airflow**2
        self.guess = 0.0

    def flow(self, suction):
        self.guess = (max(suction, 0) / self.constant) ** 0.5
        return self.guess

    def filter_drop(self, q):
        return 0.0


class House:
    """One option of a job, in cooling or heating."""

    def __init__(self, job, option, laws):
        site, self.equipment, self.limits = job["site"], job["equipment"], job["limits"]
        self.site = site
        # ISO 2533 counts geopotential height.
        z = read("length", site.get("altitude", "0 m"))
        self.lost, self.rated_coil = 0.0, None
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
        self.slot = None if slot.get("none") or "filter" not in slot else self._slot(slot, filters, laws)
        self.places = [b.place for b in self.branches if b.place] + ([self.slot] if self.slot else [])
        self.design = read("airflow", job["design_airflow"])
        if not self.branches:
            self.branches = [UsualReturn(0.2 * read("pressure", self.equipment["rated_external_static"]), self.design)]
        # An air handler holds its coil: no part of what is external.
        inside = self.equipment["kind"] == "air_handler"
        self.coil, self.supply = None if inside else self._part(job.get("coil"), 1.8), self._part(job.get("supply"), 2)
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
        cooling = option.get("tap", table["cooling_tap"])
        self.cooling = Blower(taps[cooling], self.ratio, speed)
        self.heating = Blower(taps[table["heating_tap"]], self.ratio, speed)
        self.fan = Blower(taps[table.get("fan_tap", cooling)], self.ratio, speed)

    def _part(self, part, exponent):
        if not part:
            return None
        drop, flow = read("pressure", part["drop"]), read("airflow", part.get("airflow")) or self.design
        n = part.get("exponent", exponent)
        return lambda q: drop * (q / flow) ** n

    def _slot(self, data, filters, laws):
        width, height = read("length", data["width"]), read("length", data["height"])
        make = Filter(filters[data["filter"]], width, height, self.here, laws.get(data["filter"]))
        place = Place(make, width, height, read("length", data.get("depth")) or make.depth, self.here,
                      gap=read("length", data.get("gap")) or 0.0, bends=data.get("gap_bends", 0),
                      cover=read("length", data.get("edge_cover")) or INCH / 2, count=data.get("count", 1))
        place.entry = data.get("entry_coefficient", 0) * self.here.density / 2 / (place.count * place.face) ** 2
        return place

    def _after_returns(self, q, heating):
        s = SimpleNamespace(filter=0.0, entry=0.0, coil=0.0, coil_held=0.0)
        if self.slot:
            s.filter = self.slot.drop(q)
            s.entry = self.slot.entry * q * q
        if self.coil:
            wet = self.coil(q)
            s.coil = wet * (self.equipment.get("coil_dry_share", 0.8) if heating else 1)
            # In the table a wet coil is not external, and where it is dry the table
            # holds more than there is.
            if "wet_coil" in self.includes:
                s.coil_held = wet
        s.supply = self.supply(q)
        return s

    def point(self, blower, heating=False):
        """The operating point: the plenum suction at which the blower, at the
        static that the house then asks, moves just the air that the branches pass."""
        def at(suction):
            q = sum(b.flow(suction) for b in self.branches)
            s = self._after_returns(q, heating)
            s.airflow, s.suction = q, suction
            s.lost = self.lost * q * q
            s.static = suction + s.lost + s.entry + s.coil - s.coil_held + s.supply
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
        s.through = [q for b, q in zip(self.branches, s.flows) if b.place] + ([s.airflow] if self.slot else [])
        s.leaks = [p.state(q)[1] / q for p, q in zip(self.places, s.through)]
        s.drops = [p.drop(q) for p, q in zip(self.places, s.through)]
        # Share of the air that passes no filter: round the frames, or through the
        # branches that have none.
        leaks, s.leak = iter(s.leaks), 0.0
        if self.places:
            s.leak = sum(q / s.airflow * (next(leaks) if b.place else 1) for b, q in zip(self.branches, s.flows))
        if self.slot:
            s.leak *= next(leaks)
        s.watts = blower.watts(s.static)
        s.ports = [-s.suction - s.lost, -(s.suction + s.lost + s.entry + s.filter), s.coil + s.supply, s.supply]
        return s

    def rise(self, heat):
        """Temperature rise: heating output and the blower's watts into moist air at
        30 % humidity. A furnace loses 4 % of its output at sea level for each 1000
        ft where it stands above 2000 ft (fuel gas code, secondary texts)."""
        t = read("temperature", self.site["heating_indoor"])
        pv = 0.3 * air.saturation_pressure(t)
        w = air.RATIO * pv / (self.pressure - pv)
        cp = (1006 + 1860 * w) / (1 + w)
        output = read("capacity", self.equipment["heating_output"])
        z = read("length", self.site.get("altitude", "0 m")) / FOOT
        burns = self.equipment["kind"] != "air_handler"
        if burns and z > 2000 and self.equipment.get("heating_output_at") != "site":
            output *= 1 - self.equipment.get("altitude_derate", 0.04) * z / 1000
        return (output + heat.watts) / (air.density(t, w, self.pressure) * cp * heat.airflow)

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

    def _wet_bulb_factor(self, wet):
        """Total capacity by entering wet bulb, over its value at the rating of 67 F;
        default direct-expansion coil of an open building-energy reference at 35 C
        outdoors, from memory, for 55 to 75 F."""
        def at(t):
            c = min(max(t, read("temperature", "55 F")), read("temperature", "75 F")) - 273.15
            return 0.494291 + 0.0267877 * c - 0.0000414703 * c * c
        return at(wet) / at(read("temperature", "67 F"))

    def _fraction(self, airflow):
        """Mass of dry air over that of the rating, and the rated NTU times mass."""
        if not self.rated_coil:
            self.rated_coil = self._coil_ntu_mass()
        ntu_mass, rated = self.rated_coil
        mass = self.here.density * airflow / (1 + self.humidity)
        return mass, mass / rated, ntu_mass

    def sensible(self, airflow):
        """Sensible capacity in W at the airflow, in the house's air."""
        if self.equipment["kind"] == "furnace":
            return 0.0
        mass, fraction, ntu_mass = self._fraction(airflow)
        capacity = read("capacity", self.equipment["cooling_capacity"])
        capacity *= 0.8 + 0.2 * min(max(fraction, 0.5), 1.5)
        total = capacity * self._wet_bulb_factor(self.wet)
        h = air.enthalpy(self.dry, self.humidity)
        bypass = exp(-ntu_mass / mass)
        h3 = h - total / mass / (1 - bypass)
        adp = air.saturation_temperature(h3, self.pressure)
        w3 = air.saturated_humidity(adp, self.pressure)
        if w3 >= self.humidity:
            return self._dry(capacity, mass, bypass)
        w2 = w3 + bypass * (self.humidity - w3)
        leaving = (h - total / mass) / 1e3
        t2 = (leaving - 2501 * w2) / (1.006 + 1.86 * w2) + 273.15
        return mass * (1006 + 1860 * w2) * (self.dry - t2)

    def _dry(self, capacity, mass, bypass):
        """A coil that takes no water: it works as at the wet bulb, of air as warm,
        at which its surface would just begin to sweat (the same reference)."""
        rate = mass * (1006 + 1860 * self.humidity) * (1 - bypass)

        def excess(surface):
            w = air.saturated_humidity(surface, self.pressure)
            wet = brentq(lambda t: air.humidity_from_wet_bulb(self.dry, t, self.pressure) - w, surface, self.dry)
            return capacity * self._wet_bulb_factor(wet) - rate * (self.dry - surface)
        surface = brentq(excess, 240, self.dry - 1e-6)
        return rate * (self.dry - surface)

    def outdoor(self, airflow):
        """Watts of the outdoor unit: capacity/EER x EIR(f), the default curve of the
        same reference, from memory, for half to one and a half of the rated flow."""
        if self.equipment["kind"] == "furnace":
            return 0.0
        f = min(max(self._fraction(airflow)[1], 0.5), 1.5)
        eer = self.equipment.get("eer", 11.0) * BTU / 3600  # Btu/(W h); 11 is usual, common practice
        return read("capacity", self.equipment["cooling_capacity"]) / eer * (1.1552 - 0.1808 * f + 0.0256 * f * f)

    # Dust, month by month ---------------------------------------------------

    def _feed(self, s):
        """Rate at which each place catches dust, kg/s of calendar time."""
        running = sum(read("time", self.site.get(k)) or 0 for k in ("cooling_hours", "heating_hours", "fan_hours"))
        rate = read("dust", self.site.get("dust_rate")) or DUST[self.site["dust"]] * 1e-3 / 86400
        rate *= running / YEAR
        caught, passed = [], rate
        for place, q, leak in zip(self.places, s.through, s.leaks):
            if place is self.slot:
                caught.append(passed * (1 - leak) * place.filter.caught())
            else:
                held = rate * q / s.airflow * (1 - leak) * place.filter.caught()
                caught.append(held)
                passed -= held
        return caught

    def _solve(self, masses):
        for place, mass in zip(self.places, masses):
            place.set_dust(mass)
        return self.point(self.cooling)

    def _seated(self, masses, s):
        """The point with every frame out of its seat that the drop draws out."""
        while True:
            loose = [p for p, drop in zip(self.places, s.drops) if not p.left and p.seat(drop) > 1 - 1e-6]
            if not loose:
                return s
            for place in loose:
                place.left = True
            s = self._solve(masses)

    def _margins(self, s, masses):
        """What is left of each limit, as a share of it: (what, place, share). At
        "seat" a frame buckles out; at the others a filter is changed."""
        most = read("pressure", self.limits.get("change_drop"))
        out = [("airflow", None, (s.airflow / self.clean.airflow - 1) / self.limits["change_airflow_loss"] + 1)]
        for k, (place, drop) in enumerate(zip(self.places, s.drops)):
            limit = min(place.filter.final, most or place.filter.final)
            out.append(("capacity", k, 1 - masses[k] / place.capacity))
            if not self.over[k]:
                out.append(("drop", k, 1 - drop / limit))
            if not place.left:
                out.append(("seat", k, 1 - place.seat(drop)))
        return out

    def march(self):
        """Dust on every place, each changed at its own limit, until every one has
        had a life or the time is over. Gives the clean state, the state at the
        first change, the life of each place and what ends it, and rows of the
        first life for the year's cost. Runge-Kutta steps of second order (Heun);
        bow and leak are solved anew with the operating point at each."""
        n, longest = len(self.places), read("time", self.limits["change_months"])
        masses, time, changes = [0.0] * n, 0.0, 0
        self.over = [False] * n
        self.clean = s = self._seated(masses, self._solve(masses))
        fresh = [p.left for p in self.places]
        rows = [self._row(time, s)]
        if not n:
            return s, s, [], rows
        lives = [None] * n
        self.over = [share <= 0 for what, k, share in self._margins(s, masses) if what == "drop"]
        for k in range(n):
            if self.over[k]:
                lives[k] = (0.0, "over when clean")
        end = s if any(lives) else None
        feed = self._feed(s)
        first = min([longest] + [p.capacity / f for p, f in zip(self.places, feed)])
        step = first / (12 if n == 1 else 8)
        while None in lives and time < longest:
            by = min(step, longest - time)
            if changes > 40:  # those that have had a life load no further
                feed = [0.0 if lives[k] else f for k, f in enumerate(feed)]
            ahead = self._solve([m + f * by for m, f in zip(masses, feed)])
            last = self._feed(ahead)

            def at(h):
                after = [m + (a + (b - a) * h / by / 2) * h for m, a, b in zip(masses, feed, last)]
                there = self._solve(after)
                return after, there, min(share for _, _, share in self._margins(there, after))
            after, there, left = at(by)
            if left < 0:
                by = brentq(lambda h: at(h)[2], 0, by, rtol=1e-8) if at(0.0)[2] > 0 else 0.0
                after, there, left = at(by)
            masses, s, time = after, there, time + by
            if end is None:
                rows.append(self._row(time, s))
            due = {what: [k for w, k, share in self._margins(s, masses) if w == what and share < 1e-6]
                   for what in ("seat", "capacity", "drop", "airflow")}
            if due["seat"]:
                s = self._seated(masses, s)
                self._row(time, s)
                due = {"capacity": [], "drop": [], "airflow": []}
            changed = {k: what for what in ("drop", "capacity") for k in due[what]}
            if not changed and due["airflow"]:
                gains = [p.filter.cake * q * (1 - leak) / p.count / p.face if m > 0 else -1
                         for p, q, leak, m in zip(self.places, s.through, s.leaks, masses)]
                changed[gains.index(max(gains))] = "airflow"
            if changed and end is None:
                end = s
            for k, what in changed.items():
                lives[k] = lives[k] or (time, what)
                masses[k], self.places[k].left = 0.0, fresh[k]
                changes += 1
            if changed and None in lives:
                s = self._solve(masses)
            feed = self._feed(s)
        lives = [life or (time, "time") for life in lives]
        return self.clean, end or s, lives, rows

    def _row(self, time, s):
        """Watts by season at one time, with the dust that is on the filters."""
        s.heat = self.point(self.heating, heating=True)
        fan = self.point(self.fan, heating=True) if self.site.get("fan_hours") else s.heat  # its coil is dry too
        return SimpleNamespace(time=time, cooling=s.watts, heating=s.heat.watts, fan=fan.watts,
                               sensible=self.sensible(s.airflow) - s.watts, outdoor=self.outdoor(s.airflow))


def mean(rows, name):
    """Over the time between the rows, by trapezoids."""
    if len(rows) == 1 or rows[-1].time == rows[0].time:
        return getattr(rows[0], name)
    total = sum((b.time - a.time) * (getattr(a, name) + getattr(b, name)) / 2 for a, b in zip(rows, rows[1:]))
    return total / (rows[-1].time - rows[0].time)
