//! Input as people type it, and what is asked about all the same.

use clap::Parser;
use satline::Refrigerant;

use super::{args, healthy_windows, held, log, page, read_gauges, refused_words, sheet};

const READING: [&str; 8] = ["--refrigerant", "R-134a", "--low", "2.2 bar", "--high", "13 bar", "--ambient", "30 °C"];

fn with(more: &[&str]) -> String {
    page(&[&READING, more].concat())
}

#[test]
fn a_bare_humidity_above_one_is_per_cent_and_any_other_is_asked_about() {
    assert_eq!(with(&["--humidity", "55"]), with(&["--humidity", "55 %"]));
    for bare in ["0.5", "1", "0", "100.1", "550", "-5", "x"] {
        assert!(refused_words(&[&READING[..], &["--humidity", bare]].concat()).contains("--humidity"), "{bare}");
    }
    assert!(
        refused_words(&[&READING[..], &["--humidity", "0.5"]].concat()).contains("has no unit; add one of %, of 1")
    );
    let job = ["--refrigerant", "R-134a", "--charge", "500 g", "--drive", "belt", "--ambient", "30 °C", "--humidity"];
    let of = |humidity| sheet(&[&job[..], &[humidity]].concat()).unwrap();
    assert_eq!(of("45"), of("45 %"));
}

#[test]
fn a_decimal_comma_is_read_where_it_cannot_separate_thousands() {
    let comma = ["--refrigerant", "R-134a", "--low", "2,2 bar", "--high", "13,0 bar", "--ambient", "30 °C"];
    let point = ["--refrigerant", "R-134a", "--low", "2.2 bar", "--high", "13.0 bar", "--ambient", "30 °C"];
    assert_eq!(page(&comma), page(&point));
    let thousands = refused_words(&["--refrigerant", "R-134a", "--low", "1,500 kPa"]);
    assert!(thousands.contains("the comma in \"1,500 kPa\" is not accepted"), "{thousands}");
}

#[test]
fn a_pressure_says_what_it_counts_from_and_an_absolute_one_is_no_gauge() {
    for gauge in ["2.2 barg", "2.2 bar(g)", "2.2 bar g", "2.2 bar"] {
        let words = ["--refrigerant", "R-134a", "--low", gauge, "--high", "13 bar", "--ambient", "30 °C"];
        assert_eq!(page(&words), with(&[]), "{gauge}");
    }
    for absolute in ["46.7 psia", "46.7 PSIA", "3.2 bara", "3.2 barA", "3.2 bar(a)", "322 kPa abs"] {
        let said = refused_words(&["--refrigerant", "R-134a", "--low", absolute]);
        let way_out = "is absolute pressure, but gauge pressure is asked for: subtract the pressure of the surrounding air, \
                       14.7 psi or 1.013 bar at sea level";
        assert!(said.contains(way_out), "{said}");
    }
    let barometer = refused_words(&[&READING[..], &["--barometer", "0 psig"]].concat());
    assert!(barometer.contains("add the pressure of the surrounding air"), "{barometer}");
}

#[test]
fn a_name_for_many_refrigerants_is_answered_with_them_and_not_guessed() {
    let said = refused_words(&["--refrigerant", "freon", "--low", "2 bar"]);
    assert!(said.contains("\"freon\" is a trade word for several refrigerants (R-12, R-22, R-134a …)"), "{said}");
    for (name, refrigerant) in
        [("r12 freon", Refrigerant::R12), ("yf", Refrigerant::R1234yf), ("co2", Refrigerant::R744)]
    {
        assert_eq!(name.parse(), Ok(refrigerant));
    }
}

#[test]
fn columns_of_other_names_are_left_aside_once_or_named() {
    let text = "time,Pump (A),low [psi],high [psi],Suction (psi)\n10:00,3,32,185,1\n10:01,3,30,180,2\n";
    let (out, errors, answered, bad) = log(text, &["--refrigerant", "R-134a"]);
    assert_eq!((answered, bad), (2, 0), "{out}");
    assert_eq!(
        errors,
        "line 1: columns left aside: \"Pump (A)\", \"Suction (psi)\"; to use one, name it: --columns \"Pump (A)=low [psi]\"\n"
    );
    let plain = log("low [psi],high [psi],x\n32,185,1\n", &["--refrigerant", "R-134a"]).0;
    let names = "suction (PSI) = low [psi],Discharge (psi)=high [psi]";
    let (named, errors, ..) = log(
        "Suction (psi),Discharge (psi),x\n32,185,1\n",
        &["--refrigerant", "R-134a", "--log", "x", "--columns", names],
    );
    assert_eq!(named, plain, "{errors}");
    // two columns that change places
    let swapped = "low [psi]=high [psi],high [psi]=low [psi]";
    let words = ["--refrigerant", "R-134a", "--log", "x", "--columns", swapped];
    assert_eq!(log("low [psi],high [psi],note\n185,32,1\n", &words).0, plain);
    let refused = |head: &str, names: &str| {
        let words = args(&["--refrigerant", "R-134a", "--log", "x", "--columns", names]);
        let text = format!("{head}\n32,185\n");
        read_gauges::log::read(text.as_bytes(), Vec::new(), Vec::new(), &words).unwrap_err().to_string()
    };
    assert_eq!(
        refused("low [psi],high [psi]", "Suction=low [psi]"),
        "--columns: no column is named \"Suction\"; the log has \"low [psi]\", \"high [psi]\""
    );
    assert!(refused("a,high [psi]", "a=lowest [psi]").starts_with("--columns: column \"lowest [psi]\" is not known"));
    // a unit is asked for as ever
    assert!(refused("a,high [psi]", "a=low").contains("\"low\" has no unit"), "{}", refused("a,high [psi]", "a=low"));
    let none = read_gauges::Args::try_parse_from(["read_gauges", "--log", "x", "--columns", "low [psi]"]).unwrap_err();
    assert!(none.to_string().contains("names no column; write it like \"Suction (psi)=low [psi]\""), "{none}");
    // what begins like a column and has no unit may be one, and is asked about
    let said = read_gauges::log::read(&b"low [psi],vent fan\n32,1\n"[..], Vec::new(), Vec::new(), &args(&READING[..2]));
    let said = said.unwrap_err().to_string();
    assert!(said.contains("\"fan\" in \"vent fan\"") && said.contains("--columns \"vent fan=note\""), "{said}");
    let noted = args(&["--refrigerant", "R-134a", "--log", "x", "--columns", "vent fan=note"]);
    assert!(read_gauges::log::read(&b"low [psi],vent fan\n32,1\n"[..], Vec::new(), Vec::new(), &noted).is_ok());
    // a hold test has the same
    let rows: String = (0..8).map(|minute| format!("{minute},{},x\n", 500 + 120 * minute)).collect();
    let other = format!("time [min],Sensor 1,who\n{rows}");
    let said = held(other.as_bytes(), &[]).unwrap_err();
    assert!(
        said.contains("column absolute, gauge or vacuum is missing")
            && said.contains("--columns \"Sensor 1=absolute [micron]\""),
        "{said}"
    );
    let answer = held(other.as_bytes(), &["--csv", "x", "--columns", "Sensor 1=absolute [micron]"]).unwrap();
    assert!(answer.page.starts_with("Hold test: 8 readings") && answer.left_out == 0, "{answer:?}");
    assert!(answer.complaints.starts_with("line 1: columns left aside: \"who\"; "), "{}", answer.complaints);
}

#[test]
fn a_log_of_one_gauge_or_of_lines_is_read() {
    let (out, errors, answered, bad) = log("low [psi],ambient [°F]\n32,86\n12,86\n", &["--refrigerant", "R-134a"]);
    assert_eq!((answered, bad), (2, 0), "{errors}");
    assert!(out.starts_with("line 2: low within") && out.contains("line 3: low below"), "{out}");
    let text = "low [psi],discharge line [°F],duty cycle [%],ambient [°F]\n22,190,40,86\n";
    let (out, errors, answered, bad) = log(text, &["--refrigerant", "R-134a", "--log", "x", "--causes"]);
    assert_eq!((answered, bad), (1, 0), "{errors}");
    assert!(out.contains(" %)"), "{out}");
    let (.., bad) = log("low [psi],high [psi]\n,180\n", &["--refrigerant", "R-134a"]);
    assert_eq!(bad, 1, "a gauge that the log has is read in every row");
    let none =
        read_gauges::log::read(&b"ambient [F]\n86\n"[..], Vec::new(), Vec::new(), &args(&["--refrigerant", "R-134a"]));
    assert!(none.unwrap_err().to_string().starts_with("a column of what was measured is missing"));
}

#[test]
fn flags_that_would_be_ignored_are_refused() {
    let said = read_gauges::one(&args(&[&READING[..], &["--causes"]].concat())).unwrap_err().to_string();
    assert!(said.starts_with("--causes belongs to a log, given as --log"), "{said}");
    assert!(healthy_windows::Args::try_parse_from(["healthy_windows"]).is_ok());
    for word in ["R-134a", "--refrigerant", "--ambient"] {
        assert!(healthy_windows::Args::try_parse_from(["healthy_windows", word]).is_err(), "{word}");
    }
}
