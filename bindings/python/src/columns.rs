//! What a method answers for arrays: an answer or NaN for each element.

use numpy::{PyArrayDyn, PyArrayMethods, PyUntypedArrayMethods};
use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use satline::quantity::PressureUnit::Pascal;
use satline::quantity::TemperatureUnit::Kelvin;
use satline::{Error, GaugePressure, Pressure, Quantity, Refrigerant, Temperature};

use crate::answers::{Answer, Side};
use crate::given::{Given, Input, Measure, Numbers};
use crate::raised;

/// Number of elements that are converted together: three lists of them lie in the fastest memory. Our choice.
const TOGETHER: usize = 256;

type Together = [f64; TOGETHER];

/// An input as elements of an array, or one number in SI units for all of them.
enum Elements<'a> {
    All(f64),
    Each(Measure, &'a [f64]),
}

impl Elements<'_> {
    /// The elements from `begin` on in SI units; NaN where one is refused.
    fn fill(&self, begin: usize, together: &mut [f64]) {
        match self {
            Self::All(si) => together.fill(*si),
            // a loop for each kind of unit: asked at each element it would cost as much as the answer
            Self::Each(Measure::Absolute(unit), numbers) => {
                convert(&numbers[begin..], together, |p| Pressure::new(p, *unit).pa());
            }
            Self::Each(Measure::Gauge(unit), numbers) => {
                convert(&numbers[begin..], together, |p| GaugePressure::new(p, *unit).pa());
            }
            Self::Each(Measure::Temperature(unit), numbers) => {
                convert(&numbers[begin..], together, |t| Temperature::new(t, *unit).kelvin());
            }
            Self::Each(air, numbers) => convert(&numbers[begin..], together, |n| air.si(n).unwrap_or(f64::NAN)),
        }
    }
}

fn convert(numbers: &[f64], together: &mut [f64], si: impl Fn(f64) -> f64) {
    together.iter_mut().zip(numbers).for_each(|(place, number)| *place = si(*number));
}

impl Answer {
    /// The answer for each element, if one of the inputs is an array.
    pub fn each<'py>(
        self,
        py: Python<'py>,
        refrigerant: Refrigerant,
        given: &Given<'_>,
    ) -> PyResult<Option<Bound<'py, PyArrayDyn<f64>>>> {
        let mut shape: Option<&[usize]> = None;
        for input in [&given.pressure, &given.temperature, &given.air].into_iter().flatten() {
            let Numbers::Array(array) = &input.numbers else { continue };
            match shape {
                Some(shape) if shape != array.shape() => {
                    let message =
                        format!("{} has the shape {:?}, another array {shape:?}", input.keyword, array.shape());
                    return Err(PyValueError::new_err(message));
                }
                _ => shape = Some(array.shape()),
            }
        }
        let Some(shape) = shape else { return Ok(None) };
        let air = given.air_si().map_err(|refusal| raised(py, refusal))?;
        let pressure = elements(py, &given.pressure, 0.0)?;
        let line = elements(py, &given.temperature, 0.0)?;
        let air = elements(py, &given.air, air)?;
        let answers = PyArrayDyn::<f64>::zeros(py, shape, false);
        let mut places = answers.try_readwrite()?;
        let (mut absolute, mut kelvin, mut air_pa) = ([0.0; TOGETHER], [0.0; TOGETHER], [0.0; TOGETHER]);
        for (at, answers) in places.as_slice_mut()?.chunks_mut(TOGETHER).enumerate() {
            let (begin, rows) = (at * TOGETHER, answers.len());
            pressure.fill(begin, &mut absolute[..rows]);
            line.fill(begin, &mut kelvin[..rows]);
            air.fill(begin, &mut air_pa[..rows]);
            absolute[..rows].iter_mut().zip(&air_pa).for_each(|(p, air)| *p += air);
            self.fill(refrigerant, (&absolute, &kelvin), answers)
                .map_err(|error| raised(py, satline_json::Refusal::of(&error, None)))?;
            self.in_unit(answers, &air_pa[..rows]);
        }
        drop(places);
        Ok(Some(answers))
    }

    /// Answers in SI units.
    fn fill(
        self,
        refrigerant: Refrigerant,
        (absolute, kelvin): (&Together, &Together),
        answers: &mut [f64],
    ) -> Result<usize, Error> {
        let (absolute, kelvin) = (&absolute[..answers.len()], &kelvin[..answers.len()]);
        // a gauge in a vacuum shows the absolute pressure
        let vacuum = (&[0.0][..], Pascal);
        match self {
            Self::Temperature(Side::Dew, _) => {
                refrigerant.dew_temperature_column((absolute, Pascal), (answers, Kelvin))
            }
            Self::Temperature(Side::Bubble, _) => {
                refrigerant.bubble_temperature_column((absolute, Pascal), (answers, Kelvin))
            }
            Self::Absolute(Side::Dew, _) | Self::Gauge(Side::Dew, _) => {
                refrigerant.dew_pressure_column((kelvin, Kelvin), (answers, Pascal))
            }
            Self::Absolute(Side::Bubble, _) | Self::Gauge(Side::Bubble, _) => {
                refrigerant.bubble_pressure_column((kelvin, Kelvin), (answers, Pascal))
            }
            Self::Superheat(_) => refrigerant.superheat_column((absolute, Pascal), vacuum, (kelvin, Kelvin), answers),
            Self::Subcooling(_) => refrigerant.subcooling_column((absolute, Pascal), vacuum, (kelvin, Kelvin), answers),
        }
    }
}

fn elements<'a>(py: Python<'_>, input: &'a Option<Input<'_>>, otherwise: f64) -> PyResult<Elements<'a>> {
    Ok(match input {
        None => Elements::All(otherwise),
        Some(input) => match &input.numbers {
            Numbers::One(number) => Elements::All(input.one(*number).map_err(|refusal| raised(py, refusal))?),
            Numbers::Array(array) => Elements::Each(input.measure, array.as_slice()?),
        },
    })
}
