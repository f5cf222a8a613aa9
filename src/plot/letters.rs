//! Text styles: sizes, widths of words, line breaks.

/// A text style.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Letters {
    /// The heading of a picture.
    Head,
    /// Labels of content.
    Plain,
    /// Tick labels and titles of axes, names of regions.
    Soft,
    /// Sources and remarks below the picture.
    Small,
}

/// Alignment of a line of words with its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Align {
    Start,
    Middle,
    End,
}

impl Letters {
    /// Font size in units of the canvas.
    pub(super) const fn size(self) -> f64 {
        match self {
            Self::Head => 14.0,
            Self::Plain | Self::Soft => 12.5,
            Self::Small => 11.0,
        }
    }

    /// From baseline to baseline.
    pub(super) const fn leading(self) -> f64 {
        1.25 * self.size()
    }

    pub(super) const fn class(self, align: Align) -> &'static str {
        match (self, align) {
            (Self::Head, Align::Start) => "sl-t sl-h",
            (Self::Head, Align::Middle) => "sl-t sl-h sl-mid",
            (Self::Head, Align::End) => "sl-t sl-h sl-end",
            (Self::Plain, Align::Start) => "sl-t",
            (Self::Plain, Align::Middle) => "sl-t sl-mid",
            (Self::Plain, Align::End) => "sl-t sl-end",
            (Self::Soft, Align::Start) => "sl-t sl-soft",
            (Self::Soft, Align::Middle) => "sl-t sl-soft sl-mid",
            (Self::Soft, Align::End) => "sl-t sl-soft sl-end",
            (Self::Small, Align::Start) => "sl-t sl-small",
            (Self::Small, Align::Middle) => "sl-t sl-small sl-mid",
            (Self::Small, Align::End) => "sl-t sl-small sl-end",
        }
    }

    /// An upper bound for the width of `words`, whatever sans-serif font the reader has.
    ///
    /// From grouped widths of a wide font (DejaVu Sans, relative to its size, from memory).
    pub(super) fn width(self, words: &str) -> f64 {
        let em: f64 = words.chars().map(em).sum();
        let bold = if self == Self::Head { 1.13 } else { 1.0 };
        em * bold * self.size()
    }

    /// `sentence` broken at blanks into lines no wider than `width`; a longer word is broken inside.
    pub(super) fn wrapped(self, sentence: &str, width: f64) -> Vec<String> {
        let mut lines = vec![String::new()];
        for word in sentence.split_whitespace() {
            let Some(last) = lines.last_mut() else { break };
            let longer = if last.is_empty() { word.to_owned() } else { format!("{last} {word}") };
            if self.width(&longer) <= width {
                *last = longer;
                continue;
            }
            let mut rest = String::new();
            for c in word.chars() {
                rest.push(c);
                if self.width(&rest) > width && rest.chars().count() > 1 {
                    rest.pop();
                    lines.push(std::mem::take(&mut rest));
                    rest.push(c);
                }
            }
            lines.push(rest);
        }
        lines.retain(|line| !line.is_empty());
        lines
    }
}

/// Width of one character relative to the font size.
fn em(c: char) -> f64 {
    match c {
        'i' | 'í' | 'j' | 'l' | 'I' | '\'' | '|' => 0.30,
        ' ' | '\u{202f}' | '.' | ',' | ':' | ';' | '!' | 'f' | 't' | 'r' | '(' | ')' | '[' | ']' | '-' | '/' | '·'
        | '"' => 0.42,
        'c' | 's' | 'z' | 'k' | 'v' | 'x' | 'y' | '°' | '?' | '¿' | '²' | '³' | 'ª' => 0.60,
        'm' | 'M' | 'W' | '%' | '—' | '…' | '@' | '⁻' => 1.0,
        'w' | '±' | '−' | '×' | '=' | '+' | '<' | '>' | '≈' | '–' | '→' | '≥' | '≤' => 0.84,
        'A'..='Z' => 0.80,
        'a'..='z' | '0'..='9' | 'á' | 'é' | 'ó' | 'ú' | 'ñ' | '«' | '»' => 0.64,
        _ => 1.0,
    }
}

#[cfg(test)]
mod tests {
    use super::Letters;

    #[test]
    fn no_line_is_wider_than_asked_and_no_word_is_lost() {
        let sentence = "Between bubble and dew line liquid and vapour are both present, incomprehensibilities aside.";
        for width in [40.0, 75.0, 120.0, 400.0] {
            let lines = Letters::Small.wrapped(sentence, width);
            assert!(lines.iter().all(|line| Letters::Small.width(line) <= width), "{lines:?}");
            let letters = |text: &str| text.chars().filter(|c| !c.is_whitespace()).collect::<String>();
            assert_eq!(letters(&lines.concat()), letters(sentence));
        }
        assert!(Letters::Plain.wrapped("", 100.0).is_empty());
    }
}
