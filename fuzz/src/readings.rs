//! The file of readings that a page on a phone saves, read back: whatever is in it, it is readings or faults.

use wirelore::check;
use wirelore::diagnostics::draw;

/// Reads a file of readings.
pub fn readings(bytes: &[u8]) {
    let checked = check::readings("left.json", bytes);
    for fault in checked.faults.iter().take(50) {
        assert!(!draw(fault, false).chars().any(|c| c != '\n' && c.is_control()));
    }
    assert_eq!(checked.faults, check::readings("left.json", bytes).faults);
}
