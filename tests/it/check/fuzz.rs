//! Spoilt files: whatever is cut out, put in or doubled, checking ends, and every fault lies within the file.

use super::within::lies_within;
use proptest::prelude::*;
use std::sync::OnceLock;
use wirelore::check;
use wirelore::model::Library;
use wirelore::source::{Files, SourceFile};

fn demo() -> &'static (Files, Library) {
    static DEMO: OnceLock<(Files, Library)> = OnceLock::new();
    DEMO.get_or_init(|| {
        let files = Files::embedded();
        let library = check::library(&files).value;
        (files, library)
    })
}

/// What a slip of the hand, or a hostile hand, puts into a file.
fn bits() -> impl Strategy<Value = String> {
    let known = [
        "[", "]", "{", "}", ":", ": ", "- ", "\n", "\n\n", "\t", "  ", "\"", "'", "#", "&a ", "*a", "|", ">", "---\n",
        "!!int ", "~", "none", "null", "true", "1e999", "-", "0 V", "join ", " for ", "\u{feff}", "\u{0}", "\u{202e}",
        "Ω", "<<: *a\n",
    ];
    prop_oneof![
        proptest::sample::select(known.to_vec()).prop_map(str::to_owned),
        "[ -~]{0,12}",
        any::<char>().prop_map(String::from)
    ]
}

/// Cuts out `cut` characters at a part of the text, and puts `put` there, as often as it says.
fn spoil(text: &str, edits: &[(f64, usize, String, usize)]) -> String {
    let mut letters: Vec<char> = text.chars().collect();
    for (part, cut, put, times) in edits {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            clippy::cast_precision_loss,
            reason = "a place in a small file"
        )]
        let at = ((letters.len() as f64 * part) as usize).min(letters.len());
        let to = (at + cut).min(letters.len());
        letters.splice(at..to, put.repeat(*times).chars());
    }
    letters.into_iter().collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_spoilt_file_is_no_more_than_faults(
        pick in any::<proptest::sample::Index>(),
        edits in proptest::collection::vec((0.0..1.0_f64, 0..40_usize, bits(), 1..4_usize), 1..5),
    ) {
        let (files, library) = demo();
        let paths: Vec<&String> = files.files.keys().collect();
        let path = (*pick.get(&paths)).clone();
        let bytes = files.files.get(&path).and_then(|bytes| bytes.as_ref().ok()).cloned().unwrap_or_default();
        let text = spoil(&String::from_utf8_lossy(&bytes), &edits);
        let faults = if path.starts_with("surveys/") {
            let file = SourceFile { path, bytes: Ok(text.clone().into_bytes()), in_library: true };
            check::survey(library, &file).faults
        } else {
            let mut one = Files::default();
            one.files.insert(path, Ok(text.clone().into_bytes()));
            check::library(&one).faults
        };
        let body = text.strip_prefix('\u{feff}').unwrap_or(&text);
        for fault in &faults {
            lies_within(fault, body);
        }
    }

    #[test]
    fn any_bytes_at_all(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        let library = Library::default();
        let file = SourceFile { path: "x.yaml".into(), bytes: Ok(bytes), in_library: false };
        prop_assert!(!check::survey(&library, &file).faults.is_empty());
    }
}
