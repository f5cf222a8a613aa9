"""satline: refrigerant properties and what a car air-conditioning gauge reading means.

>>> from satline import Refrigerant
>>> r134a = Refrigerant("R-134a")
>>> round(r134a.dew_temperature_c(gauge_psi=30.0), 1)
1.4
>>> round(r134a.superheat_k(gauge="30 psi", temperature="8 °C"), 1)
6.6

The name of a method ends with the unit of its answer, the keyword of a number with its own; gauge and absolute, dew and bubble are always
said. Numbers may be arrays of numpy.
"""

from satline._errors import SatlineError
from satline._native import Refrigerant, __version__
from satline._session import Also, Request, Session, Settings, Values, names

__all__ = ["Also", "Refrigerant", "Request", "SatlineError", "Session", "Settings", "Values", "__version__", "names"]
