//! What every example does with its command line: read it, do the work, say what went wrong.

use std::fmt::Display;
use std::path::Path;
use std::process::ExitCode;

use clap::Parser;

/// Reads the command line and does the `work`; an error goes to standard error behind the example's `name`.
pub fn run<A: Parser, E: Display>(name: &str, work: impl FnOnce(&A) -> Result<ExitCode, E>) -> ExitCode {
    let args = match A::try_parse() {
        Ok(args) => args,
        Err(asked) => {
            // help goes to the terminal and is no failure
            let failed = asked.use_stderr();
            return if asked.print().is_err() || failed { ExitCode::FAILURE } else { ExitCode::SUCCESS };
        }
    };
    work(&args).unwrap_or_else(|error| {
        eprintln!("{name}: {error}");
        ExitCode::FAILURE
    })
}

/// Writes `text` to the file at `path`; what goes wrong is told with the path.
#[allow(dead_code)] // some write no file
pub fn write(path: &Path, text: &str) -> Result<(), String> {
    std::fs::write(path, text).map_err(|error| format!("{}: {error}", path.display()))
}

/// Prints `page`: all is well.
#[allow(dead_code)] // some print as they go
pub fn printed(page: &str) -> ExitCode {
    print!("{page}");
    ExitCode::SUCCESS
}
