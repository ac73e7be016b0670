"""The plain pleat model: two channels that narrow and widen, laminar friction
between plates, momentum of the air along the channel, and the media between.

    dqu/dx = -2 s v    v = (pu - pd)/R    dpu/dx = -12 mu qu/hu^3 - (beta/hu) rho d(qu^2/hu)/dx

and the same downstream; s the slant length over the depth, beta = 6/5 of a
parabolic profile (Caesar and Schroth 2002; Del Fabbro et al. 2002). As one
equation of second order in qu it is solved by finite differences and Newton.
It leaves out what happens at the mouths and what flow through the walls does
to the profile, all of it inertial; so it bounds a drop from below."""

import numpy as np
from scipy.integrate import simpson
from scipy.linalg import solve_banded


def drop(width, pleats, depth, media_thickness, fold_gap, resistance, v, density, viscosity, cells=400):
    """Pa at velocity v over the actual face; width and depth of the pack in m."""
    pitch, e = width / pleats, fold_gap
    mouth = pitch - 2 * media_thickness - e
    s = np.hypot(depth, (mouth - e) / 2) / depth
    total = v * pitch
    x = np.linspace(0, depth, cells + 1)
    h, slope = x[1], (mouth - e) / depth
    up, down = mouth - slope * x, e + slope * x

    def gradient(q, dq, width, widening):
        """dp/dx of a channel, and what q and dq each do to it."""
        inertia = 1.2 * density / width
        value = -12 * viscosity * q / width**3 - inertia * (2 * q * dq / width - q * q * widening / width**2)
        by_q = -12 * viscosity / width**3 - inertia * (2 * dq / width - 2 * q * widening / width**2)
        return value, by_q, -inertia * 2 * q / width

    wall = resistance / (2 * s)
    q = total * (1 - x / depth)
    for _ in range(50):
        dq = np.gradient(q, h, edge_order=2)
        u, uq, ud = gradient(q, dq, up, -slope)
        d, dq_, dd = gradient(total - q, -dq, down, slope)
        residual = wall * (q[2:] - 2 * q[1:-1] + q[:-2]) / h**2 + (u - d)[1:-1]
        diagonal, side = (uq + dq_)[1:-1] - 2 * wall / h**2, (ud + dd)[1:-1] / (2 * h)
        bands = np.zeros((3, cells - 1))
        bands[1] = diagonal
        bands[0, 1:] = (wall / h**2 + side)[:-1]
        bands[2, :-1] = (wall / h**2 - side)[1:]
        step = solve_banded((1, 1), bands, -residual)
        q[1:-1] += step
        if np.abs(step).max() < 1e-12 * total:
            break
    dq = np.gradient(q, h, edge_order=2)
    d, _, _ = gradient(total - q, -dq, down, slope)
    return float(-resistance * dq[0] / (2 * s) - simpson(d, x=x))


def check():
    """Figures of the plain equations that others computed: 20 in. wide, 19 mm
    deep, R 60 Pa s/m, 0.8 mm media, 1.5 mm fold gap, 1.524 m/s; in. w.c."""
    for pleats, printed, within in ((15, 0.260, 0.01), (19, 0.224, 0.01), (40, 0.124, 0.01),
                                    (60, 0.091, 0.02), (80, 0.086, 0.02), (100, 0.107, 0.02)):
        got = drop(0.508, pleats, 0.019, 0.8e-3, 1.5e-3, 60, 1.524, 1.2014, 1.81e-5) / 249.08891
        if abs(got / printed - 1) > within:
            raise AssertionError(f"{pleats} pleats: {got:.4f}, want {printed}")
