//! Mail addresses: `km@ferrow.example`, and the ways in which people write them to be safe from machines.

use super::text::{Forms, Pattern};
use std::ops::Range;

/// With a sign for *at*. The last part has letters alone, so that `350 mA@13.7 V` is no address.
static SIGNED: Pattern = Pattern::new(|| {
    String::from(
        r"(?i)(?:mailto:)?[\p{L}\d._%+'-]+\s*(?:@|\(at\)|\[at\]|\{at\})\s*[\p{L}\d-]+(?:\s?(?:\.|\(dot\)|\[dot\]|\{dot\})\s?[\p{L}\d-]+)*\s?(?:\.|\(dot\)|\[dot\]|\{dot\})\s?\p{L}{2,}",
    )
});

/// In words: `r.stone at ferrow dot example`.
static SPOKEN: Pattern =
    Pattern::new(|| String::from(r"(?i)\b[\p{L}\d._%+-]+ at [\p{L}\d-]+(?: dot [\p{L}\d-]+)* dot \p{L}{2,}\b"));

/// Every form that one has.
pub(super) static FORMS: Forms = Forms::new(&[&SIGNED, &SPOKEN]);

/// The mail addresses in a text.
pub(super) fn found(text: &str) -> Vec<Range<usize>> {
    FORMS.places(text)
}
