//! One car read twice: a reading is saved, and a later one is compared with it.

use std::path::{Path, PathBuf};

use satline::inspection::Inspection;
use satline::report::{Page, Report, compare, comparison_page, customer_page};

use super::files;
use super::language::Spoken;

/// Version of the file.
const FORMAT: &str = "satline-car-1";

/// Flags about an earlier and a later reading of the same car.
#[derive(Debug, clap::Args)]
pub struct Revisit {
    /// Save this reading of the car, for a later --before.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["log", "ask"])]
    pub save: Option<PathBuf>,
    /// Compare with the reading saved in this file: what has moved, and whether as a repair moves it. If the car was well then, the
    /// windows become its own.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["log", "ask", "at_rest", "full", "brief"])]
    pub before: Option<PathBuf>,
    /// With --before: one sheet for the customer instead.
    #[arg(long, requires = "before", requires = "done", conflicts_with = "json")]
    customer: bool,
    /// With --customer: what was done, such as "compressor and drier replaced"; may be given several times.
    #[arg(long, value_name = "WHAT", requires = "customer")]
    done: Vec<String>,
}

/// A reading of a car as it is saved.
#[derive(Debug, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SavedCar {
    format: String,
    /// What was read.
    pub inspection: Inspection,
    /// What was made of it.
    pub report: Report,
}

impl SavedCar {
    /// A reading to be saved.
    pub fn new(inspection: Inspection, report: Report) -> Self {
        Self { format: FORMAT.to_owned(), inspection, report }
    }

    /// The reading saved in the file at `path`.
    pub fn read(path: &Path) -> Result<Self, String> {
        let named = |wrong: &dyn std::fmt::Display| format!("--before {}: {wrong}", path.display());
        let text = files::read(path).map_err(|error| format!("--before {error}"))?;
        let car: Self = serde_json::from_str(&text)
            .map_err(|error| named(&format!("not a reading that --save has written: {error}")))?;
        if car.format != FORMAT {
            return Err(named(&format!("its format is {:?}, and this program reads {FORMAT:?}", car.format)));
        }
        Ok(car)
    }

    /// Saves the reading in the file at `path`.
    pub fn write(&self, path: &Path) -> Result<(), Box<dyn std::error::Error>> {
        Ok(files::write(path, &(serde_json::to_string_pretty(self)? + "\n"))?)
    }
}

impl Revisit {
    /// The reading to compare with.
    pub fn earlier(&self) -> Result<Option<SavedCar>, String> {
        self.before.as_deref().map(SavedCar::read).transpose()
    }

    /// What moved between both readings, as JSON.
    pub fn json(earlier: &Report, now: &Report) -> Result<String, Box<dyn std::error::Error>> {
        Ok(serde_json::to_string_pretty(&compare(earlier, now)?)? + "\n")
    }

    /// The page about both readings.
    pub fn page(&self, earlier: &Report, now: &Report, spoken: Spoken) -> Result<Page, satline::Error> {
        if self.customer {
            customer_page(earlier, now, &self.done, spoken.language())
        } else {
            comparison_page(earlier, now, spoken.language())
        }
    }
}
