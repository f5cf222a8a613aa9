//! Columns of a log: one answer for each row, in the units of the columns, without allocation.

use crate::quantity::{LARGEST, PressureUnit, TemperatureUnit};
use crate::saturation::Curve;
use crate::{Error, Pressure, Quantity, Refrigerant, Temperature};

/// Number of rows that are converted together.
const TOGETHER: usize = 64;

/// Columns of a log, a number a row, each column with its unit.
///
/// A row without an answer – a pressure below vacuum or above the critical one, a value that is missing, NaN or out of range –
/// gets NaN and costs the others nothing. The number of rows with an answer is returned. Every answer is bit for bit that of
/// the method for one value, written by the accessor of its unit, such as [`Temperature::fahrenheit`]. Slices are neither
/// allocated nor kept.
///
/// ```
/// use satline::Refrigerant;
/// use satline::quantity::{PressureUnit::{Hectopascal, Psi}, TemperatureUnit::Fahrenheit};
/// let gauge = [30.0, f64::NAN, 28.5]; // psi; the second row was not read
/// let suction = [46.4, 46.0, 45.5]; // °F
/// let mut superheat = [0.0; 3];
/// // one air pressure for all rows, or one for each
/// let answered = Refrigerant::R134a.superheat_column((&gauge, Psi), (&[1013.25], Hectopascal), (&suction, Fahrenheit), &mut superheat)?;
/// assert_eq!(answered, 2);
/// assert_eq!(format!("{superheat:.1?}"), "[11.8, NaN, 12.7]"); // °F, as the suction line
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// Every method: [`Error::Impossible`] for columns of different length, and then nothing is written.
impl Refrigerant {
    /// Dew-point temperatures at absolute pressures, each as [`Refrigerant::dew_temperature`] has it.
    ///
    /// # Errors
    /// [`Error::Impossible`] for columns of different length.
    pub fn dew_temperature_column(
        self,
        pressures: (&[f64], PressureUnit),
        temperatures: (&mut [f64], TemperatureUnit),
    ) -> Result<usize, Error> {
        self.temperature_column(self.fluid().dew_curve, pressures, temperatures)
    }

    /// Bubble-point temperatures at absolute pressures, each as [`Refrigerant::bubble_temperature`] has it.
    ///
    /// # Errors
    /// [`Error::Impossible`] for columns of different length.
    pub fn bubble_temperature_column(
        self,
        pressures: (&[f64], PressureUnit),
        temperatures: (&mut [f64], TemperatureUnit),
    ) -> Result<usize, Error> {
        self.temperature_column(self.fluid().bubble_curve, pressures, temperatures)
    }

    /// Absolute dew-point pressures at temperatures, each as [`Refrigerant::dew_pressure`] has it.
    ///
    /// # Errors
    /// [`Error::Impossible`] for columns of different length.
    pub fn dew_pressure_column(
        self,
        temperatures: (&[f64], TemperatureUnit),
        pressures: (&mut [f64], PressureUnit),
    ) -> Result<usize, Error> {
        pressure_column(self.fluid().dew_curve, temperatures, pressures)
    }

    /// Absolute bubble-point pressures at temperatures, each as [`Refrigerant::bubble_pressure`] has it.
    ///
    /// # Errors
    /// [`Error::Impossible`] for columns of different length.
    pub fn bubble_pressure_column(
        self,
        temperatures: (&[f64], TemperatureUnit),
        pressures: (&mut [f64], PressureUnit),
    ) -> Result<usize, Error> {
        pressure_column(self.fluid().bubble_curve, temperatures, pressures)
    }

    /// Superheats of a suction line, each as [`Refrigerant::superheat`] has it, in kelvin or, where the line is in °F, in °F.
    ///
    /// `air` has the absolute pressure of the surrounding air for each row, or one for all.
    ///
    /// # Errors
    /// [`Error::Impossible`] for columns of different length.
    pub fn superheat_column(
        self,
        gauge: (&[f64], PressureUnit),
        air: (&[f64], PressureUnit),
        line: (&[f64], TemperatureUnit),
        superheats: &mut [f64],
    ) -> Result<usize, Error> {
        let above = |line, saturation| line - saturation;
        self.difference_column(self.fluid().dew_curve, above, gauge, air, line, superheats)
    }

    /// Subcoolings of a liquid line, each as [`Refrigerant::subcooling`] has it; units and air as of
    /// [`Refrigerant::superheat_column`].
    ///
    /// # Errors
    /// [`Error::Impossible`] for columns of different length.
    pub fn subcooling_column(
        self,
        gauge: (&[f64], PressureUnit),
        air: (&[f64], PressureUnit),
        line: (&[f64], TemperatureUnit),
        subcoolings: &mut [f64],
    ) -> Result<usize, Error> {
        let below = |line, saturation| saturation - line;
        self.difference_column(self.fluid().bubble_curve, below, gauge, air, line, subcoolings)
    }

    fn temperature_column(
        self,
        curve: &Curve,
        (pressures, from): (&[f64], PressureUnit),
        (temperatures, to): (&mut [f64], TemperatureUnit),
    ) -> Result<usize, Error> {
        same_length(pressures.len(), temperatures.len())?;
        let mut answered = 0;
        for (pressures, temperatures) in pressures.chunks(TOGETHER).zip(temperatures.chunks_mut(TOGETHER)) {
            let pascal = converted(pressures, |p| Pressure::new(p, from).pa());
            self.answer_each(curve, &pascal[..pressures.len()], temperatures)?;
            answered += answers(temperatures);
            let scaled = |kelvin: f64| in_unit(Temperature::from_kelvin(kelvin), to);
            temperatures.iter_mut().for_each(|t| *t = scaled(*t));
        }
        Ok(answered)
    }

    fn difference_column(
        self,
        curve: &Curve,
        difference: impl Fn(f64, f64) -> f64,
        (gauge, from): (&[f64], PressureUnit),
        (air, air_from): (&[f64], PressureUnit),
        (line, unit): (&[f64], TemperatureUnit),
        differences: &mut [f64],
    ) -> Result<usize, Error> {
        same_length(gauge.len(), differences.len())?;
        same_length(line.len(), differences.len())?;
        if air.len() != 1 {
            same_length(air.len(), differences.len())?;
        }
        let step = unit.step().factor();
        let mut answered = 0;
        for (at, places) in differences.chunks_mut(TOGETHER).enumerate() {
            let rows = at * TOGETHER..at * TOGETHER + places.len();
            let mut pascal = converted(&gauge[rows.clone()], |p| Pressure::new(p, from).pa());
            match air {
                [air] => {
                    let air = Pressure::new(*air, air_from).pa();
                    pascal.iter_mut().for_each(|p| *p += air);
                }
                _ => {
                    let air = converted(&air[rows.clone()], |p| Pressure::new(p, air_from).pa());
                    pascal.iter_mut().zip(&air).for_each(|(p, air)| *p += air);
                }
            }
            self.answer_each(curve, &pascal[..places.len()], places)?;
            let line = converted(&line[rows], |t| Temperature::new(t, unit).kelvin());
            for (place, line) in places.iter_mut().zip(line) {
                // what `Refrigerant::superheat` refuses
                let possible = (line > 0.0) & (line <= LARGEST);
                let difference = difference(line, *place) / step;
                *place = if possible { difference } else { f64::NAN };
            }
            answered += answers(places);
        }
        Ok(answered)
    }

    /// Temperatures in K at pressures in Pa, NaN where there is none.
    fn answer_each(self, curve: &Curve, pascal: &[f64], kelvin: &mut [f64]) -> Result<(), Error> {
        match self.temperatures_on(curve, pascal, kelvin) {
            // its place has NaN
            Err(Error::OutOfRange { .. } | Error::Supercritical { .. }) => Ok(()),
            answered => answered,
        }
    }
}

fn pressure_column(
    curve: &Curve,
    (temperatures, from): (&[f64], TemperatureUnit),
    (pressures, to): (&mut [f64], PressureUnit),
) -> Result<usize, Error> {
    same_length(temperatures.len(), pressures.len())?;
    let mut answered = 0;
    for (temperatures, pressures) in temperatures.chunks(TOGETHER).zip(pressures.chunks_mut(TOGETHER)) {
        let kelvin = converted(temperatures, |t| Temperature::new(t, from).kelvin());
        match curve.pressures(&kelvin[..temperatures.len()], pressures) {
            // its place has NaN
            Ok(()) | Err(Error::OutOfRange { .. }) => {}
            Err(error) => return Err(error),
        }
        answered += answers(pressures);
        pressures.iter_mut().for_each(|p| *p /= to.factor());
    }
    Ok(answered)
}

/// The rows in SI units; NaN beyond them.
fn converted(rows: &[f64], si: impl Fn(f64) -> f64) -> [f64; TOGETHER] {
    let mut all = [f64::NAN; TOGETHER];
    for (place, &row) in all.iter_mut().zip(rows) {
        *place = si(row);
    }
    all
}

fn in_unit(t: Temperature, unit: TemperatureUnit) -> f64 {
    match unit {
        TemperatureUnit::Celsius => t.celsius(),
        TemperatureUnit::Fahrenheit => t.fahrenheit(),
        TemperatureUnit::Kelvin => t.kelvin(),
    }
}

fn answers(rows: &[f64]) -> usize {
    rows.iter().filter(|row| !row.is_nan()).count()
}

fn same_length(found: usize, rows: usize) -> Result<(), Error> {
    if found == rows {
        return Ok(());
    }
    Err(Error::Impossible {
        what: "number of rows in a column",
        value: found as f64,
        must: "that of the column of answers, or one where an air pressure stands for all rows",
    })
}
