//! A log as lines, and a line as fields: what every example that reads a log shares.

use std::io::{self, BufRead, Read};

use super::language::Wrong;

/// The longest line that is read; a longer one is a bad row, and is not kept.
pub const LONGEST: usize = 1 << 16;

/// One row for one line, so that a quote left open or a byte that is no text spoils its own line alone.
pub struct Lines<R> {
    source: R,
    number: u64,
    consumed: u64,
    bytes: Vec<u8>,
    /// Whether a line without its end waits for the rest.
    waits: bool,
    torn: bool,
}

impl<R: BufRead> Lines<R> {
    /// Lines of a log that is as long as it will be.
    pub fn new(source: R) -> Self {
        Self { source, number: 0, consumed: 0, bytes: Vec::new(), waits: false, torn: false }
    }

    /// Lines of a log that is being written: a last line without its end waits until the rest is there.
    pub fn growing(source: R) -> Self {
        Self { waits: true, ..Self::new(source) }
    }

    /// Whether the last line has no end yet.
    pub fn is_torn(&self) -> bool {
        self.torn
    }

    /// Bytes of the lines that were read.
    pub fn consumed(&self) -> u64 {
        self.consumed
    }

    /// The next line that is neither blank nor a remark, with its number; what is wrong with it when it is no text.
    pub fn advance(&mut self) -> io::Result<Option<(u64, Result<&str, Wrong>)>> {
        loop {
            if !self.torn {
                self.bytes.clear();
            }
            let room = LONGEST - self.bytes.len();
            let read = self.source.by_ref().take(room as u64).read_until(b'\n', &mut self.bytes)?;
            self.consumed += read as u64;
            let whole = self.bytes.ends_with(b"\n");
            if self.waits && !whole && self.bytes.len() < LONGEST {
                self.torn = !self.bytes.is_empty();
                return Ok(None);
            }
            self.torn = false;
            if read == 0 {
                return Ok(None);
            }
            self.number += 1;
            if !whole && self.bytes.len() == LONGEST {
                self.skip_line()?;
                let long = Wrong::new(format!("longer than {LONGEST} bytes"), format!("más de {LONGEST} bytes"));
                return Ok(Some((self.number, Err(long))));
            }
            let start = if self.number == 1 && self.bytes.starts_with(b"\xef\xbb\xbf") { 3 } else { 0 };
            let text = &self.bytes[start..];
            if text.iter().all(u8::is_ascii_whitespace) || text.starts_with(b"#") {
                continue;
            }
            break;
        }
        let start = if self.bytes.starts_with(b"\xef\xbb\xbf") { 3 } else { 0 };
        let text =
            std::str::from_utf8(&self.bytes[start..]).map(|line| line.trim_end_matches(['\n', '\r'])).map_err(|_| {
                let spanish = "no es texto en UTF-8; guarde el archivo como UTF-8";
                Wrong::new("not text in UTF-8; save the file as UTF-8", spanish)
            });
        Ok(Some((self.number, text)))
    }

    fn skip_line(&mut self) -> io::Result<()> {
        loop {
            let buffer = self.source.fill_buf()?;
            match buffer.iter().position(|&byte| byte == b'\n') {
                Some(end) => {
                    self.consumed += end as u64 + 1;
                    self.source.consume(end + 1);
                    return Ok(());
                }
                None if buffer.is_empty() => return Ok(()),
                None => {
                    let all = buffer.len();
                    self.consumed += all as u64;
                    self.source.consume(all);
                }
            }
        }
    }
}

/// What separates the fields of a log: what its head is separated by.
pub fn separator(head: &str) -> u8 {
    // where the comma is the decimal sign, it may stand in the head too
    [b';', b'\t', b','].into_iter().find(|&mark| head.as_bytes().contains(&mark)).unwrap_or(b',')
}

/// The fields of one line into `fields`.
pub fn split(line: &str, separator: u8, fields: &mut Vec<String>) -> Result<(), Wrong> {
    divide(line, separator, fields)?;
    // whoever separates by semicolons writes the decimal sign as a comma (common practice of spreadsheets, no source)
    if separator == b';' {
        fields.iter_mut().filter(|field| has_decimal_comma(field)).for_each(|field| *field = field.replace(',', "."));
    }
    Ok(())
}

/// Whether `field` is digits, a comma and digits.
fn has_decimal_comma(field: &str) -> bool {
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let number = field.trim().trim_start_matches(['-', '+', '−']);
    number.split_once(',').is_some_and(|(whole, decimals)| digits(whole) && digits(decimals))
}

fn divide(line: &str, separator: u8, fields: &mut Vec<String>) -> Result<(), Wrong> {
    fields.clear();
    if !line.contains('"') {
        fields.extend(line.split(char::from(separator)).map(str::to_owned));
        return Ok(());
    }
    if line.bytes().filter(|&byte| byte == b'"').count() % 2 == 1 {
        return Err(Wrong::new("a quote is opened and not closed", "se abren comillas y no se cierran"));
    }
    let mut reader =
        csv::ReaderBuilder::new().has_headers(false).delimiter(separator).flexible(true).from_reader(line.as_bytes());
    let unread = |error: csv::Error| Wrong::new(error.to_string(), error.to_string());
    let record = reader.records().next().transpose().map_err(unread)?.unwrap_or_default();
    fields.extend(record.iter().map(str::to_owned));
    Ok(())
}
