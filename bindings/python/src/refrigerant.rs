//! A refrigerant with its methods, one for each answer and unit.

#![allow(clippy::too_many_arguments)] // they are keywords in Python

use pyo3::prelude::*;
use pyo3::types::PyFloat;
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
        keywords: &[(&'static str, Option<&Bound<'py, PyAny>>)],
    ) -> PyResult<Bound<'py, PyAny>> {
        let given = Given::read(py, keywords, answer)?;
        if let Some(array) = answer.each(py, self.0, &given)? {
            return Ok(array.into_any());
        }
        let one = answer.one(self.0, &given).map_err(|refusal| raised(py, refusal))?;
        Ok(PyFloat::new(py, one).into_any())
    }
}

/// The class of Python. Each group has what its methods say of their keywords, the keywords, and the methods, each with its answer; they are
/// written one after another, because `pymethods` needs all of them in one block.
macro_rules! methods {
    (@write [$($written:tt)*]) => {
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

            $($written)*
        }
    };
    (@write $written:tt $group:tt {} $($groups:tt)*) => {
        methods! { @write $written $($groups)* }
    };
    (@write [$($written:tt)*] [$about:literal $($keyword:ident)*] { $first:literal $name:ident = $answer:expr; $($methods:tt)* } $($groups:tt)*) => {
        methods! {
            @write [
                $($written)*
                #[doc = $first]
                #[doc = ""]
                #[doc = $about]
                #[pyo3(signature = (*, $($keyword = None),*))]
                fn $name<'py>(
                    &self,
                    py: Python<'py>,
                    $($keyword: Option<&Bound<'py, PyAny>>),*
                ) -> PyResult<Bound<'py, PyAny>> {
                    self.answer(py, $answer, &[$((stringify!($keyword), $keyword)),*])
                }
            ]
            [$about $($keyword)*] { $($methods)* } $($groups)*
        }
    };
    ($($groups:tt)*) => {
        methods! { @write [] $($groups)* }
    };
}

methods! {
    ["Of a pressure, and beside a gauge pressure of the air, which otherwise is that of sea level. Arrays answer with an array, NaN \
     where there is no answer. Raises SatlineError for one value without an answer."
        gauge gauge_pa gauge_kpa gauge_bar gauge_psi absolute absolute_pa absolute_kpa absolute_bar absolute_psi
        barometer barometer_pa barometer_hpa barometer_kpa barometer_inhg altitude altitude_m altitude_ft
    ] {
        "Dew-point temperature, K." dew_temperature_k = Temperature(Dew, T::kelvin);
        "Dew-point temperature, °C." dew_temperature_c = Temperature(Dew, T::celsius);
        "Dew-point temperature, °F." dew_temperature_f = Temperature(Dew, T::fahrenheit);
        "Bubble-point temperature, K." bubble_temperature_k = Temperature(Bubble, T::kelvin);
        "Bubble-point temperature, °C." bubble_temperature_c = Temperature(Bubble, T::celsius);
        "Bubble-point temperature, °F." bubble_temperature_f = Temperature(Bubble, T::fahrenheit);
    }
    ["Of a temperature. Arrays answer with an array, NaN where there is no answer. Raises SatlineError for one value without an \
     answer."
        temperature temperature_k temperature_c temperature_f
    ] {
        "Absolute dew-point pressure, Pa." dew_absolute_pa = Absolute(Dew, Pascal);
        "Absolute dew-point pressure, kPa." dew_absolute_kpa = Absolute(Dew, Kilopascal);
        "Absolute dew-point pressure, bar." dew_absolute_bar = Absolute(Dew, Bar);
        "Absolute dew-point pressure, psi." dew_absolute_psi = Absolute(Dew, Psi);
        "Absolute bubble-point pressure, Pa." bubble_absolute_pa = Absolute(Bubble, Pascal);
        "Absolute bubble-point pressure, kPa." bubble_absolute_kpa = Absolute(Bubble, Kilopascal);
        "Absolute bubble-point pressure, bar." bubble_absolute_bar = Absolute(Bubble, Bar);
        "Absolute bubble-point pressure, psi." bubble_absolute_psi = Absolute(Bubble, Psi);
    }
    ["Of a temperature, and of the air, which otherwise is that of sea level. Arrays answer with an array, NaN where there is no \
     answer. Raises SatlineError for one value without an answer."
        temperature temperature_k temperature_c temperature_f
        barometer barometer_pa barometer_hpa barometer_kpa barometer_inhg altitude altitude_m altitude_ft
    ] {
        "Dew-point pressure above that of the surrounding air, Pa." dew_gauge_pa = Gauge(Dew, Pascal);
        "Dew-point pressure above that of the surrounding air, kPa." dew_gauge_kpa = Gauge(Dew, Kilopascal);
        "Dew-point pressure above that of the surrounding air, bar." dew_gauge_bar = Gauge(Dew, Bar);
        "Dew-point pressure above that of the surrounding air, psi." dew_gauge_psi = Gauge(Dew, Psi);
        "Bubble-point pressure above that of the surrounding air, Pa." bubble_gauge_pa = Gauge(Bubble, Pascal);
        "Bubble-point pressure above that of the surrounding air, kPa." bubble_gauge_kpa = Gauge(Bubble, Kilopascal);
        "Bubble-point pressure above that of the surrounding air, bar." bubble_gauge_bar = Gauge(Bubble, Bar);
        "Bubble-point pressure above that of the surrounding air, psi." bubble_gauge_psi = Gauge(Bubble, Psi);
    }
    ["Of a pressure, of the temperature of the line, and beside a gauge pressure of the air, which otherwise is that of sea level. \
     Arrays answer with an array, NaN where there is no answer. Raises SatlineError for one value without an answer."
        gauge gauge_pa gauge_kpa gauge_bar gauge_psi absolute absolute_pa absolute_kpa absolute_bar absolute_psi
        temperature temperature_k temperature_c temperature_f
        barometer barometer_pa barometer_hpa barometer_kpa barometer_inhg altitude altitude_m altitude_ft
    ] {
        "Superheat, a difference in K: the temperature of a suction line less the dew point." superheat_k = Superheat(StepUnit::Kelvin);
        "Superheat, a difference in °F: the temperature of a suction line less the dew point." superheat_f = Superheat(StepUnit::Fahrenheit);
        "Subcooling, a difference in K: the bubble point less the temperature of a liquid line." subcooling_k = Subcooling(StepUnit::Kelvin);
        "Subcooling, a difference in °F: the bubble point less the temperature of a liquid line." subcooling_f = Subcooling(StepUnit::Fahrenheit);
    }
}
