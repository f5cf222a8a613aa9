//! A refrigerant with its methods, one for each answer and unit.

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyFloat};
use satline::Temperature as T;
use satline::quantity::PressureUnit::{Bar, Kilopascal, Pascal, Psi};
use satline::quantity::StepUnit;
use satline_json::Refusal;

use crate::answers::Answer::{self, Absolute, Gauge, Subcooling, Superheat, Temperature};
use crate::answers::Side::{Bubble, Dew};
use crate::given::Given;
use crate::raised;

/// A refrigerant of the catalogue, by a name as people write it: "R-134a", "r134a", "HFO-1234yf".
///
/// The name of a method ends with the unit of its answer, and the keyword of a number with its own: `gauge_psi`, `absolute_kpa`,
/// `temperature_c`, `altitude_m`. A keyword without a unit takes text with one: `gauge="32 psi"`. Numbers may be arrays.
#[pyclass(frozen, eq, hash, module = "satline")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Refrigerant(satline::Refrigerant);

impl Refrigerant {
    fn answer<'py>(
        &self,
        py: Python<'py>,
        answer: Answer,
        keywords: Option<&Bound<'py, PyDict>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let given = Given::read(py, keywords, answer.takes())?;
        if let Some(array) = answer.each(py, self.0, &given)? {
            return Ok(array.into_any());
        }
        let one = answer.one(self.0, &given).map_err(|refusal| raised(py, refusal))?;
        Ok(PyFloat::new(py, one).into_any())
    }
}

/// The class of Python: each line of a group is a method with its answer, and a group has its keywords in common.
macro_rules! methods {
    ($($group:literal { $($about:literal $name:ident = $answer:expr;)* })*) => {
        #[pymethods]
        impl Refrigerant {
            #[new]
            fn new(py: Python<'_>, name: &str) -> PyResult<Self> {
                name.parse().map(Self).map_err(|error| raised(py, Refusal::of_only(&error, "name")))
            }

            /// Designation, such as "R-134a".
            #[getter]
            fn designation(&self) -> &'static str {
                self.0.designation()
            }

            /// Whether it is a blend, whose dew point and bubble point differ.
            #[getter]
            fn is_blend(&self) -> bool {
                self.0.is_blend()
            }

            fn __repr__(&self) -> String {
                format!("Refrigerant({:?})", self.0.designation())
            }

            fn __str__(&self) -> &'static str {
                self.0.designation()
            }

            /// For copies and pickles.
            fn __getnewargs__(&self) -> (&'static str,) {
                (self.0.designation(),)
            }

            $($(
                #[doc = $about]
                #[doc = ""]
                #[doc = $group]
                #[pyo3(signature = (**given))]
                fn $name<'py>(&self, py: Python<'py>, given: Option<&Bound<'py, PyDict>>) -> PyResult<Bound<'py, PyAny>> {
                    self.answer(py, $answer, given)
                }
            )*)*
        }
    };
}

methods! {
    "Given a pressure: gauge_ or absolute_ with pa, kpa, bar or psi, or as text gauge or absolute. Beside a gauge pressure the air: \
     barometer_ with pa, hpa, kpa or inhg, altitude_ with m or ft, or as text barometer or altitude; otherwise that of sea level. \
     Arrays answer with an array, NaN where there is no answer. Raises SatlineError for one value without an answer." {
    "Dew-point temperature, K." dew_temperature_k = Temperature(Dew, T::kelvin);
    "Dew-point temperature, °C." dew_temperature_c = Temperature(Dew, T::celsius);
    "Dew-point temperature, °F." dew_temperature_f = Temperature(Dew, T::fahrenheit);
    "Bubble-point temperature, K." bubble_temperature_k = Temperature(Bubble, T::kelvin);
    "Bubble-point temperature, °C." bubble_temperature_c = Temperature(Bubble, T::celsius);
    "Bubble-point temperature, °F." bubble_temperature_f = Temperature(Bubble, T::fahrenheit);
    }

    "Given a temperature: temperature_ with k, c or f, or as text temperature. Arrays answer with an array, NaN where there is no answer. \
     Raises SatlineError for one value without an answer." {
    "Absolute dew-point pressure, Pa." dew_absolute_pa = Absolute(Dew, Pascal);
    "Absolute dew-point pressure, kPa." dew_absolute_kpa = Absolute(Dew, Kilopascal);
    "Absolute dew-point pressure, bar." dew_absolute_bar = Absolute(Dew, Bar);
    "Absolute dew-point pressure, psi." dew_absolute_psi = Absolute(Dew, Psi);
    "Absolute bubble-point pressure, Pa." bubble_absolute_pa = Absolute(Bubble, Pascal);
    "Absolute bubble-point pressure, kPa." bubble_absolute_kpa = Absolute(Bubble, Kilopascal);
    "Absolute bubble-point pressure, bar." bubble_absolute_bar = Absolute(Bubble, Bar);
    "Absolute bubble-point pressure, psi." bubble_absolute_psi = Absolute(Bubble, Psi);
    }

    "Given a temperature: temperature_ with k, c or f, or as text temperature; and the air: barometer_ with pa, hpa, kpa or inhg, \
     altitude_ with m or ft, or as text barometer or altitude; otherwise that of sea level. Arrays answer with an array, NaN where there is \
     no answer. Raises SatlineError for one value without an answer." {
    "Dew-point pressure above that of the surrounding air, Pa." dew_gauge_pa = Gauge(Dew, Pascal);
    "Dew-point pressure above that of the surrounding air, kPa." dew_gauge_kpa = Gauge(Dew, Kilopascal);
    "Dew-point pressure above that of the surrounding air, bar." dew_gauge_bar = Gauge(Dew, Bar);
    "Dew-point pressure above that of the surrounding air, psi." dew_gauge_psi = Gauge(Dew, Psi);
    "Bubble-point pressure above that of the surrounding air, Pa." bubble_gauge_pa = Gauge(Bubble, Pascal);
    "Bubble-point pressure above that of the surrounding air, kPa." bubble_gauge_kpa = Gauge(Bubble, Kilopascal);
    "Bubble-point pressure above that of the surrounding air, bar." bubble_gauge_bar = Gauge(Bubble, Bar);
    "Bubble-point pressure above that of the surrounding air, psi." bubble_gauge_psi = Gauge(Bubble, Psi);
    }

    "Given a pressure: gauge_ or absolute_ with pa, kpa, bar or psi, or as text gauge or absolute; and the temperature of the line: \
     temperature_ with k, c or f, or as text temperature. Beside a gauge pressure the air: barometer_ with pa, hpa, kpa or inhg, altitude_ \
     with m or ft, or as text barometer or altitude; otherwise that of sea level. Arrays answer with an array, NaN where there is no \
     answer. Raises SatlineError for one value without an answer." {
    "Superheat, a difference in K: the temperature of a suction line less the dew point." superheat_k = Superheat(StepUnit::Kelvin);
    "Superheat, a difference in °F: the temperature of a suction line less the dew point." superheat_f = Superheat(StepUnit::Fahrenheit);
    "Subcooling, a difference in K: the bubble point less the temperature of a liquid line." subcooling_k = Subcooling(StepUnit::Kelvin);
    "Subcooling, a difference in °F: the bubble point less the temperature of a liquid line." subcooling_f = Subcooling(StepUnit::Fahrenheit);
    }
}
