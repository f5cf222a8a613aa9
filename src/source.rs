//! Where a number comes from: carried by every datum of the crate.

use core::fmt;

/// The origin of a datum, short enough to print beside it.
///
/// ```
/// use satline::{Source, Trust};
/// let source = Source {
///     work: "ISO 2533:1975, Standard atmosphere",
///     locator: "table 1",
///     doi: None,
///     trust: Trust::FromMemory,
/// };
/// assert_eq!(source.to_string(), "ISO 2533:1975, Standard atmosphere, table 1 (from memory)");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Source {
    /// Author, title, year of the work, as one would cite it.
    pub work: &'static str,
    /// Page, table, clause or equation; empty where the whole work is meant.
    pub locator: &'static str,
    /// Digital object identifier, where the work has one.
    pub doi: Option<&'static str>,
    /// How the number came from the work to us.
    pub trust: Trust,
}

/// How a number came from its source to this crate, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum Trust {
    /// Grade A: the document, or a machine export of it, was read whole.
    Read,
    /// Grade A−: typed or carried by others who name the printed source.
    Secondary,
    /// Grade B: an excerpt of the document was read.
    Excerpt,
    /// Grade C: second hand, or the origin is not named.
    Weak,
    /// Computed by us from sourced numbers.
    Computed,
    /// Follows from the composition or the definition, without a page to point at.
    Reasoned,
    /// Recalled, not read: treat as unverified.
    FromMemory,
    /// What the trade does; nobody's publication.
    CommonPractice,
}

impl Source {
    /// A habit of the trade that no publication backs.
    pub const COMMON_PRACTICE: Self =
        Self { work: "common practice, no source", locator: "", doi: None, trust: Trust::CommonPractice };
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.work)?;
        if !self.locator.is_empty() {
            write!(f, ", {}", self.locator)?;
        }
        if let Some(doi) = self.doi {
            write!(f, ", doi {doi}")?;
        }
        let mark = self.trust.mark();
        // the work of a common practice already says so
        if !mark.is_empty() && self.trust != Trust::CommonPractice {
            write!(f, " ({mark})")?;
        }
        Ok(())
    }
}

impl Trust {
    /// The mark that goes wherever such a number is shown; empty for what was read.
    pub const fn mark(self) -> &'static str {
        match self {
            Self::Read => "",
            Self::Secondary => "as carried by others",
            Self::Excerpt => "excerpt read",
            Self::Weak => "second hand",
            Self::Computed => "computed",
            Self::Reasoned => "reasoned",
            Self::FromMemory => "from memory",
            Self::CommonPractice => "common practice, no source",
        }
    }
}

/// A value together with where it comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sourced<T> {
    /// The value.
    pub value: T,
    /// Its origin.
    pub source: Source,
}
