//! Words that several rooms share: the nearest spelling, and lists as a person says them.

/// The one of `options` that `word` most likely stands for: the same but for case and spaces, or at most two
/// letters away (and fewer letters away than it has). Of equals, the first.
#[must_use]
pub fn nearest<'a>(word: &str, options: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let seen = folded(word);
    let far = 3.min(seen.len());
    let mut best: Option<(usize, &str)> = None;
    for option in options {
        let distance = letters_apart(&seen, &folded(option));
        if distance < best.map_or(far.min(option.chars().count()), |(d, _)| d) {
            best = Some((distance, option));
        }
    }
    best.map(|(_, option)| option)
}

/// Lower case, without spaces.
fn folded(word: &str) -> Vec<char> {
    word.chars().filter(|c| !c.is_whitespace()).flat_map(char::to_lowercase).collect()
}

/// How many letters must be put in, taken out or changed to make one word of the other.
fn letters_apart(a: &[char], b: &[char]) -> usize {
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.iter().enumerate() {
        let mut diagonal = i;
        let mut left = i + 1;
        for (cell, y) in row.iter_mut().skip(1).zip(b) {
            let changed = diagonal + usize::from(x != y);
            diagonal = *cell;
            left = changed.min(left + 1).min(*cell + 1);
            *cell = left;
        }
        if let Some(first) = row.first_mut() {
            *first = i + 1;
        }
    }
    row.last().copied().unwrap_or_default()
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
    fn finds_the_nearest_spelling() {
        let marks = ["AUX+", "AUX-", "Z1", "Z1C"];
        assert_eq!(nearest("aux +", marks), Some("AUX+"));
        assert_eq!(nearest("Z1c", marks), Some("Z1C"));
        assert_eq!(nearest("Kichen", ["Hall", "Kitchen"]), Some("Kitchen"));
        assert_eq!(nearest("Garage", ["Hall", "Kitchen"]), None);
        assert_eq!(nearest("A", ["B"]), None, "two different letters are no misspelling of each other");
    }

    #[test]
    fn counts_letters() {
        let apart = |a: &str, b: &str| letters_apart(&folded(a), &folded(b));
        assert_eq!([apart("", "abc"), apart("abc", "abc"), apart("abd", "abc"), apart("bac", "abc")], [3, 0, 1, 2]);
    }

    #[test]
    fn lists_as_a_person_says_it() {
        assert_eq!(listed::<&str>(&[]), "");
        assert_eq!(listed(&["a"]), "a");
        assert_eq!(listed(&["a", "b", "c"]), "a, b and c");
    }
}
