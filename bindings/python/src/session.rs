//! Text in, JSON out: what `satline-json` offers.

use std::sync::{Mutex, PoisonError};

use pyo3::prelude::*;
use satline_json::Refusal;

use crate::raised;

/// Diagnoses one request after another; text in, JSON out.
#[pyclass(frozen, module = "satline._native")]
#[derive(Default)]
pub struct Session(Mutex<satline_json::Session>);

#[pymethods]
impl Session {
    #[new]
    fn new() -> Self {
        Self::default()
    }

    /// The report on a request, both as JSON.
    fn report(&self, py: Python<'_>, request: &str) -> PyResult<String> {
        self.answer(py, |session| session.report(request))
    }

    /// The page on a request, as one HTML document.
    fn page(&self, py: Python<'_>, request: &str) -> PyResult<String> {
        self.answer(py, |session| session.page(request))
    }
}

impl Session {
    /// Other threads of Python run meanwhile; those that ask the same session wait.
    fn answer(
        &self,
        py: Python<'_>,
        of: impl FnOnce(&mut satline_json::Session) -> Result<String, Refusal> + Send,
    ) -> PyResult<String> {
        let answer = py.detach(|| {
            let mut session = self.0.lock().unwrap_or_else(|poisoned: PoisonError<_>| {
                // half done when a computation was given up
                let mut session = poisoned.into_inner();
                *session = satline_json::Session::default();
                session
            });
            of(&mut session)
        });
        answer.map_err(|refusal| raised(py, refusal))
    }
}

/// The names that a request may contain, as JSON.
#[pyfunction]
pub fn names() -> String {
    satline_json::names()
}
