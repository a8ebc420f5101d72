# Drift and time aloft by mpmath at 30 digits: writes drift_mpmath.csv beside this file.
from mpmath import mp, mpf, quad, log, sqrt
import os
mp.dps = 30
T0, L, g, R = mpf('288.15'), mpf('0.0065'), mpf('9.80665'), mpf('287.05287')
def sigma(z): return (1 - L*z/T0)**(g/(R*L) - 1)
def wind(kind, z):
    if kind == 'power': return 3*(z/mpf('6.096'))**(mpf(1)/7)
    if kind == 'linear': return 2 + mpf('0.01')*z
    d, z0 = mpf(8), mpf('0.5')
    return 5*log((z-d)/z0)/log((30-d)/z0) if z > d + z0 else mpf(0)
rows = ['wind,elevation_m,exit_height_m,drift_m,seconds']
for kind in ('power', 'linear', 'log'):
    for elevation in (0, 1800):
        for h in (mpf('457.2'), mpf('914.4')):
            begin = mpf('8.5') if kind == 'log' else mpf(0)
            points = [begin, begin + mpf('0.01'), begin + 1, begin + 10, begin + 100, h]
            drift = quad(lambda z: wind(kind, z)*sqrt(sigma(elevation + z))/5, points)
            seconds = quad(lambda z: sqrt(sigma(elevation + z))/5, [0, h])
            rows.append(f'{kind},{elevation},{mp.nstr(h, 10)},{mp.nstr(drift, 17)},{mp.nstr(seconds, 17)}')
open(os.path.join(os.path.dirname(__file__), 'drift_mpmath.csv'), 'w').write('\n'.join(rows) + '\n')
