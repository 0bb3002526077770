//! Whether a fault lies within its file.

use wirelore::diagnostics::{Fault, draw};

/// A fault has a place in the text and can be drawn.
pub(crate) fn lies_within(fault: &Fault, text: &str) {
    let lines = text.split('\n').count();
    assert!(fault.line >= 1 && fault.line <= lines && fault.column >= 1 && fault.length >= 1, "{fault:?}");
    let line = text.split('\n').nth(fault.line - 1).unwrap_or_default();
    assert!(fault.column <= line.chars().count() + 1, "{fault:?}");
    assert!(!draw(fault, false).is_empty());
}
