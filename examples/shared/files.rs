//! Files that examples read and write: never half a file, never one written over what is read, never more than fits into memory.

use std::ffi::OsString;
use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::Path;

/// Writes `text` to the file at `path`: into a new file beside it, which then takes its name. An older page stays whole until then,
/// and for good if the disk is full or the work is interrupted; killed at that very moment, the hidden new file stays beside it.
#[allow(dead_code)] // some write no file
pub fn write(path: &Path, text: &str) -> Result<(), String> {
    let named = |error: io::Error| format!("{}: {error}", path.display());
    // a link stays a link: what it leads to is replaced
    let target = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let old = fs::metadata(&target).ok();
    match &old {
        Some(old) if old.is_dir() => return Err(format!("{}: a folder; name a file in it", path.display())),
        // a pipe or a device keeps nothing that could be halved
        Some(old) if !old.is_file() => return fs::write(&target, text).map_err(named),
        _ => {}
    }
    let mut name = OsString::from(".");
    name.push(target.file_name().ok_or_else(|| format!("{}: no name of a file", path.display()))?);
    name.push(format!(".{}.part", std::process::id()));
    let part = target.with_file_name(name);
    let written = whole(&part, text, old.map(|old| old.permissions())).and_then(|()| fs::rename(&part, &target));
    written.map_err(|error| {
        let _ = fs::remove_file(&part);
        named(error)
    })
}

/// Writes a new file down to the disk.
fn whole(path: &Path, text: &str, permissions: Option<fs::Permissions>) -> io::Result<()> {
    let mut file = File::create(path)?;
    file.write_all(text.as_bytes())?;
    if let Some(permissions) = permissions {
        file.set_permissions(permissions)?;
    }
    // a full disk may come to light only here
    file.sync_all()
}

/// A flag and the path that was given with it.
pub type Given<'a> = (&'a str, &'a Path);

/// Refuses an `output` that is the file of an `input`, by whatever path or link it is named.
#[allow(dead_code)] // some read or write no file
pub fn apart((reads, input): Given, (writes, output): Given) -> Result<(), String> {
    match (input.canonicalize(), output.canonicalize()) {
        (Ok(from), Ok(to)) if from == to => Err(format!(
            "{writes} {} would write over what {reads} {} reads; give it another name",
            output.display(),
            input.display()
        )),
        _ => Ok(()),
    }
}

/// Most that is read of a file which is needed as a whole, bytes; our choice, ten times what any such file has.
#[allow(dead_code)] // some read no file as a whole
const MOST: u64 = 16 << 20;

/// The text of the file at `path`, which is no longer than a table or a list can be.
#[allow(dead_code)] // some read no file as a whole
pub fn read(path: &Path) -> Result<String, String> {
    let named = |wrong: &dyn std::fmt::Display| format!("{}: {wrong}", path.display());
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(|error| named(&error))?;
    file.take(MOST + 1).read_to_end(&mut bytes).map_err(|error| named(&error))?;
    if bytes.len() as u64 > MOST {
        return Err(named(&format!("longer than {} MB", MOST >> 20)));
    }
    String::from_utf8(bytes).map_err(|_| named(&"not text in UTF-8; save the file as UTF-8"))
}
