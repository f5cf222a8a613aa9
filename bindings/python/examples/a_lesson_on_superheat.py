# A lesson on superheat. Run it as a program, or cell by cell in a notebook: each `# %%` begins a cell.
#
# Every reading here is invented; the properties are computed.

# %% What a gauge shows when the refrigerant boils
import numpy as np

from satline import Refrigerant, SatlineError, Session

r134a, r1234yf = Refrigerant("R-134a"), Refrigerant("R-1234yf")
celsius = np.array([-10.0, 0.0, 10.0, 30.0, 50.0])

print("temperature, °C   R-134a, kPa gauge   R-1234yf, kPa gauge")
for row in zip(celsius, r134a.dew_gauge_kpa(temperature_c=celsius), r1234yf.dew_gauge_kpa(temperature_c=celsius)):
    print("{:15.0f}   {:17.0f}   {:19.0f}".format(*row))

# %% Superheat: how much warmer the suction line is than the refrigerant that boils
# Invented: 30 psi on the low-side gauge, 48 °F on the suction line.
superheat = r134a.superheat_f(gauge="30 psi", temperature="48 °F")
print(f"\nsuperheat at sea level {superheat:.1f} °F")

# The gauge shows the difference from the air, so the same reading means less pressure on a mountain.
for height in [1000.0, 2000.0, 3000.0]:
    superheat = r134a.superheat_f(gauge_psi=30.0, temperature_f=48.0, altitude_m=height)
    print(f"the same at {height:.0f} m    {superheat:.1f} °F")

# %% Exercise: at which altitude would the same readings say 15 °F?
altitude = np.linspace(0.0, 3000.0, 301)
superheats = r134a.superheat_f(gauge_psi=30.0, temperature_f=48.0, altitude_m=altitude)
print(f"\n15 °F are reached at {altitude[np.argmax(superheats >= 15.0)]:.0f} m")

# %% A log of a minute, an answer or NaN for each row
# Invented: the valve hunts, and one reading was lost.
seconds = np.arange(0.0, 60.0, 10.0)
gauge_psi = 30.0 + 3.0 * np.sin(seconds / 8.0)
gauge_psi[2] = np.nan
suction_f = np.full_like(seconds, 48.0)
log = r134a.superheat_f(gauge_psi=gauge_psi, temperature_f=suction_f)
print(f"\nsuperheat, °F: {np.round(log, 1)}, {np.isfinite(log).sum()} of {len(log)} rows answered")

# %% A blend has two saturation temperatures: superheat belongs to the dew point, subcooling to the bubble point
r407c = Refrigerant("R-407C")
glide = r407c.dew_temperature_k(absolute_kpa=500.0) - r407c.bubble_temperature_k(absolute_kpa=500.0)
print(f"\nglide of R-407C at 500 kPa: {glide:.1f} K")

# %% What cannot be is refused, with the reason
for gauge in ["30", "30 psia", "700 psi"]:
    try:
        r134a.dew_temperature_c(gauge=gauge)
    except SatlineError as error:
        print(f"\n{error.code}: {error.message}")

# %% The whole reading, with its causes and its cautions
# Invented, and marked so in the report.
report = Session().report(
    {
        "refrigerant": "R-134a",
        "values": {"low-side": "22 psi", "high-side": "160 psi", "suction-line": "72 °F", "vent": "64 °F"},
        "ambient": "86 °F",
        "humidity": "55 %",
        "invented": True,
    }
)
leading = report["advice"]["leading"][0]
print(f"\ninvented: {report['invented']}; most likely: {' or '.join(leading['causes'])}, {leading['probability']:.0%}")
print("before anybody opens the circuit:", ", ".join(report["cautions"]))
