//! Cards added, changed and taken away: an index that is brought up to date answers as one that is made anew.

use super::demo::LIBRARY;
use std::collections::BTreeSet;
use wirelore::model::{Library, Note};
use wirelore::search::{Index, Lexicon, Question};

/// Words that cards are changed to, and that are asked for.
const WORDS: [&str; 8] =
    ["AUX+ 12 V out", "siren trigger", "fuse", "tamper return", "A-", "qqq", "zone 1", "STB- strobe"];

/// Changes cards, two bytes a step: which card, what becomes of it; every fourth step the index is brought up to date.
pub fn renew(bytes: &[u8]) {
    let mut library = small();
    let mut index = Index::build(&library).expect("an index");
    let mut changed = BTreeSet::new();
    for (at, step) in bytes.chunks_exact(2).take(16).enumerate() {
        changed.insert(change(&mut library, usize::from(step[0]), step[1]));
        if at % 4 == 3 {
            index = index.with_cards(&changed, &library, Lexicon::of(&library)).expect("an index");
        }
    }
    index = index.with_cards(&changed, &library, Lexicon::of(&library)).expect("an index");
    let fresh = Index::build(&library).expect("an index");
    for words in WORDS {
        let question = Question { words: words.into(), limit: 40, ..Question::default() };
        let both = [&index, &fresh].map(|index| format!("{:#?}", index.find(&question).expect("an answer")));
        assert!(both[0] == both[1], "{words}:\n{}\nfresh:\n{}", both[0], both[1]);
    }
}

/// A few cards of the demo library.
fn small() -> Library {
    let mut library = Library { terms: LIBRARY.terms.clone(), ..Library::default() };
    library.panels.extend(LIBRARY.panels.iter().take(3).map(|(id, card)| (id.clone(), card.clone())));
    library.devices.extend(LIBRARY.devices.iter().take(3).map(|(id, card)| (id.clone(), card.clone())));
    library
}

/// One step. Gives the card that changed.
fn change(library: &mut Library, which: usize, what: u8) -> String {
    let (id, card) = LIBRARY.panels.iter().nth(which % 5).expect("a panel");
    let word = WORDS[usize::from(what >> 3) % WORDS.len()];
    match what % 4 {
        0 => drop(library.panels.remove(id)),
        1 => drop(library.panels.insert(id.clone(), card.clone())),
        2 => {
            let mut card = card.clone();
            if let Some(terminal) = card.unit.terminals.get_mut(usize::from(what >> 5)) {
                terminal.does = Some(word.into());
            }
            library.panels.insert(id.clone(), card);
        }
        _ => {
            let note = Note {
                file: format!("2026-01-01-{what}.md"),
                about: None,
                date: None,
                by: None,
                job: None,
                how: None,
                agrees: None,
                pictures: Vec::new(),
                text: word.into(),
            };
            if library.panels.contains_key(id) {
                library.notes.entry(id.clone()).or_default().push(note);
            }
        }
    }
    if !library.panels.contains_key(id) {
        library.notes.remove(id);
    }
    id.clone()
}
