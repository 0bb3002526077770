//! Sections: what stands under a heading of the second level, and the parts of one, under those of the third. Each has an
//! element of its own, so that a sheet of paper can begin with it or hold it together.

use crate::render::escape;
use pulldown_cmark::HeadingLevel;

/// The sections of a page while it is written.
#[derive(Debug, Default)]
pub(super) struct Sections {
    /// Whether the first one has begun.
    pub(super) has_begun: bool,
    in_part: bool,
}

impl Sections {
    /// What stands before a heading: the end of what it ends, the beginning of what it begins.
    pub(super) fn begins(&mut self, level: HeadingLevel, id: &str) -> Option<String> {
        let begins = match level {
            HeadingLevel::H2 => format!("<section class=\"{}\">\n", escape::html(id)),
            HeadingLevel::H3 if self.has_begun => "<div class=\"part\">\n".to_string(),
            _ => return None,
        };
        let ended = match level {
            HeadingLevel::H2 => self.end(),
            _ => self.end_of_part().to_string(),
        };
        self.has_begun = true;
        self.in_part = level == HeadingLevel::H3;
        Some(ended + &begins)
    }

    /// What ends all that has begun.
    pub(super) fn end(&self) -> String {
        let section = if self.has_begun { "</section>\n" } else { "" };
        format!("{}{section}", self.end_of_part())
    }

    fn end_of_part(&self) -> &'static str {
        if self.in_part { "</div>\n" } else { "" }
    }
}
