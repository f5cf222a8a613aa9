//! The language of a page, and the sentences that an example adds to one.

use std::fmt;
use std::str::FromStr;

use clap::ValueEnum;
use satline::report::Language;

/// The flag `--language`.
#[derive(Debug, Clone, Copy, Default, clap::Args)]
pub struct Spoken {
    /// Language of the page: English, which holds unless given, or Spanish as a translation of it. JSON and what is
    /// refused are the same in both.
    #[arg(long, value_enum)]
    language: Option<Code>,
}

/// Languages by their codes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Code {
    /// English.
    En,
    /// Spanish.
    Es,
}

impl FromStr for Code {
    type Err = String;

    /// The word of the command line.
    fn from_str(word: &str) -> Result<Self, String> {
        ValueEnum::from_str(word, false)
    }
}

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::En => "en",
            Self::Es => "es",
        })
    }
}

impl From<Option<Code>> for Spoken {
    fn from(language: Option<Code>) -> Self {
        Self { language }
    }
}

impl Spoken {
    /// The language that was asked for.
    #[allow(dead_code)] // some have no preferences
    pub fn said(self) -> Option<Code> {
        self.language
    }

    /// The language of the page.
    pub fn language(self) -> Language {
        match self.language {
            None | Some(Code::En) => Language::English,
            Some(Code::Es) => Language::Spanish,
        }
    }

    /// A sentence of an example in the language of the page.
    #[allow(dead_code)] // some add no sentence of their own
    pub fn say<T>(self, english: T, spanish: T) -> T {
        match self.language {
            None | Some(Code::En) => english,
            Some(Code::Es) => spanish,
        }
    }
}
