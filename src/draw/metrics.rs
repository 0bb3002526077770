//! How much room text takes, whatever sans-serif face a reader has: for each sign the wider of `DejaVu Sans` and of the
//! faces with Helvetica's widths.

use crate::wording::clean;

/// The size of all text, in units of a drawing.
pub const FONT: i32 = 12;
/// How far text reaches above its base line.
pub const ASCENT: i32 = 12;
/// How far it reaches below.
pub const DESCENT: i32 = 3;

/// Widths from space to `~`, in hundredths of the size.
const PLAIN: [u8; 95] = [
    32, 40, 46, 84, 64, 95, 78, 28, 39, 39, 50, 84, 32, 36, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34, 84,
    84, 84, 56, 102, 69, 69, 73, 77, 67, 61, 78, 76, 30, 50, 67, 56, 87, 75, 79, 67, 79, 73, 67, 61, 74, 69, 99, 69,
    67, 69, 39, 34, 39, 84, 56, 50, 62, 64, 55, 64, 62, 36, 64, 64, 28, 28, 58, 28, 98, 64, 62, 64, 64, 42, 52, 40, 64,
    60, 82, 60, 60, 53, 64, 34, 64, 84,
];

/// The same in bold.
const BOLD: [u8; 95] = [
    35, 46, 52, 84, 70, 101, 88, 31, 46, 46, 53, 84, 38, 42, 38, 37, 70, 70, 70, 70, 70, 70, 70, 70, 70, 70, 40, 40,
    84, 84, 84, 61, 100, 78, 77, 74, 83, 69, 69, 82, 84, 38, 56, 78, 64, 100, 84, 85, 74, 85, 77, 72, 69, 82, 78, 111,
    77, 73, 73, 46, 37, 46, 84, 56, 50, 68, 72, 60, 72, 68, 44, 72, 72, 35, 35, 67, 35, 105, 72, 69, 72, 72, 50, 60,
    48, 72, 66, 93, 65, 66, 59, 72, 37, 72, 84,
];

/// The width of a sign, in hundredths of the size. What is outside ASCII is taken as wide: it may come from any face.
fn sign(c: char, bold: bool) -> i32 {
    let table = if bold { &BOLD } else { &PLAIN };
    let own = (c as usize).checked_sub(32).and_then(|at| table.get(at));
    match (own, c) {
        (Some(width), _) => i32::from(*width),
        (None, '·') => 40,
        (None, '−' | 'Ω' | '\u{80}'..='\u{24f}') => 88,
        (None, '\u{fdf0}'..='\u{fdff}') => 700,
        (None, '\u{2e80}'..) => 135,
        (None, _) => 110,
    }
}

/// The width of a text, in units of a drawing, at least.
#[must_use]
pub fn width(text: &str, bold: bool) -> i32 {
    (text.chars().map(|c| sign(c, bold)).sum::<i32>() * FONT + 99) / 100
}

/// Text as it is drawn: cleaned, and cut with an ellipsis when it is wider than `room`. The second says whether it was cut.
pub(super) fn fit(text: &str, room: i32, bold: bool) -> (String, bool) {
    let whole = clean(text);
    let limit = room * 100 / FONT;
    let (mut sum, mut kept) = (0, 0);
    for (at, c) in whole.chars().enumerate() {
        if sum + sign('…', bold) <= limit {
            kept = at;
        }
        sum += sign(c, bold);
        if sum > limit {
            let head: String = whole.chars().take(kept).collect();
            return (format!("{}…", head.trim_end()), true);
        }
    }
    (whole, false)
}

/// Text in lines no wider than `room`, at most `most`; a word that is too long, and what is left over, stay whole: they
/// are cut where they are drawn.
pub(super) fn wrapped(text: &str, room: i32, most: usize) -> Vec<String> {
    let whole = clean(text);
    let mut lines: Vec<String> = Vec::new();
    let mut rest = whole.as_str();
    while !rest.is_empty() && lines.len() + 1 < most {
        let Some(cut) = break_at(rest, room) else { break };
        let (line, after) = rest.split_at(cut);
        lines.push(line.to_string());
        rest = after.trim_start();
    }
    if !rest.is_empty() {
        lines.push(rest.to_string());
    }
    lines
}

/// Where a text that is too wide breaks: after the last word that fits; `None`: it all fits.
fn break_at(text: &str, room: i32) -> Option<usize> {
    if width(text, false) <= room {
        return None;
    }
    let spaces: Vec<usize> = text.match_indices(' ').map(|(at, _)| at).collect();
    let fits = |at: &usize| text.get(..*at).is_some_and(|head| width(head, false) <= room);
    spaces.iter().rev().find(|at| fits(at)).or_else(|| spaces.first()).copied()
}
