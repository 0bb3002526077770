//! What someone looked at and answers for: the finding stays in the pack, as a note.

use super::{Code, Finding, Level};
use crate::model::Settled;

/// The codes that can be settled on site. The rest is cured in the data.
pub const CODES: [Code; 10] = [
    "ac-on-cable",
    "confirm-on-site",
    "cutoff-assumed",
    "fuse-blown",
    "fuse-larger",
    "loop-high",
    "loop-low",
    "loop-open",
    "not-measured",
    "quiet-not-known",
];

/// Turns every finding that a settled entry names into a note that says what was found and by whom. An entry that
/// names no finding changes nothing.
pub(super) fn settle(settled: &[Settled], findings: Vec<Finding>) -> Vec<Finding> {
    findings
        .into_iter()
        .map(|finding| match answers(settled, &finding) {
            answers if answers.is_empty() => finding,
            answers => as_note(finding, &answers),
        })
        .collect()
}

/// The entries that settle a finding.
fn answers<'a>(settled: &'a [Settled], finding: &Finding) -> Vec<&'a Settled> {
    let names = |s: &&Settled| s.code == finding.code && s.about == finding.about;
    settled.iter().filter(names).filter(|s| CODES.contains(&s.code.as_str())).collect()
}

/// The finding as a note: what was found and by whom, then what was wrong, without the act that would settle it.
fn as_note(finding: Finding, answers: &[&Settled]) -> Finding {
    let who = |s: &Settled| s.by.clone().unwrap_or_else(|| "name not given".into());
    let found: Vec<String> = answers.iter().map(|s| format!("Settled by {}: {}.", who(s), bare(&s.says))).collect();
    let wrong = finding.says.split_once(". ").map_or(finding.says.as_str(), |(wrong, _)| wrong);
    let says = format!("{} It was: {}.", found.join(" "), bare(wrong));
    Finding { says, ..finding }.at(Level::Note)
}

/// A sentence without its full stop.
fn bare(says: &str) -> &str {
    says.trim().trim_end_matches('.')
}
