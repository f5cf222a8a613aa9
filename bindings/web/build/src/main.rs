//! Builds `satline-web` for WebAssembly and puts it, with the page and its script, into one HTML file.
//!
//! ```text
//! cargo run -p satline-web-build
//! ```
//!
//! The files are in the folder `web` of the target directory: `satline.html`, and for other hosts `satline.wasm`, `satline.mjs` and its
//! types `satline.d.mts`. `--data-only` builds the module without the page in words, and no HTML file.

use std::error::Error;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};

use flate2::{Compression, GzBuilder};
use satline::Refrigerant;
use satline::diagnosis::Diagnosis;

const TARGET: &str = "wasm32-unknown-unknown";

fn main() -> ExitCode {
    match build(std::env::args().any(|arg| arg == "--data-only")) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("satline-web-build: {error}");
            ExitCode::FAILURE
        }
    }
}

fn build(data_only: bool) -> Result<(), Box<dyn Error>> {
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).parent().ok_or("no folder above this package")?;
    let into = target_directory()?.join("web");
    std::fs::create_dir_all(&into)?;
    let module = module(from, data_only)?;
    let compressed = compressed(&module)?;
    let put = |name: &str, content: &[u8]| -> Result<(), Box<dyn Error>> {
        std::fs::write(into.join(name), content)?;
        println!("{:>9} bytes  {}", content.len(), into.join(name).display());
        Ok(())
    };
    if data_only {
        put("satline-data.wasm", &module)?;
        println!("{:>9} bytes  compressed", compressed.len());
        return Ok(());
    }
    put("satline.wasm", &module)?;
    println!("{:>9} bytes  compressed", compressed.len());
    for name in ["satline.mjs", "satline.d.mts"] {
        put(name, &std::fs::read(from.join(name))?)?;
    }
    put("satline.html", page(from, &compressed)?.as_bytes())
}

/// The target directory of the workspace: this program is in it, below the folder of its profile.
fn target_directory() -> Result<PathBuf, Box<dyn Error>> {
    let program = std::env::current_exe()?;
    Ok(program.ancestors().nth(2).ok_or("this program is in no target directory")?.to_owned())
}

/// The bytes of the module, built now.
fn module(from: &Path, data_only: bool) -> Result<Vec<u8>, Box<dyn Error>> {
    let into = target_directory()?;
    let mut cargo = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    cargo.current_dir(from).args(["build", "-p", "satline-web", "--profile", "wasm", "--target", TARGET]);
    cargo.arg("--config").arg(from.join("profile.toml")).arg("--target-dir").arg(&into);
    if data_only {
        cargo.arg("--no-default-features");
    }
    if !cargo.status()?.success() {
        return Err(format!("the module was not built; its target: rustup target add {TARGET}").into());
    }
    Ok(std::fs::read(into.join(TARGET).join("wasm").join("satline_web.wasm"))?)
}

/// `module` as gzip has it, the same for the same module.
fn compressed(module: &[u8]) -> Result<Vec<u8>, Box<dyn Error>> {
    let mut writer = GzBuilder::new().mtime(0).write(Vec::new(), Compression::best());
    writer.write_all(module)?;
    Ok(writer.finish()?)
}

/// The page with everything it needs inside.
fn page(from: &Path, compressed: &[u8]) -> Result<String, Box<dyn Error>> {
    let read = |name: &str| std::fs::read_to_string(from.join(name));
    // in the browser there is one script, nothing to import from
    let worker = format!("{}\n{}", read("satline.mjs")?.replace("\nexport ", "\n"), read("worker.js")?);
    let mut page = read("page.html")?;
    for (place, content) in [
        ("/* style of the report */", report_style()?),
        ("/* style of the form */", read("page.css")?),
        ("/* worker */", worker),
        ("/* page */", read("page.js")?),
        ("<!-- wasm -->", base64(compressed)),
    ] {
        if page.matches(place).count() != 1 || content.contains("</script") {
            return Err(format!("{place} cannot be put into page.html").into());
        }
        page = page.replace(place, content.trim_end());
    }
    Ok(page)
}

/// The style that the library gives its own pages, so that the answer looks like them.
fn report_style() -> Result<String, Box<dyn Error>> {
    let html = Diagnosis::of(Refrigerant::R134a).low("22 psi")?.high("160 psi")?.assess()?.report().page().html();
    let style = html.split_once("<style>").and_then(|(_, rest)| rest.split_once("</style>"));
    Ok(style.ok_or("the library's page has no style")?.0.trim().to_owned())
}

/// RFC 4648, section 4.
fn base64(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let at = |place: usize| three.get(place).copied().map_or(0, u32::from);
        let bits = at(0) << 16 | at(1) << 8 | at(2);
        for place in 0..4 {
            let digit = DIGITS[(bits >> (18 - 6 * place) & 63) as usize] as char;
            text.push(if place <= three.len() { digit } else { '=' });
        }
    }
    text
}
