//! The language of a page, and the sentences that an example adds to one.

use clap::ValueEnum;
use satline::report::Language;

/// The flag `--language`.
#[derive(Debug, Clone, Copy, Default, clap::Args)]
pub struct Spoken {
    /// Language of the page: English, or Spanish as a translation of it. JSON and messages are the same in both.
    #[arg(long, value_enum, default_value_t)]
    language: Code,
}

/// Languages by their codes.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, ValueEnum)]
enum Code {
    /// English.
    #[default]
    En,
    /// Spanish.
    Es,
}

impl Spoken {
    /// The language of the page.
    pub fn language(self) -> Language {
        match self.language {
            Code::En => Language::English,
            Code::Es => Language::Spanish,
        }
    }

    /// A sentence of an example in the language of the page.
    pub fn say<T>(self, english: T, spanish: T) -> T {
        match self.language {
            Code::En => english,
            Code::Es => spanish,
        }
    }
}
