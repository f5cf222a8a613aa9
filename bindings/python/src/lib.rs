//! satline for Python: the native half. The package in `python/satline` adds what is simpler in Python: errors, JSON as dictionaries.

mod answers;
mod columns;
mod given;
mod refrigerant;
mod session;

use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::PyType;
use satline_json::Refusal;

/// The native half of the package `satline`.
#[pymodule]
fn _native(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add("__version__", env!("CARGO_PKG_VERSION"))?;
    module.add_class::<refrigerant::Refrigerant>()?;
    module.add_class::<session::Session>()?;
    module.add_function(wrap_pyfunction!(session::names, module)?)
}

/// `refusal` as the exception that the package defines.
fn raised(py: Python<'_>, refusal: Refusal) -> PyErr {
    static CLASS: PyOnceLock<Py<PyType>> = PyOnceLock::new();
    let exception = || {
        let class = CLASS.import(py, "satline._errors", "SatlineError")?;
        let questions = questions_as_json(&refusal);
        class.call1((refusal.code, refusal.input, refusal.message, questions))
    };
    exception().map_or_else(|error| error, PyErr::from_value)
}

/// The questions about units as JSON, which the exception reads.
fn questions_as_json(refusal: &Refusal) -> Option<String> {
    (!refusal.questions.is_empty()).then(|| refusal.to_json())
}
