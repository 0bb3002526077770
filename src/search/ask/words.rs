//! The words of a question that say how it asks, not what about.

use crate::search::entry::Kind;
use crate::search::text::stem;

/// Words that ask and do not name. One of them may still be a mark (`A`, `IN`).
pub(in crate::search) const FILLERS: [&str; 62] = [
    "a", "an", "and", "any", "are", "as", "at", "be", "been", "but", "by", "can", "could", "did", "do", "does", "for",
    "from", "get", "gets", "give", "gives", "go", "goes", "had", "has", "have", "how", "i", "if", "in", "is", "it",
    "its", "me", "my", "of", "on", "or", "please", "should", "show", "tell", "that", "the", "their", "there", "these",
    "this", "to", "was", "were", "what", "whats", "when", "where", "which", "who", "why", "will", "with", "you",
];

/// Words that may help and need not be found: what people call the thing they stand before.
pub(in crate::search) const WEAK: [&str; 13] = [
    "board", "label", "marked", "model", "panel", "print", "printed", "says", "screw", "still", "terminal", "unit",
    "wire",
];

/// Words that name a kind of fact.
pub(in crate::search) const KINDS: [(&str, Kind); 18] = [
    ("fuse", Kind::Fuse),
    ("blown", Kind::Fuse),
    ("blow", Kind::Fuse),
    ("blew", Kind::Fuse),
    ("popped", Kind::Fuse),
    ("zone", Kind::Zone),
    ("link", Kind::Link),
    ("jumper", Kind::Link),
    ("switch", Kind::Link),
    ("marking", Kind::Marking),
    ("caution", Kind::Caution),
    ("warning", Kind::Caution),
    ("danger", Kind::Caution),
    ("note", Kind::Note),
    ("terminal", Kind::Terminal),
    ("screw", Kind::Terminal),
    ("siren wiring", Kind::Siren),
    ("sounder wiring", Kind::Siren),
];

/// Whether a word only asks.
pub(super) fn is_filler(word: &str) -> bool {
    FILLERS.contains(&word)
}

/// Whether a word need not be found.
pub(super) fn is_weak(word: &str) -> bool {
    WEAK.contains(&word)
}

/// The kind of fact that these words name.
pub(in crate::search) fn kind(words: &str) -> Option<Kind> {
    let stemmed = stem(words);
    KINDS.iter().find(|(name, _)| *name == words || stem(name) == stemmed).map(|(_, kind)| *kind)
}
