//! A table of terminals in any bytes, and the card that it begins.

use super::demo::LIBRARY;
use wirelore::draft::{Wish, draft};
use wirelore::source::{read, table as read_table, workbook};

/// Reads a table: the first byte says what kind of card it is for.
pub fn table(bytes: &[u8]) {
    let Some((kind, rest)) = bytes.split_first() else { return };
    let _ = workbook(rest);
    let Ok(table) = read_table(rest) else { return };
    let kind = ["panel", "board", "supply"][usize::from(*kind) % 3];
    let wish = Wish { kind, id: "new-card", file: "table.csv", columns: &[] };
    let Ok(card) = draft(&table, &LIBRARY.terms, &wish) else { return };
    assert!(read("card", &card.text).is_ok(), "{}", card.text);
}
