//! The catalogue: names, and facts that must agree with one another.

use std::collections::BTreeMap;

use approx::{abs_diff_eq, assert_abs_diff_eq};
use proptest::prelude::*;
use satline::quantity::{Density, SpecificEnthalpy, SpecificEntropy};
use satline::refrigerant::{Boiling, GwpValue, LowerFlammability};
use satline::{Error, GaugePressure, Line, Pressure, Quantity, Ratio, Refrigerant, Source, Temperature, Trust};

use crate::support::root;

/// The refrigerant that a table names, "R-134a" or "r134a"; read here, as not every build of the library reads text.
pub fn named(name: &str) -> Option<Refrigerant> {
    let plain = |name: &str| name.replace('-', "").to_lowercase();
    let is_it =
        |r: &Refrigerant| std::iter::once(&r.designation()).chain(r.fluid().names).any(|n| plain(n) == plain(name));
    Refrigerant::ALL.iter().copied().find(is_it)
}

/// Some last places of the pressure below the top, K: rounding of the temperature, where the line of a blend is flat.
const FLAT_TOP_K: f64 = 1e-6;

#[cfg(feature = "std")]
#[test]
fn names_are_read_in_every_spelling() {
    for refrigerant in Refrigerant::ALL.iter().copied() {
        let fluid = refrigerant.fluid();
        for name in std::iter::once(fluid.designation).chain(fluid.names.iter().copied()) {
            let spellings = [
                name.to_owned(),
                name.to_lowercase(),
                name.to_uppercase(),
                name.replace('-', ""),
                name.replace('-', " "),
                name.replace('-', "\u{2011}"),
                format!("  {name}\n"),
            ];
            for spelling in spellings {
                assert_eq!(spelling.parse(), Ok(refrigerant), "{spelling:?}");
            }
        }
        assert_eq!(refrigerant.to_string(), fluid.designation);
        assert_eq!(refrigerant.designation(), fluid.designation);
    }
    for (name, refrigerant) in [
        ("R134a", Refrigerant::R134a),
        ("hfc134a", Refrigerant::R134a),
        ("R 134 A", Refrigerant::R134a),
        ("yf", Refrigerant::R1234yf),
        ("r1234YF", Refrigerant::R1234yf),
        ("CO2", Refrigerant::R744),
        ("co₂", Refrigerant::R744),
        ("Carbon Dioxide", Refrigerant::R744),
        ("R1234ze", Refrigerant::R1234ze),
        ("R-1234ze(E)", Refrigerant::R1234ze),
        ("propane", Refrigerant::R290),
        ("404a", Refrigerant::R404A),
        ("r12 freon", Refrigerant::R12),
        ("Freon 12", Refrigerant::R12),
        ("FREON-22", Refrigerant::R22),
        ("Freon 134a", Refrigerant::R134a),
        ("refrigerant 134a", Refrigerant::R134a),
        ("12", Refrigerant::R12),
        ("744", Refrigerant::R744),
    ] {
        assert_eq!(name.parse(), Ok(refrigerant), "{name:?}");
    }
}

#[test]
fn no_name_means_two_refrigerants() {
    let mut owners: BTreeMap<String, Refrigerant> = BTreeMap::new();
    for refrigerant in Refrigerant::ALL.iter().copied() {
        let fluid = refrigerant.fluid();
        for name in std::iter::once(&fluid.designation).chain(fluid.names) {
            let plain = name.to_lowercase().replace(['-', ' '], "");
            let owner = *owners.entry(plain).or_insert(refrigerant);
            assert_eq!(owner, refrigerant, "{name}");
        }
    }
}

#[cfg(feature = "std")]
#[test]
fn unknown_names_are_answered_with_the_nearest() {
    for (name, nearest) in [
        ("R-134", "R-134a"),
        ("R1234y", "R-1234yf"),
        ("R-13a", "R-134a"),
        ("R-1234ze(Z)", "R-1234ze(E)"),
        ("R22a", "R-22"),
        ("R-600", "R-600a"),
        ("R-404", "R-404A"),
        ("407", "R-407C"),
        ("134", "R-134a"),
        ("freon 134", "R-134a"),
        ("1234", "R-1234yf"),
        ("propan", "R-290"),
        ("pro", "R-290"),
    ] {
        let error = name.parse::<Refrigerant>().unwrap_err();
        let Error::UnknownRefrigerant { name: asked, nearest: found, is_trade_word } = &error else {
            panic!("{error:?}")
        };
        assert_eq!((asked.as_str(), found[0], found.len()), (name, nearest, 3), "{error}");
        assert!(!is_trade_word, "{error}");
        let expected = format!("unknown refrigerant {name:?}; nearest: {}, {}, {}", found[0], found[1], found[2]);
        assert_eq!(error.to_string(), expected);
    }
}

/// A word for several refrigerants is answered with them, however it is spelt, and never with a flammable one.
#[cfg(feature = "std")]
#[test]
fn a_trade_word_is_answered_with_what_it_may_mean_and_with_where_to_look() {
    for name in ["freon", "Freon gas", "FREON", "gas", "refrigerant", "freeon", "Fréon", "frion", "freo", "fryon"] {
        let error = name.parse::<Refrigerant>().unwrap_err();
        let said = format!(
            "{name:?} is a trade word for several refrigerants (R-12, R-22, R-134a …): the label on the car names the one inside"
        );
        assert_eq!(error.to_string(), said);
        assert_eq!(error.code(), "unknown-refrigerant");
        let nearest = vec!["R-12", "R-22", "R-134a"];
        assert_eq!(error, Error::UnknownRefrigerant { name: name.to_owned(), nearest, is_trade_word: true });
    }
    // with a number it is that number's, known or not
    assert_eq!("freon 22".parse(), Ok(Refrigerant::R22));
    let eleven = "freon 11".parse::<Refrigerant>().unwrap_err().to_string();
    assert!(eleven.starts_with("unknown refrigerant \"freon 11\"; nearest: "), "{eleven}");
}

#[cfg(feature = "std")]
#[test]
fn what_is_another_substance_or_nothing_is_not_taken_for_one_of_ours() {
    // CO is carbon monoxide; the others are refrigerants this crate does not carry, or no name at all
    let names = [
        "freon",
        "Refrigerant",
        "freon 11",
        "134",
        "1234",
        "CO",
        "R-1270",
        "R-11",
        "R-13",
        "R-143",
        "R-1234",
        "R-1234ze(Z)",
        "R-407A",
        "R-410",
        "HC-12a",
        "R-513A",
    ];
    for name in names.into_iter().chain(["", " ", "-", "R", "a", "Ⅳ", "R-134a/R-152a", "R134añ"]) {
        let read = name.parse::<Refrigerant>();
        assert!(matches!(read, Err(Error::UnknownRefrigerant { .. })), "{name:?} is read as {read:?}");
    }
}

/// A name is compared with the known ones only as far as one could be, so that no text takes long.
#[cfg(feature = "std")]
#[test]
fn a_name_longer_than_any_is_refused_before_it_is_compared() {
    let error = "R-134a ".repeat(200_000).parse::<Refrigerant>().unwrap_err();
    let beginning = format!("{}R…", "R-134a ".repeat(9));
    assert_eq!(error.to_string(), format!("unknown refrigerant {beginning:?}: that is longer than any name"));
    assert_eq!(error.code(), "unknown-refrigerant");
    // what does not count for a name does not make it long
    assert_eq!(format!("R-{}134a", " ".repeat(1_000)).parse(), Ok(Refrigerant::R134a));
    for (letters, nearest) in [(64, 3), (65, 0)] {
        let error = "x".repeat(letters).parse::<Refrigerant>().unwrap_err();
        let Error::UnknownRefrigerant { nearest: found, .. } = error else { panic!("{error:?}") };
        assert_eq!(found.len(), nearest, "{letters} letters");
    }
}

#[test]
fn the_catalogue_is_complete_and_without_doubles() {
    let data_files = std::fs::read_dir(root().join("src/refrigerant"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| name.starts_with('r') && name[1..].starts_with(|c: char| c.is_ascii_digit()))
        .count();
    assert_eq!(Refrigerant::ALL.len(), data_files);
    let designations: std::collections::BTreeSet<_> = Refrigerant::ALL.iter().map(|r| r.designation()).collect();
    assert_eq!(designations.len(), Refrigerant::ALL.len());
    let cas: Vec<_> = Refrigerant::ALL.iter().filter_map(|r| r.fluid().cas).collect();
    assert_eq!(cas.iter().collect::<std::collections::BTreeSet<_>>().len(), cas.len(), "{cas:?}");
}

#[test]
fn registry_numbers_carry_their_check_digit() {
    for refrigerant in Refrigerant::ALL.iter().copied() {
        assert_eq!(refrigerant.fluid().cas.is_none(), refrigerant.is_blend(), "{refrigerant}");
        let Some(cas) = refrigerant.fluid().cas else { continue };
        // the last digit is the sum of the others, each times its place from the right, modulo ten
        let digits: Vec<u32> = cas.chars().filter_map(|c| c.to_digit(10)).collect();
        let (check, rest) = digits.split_last().unwrap();
        let sum: u32 = rest.iter().rev().zip(1..).map(|(digit, place)| digit * place).sum();
        assert_eq!(sum % 10, *check, "{refrigerant}: {cas}");
    }
}

#[test]
fn every_fact_has_a_source() {
    fn check(refrigerant: Refrigerant, what: &str, source: &Source) {
        assert!(source.work.trim().len() > 5, "{refrigerant}, {what}: {source:?}");
        assert!(source.doi.is_none_or(|doi| doi.starts_with("10.")), "{refrigerant}, {what}: {source:?}");
    }
    for r in Refrigerant::ALL.iter().copied() {
        let fluid = r.fluid();
        check(r, "molar mass", &fluid.molar_mass.source);
        check(r, "critical point", &fluid.critical.source);
        check(r, "boiling point", &fluid.boiling.source);
        check(r, "safety class", &fluid.safety_class.source);
        check(r, "bubble line", &fluid.bubble.source);
        check(r, "dew line", &fluid.dew.source);
        assert_eq!(fluid.triple_point.is_none(), r.is_blend(), "{r}");
        if let Some(triple) = fluid.triple_point {
            check(r, "triple point", &triple.source);
        }
        assert!(!fluid.gwp.is_empty() && !fluid.flammability.is_empty(), "{r}");
        for gwp in fluid.gwp {
            check(r, gwp.report, &gwp.source);
            assert!(!gwp.report.is_empty(), "{r}");
        }
        for limit in fluid.flammability {
            check(r, "flammability", &limit.source);
        }
        assert!(!fluid.chemical_name.is_empty() && fluid.formula.is_empty() == r.is_blend(), "{r}");
    }
}

#[test]
fn compositions_add_up() {
    for blend in Refrigerant::ALL.iter().copied().filter(|r| r.is_blend()) {
        let parts = blend.fluid().composition;
        let sum: f64 = parts.iter().map(|part| part.mass_share.percent()).sum();
        assert!(abs_diff_eq!(sum, 100.0, epsilon = 1e-9), "{blend}: {sum} %"); // rounding
        assert!(parts.iter().all(|part| part.mass_share.percent() > 0.0 && !part.refrigerant.is_blend()), "{blend}");
        // "R-32/125/134a" names the parts in their order
        let named: Vec<_> =
            blend.fluid().chemical_name.trim_start_matches("R-").split('/').map(|name| format!("R-{name}")).collect();
        let listed: Vec<_> = parts.iter().map(|part| part.refrigerant.designation()).collect();
        assert_eq!(named, listed, "{blend}");
    }
}

#[test]
fn molar_mass_of_a_blend_is_that_of_its_parts() {
    for blend in Refrigerant::ALL.iter().copied().filter(|r| r.is_blend()) {
        // 1/M = Σ wᵢ/Mᵢ
        let moles: f64 = blend
            .fluid()
            .composition
            .iter()
            .map(|part| part.mass_share.fraction() / part.refrigerant.fluid().molar_mass.value.g_per_mol())
            .sum();
        let ours = blend.fluid().molar_mass.value.g_per_mol();
        // stated to 0.0001 g/mol; the parts may use slightly other atomic weights than the equation of the blend
        assert!(
            abs_diff_eq!(ours * moles, 1.0, epsilon = 2e-5),
            "{blend}: stated {ours}, of its parts {}",
            1.0 / moles
        );
    }
}

/// Standard atomic weights 2021, abridged: IUPAC, Commission on Isotopic Abundances and Atomic Weights.
const ATOMIC_WEIGHTS: [(&str, f64); 5] = [("C", 12.011), ("H", 1.008), ("F", 18.998), ("Cl", 35.45), ("O", 15.999)];

/// The sum of atomic weights of a formula such as "CH(CH3)3"; bonds do not count.
fn weight(formula: &str) -> f64 {
    let chars: Vec<char> = formula.chars().filter(|c| *c != '=').collect();
    let mut sums = vec![0.0];
    let mut i = 0;
    while i < chars.len() {
        let unit = match chars[i] {
            '(' => {
                sums.push(0.0);
                i += 1;
                continue;
            }
            ')' => sums.pop().unwrap(),
            _ => {
                let long = chars.get(i + 1).is_some_and(char::is_ascii_lowercase);
                let symbol: String = chars[i..=i + usize::from(long)].iter().collect();
                i += usize::from(long);
                ATOMIC_WEIGHTS.iter().find(|(known, _)| *known == symbol).unwrap_or_else(|| panic!("{formula}")).1
            }
        };
        i += 1;
        let count = chars.get(i).and_then(|c| c.to_digit(10));
        i += usize::from(count.is_some());
        *sums.last_mut().unwrap() += unit * f64::from(count.unwrap_or(1));
    }
    sums[0]
}

#[test]
fn molar_mass_of_a_pure_fluid_is_that_of_its_atoms() {
    assert_abs_diff_eq!(weight("CH(CH3)3"), 4.0 * 12.011 + 10.0 * 1.008, epsilon = 1e-12); // rounding
    for r in Refrigerant::ALL.iter().copied().filter(|r| !r.is_blend()) {
        let ours = r.fluid().molar_mass.value.g_per_mol();
        let atoms = weight(r.fluid().formula);
        // equations of state keep the atomic weights of their day, chlorine's spread being the largest
        assert!(
            abs_diff_eq!(ours / atoms, 1.0, epsilon = 2e-4),
            "{r}: stated {ours}, {} gives {atoms}",
            r.fluid().formula
        );
    }
}

#[test]
fn boiling_points_lie_on_the_saturation_lines() {
    // printed to 0.001 K
    const PRINTED: f64 = 0.0005;
    for r in Refrigerant::ALL.iter().copied() {
        let ours = |dew: bool| {
            let p = Pressure::STANDARD_ATMOSPHERE;
            let t = if dew { r.dew_temperature(p) } else { r.bubble_temperature(p) }.unwrap();
            let line = if dew { r.dew_line() } else { r.bubble_line() };
            (t.celsius(), line.accuracy_at(t).unwrap().temperature.kelvins() + PRINTED)
        };
        match r.fluid().boiling.value {
            Boiling::At(t) => {
                assert!(!r.is_blend());
                let (line, allowed) = ours(true);
                assert!(abs_diff_eq!(t.celsius(), line, epsilon = allowed), "{r}: stated {}, line {line}", t.celsius());
            }
            Boiling::Between { bubble, dew } => {
                assert!(r.is_blend() && bubble <= dew);
                for (stated, (line, allowed)) in [(bubble, ours(false)), (dew, ours(true))] {
                    assert!(
                        abs_diff_eq!(stated.celsius(), line, epsilon = allowed),
                        "{r}: stated {}, line {line}",
                        stated.celsius()
                    );
                }
            }
            Boiling::Sublimes(t) => {
                // no liquid at this pressure: colder than the triple point, and the line does not reach down to it
                assert_eq!(r, Refrigerant::R744);
                assert!(t < r.fluid().triple_point.unwrap().value);
                assert!(matches!(r.dew_temperature(Pressure::STANDARD_ATMOSPHERE), Err(Error::OutOfRange { .. })));
            }
        }
        assert_eq!(matches!(r.fluid().boiling.value, Boiling::Sublimes(_)), r == Refrigerant::R744, "{r}");
    }
}

#[test]
fn critical_points_and_lines_agree() {
    for r in Refrigerant::ALL.iter().copied() {
        let critical = r.fluid().critical.value;
        for line in [r.bubble_line(), r.dew_line()] {
            assert_eq!(line.critical_temperature, critical.temperature, "{r}");
            let (ours, theirs) = (line.critical_pressure.kpa(), critical.pressure.kpa());
            // a thousandth: our choice
            assert!(abs_diff_eq!(ours / theirs, 1.0, epsilon = 1e-3), "{r}: line {ours} kPa, fact {theirs} kPa");
            assert!(line.valid.high <= critical.temperature && line.valid.low < line.valid.high, "{r}");
            assert_eq!(line.valid, r.saturation_range(), "{r}: both lines are asked over one range");
            if let Some(triple) = r.fluid().triple_point {
                assert!(line.valid.low >= triple.value, "{r}: asked below its triple point");
            }
            let bands = line.accuracy.map(|band| band.up_to);
            assert!(bands.is_sorted_by(|a, b| a <= b) && bands[3] >= line.valid.high, "{r}: bands leave a gap");
        }
        // a liquid of refrigerant weighs 220 to 600 kg/m³ at the critical point; anything else is a wrong unit
        let density = critical.density.kg_per_m3();
        assert!((200.0..620.0).contains(&density), "{r}: {density} kg/m³");
    }
}

#[test]
fn warming_potential_of_a_blend_is_that_of_its_parts_by_mass() {
    let mut seen = 0;
    for blend in Refrigerant::ALL.iter().copied().filter(|r| r.is_blend()) {
        for gwp in blend.fluid().gwp.iter().filter(|gwp| gwp.source.trust == Trust::Computed) {
            let weighted: f64 = blend
                .fluid()
                .composition
                .iter()
                .map(|part| {
                    let listed = part.refrigerant.fluid().gwp.iter().find(|g| g.report == gwp.report);
                    let Some(GwpValue::Is(value)) = listed.map(|g| g.value) else {
                        panic!("{blend}: {} of {} is not listed", gwp.report, part.refrigerant)
                    };
                    part.mass_share.fraction() * value
                })
                .sum();
            let GwpValue::Is(ours) = gwp.value else { panic!("{blend}: {gwp:?}") };
            // stated as a whole number
            assert!(
                abs_diff_eq!(ours, weighted, epsilon = 0.5 + 1e-9),
                "{blend}, {}: {ours}, by mass {weighted}",
                gwp.report
            );
            seen += 1;
        }
    }
    assert_eq!(seen, 12, "three reports of four blends");
}

#[test]
fn what_is_flammable_has_a_limit_and_nothing_else() {
    for r in Refrigerant::ALL.iter().copied() {
        let class = r.fluid().safety_class.value;
        for limit in r.fluid().flammability {
            let burns = !matches!(limit.value, LowerFlammability::None);
            assert_eq!(burns, class.is_flammable(), "{r} is {class}, limit {:?}", limit.value);
            // 1 to 15 % of the volume, 0.03 to 0.35 kg/m³: anything else is a wrong unit
            let plausible = match limit.value {
                LowerFlammability::None => true,
                LowerFlammability::Volume(share) => (1.0..15.0).contains(&share.percent()),
                LowerFlammability::Mass(density) | LowerFlammability::MassAt(density, _) => {
                    (0.03..0.35).contains(&density.kg_per_m3())
                }
                other => panic!("a kind of limit without a test: {other:?}"),
            };
            assert!(plausible, "{r}: {:?}", limit.value);
        }
    }
}

#[test]
fn flammability_by_volume_and_by_mass_agree() {
    // x = ρ V/M with the molar volume of a gas at 25 °C and 101.325 kPa, 24.465 L/mol (R T/p); one of the volumes must
    // be the same limit, within 5 %: two printed digits on either side, and a gas that is not ideal
    for r in Refrigerant::ALL.iter().copied() {
        let limits = r.fluid().flammability;
        let by_mass = limits.iter().find_map(|limit| match limit.value {
            LowerFlammability::Mass(density) => Some(density.kg_per_m3()),
            _ => None,
        });
        let Some(by_mass) = by_mass else { continue };
        let volume = by_mass * 24.465e-3 / r.fluid().molar_mass.value.kg_per_mol() * 100.0;
        let listed: Vec<f64> = limits
            .iter()
            .filter_map(|limit| match limit.value {
                LowerFlammability::Volume(share) => Some(share.percent()),
                _ => None,
            })
            .collect();
        // two digits of either limit, and air of one temperature: our choice
        assert!(
            listed.iter().any(|percent| abs_diff_eq!(percent / volume, 1.0, epsilon = 0.05)),
            "{r}: {by_mass} kg/m³ are {volume:.2} %, listed {listed:?}"
        );
    }
}

#[cfg(feature = "serde")]
#[test]
fn json_holds_the_designation() {
    for r in Refrigerant::ALL.iter().copied() {
        let text = serde_json::to_string(&r).unwrap();
        assert_eq!(text, format!("{:?}", r.designation()));
        assert_eq!(serde_json::from_str::<Refrigerant>(&text).unwrap(), r);
    }
    assert_eq!(serde_json::from_str::<Refrigerant>("\"co2\"").unwrap(), Refrigerant::R744);
    let error = serde_json::from_str::<Refrigerant>("\"R-134\"").unwrap_err().to_string();
    assert!(error.starts_with("unknown refrigerant \"R-134\"; nearest: R-134a, "), "{error}");
}

/// Number of floating-point numbers below the critical pressure, and below the end of a curve, that are tried.
const LAST: usize = 1000;

/// The last numbers up to `end`, falling.
fn last_below(end: Pressure) -> Vec<f64> {
    std::iter::successors(Some(end.pa()), |p| Some(p.next_down())).take(LAST).collect()
}

#[test]
fn no_hole_gapes_just_below_the_critical_pressure() {
    for &r in Refrigerant::ALL {
        let critical = r.dew_line().critical_pressure;
        let top = r.saturation_range().high;
        let whole = top == r.dew_line().critical_temperature;
        let pascal = last_below(critical);
        let mut kelvin = vec![0.0; LAST];
        assert_eq!(r.saturation_temperatures(&pascal, &mut kelvin).is_ok(), whole, "{r}");
        for (step, (&pa, &at_once)) in pascal.iter().zip(&kelvin).enumerate() {
            let p = Pressure::from_pa(pa);
            for (line, t) in [("dew", r.dew_temperature(p)), ("bubble", r.bubble_temperature(p))] {
                match t {
                    Ok(t) => {
                        assert!(abs_diff_eq!(t.kelvin(), top.kelvin(), epsilon = FLAT_TOP_K), "{r}, {step} below: {t}");
                        assert!(line == "bubble" || t.kelvin() == at_once, "{r}, {step} below: {t}, {at_once} K");
                    }
                    Err(error) => {
                        assert!(!whole && error.code() == "out-of-range", "{r}, {step} last places below: {error}")
                    }
                }
            }
        }
        // the lines of two blends end before the critical point: there the last numbers are those below that end
        for (line, end) in [("dew", r.dew_pressure(top).unwrap()), ("bubble", r.bubble_pressure(top).unwrap())] {
            for pa in last_below(end) {
                let p = Pressure::from_pa(pa);
                let t = if line == "dew" { r.dew_temperature(p) } else { r.bubble_temperature(p) };
                assert!(
                    t.as_ref().is_ok_and(|t| abs_diff_eq!(t.kelvin(), top.kelvin(), epsilon = FLAT_TOP_K)),
                    "{r}, {line} line at {pa}: {t:?}"
                );
            }
        }
        let above = critical.pa().next_up();
        assert!(matches!(r.dew_temperature(Pressure::from_pa(above)), Err(Error::Supercritical { .. })), "{r}");
        // one without an answer does not cost the others theirs
        let mut three = [0.0; 3];
        let error = r.saturation_temperatures(&[above, 0.5 * critical.pa(), f64::NAN], &mut three).unwrap_err();
        assert!(matches!(error, Error::Supercritical { .. }), "{r}: {error}");
        assert!(three[0].is_nan() && three[1] > 200.0 && three[2].is_nan(), "{r}: {three:?}");
    }
}

/// Numbers of every size, those that are none among them, and often those an equation answers.
fn extreme(low: f64, high: f64) -> impl Strategy<Value = f64> {
    let ends = [0.0, -0.0, 5e-324, f64::MIN_POSITIVE, 1e-300, 1e300, f64::MAX, f64::INFINITY, f64::NAN, -1.0];
    prop_oneof![
        4 => low..high,
        1 => any::<f64>(),
        1 => prop::sample::select(ends.to_vec()),
        2 => (low.abs().max(1e-12).ln()..high.ln()).prop_map(f64::exp),
        1 => (-300.0..5.0_f64).prop_map(move |power| high * 10_f64.powf(power)),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, ..ProptestConfig::default() })]
    #[test]
    fn no_answer_holds_a_number_that_is_none(
        r in prop::sample::select(Refrigerant::ALL.to_vec()),
        t in extreme(100.0, 600.0), p in extreme(1.0, 1e8), rho in extreme(1e-6, 2000.0),
        h in extreme(-5e5, 1e6), s in extreme(-3e3, 4e3), quality in extreme(0.0, 1.0),
    ) {
        let (t, p, rho) = (Temperature::from_kelvin(t), Pressure::from_pa(p), Density::from_kg_per_m3(rho));
        let (h, s) = (SpecificEnthalpy::from_j_per_kg(h), SpecificEntropy::from_j_per_kg_k(s));
        let quality = Ratio::from_fraction(quality);
        let asked = format!("{r} {t:?} {p:?} {rho:?} {h:?} {s:?} {quality:?}");
        let finite = |numbers: &[f64]| numbers.iter().all(|x| x.is_finite());
        for answer in [r.dew_pressure(t), r.bubble_pressure(t)].into_iter().flatten() {
            prop_assert!(answer.pa().is_finite(), "{asked}");
        }
        for answer in [r.dew_temperature(p), r.bubble_temperature(p)].into_iter().flatten() {
            prop_assert!(answer.kelvin().is_finite(), "{asked}");
        }
        for line in [r.dew_line(), r.bubble_line()] {
            let all = [line.pressure(t).map(Quantity::si), line.temperature(p).map(Quantity::si), line.slope_pa_per_kelvin(t)];
            prop_assert!(all.into_iter().flatten().all(f64::is_finite), "{asked}");
        }
        let phases = [r.at_enthalpy(p, h), r.at_entropy(p, s), r.at_density(t, rho), r.state(p, t).map(satline::helmholtz::Phases::One)];
        for (way, phase) in phases.into_iter().enumerate() {
            let Ok(phase) = phase else { continue };
            let mut numbers = vec![phase.temperature().si(), phase.pressure().si(), phase.density().si(), phase.enthalpy().si(), phase.entropy().si()];
            numbers.extend(phase.quality().map(Quantity::si));
            if let Some(state) = phase.single() {
                numbers.push(state.isochoric_heat_capacity().si());
                let more = [r.viscosity(t, rho).map(Quantity::si), r.thermal_conductivity(state).map(Quantity::si)];
                numbers.extend(more.into_iter().flatten());
            }
            prop_assert!(finite(&numbers), "{asked}, way {way}: {numbers:?}");
        }
        for both in [r.two_phase_at_temperature(t, quality), r.two_phase_at_pressure(p, quality)].into_iter().flatten() {
            prop_assert!(finite(&[both.temperature().si(), both.pressure().si(), both.density().si(), both.enthalpy().si(), both.entropy().si()]), "{asked}");
        }
        if let Ok(sigma) = r.surface_tension(t) {
            prop_assert!(sigma.si().is_finite(), "{asked}");
        }
        let gauge = GaugePressure::from_pa(p.pa());
        for step in [r.superheat(gauge, Pressure::STANDARD_ATMOSPHERE, t), r.subcooling(gauge, p, t)].into_iter().flatten() {
            prop_assert!(step.kelvins().is_finite(), "{asked}");
        }
        if let Ok(line) = Line::new(r, p, t) {
            for step in [line.superheat(), line.subcooling()].into_iter().flatten() {
                prop_assert!(finite(&[step.value().kelvins(), step.expanded().kelvins()]), "{asked}");
            }
        }
    }
}

/// Eight at a time or one by one, a slice ends where its curve does, and nothing beyond an end is answered.
#[test]
fn slices_of_a_curve_end_where_it_does() {
    for r in Refrigerant::ALL.iter().copied() {
        let curve = r.fluid().dew_curve;
        let (low, high) = (curve.valid.low.kelvin(), curve.valid.high.kelvin());
        let one = |kelvin: f64| curve.pressure(Temperature::from_kelvin(kelvin)).map_or(f64::NAN, |p| p.pa());
        let same = |a: f64, b: f64| a.to_bits() == b.to_bits() || a.is_nan() && b.is_nan();
        for beyond in [None, Some(low.next_down()), Some(high.next_up())] {
            // the odd one in each place of a batch and behind it, all others inside
            for place in 0..11 {
                let mut kelvin: Vec<f64> = (0..11).map(|i| low + (high - low) * f64::from(i) / 10.0).collect();
                kelvin[10] = high;
                if let Some(beyond) = beyond {
                    kelvin[place] = beyond;
                }
                let mut pascal = vec![0.0; kelvin.len()];
                let outcome = curve.pressures(&kelvin, &mut pascal);
                assert_eq!(outcome.is_err(), beyond.is_some(), "{r}, place {place}");
                assert!(kelvin.iter().zip(&pascal).all(|(t, p)| same(*p, one(*t))), "{r}, place {place}");
                assert_eq!(pascal.iter().filter(|p| p.is_nan()).count(), usize::from(beyond.is_some()), "{r}");
            }
        }
        // the way back has the same ends
        let (low, high) = (curve.valid_pressures.low.pa(), curve.valid_pressures.high.pa());
        for beyond in [low.next_down(), high.next_up()] {
            let mut pascal = [0.5 * (low + high); 8];
            (pascal[0], pascal[1], pascal[5]) = (low, high, beyond);
            let mut kelvin = [0.0; 8];
            assert!(curve.temperatures(&pascal, &mut kelvin).is_err(), "{r}");
            assert!(kelvin[5].is_nan() && kelvin.iter().filter(|t| t.is_nan()).count() == 1, "{r}");
            assert!(kelvin[0] >= curve.valid.low.kelvin() && kelvin[1] <= curve.valid.high.kelvin(), "{r}");
        }
        // the first without an answer is named, not the last
        let (inside, first) =
            (0.5 * (curve.valid.low.kelvin() + curve.valid.high.kelvin()), curve.valid.high.kelvin() + 10.0);
        let asked = [inside, first, first + 100.0, inside, inside, inside, inside, inside, first + 200.0];
        let error = curve.pressures(&asked, &mut [0.0; 9]).unwrap_err();
        let named =
            matches!(error, Error::OutOfRange { value, .. } if abs_diff_eq!(value + 273.15, first, epsilon = 1e-9)); // rounding
        assert!(named, "{r}: {error}");
    }
}
