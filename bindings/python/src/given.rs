//! The keywords of a call: what is given, in which unit, as one number, as text or as an array.

use numpy::{PyArrayDyn, PyArrayMethods, PyReadonlyArrayDyn, PyUntypedArray, PyUntypedArrayMethods};
use pyo3::PyTypeInfo as _;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyBool, PyFloat, PyString};
use satline::quantity::{LengthUnit, PressureUnit, TemperatureUnit, instrument};
use satline::{Error, GaugePressure, Length, Pressure, Quantity, Temperature, air};
use satline_json::Refusal;

use crate::answers::Answer;
use crate::raised;

/// What a keyword means, with the unit of its numbers.
#[derive(Debug, Clone, Copy)]
pub enum Measure {
    Absolute(PressureUnit),
    Gauge(PressureUnit),
    Temperature(TemperatureUnit),
    Barometer(PressureUnit),
    Altitude(LengthUnit),
}

/// One number, or one for each element of an array.
pub enum Numbers<'py> {
    One(f64),
    Array(PyReadonlyArrayDyn<'py, f64>),
}

/// A keyword and its value.
pub struct Input<'py> {
    pub keyword: &'static str,
    pub measure: Measure,
    pub numbers: Numbers<'py>,
}

/// What a call was given.
#[derive(Default)]
pub struct Given<'py> {
    pub pressure: Option<Input<'py>>,
    pub temperature: Option<Input<'py>>,
    pub air: Option<Input<'py>>,
}

impl Measure {
    /// The meaning of a keyword, and whether its value is text.
    fn named(keyword: &str) -> Option<(Self, bool)> {
        let (quantity, unit) = keyword.split_once('_').unwrap_or((keyword, ""));
        let pressure = match unit {
            "" | "pa" => Some(PressureUnit::Pascal),
            "hpa" => Some(PressureUnit::Hectopascal),
            "kpa" => Some(PressureUnit::Kilopascal),
            "bar" => Some(PressureUnit::Bar),
            "psi" => Some(PressureUnit::Psi),
            "inhg" => Some(PressureUnit::InchOfMercury),
            _ => None,
        };
        let measure = match (quantity, unit) {
            ("temperature", "" | "k") => Self::Temperature(TemperatureUnit::Kelvin),
            ("temperature", "c") => Self::Temperature(TemperatureUnit::Celsius),
            ("temperature", "f") => Self::Temperature(TemperatureUnit::Fahrenheit),
            ("altitude", "" | "m") => Self::Altitude(LengthUnit::Metre),
            ("altitude", "ft") => Self::Altitude(LengthUnit::Foot),
            ("barometer", "" | "pa" | "hpa" | "kpa" | "inhg") => Self::Barometer(pressure?),
            ("absolute", "" | "pa" | "kpa" | "bar" | "psi") => Self::Absolute(pressure?),
            ("gauge", "" | "pa" | "kpa" | "bar" | "psi") => Self::Gauge(pressure?),
            _ => return None,
        };
        Some((measure, unit.is_empty()))
    }

    /// A text with its unit as a number in SI units.
    fn read(self, text: &str) -> Result<f64, Error> {
        match self {
            Self::Absolute(_) | Self::Barometer(_) => text.parse().map(|p: Pressure| p.si()),
            Self::Gauge(_) => text.parse().map(|p: GaugePressure| p.si()),
            Self::Temperature(_) => text.parse().map(|t: Temperature| t.si()),
            Self::Altitude(_) => text.parse().map(|z: Length| z.si()),
        }
    }

    /// A number in its SI unit, Pa or K; of barometer and altitude, the pressure of the air.
    pub fn si(self, number: f64) -> Result<f64, Error> {
        match self {
            Self::Absolute(unit) => Ok(Pressure::new(number, unit).pa()),
            Self::Gauge(unit) => Ok(GaugePressure::new(number, unit).pa()),
            Self::Temperature(unit) => Ok(Temperature::new(number, unit).kelvin()),
            Self::Barometer(unit) => Ok(instrument::barometer(Pressure::new(number, unit))?.value().pa()),
            Self::Altitude(unit) => Ok(air::pressure_at(Length::new(number, unit))?.value().pa()),
        }
    }
}

impl Input<'_> {
    /// The one number in SI units.
    pub fn one(&self, number: f64) -> Result<f64, Refusal> {
        self.measure.si(number).map_err(|error| self.refusal(&error))
    }

    /// The refusal of this input.
    pub fn refusal(&self, error: &Error) -> Refusal {
        Refusal::of_only(error, self.keyword)
    }
}

impl<'py> Given<'py> {
    /// The keywords of a call that have a value.
    pub fn read(
        py: Python<'py>,
        keywords: &[(&'static str, Option<&Bound<'py, PyAny>>)],
        answer: Answer,
    ) -> PyResult<Self> {
        let mut given = Self::default();
        for &(keyword, value) in keywords {
            let Some(value) = value else { continue };
            let (measure, is_text) =
                Measure::named(keyword).ok_or_else(|| PyTypeError::new_err(format!("{keyword} has no unit")))?;
            let place = match measure {
                Measure::Absolute(_) | Measure::Gauge(_) => &mut given.pressure,
                Measure::Temperature(_) => &mut given.temperature,
                Measure::Barometer(_) | Measure::Altitude(_) => &mut given.air,
            };
            if let Some(before) = place {
                return Err(PyTypeError::new_err(format!("give {} or {keyword}, not both", before.keyword)));
            }
            *place = Some(Input { keyword, measure, numbers: numbers(py, keyword, value, measure, is_text)? });
        }
        given.complete(answer)
    }

    fn complete(self, answer: Answer) -> PyResult<Self> {
        if answer.needs_pressure() && self.pressure.is_none() {
            return Err(PyTypeError::new_err(
                "a pressure is missing: give one by gauge, absolute, or either with its unit, as gauge_psi",
            ));
        }
        if answer.needs_temperature() && self.temperature.is_none() {
            return Err(PyTypeError::new_err(
                "a temperature is missing: give one by temperature or with its unit, as temperature_c",
            ));
        }
        match (&self.pressure, &self.air) {
            // a value that has no bearing is one that somebody believes was used
            (Some(Input { keyword, measure: Measure::Absolute(_), .. }), Some(air)) => {
                Err(PyTypeError::new_err(format!("{} belongs to a gauge pressure, not to {keyword}", air.keyword)))
            }
            _ => Ok(self),
        }
    }
}

fn numbers<'py>(
    py: Python<'py>,
    keyword: &'static str,
    value: &Bound<'py, PyAny>,
    measure: Measure,
    is_text: bool,
) -> PyResult<Numbers<'py>> {
    if let Ok(text) = value.cast::<PyString>() {
        if !is_text {
            let quantity = keyword.split('_').next().unwrap_or(keyword);
            return Err(PyTypeError::new_err(format!(
                "{keyword} takes a number; text with its unit is for {quantity}"
            )));
        }
        let number = measure.read(text.to_str()?);
        return number.map(Numbers::One).map_err(|error| raised(py, Refusal::of_only(&error, keyword)));
    }
    if is_text {
        let message = format!(
            "{keyword} takes text with its unit, such as \"32 psi\" or \"48 °F\"; a number has its unit in the keyword"
        );
        return Err(PyTypeError::new_err(message));
    }
    if let Ok(number) = value.cast::<PyFloat>() {
        return Ok(Numbers::One(number.extract()?));
    }
    if value.is_instance_of::<PyBool>() {
        return Err(PyTypeError::new_err(format!("{keyword} takes a number, not a truth value")));
    }
    // an array of no dimension has no length either
    if value.len().is_err() {
        return value.extract().map(Numbers::One);
    }
    array(py, keyword, value).map(Numbers::Array)
}

/// `value` as an array of 64-bit floats in C order: itself where it is one, else converted by numpy.
fn array<'py>(
    py: Python<'py>,
    keyword: &'static str,
    value: &Bound<'py, PyAny>,
) -> PyResult<PyReadonlyArrayDyn<'py, f64>> {
    static CONVERT: PyOnceLock<Py<PyAny>> = PyOnceLock::new();
    // before all else, so that a missing numpy is an ImportError
    let convert = CONVERT.import(py, "satline._arrays", "contiguous")?;
    if let Ok(array) = value.cast::<PyArrayDyn<f64>>()
        && array.is_c_contiguous()
        && is_plain(value)
    {
        return Ok(array.try_readonly()?);
    }
    let converted = convert.call1((keyword, value))?;
    Ok(converted.cast_into::<PyArrayDyn<f64>>().map_err(PyErr::from)?.try_readonly()?)
}

/// Whether an array is of no class derived from numpy's own, such as one that masks elements.
fn is_plain(array: &Bound<'_, PyAny>) -> bool {
    array.get_type().is(PyUntypedArray::type_object(array.py()))
}
