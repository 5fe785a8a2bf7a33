"""Time scipy and a numpy Newton on two cases of tests/data/response_bvp.csv.

Usage: python3 benches/response_reference.py SECONDS_PER_SOLVE
The argument is the library's time for a 100-element solve, in microseconds.
"""
import csv
import os
import platform
import sys
import time

import numpy as np
import scipy
from scipy.integrate import solve_bvp
from scipy.linalg import solve_banded

EI, B, L, N_EL = 47.0567, 0.089, 0.9, 100
RAD = np.pi / 180


def plastic_sand():
    ylim = 3 * np.tan(RAD * 61) ** 2 * 18 * B / 1e4  # pu / (nh z)

    def law(z, y):
        return 1e4 * z * np.clip(y, -ylim, ylim), 1e4 * z * (np.abs(y) < ylim)

    return law


def api_sand():
    ph, al, bt, k0 = RAD * 35, RAD * 17.5, RAD * 62.5, 0.4
    kp, ka = np.tan(bt) ** 2, np.tan(RAD * 27.5) ** 2
    c1 = np.tan(bt) * (kp * np.tan(al) + k0 * (np.tan(ph) * np.sin(bt) * (1 / np.cos(al) + 1) - np.tan(al)))
    c2, c3 = kp - ka, kp**2 * (kp + k0 * np.tan(ph)) - ka

    def law(z, y):
        m = np.maximum(3 - 0.8 * z / B, 0.9) * 18 * np.minimum(c1 * z + c2 * B, c3 * B)
        t = np.tanh(16600 * y / m)
        return m * z * t, 16600 * z * (1 - t * t)

    return law


def by_solve_bvp(law, H, M):
    """Scipy, tolerance 1e-8; state 100 y, 100 theta, M, V."""

    def fun(z, u):
        return np.array([u[1], u[2] * (100 / EI), u[3], -law(z, u[0] / 100)[0]])

    def jac(z, u):
        J = np.zeros((4, 4, z.size))
        J[0, 1], J[1, 2], J[2, 3] = 1, 100 / EI, 1
        J[3, 0] = -law(z, u[0] / 100)[1] / 100
        return J

    def bc(a, b):
        return np.array([a[2] - M, a[3] - H, b[2], b[3]])

    z = np.linspace(0, L, 51)
    s = solve_bvp(fun, bc, z, np.zeros((4, z.size)), fun_jac=jac, tol=1e-8, max_nodes=20000)
    return s.y[0, 0] / 100, s.success, f"{s.x.size} nodes, {s.niter} rounds"


def by_newton(law, H, M):
    """Hermite elements, two Gauss springs each, banded solve."""
    h = L / N_EL
    ke = EI / h**3 * np.array([[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
                               [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]])
    g = np.array([0.5 - 0.5 / 3**0.5, 0.5 + 0.5 / 3**0.5])
    # shape functions at the two points, one row a point
    n = np.array([1 - 3 * g**2 + 2 * g**3, h * g * (1 - g) ** 2, 3 * g**2 - 2 * g**3, h * g**2 * (g - 1)]).T
    nn = n[:, :, None] * n[:, None, :] * (h / 2)
    z = h * (np.arange(N_EL)[:, None] + g)
    size = 2 * N_EL + 2
    dofs = 2 * np.arange(N_EL)[:, None] + np.arange(4)
    cols = [(3 + i - j, slice(j, j + 2 * N_EL, 2), i, j) for i in range(4) for j in range(4)]
    bend = np.zeros((7, size))
    for r, c, i, j in cols:
        bend[r, c] += ke[i, j]
    load = np.zeros(size)
    load[0], load[1] = H, -M  # work of M at grade is -M theta

    def spread(q):
        """Nodal forces of spring forces per length q."""
        fe = q @ n * (h / 2)
        f = np.zeros(size)
        for i in range(4):
            f[i:i + 2 * N_EL:2] += fe[:, i]
        return f

    u = np.zeros(size)
    y = u[dofs] @ n.T
    p, k = law(z, y)
    for it in range(1, 60):
        ab = bend.copy()
        ks = np.tensordot(k, nn, 1)
        for r, c, i, j in cols:
            ab[r, c] += ks[:, i, j]
        # total u, so bending drops out of the residual and rounds nothing
        u = solve_banded((3, 3), ab, load - spread(p - k * y), check_finite=False)
        y_new = u[dofs] @ n.T
        p_new, k_new = law(z, y_new)
        res = np.linalg.norm(spread(p_new - p - k * (y_new - y))) / np.linalg.norm(load)
        y, p, k = y_new, p_new, k_new
        if res < 1e-10:
            break
    return u[0], res < 1e-10, f"{it} steps, residual {res:.0e}"


def timed(f, *args, seconds=2.0):
    """Median time of a call in microseconds, and its result."""
    out, t = f(*args), []
    end = time.perf_counter() + seconds
    while len(t) < 5 or time.perf_counter() < end:
        s = time.perf_counter()
        f(*args)
        t.append(time.perf_counter() - s)
    return 1e6 * float(np.median(t)), out


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    ours = float(sys.argv[1])
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "tests", "data", "response_bvp.csv")
    with open(path) as f:
        ref = {r["case"]: float(r["y0_m"]) for r in csv.DictReader(x for x in f if x[0] != "#")}
    print(f"Python {platform.python_version()}, numpy {np.__version__}, scipy {scipy.__version__}; ours {ours:g} us")
    for name, law, H, M in (("api_sand", api_sand(), 0.35, 0.42), ("plastic_sand", plastic_sand(), 0.3, 0.36)):
        for how, f in (("solve_bvp 1e-8", by_solve_bvp), ("banded Newton", by_newton)):
            us, (y0, ok, text) = timed(f, law, H, M)
            print(f"{name:13} {how:15} {us:10.1f} us  {us / ours:9.1f} times ours  "
                  f"y0 off by {abs(y0 / ref[name] - 1):.0e}  {'' if ok else 'NOT CONVERGED '}({text})")


if __name__ == "__main__":
    main()
