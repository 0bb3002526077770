//! A form that somebody filled in, read back: whatever stands in its cells, it becomes a survey or faults.

use super::demo::LIBRARY;
use super::texts::texts;
use std::sync::LazyLock;
use wirelore::check::{self, form_survey};
use wirelore::pack::sheet::form::form as form_view;
use wirelore::pack::sheet::{Wanted, usual_cables};
use wirelore::render;
use wirelore::source::{SourceFile, Workbook, Written, workbook};

/// The blank form of a demo panel, read back.
static FORM: LazyLock<Workbook> = LazyLock::new(|| {
    let panel = LIBRARY.panels.get("merrowby-mb6");
    let cables = usual_cables(panel);
    let view = form_view(&Wanted { library: &LIBRARY, panel, name: "", board: LIBRARY.boards.values().next(), cables });
    workbook(&render::form(&view).expect("a form")).expect("it is read")
});

/// Fills in cells: the first byte says how many, then three bytes a cell (sheet, row, column), then their texts.
pub fn form(bytes: &[u8]) {
    let Some((count, rest)) = bytes.split_first() else { return };
    let count = usize::from(*count) % 64;
    let (places, words) = rest.split_at_checked(count * 3).unwrap_or((rest, &[]));
    let texts = texts(words);
    let mut book = FORM.clone();
    for (place, text) in places.chunks_exact(3).zip(texts.iter().cycle()) {
        let sheets = book.sheets.len();
        let sheet = &mut book.sheets[usize::from(place[0] & 15) % sheets];
        let written = Written { text: text.trim().to_owned(), number: place[0] & 16 != 0 };
        let at = (u32::from(place[1]), u32::from(place[2] % 32));
        if written.text.is_empty() { drop(sheet.cells.remove(&at)) } else { drop(sheet.cells.insert(at, written)) }
    }
    let read = form_survey(&LIBRARY, &book, "job");
    if read.faults.is_empty() {
        let file = SourceFile { path: "x.yaml".into(), bytes: Ok(read.text.into_bytes()), in_library: false };
        assert!(check::survey(&LIBRARY, &file).value.is_some());
    }
}
