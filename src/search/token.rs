//! How a text becomes tokens. Marks keep their sign, for `A+` and `A-` are different screws; everything else
//! that people write differently is folded: case, the kind of dash, separators inside a mark.

/// A word of a text: the whole of it folded, and its parts where separators divide it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Word {
    /// The word folded as a mark: `H/O+` is `ho+`.
    pub(super) whole: String,
    /// The pieces between separators, folded; empty when there is only one.
    pub(super) parts: Vec<String>,
    /// It was written with a capital letter or a digit, so it may be a mark and not a filler.
    pub(super) like_mark: bool,
}

/// The words of a text, in order.
pub(super) fn words(text: &str) -> Vec<Word> {
    text.split_whitespace().filter_map(word).collect()
}

/// One word without the punctuation around it; nothing when nothing is left.
fn word(raw: &str) -> Option<Word> {
    let trimmed = raw.trim_matches(|c: char| !c.is_alphanumeric() && !is_sign(c));
    let inner = if trimmed.is_empty() { raw } else { trimmed };
    let whole = fold(inner);
    if whole.is_empty() {
        return None;
    }
    let pieces: Vec<String> = inner.split(is_divider).map(fold).filter(|p| has_letter(p)).collect();
    let parts = if pieces.len() > 1 { pieces } else { Vec::new() };
    Some(Word { whole, parts, like_mark: raw.chars().any(|c| c.is_uppercase() || c.is_numeric()) })
}

/// A mark as it is compared: lower case, one kind of dash, no separators, its signs kept. A mark that is
/// nothing but separators stays as it is.
pub(super) fn fold(mark: &str) -> String {
    let chars: Vec<char> = mark.chars().flat_map(char::to_lowercase).map(one_dash).collect();
    let mut folded = String::with_capacity(mark.len());
    for (at, c) in chars.iter().copied().enumerate() {
        let before = folded.chars().last();
        let after = chars.get(at + 1..).unwrap_or_default().iter().copied().find(|c| !c.is_whitespace());
        if keeps(c, before, after) {
            folded.push(c);
        }
    }
    if folded.is_empty() { chars.into_iter().filter(|c| !c.is_whitespace()).collect() } else { folded }
}

/// Whether a character says something about a mark. A dash between letters divides (`Z-1`); anywhere else it
/// is the sign (`A-`, `-12V`).
fn keeps(c: char, before: Option<char>, after: Option<char>) -> bool {
    let divides = before.is_some_and(char::is_alphanumeric) && after.is_some_and(char::is_alphanumeric);
    match c {
        '-' => !divides,
        '+' => true,
        _ => c.is_alphanumeric(),
    }
}

/// Every dash that a keyboard, a telephone or a datasheet puts for minus.
fn one_dash(c: char) -> char {
    if matches!(c, '\u{2010}'..='\u{2015}' | '\u{2212}' | '\u{fe58}' | '\u{fe63}' | '\u{ff0d}') { '-' } else { c }
}

fn is_sign(c: char) -> bool {
    matches!(one_dash(c), '-' | '+')
}

fn is_divider(c: char) -> bool {
    !c.is_alphanumeric() && c != '+'
}

fn has_letter(text: &str) -> bool {
    text.chars().any(char::is_alphanumeric)
}

/// A folded mark without its sign, and the sign: `a+` is `a` and `+`. Nothing when it carries no sign, or is
/// nothing else.
pub(super) fn split_sign(folded: &str) -> Option<(&str, char)> {
    let base = folded.trim_matches(['+', '-']);
    let sign = folded.strip_prefix(base).and_then(|s| s.chars().next()).or_else(|| folded.chars().next())?;
    (!base.is_empty() && matches!(sign, '+' | '-')).then_some((base, sign))
}

/// The same folded mark with the other sign: of `a+` it is `a-`.
pub(super) fn opposite(folded: &str) -> Option<String> {
    let swap = |c| match c {
        '+' => '-',
        '-' => '+',
        other => other,
    };
    let swapped: String = folded.chars().map(swap).collect();
    (swapped != folded).then_some(swapped)
}

/// A word of running text as it is compared: one form for one and for many.
pub(super) fn stem(word: &str) -> String {
    if word.len() < 4 || word.ends_with("ss") {
        return word.to_string();
    }
    if let Some(start) = word.strip_suffix("ies") {
        return format!("{start}y");
    }
    word.strip_suffix('s').unwrap_or(word).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folds_what_people_write_differently() {
        for (mark, folded) in [
            ("A+", "a+"),
            ("A\u{2212}", "a-"),
            ("A -", "a-"),
            ("H/O+", "ho+"),
            ("Z-1", "z1"),
            ("Z 1", "z1"),
            ("TB1:3", "tb13"),
            ("-12V", "-12v"),
            ("0V", "0v"),
            ("+", "+"),
            ("~", "~"),
        ] {
            assert_eq!(fold(mark), folded, "{mark}");
        }
    }

    #[test]
    fn divides_words_and_drops_the_punctuation_around_them() {
        let found: Vec<String> = words("(Hold-off), \"STB-\".").into_iter().map(|w| w.whole).collect();
        assert_eq!(found, ["holdoff", "stb-"]);
        assert_eq!(words("siren/strobe")[0].parts, ["siren", "strobe"]);
    }

    #[test]
    fn knows_the_sign() {
        assert_eq!(split_sign("a+"), Some(("a", '+')));
        assert_eq!(split_sign("-12v"), Some(("12v", '-')));
        assert_eq!(split_sign("z1"), None);
        assert_eq!(split_sign("+"), None);
        assert_eq!(opposite("stb-").as_deref(), Some("stb+"));
        assert_eq!(opposite("stb"), None);
    }
}
