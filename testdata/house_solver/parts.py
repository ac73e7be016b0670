"""Parts of a return: duct, fitting, grille, filter and the gap round its frame.

Darcy-Weisbach with Colebrook-White; Huebscher's equivalent diameter; ASHRAE
Handbook Fundamentals ch. 21 (roughness, compression of flex, eqs. 22 and 23;
fittings CD3-1, CR3-1, CR3-6 from memory); Borda and Carnot (sudden changes of
area); Idelchik, diagram 8-1 (grille); Baker, Sharples and Ward 1987 (gap).
Every drop is in Pa, every flow in m3/s."""

from math import cbrt, log10, pi, sqrt

import numpy as np
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq, nnls

from air import viscosity
from quantities import FPM, INCH, INCH_OF_WATER, read

ROUGHNESS = {"galvanized": 0.09e-3, "spiral": 0.12e-3, "duct_board": 0.9e-3,
             "faced_liner": 1.52e-3, "flex_liner": 0.9e-3, "rough": 3.0e-3}
FREE_AREA = {"stamped": 0.65, "bar": 0.75}


def friction_factor(reynolds, roughness):
    """Darcy's, roughness over diameter; turbulent duct flow only."""
    if reynolds < 2300:
        return 64 / max(reynolds, 1e-9)
    x = -2 * log10(roughness / 3.7 + 5.74 / reynolds**0.9)  # Swamee and Jain, then Newton
    for _ in range(4):
        inside = roughness / 3.7 + 2.51 * x / reynolds
        residual = x + 2 * log10(inside)
        x -= residual / (1 + 2 * 2.51 / (reynolds * inside * 2.302585092994046))
    return 1 / x**2


class Run:
    """One straight stretch of duct."""

    def __init__(self, run, air):
        shape = run["shape"]
        if shape == "rectangular":
            a, b = read("length", run["width"]), read("length", run["height"])
            self.diameter = 1.30 * (a * b) ** 0.625 / (a + b) ** 0.25
            self.area = a * b
        else:
            self.diameter = read("length", run["diameter"])
            self.area = pi * self.diameter**2 / 4
        material = run.get("material", "flex_liner" if shape == "flex" else "galvanized")
        self.roughness = read("length", run.get("roughness")) or ROUGHNESS[material]
        self.length = read("length", run["length"])
        self.correction = 1.0
        if shape == "flex":  # K = 100 (L_FE - L)/L_FE; D in mm
            self.correction = 1 + 0.58 * 100 * run.get("compression", 0) * 2.718281828459045 ** (-0.00496 * self.diameter * 1e3)
        self.air = air

    def drop(self, q):
        # Huebscher's round carries the same airflow with the same friction.
        v = q / (pi * self.diameter**2 / 4)
        reynolds = self.air.density * v * self.diameter / self.air.viscosity
        f = friction_factor(reynolds, self.roughness / self.diameter)
        return self.correction * f * self.length / self.diameter * self.air.density * v * v / 2


def loss_coefficient(fitting, width, height):
    """On the velocity pressure of the fitting's section."""
    if "coefficient" in fitting:
        return fitting["coefficient"]
    kind = fitting["kind"]
    if kind == "abrupt_expansion":
        return (1 - fitting["area_ratio"]) ** 2
    if kind == "elbow_smooth":  # CD3-1, by r/D
        return float(np.interp(fitting["radius_ratio"], [0.5, 0.75, 1, 1.5, 2, 2.5], [0.71, 0.33, 0.22, 0.15, 0.13, 0.12]))
    if kind == "elbow_rectangular" and fitting["radius_ratio"] == 1:  # CR3-1, by H/W
        return float(np.interp(height / width, [0.25, 0.5, 0.75, 1], [0.27, 0.25, 0.23, 0.21]))
    if kind == "elbow_mitred":  # CR3-6, by H/W
        return float(np.interp(height / width, [0.25, 0.5, 0.75, 1, 1.5, 2], [1.3, 1.3, 1.2, 1.2, 1.1, 1.1]))
    # Boxes and turns have no one table: usual values, common practice, no source.
    return {"boot_straight": 0.5, "flush_entry": 0.5, "boot_side": 1.5, "cabinet_turn": 1.2, "discharge_into_plenum": 1.0}[kind]


def with_ends(branch):
    """A described duct begins and ends somewhere: where no fitting does, with a box
    behind its grille (a bare one with a flush entry) and a discharge into the
    plenum at the section of its last run (common practice, no source)."""
    runs, fittings = branch.get("runs"), list(branch.get("fittings", []))
    if not runs or branch.get("ends") == "none":
        return branch
    kinds = {f.get("kind") for f in fittings}
    if not kinds & {"boot_straight", "boot_side", "flush_entry", "reentrant_entry", "bellmouth_entry"}:
        fittings.append({"kind": "boot_straight" if branch.get("grille") else "flush_entry"})
    if not kinds & {"cabinet_turn", "cabinet_turn_vanes", "discharge_into_plenum", "tee_branch", "wye_branch"}:
        last = runs[-1]
        section = {k: last[k] for k in ("width", "height", "diameter") if k in last}
        fittings.append({"kind": "discharge_into_plenum", **section})
    return {**branch, "fittings": fittings}


def fitting_constant(fitting, first_run, air):
    """c of drop = c q^2."""
    if "diameter" in fitting:
        width = height = read("length", fitting["diameter"])
        area = pi * width**2 / 4
    elif "width" in fitting:
        width, height = read("length", fitting["width"]), read("length", fitting["height"])
        area = width * height
    elif first_run["shape"] == "rectangular":
        width, height = read("length", first_run["width"]), read("length", first_run["height"])
        area = width * height
    else:
        width = height = read("length", first_run["diameter"])
        area = pi * width**2 / 4
    zeta = loss_coefficient(fitting, width, height) * fitting.get("count", 1)
    return zeta * air.density / 2 / area**2


def grille_constant(grille, air):
    """c of drop = c q^2; zeta stands on the velocity over the gross face."""
    area = read("length", grille["width"]) * read("length", grille["height"])
    f = grille.get("free_area") or FREE_AREA[grille.get("style", "stamped")]
    zeta = (0.707 * sqrt(1 - f) + 1 - f) ** 2 / f**2
    return zeta * air.density / 2 / area**2


# The filter --------------------------------------------------------------

STANDARD_VISCOSITY = viscosity(294.2611)  # of the air that printed drops are for, 70 F
DEFAULT_EXPONENT = 1.18  # Li et al. 2022: mean exponent of a filter's drop in flow
CAKE_EXPONENT = 1.5  # R = R0 + r W^n, the project's estimate

# Invented figures of the project, in no textbook; README.md and the list of
# assumptions of a Study name them as invented. Drop of a generic filter at
# 300 fpm, in. w.c., one inch deep, by MERV; it falls with the root of the depth:
GENERIC_DROP = {4: 0.065, 8: 0.14, 11: 0.20, 13: 0.27, 16: 0.48}
# Share of dust by mass that a filter of each MERV holds:
CAUGHT = {1: 0.60, 2: 0.67, 3: 0.72, 4: 0.78, 5: 0.82, 6: 0.86, 7: 0.89, 8: 0.92, 9: 0.94, 10: 0.95,
          11: 0.96, 12: 0.97, 13: 0.98, 14: 0.985, 15: 0.99, 16: 0.99}
# Stiffness D of the frame in N m by bracing, of a pack 3/4 in. deep; D goes with
# the square of that depth:
STIFFNESS = {"none": 1, "one_side": 3, "both_sides": 8, "wire_backed": 25, "rigid_box": 150}
# Media area over face, by depth in inches, where nothing tells it:
MEDIA_PER_FACE = {1: 2.3, 2: 4.0, 4: 7.5, 5: 9.0}
# Dust per media area that doubles the clean drop where no printed figure tells
# how dust raises it, kg/m2; a printed final drop within 1.5 times of the clean one
# is a change limit alone:
GENERIC_CAPACITY = 0.032
CHANGE_ONLY = 1.5


def allowance(depth):
    """How much less than nominal a filter is made, off each side and off depth
    (common practice, no source: makes differ by a quarter inch)."""
    side = INCH / 2 if depth <= 2.5 * INCH else 3 / 8 * INCH
    deep = INCH / 4 if depth <= 4.5 * INCH else 5 / 8 * INCH
    return side, deep


class Filter:
    """One make of filter in one place, with so much dust on it.

    make_law: points (face velocity, drop) of a filter known by its pleats in one
    face, in the air of the house, and its drop at 300 fpm in standard air."""

    def __init__(self, make, width, height, air, make_law=None):
        self.make = make
        self.air = air
        self.face = width * height
        nominal = [read("length", make["width"]), read("length", make["height"])]
        self.depth = read("length", make["depth"])
        self.nominal_face = nominal[0] * nominal[1]
        side, deep = allowance(self.depth)
        less = [n - (read("length", make.get(key)) or n - side)
                for n, key in zip(nominal, ("actual_width", "actual_height"))]
        self.actual_face = (width - less[0]) * (height - less[1])
        self.mu = air.viscosity / STANDARD_VISCOSITY
        self.rho = air.density / (0.075 * 0.45359237 / 0.3048**3)
        self.thick = read("length", make.get("pleat_depth")) or self.depth - deep
        self.stiffness = STIFFNESS[make["bracing"]] * (self.thick / (0.75 * INCH)) ** 2
        self.cake = 0.0  # added resistance on face velocity, Pa s/m
        self._choose_law(nominal, less, make_law)
        self._set_media_area(nominal, less)
        self._set_cake_law()

    def _choose_law(self, nominal, less, make_law):
        """clean(v): Pa at face velocity v, in the house's air."""
        make = self.make
        points = [(read("speed", p["face_velocity"]) if "face_velocity" in p
                   else read("airflow", p["airflow"]) / self.nominal_face, read("pressure", p["drop"]))
                  for p in make.get("rating", [])]
        if len(points) > 1:
            a = np.array([[v, v * v] for v, _ in points])
            (first, second), _ = nnls(a, np.array([d for _, d in points]))
            # Of the two terms one is viscous and one inertial.
            self.first, self.second = first * self.mu, second * self.rho
            self.rated = max(v for v, _ in points)
            self.clean = lambda v: self.first * v + self.second * v * v
            self.printed_clean = first * self.rated + second * self.rated**2
        elif "pleats" in make and "media_resistance" in make:
            self._law_of_pleats(nominal, less, make_law)
        else:
            n = make.get("exponent", DEFAULT_EXPONENT)
            if points:
                v, d = points[0]
            else:
                v, d = 300 * FPM, GENERIC_DROP[make["merv"]] / sqrt(self.depth / INCH) * INCH_OF_WATER
            # dp ~ mu^(2-n) rho^(n-1) v^n: the one form that dimensions allow.
            c = d / v**n * self.mu ** (2 - n) * self.rho ** (n - 1)
            self.rated = v
            self.printed_clean = d
            self.clean = lambda v: c * v**n

    def _law_of_pleats(self, nominal, less, make_law):
        # Of one pitch, the same air over the same actual area drops the same.
        width, height = make_law["width"], make_law["height"]
        there = width * height / ((width - less[0]) * (height - less[1]))
        here = self.face / self.actual_face
        v, d = np.array([[0, 0], *make_law["points"]]).T
        law = CubicSpline(v, d)
        self.clean = lambda u: float(law(u * here / there))
        self.rated = 300 * FPM
        self.printed_clean = make_law["rated_drop"]

    def _set_media_area(self, nominal, less):
        make = self.make
        if "media_area" in make:
            own = read("area", make["media_area"])
        elif "pleats" in make:
            width = nominal[0] - less[0]
            t = read("length", make.get("media_thickness")) or 0.8e-3
            e = read("length", make.get("fold_gap")) or 1.5e-3
            half = (width / make["pleats"] - 2 * t - 2 * e) / 2
            slant = sqrt(read("length", make["pleat_depth"]) ** 2 + half**2)
            # The same pitch in another face: as much media on each actual area.
            own = 2 * make["pleats"] * slant * (nominal[1] - less[1])
            own *= self.actual_face / ((nominal[0] - less[0]) * (nominal[1] - less[1]))
            self.media = own
            return
        else:
            depths = sorted(MEDIA_PER_FACE)
            own = self.nominal_face * float(np.interp(self.depth / INCH, depths, [MEDIA_PER_FACE[d] for d in depths]))
        self.media = own * self.face / self.nominal_face

    def _set_cake_law(self):
        """What dust adds, from printed figures. They are for standard air, the
        clean drop and the final one alike; dust is Darcian, so in the air of the
        house its part goes with viscosity."""
        self.capacity = read("mass", self.make["dust_capacity"]) * self.face / self.nominal_face
        self.final = read("pressure", self.make["final_drop"])
        held, rise = self.capacity, self.final - self.printed_clean
        if self.final <= CHANGE_ONLY * self.printed_clean:
            held, rise = min(held, GENERIC_CAPACITY * self.media), self.printed_clean
        self.cake_at_capacity = rise / self.rated * self.mu * (self.capacity / held) ** CAKE_EXPONENT

    def set_dust(self, mass):
        self.cake = self.cake_at_capacity * (mass / self.capacity) ** CAKE_EXPONENT

    def drop(self, v):
        return self.clean(v) + self.cake * v

    def caught(self):
        return CAUGHT[self.make["merv"]]

    def bow(self, drop, width, height):
        """Thin plate on its edges, which hold it in the plane too (Timoshenko): m."""
        a, b = min(width, height), max(width, height)
        linear = plate_coefficient(b / a) * drop * a**4 / self.stiffness
        # w + 1.5 w^3/h^2 = w_linear, one real root (Cardano).
        k = self.thick**2 / 1.5
        s = sqrt((linear * k / 2) ** 2 + (k / 3) ** 3)
        return cbrt(linear * k / 2 + s) - cbrt(s - linear * k / 2)


class Place:
    """A filter in its seat, with the gap round its frame.

    Drop bows the frame; each of its edges is drawn in by (4/3) w^2/L, a parabola
    over the short span, and the gap's path is shorter by that. Where draw-in and
    side clearance together exceed the cover, the frame has buckled out and stays
    so: the gap is then wider by the bow at which it left, and no cover is left of
    its path (an estimate of the project)."""

    def __init__(self, filter, width, height, path, air, gap=0.0, bends=0, cover=INCH / 2, count=1):
        self.filter, self.width, self.height, self.air, self.count = filter, width, height, air, count
        self.path, self.gap, self.bends, self.cover = path, gap, bends, cover
        self.face, self.span = width * height, min(width, height)
        self.left = False

    @property
    def capacity(self):
        return self.count * self.filter.capacity

    def set_dust(self, mass):
        self.filter.set_dust(mass / self.count)

    def drawn_in(self, drop):
        return 4 / 3 * self.filter.bow(drop, self.width, self.height) ** 2 / self.span

    def seat(self, drop):
        """Share of the cover that is used up; over 1 the frame leaves."""
        return (self.drawn_in(drop) + self.gap) / self.cover

    def leak(self, drop):
        gap, path, slack = self.gap, self.path, max(0, self.cover - self.gap)
        if self.left:
            gap, path = gap + sqrt(0.75 * slack * self.span), max(0, path - self.cover)
        elif gap > 0:
            path -= min(self.drawn_in(drop), slack, path)
        return crack_flow(drop, gap, 2 * (self.width + self.height), path, self.bends, self.air)

    def state(self, q):
        """Drop over media and gap, and the flow that leaks, where all filters of
        the place together pass q."""
        q /= self.count
        if q <= 0 or self.gap == 0 and not self.left:
            return self.filter.drop(q / self.face), 0.0

        def excess(media):
            return media + self.leak(self.filter.drop(media / self.face)) - q
        media = brentq(excess, 0, q, xtol=1e-13, rtol=1e-12)
        return self.filter.drop(media / self.face), self.count * (q - media)

    def drop(self, q):
        return self.state(q)[0]


_plate = {}


def plate_coefficient(ratio):
    """alpha of w = alpha q a^4/D, simply supported plate (Navier's series)."""
    if ratio not in _plate:
        m = np.arange(1, 120, 2)[:, None]
        n = m.T
        sign = (-1.0) ** ((m + n) // 2 - 1)
        _plate[ratio] = 16 / pi**6 * float(np.sum(sign / (m * n * (m**2 + (n / ratio) ** 2) ** 2)))
    return _plate[ratio]


def crack_flow(drop, gap, breadth, path, bends, air):
    """Q of drop = 12 mu z Q/(W d^3) + rho (1.5 + n) Q^2/(2 d^2 W^2)."""
    if gap <= 0 or drop <= 0:
        return 0.0
    first = 12 * air.viscosity * path / (breadth * gap**3)
    second = air.density * (1.5 + bends) / (2 * gap**2 * breadth**2)
    return 2 * drop / (first + sqrt(first**2 + 4 * second * drop))
