//! A library for a page that has nothing but itself: its facts with the words they are found under, its cards with their
//! notes and pictures, and the numbers of its calculators. [`pocket`] makes them; the page's script only looks up, merges
//! and weighs.

mod facts;
mod figures;
mod index;
mod keys;
mod lines;
mod pack;
mod postings;
mod stems;

use crate::model::Library;
use crate::pack::notes::NoteView;
use crate::pack::{PictureFile, place_pictures};
use crate::search::{self, HABITS, Hit, Kind};
pub use pack::Pack;
use serde_json::json;
use std::collections::{BTreeMap, BTreeSet};

/// What the page holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pocket {
    /// How questions are read and hits weighed, and where the facts of each card begin, as JSON.
    pub habits: String,
    /// Under which keys what is found: a line for each.
    pub lines: String,
    /// The lists that the lines point to.
    pub lists: String,
    /// The words that a slip of the finger may have meant, a space between them.
    pub spelled: String,
    /// A line for each saying: the facts that say it.
    pub places: Vec<String>,
    /// A line of JSON for each card, in the order of their ids.
    pub cards: Vec<String>,
    /// A line of JSON for each thing that is said, once.
    pub sayings: Vec<String>,
    /// A line of JSON for each text that is said in several ways.
    pub texts: Vec<String>,
    /// The notes that the sayings point to.
    pub notes: Vec<NoteView>,
    /// The pictures that the notes show, by the names of their files.
    pub pictures: BTreeMap<String, PictureFile>,
    /// The numbers of the calculators, as JSON.
    pub figures: String,
}

/// A library for the pocket. `picture` gives a picture by its card and its name, where it can be shown.
#[must_use]
pub fn pocket(library: &Library, picture: impl FnMut(&str, &str) -> Option<PictureFile>) -> Pocket {
    let rings = search::rings(library);
    let mut index = index::Index::new(&rings);
    let mut facts = facts::Facts::default();
    let mut notes = Notes::default();
    for (hit, terms) in search::indexed(library) {
        let note = notes.of(library, &hit);
        let put = facts.add(&hit, &terms, note);
        index.add(&hit, terms, put);
    }
    let lines = keys::lines(&index, &rings);
    let facts = facts.lines();
    let habits = habits(&lines, &facts.starts);
    let (lines, lists) = lines.text();
    let mut notes = notes.views;
    let mut pictures = BTreeMap::new();
    place_pictures(notes.iter_mut(), &mut pictures, picture);
    Pocket {
        habits,
        lines,
        lists,
        spelled: spelled(&index, &rings),
        places: facts.places,
        cards: facts.cards,
        sayings: facts.sayings,
        texts: facts.texts,
        notes,
        pictures,
        figures: figures::json(library).to_string(),
    }
}

/// How questions are read and hits weighed, and where the facts of each card begin.
fn habits(lines: &lines::Lines, starts: &[usize]) -> String {
    let weights: BTreeMap<&str, f32> = HABITS.weights.iter().copied().collect();
    json!({
        "starts": starts,
        "ways": lines.ways(),
        "weights": weights,
        "fillers": HABITS.fillers,
        "weak": HABITS.weak,
        "units": HABITS.units,
    })
    .to_string()
}

/// Every word that a question may have meant.
fn spelled(index: &index::Index, rings: &[Vec<search::RingWord>]) -> String {
    let of_rings = rings.iter().flatten().map(|word| word.word.as_str());
    let of_rings = of_rings.filter(|word| word.chars().all(char::is_alphabetic));
    let all: BTreeSet<&str> = index.spelled.iter().map(String::as_str).chain(of_rings).collect();
    all.into_iter().collect::<Vec<_>>().join(" ")
}

/// The notes of the cards, in the order in which search has them.
#[derive(Debug, Default)]
struct Notes {
    card: String,
    /// How many of this card's were met.
    met: usize,
    views: Vec<NoteView>,
}

impl Notes {
    /// The place of a fact's note among all notes, from 1; nought where it is none.
    fn of(&mut self, library: &Library, hit: &Hit) -> usize {
        if self.card != hit.card {
            self.card.clone_from(&hit.card);
            self.met = 0;
        }
        let of_card = library.notes_of(&hit.card);
        let Some(note) = of_card.get(self.met).filter(|_| hit.kind == Kind::Note) else { return 0 };
        self.met += 1;
        self.views.push(NoteView::new(&hit.card, note));
        self.views.len()
    }
}
