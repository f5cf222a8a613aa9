//! What is refused, and which input it is about.

use satline::Error;
use satline::diagnosis::{DiagnosisRequest, UnitQuestion};

/// An input that was refused, or a request that has no answer.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Refusal {
    /// Id of the kind of error: [`Error::code`], or "invalid-json" for text that is no request.
    pub code: &'static str,
    /// Input that it is about: the id of a measurand or the name of a field of the request; `None` if it is about no particular one.
    pub input: Option<String>,
    /// Message for a person, in English.
    pub message: String,
    /// Questions about units that may explain it; left out in JSON if there are none.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub questions: Vec<UnitQuestion>,
}

impl Refusal {
    /// Refusal of `input`, unless the error names another one itself.
    #[must_use]
    pub fn of(error: &Error, input: Option<&str>) -> Self {
        let input = error.input().or(input).map(str::to_owned);
        Self { code: error.code(), input, message: error.to_string(), questions: Vec::new() }
    }

    /// Refusal of `input`, whatever the error names: the library knows the value by another name.
    #[must_use]
    pub fn of_only(error: &Error, input: &str) -> Self {
        Self { input: Some(input.to_owned()), ..Self::of(error, None) }
    }

    pub(crate) fn json(error: &serde_json::Error) -> Self {
        Self { code: "invalid-json", input: None, message: error.to_string(), questions: Vec::new() }
    }

    /// With the questions that `request` gives rise to.
    pub(crate) fn questioned(self, request: &DiagnosisRequest) -> Self {
        Self { questions: request.questions().unwrap_or_default(), ..self }
    }

    /// With its questions in words behind the message.
    #[cfg(feature = "page")]
    pub(crate) fn worded(self, language: satline::report::Language) -> Self {
        let message = self
            .questions
            .iter()
            .fold(self.message.clone(), |message, question| format!("{message}\n{}", language.question(question)));
        Self { message, ..self }
    }

    /// The refusal as JSON: `{"code": …, "input": …, "message": …}`.
    #[must_use]
    pub fn to_json(&self) -> String {
        // texts and lists of texts can always be written
        serde_json::to_string(self).unwrap_or_default()
    }
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Refusal {}
