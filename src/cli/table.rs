//! Columns that line up.

/// Rows under a heading, every column as wide as its widest cell and two spaces between. A column without a single
/// cell is left out; no rows give no text.
pub(super) fn table(heading: &[&str], rows: &[Vec<String>]) -> String {
    if rows.is_empty() {
        return String::new();
    }
    let heading: Vec<String> = heading.iter().map(|h| (*h).to_string()).collect();
    let cell = |row: &[String], column: usize| row.get(column).map(|c| one_line(c)).unwrap_or_default();
    let used: Vec<usize> =
        (0..heading.len()).filter(|column| rows.iter().any(|row| !cell(row, *column).is_empty())).collect();
    let width = |column: usize| {
        let cells = rows.iter().map(|row| cell(row, column)).chain([cell(&heading, column)]);
        cells.map(|c| c.chars().count()).max().unwrap_or(0)
    };
    let widths: Vec<(usize, usize)> = used.iter().map(|column| (*column, width(*column))).collect();
    let mut text = String::new();
    for row in std::iter::once(&heading).chain(rows) {
        let cells: Vec<String> =
            widths.iter().map(|(column, width)| format!("{:<width$}", cell(row, *column), width = *width)).collect();
        text.push_str("  ");
        text.push_str(cells.join("  ").trim_end());
        text.push('\n');
    }
    text
}

fn one_line(cell: &str) -> String {
    cell.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::table;

    #[test]
    fn columns_line_up_and_empty_ones_go() {
        let rows =
            [vec!["A+".to_string(), String::new(), "feeds".to_string()], vec!["STB".into(), String::new(), "x".into()]];
        assert_eq!(table(&["mark", "volts", "does"], &rows), "  mark  does\n  A+    feeds\n  STB   x\n");
    }
}
