//! Any question, put to the index of the demo library.

use super::demo::LIBRARY;
use wirelore::search::{Index, Kind, Question};

thread_local! {
    static INDEX: Index = Index::build(&LIBRARY).expect("an index");
}

/// Asks: the first byte says how many hits, the second which card and kinds, the rest are the words.
pub fn find(bytes: &[u8]) {
    let [limit, kept, words @ ..] = bytes else { return };
    let ids: Vec<&String> = LIBRARY.panels.keys().collect();
    let question = Question {
        words: String::from_utf8_lossy(words).into_owned(),
        card: ids.get(usize::from(*kept) % 64).map(|id| (*id).clone()),
        kinds: Kind::ALL.into_iter().filter(|kind| kept & 128 != 0 && *kind != Kind::Note).collect(),
        limit: usize::from(*limit) % 30,
    };
    INDEX.with(|index| {
        let hits = index.find(&question).expect("an answer");
        assert!(hits.len() <= question.limit);
        assert!(hits.iter().all(|hit| question.card.as_ref().is_none_or(|card| hit.card == *card)));
        assert!(hits.iter().all(|hit| question.kinds.is_empty() || question.kinds.contains(&hit.kind)));
        assert_eq!(format!("{hits:?}"), format!("{:?}", index.find(&question).expect("an answer")));
        assert!(index.nearest_marks(&question).expect("marks").len() <= 5);
    });
}
