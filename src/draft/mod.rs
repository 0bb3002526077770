//! A new card's file from a table of terminals that somebody typed or pasted out of a manual. What the table says is
//! taken over; what its words only suggest stands in comments, for a person to confirm; and nothing of the table is
//! lost: what has no key is a comment too.

mod cell;
mod columns;
mod propose;
mod rows;
mod write;

pub use columns::{Column, FIELDS};

use crate::model::Terms;
use crate::source::Table;

/// What is wrong with a cell of a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CellFault {
    /// Where it is: `line 7, column 3`, `sheet Terminals, cell C7`.
    pub place: String,
    /// What stands there; empty when the fault is of the whole table.
    pub found: String,
    /// What is wrong.
    pub message: String,
    /// What to write instead.
    pub help: String,
}

/// What a card is drafted for.
#[derive(Debug, Clone, Copy)]
pub struct Wish<'a> {
    /// The kind of card: panel, board or supply.
    pub kind: &'a str,
    /// The card's id.
    pub id: &'a str,
    /// The table's file, as the user names it.
    pub file: &'a str,
    /// Columns that the user names: each field with a column's number or letters, or `none`.
    pub columns: &'a [(String, String)],
}

/// A card's file, and what its writer should look at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Draft {
    /// The file's text.
    pub text: String,
    /// Where the heads stand; `None`: the table has none.
    pub heads: Option<String>,
    /// What each column was taken for.
    pub columns: Vec<Column>,
    /// How many terminals there are.
    pub terminals: usize,
    /// How many groups are proposed.
    pub proposed: usize,
    /// The rows that are no terminals, each with its place and why.
    pub left: Vec<String>,
}

/// Drafts a card.
///
/// # Errors
/// Every cell that can't be taken over, in table order.
pub fn draft(table: &Table, terms: &Terms, wish: &Wish<'_>) -> Result<Draft, Vec<CellFault>> {
    let taken = columns::columns(table, wish.columns).map_err(|fault| vec![fault])?;
    let read = rows::rows(table, &taken)?;
    let rings = propose::Rings::new(terms);
    let (text, proposed) = write::card(table, wish, &read, &rings);
    let terminals = read.rows.iter().filter(|row| matches!(row, rows::Row::Terminal(_))).count();
    let heads = taken.head.map(|number| table.row_place(number));
    Ok(Draft { text, heads, columns: taken.columns, terminals, proposed, left: read.left })
}
