//! What examples print and write survives: closed pipes, full disks, interruption, files that change under them, bytes of every kind.

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::OnceLock;
use std::time::{Duration, Instant};

use super::{args, fitted, held, hold_test, labels, read_gauges, sheet};
use clap::Parser;

use crate::support::{alone, resident_kib, root};
use crate::trace::watch_log;

/// The examples that answer at once; `healthy_windows` and `make_curves`, which compute for seconds, print through the same call.
const QUICK: [&str; 10] = [
    "accuracy_page",
    "cycle_diagram",
    "fit_a_table",
    "hold_test",
    "job_sheet",
    "oil_label",
    "pressure_card",
    "read_gauges",
    "refit",
    "watch_log",
];

/// The examples that write a page.
const PAGES: [&str; 3] = ["hold_test", "job_sheet", "read_gauges"];

/// The example `name` as a program, built with the features of this test.
pub(super) fn program(name: &str) -> Command {
    static FOLDER: OnceLock<PathBuf> = OnceLock::new();
    let folder = FOLDER.get_or_init(|| {
        let tests = std::env::current_exe().unwrap();
        let profile = tests.parent().and_then(Path::parent).unwrap();
        let mut build = Command::new(env!("CARGO"));
        // the features this test was built with, so that what is built already is found again
        let features = [
            ("default", cfg!(feature = "default")),
            ("schema", cfg!(feature = "schema")),
            ("approx", cfg!(feature = "approx")),
        ];
        let features = features.into_iter().filter(|(_, on)| *on).map(|(feature, _)| feature).chain(["serde", "fit"]);
        build.args(["build", "--quiet", "--examples", "--no-default-features", "--features"]);
        build.arg(features.collect::<Vec<_>>().join(","));
        build.arg("--target-dir").arg(profile.parent().unwrap());
        if profile.ends_with("release") {
            build.arg("--release");
        }
        assert!(build.current_dir(root()).status().unwrap().success(), "the examples are not built");
        profile.join("examples")
    });
    Command::new(folder.join(name))
}

/// What the example `name` says and how it ends.
fn run(name: &str, words: &[&str]) -> Output {
    program(name).args(words).output().unwrap()
}

fn errors(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// A folder of one test, removed at its end.
struct Folder(PathBuf);

impl Folder {
    fn new(test: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("satline-{test}-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        Self(folder)
    }

    /// The path of `name` in it, as text.
    fn at(&self, name: &str) -> String {
        self.0.join(name).to_str().unwrap().to_owned()
    }

    /// A file with this text in it.
    fn file(&self, name: &str, text: impl AsRef<[u8]>) -> String {
        fs::write(self.0.join(name), text).unwrap();
        self.at(name)
    }

    /// The names of its files.
    fn names(&self) -> Vec<String> {
        let mut names: Vec<String> =
            fs::read_dir(&self.0).unwrap().map(|file| file.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// A log of a hold test that can be answered.
fn hold_log() -> String {
    let rows: String = (0..8).map(|minute| format!("{minute},{}\n", 500 + 120 * minute)).collect();
    format!("time [min],absolute [micron]\n{rows}")
}

#[test]
fn a_closed_pipe_ends_every_example_quietly_and_with_success() {
    for name in QUICK {
        let mut child = program(name).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        drop(child.stdout.take());
        let ended = child.wait_with_output().unwrap();
        assert!(ended.status.success(), "{name}: {:?}", ended.status);
        assert!(!errors(&ended).contains("panicked") && !errors(&ended).contains("pipe"), "{name}: {}", errors(&ended));
    }
    // a reader that takes one line of many and goes
    let mut child = program("read_gauges").arg("--full").stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let mut line = String::new();
    BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
    let ended = child.wait_with_output().unwrap();
    assert!(line.len() > 1 && ended.status.success() && ended.stderr.is_empty(), "{}", errors(&ended));
}

#[cfg(target_os = "linux")]
fn full() -> Stdio {
    fs::OpenOptions::new().write(true).open("/dev/full").unwrap().into()
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_behind_standard_output_is_one_line_and_failure() {
    let of = |name: &str, words: &[&str]| {
        let ended = program(name).args(words).stdout(full()).output().unwrap();
        let said = errors(&ended);
        let about: Vec<&str> = said.lines().filter(|line| line.contains("standard output")).collect();
        assert_eq!(ended.status.code(), Some(1), "{name}: {said}");
        assert!(about.len() == 1 && about[0].starts_with(&format!("{name}: standard output: ")), "{name}: {said}");
        assert!(!said.contains("panicked"), "{name}: {said}");
    };
    QUICK.iter().for_each(|name| of(name, &[]));
    of("read_gauges", &["--help"]);
    let folder = Folder::new("full-log");
    let log = folder.file("log.csv", "low [psi],high [psi]\n32,185\n30,180\n");
    of("read_gauges", &["--refrigerant", "R-134a", "--log", &log]);
}

#[cfg(target_os = "linux")]
#[test]
fn complaints_that_cannot_be_written_cost_nothing_else() {
    for name in ["hold_test", "watch_log"] {
        let plain = run(name, &[]);
        assert!(!plain.stderr.is_empty(), "{name} has nothing to complain about");
        let ended = program(name).stdout(Stdio::piped()).stderr(full()).spawn().unwrap().wait_with_output().unwrap();
        assert_eq!((ended.status.code(), ended.stdout), (plain.status.code(), plain.stdout), "{name}");
    }
    let refused = program("oil_label").arg("nothing").stderr(full()).status().unwrap();
    assert_eq!(refused.code(), Some(1));
}

#[test]
fn no_example_writes_to_the_terminal_or_to_a_file_by_itself() {
    let mut folders = vec![root().join("examples")];
    let mut sources = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            match path.extension() {
                _ if path.is_dir() => folders.push(path),
                Some(extension) if extension == "rs" => sources.push(path),
                _ => {}
            }
        }
    }
    assert!(sources.len() > 15, "{sources:?}");
    for path in sources {
        let text = fs::read_to_string(&path).unwrap();
        for word in ["print!(", "println!(", "dbg!(", "stdout()", "fs::write(", "File::create"] {
            let shared = path.parent().unwrap().ends_with("shared") && !word.ends_with("!(");
            assert!(shared || !text.contains(word), "{} has {word}", path.display());
        }
    }
}

#[cfg(unix)]
#[test]
fn a_page_is_never_written_over_what_it_is_made_from() {
    let folder = Folder::new("over");
    let log = folder.file("h.csv", hold_log());
    let rows = folder.file("rows.txt", "30 °C, 60 %: 190 to 240 kPa, 1300 to 1600 kPa\n");
    let prior = folder.file("prior.json", "{\"undercharge\": 40}");
    fs::create_dir(folder.0.join("inner")).unwrap();
    for (name, file) in [("h.html", &log), ("rows.html", &rows), ("prior.html", &prior)] {
        std::os::unix::fs::symlink(file, folder.at(name)).unwrap();
    }
    let held = |html: &str| {
        let words = ["hold_test", "--csv", &log, "--html", html];
        hold_test::answer(&hold_test::Args::try_parse_from(words).unwrap()).map(|_| ()).unwrap_err().to_string()
    };
    let gauges = |flag: &str, file: &str, html: &str| {
        let words = ["--refrigerant", "R-134a", "--low", "2 bar", "--ambient", "30 °C", flag, file, "--html", html];
        read_gauges::one(&args(&words)).unwrap_err().to_string()
    };
    for spelling in ["h.csv", "./h.csv", "inner/../h.csv", "h.html"] {
        let said = held(&folder.at(spelling));
        assert!(said.starts_with("--html ") && said.contains("would write over what --csv "), "{said}");
    }
    for (flag, file, link) in [("--maker-rows", &rows, "rows.html"), ("--prior", &prior, "prior.html")] {
        for html in [file, &folder.at(link)] {
            let said = gauges(flag, file, html);
            assert!(said.contains(&format!("would write over what {flag} ")), "{said}");
        }
    }
    // a picture has a name of its own in its folder
    let named = folder.file("saturation.svg", "30 °C, 60 %: 190 to 240 kPa, 1300 to 1600 kPa\n");
    let words =
        ["--refrigerant", "R-134a", "--low", "2 bar", "--maker-rows", &named, "--svg", folder.0.to_str().unwrap()];
    let said = read_gauges::one(&args(&words)).unwrap_err().to_string();
    assert!(said.starts_with("--svg ") && said.contains("would write over what --maker-rows "), "{said}");
    assert!(fs::read_to_string(&named).unwrap().starts_with("30 °C"));
    let both = ["read_gauges", "--log", &log, "--html", &log];
    let said = read_gauges::Args::try_parse_from(both).map(|_| ()).unwrap_err().to_string();
    assert!(said.contains("cannot be used with"), "{said}");
    assert_eq!(fs::read_to_string(&log).unwrap(), hold_log());
    assert_eq!(fs::read_to_string(&prior).unwrap(), "{\"undercharge\": 40}");
}

#[cfg(unix)]
#[test]
fn a_page_takes_the_place_of_the_old_one_in_one_step() {
    use std::os::unix::fs::PermissionsExt;
    let folder = Folder::new("replace");
    let page = folder.file("page.html", "old");
    fs::set_permissions(&page, fs::Permissions::from_mode(0o640)).unwrap();
    std::os::unix::fs::symlink("page.html", folder.at("link.html")).unwrap();
    let ended = run("hold_test", &["--csv", &folder.file("h.csv", hold_log()), "--html", &folder.at("link.html")]);
    assert!(ended.status.success(), "{}", errors(&ended));
    let text = fs::read_to_string(&page).unwrap();
    assert!(text.starts_with("<!DOCTYPE html>") && text.trim_end().ends_with("</html>"));
    assert_eq!(fs::metadata(&page).unwrap().permissions().mode() & 0o777, 0o640);
    assert!(fs::symlink_metadata(folder.at("link.html")).unwrap().is_symlink());
    assert_eq!(folder.names(), ["h.csv", "link.html", "page.html"]);
    let said = errors(&run("pressure_card", &["--svg", &folder.at("")]));
    assert!(said.contains("a folder; name a file in it"), "{said}");
    // a device is no file to be replaced
    assert!(run("pressure_card", &["--svg", "/dev/null"]).status.success());
}

/// A full disk as a limit on the size of files: writing beyond it is an error, and no signal.
#[cfg(target_os = "linux")]
#[test]
fn an_old_page_survives_a_full_disk() {
    let folder = Folder::new("full-disk");
    let page = folder.file("page.html", "old");
    for name in ["read_gauges", "job_sheet"] {
        let program = program(name).get_program().to_owned();
        let limited = "trap '' XFSZ; ulimit -f 8; exec \"$0\" --html \"$1\"";
        let ended = Command::new("sh").args(["-c", limited]).arg(program).arg(&page).output().unwrap();
        assert_eq!(ended.status.code(), Some(1), "{name}: {}", errors(&ended));
        let said = errors(&ended);
        assert!(said.lines().count() == 1 && said.starts_with(&format!("{name}: {page}: ")), "{said}");
        assert_eq!(
            (fs::read_to_string(&page).unwrap().as_str(), folder.names()),
            ("old", vec!["page.html".to_owned()])
        );
    }
}

#[cfg(unix)]
#[test]
fn an_interrupted_example_leaves_the_old_page_or_the_whole_new_one() {
    let folder = Folder::new("interrupted");
    let page = folder.file("page.html", "old");
    for milliseconds in [0, 5, 20, 60, 120, 160, 200, 300] {
        for name in PAGES {
            let mut example = program(name);
            example.args(["--html", &page]).stdout(Stdio::null()).stderr(Stdio::piped());
            let mut child = example.spawn().unwrap();
            std::thread::sleep(Duration::from_millis(milliseconds));
            Command::new("kill").args(["-INT", &child.id().to_string()]).stderr(Stdio::null()).status().unwrap();
            let mut said = String::new();
            child.stderr.take().unwrap().read_to_string(&mut said).unwrap();
            child.wait().unwrap();
            assert!(!said.contains("panicked"), "{name}: {said}");
            let text = fs::read_to_string(&page).unwrap();
            assert!(
                text == "old" || text.trim_end().ends_with("</html>"),
                "{name}: half a page after {milliseconds} ms"
            );
        }
    }
}

/// Whatever an example is at when it is interrupted, it says nothing of a panic.
#[cfg(unix)]
#[test]
fn every_interrupted_example_ends_without_a_panic() {
    for name in QUICK.into_iter().chain(["healthy_windows", "make_curves"]) {
        let mut example = program(name);
        example.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::piped());
        let mut child = example.spawn().unwrap();
        std::thread::sleep(Duration::from_millis(30));
        Command::new("kill").args(["-INT", &child.id().to_string()]).stderr(Stdio::null()).status().unwrap();
        let mut said = String::new();
        child.stderr.take().unwrap().read_to_string(&mut said).unwrap();
        child.wait().unwrap();
        assert!(!said.contains("panicked"), "{name}: {said}");
    }
}

/// A head, then one line of `left` bytes without an end, made while it is read.
struct EndlessLine {
    head: &'static [u8],
    left: usize,
}

impl Read for EndlessLine {
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        if !self.head.is_empty() {
            return self.head.read(into);
        }
        let n = into.len().min(self.left);
        into[..n].fill(b'9');
        self.left -= n;
        Ok(n)
    }
}

#[test]
fn a_line_of_any_length_is_one_bad_row_in_flat_memory() {
    // memory is counted by the process
    alone("examples::output::a_long_line_alone");
}

#[test]
#[ignore = "run by a_line_of_any_length_is_one_bad_row_in_flat_memory"]
fn a_long_line_alone() {
    let endless = |head| BufReader::with_capacity(1 << 16, EndlessLine { head, left: 1 << 30 });
    let before = resident_kib();
    let words = hold_test::Args::try_parse_from(["hold_test"]).unwrap();
    let said =
        hold_test::page(endless(b"time [min],absolute [micron]\n0,500\n"), &words, false).unwrap_err().to_string();
    assert!(said.contains("line 3: longer than 65536 bytes") && said.len() < 500, "{said}");
    let said = hold_test::page(endless(b""), &words, false).unwrap_err().to_string();
    assert_eq!(said, "line 1: longer than 65536 bytes");
    let mut errors = Vec::new();
    let words = args(&["--refrigerant", "R-134a"]);
    let log = endless(b"low [psi],high [psi]\n32,185\n");
    let summary = read_gauges::log::read(log, std::io::sink(), &mut errors, &words).unwrap();
    assert_eq!((summary.answered, summary.bad, errors.len() < 200), (1, 1, true));
    let trace = endless(b"time [s],low [psi],high [psi],ambient [\xc2\xb0F]\n0,32,185,86\n");
    let words = watch_log::Args::try_parse_from(["watch_log", "--refrigerant", "R-134a"]).unwrap();
    errors.clear();
    let summary = watch_log::read(trace, std::io::sink(), &mut errors, &words).unwrap();
    assert_eq!(summary, watch_log::Summary { used: 1, bad: 1 });
    assert!(errors.len() < 500, "{} bytes of complaints", errors.len());
    if let (Some(before), Some(after)) = (before, resident_kib()) {
        assert!(after < before + 20_000, "resident memory rose from {before} to {after} KiB");
    }
}

#[test]
fn an_error_quotes_no_more_than_an_excerpt() {
    let long = "x".repeat(60_000);
    let (_, errors, ..) = super::log(&format!("low [psi],high [psi]\n{long},185\n"), &["--refrigerant", "R-134a"]);
    assert!(
        errors.chars().count() < 500 && errors.contains(" … ") && errors.ends_with("write it like \"32 psi\"\n"),
        "{errors}"
    );
    let folder = Folder::new("excerpt");
    let log = folder.file("h.csv", format!("time [min],absolute [micron]\n0,500\n1,{long}\n"));
    let head = folder.file("head.csv", format!("time [min],{long}\n0,500\n"));
    for words in [["--csv", &log], ["--csv", &head]] {
        let said = errors_of("hold_test", &words);
        assert!(said.len() < 2000 && said.contains(" … "), "{said}");
    }
    let said = errors_of("read_gauges", &["--refrigerant", "R-134a", "--log", &head]);
    assert!(said.len() < 2000, "{said}");
    let rows = folder.file("rows.txt", format!("{long}\n").repeat(100));
    let said = errors_of("read_gauges", &["--refrigerant", "R-134a", "--low", "2 bar", "--maker-rows", &rows]);
    assert!(said.len() < 20_000 && said.contains("not read any further"), "{}", said.len());
    // every row bad: the first hundred are named
    let all = held(format!("{}{}", hold_log(), "x,y\n".repeat(5000)).as_bytes(), &[]).unwrap().complaints;
    assert!(all.lines().count() == 101 && all.ends_with("and 4900 more\n"), "{}", all.lines().count());
}

/// What an example that fails says.
fn errors_of(name: &str, words: &[&str]) -> String {
    let ended = run(name, words);
    assert!(!ended.status.success(), "{name} {words:?} succeeds");
    errors(&ended)
}

#[cfg(target_os = "linux")]
#[test]
fn a_file_that_is_needed_as_a_whole_is_not_read_without_end() {
    let prior = read_gauges::Args::try_parse_from(["read_gauges", "--prior", "/dev/zero"]).map(|_| ()).unwrap_err();
    assert!(prior.to_string().contains("/dev/zero: longer than 16 MB"), "{prior}");
    let table = fitted(&["/dev/zero", "--critical-temperature", "99 °C"]).unwrap_err();
    assert_eq!(table, "/dev/zero: longer than 16 MB");
}

#[test]
fn latin_1_and_nul_are_bad_rows_and_no_more() {
    let text = b"low [psi],high [psi],note\n32,185,\xe4\n3\x002,185,\n\x00\x00\x00\n33,190,fine\n";
    let (mut out, mut errors) = (Vec::new(), Vec::new());
    let words = args(&["--refrigerant", "R-134a"]);
    let summary = read_gauges::log::read(&text[..], &mut out, &mut errors, &words).unwrap();
    let errors = String::from_utf8(errors).unwrap();
    assert_eq!((summary.answered, summary.bad), (1, 3), "{errors}");
    assert!(errors.starts_with("line 2: not text in UTF-8; save the file as UTF-8\n"), "{errors}");
    let mut log = hold_log().into_bytes();
    log.extend_from_slice(b"8,\xe9\n9,1\x00\n");
    let answer = held(&log, &[]).unwrap();
    assert!(answer.page.starts_with("Hold test: 8 readings") && answer.complaints.lines().count() == 2, "{answer:?}");
    let folder = Folder::new("bytes");
    let table = folder.file("t.csv", b"temperature_C,pressure_kPa_abs,n\xe4me\n0,292,\n");
    let said = fitted(&[&table, "--critical-temperature", "99 °C"]).unwrap_err();
    assert!(said.ends_with("not text in UTF-8; save the file as UTF-8"), "{said}");
    let prior = folder.file("p.json", b"{\"undercharge\": \xff}");
    assert!(read_gauges::Args::try_parse_from(["read_gauges", "--prior", &prior]).is_err());
}

#[test]
fn escape_bytes_never_reach_the_terminal() {
    let folder = Folder::new("escapes");
    let log = folder.file(
        "log.csv",
        "low [psi],high [psi],\u{1b}[31mred [psi]\n\u{1b}]0;x\u{7}32,185,1\n\u{9b}31m,1,2\n33,190,1\n",
    );
    let odd = folder.at("\u{1b}[31mno-such-file");
    let cases: [(&str, Vec<&str>); 9] = [
        ("oil_label", vec!["\u{1b}[2J150 cc"]),
        ("oil_label", vec!["150 cc (5 \u{9b}31moz)"]),
        ("job_sheet", vec!["--refrigerant", "R-134a", "--drive", "belt", "--charge", "500 g\u{1b}[31m"]),
        ("job_sheet", vec!["--refrigerant", "\u{1b}[31mR-134a", "--drive", "belt", "--charge", "500 g"]),
        ("read_gauges", vec!["--refrigerant", "\u{1b}]0;x\u{7}", "--low", "2 bar"]),
        ("read_gauges", vec!["--refrigerant", "R-134a", "--log", &log]),
        ("read_gauges", vec!["--refrigerant", "R-134a", "--log", &odd]),
        ("hold_test", vec!["--csv", &odd]),
        ("watch_log", vec![&odd]),
    ];
    for (name, words) in cases {
        let ended = run(name, &words);
        let said = [ended.stdout, ended.stderr].concat();
        let text = String::from_utf8(said).unwrap();
        assert!(!text.chars().any(|c| c.is_control() && c != '\n'), "{name} {words:?}: {text:?}");
        assert!(!text.is_empty());
    }
}

#[test]
fn a_label_with_a_line_break_makes_no_heading_of_its_own() {
    let with = |flag: &str, label: &str| {
        let words =
            ["--refrigerant", "R-134a", "--drive", "belt", "--charge", "500 g", "--oil", "150 cm³", "--markdown"];
        let at = words.iter().position(|word| *word == flag);
        let mut words = words.to_vec();
        match at {
            Some(at) => words[at + 1] = label,
            None => words.extend([flag, label]),
        }
        sheet(&words)
    };
    let plain = with("--charge", "500 g").unwrap();
    let headings = |page: &str| page.lines().filter(|line| line.trim_start().starts_with('#')).count();
    for label in ["500 g\n# Safe", "500 g (\n# 17.6 oz)", "\n500 g", "500 g\r# Safe", "500 g\u{2028}# Safe", "# 500 g"]
    {
        // most are refused
        if let Ok(page) = with("--charge", label) {
            assert_eq!(headings(&page), headings(&plain), "{label:?}: {page}");
        }
    }
    for (flag, label) in
        [("--oil", "150 cm³\n# Safe"), ("--oil-kind", "PAG 46\n# Safe"), ("--refrigerant", "R-134a\n# Safe")]
    {
        assert!(with(flag, label).is_err(), "{label:?}");
    }
    assert!(labels(&["150 cc\n# Safe"]).is_err());
}

/// A log of two gauges, `rows` seconds long.
fn timed_log(rows: u32) -> String {
    let rows: String = (0..rows).map(|second| format!("{second},2.0{},12.{}\n", second % 3, second % 2)).collect();
    format!("time [s],low [bar],high [bar]\n{rows}")
}

/// Follows the log `name` in `folder`, changes it half a second later, and waits for the end.
fn followed(folder: &Folder, name: &str, change: impl FnOnce()) -> (Output, Duration) {
    let log = folder.at(name);
    let start = Instant::now();
    let child = program("watch_log")
        .args(["--refrigerant", "R-134a", "--follow", "--for", "4 s", &log])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    std::thread::sleep(Duration::from_millis(700));
    change();
    (child.wait_with_output().unwrap(), start.elapsed())
}

#[cfg(unix)]
#[test]
fn a_followed_log_that_is_cut_or_replaced_is_read_again_from_its_top() {
    let folder = Folder::new("cut");
    folder.file("log.csv", timed_log(120));
    let (cut, _) = followed(&folder, "log.csv", || {
        folder.file("log.csv", timed_log(60));
    });
    let (folder, log) = (&folder, folder.file("log.csv", timed_log(120)));
    let (replaced, _) = followed(folder, "log.csv", || {
        fs::rename(folder.file("new.csv", timed_log(130)), &log).unwrap();
    });
    for (ended, what, rows) in [(cut, "cut", "60 rows used"), (replaced, "replaced", "130 rows used")] {
        let page = String::from_utf8(ended.stdout.clone()).unwrap();
        assert_eq!(ended.status.code(), Some(0), "{}", errors(&ended));
        assert_eq!(errors(&ended), format!("the log was {what}: the new one is read from its top\n"));
        // the page of the old log, then that of the new one
        let (old, new) = page.split_once("120 rows used").unwrap_or_else(|| panic!("{page}"));
        assert!(old.contains("What was seen") && new.contains("What was seen") && new.contains(rows), "{page}");
    }
}

#[cfg(unix)]
#[test]
fn a_followed_log_that_is_deleted_ends_with_its_page_and_a_status_of_its_own() {
    let folder = Folder::new("deleted");
    let log = folder.file("log.csv", timed_log(120));
    let (ended, took) = followed(&folder, "log.csv", || fs::remove_file(&log).unwrap());
    let page = String::from_utf8(ended.stdout.clone()).unwrap();
    assert_eq!((ended.status.code(), errors(&ended).as_str()), (Some(3), "the log was deleted\n"), "{page}");
    assert!(page.contains("120 rows used"), "{page}");
    assert!(took < Duration::from_millis(3900), "it took {took:?} to notice");
}

#[test]
fn a_followed_log_that_only_grows_is_read_once() {
    let folder = Folder::new("grows");
    let log = folder.file("log.csv", timed_log(60));
    let (ended, _) = followed(&folder, "log.csv", || {
        let mut file = fs::OpenOptions::new().append(true).open(&log).unwrap();
        write!(file, "60,2.00,12.0\n61,2.0").unwrap();
    });
    let page = String::from_utf8(ended.stdout.clone()).unwrap();
    assert!(page.contains("61 rows used") && page.contains("The last line is incomplete"), "{page}");
    assert_eq!((ended.status.code(), errors(&ended).as_str()), (Some(0), ""), "{page}");
}

/// Ten thousand rows of many days, each day simulated for itself.
fn log_of_many_days() -> String {
    let row =
        |row: usize| format!("{},{},{},{}\n", 26 + row % 9, 170 + row % 31, 60 + row / 400, 20 + row % 400 / 50 * 9);
    (0..10_000).map(row).fold("low [psi],high [psi],ambient [°F],humidity [%]\n".to_owned(), |text, row| text + &row)
}

/// By a clock of the test: the first line within two seconds, then one a second at least, however late each is said within a tenth.
#[test]
fn progress_is_due_in_time() {
    use read_gauges::{due::Due, log::PROGRESS_EVERY};
    let start = Instant::now();
    let mut due = Due::new(PROGRESS_EVERY, start);
    let (mut now, mut said) = (start, vec![start]);
    for line in 0..200_u64 {
        assert!(!due.is(now), "twice at one moment");
        // a thread wakes up to 100 ms late
        now += due.after(now) + Duration::from_millis(line * 37 % 101);
        assert!(due.after(now).is_zero() && due.is(now));
        said.push(now);
    }
    assert!(said[1] - start <= Duration::from_secs(2));
    let longest = said.windows(2).map(|two| two[1] - two[0]).max().unwrap();
    assert!(longest <= Duration::from_secs(1), "{longest:?} without a line");
    // late lines are not added up
    assert!(*said.last().unwrap() - start <= 200 * PROGRESS_EVERY + Duration::from_millis(100));
    // after a machine that slept there is one line, not one for each that was missed
    now += Duration::from_secs(60);
    assert!(due.is(now) && !due.is(now) && due.after(now) <= PROGRESS_EVERY);
}

#[test]
fn a_long_log_with_causes_shows_rows_and_progress_from_the_start() {
    let folder = Folder::new("progress");
    let log = folder.file("log.csv", log_of_many_days());
    let mut child = program("read_gauges")
        .args(["--refrigerant", "R-134a", "--log", &log, "--causes", "--json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut said = BufReader::new(child.stderr.take().unwrap()).lines();
    let mut rows = BufReader::new(child.stdout.take().unwrap());
    let reader = std::thread::spawn(move || {
        let mut first = String::new();
        rows.read_line(&mut first).unwrap();
        // the rest is read so that the example goes on
        (first, Instant::now(), std::io::copy(&mut rows, &mut std::io::sink()))
    });
    let lines: Vec<String> = said.by_ref().take(3).map(Result::unwrap).collect();
    let progressed = Instant::now();
    assert!(child.try_wait().unwrap().is_none(), "the log is read before anything could be said of it");
    child.kill().unwrap();
    child.wait().unwrap();
    let (first, seen, _) = reader.join().unwrap();
    assert!(first.starts_with("{\"line\":2,") && seen < progressed, "{first}");
    for line in lines {
        assert!(line.starts_with("read_gauges: ") && line.contains(" % read, ") && line.ends_with(" rows"), "{line}");
    }
}
