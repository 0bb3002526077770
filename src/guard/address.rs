//! Streets with a house number, in the ways of several countries.

use super::text::{Forms, Pattern, at};
use std::ops::Range;

/// As an address is written: `27 Mackerel Close`, `No. 8 Anchor Mews`.
static WRITTEN: Pattern = Pattern::new(|| {
    String::from(
        r"\b(?:(?:No\.?|no\.?|Nr\.?)\s?)?\d{1,4}[A-Za-z]?,?\s+(?:\p{Lu}[\p{L}'’.-]+\s+){1,3}(?:Street|Str?|Road|Rd|Lane|Ln|Avenue|Ave|Close|Court|Ct|Drive|Dr|Crescent|Cres|Terrace|Place|Square|Sq|Gardens|Gdns|Grove|Mews|Parade|Quay|Wharf|Hill|Walk|Row|Rise|Yard|Green|Steps|Slipway|Boulevard|Blvd|Way)\b",
    )
});

/// As it is typed with one thumb: `14 gull lane`. Only words that are hardly anything but streets.
static TYPED: Pattern = Pattern::new(|| {
    String::from(
        r"(?i)\b\d{1,4}[a-z]?,?\s+(?P<name>\p{L}{3,}(?:\s\p{L}{3,})?)\s(?:street|road|lane|avenue|crescent|terrace|gardens|mews|grove)\b",
    )
});

/// `Heringstraße 12`.
static NUMBER_LAST: Pattern = Pattern::new(|| {
    String::from(
        r"\b\p{Lu}\p{L}+(?:straße|strasse|str\.|gasse|platz|allee|weg|straat|kade|gatan|vägen|gade|vej)\s+\d{1,4}[a-z]?\b",
    )
});

/// `12 rue de la Criée`.
static RUE: Pattern = Pattern::new(|| {
    String::from(
        r"(?i)\b\d{1,4}(?:\s?(?:bis|ter))?,?\s+(?:rue|boulevard|chemin|quai|impasse|via|calle)\s+(?:(?:de|du|des|la|le|les|della)\s+|l['’])*\p{L}+\b",
    )
});

/// Every form that one has.
pub(super) static FORMS: Forms = Forms::new(&[&WRITTEN, &TYPED, &NUMBER_LAST, &RUE]);

/// Words that no street is named by, but that stand between a number and a street word in other sentences.
const NO_NAME: [&str; 15] = [
    "the", "this", "that", "and", "way", "wire", "core", "block", "off", "down", "into", "along", "side", "for", "from",
];

/// The addresses in a text.
pub(super) fn found(text: &str) -> Vec<Range<usize>> {
    let typed = TYPED.all(text).filter_map(|found| {
        let name = found.name("name")?.as_str().to_lowercase();
        let is_name = !name.split_whitespace().any(|word| NO_NAME.contains(&word));
        found.get(0).filter(|_| is_name).map(|whole| whole.range())
    });
    let mut all: Vec<Range<usize>> = typed.collect();
    for pattern in [&WRITTEN, &NUMBER_LAST, &RUE] {
        all.extend(pattern.places(text));
    }
    all.retain(|place| !follows_a_point(text, place));
    all
}

/// Whether a place begins within a decimal number: the `5` of `0.5`.
fn follows_a_point(text: &str, place: &Range<usize>) -> bool {
    at(text, 0..place.start).ends_with(['.', ',', '/', ':'])
}
