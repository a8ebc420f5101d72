"""Writes utm-exact.csv: UTM coordinates from the exact transverse Mercator projection. Needs mpmath.

The projection is the meridian arc M(phi) continued to complex latitudes: isometric latitude psi(phi) = psi + i lambda is
solved for the complex phi by Newton's method, and M is integrated along the straight path from 0 to it. No series in the
flattening is involved.
"""
import random

import mpmath as mp

mp.mp.dps = 40
random.seed(11)

A = mp.mpf(6378137)
F = 1 / mp.mpf("298.257223563")
E2 = F * (2 - F)
E = mp.sqrt(E2)


def isometric(phi):
    return mp.atanh(mp.sin(phi)) - E * mp.atanh(E * mp.sin(phi))


def complex_latitude(target):
    phi = mp.asin(mp.tanh(target))
    for _ in range(60):
        slope = (1 - E2) / ((1 - E2 * mp.sin(phi) ** 2) * mp.cos(phi))
        step = (isometric(phi) - target) / slope
        phi -= step
        if abs(step) < mp.mpf(10) ** -36:
            return phi
    raise ArithmeticError(target)


def meridian_arc(phi):
    return A * (1 - E2) * mp.quad(lambda t: phi * (1 - E2 * mp.sin(phi * t) ** 2) ** mp.mpf("-1.5"), [0, 0.5, 1])


def utm(lat, lon, zone):
    psi = isometric(mp.radians(mp.mpf(lat)))
    lam = mp.radians(mp.mpf(lon) - (6 * zone - 183))
    arc = meridian_arc(complex_latitude(psi + 1j * lam))
    k0 = mp.mpf("0.9996")
    return 500000 + k0 * arc.imag, k0 * arc.real + (0 if lat[0] != "-" else 10000000)


def zone_of(lat, lon):
    lat, lon = float(lat), float(lon)
    if 56 <= lat < 64 and 3 <= lon < 12:
        return 32
    if lat >= 72 and 0 <= lon < 42:
        return 31 if lon < 9 else 33 if lon < 21 else 35 if lon < 33 else 37
    return int((lon + 180) // 6) % 60 + 1


places = [("0", "0"), ("83.999", "-5.9999999"), ("-79.999", "5.9999999"), ("83.5", "20.9999999"), ("83.5", "33"),
          ("0.0000001", "2.9999999"), ("-0.0000001", "-177.0000001"), ("45", "180"), ("45", "-180"), ("60", "3"),
          ("64", "2.9999999"), ("46.95", "-116.3"), ("64.8405166667", "-147.6043666667")]
while len(places) < 60:
    places.append((f"{random.uniform(-80, 84):.7f}", f"{random.uniform(-180, 180):.7f}"))

with open("utm-exact.csv", "w", newline="\n") as out:
    out.write("lat,lon,zone,hemisphere,easting,northing\n")
    for lat, lon in places:
        zone = zone_of(lat, lon)
        if lon == "180":
            easting, northing = utm(lat, "-180", zone)
        else:
            easting, northing = utm(lat, lon, zone)
        hemisphere = "S" if lat[0] == "-" else "N"
        out.write(f"{lat},{lon},{zone},{hemisphere},{mp.nstr(easting, 18)},{mp.nstr(northing, 19)}\n")
