//! Places of the service ports, where they are known.

use crate::circuit::Circuit;

/// Which end of its line a service port is at: a gauge shows the pressure on its own side of a restriction.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum PortPlace {
    /// Near the compressor: on its suction fitting, or on the discharge line before the condenser.
    NearCompressor,
    /// Away from the compressor: at the outlet of the evaporator, or on the liquid line behind the condenser.
    AwayFromCompressor,
}

/// Places of both service ports; `None` where a place is not known, and it is then anywhere along its line.
///
/// ```
/// use satline::Refrigerant;
/// use satline::diagnosis::{CauseId, Diagnosis};
/// use satline::inspection::{PortPlace, ServicePorts};
/// let at = |high| {
///     let request = Diagnosis::of(Refrigerant::R134a).low("24 psi")?.high("300 psi")?.ambient("86 °F")?;
///     let request = request.measured(satline::inspection::Measurand::LiquidLine, "98 °F")?;
///     let diagnosis = request.service_ports(ServicePorts { high: Some(high), low: None }).run()?;
///     let posterior = diagnosis.posterior().expect("R-134a at 86 °F is modelled").clone();
///     Ok::<_, satline::Error>(posterior.marginal_probability(CauseId::DischargeRestriction))
/// };
/// // behind a restriction no gauge shows what it holds back
/// assert!(at(PortPlace::NearCompressor)? > 2.0 * at(PortPlace::AwayFromCompressor)?);
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct ServicePorts {
    /// Place of the low-side port.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub low: Option<PortPlace>,
    /// Place of the high-side port.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub high: Option<PortPlace>,
}

impl ServicePorts {
    /// Whether neither place is known.
    pub fn are_unknown(&self) -> bool {
        *self == Self::default()
    }

    /// Puts the ports of `circuit`, drawn anywhere along their lines, into the half that is known.
    pub(crate) fn place(self, circuit: &mut Circuit) {
        // 0 is at the compressor on the low side, 1 on the high side
        let half = |drawn: f64, upper: bool| 0.5 * (drawn + f64::from(u8::from(upper)));
        if let Some(place) = self.low {
            circuit.lines.low_port = half(circuit.lines.low_port, place == PortPlace::AwayFromCompressor);
        }
        if let Some(place) = self.high {
            circuit.lines.high_port = half(circuit.lines.high_port, place == PortPlace::NearCompressor);
        }
    }
}
