//! Words that several rooms share: core colours and their IEC 60757 codes.

/// Core colours with their codes (IEC 60757).
pub const COLOURS: [(&str, &str); 14] = [
    ("black", "BK"),
    ("brown", "BN"),
    ("red", "RD"),
    ("orange", "OG"),
    ("yellow", "YE"),
    ("green", "GN"),
    ("blue", "BU"),
    ("violet", "VT"),
    ("grey", "GY"),
    ("white", "WH"),
    ("pink", "PK"),
    ("turquoise", "TQ"),
    ("gold", "GD"),
    ("silver", "SR"),
];

/// The code of a colour word; a two-colour core's codes stand side by side: `green/yellow` is `GNYE`. `None` for a
/// word that is no colour.
#[must_use]
pub fn colour_code(word: &str) -> Option<String> {
    let code = |part: &str| COLOURS.iter().find(|(name, _)| *name == part).map(|(_, code)| *code);
    match word.split_once('/') {
        Some((first, second)) if first != second => Some(format!("{}{}", code(first)?, code(second)?)),
        Some(_) => None,
        None => code(word).map(str::to_owned),
    }
}

/// The colour word that was most likely meant.
#[must_use]
pub fn nearest_colour(word: &str) -> Option<String> {
    let near = |part: &str| crate::diagnostics::nearest(part, COLOURS.iter().map(|(name, _)| *name));
    match word.split_once(['/', '-', '+']) {
        Some((first, second)) => Some(format!("{}/{}", near(first)?, near(second)?)),
        None => near(word).map(str::to_owned),
    }
}

/// `a`, `a and b`, `a, b and c`.
#[must_use]
pub fn listed<S: AsRef<str>>(words: &[S]) -> String {
    let words: Vec<&str> = words.iter().map(AsRef::as_ref).collect();
    match words.as_slice() {
        [] => String::new(),
        [one] => (*one).to_string(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_as_a_person_says_it() {
        assert_eq!(listed::<&str>(&[]), "");
        assert_eq!(listed(&["a"]), "a");
        assert_eq!(listed(&["a", "b", "c"]), "a, b and c");
    }
}
