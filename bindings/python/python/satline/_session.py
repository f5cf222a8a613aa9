"""The diagnosis: a dictionary in, a dictionary out."""

from __future__ import annotations

import json
from typing import Any, Literal, TypedDict, Union

from satline import _native

# Values by the ids of their measurands, each as text with its unit; `names()["measurands"]` lists them.
Values = TypedDict(
    "Values",
    {
        "low-side": str,
        "high-side": str,
        "suction-line": str,
        "evaporator-outlet": str,
        "liquid-line": str,
        "discharge-line": str,
        "vent": str,
        "clutch-duty-cycle": str,
        "equalised-pressure": str,
    },
    total=False,
)

_Minutes = TypedDict("_Minutes", {"minutes": float}, total=False)


class Settings(TypedDict):
    """Settings of the car while it was read; `blower` is a share of the highest, such as "100 %", `driving` a speed in km/h."""

    engine: Union[Literal["idle"], dict[Literal["rpm"], float]]
    motion: Union[Literal["standing"], dict[Literal["driving"], float]]
    intake: Union[Literal["fresh", "doors-open"], dict[Literal["window-open", "shut"], _Minutes]]
    blower: str


class Also(TypedDict):
    """A reading of the same circuit with other settings."""

    values: Values
    settings: Settings


class _Required(TypedDict):
    refrigerant: str


class Request(_Required, total=False):
    """What was read, and what is known of the circuit; `bindings/json/README.md` of the project describes the fields."""

    values: Values
    ambient: str
    humidity: str
    altitude: str
    barometer: str
    equalised_temperature: str
    at_rest: bool
    settings: Settings
    also: list[Also]
    recovered: str
    nominal_charge: str
    found: list[str]
    not_found: list[str]
    compressor: Literal["cycling", "internal", "external", "electric"]
    expansion: Literal["thermostatic-valve", "orifice-tube", "electronic-valve"]
    rear_evaporator: bool
    service_ports: dict[Literal["low", "high"], Literal["near-compressor", "away-from-compressor"]]
    baselines: list[str]
    instruments: Literal["analogue", "digital"]
    low_scale: str
    high_scale: str
    prior: Union[Literal["workshop", "uniform"], dict[str, float]]
    healthy: str
    invented: bool


class Session:
    """Diagnoses one request after another.

    Circuits that were simulated are kept, so that the next request under the same conditions is answered some twenty times sooner.
    Other threads run meanwhile; those that ask the same session wait.
    """

    def __init__(self) -> None:
        self._native = _native.Session()

    def report(self, request: Request | str) -> dict[str, Any]:
        """The report on a request, which is a dictionary or JSON: advice, verdicts, causes, and the cautions that belong beside them.

        Raises SatlineError for what is refused.
        """
        report: dict[str, Any] = json.loads(self.report_json(request))
        return report

    def report_json(self, request: Request | str) -> str:
        """The report as JSON, byte for byte what `cargo run --example read_gauges -- --json` prints for the same values."""
        return self._native.report(_json(request))

    def page(
        self, request: Request | str, language: Literal["english", "spanish"] = "english", whole: bool = False
    ) -> str:
        """The page on a request, as one HTML document; `whole` adds charts and sources."""
        asked = json.loads(request) if isinstance(request, str) else request
        return self._native.page(json.dumps({"request": asked, "language": language, "whole": whole}))


def names() -> dict[str, list[str]]:
    """The names that a request may contain: refrigerants, measurands and observations."""
    lists: dict[str, list[str]] = json.loads(_native.names())
    return lists


def _json(request: Request | str) -> str:
    return request if isinstance(request, str) else json.dumps(request)
