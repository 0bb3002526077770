//! Words that several rooms share: core colours with their codes, the nearest spelling, lists as a person says them,
//! text that hides nothing.

/// Core colours with their codes, in the order in which the codes of two-colour cores run (IEC 60757).
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
    ("silver", "SR"),
    ("gold", "GD"),
];

/// The code of a colour word. A two-colour core's codes stand side by side in the order of the table, `RDBU`, but
/// for green-yellow, which is `GNYE` (IEC 60757). `None` for a word that is no colour.
#[must_use]
pub fn colour_code(word: &str) -> Option<String> {
    let place = |part: &str| COLOURS.iter().position(|(name, _)| *name == part);
    let Some((first, second)) = word.split_once('/') else {
        return place(word).map(|at| COLOURS[at].1.to_owned());
    };
    let (first, second) = (place(first)?, place(second)?);
    let codes = |a: usize, b: usize| format!("{}{}", COLOURS[a].1, COLOURS[b].1);
    match codes(first.min(second), first.max(second)) {
        _ if first == second => None,
        code if code == "YEGN" => Some("GNYE".to_owned()),
        code => Some(code),
    }
}

/// The colour word that was most likely meant.
#[must_use]
pub fn nearest_colour(word: &str) -> Option<String> {
    let near = |part: &str| nearest(part, COLOURS.iter().map(|(name, _)| *name));
    match word.split_once(['/', '-', '+']) {
        Some((first, second)) => Some(format!("{}/{}", near(first)?, near(second)?)),
        None => near(word).map(str::to_owned),
    }
}

/// The longest word that is held against others; what is longer is near to nothing.
const LONGEST: usize = 64;

/// The one of `options` that `word` most likely stands for: the same but for case and spaces, or at most two
/// letters changed, added, left out or swapped (and fewer than it has). Of equals, the first; for marks
/// of three signs or fewer the first of the same length, for people seldom miscount those.
#[must_use]
pub fn nearest<'a>(word: &str, options: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let length = |word: &str| folded(word).chars().count();
    let all = all_nearest(word, options);
    let same = |option: &&&str| length(word) <= 3 && length(option) == length(word);
    all.iter().find(same).or_else(|| all.first()).copied()
}

/// Every one of `options` that is nearest to `word`, in their order: `AUX` may stand for `AUX+` as well as `AUX-`.
#[must_use]
pub fn all_nearest<'a>(word: &str, options: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    let seen = folded(word);
    let length = seen.chars().count();
    let mut best: Vec<&str> = Vec::new();
    let mut least = 3.min(length);
    for option in options.into_iter().filter(|o| length <= LONGEST && o.len() <= 4 * LONGEST) {
        let wanted = folded(option);
        let own = wanted.chars().count();
        if own.abs_diff(length) > least || denies(&seen, &wanted) {
            continue;
        }
        let apart = strsim::osa_distance(&seen, &wanted);
        if apart >= 3.min(length).min(own) || apart > least {
            continue;
        }
        if apart < least {
            best.clear();
        }
        least = apart;
        best.push(option);
    }
    best
}

/// Whether `seen` says the opposite of `wanted`: `unknown` is near to `known`, and must not be taken for it.
fn denies(seen: &str, wanted: &str) -> bool {
    seen.strip_suffix(wanted).is_some_and(|before| matches!(before, "un" | "no" | "no-" | "in"))
}

/// Lower case, without spaces, with the signs that people swap made alike.
fn folded(word: &str) -> String {
    let alike = |c: char| if c == '_' { '-' } else { c };
    word.chars().filter(|c| !c.is_whitespace()).flat_map(char::to_lowercase).map(alike).collect()
}

/// What a measurement is to the card that it was held against.
#[must_use]
pub fn agreement(agrees: bool) -> &'static str {
    if agrees { "agrees with the card" } else { "disagrees with the card" }
}

/// What measurements at sites say of a fact; empty when there is none.
#[must_use]
pub fn at_sites(agree: usize, disagree: usize) -> String {
    let sites = |count: usize| if count == 1 { "1 site".to_owned() } else { format!("{count} sites") };
    let agreed = (agree > 0).then(|| format!("measured at {}", sites(agree)));
    let verb = if disagree == 1 { "disagrees" } else { "disagree" };
    let disagreed = (disagree > 0).then(|| format!("{} {verb}, see notes", sites(disagree)));
    [agreed, disagreed].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// Words as an id: what `keep` keeps of them in lower case, hyphens between, about 60 bytes at most.
#[must_use]
pub fn slug(raw: &str, keep: impl Fn(char) -> bool) -> String {
    let mut out = String::with_capacity(64);
    let put = |out: &mut String, c| {
        if keep(c) {
            out.push(c);
        } else if !out.is_empty() && !out.ends_with('-') {
            out.push('-');
        }
    };
    for c in raw.chars() {
        if c.is_ascii() {
            put(&mut out, c.to_ascii_lowercase());
        } else {
            c.to_lowercase().for_each(|c| put(&mut out, c));
        }
        if out.len() >= 60 {
            break;
        }
    }
    out.truncate(out.trim_end_matches('-').len());
    out
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

/// Text on one line, without anything that could hide it or change its order: white space of any kind becomes one
/// space, control and direction marks become U+FFFD.
#[must_use]
pub fn clean(raw: &str) -> String {
    if is_clean(raw.as_bytes()) {
        return raw.to_string();
    }
    let mut out = String::with_capacity(raw.len());
    out.extend(cleaned(raw));
    out
}

/// The characters of [`clean`] text, one by one.
pub fn cleaned(raw: &str) -> impl Iterator<Item = char> {
    let mut chars = raw.trim().chars().peekable();
    std::iter::from_fn(move || {
        let c = chars.next()?;
        if !c.is_whitespace() {
            return Some(visible(c));
        }
        while chars.next_if(|c| c.is_whitespace()).is_some() {}
        Some(' ')
    })
}

/// Whether text is nothing but the printed signs of ASCII, with single spaces between: as most text is.
#[must_use]
pub fn is_clean(raw: &[u8]) -> bool {
    let mut before = b' ';
    let single = raw.iter().all(|byte| {
        let doubled = *byte == b' ' && before == b' ';
        before = *byte;
        !doubled && matches!(byte, b' '..=b'~')
    });
    single && (before != b' ' || raw.is_empty())
}

/// A character, or U+FFFD for one that hides or reorders text.
#[must_use]
pub fn visible(c: char) -> char {
    let hidden = c.is_control()
        || matches!(c, '\u{200b}' | '\u{2060}'..='\u{2064}' | '\u{feff}' | '\u{00ad}' | '\u{fff9}'..='\u{fffb}')
        || matches!(c, '\u{061c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{206f}')
        || matches!(c, '\u{e0000}'..='\u{e007f}' | '\u{fffe}'..='\u{ffff}');
    if hidden { '\u{fffd}' } else { c }
}

/// Text inside an element of HTML or XML, or a quoted attribute.
#[must_use]
pub fn escaped(raw: &str) -> String {
    let plain = |byte: u8| matches!(byte, b' '..=b'~') && !matches!(byte, b'&' | b'<' | b'>' | b'"' | b'\'');
    if raw.bytes().all(plain) {
        return raw.to_string();
    }
    let mut out = String::with_capacity(raw.len());
    for c in raw.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(visible(c)),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Codes from IEC 60757.
    #[test]
    fn codes_colours() {
        assert_eq!(colour_code("red").as_deref(), Some("RD"));
        assert_eq!(colour_code("blue/red").as_deref(), Some("RDBU"));
        assert_eq!(colour_code("green/yellow").as_deref(), Some("GNYE"));
        assert_eq!(colour_code("red/red"), None);
        assert_eq!(colour_code("mauve"), None);
    }

    #[test]
    fn finds_the_nearest_spelling() {
        let marks = ["AUX+", "AUX-", "Z1", "Z1C"];
        assert_eq!(nearest("aux +", marks), Some("AUX+"));
        assert_eq!(nearest("Z1c", marks), Some("Z1C"));
        assert_eq!(nearest("STP", ["ST", "STR"]), Some("STR"), "of equally many letters apart, the same length");
        assert_eq!(nearest("Kichen", ["Hall", "Kitchen"]), Some("Kitchen"));
        assert_eq!(nearest("Garage", ["Hall", "Kitchen"]), None);
        assert_eq!(nearest("A", ["B"]), None, "two different letters are no misspelling of each other");
        assert_eq!(nearest("unknown", ["known"]), None, "the opposite is no misspelling");
        assert_eq!(all_nearest("AUX", marks), ["AUX+", "AUX-"]);
        assert_eq!(nearest_colour("gren/yelow").as_deref(), Some("green/yellow"));
    }

    #[test]
    fn counts_sites_as_a_person_says_it() {
        assert_eq!(at_sites(0, 0), "");
        assert_eq!(at_sites(3, 0), "measured at 3 sites");
        assert_eq!(at_sites(0, 2), "2 sites disagree, see notes");
        assert_eq!(at_sites(1, 1), "measured at 1 site, 1 site disagrees, see notes");
    }

    #[test]
    fn lists_as_a_person_says_it() {
        assert_eq!(listed::<&str>(&[]), "");
        assert_eq!(listed(&["a"]), "a");
        assert_eq!(listed(&["a", "b", "c"]), "a, b and c");
    }
}
