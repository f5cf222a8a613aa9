"""What mypy has to accept and to refuse; `# type: ignore` that is not needed is an error too."""

import numpy as np
from numpy.typing import NDArray
from typing_extensions import assert_type

from satline import Refrigerant, Request, SatlineError, Session

r134a = Refrigerant("R-134a")
assert_type(r134a.dew_temperature_c(gauge_psi=30.0), float)
assert_type(r134a.superheat_k(gauge="30 psi", temperature="8 °C", altitude="300 m"), float)
assert_type(r134a.superheat_k(gauge_psi=np.zeros(3), temperature_c=8.0), NDArray[np.float64])
r134a.dew_temperature_c(gauge_psi="30 psi")  # type: ignore[arg-type]
r134a.dew_temperature_c(gauge=30.0)  # type: ignore[call-overload]
r134a.dew_temperature_c(pressure_psi=30.0)  # type: ignore[call-overload]
r134a.dew_absolute_kpa(absolute_kpa=300.0)  # type: ignore[call-overload]

asked: Request = {"refrigerant": "R-134a", "values": {"low-side": "22 psi"}, "compressor": "cycling"}
wrong: Request = {"refrigerant": "R-134a", "ambient": 30.0}  # type: ignore[typeddict-item]
try:
    Session().report(asked)
except SatlineError as error:
    assert_type(error.input, str | None)
