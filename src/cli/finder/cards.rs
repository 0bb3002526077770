//! Which cards some files belong to, and which files some cards are made of.

use crate::source::ends_in_yaml;
use crate::store::Manifest;
use std::collections::{BTreeMap, BTreeSet};

/// The folders of cards that a search finds.
const FOUND: [&str; 4] = ["boards", "devices", "panels", "supplies"];
/// All folders of cards: no two cards have one id.
const FOLDERS: [&str; 5] = ["boards", "cables", "devices", "panels", "supplies"];

/// How many cards of a library are changed one by one; for more it is quicker to make the index anew, and questions are
/// answered more quickly then.
pub(super) fn most(cards: usize) -> usize {
    (cards / 20).max(64)
}

/// The cards that these files belong to. Rules belong to none. `None`: a file that concerns more than a card.
pub(super) fn of_paths(paths: &BTreeSet<String>) -> Option<BTreeSet<String>> {
    let mut cards = BTreeSet::new();
    for path in paths {
        match path.split('/').collect::<Vec<_>>().as_slice() {
            ["rules", name] if ends_in_yaml(name) => {}
            ["notes", card, name] if ends_in(name, "md") => {
                cards.insert((*card).to_string());
            }
            [folder, name] if FOLDERS.contains(folder) && ends_in_yaml(name) => {
                cards.insert(stem(name).to_string());
            }
            _ => return None,
        }
    }
    Some(cards)
}

/// The paths of all files that some cards are made of, their notes among them.
pub(super) fn files(manifest: &Manifest, cards: &BTreeSet<String>) -> Vec<String> {
    let mut paths = Vec::new();
    for card in cards {
        for folder in FOLDERS {
            let is_own = |path: &&str| of_card(path) == Some(card) && ends_in_yaml(path);
            paths.extend(manifest.files_beginning(&format!("{folder}/{card}")).filter(is_own).map(ToString::to_string));
        }
        paths.extend(manifest.files_in(&format!("notes/{card}")).map(ToString::to_string));
    }
    paths
}

/// The ids of all cards, and the paths of all files that belong to none: rings of words, rules, notes of a card that is
/// not there, cards that lie deeper than they should.
pub(super) fn divided(manifest: &Manifest) -> (BTreeSet<String>, Vec<String>) {
    let ids: BTreeSet<String> = manifest.files().filter_map(of_card).map(ToString::to_string).collect();
    let is_other = |path: &&str| match path.split('/').collect::<Vec<_>>().as_slice() {
        ["notes", card, _] => !ids.contains(*card),
        _ => of_card(path).is_none(),
    };
    let others = manifest.files().filter(is_other).map(ToString::to_string).collect();
    (ids, others)
}

/// The id of the card whose file this is.
fn of_card(path: &str) -> Option<&str> {
    let (folder, name) = path.split_once('/')?;
    (FOLDERS.contains(&folder) && !name.contains('/')).then(|| stem(name))
}

/// How many cards can be found, given the files that have faults.
pub(super) fn count(manifest: &Manifest, faults: &BTreeMap<String, usize>) -> usize {
    let files: usize = FOUND.into_iter().map(|folder| manifest.files_in(folder).count()).sum();
    let is_found = |path: &&String| path.split_once('/').is_some_and(|(folder, _)| FOUND.contains(&folder));
    files.saturating_sub(faults.keys().filter(is_found).filter(|path| manifest.file(path).is_some()).count())
}

fn ends_in(name: &str, ending: &str) -> bool {
    name.rsplit_once('.').is_some_and(|(_, found)| found.eq_ignore_ascii_case(ending))
}

fn stem(name: &str) -> &str {
    name.rsplit_once('.').map_or(name, |(stem, _)| stem)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cards(paths: &[&str]) -> Option<Vec<String>> {
        of_paths(&paths.iter().map(ToString::to_string).collect()).map(|cards| cards.into_iter().collect())
    }

    #[test]
    fn knows_whose_a_file_is() {
        let found = cards(&["panels/a-1.yaml", "notes/b/2026-11-03-x.md", "rules/en-50131.yaml"]);
        assert_eq!(found, Some(vec!["a-1".to_string(), "b".to_string()]));
        for odd in ["terms.yaml", "panels/old/a.yaml", "panels/a.yml", "panels/.", "notes/a/.", "notes/a/b/c.md"] {
            assert_eq!(cards(&[odd]), None, "{odd}");
        }
    }
}
