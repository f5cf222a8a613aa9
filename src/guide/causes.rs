//! Causes: which fault explains a reading, with what probability.
//!
//! # Probability of causes
//!
//! A cause is a change of the modelled car: charge missing, air inside, a passage closed. The crate runs cars with each
//! cause, of every size, on your day. Then it asks under which of them your reading is likely. Before the reading every
//! cause counts the same, as nobody publishes how often each brings a car in; [`Prior`](crate::diagnosis::Prior) takes
//! your own weights. A probability here is one among the causes modelled. It is not proof.
//!
//! # Why two gauges are not enough
//!
//! Take an invented car: R-134a, thermostatic valve, cycling clutch, 30 °C and 50 % humidity, digital instruments, 1.1
//! bar and 10.0 bar. That it is healthy has a chance below 1 %. But what is it? A passage closed before the evaporator
//! has 42 %: the liquid line, the valve, or ice in it; no number tells these three apart, so they count together. An
//! evaporator iced over has 22 %, charge too low 15 %. Two numbers cannot separate the 21 causes that are compared.
//!
//! Now clamp a thermometer on the suction line: 22 °C. The iced evaporator falls below 1 %, since iced cars have a cold
//! line. The closed passage has 58 %, charge too low, alone or together with another fault, 41 %. Both starve the
//! evaporator, and that is what was measured. With the liquid line at 40 °C and the vent at 18 °C charge too low pulls
//! ahead: 63 %. Whether air is inside too is not settled: 30 % with it, 22 % without any second fault. Read such shares
//! with a grain of salt: a change of the car that may be the one is judged by 150 simulated cars. With 1200 charge too low
//! has 69 %.
//!
//! ```
//! use satline::Refrigerant;
//! use satline::diagnosis::{
//!     CARS, Channel, Evidence, ICING, Interpretation, Prior, Reference, UNDERCHARGE, interpret,
//! };
//! use satline::circuit::{Settings, CircuitKind};
//! use satline::window::{Engine, Entry, Instruments};
//! let r = Refrigerant::R134a;
//! let gauges = Entry {
//!     ambient: Some("30 °C".parse()?),
//!     humidity: Some("50 %".parse()?),
//!     ..Entry::gauges("1.1 bar".parse()?, "10.0 bar".parse()?)
//! };
//! let suction = Entry { suction_line: Some("22 °C".parse()?), ..gauges };
//! let all = Entry { liquid_line: Some("40 °C".parse()?), vent: Some("18 °C".parse()?), ..suction };
//! let read = |entry: Entry| entry.reading(r, Engine::Running, &Instruments::digital(r));
//! let (kinds, day) = (CircuitKind::main(r), [read(gauges)?.day(Settings::TEST).unwrap()]);
//! let cars = Reference::new(&kinds[..1], &day)?;
//! let explain = |entry| interpret(&Evidence::of(&read(entry)?)?, &cars, &Prior::flat());
//! let (two, three, five) = (explain(gauges)?, explain(suction)?, explain(all)?);
//! let percent = |p: f64| format!("{:.0} %", 100.0 * p);
//! let led = |answer: &Interpretation, n: usize| {
//!     let group = &answer.groups()[n];
//!     (group.findings[0].cause.id, group.findings.len(), percent(group.probability))
//! };
//! let low = |answer: &Interpretation| percent(answer.alone_or_with(&UNDERCHARGE));
//! assert_eq!(two.findings.len(), 21);
//! assert!(two.healthy() < 0.01); // 1 %
//! assert_eq!(led(&two, 0), ("liquid-restriction", 3, "42 %".to_owned()));
//! assert_eq!(led(&two, 1), ("icing", 1, "22 %".to_owned()));
//! assert_eq!(led(&two, 2), ("undercharge", 1, "15 %".to_owned()));
//! assert_eq!((led(&three, 0).2, low(&three)), ("58 %".to_owned(), "41 %".to_owned()));
//! assert!(three.alone_or_with(&ICING) < 0.01);
//! assert_eq!((led(&five, 1).0, led(&five, 1).2), ("undercharge-with-air", "30 %".to_owned()));
//! assert_eq!((led(&five, 2).0, led(&five, 2).2), ("undercharge", "22 %".to_owned()));
//! let many = Reference::with_cars(&kinds[..1], &day, 8 * CARS)?;
//! let finer = interpret(&Evidence::of(&read(all)?)?, &many, &Prior::flat())?;
//! assert_eq!((CARS, 8 * CARS), (150, 1200));
//! assert_eq!([low(&five), low(&finer)], ["63 %", "69 %"]);
//!
//! // each quantity multiplies the odds against no fault by its factor
//! let first = two.findings.iter().find(|finding| finding.cause.id == "undercharge").unwrap();
//! let factors: Vec<String> = first.predicted.iter().map(|p| format!("{:.0}", p.factor)).collect();
//! assert_eq!(factors, ["92", "12"]);
//! let odds: f64 = first.predicted.iter().map(|p| p.factor).product();
//! assert!((first.probability / two.healthy() / (odds * first.shows) - 1.0).abs() < 1e-9);
//!
//! // what the next measurement is worth
//! let worth = |answer: &Interpretation, n: usize| (answer.next[n].channel, format!("{:.1}", answer.next[n].bits));
//! assert_eq!(worth(&two, 0), (Channel::Recovered, "1.0".to_owned()));
//! assert_eq!(worth(&two, 2), (Channel::Vent, "0.9".to_owned()));
//! assert_eq!(worth(&five, 0), (Channel::Recovered, "1.0".to_owned()));
//! assert_eq!(worth(&five, 1), (Channel::DischargeLine, "0.3".to_owned()));
//! assert_eq!(worth(&five, 3), (Channel::AtRest, "0.0".to_owned()));
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # How evidence adds up
//!
//! Each measured quantity has a factor: how many times likelier it is under the cause than with no fault. Factors
//! multiply, and with the share of the cause's cars in which it shows they are the odds against no fault. For charge too
//! low the low side brings 92 and the high side 12.
//!
//! # What the next measurement buys
//!
//! It is counted in bits: one bit halves the field. With the gauges alone, recovering the charge and weighing it is worth
//! 1.0 bits. The vent is worth 0.9 and costs a look. With five quantities the weighed charge is still worth 1.0, the
//! discharge line 0.3. The pressure at rest is worth nothing here: while liquid is left it does not depend on how much
//! ([`rest`](super::rest)), and the little air that fits these numbers would hardly show. What settles this car is to
//! recover the charge and weigh it.
//!
//! # How often it is right
//!
//! On simulated cars it had not seen, the first cause was right in 39 % with two gauges, in 79 % with every line, the
//! clutch timed, the pressure at rest and all of it once more at 1500 1/min, and in 86 % with the charge recovered and
//! weighed as well; among the first three in 66, 93 and 96 %. Of healthy cars 3.2 %, 1.2 % and 1.1 % were called faulty.
//! Causes that change nothing measured are not counted. Of cars of a wrong model, as real ones will be, statements of the
//! same kind came true within 6 points of what was stated in every bin of 100 or more, and within 7 of cars of the model
//! itself; of both together, as nobody knows which a car follows, within 5. Against printed fault charts, by two
//! gauges alone, a cause most sources list was among the first three in 25 of 27 cases, and all 5 rows of service tables
//! with numbers had theirs among the first two. No measured car with a known fault could be found, so how it does on real
//! cars is not known. `tables/DIAGNOSIS.md` has the rows.
//!
//! ```
//! # let page = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/tables/DIAGNOSIS.md"));
//! let row = |what: &str| page.lines().find(|line| line.starts_with(what)).unwrap();
//! assert!(row("| two gauges and ambient | right").contains("| 39 % | 66 % | 3.2 % |"));
//! assert!(row("| and all of it once more at 1500 1/min | right").contains("| 79 % | 93 % | 1.2 % |"));
//! assert!(row("| and the charge, recovered and weighed | right").contains("| 86 % | 96 % | 1.1 % |"));
//! assert!(page.contains("25 of 27, 93 %; the aim is 90 %") && page.contains("\n5 of 5."));
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
//! assert_eq!(apart("wrong model |"), (Some(-5), Some(6)));
//! assert_eq!(apart("right model |"), (Some(-6), Some(7)));
//! assert_eq!(apart("either model |"), (Some(-5), Some(4)));
//! ```
//!
//! **Mind** The next check may be at a belt, a fan, a hot discharge line or a high-voltage compressor. Each
//! [`Cause`](crate::diagnosis::Cause) carries its own caution; show it with the check.
//!
//! # Exercises
//!
//! 1. Two causes are equally likely. A vent reading is 6 times likelier under the first. What is its probability now?
//! 2. A third cause joins them, equally likely before, under which the reading is as likely as under the second. And
//!    now?
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
