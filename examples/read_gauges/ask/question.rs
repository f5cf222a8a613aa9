//! What is asked, and which advice of the library leads to it.

use satline::diagnosis::{Advice, AdvisedQuestion, NextStep};
use satline::inspection::{Measurand, MeasuredWhen, Observation};

/// A question to the person at the car.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// Which refrigerant the label names.
    Refrigerant,
    /// Whether the air conditioning runs.
    Running,
    /// A gauge of the circuit at rest.
    Level(Measurand),
    /// Whether the engine runs now, after the gauges at rest.
    Started,
    /// What is measured while it runs.
    Measured(Measurand),
    /// The temperature of the outside air.
    Ambient,
    /// Its relative humidity.
    Humidity,
    /// The end of the scale of a gauge that reads beyond the usual one.
    Scale(Measurand),
    /// An observation by eye, ear or hand.
    Seen(Observation),
    /// Either gauge after the stop.
    Resting,
    /// The temperature of the circuit then.
    RestingTemperature,
    /// The charge that was weighed.
    Recovered,
    /// The charge that the label asks for.
    NominalCharge,
}

impl Question {
    /// Whether it is answered by yes or no.
    pub fn is_yes_or_no(self) -> bool {
        matches!(self, Self::Running | Self::Started | Self::Seen(_))
    }

    /// The observation that is asked for.
    pub fn observation(self) -> Option<Observation> {
        match self {
            Self::Seen(one) => Some(one),
            _ => None,
        }
    }

    /// What the library asks first of a circuit in `state`.
    pub fn first(state: MeasuredWhen, unavailable: &[Measurand]) -> Vec<Self> {
        let of_state = |question| match question {
            Self::Measured(side) if state == MeasuredWhen::Equalised => Self::Level(side),
            running => running,
        };
        Advice::opening_questions(state, unavailable).iter().filter_map(Self::of).map(of_state).collect()
    }

    /// As the library advises it; `None` for what nobody is asked here.
    pub fn of(advised: &AdvisedQuestion) -> Option<Self> {
        match advised {
            AdvisedQuestion::Measured(step) => Self::of_step(step),
            AdvisedQuestion::Observed { observation, .. } => Some(Self::Seen(*observation)),
            _ => None,
        }
    }

    /// For what `step` asks to be measured.
    fn of_step(step: &NextStep) -> Option<Self> {
        match step {
            NextStep::Measure { measurand } | NextStep::Usual { measurand } => Some(match measurand {
                Measurand::EqualisedPressure => Self::Resting,
                Measurand::RecoveredCharge => Self::Recovered,
                &running => Self::Measured(running),
            }),
            NextStep::Ambient => Some(Self::Ambient),
            NextStep::Humidity => Some(Self::Humidity),
            _ => None,
        }
    }
}
