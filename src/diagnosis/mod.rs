//! Diagnosis of a circuit: causes ranked by how well each explains the readings, and what to do next.
//!
//! [`Diagnosis::of`] does the main job in one call. Its pieces are public for callers that keep simulated circuits or combine
//! readings. [`diagnose`] compares an [`Inspection`](crate::inspection::Inspection) with the circuits of a [`Reference`], simulated
//! for its conditions with and without each cause, and returns a [`Posterior`]: the probability of each cause, its size, the
//! evidence for and against it, and what to measure next. [`Advice`] draws the conclusions and holds every threshold of a decision.
//!
//! A cause is a change of the modelled circuit ([`crate::circuit`]), not a row of a rule list. A probability here is one among the
//! causes modelled, under a stated [`Prior`], for circuits like those of the population. Readings unlike anything modelled are marked as
//! outside the model. Observations by eye and hand are weighted by how many published fault charts name the cause beside
//! which they are printed, or by our choice where that is no count of one row, and labelled as agreement between texts.
//!
//! What a cause changes in the circuit, and types that are only parts of [`Advice`], [`Assessment`] or [`Posterior`] are in the hidden
//! module `parts` and may change in any version; their JSON form is versioned by the schema of the report.

mod advice;
mod assessment;
mod causes;
mod data;
mod density;
mod information;
mod local_regression;
mod mixture;
mod next_measurement;
mod one_call;
mod posterior;
mod posterior_summary;
mod reference;
mod unit_questions;

pub use advice::{Advice, Headline, NextStep, Stop};
pub(crate) use advice::{is_clear, outcome_uncertainty};
pub use assessment::{Assessment, DifferenceAssessment, SideAssessment};
pub use causes::{COUNTS, CauseId, Prior, WORKSHOP_SURVEYS};
pub use next_measurement::NextMeasurement;
pub use one_call::{Diagnosis, DiagnosisRequest, ReferenceCache};
#[doc(hidden)]
pub use parts::*;
pub use posterior_summary::{CauseProbability, HEALTHY_POSTERIOR_THRESHOLD, Posterior, diagnose};
pub use reference::{Progress, REFERENCE_CIRCUITS, Reference, ReferenceKey};
pub use unit_questions::{UnitQuestion, unit_questions};

/// Data of a [`CauseId`], and types of the fields of [`Advice`], [`Assessment`], [`Posterior`] and [`UnitQuestion`]; they may change.
#[doc(hidden)]
pub mod parts {
    pub use crate::diagnosis::advice::{AdvisedQuestion, LeadingGroup, Likeliest, OtherCauses, Outside};
    pub use crate::diagnosis::assessment::{Judged, JudgedQuantity, JudgedValue};
    pub use crate::diagnosis::causes::{ALL, Cause, Fault, FaultSize};
    pub use crate::diagnosis::next_measurement::Outcome;
    pub use crate::diagnosis::posterior_summary::{AmbiguityGroup, PredictedValue};
    pub use crate::diagnosis::unit_questions::QuestionedInput;
}
