"""The posterior of a piece by another road: numpy, Joseph's form of the update, integrals by a fine sum.

Reads cases, one a line: cut | mass_g length_mm slant_first slant_last division_g | drawn (0/1) |
stations: at width height; ... | portions: from to grams thickness-or-0; ...
Prints for each: mean, then covariance, then the expected grams and sd of a portion 120 to 160 mm.
"""

import sys
import tomllib
from pathlib import Path

import numpy as np

CATALOGUE = Path(__file__).resolve().parents[4] / "catalogue"
CUTS = {row["id"]: row for row in tomllib.loads((CATALOGUE / "cuts.toml").read_text())["cut"]}
PROFILES = tomllib.loads((CATALOGUE / "profiles.toml").read_text())
PROFILE = {row["cut"]: row for row in PROFILES["profile"]}
ROUGH, ROUGH_AT = PROFILES["roughness"]["rel_sd"], PROFILES["roughness"]["at_mm"]
KNIFE = PROFILES["knife"]["within_mm"] / np.sqrt(3)
X = np.linspace(0, 1, 24)
HATS = np.eye(24)


def hat(x):
    return np.array([np.interp(x, X, row) for row in HATS])


class Piece:
    def __init__(self, cut, mass, length, slants, division, drawn):
        self.mass, self.length, self.slants, self.drawn = mass, length, slants, drawn
        self.scale = division / np.sqrt(3)
        row = PROFILE[cut]
        self.section = CUTS[cut]["section"]
        p = np.array(row["p"])
        sd = np.array(row["rel_sd"]) * p
        kernel = np.exp(-0.5 * ((X[:, None] - X[None]) / row["length_scale"]) ** 2) + 1e-8 * np.eye(24)
        self.floor = 0.05 * p
        self.z = np.append(p, 0.0)
        self.P = np.zeros((25, 25))
        self.P[:24, :24] = np.outer(sd, sd) * kernel
        self.P[24, 24] = self.section["sd_common"] ** 2
        self.whole = 1 - sum(slants) / 2 / length
        h = self.pad(self.integral(0, length))
        self.observe(h, h @ self.z, self.whole, (self.scale / mass) ** 2 + 1e-6)
        if drawn:
            self.push(KNIFE**2 if slants[0] > 0 else 0.0)

    def fill(self, s):
        first, last = self.slants
        full = np.ones_like(s)
        if first > 0:
            full = np.minimum(full, s / first)
        if last > 0:
            full = np.minimum(full, (self.length - s) / last)
        return np.clip(full, 0, 1)

    def integral(self, a, b):
        """Midpoint sum over fine parts between all bends, so that each part is a parabola nearly without error."""
        bends = np.unique(np.clip(np.concatenate([X * self.length, [a, b, self.slants[0], self.length - self.slants[1]]]), a, b))
        total = np.zeros(24)
        for lo, hi in zip(bends[:-1], bends[1:]):
            n = 2000
            s = lo + (np.arange(n) + 0.5) * (hi - lo) / n
            weight = self.fill(s) * (hi - lo) / n / self.length
            total += np.array([np.sum(weight * np.interp(s / self.length, X, row)) for row in HATS])
        return total

    def pad(self, h):
        return np.concatenate([h, np.zeros(len(self.z) - len(h))])

    def push(self, variance):
        n = len(self.z)
        self.z = np.append(self.z, 0.0)
        P = np.zeros((n + 1, n + 1))
        P[:n, :n] = self.P
        P[n, n] = variance
        self.P = P

    def observe(self, h, expected, observed, noise):
        v = h @ self.P @ h + noise
        k = self.P @ h / v
        left = np.eye(len(h)) - np.outer(k, h)
        self.z = self.z + k * (observed - expected)
        self.P = left @ self.P @ left.T + noise * np.outer(k, k)
        self.z[:24] = np.maximum(self.z[:24], self.floor)

    def station(self, at, width, height):
        h24 = hat(at / self.length)
        p, d = h24 @ self.z[:24], self.z[24]
        h = self.pad(h24 * (1 + d))
        h[24] = p
        per_mm = self.mass / self.whole / self.length
        observed = self.section["density_kg_m3"] * 1e-6 * self.section["factor"] * width * height / per_mm
        self.observe(h, p * (1 + d), observed, (self.section["sd_station"] * p) ** 2)

    def portion(self, a, b, thickness):
        """Weights, expectation and noise of a portion, as a share of the whole prism."""
        if not self.drawn:
            to = a + thickness if thickness else b
            h = self.pad(self.integral(a, to))
            expected = h @ self.z
            beside = 1 / np.sqrt(3) if thickness else KNIFE
            face = hat(to / self.length) @ self.z[:24]
            rough = ROUGH * np.sqrt(ROUGH_AT / (to - a)) * expected
            return h, expected, rough**2 + (face * beside / self.length) ** 2
        self.push(KNIFE**2)
        if thickness:
            h = np.zeros(len(self.z))
            h[25], h[26] = -1, 1
            self.observe(h, h @ self.z, thickness - (b - a), 1 / 3)
        h = self.pad(self.integral(a, b))
        h[25] = -(hat(a / self.length) @ self.z[:24]) / self.length
        h[26] = (hat(b / self.length) @ self.z[:24]) / self.length
        expected = h @ self.z
        return h, expected, (ROUGH * np.sqrt(ROUGH_AT / (b - a)) * expected) ** 2

    def weigh(self, a, b, grams, thickness):
        h, expected, noise = self.portion(a, b, thickness)
        prism = self.mass / self.whole
        self.observe(h, expected, grams / prism, noise + (self.scale / prism) ** 2)
        if self.drawn:
            keep = [i for i in range(len(self.z)) if i != 25]
            self.z, self.P = self.z[keep], self.P[np.ix_(keep, keep)]


def groups(text):
    return [[float(word) for word in group.split()] for group in text.split(";") if group.strip()]


for line in sys.stdin:
    cut, given, drawn, stations, portions = [part.strip() for part in line.split("|")]
    mass, length, first, last, division = (float(word) for word in given.split())
    piece = Piece(cut, mass, length, (first, last), division, drawn == "1")
    for at, width, height in groups(stations):
        piece.station(at, width, height)
    for a, b, grams, thickness in groups(portions):
        piece.weigh(a, b, grams, thickness)
    print(*piece.z)
    print(*piece.P.ravel())
    h, expected, noise = piece.portion(120.0, 160.0, 0.0)
    prism = piece.mass / piece.whole
    print(expected * prism, np.sqrt(h @ piece.P @ h + noise) * prism)
