//! Sentences about two reports on one circuit.

use super::NUMERALS;
use super::causes::name;
use crate::report::comparison::{ComparisonOutcome, LedRow, Shift};
use crate::report::words::ComparisonLabel;

/// A heading, or the head of a column.
pub(in crate::report) fn label(label: ComparisonLabel) -> &'static str {
    match label {
        ComparisonLabel::Before => "antes",
        ComparisonLabel::After => "ahora",
        ComparisonLabel::Moved => "se ha movido",
        ComparisonLabel::WhatMoved => "Qué se ha movido",
        ComparisonLabel::Now => "Cómo queda el coche",
        ComparisonLabel::ForCustomer => "Su aire acondicionado, antes y después",
        ComparisonLabel::Found => "Qué se encontró",
        ComparisonLabel::Done => "Qué se hizo",
        ComparisonLabel::Measured => "Qué se midió",
        ComparisonLabel::ShouldBe => "debería ser",
        ComparisonLabel::Care => "Conviene saber",
    }
}

/// The title of the page for the workshop.
pub(in crate::report) fn title(refrigerant: &str) -> String {
    format!("{refrigerant}, antes y después")
}

/// What became of the circuit.
pub(in crate::report) fn outcome(outcome: ComparisonOutcome) -> &'static str {
    match outcome {
        ComparisonOutcome::Repaired => {
            "Reparado, hasta donde muestran estas lecturas: lo que estaba fuera de su rango está dentro, y el coche parece sano."
        }
        ComparisonOutcome::StillHealthy => "Sano antes, sano ahora.",
        ComparisonOutcome::Better => {
            "Mejor, pero todavía no bien: se ha movido como lo mueve una reparación, y no lo bastante."
        }
        ComparisonOutcome::Mixed => {
            "Una parte se ha movido como la mueve una reparación, otra al revés: hay otra avería, o se ha causado una."
        }
        ComparisonOutcome::Unchanged => {
            "Nada se ha movido más de lo que dejan abierto los instrumentos: lo que estaba mal sigue ahí."
        }
        ComparisonOutcome::Worse => "Peor: lo que se ha movido se ha alejado de donde están los coches sanos.",
    }
}

/// How a quantity has moved.
pub(in crate::report) fn shift(shift: Shift) -> &'static str {
    match shift {
        Shift::IntoWindow => "hasta su rango",
        Shift::Nearer => "más cerca de su rango",
        Shift::Unmoved => "nada",
        Shift::Farther => "más lejos de su rango",
        Shift::Across => "al otro lado de su rango",
        Shift::StaysInside => "dentro de su rango",
        Shift::OutOfWindow => "fuera de su rango",
    }
}

/// What the comparison rests on.
pub(in crate::report) fn own_days() -> &'static str {
    "Cada lectura se compara con coches sanos en su propio día, de modo que otro tiempo no es un cambio; una reparación lleva a su \
     rango lo que estaba fuera y deja dentro lo demás."
}

/// What is not compared.
pub(in crate::report) fn read_once(quantities: &[&str]) -> String {
    format!("Leído una sola vez, y no comparado: {}.", quantities.join(", "))
}

/// The cause that led before.
pub(in crate::report) fn led(led: &LedRow) -> String {
    let (name, before) = (name(led.cause), NUMERALS.percent(led.before));
    match led.after {
        Some(after) => format!("«{name}», que antes encabezaba con {before}: ahora {}.", NUMERALS.percent(after)),
        None => format!("«{name}» encabezaba antes con {before}; ahora no se compararon causas."),
    }
}

/// What became of it, for the customer.
pub(in crate::report) fn for_customer(outcome: ComparisonOutcome) -> &'static str {
    match outcome {
        ComparisonOutcome::Repaired => {
            "Su aire acondicionado vuelve a funcionar como debe, hasta donde se puede medir."
        }
        ComparisonOutcome::StillHealthy => "Su aire acondicionado funciona como debe, igual que antes.",
        ComparisonOutcome::Better => "Su aire acondicionado funciona mejor que antes, pero todavía no como debe.",
        ComparisonOutcome::Mixed => "Su aire acondicionado todavía no funciona como debe: queda algo por encontrar.",
        ComparisonOutcome::Unchanged => {
            "Su aire acondicionado funciona como antes del trabajo: la causa está por encontrar."
        }
        ComparisonOutcome::Worse => "Su aire acondicionado funciona peor que antes: hay que revisarlo de nuevo.",
    }
}

/// The air at the vents.
pub(in crate::report) fn vent(before: &str, after: &str) -> String {
    format!("Aire de las rejillas: {before} antes, {after} ahora.")
}

/// What the customer should know.
pub(in crate::report) fn care() -> Vec<String> {
    vec![
        "Si vuelve a enfriar menos en semanas o meses, se escapa refrigerante: haga buscar la fuga antes de cargar más.".to_owned(),
        "No abra ni rellene el circuito usted mismo: está a presión, el refrigerante que escapa congela piel y ojos y desplaza el aire, \
         algunos arden, y los compresores eléctricos llevan alta tensión."
            .to_owned(),
        "Las cifras son lo que mostraron manómetros y termómetros en un día; los datos del fabricante de su coche van antes que esta hoja."
            .to_owned(),
    ]
}
