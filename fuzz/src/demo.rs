//! The demo library, read once.

use std::sync::LazyLock;
use wirelore::check;
use wirelore::model::Library;
use wirelore::source::Files;

/// Its files.
pub(crate) static FILES: LazyLock<Files> = LazyLock::new(Files::embedded);
/// Its cards.
pub(crate) static LIBRARY: LazyLock<Library> = LazyLock::new(|| check::library(&FILES).value);

/// The text of one of its files.
pub(crate) fn text(path: &str) -> &'static str {
    let bytes = FILES.files.get(path).and_then(|bytes| bytes.as_ref().ok());
    bytes.and_then(|bytes| std::str::from_utf8(bytes).ok()).unwrap_or_default()
}
