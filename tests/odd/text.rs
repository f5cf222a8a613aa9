//! Texts that nobody means: pieces of valid ones put together wrongly, with characters and numbers that readers stumble over.

use super::Random;

/// How many cases a test tries: `usual`, times `SATLINE_TEXTS` where that is set.
pub fn cases(usual: u64) -> std::ops::Range<u64> {
    let times = std::env::var("SATLINE_TEXTS");
    0..usual * times.map_or(1, |times| times.parse::<u64>().expect("SATLINE_TEXTS is a number"))
}

/// Random numbers of case `case`, unlike those of its neighbours.
pub fn random(case: u64) -> Random {
    Random(case.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x5851_f42d_4c95_7f2d)
}

/// Characters and words that readers of text stumble over.
const ODD: [&str; 54] = [
    "\0",
    "\u{feff}",
    "\u{200f}",
    "\u{301}",
    "\u{a0}",
    "\u{2028}",
    "\u{10ffff}",
    "\u{fffd}",
    "\r\n",
    "\n",
    "\t",
    "\u{1b}[2J",
    // digits, signs and letters that only look like those meant, and a letter that grows when it is made small
    "−",
    "–",
    "—",
    "±",
    "１２",
    "٣",
    "½",
    "²",
    "µ",
    "μ",
    "K",
    "ſ",
    "İ",
    "ß",
    "ﬀ",
    "º",
    "🚗",
    "👩‍🔧",
    "\"",
    "'",
    ",",
    ";",
    "=",
    "#",
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    ":",
    "\\",
    "\\u0000",
    "\\ud800",
    "/",
    " to ",
    "+/-",
    "null",
    "true",
    "nan",
    "-inf",
    "e",
];

/// Numbers at the ends of what can be computed, and beyond.
const NUMBERS: [&str; 24] = [
    "0",
    "-0",
    "1",
    "-1",
    "0.1",
    "1e308",
    "1e309",
    "-1e999",
    "1e-308",
    "5e-324",
    "1e-999",
    "1e150",
    "1e151",
    "1e-300",
    "1e-301",
    "0e99999999999999999999",
    "1e-99999999999999999999",
    "1e-9223372036854775808",
    "9007199254740993",
    "18446744073709551616",
    "0.1000000000000000055511151231257827",
    "1,5",
    "1,500",
    ".5",
];

/// More characters than any text that is meant; what grows beyond is cut off.
const LONGEST: usize = 20_000;

/// One of `of`.
pub fn one_of<'a, T: ?Sized>(random: &mut Random, of: &[&'a T]) -> &'a T {
    of[below(random, of.len())]
}

/// A number below `end`.
pub fn below(random: &mut Random, end: usize) -> usize {
    (random.bits() % end.max(1) as u64) as usize
}

/// A text like one of `valid`, with none to four things wrong.
pub fn odd_text(random: &mut Random, valid: &[&str]) -> String {
    let mut text: Vec<char> = one_of(random, valid).chars().collect();
    for _ in 0..below(random, 5) {
        change(random, &mut text, valid);
        text.truncate(LONGEST);
    }
    text.into_iter().collect()
}

/// The same as bytes, some of which may be no text.
pub fn odd_bytes(random: &mut Random, valid: &[&str]) -> Vec<u8> {
    let mut bytes = odd_text(random, valid).into_bytes();
    for _ in 0..below(random, 3) {
        let at = below(random, bytes.len() + 1);
        bytes.splice(at..at, (0..below(random, 4)).map(|_| random.bits() as u8));
    }
    bytes
}

/// A piece of `of`, mostly a short one.
fn piece(random: &mut Random, of: &[char]) -> std::ops::Range<usize> {
    let from = below(random, of.len() + 1);
    let most = if random.bits().is_multiple_of(4) { of.len() } else { 8 };
    from..(from + below(random, most + 1)).min(of.len())
}

fn change(random: &mut Random, text: &mut Vec<char>, valid: &[&str]) {
    let place = piece(random, text);
    let other: Vec<char> = one_of(random, valid).chars().collect();
    match random.bits() % 12 {
        0 => drop(text.drain(place)),
        1 => {
            let times = [2, 3, 300][below(random, 3)];
            let repeated: Vec<char> = text[place.clone()].iter().copied().cycle().take(place.len() * times).collect();
            text.splice(place, repeated);
        }
        2 => {
            text.truncate(place.start);
            text.extend(&other[below(random, other.len() + 1)..]);
        }
        3 => drop(text.splice(place, other)),
        4 | 5 => drop(text.splice(place.start..place.start, one_of(random, &ODD).chars())),
        6 => drop(text.splice(place, char::from_u32(random.bits() as u32 & 0x1f_ffff))),
        7 => text.reverse(),
        8 => {
            let long = [one_of(random, &["9", "0", "0.", "(", "{\"a\":", "[", "\"", ","]), "0"][below(random, 2)];
            text.splice(place.start..place.start, long.repeat(below(random, 700)).chars());
        }
        9 => {
            let cased: Vec<char> = if random.bits().is_multiple_of(2) {
                text.iter().flat_map(|c| c.to_uppercase()).collect()
            } else {
                text.iter().flat_map(|c| c.to_lowercase()).collect()
            };
            *text = cased;
        }
        _ => {
            // a number by another number
            let digits: Vec<usize> = (0..text.len()).filter(|&at| text[at].is_ascii_digit()).collect();
            if digits.is_empty() {
                return;
            }
            let from = digits[below(random, digits.len())];
            let length = text[from..].iter().take_while(|c| c.is_ascii_digit() || **c == '.').count();
            let number = match random.bits() % 4 {
                0 => format!("{}", random.spread(1e-3, 1e4)),
                1 => format!("{:.2}", random.between(-100.0, 300.0)),
                _ => one_of(random, &NUMBERS).to_owned(),
            };
            text.splice(from..from + length, number.chars());
        }
    }
}
