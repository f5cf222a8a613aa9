//! What a language says on the pages beside the one about a reading: one trait for each, one method for each function of its
//! file.

use super::{en, es};
use crate::Refrigerant;
use crate::quantity::PressureUnit;
use crate::report::comparison::{ComparisonOutcome, LedRow, Shift};
use crate::report::hold::{FitFigure, HoldCaution, HoldNext, HoldReport, HoldStatement, LimitRow, Observed};
use crate::report::job::{JobReport, Measurement, WindowGround, WindowName};
use crate::report::job_tasks::{
    AdjustmentRow, AmountRow, EvacuationRow, MakersRuleRow, RuleRow, Standing, StepTask, TenthRow, WindowNote,
};
use crate::report::oil_label::LabelStatement;
use crate::report::purity::IdentityStatement;
use crate::report::trace::{LogFigure, LogQuantity, TraceMessage, TraceOpening};
use crate::report::{Amount, Span};
use crate::service::acceptance::AcceptanceOutcome;
use crate::service::job::{JobCaution, JobQuestion};
use crate::service::non_condensables::Purity;
use crate::service::oil::kind::{CompressorDrive, OilKind, OilSuitability};
use crate::service::oil::part::ReplacedPart;

/// A heading of the page about a standing vacuum test, or the head of a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::report) enum HoldLabel {
    Figures,
    BestEstimate,
    Interval,
    Meaning,
    Limits,
    Limit,
    Result,
    Observed,
    JudgedOver,
    Proof,
    Next,
    Safety,
    Sources,
}

/// A heading of the job sheet, or the head of a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::report) enum JobLabel {
    Questions,
    Steps,
    Windows,
    What,
    Window,
    Basis,
    Measure,
    Safety,
    Sources,
}

/// A heading of a page about two reports on one circuit, or the head of a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::report) enum ComparisonLabel {
    Before,
    After,
    Moved,
    WhatMoved,
    Now,
    ForCustomer,
    Found,
    Done,
    Measured,
    ShouldBe,
    Care,
}

/// A trait with one method for each function of a module, and what every language says: the functions of its module of that name.
macro_rules! spoken_page {
    ($(#[$doc:meta])* trait $name:ident in $module:ident {
        $(fn $function:ident($($argument:ident: $type:ty),*) -> $out:ty;)*
    }) => {
        $(#[$doc])*
        pub(in crate::report) trait $name {
            $(fn $function(&self, $($argument: $type),*) -> $out;)*
        }
        spoken_page!(by en::English, en, $name, $module, $(fn $function($($argument: $type),*) -> $out;)*);
        spoken_page!(by es::Spanish, es, $name, $module, $(fn $function($($argument: $type),*) -> $out;)*);
    };
    (by $language:ty, $of:ident, $name:ident, $module:ident,
        $(fn $function:ident($($argument:ident: $type:ty),*) -> $out:ty;)*) => {
        impl $name for $language {
            $(fn $function(&self, $($argument: $type),*) -> $out {
                $of::$module::$function($($argument),*)
            })*
        }
    };
}

spoken_page! {
    /// The sentences of the page about a standing vacuum test.
    trait HoldWords in hold {
        fn label(label: HoldLabel) -> &'static str;
        fn opening(report: &HoldReport) -> Vec<String>;
        fn figure(figure: FitFigure) -> &'static str;
        fn grams_a_year() -> &'static str;
        fn observed(observed: Observed) -> &'static str;
        fn outcome(outcome: AcceptanceOutcome) -> &'static str;
        fn limit(limit: &LimitRow) -> String;
        fn statement(statement: &HoldStatement) -> String;
        fn next(step: HoldNext) -> &'static str;
        fn caution(caution: HoldCaution) -> &'static str;
    }
}

spoken_page! {
    /// The sentences of a job sheet.
    trait JobWords in job {
        fn label(label: JobLabel) -> &'static str;
        fn vacuum_unit() -> (PressureUnit, u8);
        fn opening(report: &JobReport) -> Vec<String>;
        fn question(question: &JobQuestion) -> String;
        fn caution(caution: JobCaution, refrigerant: Refrigerant) -> String;
        fn standing(standing: Standing) -> &'static str;
        fn title(task: &StepTask, compressor: bool) -> String;
        fn clutch_first() -> Vec<String>;
        fn find_leak() -> Vec<String>;
        fn make_safe() -> Vec<String>;
        fn oil_return(at_least: &Amount) -> Vec<String>;
        fn recover(refrigerant: Refrigerant, charge: &str) -> Vec<String>;
        fn open() -> Vec<String>;
        fn drain(drive: CompressorDrive, drained: Option<&Amount>, little: bool) -> Vec<String>;
        fn drier(listed: bool, open_long: bool) -> Vec<String>;
        fn rings(refrigerant: Refrigerant) -> Vec<String>;
        fn oil_kind(
            oil: Option<(OilKind, OilSuitability)>,
            drive: CompressorDrive,
            refrigerant: Refrigerant
        ) -> Vec<String>;
        fn makers_part_oil(part: ReplacedPart, range: &Span) -> String;
        fn part_oil_in_compressor(range: &Span) -> String;
        fn published_part_oil(
            part: ReplacedPart,
            range: &Span,
            rows: &[AmountRow],
            on_top: Option<&Span>
        ) -> Vec<String>;
        fn unknown_part_oil(part: ReplacedPart) -> String;
        fn pressure_test() -> Vec<String>;
        fn recovered_oil(recovered: Option<&Amount>, in_compressor: bool) -> String;
        fn whole_oil(label: Option<&Span>) -> String;
        fn label_is_a_check() -> String;
        fn circuit_holds(label: &Span) -> String;
        fn compressor_not_drained() -> String;
        fn makers_rule(applied: &MakersRuleRow) -> Vec<String>;
        fn published_rules(drained: Option<&Amount>, left: &Span, rows: &[RuleRow]) -> Vec<String>;
        fn supply_unknown() -> String;
        fn comes_empty() -> String;
        fn comes_used() -> String;
        fn comes_filled(contents: &Amount, adjustment: &AdjustmentRow) -> String;
        fn turn_by_hand() -> Vec<String>;
        fn tighten() -> Vec<String>;
        fn belt() -> Vec<String>;
        fn evacuate(vacuum: &EvacuationRow, open_long: bool) -> Vec<String>;
        fn standing_vacuum(hold: &Amount, rise: &Amount) -> Vec<String>;
        fn charge(
            nominal: &Amount,
            tolerance: Option<&Amount>,
            hose: Option<&Span>,
            refrigerant: Refrigerant
        ) -> Vec<String>;
        fn leak_check(
            standard: Option<&str>,
            scales: &[Amount],
            allowed: Option<&Amount>,
            tenth: &[TenthRow]
        ) -> Vec<String>;
        fn read() -> Vec<String>;
        fn window_note(note: WindowNote) -> &'static str;
        fn window(name: WindowName) -> &'static str;
        fn ground(ground: &WindowGround) -> String;
        fn measurement(measurement: Measurement) -> &'static str;
    }
}

spoken_page! {
    /// The sentences about an oil label.
    trait LabelWords in oil_label {
        fn statement(statement: &LabelStatement) -> String;
    }
}

spoken_page! {
    /// The sentences about air over a liquid, and about which refrigerant an equalised circuit may hold.
    trait PurityWords in purity {
        fn purity(purity: &Purity, unit: PressureUnit) -> Vec<String>;
        fn identity(statement: &IdentityStatement) -> String;
    }
}

spoken_page! {
    /// The sentences about a log.
    trait TraceWords in trace {
        fn message(message: &TraceMessage) -> String;
        fn quantity(quantity: LogQuantity) -> &'static str;
        fn figure(figure: LogFigure) -> &'static str;
        fn drifts_by() -> &'static str;
        fn scatter() -> &'static str;
        fn range(from: &str, to: &str) -> String;
        fn title(opening: &TraceOpening) -> String;
        fn opening(opening: &TraceOpening) -> Vec<String>;
    }
}

spoken_page! {
    /// The sentences about two reports on one circuit.
    trait ComparisonWords in comparison {
        fn label(label: ComparisonLabel) -> &'static str;
        fn title(refrigerant: &str) -> String;
        fn outcome(outcome: ComparisonOutcome) -> &'static str;
        fn shift(shift: Shift) -> &'static str;
        fn own_days() -> &'static str;
        fn read_once(quantities: &[&str]) -> String;
        fn led(led: &LedRow) -> String;
        fn for_customer(outcome: ComparisonOutcome) -> &'static str;
        fn vent(before: &str, after: &str) -> String;
        fn care() -> Vec<String>;
    }
}
