//! A fault in a template.

use std::fmt;
use tera::{Error, ErrorKind};

/// A fault in a template, where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TemplateFault {
    /// The template's file name.
    pub file: String,
    /// The line, from 1; `None` when the fault has no one place.
    pub line: Option<usize>,
    /// The column, from 1.
    pub column: Option<usize>,
    /// What is wrong.
    pub message: String,
}

impl TemplateFault {
    /// The fault that the template engine reports; `file` is what was asked of it.
    #[must_use]
    pub(super) fn of(error: &Error, file: &str) -> Self {
        match error.kind() {
            ErrorKind::SyntaxError(report) | ErrorKind::RenderingError(report) => {
                let named = report.filename();
                Self {
                    file: if named.is_empty() { file } else { named }.to_string(),
                    line: Some(report.span().start_line),
                    column: Some(report.span().start_col + 1),
                    message: report.message().to_string(),
                }
            }
            ErrorKind::CircularExtend { tpl, .. } | ErrorKind::CircularInclude { tpl, .. } => {
                Self::without_place(tpl, &error.to_string())
            }
            ErrorKind::MissingParent { current, .. } => Self::without_place(current, &error.to_string()),
            ErrorKind::TemplateNotFound(name) => Self::without_place(name, "there is no template of this name"),
            _ => Self::without_place(file, &error.to_string()),
        }
    }

    /// A fault that has no one place in its file.
    #[must_use]
    pub(super) fn without_place(file: &str, message: &str) -> Self {
        Self { file: file.to_string(), line: None, column: None, message: message.to_string() }
    }
}

impl fmt::Display for TemplateFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.line, self.column) {
            (Some(line), Some(column)) => write!(f, "{}:{line}:{column}: {}", self.file, self.message),
            _ => write!(f, "{}: {}", self.file, self.message),
        }
    }
}

impl std::error::Error for TemplateFault {}
