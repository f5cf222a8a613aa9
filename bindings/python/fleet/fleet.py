"""Superheat and subcooling as functions of Arrow arrays, and the query that every engine runs with them.

A function takes what one batch has of refrigerant, gauge pressure, line temperature and air pressure, and returns an answer or null for
each row. Pressures are in kPa, that of the air absolute; temperatures are in °C, answers in K.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache
from typing import Any

import numpy as np
import pyarrow as pa
import pyarrow.compute as pc
from numpy.typing import NDArray

from satline import Refrigerant, SatlineError

# Superheat at the evaporator outlet with a thermostatic valve, K: `SUPERHEAT` in src/expected/rules_of_thumb.rs, which a test compares.
# Common practice, no source. An orifice tube has no superheat of its own, and an internal heat exchanger adds to it.
RULE_LOW_K, RULE_HIGH_K = 3.0, 10.0
# What no line survives, °C: `PLAUSIBLE_LINE_C` in src/inspection/measurand.rs, compared likewise. Common practice, no source.
LINE_LOW_C, LINE_HIGH_C = -60.0, 150.0

# Sums are of whole µK, so that they do not depend on the order of rows: engines and runs are compared digit for digit.
QUERY = f"""
WITH computed AS (
    SELECT vehicle, suction_line_c, liquid_line_c,
        superheat_k(refrigerant, low_side_kpa, suction_line_c, air_kpa) AS of_suction_line,
        subcooling_k(refrigerant, high_side_kpa, liquid_line_c, air_kpa) AS of_liquid_line
    FROM logs
), answers AS (
    SELECT vehicle,
        CASE WHEN suction_line_c BETWEEN {LINE_LOW_C} AND {LINE_HIGH_C} THEN of_suction_line END AS superheat,
        CASE WHEN liquid_line_c BETWEEN {LINE_LOW_C} AND {LINE_HIGH_C} THEN of_liquid_line END AS subcooling
    FROM computed
), verdicts AS (
    SELECT *,
        CASE WHEN superheat < {RULE_LOW_K} THEN 'below' WHEN superheat <= {RULE_HIGH_K} THEN 'inside'
            WHEN superheat > {RULE_HIGH_K} THEN 'above' ELSE 'no answer' END AS verdict
    FROM answers
)
SELECT vehicle, verdict,
    count(*) AS readings,
    count(superheat) AS superheats,
    count(subcooling) AS subcoolings,
    min(superheat) AS least_superheat,
    max(superheat) AS most_superheat,
    sum(CAST(floor(superheat * 1e6 + 0.5) AS BIGINT)) AS superheat_uk,
    sum(CAST(floor(subcooling * 1e6 + 0.5) AS BIGINT)) AS subcooling_uk
FROM verdicts
GROUP BY vehicle, verdict
"""
VERDICTS = ("below", "inside", "above", "no answer")


def superheat_k(refrigerant: pa.Array, low_side_kpa: pa.Array, suction_line_c: pa.Array, air_kpa: pa.Array) -> pa.Array:
    """Superheat of the suction line."""
    return _each(Refrigerant.superheat_k, refrigerant, gauge_kpa=low_side_kpa, temperature_c=suction_line_c, barometer_kpa=air_kpa)


def subcooling_k(refrigerant: pa.Array, high_side_kpa: pa.Array, liquid_line_c: pa.Array, air_kpa: pa.Array) -> pa.Array:
    """Subcooling of the liquid line."""
    return _each(Refrigerant.subcooling_k, refrigerant, gauge_kpa=high_side_kpa, temperature_c=liquid_line_c, barometer_kpa=air_kpa)


def _each(method: Callable[..., NDArray[np.float64]], refrigerant: pa.Array, **columns: pa.Array) -> pa.Array:
    if not pa.types.is_dictionary(refrigerant.type):
        refrigerant = refrigerant.cast(pa.string()).dictionary_encode()
    codes = pc.fill_null(refrigerant.indices, -1).to_numpy()
    numbers = {keyword: _numbers(column) for keyword, column in columns.items()}
    answers = np.full(len(codes), math.nan)
    for code, name in enumerate(refrigerant.dictionary.to_pylist()):
        if (known := _refrigerant(name)) is None:
            continue
        rows = codes == code
        if rows.all():
            answers = method(known, **numbers)
        elif rows.any():
            answers[rows] = method(known, **{keyword: column[rows] for keyword, column in numbers.items()})
    return pa.array(answers, from_pandas=True)  # where they lie; NaN is null


def _numbers(column: pa.Array) -> NDArray[np.float64]:
    """The numbers where they lie; copied if one is missing, which becomes NaN."""
    present: NDArray[np.float64] = (pc.fill_null(column, math.nan) if column.null_count else column).to_numpy(zero_copy_only=True)
    return present


@lru_cache(maxsize=256)  # a log may have any number of misspelt names
def _refrigerant(name: str | None) -> Refrigerant | None:
    try:
        return None if name is None else Refrigerant(name)
    except SatlineError:
        return None


def in_order(answer: pa.Table) -> list[dict[str, Any]]:
    """What the query answers, by vehicle and verdict; the vehicle without a name last."""
    return sorted(answer.to_pylist(), key=lambda row: (row["vehicle"] is None, row["vehicle"], VERDICTS.index(row["verdict"])))


def page(answers: list[dict[str, Any]], shown: int = 8) -> str:
    """A table of the first vehicles, the one without a name, and all."""
    vehicles = list(dict.fromkeys(row["vehicle"] for row in answers))
    lines = [
        "INVENTED logs: the readings are of no car. Superheat below, inside and above the rule of thumb for a thermostatic valve,",
        f"{RULE_LOW_K:.0f} to {RULE_HIGH_K:.0f} K (common practice, no source), is no diagnosis.",
        "",
        f"{'vehicle':12}" + "".join(f"{title:>12}" for title in ("readings", *VERDICTS, "superheat", "subcooling")),
    ]
    for vehicle in [*vehicles[:shown], *(name for name in vehicles[shown:] if name is None), "all"]:
        rows = [row for row in answers if vehicle in ("all", row["vehicle"])]
        counts = [sum(row["readings"] for row in rows if row["verdict"] in of) for of in (VERDICTS, *((one,) for one in VERDICTS))]
        means = [_mean(rows, "superheat"), _mean(rows, "subcooling")]
        lines.append(f"{vehicle or '(no name)':12}" + "".join(f"{n:12,}" for n in counts) + "".join(f"{k:10.2f} K" for k in means))
    return "\n".join(lines)


def _mean(rows: list[dict[str, Any]], of: str) -> float:
    answered = sum(row[f"{of}s"] for row in rows)
    return sum(row[f"{of}_uk"] or 0 for row in rows) / answered / 1e6 if answered else math.nan
