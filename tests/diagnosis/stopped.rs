//! Both gauges the same although the compressor is called for: what holds no liquid is no faulty running circuit.

use satline::diagnosis::{Advice, Diagnosis, Headline, NextStep};

use super::*;

fn advice(low: &str, high: &str, ambient: &str) -> Advice {
    let request = Diagnosis::of(Refrigerant::R134a).low(low).unwrap().high(high).unwrap().ambient(ambient).unwrap();
    request.circuits(10).run().unwrap().advice().clone()
}

/// Before, an empty circuit with its clutch held off was outside the model, and thermometers were sent to its lines.
#[test]
fn equal_gauges_below_saturation_mean_that_no_liquid_is_left() {
    // saturation at 86 °F is 97 psi
    for (low, high) in [("15 psi", "15 psi"), ("40 psi", "42 psi"), ("60 psi", "66 psi")] {
        let advice = advice(low, high, "86 °F");
        assert_eq!(advice.headline, Headline::NoLiquidLeft, "{low}, {high}");
        // nothing is measured that needs the compressor to run
        assert_eq!(advice.next, [NextStep::KeepCompressorOff], "{low}, {high}");
    }
    let request =
        Diagnosis::of(Refrigerant::R134a).low("15 psi").unwrap().high("15 psi").unwrap().ambient("86 °F").unwrap();
    let found = request.circuits(10).run().unwrap();
    let first = &found.posterior().unwrap().causes[0];
    assert_eq!(first.cause, CauseId::Empty);
    assert!(first.probability > 0.9, "{}", first.probability);
    let empty = advice("0 psi", "0 psi", "86 °F");
    assert_eq!((empty.headline, empty.next), (Headline::Empty, vec![NextStep::KeepCompressorOff]));
    // at saturation there is liquid, and a compressor that does not turn is a cause like others
    let at_rest = advice("96 psi", "97 psi", "86 °F");
    let likeliest = at_rest.headline.likeliest().expect("a cause is named");
    assert_eq!(likeliest.causes, [CauseId::NotTurning]);
    assert_eq!(at_rest.next, [NextStep::Remedy { cause: CauseId::NotTurning }]);
    // gauges that stand apart are those of a compressor that pumps, however little is left
    for (low, high) in [("2 psi", "60 psi"), ("22 psi", "160 psi")] {
        assert_ne!(advice(low, high, "86 °F").headline, Headline::NoLiquidLeft, "{low}, {high}");
    }
    // the same pressures on a day on which they are those of saturation
    assert_ne!(advice("40 psi", "42 psi", "45 °F").headline, Headline::NoLiquidLeft);
}

/// Before, it was outside the model, which has its restriction behind the clamp.
#[test]
fn a_liquid_line_colder_than_the_air_is_closed_before_the_clamp() {
    let advice = |line: &str| {
        let request = Diagnosis::of(Refrigerant::R134a).low("12 psi").unwrap().high("190 psi").unwrap();
        let request = request.measured(Measurand::LiquidLine, line).unwrap().ambient("86 °F").unwrap();
        request.circuits(10).run().unwrap().advice().clone()
    };
    let cold = advice("66 °F");
    assert_eq!((cold.headline, cold.next), (Headline::LiquidLineBelowAmbient, vec![NextStep::FollowLiquidLine]));
    // within what two thermometers leave open it is no news
    for line in ["85 °F", "110 °F"] {
        assert_ne!(advice(line).headline, Headline::LiquidLineBelowAmbient, "{line}");
    }
}

/// No simulated circuit whose compressor turns is called empty, whatever its fault: all kinds of R-134a, low charge included.
#[test]
fn a_circuit_that_pumps_is_not_called_empty() {
    let mut asked = 0;
    for kind in CircuitKind::main(Refrigerant::R134a) {
        let population = Population::new(kind).unwrap();
        for i in 0..12 {
            for charge in [0.2, 0.3, 0.5, 1.0] {
                let mut circuit = population.circuit(i);
                circuit.charge = circuit.nominal_charge * charge;
                let day = a_day();
                let operation = OperatingPoint {
                    ambient: day.ambient,
                    humidity: day.humidity.unwrap(),
                    air: day.air,
                    running: day.settings,
                };
                let Ok(state) = circuit.run(&operation) else { continue };
                let text = |p: GaugePressure| format!("{} kPa", p.kpa());
                let ambient = format!("{} °C", day.ambient.celsius());
                let request = Diagnosis::of(Refrigerant::R134a).low(&text(state.low_side)).unwrap();
                let request = request.high(&text(state.high_side)).unwrap().ambient(&ambient).unwrap();
                let found = request.circuits(3).run().unwrap();
                assert_ne!(found.advice().headline, Headline::NoLiquidLeft, "{kind}, circuit {i}, {charge}");
                asked += 1;
            }
        }
    }
    assert!(asked > 150, "{asked}");
}
