//! Saturation lines of the catalogue's refrigerants.

use super::Refrigerant;
use crate::saturation::{Accuracy, Lines};
use crate::{Error, Pressure, Range, Temperature, TemperatureDifference};

/// Largest deviation of the curves from their equations of state; the tests enforce it.
const CURVE_ACCURACY: Accuracy = Accuracy {
    up_to: Temperature::from_kelvin(f64::INFINITY),
    pressure: 1e-10,
    temperature: TemperatureDifference::from_kelvins(1e-8),
};

impl Lines for Refrigerant {
    #[inline]
    fn name(&self) -> &str {
        self.designation()
    }
    #[inline]
    fn is_blend(&self) -> bool {
        Refrigerant::is_blend(*self)
    }
    #[inline]
    fn critical_temperature(&self) -> Option<Temperature> {
        Some(self.dew_line().critical_temperature)
    }
    #[inline]
    fn critical_pressure(&self) -> Option<Pressure> {
        Some(self.dew_line().critical_pressure)
    }
    #[inline]
    fn range(&self) -> Range<Temperature> {
        self.saturation_range()
    }
    #[inline]
    fn dew_pressure(&self, t: Temperature) -> Result<Pressure, Error> {
        Refrigerant::dew_pressure(*self, t)
    }
    #[inline]
    fn dew_temperature(&self, p: Pressure) -> Result<Temperature, Error> {
        Refrigerant::dew_temperature(*self, p)
    }
    #[inline]
    fn dew_slope_pa_per_kelvin(&self, t: Temperature) -> Result<f64, Error> {
        self.fluid().dew_curve.slope_pa_per_kelvin(t)
    }
    #[inline]
    fn dew_accuracy(&self, t: Temperature) -> Result<Accuracy, Error> {
        self.below_critical(t).map(|()| CURVE_ACCURACY)
    }
    #[inline]
    fn bubble_pressure(&self, t: Temperature) -> Result<Pressure, Error> {
        Refrigerant::bubble_pressure(*self, t)
    }
    #[inline]
    fn bubble_temperature(&self, p: Pressure) -> Result<Temperature, Error> {
        Refrigerant::bubble_temperature(*self, p)
    }
    #[inline]
    fn bubble_slope_pa_per_kelvin(&self, t: Temperature) -> Result<f64, Error> {
        self.fluid().bubble_curve.slope_pa_per_kelvin(t)
    }
    #[inline]
    fn bubble_accuracy(&self, t: Temperature) -> Result<Accuracy, Error> {
        self.below_critical(t).map(|()| CURVE_ACCURACY)
    }
}
