//! The nearest spelling of a word.

/// Of `choices`, those that are spelled nearly as `word`, nearest first, then in the order given; at most five.
/// Case does not count; a word of three letters may differ by one, of six by two, and so on up to three.
#[must_use]
pub fn nearest<'a>(word: &str, choices: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    let word: Vec<char> = folded(word);
    if word.is_empty() || word.len() > 80 {
        return Vec::new();
    }
    let allowed = (word.len().div_ceil(3)).min(3);
    let mut near: Vec<(usize, &str)> = choices
        .into_iter()
        .filter_map(|choice| {
            let other = folded(choice);
            let is_near_length = other.len().abs_diff(word.len()) <= allowed;
            let apart = if is_near_length { distance(&word, &other) } else { usize::MAX };
            (apart <= allowed && apart < word.len().max(2)).then_some((apart, choice))
        })
        .collect();
    near.sort_by_key(|(apart, _)| *apart);
    near.truncate(5);
    near.into_iter().map(|(_, choice)| choice).collect()
}

fn folded(text: &str) -> Vec<char> {
    text.trim().chars().flat_map(char::to_lowercase).collect()
}

/// How many letters must be put in, left out, changed or swapped with a neighbour to make `b` of `a`.
fn distance(a: &[char], b: &[char]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.iter().enumerate() {
        let mut next = vec![i + 1];
        for (j, y) in b.iter().enumerate() {
            let at = |row: &[usize], k: usize| row.get(k).copied().unwrap_or(usize::MAX / 2);
            let mut cost = (at(&row, j) + usize::from(x != y)).min(at(&row, j + 1) + 1).min(at(&next, j) + 1);
            let is_swapped = i > 0 && j > 0 && a.get(i - 1) == Some(y) && b.get(j - 1) == Some(x);
            if is_swapped {
                cost = cost.min(at(&before, j - 1) + 1);
            }
            next.push(cost);
        }
        before = std::mem::replace(&mut row, next);
    }
    row.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn nearest_comes_first() {
        assert_eq!(nearest("SRI", ["AUX+", "SIR", "STR", "Z1"]), ["SIR", "STR"]);
        assert_eq!(nearest("merowby-mb6", ["alder-9", "merrowby-mb6"]), ["merrowby-mb6"]);
    }

    #[test]
    fn nothing_is_near_a_word_that_shares_nothing() {
        assert!(nearest("Q", ["Z1", "A"]).is_empty());
        assert!(nearest("", ["Z1"]).is_empty());
    }
}
