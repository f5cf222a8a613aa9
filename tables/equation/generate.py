#!/usr/bin/env python3
"""Writes the saturation tables in this folder. Needs CoolProp 8.0.0, nothing else; the output is the same on every run.

    python3 generate.py

For each fluid two files: `<name>.csv`, a grid that grows finer towards the critical point, and `<name>-random.csv`,
2000 temperatures between the same limits.

Pure fluids. The pressure is the real phase equilibrium of the equation of state, never an auxiliary vapour-pressure fit.
CoolProp holds Chebyshev expansions ("superancillaries") of the two densities in equilibrium, made from the equation in
extended precision. We take the vapour density from them and the pressure from the equation at that density: every row of
the grids agrees within 5e-12, the rounding of its 12 digits, with a solution in 40-digit arithmetic. The pressure CoolProp
itself reports comes from a third expansion, made in double precision: it is off by up to 6e-4 where the pressure is below
1 Pa (R-290 at its triple point), by less than 1e-9 above 150 Pa.

Blends. The equations are pseudo-pure: they have no phase equilibrium of their own. Bubble and dew pressure are the two
lines published with them, which is what CoolProp evaluates.
"""

import json
from pathlib import Path

import CoolProp
import CoolProp.CoolProp as CP

HERE = Path(__file__).parent
SEED = 20220808
RANDOM_ROWS = 2000

LEMMON_2003 = ("E. W. Lemmon, Pseudo-Pure Fluid Equations of State for the Refrigerant Blends R-410A, R-404A, R-507A, and "
               "R-407C, Int. J. Thermophys. 24(4) (2003) 991-1006, doi 10.1023/A:1025048800563")
NONE = "no difference between CoolProp's copy and other transcriptions of the equation that would move the saturation pressure"

# name, designation, CoolProp's name, lower limit K, critical (blends: reference) temperature K, source, notes
FLUIDS = [
    ("r134a", "R-134a", "R134a", "169.85", "374.21",
     "R. Tillner-Roth, H. D. Baehr, An International Standard Formulation for the Thermodynamic Properties of "
     "1,1,1,2-Tetrafluoroethane (HFC-134a) for Temperatures from 170 K to 455 K and Pressures up to 70 MPa, "
     "J. Phys. Chem. Ref. Data 23(5) (1994) 657-729, doi 10.1063/1.555958",
     ["CoolProp rounds the reducing density: 1.5e-11 in saturation pressure",
      "374.21 K is the critical temperature CoolProp lists; the slope dp/drho of the equation vanishes at 374.21197 K"]),
    ("r1234yf", "R-1234yf", "R1234yf", "121.6", "367.85",
     "E. W. Lemmon, R. Akasaka, An International Standard Formulation for 2,3,3,3-Tetrafluoroprop-1-ene (R1234yf) Covering "
     "Temperatures from the Triple Point Temperature to 410 K and Pressures Up to 100 MPa, "
     "Int. J. Thermophys. 43(8) (2022) 119, doi 10.1007/s10765-022-03015-y",
     ["the equation of 2022 (CoolProp's first for this fluid), not the one of 2011, which is 0.28 % higher at 233.15 K",
      "CoolProp's vapour-pressure auxiliary has the exponent 3.0 for 2.0 in its third term; it is not used here, no effect"]),
    ("r744", "R-744", "CO2", "216.592", "304.1282",
     "R. Span, W. Wagner, A New Equation of State for Carbon Dioxide Covering the Fluid Region from the Triple Point "
     "Temperature to 1100 K at Pressures up to 800 MPa, J. Phys. Chem. Ref. Data 25 (1996) 1509-1596, doi 10.1063/1.555991",
     [NONE]),
    ("r152a", "R-152a", "R152A", "154.56", "386.411",
     "S. L. Outcalt, M. O. McLinden, A Modified Benedict-Webb-Rubin Equation of State for the Thermodynamic Properties of "
     "R152a (1,1-difluoroethane), J. Phys. Chem. Ref. Data 25(2) (1996) 605-636, doi 10.1063/1.555979",
     ["CoolProp lists a critical pressure of 4520 kPa, the equation gives 4516.75 kPa; the table follows the equation"]),
    ("r290", "R-290", "n-Propane", "85.525", "369.89",
     "E. W. Lemmon, M. O. McLinden, W. Wagner, Thermodynamic Properties of Propane. III. A Reference Equation of State for "
     "Temperatures from the Melting Line to 650 K and Pressures up to 1000 MPa, "
     "J. Chem. Eng. Data 54 (2009) 3141-3180, doi 10.1021/je900217v",
     ["CoolProp rounds constants of the ideal part to seven digits; no effect on saturation pressure"]),
    ("r12", "R-12", "R12", "116.099", "385.12",
     "V. Marx, A. Pruss, W. Wagner, Neue Zustandsgleichungen fuer R12, R22, R11 und R113 (title not verified), "
     "Fortschr.-Ber. VDI, Reihe 19, Nr. 57, VDI Verlag, Duesseldorf (1992), no doi",
     ["two transcriptions differ by 4.7e-6 in the ideal heat capacity; no effect on saturation pressure"]),
    ("r600a", "R-600a", "IsoButane", "113.73", "407.81",
     "D. Buecker, W. Wagner, Reference Equations of State for the Thermodynamic Properties of Fluid Phase n-Butane and "
     "Isobutane, J. Phys. Chem. Ref. Data 35(2) (2006) 929-1019, doi 10.1063/1.1901687",
     ["CoolProp lists a critical temperature of 407.817 K, that of the equation is 407.81 K; the table ends below the latter, "
      "no effect on saturation pressure"]),
    ("r22", "R-22", "R22", "115.73", "369.295",
     "A. Kamei, S. W. Beyerlein, R. T. Jacobsen, Application of Nonlinear Regression in the Development of a Wide Range "
     "Formulation for HCFC-22, Int. J. Thermophys. 16(5) (1995) 1155-1164, doi 10.1007/BF02081283",
     [NONE]),
    ("r1234ze", "R-1234ze(E)", "R1234ze(E)", "168.62", "382.513",
     "M. Thol, E. W. Lemmon, Equation of State for the Thermodynamic Properties of trans-1,3,3,3-Tetrafluoropropene "
     "[R-1234ze(E)], Int. J. Thermophys. 37(3) (2016) 1-16, doi 10.1007/s10765-016-2040-6",
     ["CoolProp has the gas constant 8.314472 J/(mol K) where the paper's printed values need 8.3144621: "
      "the pressures here are 1.191e-6 too high, everywhere alike",
      "CoolProp lists the critical temperature 382.52 K of an older equation, that of 2016 has 382.513 K; no effect"]),
    ("r32", "R-32", "R32", "136.34", "351.255",
     "R. Tillner-Roth, A. Yokozeki, An international standard equation of state for difluoromethane (R-32) for temperatures "
     "from the triple point at 136.34 K to 435 K and pressures up to 70 MPa, "
     "J. Phys. Chem. Ref. Data 26(6) (1997) 1273-1328, doi 10.1063/1.556002",
     ["CoolProp rounds the reducing density: 2.9e-9 in saturation pressure",
      "CoolProp lists a critical pressure of 5782 kPa, the equation gives 5782.65 kPa; the table follows the equation"]),
    ("r125", "R-125", "R125", "172.52", "339.173",
     "E. W. Lemmon, R. T. Jacobsen, A New Functional Form and New Fitting Techniques for Equations of State with Application "
     "to Pentafluoroethane (HFC-125), J. Phys. Chem. Ref. Data 34(1) (2005) 69-108, doi 10.1063/1.1797813",
     ["CoolProp rounds constants of the ideal part to five digits or more; no effect on saturation pressure",
      "339.173 K is the critical temperature listed; the slope dp/drho of the equation vanishes at 339.17728 K"]),
    ("r143a", "R-143a", "R143a", "161.34", "345.857",
     "E. W. Lemmon, R. T. Jacobsen, An International Standard Formulation for the Thermodynamic Properties of "
     "1,1,1-Trifluoroethane (HFC-143a) for Temperatures From 161 to 450 K and Pressures to 50 MPa, "
     "J. Phys. Chem. Ref. Data 29(4) (2000) 521-552, doi 10.1063/1.1318909",
     [NONE]),
    ("r404a", "R-404A", "R404A", "200", "345.27", LEMMON_2003,
     ["the published bubble and dew equations themselves",
      "last coefficient of the bubble equation -3.9771; another transcription has +3.9771, 0.57 % higher at 200 K, which the "
      "mixture model speaks against",
      "the bubble equation exceeds its own end value, 3734.8 kPa at 345.27 K, from 345.2643 K on, by at most 3.4e-5 at "
      "345.2685 K; it rises throughout this table"]),
    ("r407c", "R-407C", "R407C", "200", "359.345", LEMMON_2003,
     ["the published bubble and dew equations themselves",
      "the bubble equation exceeds its own end value, 4631.7 kPa at 359.345 K, from 358.9474 K on, peaks 0.24 % above it at "
      "359.2467 K and falls from there: the last rows of the bubble column fall",
      "CoolProp shortens the last residual coefficient to -0.003615; no effect on the two lines"]),
    ("r410a", "R-410A", "R410A", "200", "344.494", LEMMON_2003,
     ["the published bubble and dew equations themselves"]),
    ("r507a", "R-507A", "R507A", "200", "343.765", LEMMON_2003,
     ["the published bubble and dew equations themselves",
      "CoolProp has the reducing density 4964.03 mol/m3 for 4964; no effect on the two lines"]),
]


def tenths_of_mk(kelvin):
    """A temperature written with up to four decimals as a whole number of 0.1 mK, so that the grid is exact."""
    whole, _, decimals = kelvin.partition(".")
    return int(whole) * 10_000 + int(decimals.ljust(4, "0"))


def grid(lower, critical):
    """Every 1 K; in the last 10 K every 0.1 K; in the last 1 K every 0.01 K, to 0.01 K or a little more below critical.

    The lower limit comes first, then round temperatures.
    """
    low, high = tenths_of_mk(lower), tenths_of_mk(critical)
    edges = [(low, 10_000), (high - 100_000, 1_000), (high - 10_000, 100), (high - 99, None)]
    points = [low]
    for (start, step), (end, _) in zip(edges, edges[1:]):
        first = -(-start // step) * step
        points += [t for t in range(first, end, step) if t > points[-1]]
    return [f"{t / 10_000:.3f}" for t in points]


def uniform(seed):
    """SplitMix64 (Steele, Lea & Flood 2014); the upper 53 bits of each number as a fraction in [0, 1)."""
    mask = 2**64 - 1
    while True:
        seed = (seed + 0x9E3779B97F4A7C15) & mask
        z = seed
        z = ((z ^ z >> 30) * 0xBF58476D1CE4E5B9) & mask
        z = ((z ^ z >> 27) * 0x94D049BB133111EB) & mask
        yield ((z ^ z >> 31) >> 11) / 2**53


def random(lower, critical):
    low, high = float(lower), float(critical) - 0.01
    return [f"{low + (high - low) * u:.6f}" for u, _ in zip(uniform(SEED), range(RANDOM_ROWS))]


class Pure:
    columns = ["temperature_K", "pressure_Pa"]
    quantity = "saturation pressure"

    def __init__(self, name):
        self.equilibrium = CP.AbstractState("HEOS", name)
        self.vapour = CP.AbstractState("HEOS", name)
        self.vapour.specify_phase(CP.iphase_gas)  # evaluate at the density as given, search for nothing

    def pressures(self, kelvin):
        self.equilibrium.update_QT_pure_superanc(1.0, kelvin)
        self.vapour.update(CP.DmolarT_INPUTS, self.equilibrium.rhomolar(), kelvin)
        return [self.vapour.p()]


class Blend:
    columns = ["temperature_K", "bubble_Pa", "dew_Pa"]
    quantity = "bubble and dew pressure"

    def __init__(self, name):
        self.equation = CP.AbstractState("HEOS", name)

    def pressures(self, kelvin):
        # for a pseudo-pure equation CoolProp's "ancillary" pressures are the published lines
        return [self.equation.saturation_ancillary(CP.iP, quality, CP.iT, kelvin) for quality in (0, 1)]


def write(path, title, source, notes, model, kelvins, entry):
    header = [("title", title), ("kind", "evaluated values"),
              ("licence", "values computed for these tables; the coefficients are those of a published paper; "
                          "evaluated with CoolProp, MIT (from memory)"),
              ("trust", "B  evaluated from published coefficients"), ("source", source),
              ("reached", "its equation of state, evaluated with CoolProp 8.0.0; generate.py"),
              ("columns", "temperature in K; " + ("pressure" if model.columns[1] == "pressure_Pa" else
                          "bubble-point and dew-point pressure") + " in Pa, absolute"),
              ("digits", "pressure to 12 significant digits, at the temperature as written"), ("entry", entry), ("rows", str(len(kelvins)))]
    header += [("note", note) for note in notes]
    lines = [f"# {key:<10}{value}" for key, value in header]
    lines.append(",".join(model.columns))
    for kelvin in kelvins:
        lines.append(",".join([kelvin] + [f"{p:#.12g}" for p in model.pressures(float(kelvin))]))
    path.write_text("\n".join(lines) + "\n", encoding="ascii", newline="\n")


def check_coolprop():
    """The tables promise these; another version could break the promise silently."""
    assert CoolProp.__version__ == "8.0.0", CoolProp.__version__
    r1234yf = json.loads(CP.get_fluid_param_string("R1234yf", "JSON"))[0]
    assert r1234yf["EOS"][0]["BibTeX_EOS"] == "Lemmon-IJT-2022"
    r404a = json.loads(CP.get_fluid_param_string("R404A", "JSON"))[0]
    assert r404a["ANCILLARIES"]["pL"]["n"][-1] == -3.9771


def main():
    check_coolprop()
    for name, designation, coolprop_name, lower, critical, source, notes in FLUIDS:
        blend = name in ("r404a", "r407c", "r410a", "r507a")
        model = (Blend if blend else Pure)(coolprop_name)
        title = f"{designation}, {model.quantity}"
        if not blend:
            notes = notes + ["pressure of the equation at the vapour density of CoolProp's superancillary (phase equilibrium of "
                             "the equation, expanded in Chebyshev polynomials); no auxiliary vapour-pressure fit"]
        write(HERE / f"{name}.csv", title, source, notes, model, grid(lower, critical),
              f"temperature: {lower} K, then every 1 K; every 0.1 K in the last 10 K and every 0.01 K in the last 1 K "
              f"before {critical} K")
        write(HERE / f"{name}-random.csv", title + " at random temperatures", source, notes, model,
              random(lower, critical),
              f"temperature: uniform from {lower} K to 0.01 K below {critical} K, SplitMix64, seed {SEED}")


if __name__ == "__main__":
    main()
