//! What every example does with its command line and its terminal: read the one, do the work, say on the other what came out.
//!
//! The only place where an example writes to standard output or standard error. A reader that closes the pipe, as `head` does, has
//! what it wanted: the example ends quietly and with success. Output that cannot be written for any other reason, such as a full disk,
//! is one line on standard error and failure.

use std::borrow::Cow;
use std::error::Error;
use std::io::{self, BufWriter, ErrorKind, Stdout, Write};
use std::process::ExitCode;

use clap::Parser;

/// Reads the command line and does the `work`; an error goes to standard error behind the example's `name`.
pub fn run<A: Parser>(name: &str, work: impl FnOnce(&A, &mut Output) -> Result<ExitCode, Box<dyn Error>>) -> ExitCode {
    let mut out = Output { to: BufWriter::with_capacity(1 << 16, io::stdout()), failed: None };
    let done = match A::try_parse() {
        Ok(args) => work(&args, &mut out).map_err(|error| format!("{name}: {error}")),
        // help goes to standard output and is no failure
        Err(asked) if asked.use_stderr() => Err(asked.to_string().trim_end().to_owned()),
        Err(asked) => out.page(&asked.to_string()).map_err(|error| format!("{name}: {error}")),
    };
    // what was printed before an error stands before it
    let _ = out.flush();
    match (out.failed, done) {
        (Some(error), _) if error.kind() == ErrorKind::BrokenPipe => ExitCode::SUCCESS,
        (Some(error), _) => {
            complain(&format!("{name}: standard output: {error}"));
            ExitCode::FAILURE
        }
        (None, Ok(status)) => status,
        (None, Err(error)) => {
            complain(&error);
            ExitCode::FAILURE
        }
    }
}

/// Standard output. Its first failure is kept for [`run`], which says it; the work ends on any error it returns.
pub struct Output {
    to: BufWriter<Stdout>,
    failed: Option<io::Error>,
}

impl Output {
    /// Prints `text`: all is well.
    #[allow(dead_code)] // some print as they go
    pub fn page(&mut self, text: &str) -> Result<ExitCode, Box<dyn Error>> {
        self.write_all(text.as_bytes())?;
        Ok(ExitCode::SUCCESS)
    }

    fn kept(&mut self, done: io::Result<()>) -> io::Result<()> {
        done.map_err(|error| {
            let kind = error.kind();
            self.failed.get_or_insert(error);
            kind.into()
        })
    }
}

impl Write for Output {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let done = self.to.write_all(&visible(bytes));
        self.kept(done).map(|()| bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        let done = self.to.flush();
        self.kept(done)
    }
}

/// Standard error. What cannot be written to it is lost: there is nowhere left to say so.
pub struct Complaints;

impl Write for Complaints {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let _ = io::stderr().write_all(&visible(bytes));
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Says `text` on standard error, each of its lines no longer than a few lines of a terminal.
pub fn complain(text: &str) {
    let lines: Vec<Cow<str>> = text.lines().map(excerpt).collect();
    let _ = Complaints.write_all(format!("{}\n", lines.join("\n")).as_bytes());
}

/// Characters of a complaint that are shown; of a longer one its begin and its end.
const SHOWN: usize = 400;

/// `line`, or its begin and its end where it quotes more than anybody reads.
pub fn excerpt(line: &str) -> Cow<'_, str> {
    let length = line.chars().count();
    if length <= SHOWN {
        return Cow::Borrowed(line);
    }
    let begin: String = line.chars().take(SHOWN / 2).collect();
    let end: String = line.chars().skip(length - SHOWN / 2).collect();
    Cow::Owned(format!("{begin} … {end}"))
}

/// `text` with control characters as JSON escapes them: a terminal obeys them, whoever wrote the label or the log. Line breaks and tabs
/// stay.
fn visible(text: &[u8]) -> Cow<'_, [u8]> {
    // in UTF-8 the second half of the controls, U+0080 to U+009F, is the byte C2 and the code itself
    let is_control = |at: usize| match text[at] {
        b'\n' | b'\t' => false,
        0x80..=0x9f => at > 0 && text[at - 1] == 0xc2,
        code => code < 0x20 || code == 0x7f,
    };
    if !(0..text.len()).any(is_control) {
        return Cow::Borrowed(text);
    }
    let mut shown = Vec::with_capacity(text.len() + 16);
    for (at, &code) in text.iter().enumerate() {
        if !is_control(at) {
            shown.push(code);
            continue;
        }
        if code >= 0x80 {
            shown.pop();
        }
        shown.extend(format!("\\u{code:04x}").bytes());
    }
    Cow::Owned(shown)
}
