//! How running text becomes words that can be compared: the same for what a card says, for what someone asks, and for
//! what a hit marks.

use super::mark::{self, one_dash};
use frostem::{Algorithm, Stemmer};
use std::ops::Range;

/// A word of a text, or a part of one that separators divide.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Piece {
    /// Where it stands in the text, in bytes.
    pub(super) at: Range<usize>,
    /// It as written, in lower case.
    pub(super) word: String,
    /// All the forms in which it is compared, the commonest first.
    pub(super) forms: Vec<String>,
}

/// Units that belong to the number before them: `12.9 V` is one word.
pub(super) const UNITS: [&str; 18] =
    ["v", "mv", "a", "ma", "ah", "ω", "kω", "ohm", "ohms", "w", "min", "h", "s", "m", "mm2", "db", "c", "k"];

/// The words of a text, in order.
pub(super) fn pieces(text: &str) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::new();
    for raw in raw_words(text) {
        let run = text.get(raw.clone()).unwrap_or_default();
        let mut cut = cut(run).into_iter().map(|piece| piece.moved(raw.start));
        let Some(first) = cut.next() else { continue };
        match pieces.last().and_then(|last| quantity(last, &first)) {
            Some(quantity) => pieces.splice(pieces.len() - 1.., [quantity]).for_each(drop),
            None => pieces.push(first),
        }
        pieces.extend(cut);
    }
    pieces
}

/// The commonest form of the word that a text begins with.
pub(super) fn first_form(text: &str) -> Option<String> {
    let mut runs = raw_words(text).filter_map(|raw| text.get(raw)).map(cut).filter(|run| !run.is_empty());
    let first = runs.next()?;
    let joined = match (first.as_slice(), runs.next().as_deref()) {
        ([number], Some([unit, ..])) => quantity(number, unit),
        _ => None,
    };
    let piece = joined.or_else(|| first.into_iter().next())?;
    piece.forms.into_iter().next()
}

/// The pieces of a run without spaces, placed from its beginning.
pub(super) fn cut(run: &str) -> Vec<Piece> {
    let mut pieces = parts(run);
    let is_one = pieces.len() == 1;
    let whole = mark::key(run.trim_matches(punctuation));
    if let Some(piece) = pieces.first_mut().filter(|_| !is_one || whole.sign.is_some()) {
        let unfolded: String = mark::printed(run).chars().filter(|c| c.is_alphanumeric()).collect();
        piece.forms.extend((!is_one).then_some(unfolded));
        piece.forms.extend(whole.sign.map(|_| whole.whole()));
        if is_one {
            let start = run.len() - run.trim_start_matches(punctuation).len();
            piece.at = start..start + run.trim_matches(punctuation).len();
        }
    }
    pieces
}

/// A number and the unit behind it in one piece, so that `12 V out` and `12V out` are the same words.
pub(super) fn quantity(number: &Piece, unit: &Piece) -> Option<Piece> {
    if !UNITS.contains(&unit.word.as_str()) || !is_number(&number.word) {
        return None;
    }
    let word = format!("{}{}", number.word, unit.word);
    let forms = std::iter::once(word.clone()).chain(number.forms.iter().cloned()).collect();
    Some(Piece { at: number.at.start..unit.at.end, word, forms })
}

impl Piece {
    fn moved(self, by: usize) -> Self {
        Self { at: self.at.start + by..self.at.end + by, ..self }
    }
}

/// Where each run without spaces stands.
pub(super) fn raw_words(text: &str) -> impl Iterator<Item = Range<usize>> {
    let mut start = None;
    let ends = text.char_indices().chain([(text.len(), ' ')]);
    ends.filter_map(move |(at, c)| {
        if c.is_whitespace() {
            start.take().map(|from| from..at)
        } else {
            start.get_or_insert(at);
            None
        }
    })
}

/// The parts of a word between separators. A point between digits divides nothing; `'s` is left out.
fn parts(raw: &str) -> Vec<Piece> {
    let chars: Vec<(usize, char)> = raw.char_indices().collect();
    let digit = |at: Option<usize>| at.and_then(|at| chars.get(at)).is_some_and(|(_, c)| c.is_ascii_digit());
    let mut parts = Vec::new();
    let mut start: Option<usize> = None;
    for (at, (byte, c)) in chars.iter().copied().enumerate() {
        let inside = c.is_alphanumeric() || (c == '.' && digit(at.checked_sub(1)) && digit(Some(at + 1)));
        if inside {
            start.get_or_insert(byte);
        } else if let Some(from) = start.take() {
            parts.extend(part(raw, from..byte));
        }
    }
    if let Some(from) = start {
        parts.extend(part(raw, from..raw.len()));
    }
    parts
}

fn part(raw: &str, at: Range<usize>) -> Option<Piece> {
    let word = mark::printed(raw.get(at.clone())?);
    let is_genitive = word == "s" && raw.get(..at.start).is_some_and(|b| b.ends_with(['\'', '\u{2019}']));
    if word.is_empty() || is_genitive {
        return None;
    }
    let mut forms = vec![stem(&word)];
    if forms.first() != Some(&word) {
        forms.push(word.clone());
    }
    if let Some(number) = number_of_quantity(&word) {
        forms.push(number.to_string());
    }
    Some(Piece { at, word, forms })
}

/// The number that a unit is glued to: of `12v` it is `12`.
fn number_of_quantity(word: &str) -> Option<&str> {
    UNITS.iter().find_map(|unit| word.strip_suffix(unit).filter(|number| is_number(number)))
}

fn is_number(word: &str) -> bool {
    word.starts_with(|c: char| c.is_ascii_digit()) && word.chars().all(|c| c.is_ascii_digit() || c == '.')
}

fn punctuation(c: char) -> bool {
    !c.is_alphanumeric() && !matches!(one_dash(c), '+' | '-')
}

/// The words of a text in one: how a phrase is looked up (`hold off`, `Hold-off` and `holdoff` are the same).
pub(super) fn compact(text: &str) -> String {
    pieces(text).into_iter().filter_map(|piece| piece.forms.into_iter().next()).collect()
}

/// A name as it is compared: letters and digits in lower case.
pub(super) fn name_key(text: &str) -> String {
    mark::printed(text).chars().filter(|c| c.is_alphanumeric()).collect()
}

/// One form for a word's singular and plural, present and past: `chirps` and `chirped` are `chirp`. Marks and short
/// words stay as they are.
pub(super) fn stem(word: &str) -> String {
    if word.len() < 4 || !word.chars().all(|c| c.is_ascii_lowercase()) {
        return word.to_string();
    }
    Stemmer::new(Algorithm::English).stem(word).into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn forms(text: &str) -> Vec<Vec<String>> {
        pieces(text).into_iter().map(|p| p.forms).collect()
    }

    #[test]
    fn divides_words_and_drops_the_punctuation_around_them() {
        assert_eq!(forms("(Hold-off), \"chirped\"."), [vec!["hold", "holdoff"], vec!["off"], vec!["chirp", "chirped"]]);
        assert_eq!(forms("the sounder's own"), [vec!["the"], vec!["sounder"], vec!["own"]]);
    }

    #[test]
    fn numbers_go_with_their_units() {
        assert_eq!(forms("idles at 12.9 V"), [vec!["idl", "idles"], vec!["at"], vec!["12.9v", "12.9"]]);
        assert_eq!(forms("12V out"), [vec!["12v", "12"], vec!["out"]]);
    }

    #[test]
    fn marks_in_a_text_keep_their_sign() {
        assert_eq!(forms("to AUX- and V\u{2212}."), [vec!["to"], vec!["aux", "aux-"], vec!["and"], vec!["v", "v-"]]);
    }

    #[test]
    fn every_piece_says_where_it_stands() {
        let text = "Hold-off, 12.9 V\u{2026}";
        let found: Vec<&str> = pieces(text).into_iter().filter_map(|p| text.get(p.at)).collect();
        assert_eq!(found, ["Hold", "off", "12.9 V"]);
    }
}
