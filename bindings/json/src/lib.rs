//! Text in, JSON out: what every binding of satline to another language shares.
//!
//! A binding passes text to [`Session::report`], [`Session::page`] (feature `page`), [`properties`] or [`names`] and hands back what it gets. Nothing is
//! computed or decided here. Every answer is text; what is refused is a [`Refusal`], which has a JSON form too.

mod names;
mod properties;
mod refusal;
mod request;

pub use names::names;
pub use properties::properties;
pub use refusal::Refusal;
use request::Request;

use satline::diagnosis::{Diagnosis, Reference};

/// Diagnoses one request after another; circuits simulated for one are kept for the next under the same conditions.
#[derive(Debug, Default)]
pub struct Session {
    kept: Option<Reference>,
}

/// What [`Session::page`] is asked for.
#[cfg(feature = "page")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct PageRequest {
    /// What was read, as for [`Session::report`].
    request: Request,
    #[serde(default)]
    language: satline::report::Language,
    /// The whole page, with charts and sources; otherwise what fits on a screen.
    #[serde(default)]
    whole: bool,
}

impl Session {
    /// The report on a request, as JSON: what `cargo run --example read_gauges -- --json` prints for the same values, byte for byte.
    ///
    /// # Errors
    /// [`Refusal`] for text that is no request, and for what the library refuses.
    pub fn report(&mut self, request: &str) -> Result<String, Refusal> {
        let request: Request = read(request)?;
        let report = request.report(&self.diagnose(&request)?);
        Ok(serde_json::to_string_pretty(&report).map_err(|error| Refusal::json(&error))? + "\n")
    }

    /// The page on a request, as one HTML document: `{"request": …, "language": "english" or "spanish", "whole": true or false}`.
    ///
    /// # Errors
    /// As [`Session::report`]; questions about units are put in words behind the message, which itself is English.
    #[cfg(feature = "page")]
    pub fn page(&mut self, request: &str) -> Result<String, Refusal> {
        let PageRequest { request, language, whole } = read(request)?;
        let diagnosis = self.diagnose(&request).map_err(|refusal| refusal.worded(language))?;
        let report = request.report(&diagnosis);
        Ok(if whole { report.page_in(language) } else { report.brief_in(language) }.html())
    }

    fn diagnose(&mut self, request: &Request) -> Result<Diagnosis, Refusal> {
        let asked = request.checked()?;
        asked.run_reusing(&mut self.kept).map_err(|error| Refusal::of(&error, None).questioned(&asked))
    }
}

/// `text` as JSON of a known form.
fn read<T: serde::de::DeserializeOwned>(text: &str) -> Result<T, Refusal> {
    serde_json::from_str(text).map_err(|error| Refusal::json(&error))
}
