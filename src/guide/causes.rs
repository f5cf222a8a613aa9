//! Causes: which fault explains a reading, and with what probability.
//!
//! # Probability of causes
//!
//! A cause is a change of the modelled circuit: an undercharge, air inside, a blocked passage. The crate simulates
//! circuits with each cause, over its range of severity, on your day. Then it computes how likely your reading is
//! under each of them. The usual prior follows two surveys of workshops, [`Prior`](crate::diagnosis::Prior) takes your
//! own weights, and here every cause is equally likely, so that the numbers show what the readings alone say. The
//! result is a posterior probability among the causes modelled. It is not proof.
//!
//! # Why two gauges are not enough
//!
//! Consider an invented car: R-134a, thermostatic valve, cycling clutch, 30 °C and 50 % humidity, digital instruments,
//! 1.1 bar and 10.0 bar. The probability that it is healthy is below 1 %. But what is wrong? A restriction before the
//! evaporator has 39 %: the liquid line, the valve, or ice in it. No measurement distinguishes these three, so they
//! form one ambiguity group. An iced evaporator has 20 %, undercharge 16 %. Two numbers cannot separate the 24 causes
//! compared.
//!
//! Now clamp a thermometer on the suction line: 22 °C. The iced evaporator falls below 1 %, because icing makes the
//! suction line cold. The restriction has 50 %, undercharge, alone or together with another fault, as much. Both starve
//! the evaporator, and a starved evaporator is what was measured. With the liquid line at 40 °C and the vent at 18 °C
//! undercharge leads: 60 %, against 39 % for the restriction. Whether there is also air inside remains open: 32 % with it,
//! 21 % without any second fault. The charge recovered and weighed would decide. Such percentages are approximate: each
//! leading cause is evaluated on 150 simulated circuits. With 1200 the marginal probability of undercharge is 57 %.
//!
//! ```
//! use approx::assert_abs_diff_eq;
//! use satline::Refrigerant;
//! use satline::circuit::{CircuitKind, Settings};
//! use satline::diagnosis::{CauseId, Posterior, Prior, REFERENCE_CIRCUITS, Reference, diagnose};
//! use satline::inspection::{Entry, Inspection, Instruments, Measurand};
//! let r = Refrigerant::R134a;
//! let gauges = Entry::gauges("1.1 bar".parse()?, "10.0 bar".parse()?)
//!     .ambient("30 °C".parse()?)
//!     .humidity("50 %".parse()?);
//! let suction = gauges.enter(Measurand::SuctionLine, "22 °C")?;
//! let all = suction.enter(Measurand::LiquidLine, "40 °C")?.enter(Measurand::Vent, "18 °C")?;
//! let inspected = |entry: Entry| {
//!     let reading = entry.reading(r, Settings::TEST, &Instruments::digital(r))?;
//!     Inspection::of(reading).with_kinds(vec![CircuitKind::main(r)[0]])
//! };
//! let cars = Reference::of(&inspected(gauges)?)?;
//! let explain = |entry| diagnose(&inspected(entry)?, &cars, &Prior::uniform());
//! let (two, three, five) = (explain(gauges)?, explain(suction)?, explain(all)?);
//! let percent = |p: f64| format!("{:.0} %", 100.0 * p);
//! let led = |answer: &Posterior, n: usize| {
//!     let group = &answer.groups()[n];
//!     (group.causes[0].cause.as_str(), group.causes.len(), percent(group.probability))
//! };
//! let low = |answer: &Posterior| percent(answer.marginal_probability(CauseId::Undercharge));
//! assert_eq!(two.causes.len(), 24);
//! assert!(two.healthy() < 0.01); // 1 %
//! assert_eq!(led(&two, 0), ("liquid-restriction", 3, "39 %".to_owned()));
//! assert_eq!(led(&two, 1), ("icing", 1, "20 %".to_owned()));
//! assert_eq!(led(&two, 2), ("undercharge", 1, "16 %".to_owned()));
//! assert_eq!((led(&three, 0).2, low(&three)), ("50 %".to_owned(), "50 %".to_owned()));
//! assert!(three.marginal_probability(CauseId::Icing) < 0.01);
//! assert_eq!((led(&five, 0).0, led(&five, 0).2), ("liquid-restriction", "39 %".to_owned()));
//! assert_eq!((led(&five, 1).0, led(&five, 1).2), ("undercharge-with-air", "32 %".to_owned()));
//! assert_eq!((led(&five, 2).0, led(&five, 2).2), ("undercharge", "21 %".to_owned()));
//! let many = Reference::with_circuits(&inspected(all)?, 8 * REFERENCE_CIRCUITS)?;
//! let finer = diagnose(&inspected(all)?, &many, &Prior::uniform())?;
//! assert_eq!((REFERENCE_CIRCUITS, 8 * REFERENCE_CIRCUITS), (150, 1200));
//! assert_eq!([low(&five), low(&finer)], ["60 %", "57 %"]);
//!
//! // each quantity multiplies the odds against no fault by its factor
//! let first = two.cause(CauseId::Undercharge).unwrap();
//! let factors: Vec<String> = first.predicted.iter().map(|p| format!("{:.0}", p.bayes_factor)).collect();
//! assert_eq!(factors, ["22", "6"]);
//! let odds: f64 = first.predicted.iter().map(|p| p.bayes_factor).product();
//! let no_fault = two.healthy() - two.hidden();
//! // rounding
//! assert_abs_diff_eq!(first.probability / no_fault / (odds * first.detectable_fraction), 1.0, epsilon = 1e-9);
//!
//! // what the next measurement is worth
//! let worth = |answer: &Posterior, n: usize| (answer.next[n].measurand, format!("{:.1}", answer.next[n].information_bits));
//! assert_eq!(worth(&two, 0), (Measurand::RecoveredCharge, "1.0".to_owned()));
//! assert_eq!(worth(&two, 1), (Measurand::Vent, "1.0".to_owned()));
//! assert_eq!(worth(&five, 0), (Measurand::RecoveredCharge, "1.0".to_owned()));
//! assert_eq!(worth(&five, 1), (Measurand::DischargeLine, "0.1".to_owned()));
//! assert_eq!(worth(&five, 3), (Measurand::EqualisedPressure, "0.0".to_owned()));
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # How evidence adds up
//!
//! Each measured quantity has a Bayes factor: how many times more likely the value is under the cause than without a
//! fault. The factors multiply; times the fraction of circuits in which the cause is detectable, they give the odds
//! against no fault. For undercharge the low side contributes 22 and the high side 6.
//!
//! A fault that would not show in what was measured is neither supported nor ruled out: to no fault it keeps the ratio of the
//! prior ([`Posterior::hidden`](crate::diagnosis::Posterior::hidden)).
//!
//! # What the next measurement is worth
//!
//! The value of a measurement is its expected information in bits: one bit halves the field of causes. After the
//! gauges alone, recovering and weighing the charge is worth 1.0 bit. The vent is worth as much and takes only a look.
//! With five quantities measured, the weighed charge is still worth 1.0, the discharge line 0.1. The equalised
//! pressure is worth nothing here: as long as liquid is left it does not depend on the charge ([`rest`](super::rest)),
//! and the little air that fits these readings would hardly show. To settle this case, recover the charge and weigh
//! it.
//!
//! # How often it is right
//!
//! On simulated circuits not used as reference, the most probable cause was right in 31 % with two gauges, in 76 %
//! with every line, the clutch timed, the equalised pressure and all of it again at 1500 rpm, and in 82 % with the
//! charge recovered and weighed as well. The true cause was among the first three in 61, 92 and 94 %. Of healthy
//! circuits 0.9 %, 1.5 % and 1.2 % were called faulty. Undetectable causes are not counted. Real cars differ from the
//! model, so the calibration was also tested on circuits of a deliberately wrong model. In every bin of 100 or more
//! statements, the observed frequency was within 13 points of the stated probability for the wrong model and within 15
//! for the right one, mostly on the careful side: a statement leaves room for cars that lie off as far as printed ones. As a
//! workshop meets them, kind of circuit, humidity and exact ambient unknown, analogue gauges and causes as often as in workshops,
//! 53 % were right by two gauges, 69 % with both lines and the vent, and 80 % with the charge weighed, no fault included. Against printed
//! fault charts, by two gauges alone, a cause that most sources list was among the first three in 33 of 39 cases, and
//! all 5 rows of service tables with numbers had theirs among the first two. No measured car with a known fault could
//! be found, so the accuracy on real cars is not known. `tables/DIAGNOSIS.md` has the rows.
//!
//! ```
//! # let page = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/tables/DIAGNOSIS.md"));
//! let row = |what: &str| page.lines().find(|line| line.starts_with(what)).unwrap();
//! assert!(row("| two gauges and ambient | right").contains("| 31 % | 61 % | 0.9 % |"));
//! assert!(row("| and all of it once more at 1500 rpm | right").contains("| 76 % | 92 % | 1.5 % |"));
//! assert!(row("| and the charge, recovered and weighed | right").contains("| 82 % | 94 % | 1.2 % |"));
//! assert!(page.contains("33 of 39, 85 %; the aim is 90 %") && page.contains("\n5 of 5."));
//! // cells of the table of statements: "stated/came true (how many)"
//! let apart = |model: &str| {
//!     let rows = page.lines().filter(|line| line.contains(model));
//!     let cells = rows.flat_map(|line| line.split('|')).filter_map(|cell| cell.trim().strip_suffix(')'));
//!     let read = |cell: &str| {
//!         let (pair, count) = cell.split_once(" (")?;
//!         let (stated, came) = pair.split_once('/')?;
//!         let [Ok(stated), Ok(came), Ok(count)] = [stated, came, count].map(str::parse::<i32>) else { return None };
//!         (count >= 100).then_some(came - stated)
//!     };
//!     let all: Vec<i32> = cells.filter_map(read).collect();
//!     (all.iter().copied().min(), all.iter().copied().max())
//! };
//! assert_eq!(apart("wrong model |"), (Some(-7), Some(13)));
//! assert_eq!(apart("right model |"), (Some(-5), Some(15)));
//! for (step, share) in [("two gauges and ambient", "53 %"), ("and both lines and the vent", "69 %"), ("and the equalised", "80 %")] {
//!     let found = |line: &&str| ["| as in workshops |", step, "all three"].iter().all(|part| line.contains(part));
//!     let row = page.lines().find(found);
//!     assert!(row.unwrap().contains(share), "{step}");
//! }
//! ```
//!
//! **Safety** The next check may be at a belt, a fan, a hot discharge line or a high-voltage compressor. Each
//! cause carries its own caution, [`CauseTexts::caution`](crate::report::CauseTexts::caution); show it with the check.
//!
//! # Exercises
//!
//! 1. Two causes are equally probable. A vent reading is 6 times more likely under the first. What is its probability
//!    now?
//! 2. A third cause joins them, with the same prior, and the reading is as likely under it as under the second. What
//!    is the probability of the first now?
//!
//! # Answers
//!
//! 1. 86 %: odds of 6 to 1.
//! 2. 75 %: 6 of 8 parts.
//!
//! <details><summary>The working</summary>
//!
//! ```
//! let share = |first: f64, others: f64| format!("{:.0} %", 100.0 * first / (first + others));
//! assert_eq!(share(6.0, 1.0), "86 %");
//! assert_eq!((share(6.0, 2.0), 6 + 2), ("75 %".to_owned(), 8));
//! ```
//!
//! </details>
