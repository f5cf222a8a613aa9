//! The sentences in Spanish: a translation of [`super::en`], whose text governs. One file for each English one, in the same order.
//!
//! Words of a workshop in Spain that are understood in Latin America:
//!
//! | English | Spanish | elsewhere also |
//! |---|---|---|
//! | low side, high side | lado de baja, lado de alta | |
//! | gauge | manómetro | |
//! | suction line | línea de aspiración | línea de succión |
//! | discharge line, liquid line | línea de descarga, línea de líquido | |
//! | vent | rejilla (de salida de aire) | |
//! | superheat, subcooling | sobrecalentamiento, subenfriamiento | recalentamiento |
//! | expansion valve, orifice tube | válvula de expansión, tubo de orificio | |
//! | receiver-drier, accumulator | filtro deshidratador, acumulador | filtro secador |
//! | clutch, belt, pulley | embrague, correa, polea | banda |
//! | window | rango | |
//! | recover, evacuate, charge by weight | recuperar, hacer vacío, cargar por peso | |
//! | standing vacuum test | prueba de vacío | |
//! | nominal charge | carga nominal | |
//! | leak | fuga | |
//! | non-condensables | gases no condensables | |
//!
//! *Recuperar* and *control de fugas* are the words of the Spanish text of Regulation (EU) 2024/573 (excerpt read) and of Real Decreto
//! 115/2017 (from memory).
//!
//! Numbers have a decimal comma, a narrow space between groups of three digits from five digits on, and a space before the percent sign
//! (RAE and ISO 80000-1, from memory). Where the page chooses the unit, it is bar, hPa for the air, and °C; where the reader typed one,
//! it is that one. What is printed on a label stands between « » as it is printed; works are cited in their own language.

mod cause_texts;
mod causes;
pub(crate) mod comparison;
mod errors;
pub(super) mod hold;
pub(super) mod job;
pub(super) mod oil_label;
mod pictures;
pub(super) mod purity;
mod reading;
pub(super) mod trace;

use super::{Label, Numerals, Reasons, Words};
use crate::Error;
use crate::circuit::CircuitKind;
use crate::diagnosis::{CauseId, JudgedQuantity, NextStep, Stop, UnitQuestion};
use crate::expected::{EqualisedVerdict, Side};
use crate::inspection::Measurand;
use crate::quantity::Position;
use crate::report::page::Furniture;
use crate::report::{Amount, CauseTexts, Causes, Caution, Healthy, Mark, Opening, Report, SourceRow, Span, Statement};

/// How Spanish writes numbers.
pub(crate) const NUMERALS: Numerals = Numerals {
    point: ',',
    group: Some('\u{202f}'),
    to: "a",
    about: "cerca de",
    over: "más del",
    or_more: "o más",
    or_less: "o menos",
    open: "sin determinar",
};

/// What every layout of a page in Spanish brings along.
pub(crate) const FURNITURE: Furniture = Furniture {
    tag: "es",
    translated: "Traducción: en caso de duda prevalece el texto en inglés.",
    basis: "Base",
    mind: "Atención",
    table: "Tabla",
    pictures: "En imágenes",
};

/// The sentences of a page in Spanish.
pub(crate) struct Spanish;

impl Words for Spanish {
    fn numerals(&self) -> Numerals {
        NUMERALS
    }
    fn furniture(&self) -> Furniture {
        FURNITURE
    }
    fn label(&self, label: Label) -> &'static str {
        reading::label(label)
    }
    fn measurand(&self, measurand: Measurand) -> &'static str {
        reading::measurand(measurand)
    }
    fn quantity(&self, quantity: JudgedQuantity) -> &'static str {
        reading::quantity(quantity)
    }
    fn side(&self, side: Side) -> &'static str {
        reading::side(side)
    }
    fn position(&self, position: Position) -> &'static str {
        reading::position(position)
    }
    fn kind(&self, kind: &CircuitKind) -> String {
        reading::kind(kind)
    }
    fn cause(&self, cause: CauseId) -> CauseTexts {
        cause_texts::texts(cause)
    }
    fn title(&self, report: &Report) -> String {
        reading::title(report)
    }
    fn opening(&self, report: &Report) -> Vec<String> {
        reading::opening(report)
    }
    fn instruments(&self, opening: &Opening) -> String {
        reading::instruments(opening)
    }
    fn question(&self, question: &UnitQuestion) -> String {
        reading::question(question)
    }
    fn headline(&self, report: &Report) -> String {
        reading::headline(report)
    }
    fn stop(&self, stop: Stop) -> &'static str {
        reading::stop(stop)
    }
    fn step(&self, step: &NextStep, causes: Option<&Causes>, first: bool) -> String {
        causes::step(step, causes, first)
    }
    fn statement(&self, statement: &Statement, report: &Report) -> String {
        reading::statement(statement, report)
    }
    fn explanation(&self, report: &Report, reasons: Reasons) -> Vec<String> {
        causes::explanation(report, reasons)
    }
    fn equalised(&self, verdict: EqualisedVerdict) -> &'static str {
        reading::equalised_in_short(verdict)
    }
    fn behind(&self, healthy: &Healthy) -> String {
        reading::behind(healthy)
    }
    fn behind_in_short(&self, healthy: &Healthy) -> String {
        reading::behind_in_short(healthy)
    }
    fn saturated(&self, report: &Report) -> Option<String> {
        reading::saturated(report)
    }
    fn mark(&self, mark: Mark) -> (char, &'static str) {
        reading::mark(mark)
    }
    fn caution(&self, caution: Caution, refrigerant: &str) -> String {
        reading::caution(caution, refrigerant)
    }
    fn caution_in_short(&self, caution: Caution, refrigerant: &str) -> String {
        reading::caution_in_short(caution, refrigerant)
    }
    fn caution_in_a_word(&self, caution: Caution) -> &'static str {
        reading::caution_in_a_word(caution)
    }
    fn source(&self, row: &SourceRow, refrigerant: &str) -> String {
        reading::source(row, refrigerant)
    }
    fn error(&self, error: &Error) -> String {
        errors::error(error)
    }
}

/// "140 a 160 cm³", or one number.
fn cm3(range: &Span) -> String {
    NUMERALS.joined(range)
}

/// "60 cm³".
fn one(oil: &Amount) -> String {
    NUMERALS.plain(oil)
}
