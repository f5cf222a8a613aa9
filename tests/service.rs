//! Arithmetic of the bench against what manuals print, and against bad input.

use proptest::prelude::*;
use satline::quantity::{Density, MassRate, Time};
use satline::service::charge::{ChargeLabel, Hose, Scale, cylinder_limit, kept, kept_as_vapour};
use satline::service::job::{
    Caution, Complaint, CompressorOil, CompressorSwap, GATE_PASSES, Job, Kind, PartOil, PartSwap, Question, Vacuum,
};
use satline::service::leak::{self, Course, Gas, Held, decay, found_by, time_to_share};
use satline::service::oil::compressor::{self, Action, Held as Bound, Rule, Supplied, Swap, by_capacity};
use satline::service::oil::density::{self, OilDensity, caught, poured};
use satline::service::oil::kind::{Drive, Family, Grade, Oil, Verdict as OilVerdict};
use satline::service::oil::label::{OilLabel, Ounce, Verdict};
use satline::service::oil::part::{self, Amount, Part};
use satline::{
    Error, Length, Mass, Measured, Pressure, PressureDifference, Range, Ratio, Refrigerant, Temperature,
    TemperatureDifference, Volume,
};

use crate::support::Table;

#[track_caller]
fn assert_close(ours: f64, expected: f64, within: f64) {
    assert!((ours - expected).abs() <= within, "{ours} is not {expected} within {within}");
}

fn cm3(value: f64) -> Volume {
    Volume::from_cm3(value)
}

fn label(text: &str) -> OilLabel {
    text.parse().unwrap_or_else(|e| panic!("{text}: {e}"))
}

/// The verdict on the only amount in ounces.
fn verdict(text: &str) -> Verdict {
    let readings = label(text).readings();
    assert_eq!(readings.len(), 1, "{text}");
    readings[0].verdict.clone()
}

// --- ounces

#[test]
fn labels_that_print_both_tell_their_ounce() {
    // Kia Spectra5 and Hyundai: 150 g / 28.35 g = 5.29, with 1 cm³ taken as 1 g; in fluid ounces 5.07 or 5.28
    assert_eq!(verdict("150±10 cc (5.29±0.35 oz)"), Verdict::Is(Ounce::Weight));
    // Lexus IS250C 2010: 130 / 28.41 = 4.58
    assert_eq!(verdict("130 cc (4.6 fl oz)"), Verdict::Is(Ounce::ImperialFluid));
    // Mitsubishi 2022 says which, and is right
    for text in ["110 ml (3.9 Imp fl oz)", "20 ml (0.7 Imp fl oz)", "35 ml (1.2 Imp fl oz)"] {
        assert_eq!(verdict(text), Verdict::Is(Ounce::ImperialFluid), "{text}");
    }
    // Nissan Rogue T32 prints both
    let rogue = label("75 ml (2.5 US fl oz, 2.6 Imp fl oz)");
    let verdicts: Vec<Verdict> = rogue.readings().into_iter().map(|reading| reading.verdict).collect();
    assert_eq!(verdicts, [Verdict::Is(Ounce::UsFluid), Verdict::Is(Ounce::ImperialFluid)]);
    // Suzuki Kizashi 2013 prints three
    let kizashi = label("140 - 160 cm3 (140 - 160 ml, 4.73 - 5.41 US oz, 4.93 - 5.63 Imp oz)");
    assert_eq!(kizashi.readings().len(), 2);
    assert!(kizashi.volume().is_ok_and(|v| (v.low.cm3() - 140.0).abs() < 1e-9 && (v.high.cm3() - 160.0).abs() < 1e-9));
    // General Motors counts 30 mL to the ounce: 105 mL are 3.55 US fluid ounces, not 3.5
    assert_eq!(verdict("105 ml (3.5 fl oz)"), Verdict::Is(Ounce::ThirtyMillilitres));
    assert_eq!(verdict("270 ml (9 fl oz)"), Verdict::Is(Ounce::UsFluid));
    // too few digits to tell: 60 / 29.57 = 2.03 and 60 / 28.41 = 2.11
    assert_eq!(verdict("60 ml (2 fl oz)"), Verdict::OneOf(vec![Ounce::UsFluid, Ounce::ImperialFluid]));
    // 3.50 US fluid ounces are 103.5 cm³, printed 104: the cm³ figure is the conversion
    assert_eq!(verdict("104 ml (3.50 fl oz)"), Verdict::Is(Ounce::UsFluid));
    assert_eq!(verdict("105 ml (3.50 fl oz)"), Verdict::Is(Ounce::ThirtyMillilitres));
    // Acura MDX 2001 prints fractions: 35 mL are 1.18 US fluid ounces
    assert_eq!(verdict("35 ml (1 1/6 fl oz)"), Verdict::OneOf(vec![Ounce::UsFluid, Ounce::ImperialFluid]));
    // a mass: 60 g are 2.12 oz; as fluid ounces that would be 0.94 to 0.99 g/cm³ or 0.98 to 1.03
    assert!(matches!(verdict("60 g (2.1 oz)"), Verdict::OneOf(_)));
}

#[test]
fn labels_that_contradict_themselves_are_said_to() {
    // 4.7 fits 140 cm³ in US fluid ounces (4.73), 5.5 fits 160 cm³ in none of them: 5.41 US, 5.63 imperial; as weights
    // they ask for two densities, 0.94 to 0.96 and 0.97 to 0.98 g/cm³
    let trade = label("140–160 cm³ (4.7–5.5 oz)");
    let reading = &trade.readings()[0];
    assert_eq!(reading.verdict, Verdict::Contradiction);
    let would = |ounce: Ounce| &reading.trials.iter().find(|trial| trial.ounce == ounce).unwrap().would_read;
    assert_close(would(Ounce::UsFluid)[0], 4.734, 5e-4);
    assert_close(would(Ounce::UsFluid)[1], 5.410, 5e-4);
    assert_close(would(Ounce::ImperialFluid)[1], 5.631, 5e-4);
    let weight = &reading.trials[0];
    assert_eq!(weight.ounce, Ounce::Weight);
    let g_per_cm3: Vec<(f64, f64)> =
        weight.density.iter().map(|range| (range.low.g_per_cm3(), range.high.g_per_cm3())).collect();
    assert!(g_per_cm3[0].1 < g_per_cm3[1].0, "{g_per_cm3:?}");
    assert_eq!(
        trade.volume().unwrap_err().to_string(),
        "amount of oil: \"140–160 cm³ (4.7–5.5 oz)\" contradicts itself: 140–160 cm³ is not 4.7–5.5 oz in any \
         ounce; ask the maker which figure holds"
    );
    // Toyota Supra 1995: 140 cm³ are 4.73 US and 4.93 imperial
    assert_eq!(verdict("140 cc (4.8 fl oz)"), Verdict::Contradiction);
    // Lexus IS250C 2010, whole: 4.6 is imperial alone, 0.51 for 15 cm³ US alone
    assert_eq!(verdict("130 + 15 cc (4.6 + 0.51 fl oz)"), Verdict::Contradiction);
    // two metric figures
    assert!(matches!("140 cm³ (150 mL)".parse::<OilLabel>(), Err(Error::LabelContradicts { .. })));
}

#[test]
fn ounces_alone_are_three_things_and_ask() {
    let alone = label("8 oz");
    let reading = &alone.readings()[0];
    assert_eq!(reading.verdict, Verdict::Ask(vec![Ounce::Weight, Ounce::UsFluid, Ounce::ImperialFluid]));
    let cm3s: Vec<(f64, f64)> =
        reading.trials.iter().map(|trial| (trial.volume.low.cm3(), trial.volume.high.cm3())).collect();
    // 226.8 g over 1.049 and 0.9491 g/cm³
    assert_close(cm3s[0].0, 216.20, 0.01);
    assert_close(cm3s[0].1, 238.96, 0.01);
    assert_close(cm3s[1].0, 236.59, 0.01);
    assert_close(cm3s[2].0, 227.30, 0.01);
    assert!(matches!(alone.volume(), Err(Error::UnitAmbiguous { .. })));
    assert_eq!(
        label("4.6 fl oz").volume().unwrap_err().to_string(),
        "amount of oil: \"fl oz\" in \"4.6 fl oz\" can mean a US fluid ounce (29.57 mL) or an imperial fluid \
         ounce (28.41 mL); say which"
    );
    // said to be one of them, it is
    assert_close(label("8 US fl oz").volume().unwrap().low.cm3(), 236.588, 1e-3);
    assert!(matches!(verdict("4.6 fl oz"), Verdict::Ask(both) if both.len() == 2));
}

#[test]
fn labels_that_cannot_be_read() {
    let refused = |text: &str| text.parse::<OilLabel>().unwrap_err().to_string();
    assert_eq!(
        refused("150"),
        "amount of oil: \"150\" has no unit; add one of cm³, mL, L, g, oz, fl oz, US fl oz, imp fl oz, oz wt"
    );
    assert_eq!(
        refused("150 pints"),
        "amount of oil: \"pints\" in \"150 pints\" is not a unit of it; use one of cm³, mL, L, g, oz, fl oz, US \
         fl oz, imp fl oz, oz wt"
    );
    assert_eq!(refused("NaN cm³"), "amount of oil: \"NaN cm³\" is not a finite number");
    assert_eq!(
        refused("4,7 oz"),
        "amount of oil: the comma in \"4,7\" is not accepted; write the decimal sign as a point, thousands \
         without a sign"
    );
    assert_eq!(refused(""), "amount of oil: \"\" does not start with a number; write it like \"150 cm³\"");
    assert!(refused("160–140 cm³").contains("above zero and not above its upper end"), "{}", refused("160–140 cm³"));
    assert!(refused("10±150 cm³").contains("check which figure is the tolerance"));
    assert!(refused("-150 cm³").contains("must be zero or more"), "{}", refused("-150 cm³"));
}

proptest! {
    /// Whatever is printed is read back as what it was printed from.
    #[test]
    fn ounces_printed_from_cubic_centimetres_are_recognised(volume in 20u32..400, us in any::<bool>()) {
        let size = if us { 29.573_529_562_5 } else { 28.413_062_5 };
        let text = format!("{volume} cm³ ({:.3} fl oz)", f64::from(volume) / size);
        let expected = if us { Ounce::UsFluid } else { Ounce::ImperialFluid };
        prop_assert_eq!(verdict(&text), Verdict::Is(expected));
    }

    /// No text makes the reader of labels panic.
    #[test]
    fn any_text_is_read_or_refused(text in "[0-9 .,±+–/()a-zµ³-]{0,40}") {
        let _ = text.parse::<OilLabel>().map(|label| label.readings());
        let _ = text.parse::<ChargeLabel>();
    }
}

// --- oil by part and for the compressor

#[test]
fn amounts_by_part_are_rows_of_the_table() {
    let table = Table::read("service/oil.csv");
    let (low, high) = (table.column("cm3_low"), table.column("cm3_high"));
    let (item, print, scope) = (table.column("item"), table.column("as_printed"), table.column("scope"));
    // a word of the row's item for each part
    let word = |part: Part| match part {
        Part::Condenser => ["condenser"].as_slice(),
        Part::Evaporator => &["evaporator"],
        Part::ReceiverDrier => &["receiver"],
        Part::Accumulator => &["accumulator"],
        Part::Line => &["hose", "line", "pipe"],
        Part::SuddenLoss => &["sudden", "large leak", "hose / valve"],
        _ => &["leak", "sudden"],
    };
    for row in part::PUBLISHED {
        // "Lincoln Mark VIII 1995, service manual" is the scope "Lincoln Mark VIII 1995 (accumulator, orifice tube)"
        let maker = row.source.work.split([' ', ',']).next().unwrap();
        let maker = if maker == "general" { "Nissan;Audi" } else { maker };
        let mut of_maker = table.rows.iter().filter(|cells| {
            maker.split(';').any(|maker| cells[scope].contains(maker))
                && word(row.part).iter().any(|word| cells[item].contains(word))
        });
        let found = match row.amount {
            Amount::Fixed(range) => {
                let (least, most) = (range.low.cm3(), range.high.cm3());
                let near = |cell: &str, value: f64| cell.parse::<f64>().is_ok_and(|cell| (cell - value).abs() < 0.6);
                of_maker.any(|cells| {
                    near(&cells[low], least) && near(&cells[high], most)
                        // burst hose and slow seep stand in words
                        || least == 59.147_059_125 && cells[table.column("rule")].contains("+2 oz")
                        || most == 0.0 && cells[table.column("rule")].contains("slow seep: nothing")
                })
            }
            Amount::DrainedPlus(extra) => {
                let ounces = extra.us_fluid_ounces();
                of_maker.any(|cells| {
                    let text = &cells[print];
                    text.contains("drained +")
                        && (text.contains(&format!("{ounces:.0} oz"))
                            || text.contains("/3 oz")
                            || text.contains("30 ml"))
                })
            }
        };
        assert!(found, "{row:?}");
    }
    // every fixed amount of the table for these parts is carried
    let carried = part::PUBLISHED.iter().filter(|row| matches!(row.part, Part::Condenser | Part::Evaporator)).count();
    let rows = table.rows.iter().filter(|cells| {
        cells[0] == "per component" && (cells[item].starts_with("condenser") || cells[item].starts_with("evaporator"))
    });
    assert_eq!(rows.count(), carried);
}

#[test]
fn the_published_range_of_a_part_names_all_its_works() {
    let range = |part, drained| {
        let spread = part::published(part, drained).unwrap();
        (spread.range.low.cm3(), spread.range.high.cm3(), spread.works.len())
    };
    let (low, high, works) = range(Part::Evaporator, None);
    assert!((low - 29.57).abs() < 0.01 && (high - 90.0).abs() < 1e-9 && works == 18, "{low} {high} {works}");
    // what was drained brings the rules that go by it
    let (_, high, with) = range(Part::Accumulator, Some(cm3(100.0)));
    let (_, _, without) = range(Part::Accumulator, None);
    assert_close(high, 159.147, 1e-3);
    assert_eq!((without, with), (3, 7));
}

fn swap(supplied: Supplied, drained: f64) -> Swap {
    Swap { supplied, drained: cm3(drained), other_parts: cm3(0.0), recovered: cm3(0.0), system: None }
}

fn filled(contents: f64) -> Supplied {
    Supplied::Filled { contents: cm3(contents) }
}

/// What is taken out, in cm³.
fn out(rule: Rule, swap: Swap) -> f64 {
    match rule.apply(&swap).unwrap().action {
        Action::TakeOut(oil) => oil.cm3(),
        other => panic!("{other:?}"),
    }
}

/// What is poured in, in cm³.
fn pour(rule: Rule, swap: Swap) -> (f64, f64) {
    match rule.apply(&swap).unwrap().action {
        Action::Pour { oil, .. } => (oil.low.cm3(), oil.high.cm3()),
        other => panic!("{other:?}"),
    }
}

fn printed_rule(maker: &str) -> Rule {
    compressor::PUBLISHED.iter().find(|row| row.source.work.contains(maker)).unwrap().rule
}

#[test]
fn rules_give_what_their_manuals_say() {
    let oz = Volume::from_us_fluid_ounces;
    // Lincoln 1995: drained < 3 oz: fill 3 oz; 3 to 5 oz: same + 1 oz; > 5 oz: same
    let lincoln = printed_rule("Lincoln");
    for (drained, filled) in [(2.0, 3.0), (4.0, 5.0), (6.0, 6.0)] {
        let got = pour(lincoln, swap(Supplied::Emptied, oz(drained).cm3()));
        assert_close(got.0, oz(filled).cm3(), 1e-9);
    }
    // Grand Am 1995: drained < 30 mL: fill 60 mL; > 30 mL: same as drained
    assert_close(pour(printed_rule("Grand Am"), swap(Supplied::Emptied, 20.0)).0, 60.0, 1e-9);
    assert_close(pour(printed_rule("Grand Am"), swap(Supplied::Emptied, 45.0)).0, 45.0, 1e-9);
    // Cadillac 1993: drained + 1 oz; GMC 1994: HR-6 drained + 3.5 oz, others + 1 oz
    assert_close(pour(printed_rule("Cadillac"), swap(Supplied::Emptied, 50.0)).0, 50.0 + oz(1.0).cm3(), 1e-9);
    for (scope, extra) in [("compressor HR-6", 3.5), ("other compressors", 1.0)] {
        let rule = compressor::PUBLISHED.iter().find(|row| row.scope == scope).unwrap().rule;
        assert_close(pour(rule, swap(Supplied::Emptied, 50.0)).0, 50.0 + oz(extra).cm3(), 1e-9);
    }
    // Corvette 1997: the amount measured, at least 60 mL; Porsche Cayenne 2009: 140 supplied, at most 60 cm³ out
    assert_close(pour(printed_rule("Corvette"), swap(Supplied::Emptied, 45.0)).0, 60.0, 1e-9);
    assert_close(pour(printed_rule("Corvette"), swap(Supplied::Emptied, 75.0)).0, 75.0, 1e-9);
    assert_close(out(printed_rule("Cayenne"), swap(filled(140.0), 50.0)), 60.0, 1e-9);
    assert_close(out(printed_rule("Vitara"), swap(filled(150.0), 50.0)), 100.0, 1e-9);
    // Dodge Dakota 2002: empty the new one, refill with the amount drained
    let dakota = printed_rule("Dakota").apply(&swap(filled(200.0), 75.0)).unwrap();
    assert_eq!(dakota.action, Action::Pour { oil: Range::new(cm3(75.0), cm3(75.0)), empty_first: true });
    // Mitsubishi 2022: A = F − (D + S + R + a), F 110, S 20; below 60 mL count D as 40 mL
    let mitsubishi = printed_rule("Mitsubishi");
    assert_close(out(mitsubishi, swap(filled(110.0), 50.0)), 50.0, 1e-9);
    let with_parts = Swap { other_parts: cm3(20.0), recovered: cm3(5.0), ..swap(filled(110.0), 62.0) };
    assert_close(out(mitsubishi, with_parts), 110.0 - (62.0 + 20.0 + 20.0 + 5.0), 1e-9);
    // Freelander 2002: Q = X − (Y + 20), X 120
    assert_close(out(printed_rule("Freelander"), swap(filled(120.0), 55.0)), 45.0, 1e-9);
    // Suzuki XL-7 2001: C = A − B, A 140
    assert_close(out(printed_rule("XL-7"), swap(filled(140.0), 80.0)), 60.0, 1e-9);
    // Acura MDX 2001: 210 mL − drained, never more than 50 mL
    assert_close(out(printed_rule("Acura"), swap(filled(210.0), 180.0)), 30.0, 1e-9);
    assert_close(out(printed_rule("Acura"), swap(filled(210.0), 100.0)), 50.0, 1e-9);
    let held = printed_rule("Acura").apply(&swap(filled(210.0), 100.0)).unwrap().held;
    assert!(matches!(held, Some(Bound::Cap(asked)) if (asked.cm3() - 110.0).abs() < 1e-9));
    // Chrysler Sebring 2004, worked example: 150 − 90 = 60
    assert_close(by_capacity(cm3(150.0), &[cm3(60.0), cm3(30.0)]).unwrap().cm3(), 60.0, 1e-9);
    // Dodge Sprinter 2008: 100 mL supplied, take out 50 for the compressor alone, 20 when the drier (30 mL) is new too
    let sprinter = Rule::Subtract { residual: cm3(0.0), little: None };
    assert_close(out(sprinter, swap(filled(100.0), 50.0)), 50.0, 1e-9);
    assert_close(out(sprinter, Swap { other_parts: cm3(30.0), ..swap(filled(100.0), 50.0) }), 20.0, 1e-9);
}

#[test]
fn a_used_compressor_counts_what_stays_on_its_walls() {
    let rule = printed_rule("Freelander"); // 20 cm³ cannot be drained
    assert_eq!(pour(rule, swap(Supplied::Dry, 60.0)), (80.0, 80.0));
    let (low, high) = pour(rule, swap(Supplied::Used, 60.0));
    assert_close(low, 60.0, 1e-9);
    assert_close(high, 80.0, 1e-9);
    // a refill is printed for an emptied one; a used and drained one is wetted alike, a dry one is not
    assert_eq!(pour(printed_rule("Dakota"), swap(Supplied::Used, 60.0)), (60.0, 60.0));
    let (low, high) = pour(printed_rule("Dakota"), swap(Supplied::Dry, 60.0));
    assert!((low - 60.0).abs() < 1e-9 && (high - 80.0).abs() < 1e-9);
    // a rule that takes oil out says nothing of one that holds none
    assert!(matches!(printed_rule("Acura").apply(&swap(Supplied::Used, 60.0)), Err(Error::Missing { .. })));
}

#[test]
fn without_a_makers_rule_there_is_a_range() {
    let spread = compressor::published(&swap(filled(120.0), 50.0)).unwrap();
    assert_eq!(spread.outcomes.len(), compressor::PUBLISHED.len());
    // 50 as drained (Dakota), 153.5 with the 3.5 oz of the HR-6
    assert_close(spread.left.low.cm3(), 50.0, 1e-9);
    assert_close(spread.left.high.cm3(), 50.0 + 3.5 * 29.573_529_562_5, 1e-9);
    // the capped rules need the contents, and are passed over without them
    let unknown = compressor::published(&swap(Supplied::Emptied, 50.0)).unwrap();
    assert_eq!(unknown.outcomes.len(), compressor::PUBLISHED.len() - 2);
}

#[test]
fn oil_that_cannot_be_is_refused() {
    let rule = printed_rule("Freelander");
    let refused = |swap: Swap| rule.apply(&swap).unwrap_err().to_string();
    assert_eq!(
        refused(swap(filled(120.0), -5.0)),
        "oil drained from the old compressor (cm³) -5 is not possible: it must be zero or more"
    );
    assert_eq!(
        refused(swap(filled(120.0), f64::NAN)),
        "oil drained from the old compressor (cm³): \"NaN\" is not a finite number"
    );
    assert!(refused(swap(filled(0.0), 5.0)).contains("must be above zero"));
    assert_eq!(
        refused(Swap { system: Some(cm3(160.0)), recovered: cm3(30.0), ..swap(filled(120.0), 150.0) }),
        "180 cm³ of oil came out and the circuit holds 160 cm³ at most: too much was in it, refrigerant is still \
         dissolved in what was measured, or one of the figures is wrong; do not pour by them"
    );
    assert!(matches!(by_capacity(cm3(100.0), &[cm3(60.0), cm3(50.0)]), Err(Error::MoreThanHolds { .. })));
    // short is said, not filled up
    let short = rule.apply(&swap(filled(70.0), 80.0)).unwrap();
    assert_eq!(short.action, Action::AsItIs);
    assert!(matches!(short.held, Some(Bound::Short(by)) if (by.cm3() - 30.0).abs() < 1e-9));
}

proptest! {
    /// What a subtraction leaves and takes is what was inside.
    #[test]
    fn nothing_is_lost_in_a_subtraction(contents in 50.0..300.0f64, drained in 0.0..200.0f64, parts in 0.0..100.0f64) {
        for row in compressor::PUBLISHED {
            let swap = Swap { other_parts: cm3(parts), ..swap(filled(contents), drained) };
            let outcome = row.rule.apply(&swap).unwrap();
            if let Action::TakeOut(taken) = outcome.action {
                prop_assert!(taken.cm3() >= 0.0);
                prop_assert!((taken.cm3() + outcome.left.low.cm3() - contents).abs() < 1e-9);
            }
        }
    }
}

// --- which oil

#[test]
fn oils_against_circuits() {
    let verdict = |oil: &str, r, drive| oil.parse::<Oil>().unwrap().in_circuit(r, drive).verdict;
    use Drive::{Belt, Electric};
    use Refrigerant::{R12, R134a, R744, R1234yf};
    assert_eq!(verdict("PAG 100", R134a, Belt), OilVerdict::Usual);
    assert_eq!(verdict("PAG YF 46", R1234yf, Belt), OilVerdict::Usual);
    assert_eq!(verdict("PAG 46", R1234yf, Belt), OilVerdict::OnlyIfNamed);
    assert_eq!(verdict("mineral", R134a, Belt), OilVerdict::Wrong);
    assert_eq!(verdict("PAG 46", R12, Belt), OilVerdict::Wrong);
    assert_eq!(verdict("ND-OIL 11", R134a, Electric), OilVerdict::Usual);
    for oil in ["PAG 46", "PAG YF 46", "mineral"] {
        assert_eq!(verdict(oil, R1234yf, Electric), OilVerdict::RuinsInsulation, "{oil}");
    }
    assert_eq!(verdict("PAG 46", R744, Belt), OilVerdict::NothingFound);
    assert_eq!("poe68".parse::<Oil>().unwrap().to_string(), "POE 68");
    assert_eq!("ZXL 200PG".parse::<Oil>().unwrap().grade, Grade::new(100));
    assert_eq!("PAG".parse::<Oil>().unwrap(), Oil { family: Family::Pag, grade: None });
    assert_eq!(
        "PAG 47".parse::<Oil>().unwrap_err().to_string(),
        "unknown oil \"PAG 47\": write the family and the grade, as in \"PAG 46\", \"PAG YF 46\", \"POE 68\" or \
         \"mineral\"; grades are 32, 46, 68, 100 and 150"
    );
    // the table's classes
    let table = Table::read("service/oil.csv");
    for grade in Grade::ALL {
        let row = table.rows.iter().find(|row| row[2] == format!("ISO VG {}", grade.number())).unwrap();
        let (low, high) = grade.viscosity_mm2_per_s().value;
        assert!(row[table.column("rule")].is_empty() || low < high);
        let text = row.join(",");
        let printed = text.split_once(" mm2/s").unwrap().0.rsplit(',').next().unwrap().to_owned();
        let ends: Vec<f64> = printed.split('-').map(|end| end.parse().unwrap()).collect();
        assert_close(ends[0], low, 0.051);
        assert_close(ends[1], high, 0.051);
    }
}

// --- oil by weight

#[test]
fn densities_hold_what_the_table_holds() {
    let table = Table::read("service/oil-density.csv");
    let rows =
        table.rows.iter().map(|row| (row[0].as_str(), row[1].parse::<f64>().unwrap(), row[2].parse::<f64>().unwrap()));
    for (oil, celsius, g_per_cm3) in rows {
        let model = if oil.starts_with("POE") { density::POE } else { density::PAG };
        let ours = model.at(Temperature::from_celsius(celsius)).unwrap();
        // the ends of the published band are its limits, √3 standard uncertainties away
        let off = (ours.value().g_per_cm3() - g_per_cm3).abs() / ours.standard_uncertainty().g_per_cm3();
        assert!(off <= 3f64.sqrt() + 1e-3, "{oil} at {celsius} °C: {off:.2} standard uncertainties");
    }
    let hot = density::PAG.at(Temperature::from_celsius(140.0)).unwrap_err();
    assert_eq!(
        hot.to_string(),
        "temperature of the oil 140.0 °C is outside -10.0 to 100.0 °C, the range of its source"
    );
    assert!(density::PAG.at(Temperature::from_celsius(f64::NAN)).is_err());
}

#[test]
fn a_bottle_weighed_twice_gives_cubic_centimetres() {
    let scale = Scale { limit: Mass::from_g(1.0) };
    let on = |g: f64| scale.read(Mass::from_g(g)).unwrap();
    let rho = Measured::new(Density::from_g_per_cm3(0.993), Density::from_g_per_cm3(0.005)).unwrap();
    let bottle = OilDensity::of_bottle(&rho, Temperature::from_celsius(20.0)).unwrap();
    let rho = bottle.at(Temperature::from_celsius(20.0)).unwrap();
    let oil = poured(&on(500.0), &on(400.7), &rho).unwrap();
    assert_close(oil.value().cm3(), 100.0, 1e-9);
    // √(2/3) g of the scale over 0.993, and 0.5 % of 100 cm³
    assert_close(oil.standard_uncertainty().cm3(), (0.822_2f64.powi(2) + 0.503_5f64.powi(2)).sqrt(), 1e-3);
    assert_eq!(caught(&on(400.7), &on(500.0), &rho).unwrap().value(), oil.value());
    assert!(poured(&on(400.0), &on(500.0), &rho).unwrap_err().to_string().contains(
        "check which weighing was \
     first"
    ));
    assert!(matches!(scale.read(Mass::from_g(-1.0)), Err(Error::Impossible { .. })));
    assert!(matches!(scale.read(Mass::from_g(f64::NAN)), Err(Error::NotFinite { .. })));
    let water = Measured::exact(Density::from_g_per_cm3(9.93)).unwrap();
    assert!(matches!(OilDensity::of_bottle(&water, Temperature::from_celsius(20.0)), Err(Error::OutOfRange { .. })));
}

// --- charge

#[test]
fn charge_labels_agree_or_are_refused() {
    let label = |text: &str| text.parse::<ChargeLabel>().unwrap_or_else(|e| panic!("{text}: {e}"));
    // Chrysler Voyager 1996 as printed: 34 oz are 964 g, 2.13 lb are 966 g, within the last digits of .96 kg
    assert_close(label(".96 kg, 34 oz, 2.13 lb").nominal().g(), 960.0, 1e-9);
    assert_close(label("1.36 kg, 48 oz, 3.00 lb").nominal().g(), 1360.0, 1e-9);
    let plain = label("500 g");
    assert_eq!(plain.printed_tolerance(), None);
    assert_close(plain.range().low.g(), 485.0, 1e-9);
    assert_close(label("450–480 g").range().high.g(), 480.0, 1e-9);
    assert_close(label("500 g ± 20 g").range().high.g(), 520.0, 1e-9);
    assert_close(plain.part(Ratio::from_percent(30.0)).unwrap().g(), 150.0, 1e-9);
    let share = plain.share(&Measured::new(Mass::from_g(410.0), Mass::from_g(5.0)).unwrap()).unwrap();
    assert!(
        (share.value().percent() - 82.0).abs() < 1e-9 && (share.standard_uncertainty().percent() - 1.0).abs() < 1e-9
    );

    let refused = |text: &str| text.parse::<ChargeLabel>().unwrap_err().to_string();
    assert!(refused("0.5 kg (20 oz)").contains("20 oz is 567 g, not 0.5 kg"));
    assert_eq!(refused("500"), "charge: \"500\" has no unit; add one of g, kg, oz, lb");
    assert!(refused("500 mL").contains("is not a unit of it; use one of g, kg, oz, lb"));
    assert_eq!(
        refused("500 kg"),
        "charge 500000.0 g is outside 100.0 to 20000.0 g, where cars are serviced; is the unit right?"
    );
    assert!(refused("-500 g").contains("must be zero or more"));
    assert!(plain.part(Ratio::from_percent(130.0)).is_err());
}

#[test]
fn hoses_keep_what_the_table_computed() {
    let table = Table::read("service/charge.csv");
    let mut seen = 0;
    for row in table.rows.iter().filter(|row| row[0] == "hoses" && row[1].contains("bore")) {
        let (name, bore) = row[1].split_once(", bore ").unwrap();
        let bore = Length::from_m(1e-3 * bore.trim_end_matches(" mm").parse::<f64>().unwrap());
        let hose = Hose::new(bore, Length::from_m(1.0)).unwrap();
        let kept = kept(hose.volume(), name.parse().unwrap(), Temperature::from_celsius(25.0)).unwrap();
        assert_close(kept.liquid.g(), row[2].parse::<f64>().unwrap(), 0.051);
        let words: Vec<&str> = row[4].split([' ', ';']).collect();
        let after = |word: &str| words[words.iter().position(|w| *w == word).unwrap() + 1].parse::<f64>().unwrap();
        assert_close(kept.vapour.g(), after("only:"), 0.0051);
        assert_close(hose.volume().cm3(), after("volume"), 0.051);
        seen += 1;
    }
    assert_eq!(seen, 4);
    // drawn empty into the car at 3 bar it keeps less than at saturation
    let volume = cm3(32.6);
    let low =
        kept_as_vapour(volume, Refrigerant::R134a, Pressure::from_bar(3.0), Temperature::from_celsius(25.0)).unwrap();
    assert!(low.g() > 0.38 && low.g() < 0.5, "{low:?}");
    let liquid = kept_as_vapour(volume, Refrigerant::R134a, Pressure::from_bar(12.0), Temperature::from_celsius(25.0));
    assert!(liquid.unwrap_err().to_string().contains("above it the hose holds liquid"));
    assert!(matches!(Hose::new(Length::from_m(0.0), Length::from_m(1.0)), Err(Error::Impossible { .. })));
}

#[test]
fn what_arrived_is_what_left_less_the_hose() {
    let kept = kept(cm3(32.6), Refrigerant::R134a, Temperature::from_celsius(25.0)).unwrap();
    let exact = |g: f64| Measured::exact(Mass::from_g(g)).unwrap();
    let send = kept.to_send(Mass::from_g(500.0));
    assert!(send.low.g() > 500.9 && send.high.g() > 539.0 && send.high.g() < 540.0, "{send:?}");
    let arrived = kept.arrived(&exact(9000.0), &exact(8480.0)).unwrap();
    assert_close(arrived.value().g(), 520.0 - 0.5 * (kept.liquid.g() + kept.vapour.g()), 1e-9);
    assert_close(arrived.standard_uncertainty().g(), 0.5 * (kept.liquid.g() - kept.vapour.g()) / 3f64.sqrt(), 1e-9);
    assert!(kept.arrived(&exact(8480.0), &exact(9000.0)).is_err());
    // the printed example for a cylinder
    assert_close(cylinder_limit(Mass::from_lb(1000.0), 1.197).unwrap().lb(), 957.6, 1e-9);
    assert!(cylinder_limit(Mass::from_lb(1000.0), 1197.0).is_err());
}

// --- leak

#[test]
fn rates_scales_and_limits_are_rows_of_the_table() {
    let table = Table::read("service/leak-rates.csv");
    let value = table.column("value");
    let grams = |start: &str| -> Vec<f64> {
        let rows: Vec<_> = table.rows.iter().filter(|row| row[1].starts_with(start)).collect();
        assert!(!rows.is_empty(), "{start}");
        rows.iter().flat_map(|row| row[value].split([',', '/']).filter_map(|cell| cell.trim().parse().ok())).collect()
    };
    for (standard, start) in
        [("SAE J2791", "SAE J2791 (R-134a) scale"), ("SAE J2913", "SAE J2913"), ("SAE J2970", "SAE J2970")]
    {
        let ours: Vec<f64> = leak::DETECTORS
            .iter()
            .filter(|scale| scale.standard == standard)
            .map(|scale| scale.leak.g_per_year().round())
            .collect();
        assert_eq!(ours, grams(start), "{standard}");
    }
    assert_close(leak::EU_ONE_EVAPORATOR.value.g_per_year(), grams("EU type approval, one")[0], 1e-9);
    assert_close(leak::EU_TWO_EVAPORATORS.value.g_per_year(), grams("EU type approval, two")[0], 1e-9);
    let seen: Vec<f64> = leak::SEEN.iter().map(|seen| seen.rate.g_per_year()).collect();
    let printed: Vec<f64> = [
        "28 parked",
        "lifetime",
        "California light",
        "California medium/heavy duty, 2006",
        "California medium/heavy duty, 2005",
        "large buses",
    ]
    .iter()
    .map(|start| grams(start)[0])
    .collect();
    for (ours, printed) in seen.iter().zip(&printed) {
        assert_close(*ours, *printed, 1e-6);
    }
    assert_close(seen[6], 198.4, 0.1); // 7 oz
}

#[test]
fn a_charge_lasts_as_long_as_its_leak_lets_it() {
    let years = |charge, rate, share, course| {
        time_to_share(Mass::from_g(charge), MassRate::from_g_per_year(rate), Ratio::from_percent(share), course)
            .unwrap()
            .years()
    };
    // 500 g: 14 g a year takes 3.57 years to 90 %, 7.14 to 80 %, 14.29 to 60 %
    assert_close(years(500.0, 14.0, 90.0, Course::Steady), 3.571, 1e-3);
    assert_close(years(500.0, 14.0, 60.0, Course::Steady), 14.286, 1e-3);
    // in proportion it takes longer: −ln 0.6 = 0.511
    assert_close(years(500.0, 14.0, 60.0, Course::Proportional), 18.244, 1e-3);
    let refused = |charge, rate, share| {
        time_to_share(Mass::from_g(charge), MassRate::from_g_per_year(rate), Ratio::from_percent(share), Course::Steady)
            .unwrap_err()
    };
    assert!(matches!(refused(500.0, 0.0, 90.0), Error::Impossible { .. }));
    assert!(matches!(refused(-500.0, 5.0, 90.0), Error::Impossible { .. }));
    assert!(matches!(refused(500.0, 5.0, 0.0), Error::OutOfRange { .. }));
    assert!(matches!(refused(f64::NAN, 5.0, 90.0), Error::NotFinite { .. }));
    // and back: what is missing then is a tenth
    let rate = MassRate::from_g_per_year(14.0);
    let gone = leak::lost(rate, Time::from_years(50.0 / 14.0)).unwrap();
    assert_close(gone.g(), 50.0, 1e-9);
    let missing = Measured::exact(Mass::from_g(-3.0)).unwrap();
    assert!(leak::rate(&missing, &Measured::exact(Time::from_years(1.0)).unwrap()).is_err());
    assert_eq!(found_by(MassRate::from_g_per_year(8.0)).filter(|scale| scale.looks_for == "R-134a").count(), 2);
}

fn held(bar: f64, celsius: f64, u_bar: f64, u_kelvin: f64) -> Held {
    Held {
        pressure: Measured::new(Pressure::from_bar(bar), PressureDifference::from_bar(u_bar)).unwrap(),
        temperature: Measured::new(Temperature::from_celsius(celsius), TemperatureDifference::from_kelvins(u_kelvin))
            .unwrap(),
    }
}

#[test]
fn a_fall_of_pressure_by_cold_is_no_leak() {
    let volume = Measured::exact(Volume::from_l(2.5)).unwrap();
    let hour = Time::from_hours(1.0);
    // 11 bar of nitrogen at 25 °C, 10.5 bar at 15 °C: cold explains 10.631
    let test = decay(&volume, Gas::Nitrogen, &held(11.0, 25.0, 0.0, 0.0), &held(10.5, 15.0, 0.0, 0.0), hour).unwrap();
    assert_close(test.expected.bar(), 11.0 * 288.15 / 298.15, 1e-9);
    // Δm = V M/R (p₁/T₁ − p₂/T₂)
    let expected = 2.5e-3 * 28.014 / 8.314_462_618 * (11.0e5 / 298.15 - 10.5e5 / 288.15);
    assert_close(test.lost.value().g(), expected, 1e-6);
    // vapour of R-134a, 3 bar at 25 °C to 2.9 bar at 25 °C: a thirtieth, a little more than the perfect gas says
    let vapour = Gas::Vapour(Refrigerant::R134a);
    let test = decay(&volume, vapour, &held(3.0, 25.0, 0.0, 0.0), &held(2.9, 25.0, 0.0, 0.0), hour).unwrap();
    let perfect = 2.5e-3 * 102.032 / 8.314_462_618 * 0.1e5 / 298.15;
    assert!(test.lost.value().g() > perfect && test.lost.value().g() < 1.15 * perfect, "{test:?}");
    assert_close(test.expected.bar(), 3.0, 1e-6);
    // with liquid inside it says nothing
    let full = decay(&volume, vapour, &held(8.0, 25.0, 0.0, 0.0), &held(7.9, 25.0, 0.0, 0.0), hour).unwrap_err();
    assert!(full.to_string().contains("with liquid inside the pressure tells nothing of a leak"), "{full}");
    assert!(decay(&volume, vapour, &held(-1.0, 25.0, 0.0, 0.0), &held(2.9, 25.0, 0.0, 0.0), hour).is_err());
    assert!(
        decay(&volume, vapour, &held(3.0, 25.0, 0.0, 0.0), &held(2.9, 25.0, 0.0, 0.0), Time::from_hours(0.0)).is_err()
    );
}

#[test]
fn a_leak_is_recovered_within_its_uncertainty() {
    // 1,000 random cases: the stated 95 % interval must hold the true loss in 95 % of them
    let mut seed = 7u64;
    let mut uniform = || {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((seed >> 11) as f64 + 0.5) / (1u64 << 53) as f64
    };
    let mut inside = 0;
    for _ in 0..1000 {
        let mut normal = || (-2.0 * uniform().ln()).sqrt() * (std::f64::consts::TAU * uniform()).cos();
        let (u_p, u_t) = (0.05, 0.5);
        // true states: 2.5 L of nitrogen, 12 bar at 25 °C; later 18 °C and some of it gone
        let (p1, t1, t2) = (12.0, 298.15, 291.15);
        let lost_share = 0.03;
        let p2 = p1 * (1.0 - lost_share) * t2 / t1;
        let before = held(p1 + u_p * normal(), t1 + u_t * normal() - 273.15, u_p, u_t);
        let after = held(p2 + u_p * normal(), t2 + u_t * normal() - 273.15, u_p, u_t);
        let volume = Measured::exact(Volume::from_l(2.5)).unwrap();
        let test = decay(&volume, Gas::Nitrogen, &before, &after, Time::from_hours(2.0)).unwrap();
        let truth = 2.5e-3 * 28.014 / 8.314_462_618 * lost_share * p1 * 1e5 / t1;
        if (test.lost.value().g() - truth).abs() <= test.lost.expanded().g() {
            inside += 1;
        }
    }
    // 950 expected; three standard deviations of the count are 21
    assert!((929..=971).contains(&inside), "{inside} of 1000");
}

// --- the job sheet

fn job(refrigerant: Refrigerant, drive: Drive) -> Job {
    Job::new(refrigerant, "550 g".parse().unwrap(), drive)
}

fn kinds(job: &Job) -> Vec<Kind> {
    job.sheet().unwrap().lines.into_iter().map(|line| line.kind).collect()
}

fn replaced(supplied: Option<Supplied>, drained: Option<f64>, rule: Option<Rule>) -> Option<CompressorSwap> {
    let drained = drained.map(|oil| Measured::exact(cm3(oil)).unwrap());
    Some(CompressorSwap { supplied, drained, rule })
}

/// Where the first line of a kind stands.
fn place(kinds: &[Kind], is: impl Fn(&Kind) -> bool) -> usize {
    kinds.iter().position(is).unwrap_or_else(|| panic!("{kinds:?}"))
}

#[test]
fn a_sheet_goes_in_the_order_of_the_work() {
    let job = Job {
        complaint: Complaint::NoiseCoolsWell,
        compressor: replaced(Some(Supplied::Emptied), Some(70.0), None),
        parts: vec![PartSwap { part: Part::Condenser, makers: None, drained: None }],
        ..job(Refrigerant::R134a, Drive::Belt)
    };
    let kinds = kinds(&job);
    assert_eq!(kinds[0], Kind::ClutchFirst, "noise and good cooling: clutch, bearing and pulley first");
    let order = [
        place(&kinds, |kind| *kind == Kind::Recover),
        place(&kinds, |kind| *kind == Kind::Open),
        place(&kinds, |kind| matches!(kind, Kind::Drain { .. })),
        place(&kinds, |kind| matches!(kind, Kind::Drier { listed: false, .. })),
        place(&kinds, |kind| *kind == Kind::Rings),
        place(&kinds, |kind| matches!(kind, Kind::PartOil { .. })),
        place(&kinds, |kind| matches!(kind, Kind::CompressorOil(_))),
        place(&kinds, |kind| *kind == Kind::TurnByHand),
        place(&kinds, |kind| *kind == Kind::Tighten),
        place(&kinds, |kind| *kind == Kind::Belt),
        place(&kinds, |kind| matches!(kind, Kind::Evacuate { .. })),
        place(&kinds, |kind| *kind == Kind::Hold),
        place(&kinds, |kind| matches!(kind, Kind::Charge { .. })),
        place(&kinds, |kind| matches!(kind, Kind::LeakCheck { .. })),
        place(&kinds, |kind| *kind == Kind::Read),
    ];
    assert!(order.is_sorted(), "{order:?}");
    assert_eq!(order[14], kinds.len() - 1);
    // noise that comes with bad cooling, or none, does not begin with the clutch
    for complaint in [Complaint::NoiseCoolsBadly, Complaint::NotSaid] {
        assert!(!self::kinds(&Job { complaint, ..job.clone() }).contains(&Kind::ClutchFirst));
    }
}

#[test]
fn every_line_says_what_it_rests_on() {
    let job = Job {
        oil: Some(label("150 cm³")),
        compressor: replaced(Some(Supplied::Emptied), Some(70.0), None),
        parts: vec![PartSwap { part: Part::Evaporator, makers: None, drained: None }],
        ..job(Refrigerant::R1234yf, Drive::Belt)
    };
    for line in job.sheet().unwrap().lines {
        assert!(!line.basis.is_empty(), "{:?}", line.kind);
    }
}

#[test]
fn electric_compressors_begin_with_their_voltage() {
    let electric = Job {
        oil_kind: Some("PAG 46".parse().unwrap()),
        compressor: replaced(Some(Supplied::Used), Some(70.0), None),
        ..job(Refrigerant::R1234yf, Drive::Electric)
    };
    let sheet = electric.sheet().unwrap();
    assert_eq!(sheet.lines[0].kind, Kind::MakeSafe);
    assert!(sheet.lines[0].cautions.contains(&Caution::HighVoltage));
    assert!(sheet.questions.contains(&Question::OilUnsuited));
    let cautions: Vec<Caution> = sheet.lines.iter().flat_map(|line| line.cautions.clone()).collect();
    assert!(cautions.contains(&Caution::ForeignOil));
    assert!(cautions.iter().any(|caution| matches!(caution, Caution::Flammable(_))));
    let kinds = kinds(&electric);
    assert!(!kinds.contains(&Kind::Belt) && !kinds.contains(&Kind::TurnByHand));
    // belts have neither
    let cautions: Vec<Caution> = job(Refrigerant::R134a, Drive::Belt)
        .sheet()
        .unwrap()
        .lines
        .iter()
        .flat_map(|line| line.cautions.clone())
        .collect();
    assert!(!cautions.contains(&Caution::ForeignOil) && !cautions.iter().any(|c| matches!(c, Caution::Flammable(_))));
}

#[test]
fn no_amount_is_made_up() {
    let open = Job {
        compressor: replaced(None, None, None),
        parts: vec![PartSwap { part: Part::Condenser, makers: None, drained: None }],
        ..job(Refrigerant::R134a, Drive::Belt)
    };
    let sheet = open.sheet().unwrap();
    assert_eq!(
        sheet.questions,
        [
            Question::Drained,
            Question::CompressorRule,
            Question::Supplied,
            Question::PartFigure(Part::Condenser),
            Question::OilAmount,
            Question::OilKind,
            Question::Ambient,
        ]
    );
    let oil = sheet.lines.iter().find_map(|line| match &line.kind {
        Kind::CompressorOil(oil) => Some(oil.as_ref().clone()),
        _ => None,
    });
    assert_eq!(oil, Some(CompressorOil::NotMeasured));
    let range = sheet.lines.iter().find_map(|line| match &line.kind {
        Kind::PartOil { oil: PartOil::Published(spread), .. } => Some(spread.range),
        _ => None,
    });
    assert!(range.is_some_and(|range| range.high.cm3() > 3.9 * range.low.cm3()));
    // ounces alone, and a label that contradicts itself
    let with = |text: &str| Job { oil: Some(label(text)), ..open.clone() }.sheet().unwrap();
    assert!(with("5 oz").questions.contains(&Question::WhichOunce));
    let contradiction = with("140–160 cm³ (4.7–5.5 oz)");
    assert!(contradiction.questions.contains(&Question::Contradiction));
    assert!(contradiction.label_oil.is_some_and(|oil| (oil.high.cm3() - 160.0).abs() < 1e-9));
}

#[test]
fn oil_is_counted_once() {
    let fifteen = Range::new(cm3(15.0), cm3(15.0));
    let rule = Rule::Subtract { residual: cm3(20.0), little: None };
    let with = |makers: Option<Range<Volume>>| Job {
        compressor: replaced(Some(filled(120.0)), Some(60.0), Some(rule)),
        parts: vec![PartSwap { part: Part::Condenser, makers, drained: None }],
        recovered_oil: Some(cm3(5.0)),
        ..job(Refrigerant::R134a, Drive::Belt)
    };
    // contents 120 − (60 + 20 + 15 + 5) = 20 out, and nothing added at the condenser
    let kinds_with = kinds(&with(Some(fifteen)));
    assert!(kinds_with.iter().any(|k| matches!(k, Kind::PartOil { oil: PartOil::InCompressor(_), .. })));
    assert!(kinds_with.iter().any(|k| matches!(k, Kind::OilBack { in_compressor: true, .. })));
    let taken = |kinds: &[Kind]| {
        kinds
            .iter()
            .find_map(|kind| match kind {
                Kind::CompressorOil(oil) => match oil.as_ref() {
                    CompressorOil::Makers { outcome, .. } => match outcome.action {
                        Action::TakeOut(oil) => Some(oil.cm3()),
                        _ => None,
                    },
                    _ => None,
                },
                _ => None,
            })
            .unwrap()
    };
    assert_close(taken(&kinds_with), 20.0, 1e-9);
    // without the condenser's figure each part gets its own oil: 120 − (60 + 20) = 40 out
    let kinds_without = kinds(&with(None));
    assert_close(taken(&kinds_without), 40.0, 1e-9);
    assert!(kinds_without.iter().any(|k| matches!(k, Kind::PartOil { oil: PartOil::Published(_), .. })));
    assert!(kinds_without.iter().any(|k| matches!(k, Kind::OilBack { in_compressor: false, .. })));
    // a flushed circuit gets the label's amount and nothing else
    let flushed = Job { flushed: true, oil: Some(label("150 cm³")), ..with(None) };
    let kinds = kinds(&flushed);
    assert!(kinds.iter().any(|k| matches!(k, Kind::WholeOil { label: Some(_) })));
    assert!(!kinds.iter().any(|k| matches!(k, Kind::PartOil { .. } | Kind::CompressorOil(_) | Kind::OilBack { .. })));
}

#[test]
fn the_gauge_of_an_evacuation_falls_with_altitude() {
    let gauge = |altitude: Length| {
        let job = Job { altitude: Some(altitude), ..job(Refrigerant::R134a, Drive::Belt) };
        kinds(&job)
            .into_iter()
            .find_map(|kind| match kind {
                Kind::Evacuate { gauge, .. } => Some((gauge.high.inhg(), gauge.low.inhg())),
                _ => None,
            })
            .unwrap()
    };
    // printed: 28 to 29.5 inHg at sea level, 1 inHg less for 1000 ft, right within 0.2 inHg up to 7000 ft
    let (least, most) = gauge(Length::from_ft(0.0));
    assert_close(least, -28.0, 0.01);
    assert_close(most, -29.5, 0.01);
    let (high_up, _) = gauge(Length::from_ft(5000.0));
    assert_close(high_up, -23.0, 0.2);
    // what passes the printed gate: Q = V Δp/t over Q = ṁ R T/M
    let passes = 2.5e-3 * Vacuum::PRINTED.rise.pa() / Vacuum::PRINTED.hold.seconds();
    let leak = MassRate::from_g_per_year(14.0).kg_per_s() * 8.314_462_618 * 293.15 / 102.032e-3;
    assert_close(passes / leak, GATE_PASSES.value, 1.0);
}

#[test]
fn jobs_that_cannot_be_are_refused() {
    let base = Job {
        oil: Some(label("150 cm³")),
        compressor: replaced(Some(Supplied::Emptied), Some(70.0), None),
        ..job(Refrigerant::R134a, Drive::Belt)
    };
    let refused = |job: Job| job.sheet().unwrap_err();
    let more = Job { compressor: replaced(Some(Supplied::Emptied), Some(151.0), None), ..base.clone() };
    assert!(matches!(refused(more), Error::MoreThanHolds { .. }));
    // what is within the uncertainty of the scale is not refused
    let drained = Measured::new(cm3(151.0), cm3(2.0)).ok();
    let close = Some(CompressorSwap { supplied: Some(Supplied::Emptied), drained, rule: None });
    assert!(Job { compressor: close, ..base.clone() }.sheet().is_ok());
    let negative = Job { recovered_oil: Some(cm3(-3.0)), ..base.clone() };
    assert!(refused(negative).to_string().contains("oil recovered with the refrigerant (cm³) -3 is not possible"));
    let nan = Job { hose: Some(cm3(f64::NAN)), ambient: Some(Temperature::from_celsius(25.0)), ..base.clone() };
    assert!(matches!(refused(nan), Error::NotFinite { .. }));
    let hot = Job { ambient: Some(Temperature::from_celsius(95.0)), ..base.clone() };
    assert!(refused(hot).to_string().contains("is the unit right?"));
    let ago = Job { open_for: Some(Time::from_days(-1.0)), ..base.clone() };
    assert!(matches!(refused(ago), Error::Impossible { .. }));
    let rule = Some(Rule::Subtract { residual: cm3(20.0), little: None });
    let unknown = Job { compressor: replaced(None, Some(70.0), rule), ..base };
    assert!(matches!(refused(unknown), Error::Missing { .. }));
}

proptest! {
    /// Any job gives a sheet or an error, and a sheet ends with the reading.
    #[test]
    fn any_job_is_answered(
        drained in -10.0..400.0f64,
        contents in -10.0..300.0f64,
        figure in -5.0..200.0f64,
        days in 0.0..10.0f64,
        electric in any::<bool>(),
        how in 0usize..5,
        rule in 0usize..4,
        r in 0usize..Refrigerant::ALL.len(),
    ) {
        let drive = if electric { Drive::Electric } else { Drive::Belt };
        let supplied = [Some(filled(contents)), Some(Supplied::Emptied), Some(Supplied::Dry), Some(Supplied::Used), None][how];
        let rule = [
            None,
            Some(printed_rule("Lincoln")),
            Some(printed_rule("Mitsubishi")),
            Some(printed_rule("Acura")),
        ][rule];
        let job = Job {
            oil: Some(label("300 cm³")),
            compressor: replaced(supplied, Some(drained), rule),
            parts: vec![PartSwap { part: Part::Condenser, makers: Some(Range::new(cm3(figure), cm3(figure))), drained: None }],
            open_for: Some(Time::from_days(days)),
            hose: Some(cm3(40.0)),
            ambient: Some(Temperature::from_celsius(25.0)),
            ..job(Refrigerant::ALL[r], drive)
        };
        if let Ok(sheet) = job.sheet() {
            prop_assert!(drained >= 0.0 && figure >= 0.0 && drained <= 300.0);
            prop_assert_eq!(&sheet.lines.last().unwrap().kind, &Kind::Read);
        }
    }
}

#[test]
fn what_the_sheet_says_of_its_gate_is_what_the_gate_says() {
    let volume = Measured::exact(Volume::from_l(2.5)).unwrap();
    let gate = satline::service::acceptance::GATES[0].value;
    let times = gate.times_a_service_leak(&volume, Refrigerant::R134a, Temperature::from_celsius(20.0)).unwrap();
    let stated = satline::service::job::GATE_PASSES.value;
    assert!((times / stated - 1.0).abs() < 0.01, "{times} against {stated}");
}
