"""Times CoolProp (HEOS and tables) through its Python low-level interface, one line per call, in ns.

Usage: python3 peers.py [repeats]      (needs: pip install CoolProp==8.0.0)
Each figure: median over repeats of one pass over 256 different inputs, per input, Python's own call cost included
(an empty method call through the wrapper is printed first, to subtract if wanted).
"""
import statistics
import sys
import time

import CoolProp
import CoolProp.CoolProp as cp
from CoolProp import AbstractState

N = 256
REPEATS = int(sys.argv[1]) if len(sys.argv) > 1 else 25


def grid(a, b):
    return [a + (b - a) * i / (N - 1) for i in range(N)]


def ns(f, inputs):
    """Median time of f over all inputs, per input, in ns."""
    for x in inputs[:16]:
        f(x)
    times = []
    for _ in range(REPEATS):
        start = time.perf_counter_ns()
        for x in inputs:
            f(x)
        times.append((time.perf_counter_ns() - start) / len(inputs))
    return statistics.median(times)


def line(fluid, backend, name, f, inputs):
    try:
        print(f"{fluid:8} {backend:14} {name:34} {ns(f, inputs):12.0f} ns", flush=True)
    except ValueError as e:
        print(f"{fluid:8} {backend:14} {name:34}       failed: {str(e)[:120]}", flush=True)


def cycle(s, fluid):
    te, sh, eta = 278.15, 8.0, 0.7
    s.update(CoolProp.QT_INPUTS, 1.0, te)
    pe = s.p()
    s.update(CoolProp.PT_INPUTS, pe, te + sh)
    h1, s1 = s.hmass(), s.smass()
    if fluid == "CO2":
        pc, t3 = 95e5, 308.15
    else:
        s.update(CoolProp.QT_INPUTS, 0.0, 323.15)
        pc, t3 = s.p(), 318.15
    s.update(CoolProp.PSmass_INPUTS, pc, s1)
    h2 = h1 + (s.hmass() - h1) / eta
    s.update(CoolProp.HmassP_INPUTS, h2, pc)
    t2 = s.T()
    s.update(CoolProp.PT_INPUTS, pc, t3)
    h3 = s.hmass()
    s.update(CoolProp.HmassP_INPUTS, h3, pe)
    return pe, pc, h1, s1, h2, t2, h3, s.Q(), (h1 - h3) / (h2 - h1)


def props(s):
    return s.rhomass(), s.hmass(), s.smass()


def run(fluid, backend):
    start = time.perf_counter()
    s = AbstractState(backend, fluid)
    first = "construction"
    s.update(CoolProp.QT_INPUTS, 1.0, 278.15)
    print(f"{fluid:8} {backend:14} {first:34} {(time.perf_counter() - start) * 1e9:12.0f} ns (once, incl. tables and first call)")
    heos = AbstractState("HEOS", fluid)
    t_hi = 300.0 if fluid == "CO2" else 333.15
    ts = grid(253.15, t_hi)
    heos_p = []
    for t in ts:
        heos.update(CoolProp.QT_INPUTS, 1.0, t)
        heos_p.append(heos.p())
    # superheated vapour 8 K above, subcooled liquid 5 K below saturation, at the same pressures
    vap = [(p, t + 8.0) for p, t in zip(heos_p, ts)]
    liq = [(p, t - 5.0) for p, t in zip(heos_p, ts)]
    vap_ph, vap_ps, liq_ph, mix_ph = [], [], [], []
    for p, t in vap:
        heos.update(CoolProp.PT_INPUTS, p, t)
        vap_ph.append((heos.hmass(), p))
        vap_ps.append((p, heos.smass()))
    for p, t in liq:
        heos.update(CoolProp.PT_INPUTS, p, t)
        liq_ph.append((heos.hmass(), p))
    for p in heos_p:
        heos.update(CoolProp.PQ_INPUTS, p, 0.3)
        mix_ph.append((heos.hmass(), p))

    def psat(t):
        s.update(CoolProp.QT_INPUTS, 1.0, t)
        return s.p()

    def tsat(p):
        s.update(CoolProp.PQ_INPUTS, p, 1.0)
        return s.T()

    def pt(x):
        s.update(CoolProp.PT_INPUTS, x[0], x[1])
        return props(s)

    def t_ph(x):
        s.update(CoolProp.HmassP_INPUTS, x[0], x[1])
        return s.T()

    def t_ps(x):
        s.update(CoolProp.PSmass_INPUTS, x[0], x[1])
        return s.T()

    line(fluid, backend, "empty call (s.molar_mass)", lambda _: s.molar_mass(), ts)
    line(fluid, backend, "psat(T)", psat, ts)
    line(fluid, backend, "Tsat(p)", tsat, heos_p)
    if backend == "HEOS":
        # psat and Tsat above come from Chebyshev expansions ("superancillary"); without them CoolProp iterates
        cp.set_config_bool(CoolProp.ENABLE_SUPERANCILLARIES, False)
        line(fluid, backend, "psat(T), no superancillary", psat, ts)
        line(fluid, backend, "Tsat(p), no superancillary", tsat, heos_p)
        cp.set_config_bool(CoolProp.ENABLE_SUPERANCILLARIES, True)
    line(fluid, backend, "rho,h,s (T,p) vapour", pt, vap)
    line(fluid, backend, "rho,h,s (T,p) liquid", pt, liq)
    if backend == "HEOS":
        for name, phase, inputs in [("vapour, phase given", CoolProp.iphase_gas, vap), ("liquid, phase given", CoolProp.iphase_liquid, liq)]:
            s.specify_phase(phase)
            line(fluid, backend, f"rho,h,s (T,p) {name}", pt, inputs)
            s.unspecify_phase()
    line(fluid, backend, "T(p,h) vapour", t_ph, vap_ph)
    line(fluid, backend, "T(p,h) liquid", t_ph, liq_ph)
    line(fluid, backend, "T(p,h) two-phase", t_ph, mix_ph)
    line(fluid, backend, "T(p,s) vapour", t_ps, vap_ps)
    line(fluid, backend, "four-point cycle", lambda _: cycle(s, fluid), ts[:32])
    pe, pc, h1, s1, h2, t2, h3, x4, cop = cycle(s, fluid)
    print(f"{fluid:8} {backend:14} cycle: pe {pe/1e5:.5f} bar pc {pc/1e5:.5f} bar h1 {h1/1e3:.4f} s1 {s1/1e3:.6f} h2 {h2/1e3:.4f} T2 {t2-273.15:.4f} degC h3 {h3/1e3:.4f} x4 {x4:.5f} COP {cop:.5f}")


if __name__ == "__main__":
    print(f"CoolProp {CoolProp.__version__} {cp.get_global_param_string('gitrevision')}, Python {sys.version.split()[0]}, {REPEATS} repeats of {N} inputs")
    cp.set_reference_state("CO2", "IIR")
    cp.set_reference_state("R134a", "IIR")
    cp.set_reference_state("R1234yf", "IIR")
    for fluid in ["R134a", "R1234yf", "CO2"]:
        for backend in ["HEOS", "BICUBIC&HEOS"]:
            try:
                run(fluid, backend)
            except ValueError as e:
                print(f"{fluid:8} {backend:14} failed: {str(e)[:200]}", flush=True)
