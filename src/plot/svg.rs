//! SVG elements as text, with rounded numbers and escaped words.

use std::fmt::Write as _;

/// A place on the canvas, in its units, y downwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Point {
    pub(super) x: f64,
    pub(super) y: f64,
}

/// `x` with at most two decimals, without trailing zeros or a negative zero.
pub(super) fn number(x: f64) -> String {
    let text = format!("{x:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// `text` escaped for character data and attributes; characters that XML does not allow become a blank.
pub(super) fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

/// A sequence of elements.
#[derive(Debug, Default)]
pub(super) struct Svg {
    text: String,
}

impl Svg {
    pub(super) fn into_text(self) -> String {
        self.text
    }

    fn put(&mut self, element: std::fmt::Arguments) {
        // writing to a string does not fail
        let _ = self.text.write_fmt(element);
        self.text.push('\n');
    }

    pub(super) fn line(&mut self, class: &str, from: Point, to: Point) {
        let [x1, y1, x2, y2] = [from.x, from.y, to.x, to.y].map(number);
        self.put(format_args!(r#"<line class="{class}" x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}"/>"#));
    }

    pub(super) fn rect(&mut self, class: &str, from: Point, width: f64, height: f64) {
        let [x, y, w, h] = [from.x, from.y, width, height].map(number);
        self.put(format_args!(r#"<rect class="{class}" x="{x}" y="{y}" width="{w}" height="{h}"/>"#));
    }

    /// A line through `points`, or the shape they enclose.
    pub(super) fn path(&mut self, class: &str, points: &[Point], closed: bool) {
        let mut d = String::new();
        for (i, p) in points.iter().enumerate() {
            d += if i == 0 { "M" } else { " " };
            d += &format!("{},{}", number(p.x), number(p.y));
        }
        if closed {
            d.push('Z');
        }
        self.put(format_args!(r#"<path class="{class}" d="{d}"/>"#));
    }

    pub(super) fn circle(&mut self, class: &str, centre: Point, radius: f64) {
        let [x, y, r] = [centre.x, centre.y, radius].map(number);
        self.put(format_args!(r#"<circle class="{class}" cx="{x}" cy="{y}" r="{r}"/>"#));
    }

    /// One line of words, its baseline at `at`.
    pub(super) fn text(&mut self, class: &str, at: Point, words: &str) {
        let [x, y] = [at.x, at.y].map(number);
        let words = escape(words);
        self.put(format_args!(r#"<text class="{class}" x="{x}" y="{y}">{words}</text>"#));
    }
}

#[cfg(test)]
mod tests {
    use super::{escape, number};

    #[test]
    fn numbers_are_short_and_have_no_negative_zero() {
        let cases = [(1.0, "1"), (-0.001, "0"), (0.125, "0.12"), (10.0, "10"), (-3.456, "-3.46"), (100.5, "100.5")];
        for (x, text) in cases {
            assert_eq!(number(x), text);
        }
    }

    #[test]
    fn what_xml_takes_for_marks_is_escaped() {
        assert_eq!(escape("a<b & \"c\" 'd'>\u{7}"), "a&lt;b &amp; &quot;c&quot; &#39;d&#39;&gt; ");
    }
}
