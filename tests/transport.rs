//! Viscosity, thermal conductivity and surface tension against printed check values, other programs and themselves.

use approx::abs_diff_eq;
use satline::helmholtz::State;
use satline::quantity::{Density, SurfaceTension};
use satline::refrigerant::transport::Correlation;
use satline::{Error, Pressure, Quantity, Refrigerant, Temperature};

use crate::refrigerant::named;
use crate::support::{Table, root};

const WITH: [Refrigerant; 4] = [Refrigerant::R134a, Refrigerant::R1234yf, Refrigerant::R744, Refrigerant::R290];

fn kelvin(t: f64) -> Temperature {
    Temperature::from_kelvin(t)
}

fn thin(rho: f64) -> Density {
    Density::from_kg_per_m3(rho)
}

fn state(r: Refrigerant, t: f64, rho: f64) -> State<'static> {
    State::at(&r.fluid().equation, kelvin(t), thin(rho))
}

fn viscosity(r: Refrigerant, t: f64, rho: f64) -> f64 {
    r.viscosity(kelvin(t), thin(rho)).unwrap_or_else(|e| panic!("{r}, {t} K, {rho} kg/m³: {e}")).pa_s()
}

fn conductivity(r: Refrigerant, t: f64, rho: f64) -> f64 {
    r.thermal_conductivity(&state(r, t, rho)).unwrap_or_else(|e| panic!("{r}, {t} K, {rho} kg/m³: {e}")).w_per_m_k()
}

/// Half a unit of the last printed digit.
fn rounding(printed: &str) -> f64 {
    0.5 * 10f64.powi(-(printed.split_once('.').map_or(0, |(_, digits)| digits.len()) as i32))
}

fn refrigerant(file: &str) -> Refrigerant {
    named(file.split('-').next().unwrap()).unwrap()
}

/// One printed value and ours, in the unit of the print.
struct Beside {
    row: String,
    printed: String,
    ours: f64,
    /// How far the rounding of the entry moves it.
    entry: f64,
}

/// Every value agrees within half a unit of its last digit, that of the entry, and what the header states; what it
/// states is not much more than what there is.
fn agree(table: &Table, column: &str, values: &[Beside]) {
    let stated = table.facts("deviates").find_map(|fact| {
        let (percent, rest) = fact.split_once(" %").unwrap();
        let subject = rest.split_once(';').map_or("", |(subject, _)| subject.trim());
        (subject == column || subject.contains(' ') || subject.is_empty()).then(|| percent.parse::<f64>().unwrap())
    });
    let stated = stated.unwrap_or(0.0);
    let mut worst: f64 = 0.0;
    for Beside { row, printed, ours, entry } in values {
        let value: f64 = printed.parse().unwrap();
        // 1e-12: the last places of the print may be beyond what double precision carries
        let allowed = rounding(printed) + entry + (stated / 100.0 + 1e-12) * value;
        assert!(
            abs_diff_eq!(*ours, value, epsilon = allowed),
            "{row}: {column} printed {printed}, ours {ours}, ±{allowed:.2e}"
        );
        worst = worst.max(100.0 * (ours / value - 1.0).abs());
    }
    assert!(stated == 0.0 || worst >= 0.8 * stated, "{column}: stated {stated} %, largest {worst:.5} %");
}

/// Reads one value a row with `ours(refrigerant, T, density as printed)`.
fn check(file: &str, column: &str, rows: usize, skip: &str, ours: impl Fn(Refrigerant, f64, f64) -> f64) {
    let table = Table::read(format!("transport/{file}"));
    assert_eq!(table.fact("rows").unwrap(), rows.to_string(), "{file}");
    assert_eq!(table.rows.len(), rows, "{file}");
    let density = if table.columns[1].starts_with("density") { 1 } else { 2 };
    let values: Vec<Beside> = table
        .rows
        .iter()
        .filter(|row| skip.is_empty() || !row.iter().any(|cell| cell == skip))
        .map(|row| {
            let r = if density == 1 { refrigerant(file) } else { named(&row[0]).unwrap() };
            let (t, rho) = (row[density - 1].parse().unwrap(), row[density].parse().unwrap());
            let printed = row[table.column(column)].clone();
            Beside { row: format!("{file}: {}", row.join(",")), printed, ours: ours(r, t, rho), entry: 0.0 }
        })
        .collect();
    assert_eq!(values.len(), rows - usize::from(!skip.is_empty()), "{file}");
    agree(&table, column, &values);
}

// --- printed check values

#[test]
fn viscosities_are_those_printed() {
    let micro = |r, t, rho| 1e6 * viscosity(r, t, rho);
    check("r134a-viscosity-velliadou-2022.csv", "viscosity_uPa_s", 25, "", micro);
    check("r290-viscosity-vogel-herrmann-2016.csv", "viscosity_uPa_s", 15, "", micro);
    // density per mole
    check("r1234yf-viscosity-huber-assael-2016.csv", "viscosity_uPa_s", 3, "", |r, t, mol| micro(r, t, 114.0416 * mol));
    // the row at 10 000 K lies above the range; the formula is checked there beside it
    check("r744-viscosity-laesecke-muzny-2017.csv", "viscosity_mPa_s", 9, "10000", |r, t, rho| {
        1e3 * viscosity(r, t, rho)
    });
    assert!(matches!(Refrigerant::R744.viscosity(kelvin(10_000.0), thin(0.0)), Err(Error::OutOfRange { .. })));
}

#[test]
fn conductivities_are_those_printed() {
    check("r744-conductivity-huber-2016.csv", "conductivity_mW_m_K", 5, "Fenghour 1998", |r, t, rho| {
        1e3 * conductivity(r, t, rho)
    });
    check("r1234yf-conductivity-perkins-huber-2011.csv", "conductivity_W_m_K", 4, "", conductivity);
}

#[test]
fn an_older_viscosity_in_the_enhancement_shows() {
    // printed with the viscosity of Fenghour et al. 1998 in place of that of Laesecke & Muzny 2017
    let table = Table::read("transport/r744-conductivity-huber-2016.csv");
    let row = table.rows.iter().find(|row| row[3] == "Fenghour 1998").unwrap();
    let older: f64 = row[2].parse().unwrap();
    let percent = 100.0 * (older / (1e3 * conductivity(Refrigerant::R744, 310.0, 400.0)) - 1.0);
    assert!(abs_diff_eq!(percent, -1.05, epsilon = 0.01), "{percent} %"); // its last digit
}

// --- the same correlations in other programs

#[test]
fn conductivities_are_those_of_the_authors_program() {
    check("refprop-9.csv", "conductivity_W_m_K", 6, "", conductivity);
    check("r290-nist-webbook.csv", "conductivity_W_m_K", 17, "", conductivity);
    // below the critical region all but the last digit, whatever the viscosity
    let table = Table::read("transport/r290-nist-webbook.csv");
    let (t, rho) = (table.numbers("temperature_K"), table.numbers("density_kg_m3"));
    for (i, row) in table.rows.iter().enumerate().filter(|&(i, _)| t[i] < 290.0 || rho[i] == 0.0) {
        let printed = &row[2];
        let value: f64 = printed.parse().unwrap();
        let ours = conductivity(Refrigerant::R290, t[i], rho[i]);
        assert!(abs_diff_eq!(ours, value, epsilon = 2.0 * rounding(printed)), "{}: {ours}", row.join(","));
    }
}

#[test]
fn saturation_pages_of_the_webbook_come_out() {
    for file in ["r134a-nist-webbook.csv", "r744-nist-webbook.csv"] {
        let table = Table::read(format!("transport/{file}"));
        assert_eq!(table.fact("rows").unwrap(), table.rows.len().to_string(), "{file}");
        let r = refrigerant(file);
        for column in table.columns.iter().filter(|column| *column != "pressure_MPa_abs") {
            let values: Vec<Beside> = table
                .rows
                .iter()
                .map(|row| {
                    let at = |mpa: f64| {
                        let (liquid, vapour) = r.saturated_at_pressure(Pressure::from_mpa(mpa)).unwrap();
                        let phase = if column.contains("_vap_") { vapour } else { liquid };
                        let (t, rho) = (phase.temperature.kelvin(), phase.density.si());
                        match column.split('_').next().unwrap() {
                            "viscosity" => 1e6 * viscosity(r, t, rho),
                            "conductivity" => conductivity(r, t, rho),
                            "surface" => r.surface_tension(phase.temperature).unwrap().n_per_m(),
                            other => panic!("{file}: {other}"),
                        }
                    };
                    let (p, half) = (row[0].parse::<f64>().unwrap(), rounding(&row[0]));
                    Beside {
                        row: format!("{file}: {}", row.join(",")),
                        printed: row[table.column(column)].clone(),
                        ours: at(p),
                        entry: 0.5 * (at(p + half) - at(p - half)).abs(),
                    }
                })
                .collect();
            agree(&table, column, &values);
        }
    }
}

#[test]
fn a_second_implementation_says_the_same() {
    let table = Table::read("transport/second-implementation.csv");
    assert_eq!(table.rows.len(), 248);
    assert_eq!(table.fact("rows"), Some("248"));
    let (t, rho) = (table.numbers("temperature_K"), table.numbers("density_kg_m3"));
    let (eta, lambda) = (table.numbers("viscosity_uPa_s"), table.numbers("conductivity_mW_m_K"));
    let mut worst = [0.0f64; 3];
    for (i, row) in table.rows.iter().enumerate() {
        let r = named(&row[0]).unwrap();
        let off_eta = (1e6 * viscosity(r, t[i], rho[i]) / eta[i] - 1.0).abs();
        let off_lambda = (1e3 * conductivity(r, t[i], rho[i]) / lambda[i] - 1.0).abs();
        let near = row[5] == "yes";
        // both are printed with 12 digits; near the critical point cp and compressibility magnify the last places in
        // which the reducing constants of the two equations of state differ
        assert!(off_eta <= 2e-11, "{}: viscosity off by {off_eta:.1e}", row.join(","));
        let bar = if near { NEAR } else { 1e-9 };
        assert!(off_lambda <= bar, "{}: conductivity off by {off_lambda:.1e}", row.join(","));
        worst[0] = worst[0].max(off_eta);
        worst[1 + usize::from(near)] = worst[1 + usize::from(near)].max(off_lambda);
    }
    println!("viscosity {:.1e}, conductivity {:.1e}, near the critical point {:.1e}", worst[0], worst[1], worst[2]);
}

/// Relative, within 5 % above the critical temperature.
const NEAR: f64 = 1e-8;

#[test]
fn the_register_says_what_the_headers_say() {
    let readme = std::fs::read_to_string(root().join("tables/README.md")).unwrap();
    let mut files = 0;
    for line in readme.lines().filter(|line| line.starts_with("| `transport/") && line.contains(".csv`")) {
        let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
        let table = Table::read(cells[0].trim_matches('`'));
        let largest = table
            .facts("deviates")
            .map(|fact| fact.split_once(" %").unwrap().0)
            .max_by(|a, b| a.parse::<f64>().unwrap().total_cmp(&b.parse().unwrap()));
        assert_eq!(cells[4], largest.map_or("—".to_owned(), |percent| format!("{percent} %")), "{}", cells[0]);
        assert_eq!(
            (cells[3], table.rows.len()),
            (table.fact("rows").unwrap(), cells[3].parse().unwrap()),
            "{}",
            cells[0]
        );
        files += 1;
    }
    assert_eq!(files, 11);
}

// --- what must hold of itself

/// Temperatures and densities all over the range, of one phase.
fn states(r: Refrigerant, correlation: &Correlation) -> Vec<(f64, f64)> {
    let mut states = Vec::new();
    let (low, high) = (correlation.temperatures.low.kelvin(), correlation.temperatures.high.kelvin());
    let low = low.max(r.fluid().equation.limits.coldest.kelvin());
    let highest = correlation.highest.unwrap_or(Pressure::from_mpa(700.0)).pa();
    for i in 0..=60 {
        let t = low + (high - low) * f64::from(i) / 60.0;
        for k in 0..=40 {
            // 1 kPa to the highest
            let p = Pressure::from_pa(1e3 * (highest / 1e3).powf(f64::from(k) / 40.0));
            let Ok(state) = r.state(p, kelvin(t)) else { continue };
            if correlation.densest.is_none_or(|densest| state.density() <= densest) {
                states.push((t, state.density().si()));
            }
        }
    }
    assert!(states.len() > 1500, "{r}: {}", states.len());
    states
}

#[test]
fn values_are_positive_and_of_the_right_size_all_over_the_range() {
    for r in WITH {
        for (t, rho) in states(r, r.viscosity_correlation().unwrap()) {
            let eta = viscosity(r, t, rho);
            // the liquid near the triple point of propane is the thickest, cold vapour the thinnest
            assert!((2e-6..0.05).contains(&eta), "{r}, {t} K, {rho} kg/m³: {eta} Pa s");
        }
        for (t, rho) in states(r, r.thermal_conductivity_correlation().unwrap()) {
            let lambda = conductivity(r, t, rho);
            assert!((1e-3..1.0).contains(&lambda), "{r}, {t} K, {rho} kg/m³: {lambda} W/(m K)");
        }
    }
}

#[test]
fn values_change_little_with_a_small_step() {
    for r in WITH {
        let step: f64 = 1e-7;
        for (t, rho) in states(r, r.viscosity_correlation().unwrap()) {
            let here = viscosity(r, t, rho);
            // towards the middle of the range
            let inwards = if t < 300.0 { 1.0 + step } else { 1.0 - step };
            for (t, rho) in [(t * inwards, rho * (1.0 - step)), (t, rho * (1.0 - step))] {
                let there = viscosity(r, t, rho);
                // the logarithmic slope stays below 300: our choice
                assert!(
                    abs_diff_eq!(there / here, 1.0, epsilon = 300.0 * step),
                    "{r}, {t} K, {rho} kg/m³: {here} to {there}"
                );
            }
        }
        // across the critical isochore and isotherm, where terms are switched or kinked
        let critical = r.fluid().critical.value;
        let (tc, rhoc) = (critical.temperature.kelvin(), critical.density.si());
        for i in 0..300 {
            let rho = rhoc * (0.2 + 0.005 * f64::from(i));
            for t in [tc + 0.5, tc + 5.0, 1.1 * tc] {
                let here = conductivity(r, t, rho);
                let there = conductivity(r, t, rho * (1.0 + step));
                // the logarithmic slope stays below 300: our choice
                assert!(
                    abs_diff_eq!(there / here, 1.0, epsilon = 300.0 * step),
                    "{r}, {t} K, {rho} kg/m³: {here} to {there}"
                );
            }
        }
        // the enhancement ends where the compressibility falls to that of the reference temperature: no jump there
        let (low, high) = (1.1 * tc, r.thermal_conductivity_correlation().unwrap().temperatures.high.kelvin());
        for i in 0..4000 {
            let t = low + (high - low) * f64::from(i) / 4000.0;
            let (here, there) = (conductivity(r, t, rhoc), conductivity(r, t * (1.0 - 1e-6), rhoc));
            // thirty times the step: our choice
            assert!(abs_diff_eq!(there / here, 1.0, epsilon = 3e-5), "{r}, {t} K: {here} to {there}");
        }
    }
}

#[test]
fn along_saturation_liquid_is_thicker_and_conducts_better_than_vapour() {
    for r in WITH {
        let range = r.viscosity_correlation().unwrap().temperatures;
        let low = range.low.kelvin().max(r.thermal_conductivity_correlation().unwrap().temperatures.low.kelvin());
        let tc = r.fluid().critical.value.temperature.kelvin();
        let mut before = f64::INFINITY;
        for i in 0..=200 {
            let t = low + (tc - 3.0 - low) * f64::from(i) / 200.0;
            let (liquid, vapour) = r.saturated_at_temperature(kelvin(t)).unwrap();
            let (eta, thinner) = (viscosity(r, t, liquid.density.si()), viscosity(r, t, vapour.density.si()));
            assert!(eta > thinner && eta < before, "{r}, {t} K: {eta} after {before}, vapour {thinner}");
            before = eta;
            let (lambda, less) = (conductivity(r, t, liquid.density.si()), conductivity(r, t, vapour.density.si()));
            // near the critical point the enhancement of the vapour may overtake
            assert!(lambda > less || t > 0.97 * tc, "{r}, {t} K: {lambda}, vapour {less}");
        }
    }
}

#[test]
fn conductivity_grows_towards_the_critical_point() {
    for r in WITH {
        let critical = r.fluid().critical.value;
        let at = |above: f64| conductivity(r, critical.temperature.kelvin() + above, critical.density.si());
        let values = [30.0, 10.0, 3.0, 1.0, 0.3, 0.1].map(at);
        assert!(values.is_sorted(), "{r}: {values:?}");
        assert!(values[5] > 2.0 * values[0], "{r}: {values:?}");
    }
}

#[test]
fn surface_tension_falls_to_nothing_at_the_critical_point() {
    for r in [Refrigerant::R134a, Refrigerant::R1234yf, Refrigerant::R744] {
        let range = r.surface_tension_correlation().unwrap().temperatures;
        let mut before = SurfaceTension::from_n_per_m(f64::INFINITY);
        for i in 0..=1000 {
            let sigma = r.surface_tension(range.at(f64::from(i) / 1000.0)).unwrap();
            assert!(sigma < before && sigma.si() >= 0.0, "{r}: {sigma:?}");
            before = sigma;
        }
        assert_eq!(r.surface_tension(range.high).unwrap().si(), 0.0, "{r}");
    }
}

// --- what is refused

#[test]
fn a_refrigerant_without_a_correlation_says_so() {
    for r in Refrigerant::ALL.iter().copied() {
        let (t, rho) = (Temperature::from_celsius(20.0), thin(1.0));
        let state = state(r, t.kelvin(), 1.0);
        if WITH.contains(&r) {
            assert!(r.viscosity(t, rho).is_ok() && r.thermal_conductivity(&state).is_ok(), "{r}");
            assert_eq!(r.surface_tension(t).is_ok(), r != Refrigerant::R290, "{r}");
        } else {
            assert!(matches!(r.viscosity(t, rho), Err(Error::Missing { .. })), "{r}");
            assert!(matches!(r.thermal_conductivity(&state), Err(Error::Missing { .. })), "{r}");
            assert!(matches!(r.surface_tension(t), Err(Error::Missing { .. })), "{r}");
        }
        assert_eq!(r.viscosity_correlation().is_some(), WITH.contains(&r), "{r}");
        assert_eq!(r.thermal_conductivity_correlation().is_some(), WITH.contains(&r), "{r}");
        assert_eq!(r.surface_tension_correlation().is_some(), r.surface_tension(t).is_ok(), "{r}");
    }
    assert_eq!(
        Refrigerant::R22.viscosity(kelvin(300.0), thin(1.0)).unwrap_err().to_string(),
        "a viscosity correlation of this refrigerant is missing: R-134a, R-1234yf, R-744 and R-290 have one; take \
         the value of another from a source you trust"
    );
}

#[test]
fn nothing_is_extrapolated() {
    for r in WITH {
        let correlation = r.viscosity_correlation().unwrap();
        let (low, high) = correlation.gas.map_or(correlation.temperatures, |(_, wider)| wider).into_ends();
        let middle = thin(0.5);
        for t in [low - 0.01, high + 0.01, f64::NAN, -1.0] {
            let refused = r.viscosity(kelvin(t), middle);
            assert!(matches!(refused, Err(Error::OutOfRange { unit: "°C", .. })), "{r}, {t} K: {refused:?}");
        }
        for t in [low, high] {
            assert!(r.viscosity(kelvin(t), middle).is_ok(), "{r}, {t} K");
        }
        let densest = correlation.densest.unwrap().si();
        for rho in [-1e-9, f64::NAN, f64::INFINITY, densest * (1.0 + 1e-9)] {
            let refused = r.viscosity(kelvin(300.0), thin(rho));
            assert!(matches!(refused, Err(Error::OutOfRange { unit: "kg/m³", .. })), "{r}, {rho}: {refused:?}");
        }
        let Some(highest) = correlation.highest else { continue };
        let t = kelvin(0.95 * correlation.temperatures.high.kelvin());
        let limit = r.state(Pressure::from_pa(highest.pa() * (1.0 - 1e-6)), t).unwrap();
        assert!(r.viscosity(t, limit.density()).is_ok(), "{r}");
        let refused = r.viscosity(t, limit.density() * 1.001);
        assert!(matches!(refused, Err(Error::OutOfRange { unit: "MPa", .. })), "{r}: {refused:?}");
        // conductivity refuses as well
        let range = r.thermal_conductivity_correlation().unwrap();
        for (t, rho) in [
            (range.temperatures.low.kelvin() - 0.01, 1.0),
            (range.temperatures.high.kelvin() + 0.01, 1.0),
            (300.0, range.densest.unwrap().si() + 1.0),
        ] {
            let refused = r.thermal_conductivity(&state(r, t, rho));
            assert!(matches!(refused, Err(Error::OutOfRange { .. })), "{r}, {t} K, {rho} kg/m³: {refused:?}");
        }
    }
    assert_eq!(
        Refrigerant::R134a.viscosity(Temperature::from_celsius(200.0), thin(10.0)).unwrap_err().to_string(),
        "temperature for viscosity 200.0 °C is outside -103.3 to 164.9 °C, the range of validity"
    );
    assert_eq!(
        Refrigerant::R1234yf.viscosity(kelvin(300.0), thin(1400.0)).unwrap_err().to_string(),
        "density for viscosity 1400.0 kg/m³ is outside 0.0 to 1368.5 kg/m³, the range of validity"
    );
}

#[test]
fn carbon_dioxide_has_a_wider_range_as_a_gas() {
    let r = Refrigerant::R744;
    for t in [100.0, 218.0, 800.0, 2000.0] {
        assert!(r.viscosity(kelvin(t), thin(5.0)).is_ok(), "{t} K");
        assert!(matches!(r.viscosity(kelvin(t), thin(900.0)), Err(Error::OutOfRange { .. })), "{t} K");
    }
}

#[test]
fn a_state_that_cannot_stay_is_refused() {
    for r in WITH {
        let critical = r.fluid().critical.value;
        let (t, rhoc) = (0.9 * critical.temperature.kelvin(), critical.density.si());
        let mut falls = 0;
        for i in 0..200 {
            let rho = rhoc * (0.02 + 0.0149 * f64::from(i));
            let (low, high) = (state(r, t, rho * (1.0 - 1e-6)), state(r, t, rho * (1.0 + 1e-6)));
            let rises = low.pressure() < high.pressure();
            let stays = rises && state(r, t, rho).isochoric_heat_capacity().si() > 0.0;
            let answer = r.thermal_conductivity(&state(r, t, rho));
            match answer {
                // the loop of the equation may swing beyond the highest pressure
                Err(Error::OutOfRange { .. }) => {}
                Err(Error::Impossible { .. }) => assert!(!stays, "{r}, {rho} kg/m³"),
                _ => assert!(stays && answer.is_ok(), "{r}, {rho} kg/m³: {answer:?}"),
            }
            falls += i32::from(!rises);
        }
        assert!(falls > 30, "{r}: {falls}");
    }
}

#[test]
fn a_state_of_another_fluid_is_refused() {
    for asked in WITH {
        for other in Refrigerant::ALL.iter().copied().filter(|other| *other != asked) {
            let refused = asked.thermal_conductivity(&state(other, 300.0, 1.0));
            assert!(matches!(refused, Err(Error::Impossible { .. })), "{asked}, {other}: {refused:?}");
        }
    }
    assert_eq!(
        Refrigerant::R134a.thermal_conductivity(&state(Refrigerant::R1234yf, 300.0, 1.0)).unwrap_err().to_string(),
        "reducing temperature of the state's equation (K) 367.85 is not possible: it must be that of the refrigerant \
         asked: the state is another fluid's, or of another equation"
    );
}

#[test]
fn there_is_no_surface_above_the_critical_point_and_none_frozen() {
    for r in [Refrigerant::R134a, Refrigerant::R1234yf, Refrigerant::R744] {
        let (low, high) = r.surface_tension_correlation().unwrap().temperatures.into_ends();
        let above = r.surface_tension(kelvin(high + 0.01));
        assert!(matches!(above, Err(Error::AboveCriticalTemperature { .. })), "{r}: {above:?}");
        for t in [low - 0.01, f64::NAN] {
            let refused = r.surface_tension(kelvin(t));
            assert!(matches!(refused, Err(Error::OutOfRange { .. })), "{r}, {t} K: {refused:?}");
        }
    }
}

/// Both ends in kelvin.
trait Ends {
    fn into_ends(self) -> (f64, f64);
}

impl Ends for satline::Range<Temperature> {
    fn into_ends(self) -> (f64, f64) {
        (self.low.kelvin(), self.high.kelvin())
    }
}

// --- their quantities

#[test]
fn every_correlation_names_its_source() {
    for r in WITH {
        let all = [r.viscosity_correlation(), r.thermal_conductivity_correlation(), r.surface_tension_correlation()];
        for correlation in all.into_iter().flatten() {
            assert!(correlation.source.doi.is_some() && !correlation.uncertainty.is_empty(), "{r}");
            assert!(correlation.temperatures.low < correlation.temperatures.high, "{r}");
        }
    }
}
