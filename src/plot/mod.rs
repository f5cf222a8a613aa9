//! Pictures as SVG text: a reading on the saturation line, in the pressure–enthalpy diagram, against healthy circuits, and
//! more.
//!
//! Each function returns one [`Picture`], a complete SVG document that can also be embedded in a page. It carries a description in words
//! and numbers, follows the reader's light or dark scheme, prints in the light scheme, and never relies on colour alone.
//! Pressures are in the unit of the low side throughout, so that one axis serves both sides; see
//! [`DisplayUnits`](crate::inspection::DisplayUnits).
//! Coordinates are rounded to two decimals of a canvas unit, so the text is the same on every machine.

mod axis;
mod card;
mod drawing;
mod english;
mod frame;
mod hold;
mod labels;
mod letters;
mod pressure_enthalpy;
mod ranking;
mod saturation;
mod svg;
mod windows;
mod words;

pub(crate) use english::English;

#[doc(hidden)]
pub use card::CardRow;
pub use card::{CARD_CAUTION, Card, MAX_CARD_ROWS};
pub use hold::hold;
#[doc(hidden)]
pub use hold::hold_in;
pub use pressure_enthalpy::pressure_enthalpy;
#[doc(hidden)]
pub use pressure_enthalpy::pressure_enthalpy_in;
pub use ranking::ranking;
#[doc(hidden)]
pub use ranking::ranking_in;
pub use saturation::saturation;
#[doc(hidden)]
pub use saturation::saturation_in;
pub use windows::windows;
#[doc(hidden)]
pub use windows::windows_in;
#[doc(hidden)]
pub use words::{
    CardText, CausesText, CycleText, PictureName, PictureText, PictureWords, SaturationText, VacuumText, WindowsText,
};

/// A picture with a description of what it shows.
///
/// ```
/// use satline::plot;
/// use satline::circuit::Settings;
/// use satline::inspection::{Entry, Instruments, Measurand};
/// use satline::Refrigerant;
/// let r = Refrigerant::R134a;
/// let entry = Entry::gauges("2.1 bar".parse()?, "13 bar".parse()?).enter(Measurand::SuctionLine, "10 °C")?;
/// let reading = entry.reading(r, Settings::TEST, &Instruments::analogue(r))?;
/// let picture = plot::saturation(&reading, &entry.units())?;
/// assert!(picture.svg().starts_with("<svg "));
/// assert!(picture.description().contains("superheat"));
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    title: String,
    description: String,
    name: String,
    svg: String,
}

impl Picture {
    /// Title of the picture.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// Text alternative of the picture: what it shows, with its numbers.
    pub fn description(&self) -> &str {
        &self.description
    }

    /// A name suitable for a file, such as "pressure-enthalpy"; the ids inside the picture begin with it.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The SVG document without an XML declaration, to be written to a file or embedded in a page.
    pub fn svg(&self) -> &str {
        &self.svg
    }
}

/// The style sheet of every picture: the same text in each, so that a page may hold several.
///
/// The contrast against the page is at least 4.5 for words and 3 for lines in both schemes (WCAG 2.2, 1.4.3 and 1.4.11, from
/// memory); a test computes it.
const STYLE: &str = "\
.sl-page{fill:#fff}\
.sl-t{font-family:system-ui,-apple-system,'Segoe UI',Roboto,'Noto Sans',Arial,sans-serif;font-size:12.5px;fill:#1a1d21}\
.sl-h{font-size:14px;font-weight:600}\
.sl-soft{fill:#4a515a}\
.sl-small{font-size:11px;fill:#4a515a}\
.sl-mid{text-anchor:middle}\
.sl-end{text-anchor:end}\
.sl-halo{paint-order:stroke;stroke:#fff;stroke-width:3px;stroke-linejoin:round}\
.sl-grid{stroke:#d9dde2;stroke-width:.6;fill:none}\
.sl-axis{stroke:#4a515a;stroke-width:1;fill:none}\
.sl-lead{stroke:#4a515a;stroke-width:.7;fill:none}\
.sl-main{stroke:#1a1d21;stroke-width:1.6;fill:none}\
.sl-dash{stroke:#1a1d21;stroke-width:1.4;stroke-dasharray:6 3;fill:none}\
.sl-thin{stroke:#6a727c;stroke-width:.8;fill:none}\
.sl-dots{stroke:#6a727c;stroke-width:1;stroke-dasharray:1.5 3;fill:none}\
.sl-level{stroke:#4a515a;stroke-width:.9;stroke-dasharray:10 4;fill:none}\
.sl-low{stroke:#0a4f96;stroke-width:2;fill:none}\
.sl-high{stroke:#9a3a0e;stroke-width:2;fill:none}\
.sl-chart{stroke:#3d6b1f;stroke-width:1.6;fill:none}\
.sl-bold{stroke-width:2.6}\
.sl-mark{fill:#fff;stroke-width:1.8}\
.sl-ink{stroke:#1a1d21}\
.sl-band{fill:#d3d9e0;stroke:#6a727c;stroke-width:.8}\
.sl-core{fill:#808d9c}\
.sl-bar{fill:#4d6f94}\
.sl-row{fill:#eef1f4}\
.sl-frame{fill:none;stroke:#6a727c;stroke-width:.8}\
.sl-chartmark{stroke:#3d6b1f}\
.sl-broken{stroke-dasharray:5 3}\
@media screen and (prefers-color-scheme:dark){\
.sl-page{fill:#15181c}\
.sl-t{fill:#e8eaed}\
.sl-soft,.sl-small{fill:#b4bac2}\
.sl-halo{stroke:#15181c}\
.sl-grid{stroke:#343a42}\
.sl-axis,.sl-lead,.sl-level{stroke:#b4bac2}\
.sl-main,.sl-dash{stroke:#e8eaed}\
.sl-thin,.sl-dots,.sl-frame{stroke:#939ba6}\
.sl-low{stroke:#7db4f2}\
.sl-high{stroke:#f0a276}\
.sl-chart,.sl-chartmark{stroke:#9ccc76}\
.sl-mark{fill:#15181c}\
.sl-ink{stroke:#e8eaed}\
.sl-band{fill:#2f3740;stroke:#939ba6}\
.sl-core{fill:#68778a}\
.sl-bar{fill:#7d9fc4}\
.sl-row{fill:#20252b}\
}";
