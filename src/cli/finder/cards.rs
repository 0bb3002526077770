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
        for folder in FOLDERS.into_iter().filter_map(|name| manifest.folder(name)) {
            let near = folder.files.named_from(card).take_while(|file| file.name.starts_with(card.as_str()));
            let own = near.filter(|file| stem(file.name) == card && ends_in_yaml(file.name));
            paths.extend(own.map(|file| folder.path(file.name)));
        }
        let notes = manifest.folder(&format!("notes/{card}"));
        paths.extend(notes.into_iter().flat_map(|notes| notes.files.iter().map(|file| notes.path(file.name))));
    }
    paths
}

/// The ids of all cards, and the paths of all files that belong to none: rings of words, rules, notes of a card that is
/// not there, cards that lie deeper than they should.
pub(super) fn divided(manifest: &Manifest) -> (BTreeSet<String>, Vec<String>) {
    let of_card = |path: &String| match path.split_once('/') {
        Some((folder, name)) if FOLDERS.contains(&folder) && !name.contains('/') => Some(stem(name).to_string()),
        _ => None,
    };
    let ids: BTreeSet<String> = manifest.paths().filter_map(|path| of_card(&path)).collect();
    let is_other = |path: &String| match path.split('/').collect::<Vec<_>>().as_slice() {
        ["notes", card, _] => !ids.contains(*card),
        _ => of_card(path).is_none(),
    };
    let others = manifest.paths().filter(is_other).collect();
    (ids, others)
}

/// How many cards can be found, given the files that have faults.
pub(super) fn count(manifest: &Manifest, faults: &BTreeMap<String, usize>) -> usize {
    let folders = || FOUND.into_iter().filter_map(|name| manifest.folder(name));
    let files: usize = folders().map(|folder| folder.files.len()).sum();
    let of_folder = |path: &&String| folders().any(|folder| path.strip_prefix(&folder.path("")).is_some());
    files.saturating_sub(faults.keys().filter(of_folder).filter(|path| manifest.file(path).is_some()).count())
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
