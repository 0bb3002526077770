//! The rows of a table as terminals, headings and remarks.

use super::CellFault;
use super::cell::{self, Wrong, is_blank};
use super::columns::{Column, Taken};
use crate::model::Group;
use crate::source::{Table, TableRow};

/// A row that is one word longer than this is a heading.
const LONG_MARK: usize = 12;

/// A row of a table.
#[derive(Debug)]
pub(super) enum Row {
    /// A terminal.
    Terminal(Box<Terminal>),
    /// Words over the terminals that follow.
    Heading(u32, String),
    /// Words that belong to no mark.
    Loose(u32, String),
}

/// A terminal, as the table gives it.
#[derive(Debug, Default)]
pub(super) struct Terminal {
    /// What is printed beside it.
    pub(super) mark: String,
    pub(super) does: Option<String>,
    /// A group that the table names by the card's own word.
    pub(super) group: Option<&'static str>,
    /// What the table has where a group is due, when it is none of the card's words.
    pub(super) family: Option<String>,
    pub(super) polarity: Option<&'static str>,
    pub(super) volts: Option<(String, String)>,
    pub(super) limit: Option<String>,
    pub(super) fuse: Option<String>,
    pub(super) notes: Option<String>,
    /// What else the row says, for comments: each with what it is.
    pub(super) rest: Vec<(String, String)>,
}

/// All rows.
#[derive(Debug, Default)]
pub(super) struct Read {
    /// In table order, without the heads.
    pub(super) rows: Vec<Row>,
    /// The rows that are no terminals, in words.
    pub(super) left: Vec<String>,
}

/// Reads the rows.
pub(super) fn rows(table: &Table, taken: &Taken) -> Result<Read, Vec<CellFault>> {
    let mut run = Run { table, taken, faults: Vec::new(), seen: Vec::new() };
    let mut read = Read::default();
    let heads = table.rows.iter().find(|row| Some(row.number) == taken.head);
    for row in &table.rows {
        // Before the heads stand titles; a long table repeats its heads on every page.
        let is_head = heads.is_some_and(|heads| heads.cells == row.cells);
        if is_head {
            continue;
        }
        let told = run.row(row, taken.head.is_some_and(|head| row.number < head));
        let place = table.row_place(row.number);
        match &told {
            Row::Heading(_, words) => read.left.push(format!("{place}: a heading: {words}")),
            Row::Loose(_, words) => read.left.push(format!("{place}: no mark: {words}")),
            Row::Terminal(_) => {}
        }
        read.rows.push(told);
    }
    if run.faults.is_empty() && run.seen.is_empty() {
        run.faults.push(CellFault {
            place: table.how.clone(),
            found: String::new(),
            message: "this table has no row with a mark".to_owned(),
            help: "write each terminal's mark in the column of the marks, or name another one: `--columns mark=1`"
                .to_owned(),
        });
    }
    if run.faults.is_empty() { Ok(read) } else { Err(run.faults) }
}

/// A run over the rows.
struct Run<'t> {
    table: &'t Table,
    taken: &'t Taken,
    faults: Vec<CellFault>,
    /// The marks so far, each with its row.
    seen: Vec<(String, u32)>,
}

impl Run<'_> {
    fn row(&mut self, row: &TableRow, before: bool) -> Row {
        let words: Vec<&str> = row.cells.iter().map(String::as_str).filter(|cell| !cell.is_empty()).collect();
        let mark = self.taken.column("mark").map_or("", |column| row.cell(column.at));
        let alone = words.len() == 1;
        let long = mark.contains(char::is_whitespace) || mark.chars().count() > LONG_MARK;
        if before || (alone && (row.wide || long || mark.is_empty())) {
            return Row::Heading(row.number, line(&words.join(" | ")));
        }
        if is_blank(mark) {
            return Row::Loose(row.number, line(&words.join(" | ")));
        }
        Row::Terminal(Box::new(self.terminal(row, mark)))
    }

    fn terminal(&mut self, row: &TableRow, mark: &str) -> Terminal {
        let mut out = Terminal::default();
        if let Some(column) = self.taken.column("mark") {
            out.mark = self.checked(row, column, cell::mark(mark)).unwrap_or_default();
            self.once(row, column, mark);
        }
        for column in &self.taken.columns {
            let text = row.cell(column.at);
            if !is_blank(text) || (column.field == Some("polarity") && text == "-") {
                self.cell(row, column, text, &mut out);
            }
        }
        out
    }

    /// A mark that is there already.
    fn once(&mut self, row: &TableRow, column: &Column, mark: &str) {
        if let Some((_, first)) = self.seen.iter().find(|(other, _)| other == mark) {
            let message = format!("`{mark}` is here twice; the first is in {}", self.table.row_place(*first));
            self.fault(row, column, (message, "each terminal needs a mark of its own".to_owned()));
        }
        self.seen.push((mark.to_owned(), row.number));
    }

    fn cell(&mut self, row: &TableRow, column: &Column, text: &str, out: &mut Terminal) {
        let unit = cell::unit_of(&column.head);
        match column.field {
            Some("mark") => {}
            Some("does") => out.does = Some(line(text)),
            Some("notes") => out.notes = Some(line(text)),
            Some("group") => {
                let group = Group::WORDS.iter().find(|(word, _)| *word == text.to_lowercase());
                out.group = group.map(|(word, _)| *word);
                out.family = out.group.is_none().then(|| line(text));
            }
            Some("polarity") => match cell::polarity(text) {
                Some(polarity) => out.polarity = Some(polarity),
                None => out.rest.push(("polarity".to_owned(), line(text))),
            },
            Some("volts") => match self.checked(row, column, cell::window(text, unit)) {
                Some(Some(window)) => out.volts = Some(window),
                Some(None) => out.rest.push(("volts, one figure where low and high are due".to_owned(), line(text))),
                None => {}
            },
            Some("limit") => out.limit = self.checked(row, column, cell::amps(text, unit)),
            Some("fuse") => match cell::mark(text) {
                Ok(fuse) if !fuse.contains(char::is_whitespace) => out.fuse = Some(fuse),
                _ => out.rest.push(("fuse".to_owned(), line(text))),
            },
            Some(field) => out.rest.push((field.to_owned(), line(text))),
            None => {
                let head =
                    if column.head.is_empty() { format!("column {}", column.at + 1) } else { line(&column.head) };
                out.rest.push((head, line(text)));
            }
        }
    }

    /// A value; what is wrong with it is a fault.
    fn checked<T>(&mut self, row: &TableRow, column: &Column, value: Result<T, Wrong>) -> Option<T> {
        value.map_err(|wrong| self.fault(row, column, wrong)).ok()
    }

    fn fault(&mut self, row: &TableRow, column: &Column, (message, help): Wrong) {
        let place = self.table.place(row.number, column.at);
        self.faults.push(CellFault { place, found: line(row.cell(column.at)), message, help });
    }
}

/// A text on one line.
fn line(text: &str) -> String {
    text.split(|c: char| c.is_whitespace() || c.is_control())
        .filter(|word| !word.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
}
