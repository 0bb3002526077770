//! The labelled questions of `tests/search/questions.tsv`, asked of the demo library. They were written before the
//! search and are not bent to suit it.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use wirelore::search::{Hit, Index, Question, Side, Sign};

/// A question with the answers that may stand first.
struct Labelled {
    group: &'static str,
    words: &'static str,
    sign: Option<Sign>,
    /// Card, kind and mark; `*` stands for any. None: nothing may be found.
    answers: Vec<[&'static str; 3]>,
}

fn questions() -> Vec<Labelled> {
    let text = include_str!("../../search/questions.tsv");
    let lines = text.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    lines.map(labelled).collect()
}

fn labelled(line: &'static str) -> Labelled {
    let columns: Vec<&str> = line.split('\t').collect();
    let [group, words, sign, answers] = columns[..] else { panic!("four columns: {line}") };
    let answer = |text: &'static str| {
        let parts: Vec<&str> = text.split('/').collect();
        parts.try_into().unwrap_or_else(|_| panic!("card/kind/mark: {text}"))
    };
    let answers = if answers == "none" { Vec::new() } else { answers.split(" | ").map(answer).collect() };
    Labelled { group, words, sign: sign.chars().next().and_then(Sign::of), answers }
}

impl Labelled {
    fn accepts(&self, hit: &Hit) -> bool {
        let parts = [hit.card.as_str(), hit.kind.word(), hit.mark.as_deref().unwrap_or("?")];
        self.answers
            .iter()
            .any(|answer| answer.iter().zip(parts).all(|(wanted, part)| *wanted == "*" || *wanted == part))
    }

    /// The place of the first right answer, from 1; for nonsense, 1 when nothing is found.
    fn place(&self, hits: &[Hit]) -> Option<usize> {
        if self.answers.is_empty() {
            return hits.is_empty().then_some(1);
        }
        hits.iter().position(|hit| self.accepts(hit)).map(|at| at + 1)
    }

    /// Whether a hit on the other side of the supply stands above one on the side asked for, or does not say so.
    fn has_sign_out_of_order(&self, hits: &[Hit]) -> bool {
        let Some(sign) = self.sign else { return false };
        let is_other = |hit: &Hit| hit.side.map(Side::sign) == Some(sign.opposite());
        let first_other = hits.iter().position(is_other).unwrap_or(hits.len());
        let is_late = hits.iter().skip(first_other).any(|hit| hit.side.map(Side::sign) == Some(sign));
        is_late || hits.iter().any(|hit| is_other(hit) != hit.is_opposite)
    }
}

#[derive(Default)]
struct Score {
    asked: usize,
    reciprocal: f64,
    first: usize,
}

impl Score {
    fn add(&mut self, place: Option<usize>) {
        self.asked += 1;
        #[expect(clippy::cast_precision_loss, reason = "a place in a list of ten")]
        let reciprocal = place.map_or(0.0, |place| 1.0 / place as f64);
        self.reciprocal += reciprocal;
        self.first += usize::from(place == Some(1));
    }

    #[expect(clippy::cast_precision_loss, reason = "a few hundred questions")]
    fn rates(&self) -> (f64, f64) {
        (self.reciprocal / self.asked as f64, self.first as f64 / self.asked as f64)
    }
}

#[test]
fn the_labelled_questions_are_answered_first_and_in_the_right_sign() {
    let library = wirelore::check::library(&wirelore::source::Files::embedded()).value;
    let index = Index::build(&library).expect("a library is indexed");
    let questions = questions();
    assert!(questions.len() >= 150, "{}", questions.len());
    let mut groups: BTreeMap<&str, Score> = BTreeMap::new();
    let mut all = Score::default();
    let mut wrong = String::new();
    let mut signs = Vec::new();
    for question in &questions {
        let asked = Question { words: question.words.into(), limit: 10, ..Question::default() };
        let hits = index.find(&asked).expect("a question is answered");
        let place = question.place(&hits);
        groups.entry(question.group).or_default().add(place);
        all.add(place);
        if place != Some(1) {
            let first: Vec<String> = hits
                .iter()
                .take(3)
                .map(|hit| format!("{}/{}/{}", hit.card, hit.kind.word(), hit.mark.as_deref().unwrap_or("?")))
                .collect();
            let _ = writeln!(wrong, "  {}: {:?} at {place:?}: {}", question.group, question.words, first.join(", "));
        }
        if question.has_sign_out_of_order(&hits) {
            signs.push(question.words);
        }
    }
    println!("{:<10} {:>5}  {:>5}  first", "group", "asked", "MRR");
    for (group, score) in groups.iter().map(|(group, score)| (*group, score)).chain([("all", &all)]) {
        let (reciprocal, first) = score.rates();
        println!("{group:<10} {:>5}  {reciprocal:.3}  {first:.3}", score.asked);
    }
    println!("not first:\n{wrong}");
    let (reciprocal, first) = all.rates();
    assert!(signs.is_empty(), "out of order: {signs:?}");
    assert!(reciprocal >= 0.95 && first >= 0.92, "MRR {reciprocal:.3}, first {first:.3}:\n{wrong}");
}
