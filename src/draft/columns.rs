//! Which column of a table says what: guessed from the heads, or named by the user.

use super::CellFault;
use crate::source::{Table, TableRow};
use crate::wording::nearest;

/// What a column can be taken for.
pub const FIELDS: [&str; 9] = ["mark", "does", "group", "polarity", "volts", "limit", "fuse", "notes", "page"];

/// The words of heads that stand for each field, the surest first.
const HEADS: [(&str, &[&str]); 9] = [
    ("mark", &["mark", "terminal", "marking", "term", "screw", "label", "connection", "legend", "designation", "pin"]),
    ("does", &["does", "function", "description", "use", "purpose", "signal", "meaning", "name", "what it does"]),
    ("group", &["group", "block", "section", "strip"]),
    ("polarity", &["polarity", "+/-"]),
    ("volts", &["volts", "voltage", "v"]),
    ("limit", &["limit", "current", "load", "max current", "rating", "amps", "ma", "a"]),
    ("fuse", &["fuse", "fused by", "fuses"]),
    ("notes", &["notes", "note", "remarks", "remark", "comments", "comment"]),
    ("page", &["page", "p", "pages"]),
];

/// How many rows may stand before the heads.
const BEFORE: usize = 15;

/// A column of a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// Its place, from 0.
    pub at: usize,
    /// Its head; empty when it has none.
    pub head: String,
    /// What it is taken for, one of [`FIELDS`]; `None`: nothing, its cells become comments.
    pub field: Option<&'static str>,
}

/// What the columns of a table are taken for.
#[derive(Debug)]
pub(super) struct Taken {
    /// The row of the heads.
    pub(super) head: Option<u32>,
    /// The columns, as many as the widest row has.
    pub(super) columns: Vec<Column>,
}

impl Taken {
    /// The column of a field.
    pub(super) fn column(&self, field: &str) -> Option<&Column> {
        self.columns.iter().find(|column| column.field == Some(field))
    }
}

/// The columns of a table: what the user names counts, the rest is guessed from the heads.
pub(super) fn columns(table: &Table, named: &[(String, String)]) -> Result<Taken, CellFault> {
    let head = head(table);
    let width = table.rows.iter().map(|row| row.cells.len()).max().unwrap_or(0);
    let text = |at: usize| head.map(|row| row.cell(at).to_owned()).unwrap_or_default();
    let mut columns: Vec<Column> = (0..width).map(|at| Column { at, head: text(at), field: None }).collect();
    let mut refused: Vec<&'static str> = Vec::new();
    for (field, place) in named {
        refused.push(name(table, &mut columns, field, place)?);
    }
    if head.is_some() {
        guess(&mut columns, &refused);
    }
    let taken = Taken { head: head.map(|row| row.number), columns };
    if taken.column("mark").is_some() { Ok(taken) } else { Err(no_marks(table, head)) }
}

fn no_marks(table: &Table, head: Option<&TableRow>) -> CellFault {
    let heads: Vec<&str> = head.map(|row| row.cells.iter().map(String::as_str).collect()).unwrap_or_default();
    let first = table.rows.first().map_or(1, |row| row.number);
    let message = match head {
        Some(_) => "no column is headed as the one with the marks",
        None => "no row of heads was found: none says `mark`, `terminal` or `does`",
    };
    CellFault {
        place: table.row_place(head.map_or(first, |row| row.number)),
        found: heads.join(" | "),
        message: message.to_owned(),
        help: "say which columns they are: `--columns mark=1,does=2`".to_owned(),
    }
}

/// The row of heads: of the first rows, the one that has most of them.
fn head(table: &Table) -> Option<&TableRow> {
    let known = |row: &TableRow| row.cells.iter().filter(|cell| fits(cell).is_some()).count();
    let least = |row: &&TableRow| row.cells.iter().any(|cell| matches!(fits(cell), Some(("mark" | "does", _))));
    let rows = table.rows.iter().take(BEFORE).filter(least);
    rows.rev().max_by_key(|row| known(row))
}

/// A head as it is compared: small letters, a unit in brackets left out.
fn folded(head: &str) -> String {
    let bare = head.split(['(', '[']).next().unwrap_or_default();
    let words: Vec<String> =
        bare.split_whitespace().map(|word| word.trim_end_matches(['.', ':']).to_lowercase()).collect();
    words.join(" ")
}

/// The field that a head stands for, and how sure that is: the lower, the surer.
fn fits(head: &str) -> Option<(&'static str, usize)> {
    let head = folded(head);
    let whole =
        |(field, words): &(&'static str, &[&str])| words.iter().position(|word| *word == head).map(|at| (*field, at));
    let part = |(field, words): &(&'static str, &[&str])| {
        let has = |word: &&str| word.len() > 2 && head.split(' ').any(|part| part == *word);
        words.iter().position(has).map(|at| (*field, at + 100))
    };
    HEADS.iter().find_map(whole).or_else(|| HEADS.iter().filter_map(part).min_by_key(|(_, at)| *at))
}

/// Gives each field that nobody named the column whose head fits it best.
fn guess(columns: &mut [Column], named: &[&'static str]) {
    for field in FIELDS.iter().filter(|field| !named.contains(field)) {
        let free = columns.iter().filter(|column| column.field.is_none());
        let best = free
            .filter_map(|column| fits(&column.head).filter(|(own, _)| own == field).map(|(_, how)| (how, column.at)));
        if let Some((_, at)) = best.min()
            && let Some(column) = columns.get_mut(at)
        {
            column.field = Some(field);
        }
    }
}

/// Takes a column for what the user says. Gives the field.
fn name(table: &Table, columns: &mut [Column], field: &str, place: &str) -> Result<&'static str, CellFault> {
    let wrong = |message: String, help: String| CellFault {
        place: format!("--columns {field}={place}"),
        found: String::new(),
        message,
        help,
    };
    let Some(known) = FIELDS.iter().find(|known| **known == field) else {
        let help = match nearest(field, FIELDS) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("the fields are {}", FIELDS.join(", ")),
        };
        return Err(wrong(format!("`{field}` is no field of a terminal"), help));
    };
    if place == "none" {
        return Ok(known);
    }
    let at = number(place).filter(|at| *at < columns.len());
    let Some(column) = at.and_then(|at| columns.get_mut(at)) else {
        let letters = if table.sheet.is_some() { ", or by its letter" } else { "" };
        let help = format!("name a column by its number, from 1 to {}{letters}, or `none`", columns.len());
        return Err(wrong(format!("the table has no column `{place}`"), help));
    };
    if let Some(other) = column.field {
        return Err(wrong(
            format!("this column is `{other}` already"),
            "give each field a column of its own".to_owned(),
        ));
    }
    column.field = Some(known);
    Ok(known)
}

/// A column's number from 0, from `3` or `C`.
fn number(place: &str) -> Option<usize> {
    if place.bytes().all(|b| b.is_ascii_digit()) {
        return place.parse::<usize>().ok()?.checked_sub(1);
    }
    let letter = |c: char| c.is_ascii_alphabetic().then(|| u32::from(c.to_ascii_uppercase()) - u32::from('A') + 1);
    let mut all = 0_usize;
    for c in place.chars() {
        all = all.checked_mul(26)?.checked_add(usize::try_from(letter(c)?).ok()?)?;
    }
    all.checked_sub(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heads_are_known_by_their_words() {
        for (head, field) in [
            ("Terminal", "mark"),
            ("MARK", "mark"),
            ("Terminal no.", "mark"),
            ("Description", "does"),
            ("What it does", "does"),
            ("Voltage (V)", "volts"),
            ("Max current [mA]", "limit"),
            ("Fuse", "fuse"),
            ("Remarks:", "notes"),
        ] {
            assert_eq!(fits(head).map(|(field, _)| field), Some(field), "{head}");
        }
        assert_eq!(fits("Colour"), None);
        assert_eq!(fits(""), None);
    }

    #[test]
    fn columns_have_numbers_and_letters() {
        assert_eq!([number("1"), number("3"), number("A"), number("aa")], [Some(0), Some(2), Some(0), Some(26)]);
        assert_eq!([number("0"), number("-1"), number(""), number("é")], [None; 4]);
    }
}
