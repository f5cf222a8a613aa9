//! What is typed: one line after another, and the words that are understood beside a value.

use std::io::{self, BufRead, Read};

/// Longest line that is read, bytes; our choice, ten times what anybody types.
pub const LONGEST: u64 = 1000;

/// Why a line cannot be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unreadable {
    /// It is longer than [`LONGEST`].
    TooLong,
    /// It is not UTF-8.
    NotText,
    ControlCharacter,
}

/// The next line without blanks around it, or what is wrong with it; `None` at the end of the input.
pub fn line(input: &mut impl BufRead) -> io::Result<Option<Result<String, Unreadable>>> {
    let mut bytes = Vec::new();
    input.by_ref().take(LONGEST).read_until(b'\n', &mut bytes)?;
    if bytes.is_empty() {
        return Ok(None);
    }
    let mut whole = bytes.ends_with(b"\n") || (bytes.len() as u64) < LONGEST;
    if !whole {
        while !whole {
            bytes.clear();
            let read = input.by_ref().take(LONGEST).read_until(b'\n', &mut bytes)?;
            whole = read == 0 || bytes.ends_with(b"\n");
        }
        return Ok(Some(Err(Unreadable::TooLong)));
    }
    let Ok(text) = String::from_utf8(bytes) else {
        return Ok(Some(Err(Unreadable::NotText)));
    };
    let text = text.trim();
    if text.chars().any(char::is_control) {
        return Ok(Some(Err(Unreadable::ControlCharacter)));
    }
    // as in the examples of the command line
    let bare = text.strip_prefix('"').and_then(|rest| rest.strip_suffix('"')).unwrap_or(text);
    Ok(Some(Ok(bare.trim().to_owned())))
}

/// The words of a language that are understood beside a value, in lower case; the first of each is the one that is offered.
#[derive(Debug, Clone, Copy)]
pub struct Replies {
    pub yes: &'static [&'static str],
    pub no: &'static [&'static str],
    pub back: &'static [&'static str],
    pub end: &'static [&'static str],
}

/// What is typed, in every language, to ask what a question means.
const HELP: &str = "?";

/// Whether `typed` asks what a question means.
pub fn is_help(typed: &str) -> bool {
    typed == HELP
}

/// What a line says that asks for no help.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Said {
    Nothing,
    Back,
    End,
    Text(String),
}

impl Replies {
    /// What `typed` says.
    pub fn read(&self, typed: String) -> Said {
        let word = typed.to_lowercase();
        match word.as_str() {
            "" => Said::Nothing,
            word if self.back.contains(&word) => Said::Back,
            word if self.end.contains(&word) => Said::End,
            _ => Said::Text(typed),
        }
    }

    /// Whether `typed` is yes or no; `None` where it is neither.
    pub fn yes_or_no(&self, typed: &str) -> Option<bool> {
        let word = typed.to_lowercase();
        let is_in = |words: &[&str]| words.contains(&word.as_str());
        if is_in(self.yes) { Some(true) } else { is_in(self.no).then_some(false) }
    }
}
