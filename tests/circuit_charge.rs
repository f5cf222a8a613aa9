//! What charge does to whole circuits, against print: 60 circuits of each kind, 30 °C, 50 %.

use approx::{abs_diff_eq, assert_abs_diff_eq};
use satline::circuit::{
    Circuit, CircuitKind, CompressorKind, EngineSpeed, ExpansionKind, OperatingPoint, Population, SteadyState,
};
use satline::{Pressure, Ratio, Refrigerant, Temperature};

const IDLE: OperatingPoint =
    OperatingPoint::idle(Temperature::from_celsius(30.0), Ratio::from_fraction(0.5), Pressure::STANDARD_ATMOSPHERE);

fn fast() -> OperatingPoint {
    let mut operation = IDLE;
    operation.running.engine = EngineSpeed::Rpm(1500.0);
    operation
}

fn circuits(kind: CircuitKind) -> Vec<Circuit> {
    let population = Population::new(kind).unwrap();
    (0..60).map(|i| population.circuit(i)).collect()
}

/// The steady states of `circuits` with `share` of the nominal charge beside those with all of it.
fn beside_full(circuits: &[Circuit], share: f64, operation: &OperatingPoint) -> Vec<(SteadyState, SteadyState)> {
    let with = |circuit: &Circuit, share: f64| {
        let circuit = Circuit { charge: circuit.nominal_charge * share, ..*circuit };
        circuit.run(operation).ok()
    };
    circuits.iter().filter_map(|circuit| with(circuit, share).zip(with(circuit, 1.0))).collect()
}

/// Share of all 60 circuits for which `holds`: one without a state counts against.
fn share_of(pairs: &[(SteadyState, SteadyState)], holds: impl Fn(&SteadyState, &SteadyState) -> bool) -> f64 {
    pairs.iter().filter(|(with, full)| holds(with, full)).count() as f64 / 60.0
}

fn quantile(values: &mut [f64], share: f64) -> f64 {
    values.sort_by(f64::total_cmp);
    values[((values.len() - 1) as f64 * share).round() as usize]
}

fn subcooling(state: &SteadyState) -> f64 {
    state.subcooling.map_or(f64::NAN, |k| k.kelvins())
}

fn kinds(expansion: ExpansionKind) -> Vec<CircuitKind> {
    let both = [Refrigerant::R134a, Refrigerant::R1234yf];
    both.into_iter().flat_map(CircuitKind::main).filter(|kind| kind.expansion == expansion).collect()
}

/// Vapour in the liquid line, or subcooling below 1 K where there was more.
fn lost(with: &SteadyState, full: &SteadyState) -> bool {
    with.vapour_in_liquid_line.fraction() > 1e-6 || subcooling(with) < 1.0 && subcooling(full) >= 1.0
}

fn high_side_bar(with: &SteadyState, full: &SteadyState) -> f64 {
    with.high_side.bar() - full.high_side.bar()
}

/// Beyond what instruments leave open: 3 K of subcooling, half a bar.
fn overcharge_shows(with: &SteadyState, full: &SteadyState) -> bool {
    subcooling(with) - subcooling(full) > 3.0 || high_side_bar(with, full) > 0.5
}

/// Two makers' glasses clear at 78 % of the nominal charge (`tables/system/charge-labels.csv`).
#[test]
fn valve_circuits_lose_their_subcooling_between_nine_and_seven_tenths_and_show_a_fifth_too_much() {
    for kind in kinds(ExpansionKind::ThermostaticValve) {
        let circuits = circuits(kind);
        let at = |share| beside_full(&circuits, share, &IDLE);
        let (at_90, at_70) = (share_of(&at(0.9), lost), share_of(&at(0.7), lost));
        let over = share_of(&at(1.2), overcharge_shows);
        println!("{kind}: subcooling lost in {at_90:.2} at 90 %, {at_70:.2} at 70 %; 120 % shows in {over:.2}");
        assert!(at_90 <= 0.05 && at_70 - at_90 >= 0.75, "{kind}");
        assert!(over >= 0.75, "{kind}");
    }
}

/// One car 25 % short: vapour highly superheated, high side −2 psi, low side −3 psi (`tables/system/charge-measured.csv`).
///
/// At 1500 rpm circuits need more, and nearly all are dry, most of them by more than the pressures hide.
#[test]
fn orifice_circuits_a_quarter_short_have_a_dry_accumulator_and_show_a_third_too_much() {
    for kind in kinds(ExpansionKind::OrificeTube) {
        let circuits = circuits(kind);
        let superheat = |state: &SteadyState| state.superheat_at_port.kelvins();
        let dry = |with: &SteadyState, full: &SteadyState| superheat(with) - superheat(full) >= 5.0;
        let near = |with: &SteadyState, full: &SteadyState| {
            // psi, room beside the −3 and −2 of the one car: our choice
            abs_diff_eq!(with.low_side.psi(), full.low_side.psi(), epsilon = 5.0)
                && abs_diff_eq!(with.high_side.psi(), full.high_side.psi(), epsilon = 15.0)
        };
        let [idle, fast] = [IDLE, fast()].map(|operation| {
            let (short, over) = (beside_full(&circuits, 0.75, &operation), beside_full(&circuits, 1.35, &operation));
            let dry_and_near = share_of(&short, |with, full| dry(with, full) && near(with, full));
            (share_of(&short, dry), dry_and_near, share_of(&over, overcharge_shows))
        });
        println!("{kind}: dry, dry at the pressures it had, 135 % shows: {idle:.2?} at idle, {fast:.2?} at 1500 rpm");
        assert!(idle.1 >= 0.75 && fast.0 >= 0.95, "{kind}");
        assert!(idle.2 >= 0.75, "{kind}");
    }
}

/// A rig lost up to 25 % with 40 % missing; valves open for what they lack, so that valve circuits lose less than tubes.
#[test]
fn capacity_falls_with_the_charge() {
    for (expansion, least) in
        [(ExpansionKind::ThermostaticValve, [0.01, 0.04]), (ExpansionKind::OrificeTube, [0.03, 0.15])]
    {
        for kind in kinds(expansion) {
            let circuits = circuits(kind);
            let [at_70, at_60] = [0.7, 0.6].map(|share| {
                let pairs = beside_full(&circuits, share, &IDLE);
                let mut loss: Vec<f64> = pairs.iter().map(|(with, full)| 1.0 - with.capacity / full.capacity).collect();
                quantile(&mut loss, 0.5)
            });
            println!("{kind}: median loss {at_70:.3} with 30 %, {at_60:.3} with 40 % missing");
            assert!(at_70 > least[0] && at_60 > least[1] && at_60 < 0.4, "{kind}");
        }
    }
}

/// Charges of printed labels with one evaporator, g, all and those of orifice tubes.
fn labels() -> (Vec<f64>, Vec<f64>) {
    let rows: Vec<Vec<&str>> = include_str!("../tables/system/charge-labels.csv")
        .lines()
        .filter(|line| !line.starts_with('#') && !line.starts_with("car,"))
        // the name of the car may hold a comma
        .map(|line| line.strip_prefix('"').map_or(line, |rest| rest.split_once('"').unwrap().1).split(',').collect())
        .filter(|row: &Vec<&str>| row[5] == "1")
        .collect();
    let grams = |row: &Vec<&str>| row[1].parse().unwrap();
    let orifice = rows.iter().filter(|row| row[4].starts_with("orifice")).map(grams).collect();
    (rows.iter().map(grams).collect(), orifice)
}

#[test]
fn nominal_charges_are_those_of_printed_labels() {
    let (mut all, mut orifice) = labels();
    assert_eq!((all.len(), orifice.len()), (16, 2));
    let (least, median, most) = (quantile(&mut all, 0.0), quantile(&mut all, 0.5), quantile(&mut all, 1.0));
    let of_orifice = quantile(&mut orifice, 0.5);
    println!("labels: {least} to {most} g, median {median}; of orifice tubes {of_orifice}");
    let mut pooled = Vec::new();
    for kind in CircuitKind::main(Refrigerant::R134a) {
        let population = Population::new(kind).unwrap();
        let mut grams: Vec<f64> = (0..256).map(|i| population.circuit(i).nominal_charge.g()).collect();
        let [low, middle, high] = [0.1, 0.5, 0.9].map(|share| quantile(&mut grams, share));
        println!("{kind}: {low:.0} {middle:.0} {high:.0} g");
        assert!(least <= low && high <= most, "{kind}");
        if kind.expansion == ExpansionKind::OrificeTube {
            // two labels alone, so a fifth: our choice
            assert!(abs_diff_eq!(middle / of_orifice, 1.0, epsilon = 0.2), "{kind}");
        }
        pooled.extend(grams);
    }
    let middle = quantile(&mut pooled, 0.5);
    println!("all together: {middle:.0} g");
    assert_abs_diff_eq!(middle / median, 1.0, epsilon = 0.2); // sixteen labels, so a fifth: our choice
}

#[test]
fn r744_shows_three_tenths_too_little_and_too_much() {
    for kind in CircuitKind::main(Refrigerant::R744) {
        let circuits = circuits(kind);
        let shows = |with: &SteadyState, full: &SteadyState| {
            let superheat = with.superheat_at_port.kelvins() - full.superheat_at_port.kelvins();
            high_side_bar(with, full).abs() > 2.0
                || superheat.abs() > 5.0
                || (with.capacity / full.capacity - 1.0).abs() > 0.1
        };
        let [little, much] = [0.7, 1.3].map(|share| beside_full(&circuits, share, &IDLE));
        let mut fall: Vec<f64> = little.iter().map(|(with, full)| high_side_bar(with, full)).collect();
        let (shown_little, shown_much) = (share_of(&little, shows), share_of(&much, shows));
        println!(
            "{kind}: 70 % shows in {shown_little:.2}, high side {:.1} bar; 130 % in {shown_much:.2}",
            quantile(&mut fall, 0.5)
        );
        assert!(shown_little >= 0.8 && shown_much >= 0.8, "{kind}");
    }
}

/// Charges from 25 to 150 % over all kinds that condense; of R-744 from 70 to 140 %, as below half a circuit has no liquid at the
/// outlet of its gas cooler, which the model does not know. Below and above, R-1234yf may have no state: at a fifth, and past one and
/// a half, where the cut-out lies close below the critical pressure.
#[test]
fn any_charge_has_a_steady_state() {
    let condensing: Vec<CircuitKind> =
        [Refrigerant::R134a, Refrigerant::R1234yf].into_iter().flat_map(CircuitKind::main).collect();
    let carbon = CircuitKind::main(Refrigerant::R744);
    for (kinds, (low, high), solves, most) in [(condensing, (0.25, 1.5), 1000, 1), (carbon, (0.7, 1.4), 100, 0)] {
        let mut failed = Vec::new();
        for i in 0..solves {
            let kind = kinds[i % kinds.len()];
            let circuit = Population::new(kind).unwrap().circuit(i as u64);
            // multiples of the golden section fill an interval evenly
            let share = low + (high - low) * (0.618_033_988_75 * i as f64).fract();
            if (Circuit { charge: circuit.nominal_charge * share, ..circuit }).run(&IDLE).is_err() {
                failed.push(format!("{kind}, circuit {i} at {share:.3}"));
            }
        }
        println!("{} of {solves} without a state", failed.len());
        assert!(failed.len() <= most, "{failed:?}");
    }
}

/// Two labels name the charge with and without a rear evaporator: 1.36 over 0.96 kg, 750 over 600 g.
#[test]
fn electric_and_rear_circuits_have_a_charge_too() {
    let first = CircuitKind::main(Refrigerant::R134a)[0];
    let median = |kind| {
        let mut grams: Vec<f64> = circuits(kind).iter().map(|circuit| circuit.nominal_charge.g()).collect();
        quantile(&mut grams, 0.5)
    };
    let front = median(first);
    let rear = median(CircuitKind { rear_evaporator: true, ..first });
    let electric = median(CircuitKind {
        compressor: CompressorKind::Electric,
        expansion: ExpansionKind::ElectronicValve,
        ..first
    });
    println!("{front:.0} g, with a rear evaporator {rear:.0} g, electric {electric:.0} g");
    // 0.96 and 1.36 kg of one van, 600 and 750 g of a saloon
    assert!((1.2..1.6).contains(&(rear / front)));
    assert!((0.8..1.2).contains(&(electric / front)));
}
