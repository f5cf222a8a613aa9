//! The language of a page, and the sentences that an example adds to one.

use std::error::Error;
use std::fmt;
use std::str::FromStr;

use clap::ValueEnum;
use satline::report::Language;

/// The flag `--language`.
#[derive(Debug, Clone, Copy, Default, clap::Args)]
pub struct Spoken {
    /// Language of the page: English, which holds unless given, or Spanish as a translation of it. JSON and what the command line
    /// refuses are the same in both.
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

    /// What stands before the number of a line.
    #[allow(dead_code)] // some read no log
    pub fn line_word(self) -> &'static str {
        self.say("line", "línea")
    }

    /// What is wrong, in the language of the page.
    #[allow(dead_code)] // some read no log
    pub fn wrong(self, wrong: &Wrong) -> String {
        self.say(&wrong.english, &wrong.spanish).clone()
    }

    /// An error of the library or of a log in the language of the page; any other as it is.
    #[allow(dead_code)] // some word it where it arises
    pub fn refused(self, error: Box<dyn Error>) -> Box<dyn Error> {
        let wrong = error.downcast_ref::<satline::Error>().map(|error| Wrong::from(error.clone()));
        match wrong.as_ref().or_else(|| error.downcast_ref::<Wrong>()) {
            Some(wrong) => self.wrong(wrong).into(),
            None => error,
        }
    }
}

/// What is wrong with a row or a head: in English, which data keep, and in Spanish.
#[derive(Debug, Clone, PartialEq)]
pub struct Wrong {
    english: String,
    spanish: String,
}

impl Wrong {
    /// In the words of an example.
    #[allow(dead_code)] // some have none of their own
    pub fn new(english: impl Into<String>, spanish: impl Into<String>) -> Self {
        Self { english: english.into(), spanish: spanish.into() }
    }

    /// The same with a few words behind it.
    #[allow(dead_code)] // some say no more
    pub fn and(self, english: &str, spanish: &str) -> Self {
        Self { english: self.english + english, spanish: self.spanish + spanish }
    }
}

impl From<satline::Error> for Wrong {
    fn from(error: satline::Error) -> Self {
        Self::new(Language::English.error(&error), Language::Spanish.error(&error))
    }
}

/// In English, as data keep it.
impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.english)
    }
}

impl Error for Wrong {}
