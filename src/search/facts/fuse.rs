//! A fuse: what it is, what it guards, what to check when it has blown.

use super::{Owner, sentences};
use crate::model::{Fuse, Panel, Terminal, Unit};
use crate::search::entry::{Entry, Kind};
use crate::search::{danger, known_at};

/// A fuse with its rating, for a line of a hit.
pub(super) fn named(unit: &Unit, mark: &str) -> String {
    match unit.fuse(mark) {
        Some(fuse) => format!("{mark} ({})", rating(fuse)),
        None => mark.to_string(),
    }
}

/// Rating, speed and size of a fuse; what is not known is said.
fn rating(fuse: &Fuse) -> String {
    let rating = fuse.rating.map_or_else(|| "rating not known".to_string(), |r| r.to_string());
    let speed = fuse.speed.map(|s| s.word().to_string());
    [Some(rating), speed, fuse.size.clone()].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// The fact of a fuse.
pub(super) fn entry(owner: &Owner<'_>, unit: &Unit, panel: Option<&Panel>, fuse: &Fuse) -> Entry {
    let guarded: Vec<&Terminal> =
        unit.terminals.iter().filter(|t| t.fuse.as_deref() == Some(fuse.mark.as_str())).collect();
    let marks: Vec<String> = guarded.iter().map(|t| t.mark.clone()).collect();
    let guards =
        fuse.guards.as_ref().map_or_else(|| "What it guards is not known".to_string(), |g| format!("Guards {g}"));
    let place = fuse.place.as_ref().map(|p| format!("Where: {p}"));
    let terminals = (!marks.is_empty()).then(|| format!("Terminals {}", marks.join(", ")));
    let parts = [Some(rating(fuse)), Some(guards), terminals, place].into_iter().flatten();
    let mut entry = owner.entry(Kind::Fuse, Some(&fuse.mark), sentences(parts));
    let dangers = danger::of_fuse(unit, panel, &fuse.mark);
    entry.hit.danger = (!dangers.is_empty()).then(|| dangers.join("; "));
    entry.hit.fuse = Some(named(unit, &fuse.mark));
    entry.hit.check = Some(check(fuse, &guarded));
    entry.hit.known = Some(known_at(&fuse.cite, fuse.evidence));
    entry.related = marks;
    let does = guarded.iter().filter_map(|t| t.does.as_deref());
    entry.extra = does.chain(["rating speed size"]).collect::<Vec<_>>().join(" ");
    entry
}

/// What to check when a fuse has blown (common practice).
fn check(fuse: &Fuse, guarded: &[&Terminal]) -> String {
    let behind: Vec<String> = guarded
        .iter()
        .map(|t| t.volts.map_or_else(|| format!("{} (volts not known)", t.mark), |volts| format!("{} {volts}", t.mark)))
        .collect();
    let behind = if behind.is_empty() {
        String::new()
    } else {
        format!("; with a sound one, behind it stand {}", behind.join(", "))
    };
    format!(
        "supplies off and proved dead, out of its holder: a sound fuse reads near 0 \u{3a9}{behind}; fit the same \
         again ({}), never a larger one; if that goes too, find the cause first (common practice)",
        rating(fuse)
    )
}
