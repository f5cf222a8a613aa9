//! Reports laid out: every width, Markdown, HTML.

use clap::Parser;
use satline::Refrigerant;
use satline::diagnosis::Diagnosis;
use serde_json::Value;

use super::examples::{demonstrated, hold_test, job_sheet, read_gauges};
use satline::report::{
    AnswerMark, Block, Furniture, HoldReport, JobReport, ListMark, Page, Report, Section, Step, Table, Tone,
};

use crate::support::{root, same_as_file};

mod second_language;

fn committed<T: serde::de::DeserializeOwned>(path: &str) -> T {
    serde_json::from_str(&std::fs::read_to_string(root().join(path)).unwrap()).unwrap()
}

/// A page of each kind.
fn pages() -> Vec<Page> {
    let readings = ["demo", "r744", "at_rest", "low_side"]
        .map(|name| committed::<Report>(&format!("examples/read_gauges/{name}.json")));
    let mut pages: Vec<Page> = readings.iter().flat_map(|report| [report.page(), report.brief()]).collect();
    pages.push(committed::<JobReport>("examples/job_sheet/demo.json").page());
    pages.push(committed::<HoldReport>("examples/hold_test.json").page());
    pages
}

#[test]
fn no_line_is_wider_than_asked() {
    for page in pages() {
        for width in [40, 52, 60, 80, 132] {
            for line in page.text(width).lines() {
                let longest = line.split(' ').map(|word| word.chars().count()).max().unwrap();
                // a word that is wider than the page stands alone; nothing breaks it
                assert!(
                    line.chars().count() <= width || longest + 6 > width,
                    "{width} columns, {}: {line:?}",
                    line.chars().count()
                );
            }
        }
    }
}

#[test]
fn every_layout_says_the_same() {
    // letters and digits alone: marks, tags and breaks differ
    let bare = |text: &str| -> Vec<char> { text.chars().filter(|c| c.is_alphanumeric()).collect() };
    for page in pages() {
        let markdown = page.markdown();
        let html = page.html();
        let body = html.split_once("<main>").unwrap().1;
        let body = without_tags(body);
        for word in page.text(80).split_whitespace() {
            let word: String = bare(word).into_iter().collect();
            let holds = |text: &str| {
                bare(text).windows(word.chars().count().max(1)).any(|w| w.iter().collect::<String>() == word)
            };
            if word.chars().count() > 6 {
                assert!(holds(&markdown), "{word:?} is missing in Markdown of {:?}", page.title);
                assert!(holds(&body), "{word:?} is missing in HTML of {:?}", page.title);
            }
        }
    }
}

/// The text of a piece of HTML.
fn without_tags(html: &str) -> String {
    let mut out = String::new();
    let mut inside = false;
    for c in html.chars() {
        match c {
            '<' => inside = true,
            '>' => inside = false,
            c if !inside => out.push(c),
            _ => {}
        }
    }
    out.replace("&quot;", "\"").replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
}

/// HTML as XML: the one void element closed, the document type taken away.
fn as_xml(html: &str) -> String {
    let html = html.strip_prefix("<!DOCTYPE html>\n").expect("a document type");
    let mut out = String::new();
    for line in html.lines() {
        if line.starts_with("<meta ") {
            out += &line.replace('>', "/>");
        } else {
            out += line;
        }
        out.push('\n');
    }
    out
}

#[test]
fn a_page_of_html_is_whole_and_needs_nothing_else() {
    let mut all: Vec<String> = pages().iter().map(Page::html).collect();
    for part in [&["--low", "22 psi"][..], &["--high", "160 psi"], &["--vent", "64 °F"]] {
        let day = ["x", "--refrigerant", "R-134a", "--ambient", "86 °F", "--html", "not-written.html"];
        let args = read_gauges::Args::parse_from(day.iter().chain(part).copied());
        let answer = read_gauges::answer(&args).unwrap();
        let names: Vec<&str> = answer.pictures.iter().map(|(_, picture)| picture.name()).collect();
        let expected: &[&str] = match part[0] {
            "--low" => &["saturation", "ranking", "windows-low"],
            "--high" => &["saturation", "ranking", "windows-high"],
            _ => &["ranking"],
        };
        assert_eq!(names, expected);
        all.push(answer.html());
    }
    all.push(demonstrated().html());
    for html in &all {
        let xml = as_xml(html);
        let document = roxmltree::Document::parse(&xml).unwrap_or_else(|error| panic!("{error}"));
        let mut ids = std::collections::BTreeSet::new();
        let mut levels = Vec::new();
        for node in document.descendants().filter(roxmltree::Node::is_element) {
            let name = node.tag_name().name();
            if let Some(id) = node.attribute("id") {
                assert!(ids.insert(id.to_owned()), "id {id} twice");
            }
            assert!(!["script", "link", "img", "iframe"].contains(&name), "{name}");
            for attribute in ["src", "href", "onload", "onclick"] {
                assert!(node.attribute(attribute).is_none(), "{name} {attribute}");
            }
            if name == "svg" {
                assert_eq!(node.attribute("role"), Some("img"));
            }
            if name == "th" {
                assert!(["row", "col"].contains(&node.attribute("scope").unwrap()));
            }
            if let Some(level) = name.strip_prefix('h').and_then(|n| n.parse::<u8>().ok()) {
                levels.push(level);
            }
        }
        assert_eq!((levels.first(), levels.iter().filter(|&&level| level == 1).count()), (Some(&1), 1));
        assert!(levels.windows(2).all(|pair| pair[1] <= pair[0] + 1), "{levels:?}");
        for node in document.descendants() {
            for id in node.attribute("aria-labelledby").unwrap_or("").split_whitespace() {
                assert!(ids.contains(id), "nothing has the id {id}");
            }
        }
        assert!(!html.contains("url(") && !html.contains("@import"), "something is fetched");
    }
    same_as_file("examples/read_gauges/demo.html", all.last().unwrap());
}

#[test]
fn what_looks_like_markup_is_written_out() {
    let odd = "<b>& \"2 > 1\" | *a* _b_ `c` [d]";
    let page = Page {
        title: odd.to_owned(),
        opening: vec![odd.to_owned()],
        answer: odd.to_owned(),
        mark: AnswerMark::Open,
        sections: vec![Section {
            name: "odd",
            heading: odd.to_owned(),
            blocks: vec![
                Block::Words(odd.to_owned()),
                Block::List(ListMark::Question, vec![odd.to_owned()]),
                Block::Table(Table {
                    head: vec![odd.to_owned(), odd.to_owned()],
                    rows: vec![vec![odd.into(), odd.into()]],
                    numbers: false,
                    legend: vec![odd.to_owned()],
                }),
                Block::Steps(vec![Step {
                    title: odd.to_owned(),
                    standing: odd.to_owned(),
                    words: vec![odd.to_owned(), format!(" {odd}")],
                    cautions: vec![odd.to_owned()],
                    basis: vec![1, 2],
                }]),
            ],
            tone: Tone::Plain,
        }],
        furniture: Furniture::default(),
    };
    let html = page.html();
    roxmltree::Document::parse(&as_xml(&html)).unwrap();
    assert!(!html.contains("<b>"));
    assert_eq!(without_tags(&html).matches(odd).count(), 17);
    assert_eq!(page.text(200).matches(odd).count(), 16);
    // no bar ends a cell of the table early: five of each row are its own
    let markdown = page.markdown();
    let row = markdown.lines().find(|line| line.starts_with("| ") && line.contains("2 \\>")).unwrap();
    assert_eq!(row.replace("\\|", "").matches('|').count(), 3, "{row}");
}

#[test]
fn a_job_sheet_and_a_hold_test_are_written_as_html_too() {
    let folder = std::env::temp_dir().join(format!("satline-html-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let path = |name: &str| folder.join(name).to_str().unwrap().to_owned();
    let sheet = job_sheet::Args::try_parse_from(["job_sheet", "--html", &path("job.html")]).unwrap();
    job_sheet::page(&sheet).unwrap();
    let held = ["hold_test", "--language", "es", "--html", &path("hold.html")];
    let held = hold_test::Args::try_parse_from(held).unwrap();
    hold_test::answer(&held).unwrap();
    let drawn = read_gauges::Args::try_parse_from(["read_gauges", "--svg", &path("pictures")]).unwrap();
    read_gauges::one(&drawn).unwrap();
    for (name, word, committed) in [
        ("job.html", "class=\"box\"", "examples/job_sheet/demo.html"),
        ("hold.html", "<svg ", "examples/hold_test.es.html"),
    ] {
        let html = std::fs::read_to_string(path(name)).unwrap();
        assert!(html.contains(word), "{name}");
        same_as_file(committed, &html);
        roxmltree::Document::parse(&as_xml(&html)).unwrap();
    }
    let pictures: Vec<_> = std::fs::read_dir(path("pictures")).unwrap().map(|entry| entry.unwrap().path()).collect();
    assert!(pictures.len() > 3, "{pictures:?}");
    for picture in pictures {
        roxmltree::Document::parse(&std::fs::read_to_string(picture).unwrap()).unwrap();
    }
    std::fs::remove_dir_all(&folder).unwrap();
    // a file that cannot be written is said so
    let args = read_gauges::Args::try_parse_from(["read_gauges", "--html", "/nowhere/at/all.html"]).unwrap();
    assert!(read_gauges::one(&args).unwrap_err().to_string().starts_with("/nowhere/at/all.html: "));
}

#[test]
fn a_clutch_worth_timing_is_asked_for_and_told_as_a_share() {
    let asked = |more: &[&str]| {
        let car =
            ["x", "--refrigerant", "R-134a", "--ambient", "77 °F", "--humidity", "50 %", "--compressor", "cycling"];
        let read = ["--low", "22 psi", "--high", "120 psi", "--vent", "40 °F", "--width", "400"];
        let args = car.iter().chain(&read).chain(more).copied();
        read_gauges::one(&read_gauges::Args::parse_from(args)).unwrap()
    };
    let open = asked(&[]);
    assert!(open.contains("Time the clutch over three cycles, engaged against all: "), "{open}");
    let timed = asked(&["--duty", "45 %", "--full"]);
    assert!(
        timed.contains("clutch duty cycle 45 % where such cars show") && !timed.contains("Time the clutch"),
        "{timed}"
    );
}

/// Every probability in `value`, by the names of its fields.
fn probabilities(value: &Value) -> Vec<f64> {
    match value {
        Value::Object(fields) => fields
            .iter()
            .flat_map(|(name, field)| match (name.as_str(), field.as_f64()) {
                ("probability" | "no_fault" | "undercharge", Some(probability)) => vec![probability],
                _ => probabilities(field),
            })
            .collect(),
        Value::Array(values) => values.iter().flat_map(probabilities).collect(),
        _ => Vec::new(),
    }
}

#[test]
fn advice_gives_probabilities_to_four_digits_as_causes_do() {
    let mut headlines = Vec::new();
    // invented
    for (low, high) in [("12 psi", "100 psi"), ("1.5 bar", "11 bar"), ("33 psi", "200 psi")] {
        let request = Diagnosis::of(Refrigerant::R134a).low(low).unwrap().high(high).unwrap();
        let report = request.ambient("86 °F").unwrap().run().unwrap().report();
        let advice = serde_json::to_value(&report.advice).unwrap();
        assert!(!probabilities(&advice["headline"]).is_empty(), "{advice}");
        for probability in probabilities(&advice) {
            assert_eq!(format!("{probability:.3e}").parse(), Ok(probability), "{advice}");
        }
        headlines.extend(advice["headline"]["id"].as_str().map(str::to_owned));
    }
    assert_eq!(headlines, ["faulty", "unusual", "healthy"]);
}
