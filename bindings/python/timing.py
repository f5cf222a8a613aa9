"""Times satline and CoolProp in Python in one run: one value a call, and arrays.

Usage: python timing.py [repeats]      (needs: a release build of satline, numpy, pip install CoolProp==8.0.0)
Each figure: ns a value, the call included; the least of the repeats, for what a shared machine adds is never negative.
"""

import sys
import timeit

import CoolProp
import numpy as np
from CoolProp import AbstractState
from CoolProp.CoolProp import PropsSI

from satline import Refrigerant

REPEATS = int(sys.argv[1]) if len(sys.argv) > 1 else 100
ROWS = 10_000


def ns(call, calls, rows=1, **names):
    timer = timeit.Timer(call, globals=names)
    timer.timeit(calls)
    return min(timer.repeat(max(2, REPEATS if calls > 1 else REPEATS // 10), calls)) / calls / rows * 1e9


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

    qt, pq = CoolProp.QT_INPUTS, CoolProp.PQ_INPUTS
    names = {"r": refrigerant, "state": state, "PropsSI": PropsSI, "peer": peer, "qt": qt, "pq": pq}
    line(
        f"{name} psat(T), one value",
        ns("r.dew_absolute_pa(temperature_k=280.0)", 5_000, **names),
        ns("state.update(qt, 1.0, 280.0); state.p()", 5_000, **names),
        ns("PropsSI('P', 'T', 280.0, 'Q', 1.0, peer)", 50, **names),
    )
    line(
        f"{name} Tsat(p), one value",
        ns("r.dew_temperature_k(absolute_pa=3e5)", 5_000, **names),
        ns("state.update(pq, 3e5, 1.0); state.T()", 5_000, **names),
        ns("PropsSI('T', 'P', 3e5, 'Q', 1.0, peer)", 50, **names),
    )
    line(
        f"{name} superheat, one value",
        ns("r.superheat_k(gauge_pa=2e5, temperature_k=282.0)", 5_000, **names),
    )
    names |= {"kelvin": kelvin, "pa": pa, "gauge": pa - 101325.0}
    line(
        f"{name} psat(T), array",
        ns("r.dew_absolute_pa(temperature_k=kelvin)", 20, ROWS, **names),
        None,
        ns("PropsSI('P', 'T', kelvin, 'Q', 1.0, peer)", 1, ROWS, **names),
    )
    line(
        f"{name} Tsat(p), array",
        ns("r.dew_temperature_k(absolute_pa=pa)", 20, ROWS, **names),
        None,
        ns("PropsSI('T', 'P', pa, 'Q', 1.0, peer)", 1, ROWS, **names),
    )
    line(
        f"{name} superheat, array",
        ns("r.superheat_k(gauge_pa=gauge, temperature_k=kelvin)", 20, ROWS, **names),
    )
