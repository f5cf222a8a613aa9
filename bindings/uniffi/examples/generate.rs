//! Writes the Kotlin and the Swift source of a library that was built: `generate LIBRARY FOLDER`.

use uniffi::{GenerateOptions, TargetLanguage};

fn main() -> Result<(), String> {
    let given: Vec<String> = std::env::args().skip(1).collect();
    let [library, folder] = given.as_slice() else { return Err("generate LIBRARY FOLDER".to_owned()) };
    write(library, folder)
}

/// Writes the sources of both languages to `folder`.
pub fn write(library: &str, folder: &str) -> Result<(), String> {
    let options = GenerateOptions {
        languages: vec![TargetLanguage::Kotlin, TargetLanguage::Swift],
        source: library.into(),
        out_dir: folder.into(),
        ..GenerateOptions::default()
    };
    uniffi::generate(options).map_err(|error| format!("{library}: {error:#}"))
}
