//! A table while it is written.

/// A table while it is written.
#[derive(Debug, Default)]
pub(super) struct Table {
    /// How many columns it has.
    pub(super) columns: usize,
    /// The footnotes that the current row points to.
    pub(super) pointed: Vec<String>,
    /// The words of the current row's cells so far.
    pub(super) words: String,
}

impl Table {
    /// What stands before a table: a box in which it scrolls, which the keyboard reaches too.
    pub(super) const OPEN: &'static str = "<div class=\"table\" tabindex=\"0\">";
    /// What stands after it.
    pub(super) const CLOSE: &'static str = "</div>\n";

    /// An opening row under the current one.
    pub(super) fn opening_row(&self, details: &str) -> String {
        format!("<tr class=\"why\"><td colspan=\"{}\">{details}</td></tr>\n", self.columns)
    }
}
