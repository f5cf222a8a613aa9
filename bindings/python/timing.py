"""Times satline and CoolProp in Python in one run: one value a call, and arrays.

Usage: python timing.py [repeats]      (needs: a release build of satline, numpy, pip install CoolProp==8.0.0)
Each figure: the least of the repeats, for what a shared machine adds is never negative; ns a value, the call included.
"""

import sys
import timeit

import CoolProp.CoolProp
import numpy as np
from CoolProp import AbstractState
from CoolProp.CoolProp import PropsSI

from satline import Refrigerant

REPEATS = int(sys.argv[1]) if len(sys.argv) > 1 else 15
ROWS = 10_000
# of AbstractState: quality and temperature, pressure and quality
QT, PQ = CoolProp.CoolProp.QT_INPUTS, CoolProp.CoolProp.PQ_INPUTS


def ns(call, calls, rows=1):
    timer = timeit.Timer(call)
    timer.timeit(max(1, calls // 10))
    return min(timer.repeat(REPEATS, calls)) / calls / rows * 1e9


def line(name, ours, *peers):
    print(f"{name:28}" + "".join(f"{figure:14.1f}" if figure else f"{'':>14}" for figure in (ours, *peers)), flush=True)


print(f"{'ns a value':28}{'satline':>14}{'AbstractState':>14}{'PropsSI':>14}")
for name, peer in [("R-134a", "R134a"), ("R-1234yf", "R1234yf")]:
    refrigerant, state = Refrigerant(name), AbstractState("HEOS", peer)
    kelvin = np.linspace(253.15, 333.15, ROWS)
    pa = refrigerant.dew_absolute_pa(temperature_k=kelvin)
    theirs = PropsSI("P", "T", kelvin, "Q", 1.0, peer)
    # the two use one equation of state; relative
    assert np.abs(pa / theirs - 1.0).max() < 1e-6, "not the same property"

    def psat():
        state.update(QT, 1.0, 280.0)
        return state.p()

    def tsat():
        state.update(PQ, 3e5, 1.0)
        return state.T()

    line(
        f"{name} psat(T), one value",
        ns(lambda: refrigerant.dew_absolute_pa(temperature_k=280.0), 50_000),
        ns(psat, 20_000),
        ns(lambda: PropsSI("P", "T", 280.0, "Q", 1.0, peer), 500),
    )
    line(
        f"{name} Tsat(p), one value",
        ns(lambda: refrigerant.dew_temperature_k(absolute_pa=3e5), 50_000),
        ns(tsat, 20_000),
        ns(lambda: PropsSI("T", "P", 3e5, "Q", 1.0, peer), 500),
    )
    line(
        f"{name} psat(T), array",
        ns(lambda: refrigerant.dew_absolute_pa(temperature_k=kelvin), 100, ROWS),
        None,
        ns(lambda: PropsSI("P", "T", kelvin, "Q", 1.0, peer), 1, ROWS),
    )
    line(
        f"{name} Tsat(p), array",
        ns(lambda: refrigerant.dew_temperature_k(absolute_pa=pa), 100, ROWS),
        None,
        ns(lambda: PropsSI("T", "P", pa, "Q", 1.0, peer), 1, ROWS),
    )
    gauge = pa - 101325.0
    line(
        f"{name} superheat, array",
        ns(lambda: refrigerant.superheat_k(gauge_pa=gauge, temperature_k=kelvin), 100, ROWS),
    )
