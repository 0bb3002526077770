//! What the cards of packs do not know, for the page beside the index. It is kept with each pack, a line for each gap, so
//! that packs that are not built again still count.

use crate::gaps::{Gap, Kind, Relied, gaps};
use crate::model::{Job, Library, Survey};
use crate::pack::gaps::GapsView;
use jiff::civil::Date;
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// A gap as a line says it: its kind's word, the card, the mark, what is not known, how many packs rest on it.
type Line = (String, String, Option<String>, String, usize);

/// What is not known of the cards that a survey uses. `date` is the one that the pack prints: without it, no note is old,
/// for the same run gives the same page on any day.
pub(super) fn lines(library: &Library, survey: &Survey, date: Option<Date>) -> Vec<String> {
    let relied = Relied::of(Job::new(library, survey));
    let mut found = gaps(library, &relied, date);
    found.retain(|gap| relied.card(&gap.card) > 0);
    found.iter().map(line).collect()
}

/// The gaps of some lines, each once with how many packs rest on it, in order of harm; of one kind, what most packs rest
/// on first, then by card, then as they first came.
pub(super) fn added<'l>(lines: impl Iterator<Item = &'l str>) -> Vec<Gap> {
    let mut added: Vec<Gap> = Vec::new();
    let mut places: BTreeMap<(Kind, String, Option<String>, String), usize> = BTreeMap::new();
    for gap in times(lines).filter_map(|(line, times)| gap(line, times)) {
        let key = (gap.kind, gap.card.clone(), gap.about.clone(), gap.says.clone());
        let place = *places.entry(key).or_insert(added.len());
        match added.get_mut(place) {
            Some(known) => known.packs += gap.packs,
            None => added.push(gap),
        }
    }
    added.sort_by(|a, b| (a.kind, Reverse(a.packs), &a.card).cmp(&(b.kind, Reverse(b.packs), &b.card)));
    added
}

/// Every line once, in the order in which they first come, and how often it does: many packs have the same, and reading
/// one takes longer than counting it.
fn times<'l>(lines: impl Iterator<Item = &'l str>) -> impl Iterator<Item = (&'l str, usize)> {
    let mut places: BTreeMap<&str, usize> = BTreeMap::new();
    let mut all: Vec<(&str, usize)> = Vec::new();
    for line in lines {
        let place = *places.entry(line).or_insert(all.len());
        match all.get_mut(place) {
            Some((_, times)) => *times += 1,
            None => all.push((line, 1)),
        }
    }
    all.into_iter()
}

/// The page over packs, with the lines that `index.json` has of it.
pub(super) fn page(added: &[Gap], packs: usize, date: Option<Date>) -> (GapsView, Vec<String>) {
    (GapsView::new(added, packs, date), added.iter().map(line).collect())
}

/// The lines of an `index.json`, and the date that its packs print.
pub(super) fn of_index(bytes: &[u8]) -> (Vec<String>, Option<Date>) {
    let index: serde_json::Value = serde_json::from_slice(bytes).unwrap_or_default();
    let lines = index.get("gaps").and_then(serde_json::Value::as_array).into_iter().flatten();
    let date = index.get("date").and_then(serde_json::Value::as_str).and_then(|date| date.parse().ok());
    (lines.map(ToString::to_string).collect(), date)
}

fn line(gap: &Gap) -> String {
    serde_json::to_string(&(gap.kind.word(), &gap.card, &gap.about, &gap.says, gap.packs)).unwrap_or_default()
}

fn gap(line: &str, times: usize) -> Option<Gap> {
    let (word, card, about, says, packs): Line = serde_json::from_str(line).ok()?;
    let kind = Kind::ALL.into_iter().find(|kind| kind.word() == word)?;
    Some(Gap { kind, card, about, says, packs: packs.saturating_mul(times) })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gap_of_two_packs_is_one_line_that_counts_both() {
        let gap = |kind, card: &str, packs| Gap {
            kind,
            card: card.to_string(),
            about: None,
            says: "which \"fuse\"".to_string(),
            packs,
        };
        let lines =
            [gap(Kind::Fuse, "b", 1), gap(Kind::Mains, "c", 1), gap(Kind::Fuse, "a", 1), gap(Kind::Fuse, "b", 1)];
        let lines: Vec<String> = lines.iter().map(line).collect();
        let added = added(lines.iter().map(String::as_str).chain(["damaged"]));
        assert_eq!(added, [gap(Kind::Mains, "c", 1), gap(Kind::Fuse, "b", 2), gap(Kind::Fuse, "a", 1)]);
    }
}
