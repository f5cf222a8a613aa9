"""Writes a partitioned Parquet data set of INVENTED logs, the same for the same options.

Usage: python invented_logs.py DIRECTORY [--rows 300000] [--vehicles 40] [--days 14] [--seed 134]

Refrigerants are real, vehicles, readings and faults of the log are not. All numbers below are our choice, to look like a log.
"""

from __future__ import annotations

import argparse
from datetime import date, timedelta
from pathlib import Path

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq

from satline import Refrigerant

BLOCK = 65_536  # rows drawn and written at once, so that memory does not grow with the data set
FIRST_DAY = date(2026, 7, 1)
NAMES = ["R-134a", "R-1234yf", "R-1234", "nothing of the kind"]  # the last two are no refrigerant, and R-1234 is not said in full
R134A, R1234YF, *MISSPELT = range(len(NAMES))
# one row in so many has a bad value, of each kind
ONE_IN = 400
BAD: dict[str, list[float | None]] = {
    "low_side_kpa": [None, np.nan, -150.0, 99_999.0],  # lost; lost by the logger; below vacuum; the end of a converter
    "high_side_kpa": [None, np.nan, -101.5, 9_000.0],  # the last is above the critical pressure
    "suction_line_c": [None, np.inf, -400.0],  # the last is below absolute zero
    "liquid_line_c": [None, np.nan, 3_276.7],
    "ambient_c": [None],
    "air_kpa": [None, 0.0, 1.013, 1013.0],  # in bar and in hPa, where the column is in kPa
    "refrigerant": [None, *MISSPELT],
    "vehicle": [None],
}
SCHEMA = pa.schema(
    [
        ("vehicle", pa.dictionary(pa.int32(), pa.string())),
        ("time", pa.timestamp("ms")),
        ("refrigerant", pa.dictionary(pa.int32(), pa.string())),
        ("low_side_kpa", pa.float64()),
        ("high_side_kpa", pa.float64()),
        ("suction_line_c", pa.float64()),
        ("liquid_line_c", pa.float64()),
        ("ambient_c", pa.float64()),
        ("air_kpa", pa.float64()),
    ],
    metadata={"about": "INVENTED: readings of no car, drawn at random by invented_logs.py; gauge pressures, air pressure absolute"},
)


def block(day: int, first: int, rows: int, rows_a_day: int, vehicles: int, seed: int) -> pa.Table:
    """Rows `first` and following of a day: one vehicle after another, each through its day."""
    random = np.random.default_rng([seed, day, first])
    at = np.arange(first, first + rows)
    vehicle = at * vehicles // rows_a_day
    since_midnight = (at * vehicles % rows_a_day) * 86_400_000 // rows_a_day
    midnight = np.datetime64(FIRST_DAY + timedelta(days=day), "ms")

    refrigerant = np.where(vehicle % 3 == 0, R134A, R1234YF)  # one car in three is an older one
    ambient = random.normal(27.0, 5.0, rows)
    air = random.normal(98.0, 2.0, rows)
    evaporating = random.normal(3.0, 2.0, rows)
    condensing = ambient + random.normal(22.0, 3.0, rows)
    low, high = np.empty(rows), np.empty(rows)
    for code in (R134A, R1234YF):
        of, fluid = refrigerant == code, Refrigerant(NAMES[code])
        low[of] = fluid.dew_gauge_kpa(temperature_c=evaporating[of], barometer_kpa=air[of])
        high[of] = fluid.bubble_gauge_kpa(temperature_c=condensing[of], barometer_kpa=air[of])
    columns = {
        "low_side_kpa": low.round(1),
        "high_side_kpa": high.round(1),
        "suction_line_c": (evaporating + random.normal(4.0 + vehicle % 7, 2.0)).round(2),
        "liquid_line_c": (condensing - random.normal(5.0, 2.0, rows)).round(2),
        "ambient_c": ambient.round(2),
        "air_kpa": air.round(2),
        "refrigerant": refrigerant,
        "vehicle": vehicle,
    }
    missing = {name: np.zeros(rows, bool) for name in columns}
    for name, values in BAD.items():
        for value in values:
            struck = random.integers(ONE_IN, size=rows) == 0
            missing[name] = np.where(struck, value is None, missing[name])
            if value is not None:
                columns[name][struck] = value
    arrays = {name: pa.array(column, mask=missing[name]) for name, column in columns.items()}
    arrays["time"] = pa.array(midnight + since_midnight.astype("timedelta64[ms]"))
    arrays["refrigerant"] = pa.DictionaryArray.from_arrays(arrays["refrigerant"].cast(pa.int32()), NAMES)
    arrays["vehicle"] = pa.DictionaryArray.from_arrays(
        arrays["vehicle"].cast(pa.int32()), [f"invented-{number:03}" for number in range(vehicles)]
    )
    return pa.table([arrays[name] for name in SCHEMA.names], schema=SCHEMA)


def write(directory: Path, rows: int = 300_000, vehicles: int = 40, days: int = 14, seed: int = 134) -> None:
    """One file a day, in a directory that says the day; days of the same length but the last."""
    for day in range(days):
        rows_a_day = rows * (day + 1) // days - rows * day // days
        partition = directory / f"day={FIRST_DAY + timedelta(days=day)}"
        partition.mkdir(parents=True)
        with pq.ParquetWriter(partition / "logs.parquet", SCHEMA) as writer:
            for first in range(0, rows_a_day, BLOCK):
                writer.write_table(block(day, first, min(BLOCK, rows_a_day - first), rows_a_day, vehicles, seed))


def main() -> None:
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("directory", type=Path)
    options.add_argument("--rows", type=int, default=300_000)
    options.add_argument("--vehicles", type=int, default=40)
    options.add_argument("--days", type=int, default=14)
    options.add_argument("--seed", type=int, default=134)
    given = options.parse_args()
    write(**vars(given))
    size = sum(file.stat().st_size for file in given.directory.rglob("*.parquet"))
    print(f"{given.rows:,} INVENTED rows of {given.vehicles} vehicles in {given.days} files, {size / 1e6:.0f} MB")


if __name__ == "__main__":
    main()
