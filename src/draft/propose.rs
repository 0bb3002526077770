//! What the words of a table suggest. The rings say which words stand for each other, not what a terminal does: each
//! of these is a proposal, for a person to confirm.

use crate::model::{Group, Terms};

/// What a terminal may be for, by the words that speak for it: all of them must.
const PLACES: [(&str, &[&str]); 8] = [
    ("siren.hold_off", &["hold-off"]),
    ("siren.triggers", &["trigger"]),
    ("siren.tamper", &["siren", "tamper"]),
    ("mains.terminals", &["mains"]),
    ("power.out", &["supply"]),
    ("power.battery.terminals", &["battery"]),
    ("tamper.terminals", &["tamper"]),
    ("keypad", &["keypad"]),
];

/// The rings of a library, in small letters.
#[derive(Debug)]
pub(super) struct Rings {
    rings: Vec<Vec<String>>,
}

impl Rings {
    /// The rings of words that stand for each other.
    pub(super) fn new(terms: &Terms) -> Self {
        let rings = terms.rings.iter().map(|ring| ring.iter().map(|word| folded(word)).collect()).collect();
        Self { rings }
    }

    /// The groups that a text may speak of, each with the word that says so, in the order of the groups.
    pub(super) fn groups(&self, text: &str) -> Vec<(&'static str, &str)> {
        let text = folded(text);
        let names = Group::WORDS.iter().map(|(name, _)| *name).filter(|name| *name != "other" && *name != "output");
        names.filter_map(|name| Some((name, self.said(&text, name)?))).collect()
    }

    /// The places on a card that a text may speak of.
    pub(super) fn places(&self, text: &str) -> Vec<&'static str> {
        let text = folded(text);
        let all = |words: &[&str]| words.iter().all(|word| self.said(&text, word).is_some());
        PLACES.iter().filter(|(_, words)| all(words)).map(|(place, _)| *place).collect()
    }

    /// The word of a text, of those that stand for `name`.
    fn said(&self, text: &str, name: &str) -> Option<&str> {
        let stands =
            |ring: &&Vec<String>| ring.iter().any(|entry| entry == name || entry.split(' ').any(|w| w == name));
        let mut entries = self.rings.iter().filter(stands).flatten();
        entries.find(|entry| has(text, entry)).map(String::as_str)
    }
}

/// Small letters, one space between words, `12 v` as `12v`.
fn folded(text: &str) -> String {
    let lower = text.to_lowercase();
    let parts = lower.split(|c: char| !(c.is_alphanumeric() || "+-/".contains(c))).filter(|part| !part.is_empty());
    let mut out = String::new();
    for part in parts {
        let follows = part == "v" && out.ends_with(|c: char| c.is_ascii_digit());
        if !out.is_empty() && !follows {
            out.push(' ');
        }
        out.push_str(part);
    }
    out
}

/// Whether a text has these words, one after the other; a word of three letters or more may have an `s` after it.
fn has(text: &str, words: &str) -> bool {
    let ends = |rest: &str| rest.is_empty() || rest.starts_with(' ');
    text.match_indices(words).any(|(at, _)| {
        let begins = text.get(..at).is_some_and(|head| head.is_empty() || head.ends_with(' '));
        let rest = text.get(at + words.len()..).unwrap_or_default();
        let several = words.len() > 2 && rest.strip_prefix('s').is_some_and(ends);
        begins && !words.is_empty() && (ends(rest) || several)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rings() -> Rings {
        let ring = |words: &str| words.split(", ").map(str::to_owned).collect();
        let rings = ["strobe, stb, flash", "siren, sounder, bell", "hold-off, h/o", "tamper, tmp", "trigger, trg"];
        let more = ["auxiliary, 12v out, detector supply", "battery, batt", "mains, 230v", "earth, pe", "zone, loop"];
        Rings::new(&Terms { rings: rings.into_iter().chain(more).map(ring).collect() })
    }

    #[test]
    fn groups_follow_the_words_of_the_rings() {
        let rings = rings();
        let groups = |text: &str| rings.groups(text).into_iter().map(|(group, _)| group).collect::<Vec<_>>();
        assert_eq!(groups("Flash trigger"), ["strobe"]);
        assert_eq!(groups("12 V out to detectors"), ["supply"]);
        assert_eq!(groups("Bell tamper"), ["siren", "tamper"]);
        assert_eq!(groups("Mains earth"), ["mains", "earth"]);
        assert_eq!(groups("Batteries not included"), Vec::<&str>::new());
        assert_eq!(rings.places("External sounder hold-off positive"), ["siren.hold_off"]);
        assert_eq!(rings.places("Bell TMP"), ["siren.tamper", "tamper.terminals"]);
    }
}
