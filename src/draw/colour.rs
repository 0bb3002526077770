//! Core colours on paper and on screens: a core is drawn as a line in its colour between two thin edges in the colour of
//! the writing, so that white shows on white paper, black on a dark screen, and all of them in grey.

use crate::pack::CoreName;
use crate::wording::COLOURS;

/// The colour of each code of IEC 60757 on a screen.
const SHADES: [(&str, &str); 14] = [
    ("BK", "#111"),
    ("BN", "#7a4a1e"),
    ("RD", "#d4161c"),
    ("OG", "#f08010"),
    ("YE", "#ffe11a"),
    ("GN", "#12903c"),
    ("BU", "#1d5fd0"),
    ("VT", "#8a2fb0"),
    ("GY", "#8c8c8c"),
    ("WH", "#fff"),
    ("PK", "#f79ac0"),
    ("TQ", "#19b8b8"),
    ("SR", "#c4c8cc"),
    ("GD", "#c9a227"),
];

/// The rules that give each code its colour.
pub(super) fn rules() -> String {
    let rules: Vec<String> =
        SHADES.iter().map(|(code, shade)| format!(".wiring .{code}{{stroke:{shade}}}\n")).collect();
    rules.concat()
}

/// The codes of a core's colours: base and, for a two-colour core, stripe. None for a colour without a code.
pub(super) fn codes(core: &CoreName) -> impl Iterator<Item = &'static str> {
    let of = |word: &str| COLOURS.iter().find(|(name, _)| *name == word).map(|(_, code)| *code);
    core.word.split('/').filter_map(of)
}

/// What stands beside a core: its code, or its word where the colour has none.
pub(super) fn beside(core: Option<&CoreName>) -> &str {
    match core {
        None => "wire",
        Some(core) if core.code.is_empty() => &core.word,
        Some(core) => &core.code,
    }
}
