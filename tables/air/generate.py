#!/usr/bin/env python3
"""Writes the reference tables of moist air in this folder. Needs CoolProp 8.0.0 and PsychroLib 2.5.0, nothing else; the
output is the same on every run.

    python3 generate.py

`moist-air-reference.csv`: the same states by two general-purpose libraries. CoolProp holds moist air as a real gas
(Herrmann, Kretzschmar & Gatley 2009), with the enhancement factor; PsychroLib holds the ideal-gas equations of ASHRAE
Handbook Fundamentals 2017, ch. 1, with the saturation pressure of Hyland & Wexler.

`water-iapws95.csv`: saturation of water by the scientific standard IAPWS-95, from CoolProp.
"""

from pathlib import Path

import CoolProp
import CoolProp.CoolProp as CP
import psychrolib

HERE = Path(__file__).parent
# sea level, 1000 m and 3000 m of the U.S. Standard Atmosphere 1976, in whole pascals
PRESSURES = [101325, 89876, 70121]
CELSIUS = [-20, -10, -5, 5, 15, 20, 25, 30, 35, 40, 45, 50]
HUMIDITY = [0.2, 0.5, 0.8, 1.0]


def write(name, head, columns, rows):
    lines = [f"# {key:<9} {fact}" for key, fact in head + [("rows", str(len(rows)))]]
    (HERE / name).write_text("\n".join(lines + [columns] + rows) + "\n")


def moist_air():
    psychrolib.SetUnitSystem(psychrolib.SI)
    psychrolib.PSYCHROLIB_TOLERANCE = 1e-7  # °C; as shipped it stops at 0.001
    rows = []
    for p in PRESSURES:
        for t in CELSIUS:
            for phi in HUMIDITY:
                real = [CP.HAPropsSI(out, "T", t + 273.15, "P", p, "R", phi) for out in ("W", "D", "B", "H", "Vda")]
                w = psychrolib.GetHumRatioFromRelHum(t, phi, p)
                dew = psychrolib.GetTDewPointFromRelHum(t, phi)
                wet = psychrolib.GetTWetBulbFromRelHum(t, phi, p)
                h = psychrolib.GetMoistAirEnthalpy(t, w)
                ideal_rho = psychrolib.GetMoistAirDensity(t, w, p)
                rho = (1 + real[0]) / real[4]
                rows.append(f"{p},{t},{phi},{real[0]:.9f},{real[1] - 273.15:.5f},{real[2] - 273.15:.5f},{real[3]:.2f},"
                            f"{rho:.7f},{w:.9f},{dew:.5f},{wet:.5f},{h:.2f},{ideal_rho:.7f}")
    write("moist-air-reference.csv", [
        ("title", "Moist air at 101325, 89876 and 70121 Pa (sea level, 1000 m, 3000 m), real and ideal gas"),
        ("kind", "evaluated values"),
        ("licence", "values computed for these tables with CoolProp and PsychroLib, both MIT (from memory)"),
        ("source", "columns real_*: S. Herrmann, H.-J. Kretzschmar, D. P. Gatley, Thermodynamic Properties of Real Moist Air, "
                   "HVAC&R Research 15(5) (2009) 961-986"),
        ("source", "columns ideal_*: ASHRAE Handbook Fundamentals 2017 (SI), ch. 1, eqs. 5, 6, 11, 20, 22, 26, 30, 33, 35"),
        ("reached", f"not printed tables: computed by generate.py in this folder, real with CoolProp {CoolProp.__version__} "
                    "(HAPropsSI), ideal with PsychroLib 2.5.0"),
        ("equation", "real_*: a real-gas mixture, independent of this crate; ideal_*: the equations of this crate but for "
                     "the saturation pressure, which is that of Hyland & Wexler 1983"),
        ("trust", "B  evaluated from published equations"),
        ("columns", "pressure in Pa, absolute; temperature in degC; relative humidity as a fraction, over ice below 0 degC; "
                    "humidity ratio in kg/kg dry air; dew point (frost point below 0 degC) and wet bulb in degC; enthalpy "
                    "in J/kg dry air, zero for dry air and liquid water at 0 degC (real: at the triple point, 101325 Pa); density in kg/m3"),
        ("entry", "pressure, temperature and relative humidity"),
    ], "pressure_Pa,temperature_C,relative_humidity,real_humidity_ratio,real_dew_point_C,real_wet_bulb_C,real_enthalpy_J_kg,"
       "real_density_kg_m3,ideal_humidity_ratio,ideal_dew_point_C,ideal_wet_bulb_C,ideal_enthalpy_J_kg,ideal_density_kg_m3",
        rows)


def water():
    rows = []
    kelvin = [273.16] + [273.15 + t for t in list(range(5, 100, 5)) + list(range(100, 370, 10)) + [370, 373]]
    for t in kelvin:
        rows.append(f"{t:.2f},{CP.PropsSI('P', 'T', t, 'Q', 1, 'Water'):.8g}")
    write("water-iapws95.csv", [
        ("title", "Water, saturation pressure over liquid, triple point to 373 degC"),
        ("kind", "evaluated values"),
        ("licence", "values computed for these tables; the coefficients are those of a published paper; evaluated with "
                    "CoolProp, MIT (from memory)"),
        ("source", "W. Wagner, A. Pruss, The IAPWS Formulation 1995, J. Phys. Chem. Ref. Data 31(2) (2002) 387-535, "
                   "doi 10.1063/1.1461829"),
        ("reached", f"not a printed table: computed by generate.py in this folder with CoolProp {CoolProp.__version__}"),
        ("equation", "the full equation of state; the crate carries the shorter release SR1-86(1992), which it superseded"),
        ("trust", "B  evaluated from published coefficients"),
        ("columns", "temperature in K (ITS-90); pressure in Pa, absolute"),
        ("entry", "temperature"),
        ("digits", "8 significant"),
    ], "temperature_K,pressure_Pa", rows)


if __name__ == "__main__":
    moist_air()
    water()
