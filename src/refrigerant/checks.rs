//! What each published table shows against the saturation lines; computed by the tests, which keep this file true.

use super::Refrigerant;
use crate::{Range, Temperature, TemperatureDifference, Trust};

/// One published table against one saturation line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Check {
    /// The refrigerant.
    pub refrigerant: Refrigerant,
    /// Which of its lines.
    pub line: CheckedLine,
    /// The table's file in `tables/published`, or the row of a file with several correlations.
    pub table: &'static str,
    /// The work it was printed in.
    pub source: &'static str,
    /// How it came to us.
    pub trust: Trust,
    /// Rows compared; misprints and rows outside the line are not among them.
    pub rows: usize,
    /// From the coldest to the warmest row compared.
    pub range: Range<Temperature>,
    /// The deviation the table is known to have, in % of pressure; none where its printed digits are the only tolerance.
    pub stated_percent: Option<f64>,
    /// Table minus line, where it is largest.
    pub worst: Deviation,
    /// The mean of its absolute values.
    pub mean: Deviation,
    /// Where the worst row is.
    pub worst_at: Temperature,
}

/// A deviation of the table from the line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Deviation {
    /// In % of the pressure.
    pub percent: f64,
    /// As a temperature, at the slope of the line.
    pub step: TemperatureDifference,
}

/// Which line of a blend; a pure fluid has one, listed as dew.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CheckedLine {
    /// Bubble line.
    Bubble,
    /// Dew line, or the only line.
    Dew,
}

pub(super) const ALL: &[Check] = &[];
