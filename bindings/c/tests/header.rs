//! `satline.h` is what the source says.

use std::path::Path;

use cbindgen::{Builder, Config, EnumConfig, ExportConfig, Language, RenameRule, Style};

const ABOUT: &str = "/* satline for C: refrigerant properties and what a car air-conditioning gauge reading means.
 * Units are those of the names: Pa, K, m. bindings/c/README.md describes errors, ownership and threads.
 * Made from the source by `SATLINE_UPDATE=1 cargo test -p satline-c`. */";

fn written() -> String {
    let config = Config {
        language: Language::C,
        style: Style::Type,
        header: Some(ABOUT.to_owned()),
        include_guard: Some("SATLINE_H".to_owned()),
        no_includes: true,
        sys_includes: vec!["stddef.h".to_owned(), "stdint.h".to_owned()],
        cpp_compat: true,
        usize_is_size_t: true,
        documentation: true,
        enumeration: EnumConfig { rename_variants: RenameRule::QualifiedScreamingSnakeCase, ..EnumConfig::default() },
        export: ExportConfig { include: vec!["SatlineStatus".to_owned()], ..ExportConfig::default() },
        ..Config::default()
    };
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let files = ["version.rs", "error.rs", "arguments.rs", "properties.rs", "columns.rs", "json.rs"];
    let builder = files.iter().fold(Builder::new(), |builder, file| builder.with_src(source.join(file)));
    let mut text = Vec::new();
    builder.with_config(config).generate().expect("a header is made").write(&mut text);
    String::from_utf8(text).expect("a header is text")
}

#[test]
fn the_header_is_what_the_source_says() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("satline.h");
    let written = written();
    if std::env::var_os("SATLINE_UPDATE").is_some() {
        std::fs::write(&path, written).unwrap();
    } else {
        let kept = std::fs::read_to_string(&path).unwrap();
        assert!(written == kept, "run the tests once with SATLINE_UPDATE=1 if the change is meant");
    }
}

/// Every exported function is in it: one in a file that is not listed would be missing.
#[test]
fn no_exported_function_is_missing() {
    let header = written();
    let mut functions = 0;
    for file in std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("src")).unwrap() {
        let text = std::fs::read_to_string(file.unwrap().path()).unwrap();
        for (_, after) in text.match_indices("extern \"C\" fn ").map(|(at, found)| text.split_at(at + found.len())) {
            let name = after.split('(').next().unwrap();
            assert_eq!(header.matches(&format!("{name}(")).count(), 1, "{name}");
            functions += 1;
        }
    }
    assert_eq!(functions, 27, "functions were lost or added");
}
