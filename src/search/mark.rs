//! How marks are compared. A mark keeps its sign, for `A+` and `A-` are different screws; what people write
//! differently is folded: case, the kind of dash, separators inside it, noughts before a number, O for 0, and the end
//! at which the sign stands.

/// Which side of the supply a mark names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sign {
    /// `+`
    Plus,
    /// `-`
    Minus,
}

impl Sign {
    /// The sign of this character.
    #[must_use]
    pub fn of(sign: char) -> Option<Self> {
        match sign {
            '+' => Some(Self::Plus),
            '-' => Some(Self::Minus),
            _ => None,
        }
    }

    /// How it is written.
    #[must_use]
    pub fn symbol(self) -> char {
        match self {
            Self::Plus => '+',
            Self::Minus => '-',
        }
    }

    /// How it is said.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Plus => "positive",
            Self::Minus => "negative",
        }
    }

    /// The other one.
    #[must_use]
    pub fn opposite(self) -> Self {
        match self {
            Self::Plus => Self::Minus,
            Self::Minus => Self::Plus,
        }
    }

    /// The sign that a word of a question says, if it says nothing else.
    pub(super) fn said(word: &str) -> Option<Self> {
        match word {
            "+" | "+ve" | "plus" | "positive" | "pos" => Some(Self::Plus),
            "-" | "-ve" | "minus" | "negative" | "neg" => Some(Self::Minus),
            _ => None,
        }
    }
}

/// A mark as it is compared: what is left of it without its sign, and the sign.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Key {
    /// Letters and digits; empty when there are none.
    pub(super) base: String,
    /// Its sign.
    pub(super) sign: Option<Sign>,
}

impl Key {
    /// The whole of it in one word, the sign at its end.
    pub(super) fn whole(&self) -> String {
        let mut whole = self.base.clone();
        whole.extend(self.sign.map(Sign::symbol));
        whole
    }
}

/// A text in lower case, with one kind of dash and no spaces: what is printed, and nothing folded that could tell two
/// screws apart.
pub(super) fn printed(text: &str) -> String {
    let lower = text.chars().flat_map(char::to_lowercase);
    lower.map(one_dash).filter(|c| !c.is_whitespace() && !c.is_control()).collect()
}

/// How a mark is compared. A mark of other signs alone (`~`) stays what it is.
pub(super) fn key(mark: &str) -> Key {
    let printed = printed(mark);
    let (rest, sign) = split(&printed);
    let base = plain(rest);
    if base.is_empty() && sign.is_none() {
        return Key { base: printed, sign };
    }
    Key { base, sign }
}

/// The text before or behind a sign that stands at an end, and that sign.
fn split(printed: &str) -> (&str, Option<Sign>) {
    let ends = [("+ve", Sign::Plus), ("-ve", Sign::Minus), ("+", Sign::Plus), ("-", Sign::Minus)];
    for (end, sign) in ends {
        if let Some(rest) = printed.strip_suffix(end) {
            return (rest, Some(sign));
        }
    }
    let first = printed.chars().next().and_then(Sign::of);
    first.map_or((printed, None), |sign| (printed.get(1..).unwrap_or_default(), Some(sign)))
}

/// Letters and digits alone, `z01` as `z1` and O as 0.
fn plain(text: &str) -> String {
    let letters: Vec<char> = text.chars().filter(|c| c.is_alphanumeric()).collect();
    let mut plain = String::with_capacity(text.len());
    let mut after_letter = false;
    for (at, c) in letters.iter().copied().enumerate() {
        let more = letters.get(at + 1).is_some_and(char::is_ascii_digit);
        if c == '0' && after_letter && more {
            continue;
        }
        after_letter = !c.is_ascii_digit();
        plain.push(if c == 'o' { '0' } else { c });
    }
    plain
}

/// Every base that stands for a mark of this key and side: its own; the number of a voltage (`12V` is `+12`); what a
/// nought for negative follows (`S0` is `S-`).
pub(super) fn bases(key: &Key, side: Option<Sign>) -> Vec<String> {
    let mut bases = vec![key.base.clone()];
    if let Some(number) = key.base.strip_suffix('v').filter(|n| !n.is_empty() && n.chars().all(|c| c.is_ascii_digit()))
    {
        bases.push(number.to_string());
    }
    let nought = key.base.strip_suffix('0').filter(|n| n.chars().all(char::is_alphabetic) && !n.is_empty());
    if side == Some(Sign::Minus) && key.sign.is_none() {
        bases.extend(nought.map(str::to_string));
    }
    bases
}

/// Every dash that a keyboard, a telephone or a data sheet puts for minus.
pub(super) fn one_dash(c: char) -> char {
    if matches!(c, '\u{2010}'..='\u{2015}' | '\u{2212}' | '\u{fe58}' | '\u{fe63}' | '\u{ff0d}') { '-' } else { c }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folds_what_people_write_differently() {
        for (mark, whole) in [
            ("A+", "a+"),
            ("A\u{2212}", "a-"),
            ("A -", "a-"),
            ("A-ve", "a-"),
            ("T/R", "tr"),
            ("T.R.", "tr"),
            ("Z-1", "z1"),
            ("Z01", "z1"),
            ("IN10", "in10"),
            ("OV", "0v"),
            ("H/O+", "h0+"),
            ("TB1:3", "tb13"),
            ("-12V", "12v-"),
            ("+12", "12+"),
            ("+", "+"),
            ("~", "~"),
            ("", ""),
        ] {
            assert_eq!(key(mark).whole(), whole, "{mark}");
        }
    }

    #[test]
    fn a_voltage_and_a_nought_for_negative_stand_for_signed_marks() {
        assert_eq!(bases(&key("12V"), Some(Sign::Plus)), ["12v", "12"]);
        assert_eq!(bases(&key("S0"), Some(Sign::Minus)), ["s0", "s"]);
        assert_eq!(bases(&key("S0"), None), ["s0"]);
        assert_eq!(bases(&key("0"), Some(Sign::Minus)), ["0"]);
    }
}
