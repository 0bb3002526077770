//! Telephone numbers, in the many ways in which they are written. Numbers of a numbering plan are known by how they
//! begin and how many digits they have; shorter ones only after a word such as *ring* or *tel*.

use super::text::{Forms, Pattern, at, is_quantity};
use std::ops::Range;

/// A run of digits and of what stands between the digits of a number. A letter O or l that stands for a digit is one.
static RUN: Pattern = Pattern::new(|| String::from(r"(?:\+|\()?(?:\d|[oO]\d)[\d\s().\-–—‑/OoIl+]*[\dOo]"));

/// A word after which a short number is a telephone number.
static CUE: Pattern = Pattern::new(|| {
    String::from(
        r"(?i)\b(?:tel|telephone|phone|phones|ph|mob|mobile|cell|call|calls|ring|rings|text|dial|dials|fax|sms|landline|helpline|hotline|handy|telefon|téléphone|portable)\b[^.;\d+(]{0,24}$",
    )
});

/// Seven digits or more in words.
static SPOKEN: Pattern = Pattern::new(|| {
    String::from(
        r"(?i)\b(?:(?:oh|zero|nought|one|two|three|four|five|six|seven|eight|nine|double|treble|triple)[\s,-]+){6,}(?:oh|zero|nought|one|two|three|four|five|six|seven|eight|nine|hundred|thousand)\b",
    )
});

/// Every form that one in figures has.
pub(super) static FORMS: Forms = Forms::new(&[&RUN]);

/// Every form that one in words has.
pub(super) static SPOKEN_FORMS: Forms = Forms::new(&[&SPOKEN]);

/// The telephone numbers in words.
pub(super) fn spoken(text: &str) -> Vec<Range<usize>> {
    SPOKEN_FORMS.places(text)
}

/// The telephone numbers in figures.
pub(super) fn found(text: &str) -> Vec<Range<usize>> {
    let runs = RUN.places(text).into_iter();
    let mut out: Vec<Range<usize>> = Vec::new();
    for run in runs.filter(|run| stands_alone(text, run)) {
        out.extend(pieces(text, run).into_iter().filter(|piece| is_number(text, piece)));
    }
    out
}

/// Whether a run is no tail of a word: `TB1`, `4410-B-03`.
fn stands_alone(text: &str, run: &Range<usize>) -> bool {
    let before = text.get(..run.start).and_then(|ahead| ahead.chars().next_back());
    !before.is_some_and(|c| c.is_alphanumeric() || matches!(c, '-' | '_' | '±'))
}

/// A run cut where a date or a decimal number shows that it is a row of figures.
fn pieces(text: &str, run: Range<usize>) -> Vec<Range<usize>> {
    let mut out: Vec<Range<usize>> = Vec::new();
    let mut open: Option<Range<usize>> = None;
    let mut start = run.start;
    for token in at(text, run.clone()).split_inclusive(char::is_whitespace) {
        let end = start + token.len();
        let place = start..start + token.trim_end().len();
        start = end;
        if token.trim().is_empty() {
            continue;
        }
        if is_figure(token.trim()) || digits(token).is_empty() {
            out.extend(open.take());
            continue;
        }
        open = Some(open.map_or(place.clone(), |piece| piece.start..place.end));
    }
    out.extend(open);
    out
}

/// A decimal number, a date, or a window: `13.7`, `2026-11-03`, `03/11/2026`.
fn is_figure(token: &str) -> bool {
    let token = token.trim_matches(['(', ')', '+']);
    let parts: Vec<&str> = token.split(['.', '-', '–', '/']).collect();
    let lengths: Vec<usize> = parts.iter().map(|part| part.len()).collect();
    let is_decimal = token.matches('.').count() == 1 && parts.len() == 2;
    is_decimal || matches!(lengths.as_slice(), [4, 1 | 2, 1 | 2] | [1 | 2, 1 | 2, 2 | 4])
}

fn is_number(text: &str, place: &Range<usize>) -> bool {
    let written = at(text, place.clone());
    if is_quantity(text, place) {
        return false;
    }
    let digits = digits(written);
    let groups = written.split(|c: char| digit(c).is_none()).filter(|group| !group.is_empty());
    let lengths: Vec<usize> = groups.map(str::len).collect();
    let is_whole = (9..=15).contains(&digits.len()) && !is_row_of_switches(&digits);
    let international = written.starts_with('+') || digits.starts_with("00");
    let national = digits.starts_with('0') && (9..=12).contains(&digits.len());
    let is_known_form = match lengths.as_slice() {
        [10..=15] => true,
        [3, 3, 4] => !digits.starts_with('0') || national,
        [1, 3, 3, 4] => digits.starts_with('1'),
        [4, 6] => digits.starts_with('7'),
        [4, 3, 3] => digits.starts_with("1800") || digits.starts_with("1300"),
        _ => false,
    };
    let is_cued = (5..=15).contains(&digits.len()) && has_cue(text, place);
    (is_whole && (international || national || is_known_form)) || is_cued
}

fn digits(written: &str) -> String {
    written.chars().filter_map(digit).collect()
}

/// The digit that a sign stands for.
fn digit(c: char) -> Option<char> {
    match c {
        'O' | 'o' => Some('0'),
        'I' | 'l' => Some('1'),
        c if c.is_ascii_digit() => Some(c),
        _ => None,
    }
}

/// Noughts and ones alone are levers of a switch.
fn is_row_of_switches(digits: &str) -> bool {
    digits.chars().all(|c| matches!(c, '0' | '1'))
}

fn has_cue(text: &str, place: &Range<usize>) -> bool {
    let ahead = text.get(..place.start).unwrap_or_default();
    let sentence = ahead.rsplit(['\n']).next().unwrap_or(ahead);
    CUE.is_in(sentence)
}
