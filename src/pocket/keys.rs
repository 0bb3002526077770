//! Under which keys what is found, and what it counts there: all that `wirelore find` would look up for a word that is
//! typed (`src/search/ways.rs`), worked out before it is.
//!
//! Keys: `p` a mark as printed, `b` a mark but for its sign, `s` a mark with its sign, `d` a side and `e` a side that is
//! said of something, `n` a name, `w` a word in the form in which it is compared, `f` several of them, `g` a word and a
//! number, `c` words in one as rings have them, `t` the beginning of words that are bent; `n*` is what to beware of on any card.

use super::index::{Index, Lists};
use super::lines::{Lines, Way};
use super::stems;
use crate::search::{HABITS, Kind, RingWord, Sign, form, mark_key, words};
use std::collections::BTreeSet;

/// The running texts, with what a ring's word counts there.
const TEXTS: [(&str, &str); 4] = [("told", "ringTold"), ("does", "ringDoes"), ("extra", "ringExtra"), ("context", "")];

/// The lines of an index.
pub(super) fn lines(index: &Index, rings: &[Vec<RingWord>]) -> Lines {
    let mut keys = Keys { index, lines: Lines::default() };
    for (field, lists) in &index.fields {
        for (word, list) in lists {
            keys.field(field, word, list);
        }
    }
    keys.kinds();
    keys.sides();
    keys.phrases();
    keys.fuses();
    keys.rings(rings);
    keys.numbered(rings);
    for (start, ends) in stems::of(&index.known.iter().chain(&index.spelled).cloned().collect()) {
        for end in ends {
            keys.lines.put('t', &start, end);
        }
    }
    keys.lines
}

struct Keys<'a> {
    index: &'a Index,
    lines: Lines,
}

/// What a way counts, by its name in the search.
fn weight(name: &str) -> f32 {
    HABITS.weights.iter().find(|(known, _)| *known == name).map_or(0.0, |(_, weight)| *weight)
}

fn way(place: &'static str) -> Way {
    Way { place, score: weight(place), is_counted: false, plus: 0.0, when: "" }
}

/// A way to find a word of running text: in notes always, elsewhere only where the word is no mark of a letter or two.
fn word_way(place: &'static str) -> Way {
    Way { is_counted: true, when: if place == "told" { "" } else { "word" }, ..way(place) }
}

impl<'a> Keys<'a> {
    fn list(&self, field: &str, word: &str) -> Option<&'a [u32]> {
        self.index.fields.get(field)?.get(word).map(Vec::as_slice)
    }

    /// What one word of a field is found under.
    fn field(&mut self, field: &str, word: &str, list: &[u32]) {
        let signed = |place| Way { score: weight(place) + weight("side"), ..way(place) };
        let is_signed = word.ends_with(['+', '-']);
        match field {
            "printed" => self.lines.add('p', word, Way { place: "printed", ..way("exact") }, list),
            "mark" if is_signed => self.lines.add('s', word, signed("mark"), list),
            "related" if is_signed => self.lines.add('s', word, signed("related"), list),
            "told" if is_signed => self.lines.add('s', word, signed("told"), list),
            "mark" => self.lines.add('b', word, way("mark"), list),
            "base" => self.base(word, way("base"), list),
            "related" => self.base(word, way("related"), list),
            "name" => self.lines.add('n', word, Way { is_counted: true, when: "alone", ..way("name") }, list),
            "of" => self.lines.add('n', word, Way { is_counted: true, when: "name", ..way("of") }, list),
            "head" => self.lines.add('w', word, Way { when: "word", ..way("head") }, list),
            _ => {
                for (place, _) in TEXTS.into_iter().filter(|(place, _)| *place == field && !is_signed) {
                    self.lines.add('w', word, word_way(place), list);
                }
            }
        }
    }

    /// A mark but for its sign; one of digits is also found as a voltage: `12V` is `+12`.
    fn base(&mut self, word: &str, way: Way, list: &[u32]) {
        self.lines.add('b', word, way, list);
        if word.chars().all(|c| c.is_ascii_digit()) {
            self.lines.add('b', &format!("{word}v"), way, list);
        }
    }

    /// The words that name a kind of fact, and the kinds that belong to a name alone.
    fn kinds(&mut self) {
        for (name, kind) in HABITS.kinds {
            let (sign, key) = key_of(name);
            self.lines.name(sign, &key);
            let place = if *kind == Kind::Fuse { "fuse" } else { "kind" };
            let way = Way { place, is_counted: true, ..way("kind") };
            if let Some(list) = self.list("kind", kind.word()) {
                self.lines.add(sign, &key, way, list);
            }
        }
        for (kind, place) in [(Kind::Caution, "told"), (Kind::Note, "extra")] {
            if let Some(list) = self.list("kind", kind.word()) {
                self.lines.add('n', "*", way(place), list);
            }
        }
    }

    /// The sides of the supply; where one is said of something, its word counts too.
    fn sides(&mut self) {
        for sign in [Sign::Plus, Sign::Minus] {
            let (symbol, said) = (sign.symbol().to_string(), sign.word());
            for (field, place) in [("itself", "side"), ("side", "switched")] {
                if let Some(list) = self.list(field, &symbol) {
                    self.lines.add('d', &symbol, way(place), list);
                    self.lines.add('e', &symbol, way(place), list);
                }
            }
            for place in ["does", "told"] {
                self.one_word('e', &symbol, way(place), place, said, &form(said));
            }
        }
    }

    /// A word of a field under a key: in its form, and better as it is spelled.
    fn one_word(&mut self, sign: char, key: &str, way: Way, field: &str, spelled: &str, form: &str) {
        let spelled = spelled.to_lowercase();
        let Some(lists) = self.index.fields.get(field) else { return };
        let Some(list) = lists.get(form) else { return };
        self.lines.add(sign, key, way, list);
        if let Some(list) = lists.get(&spelled).filter(|_| spelled != form) {
            self.lines.add(sign, key, Way { plus: weight("asTyped"), ..way }, list);
        }
    }

    /// The words that were looked for one behind the other, found or not.
    fn phrases(&mut self) {
        for phrase in self.index.wanted.all() {
            self.lines.name('f', phrase);
            for (place, _) in TEXTS {
                if let Some(list) = self.index.phrases.get(place).and_then(|lists| lists.get(phrase)) {
                    self.lines.add('f', phrase, word_way(place), list);
                }
            }
        }
    }

    /// `fuse 2` is F2 or FS2, where that is a fuse.
    fn fuses(&mut self) {
        let way = Way { place: "fuse", score: weight("mark") + weight("kind"), ..way("fuse") };
        let Some(fuses) = self.list("kind", Kind::Fuse.word()) else { return };
        let fuses: BTreeSet<u32> = fuses.iter().copied().collect();
        let marks = self.index.fields.get("mark").into_iter().flatten();
        for (mark, list) in marks {
            let number = mark.strip_prefix("fs").or_else(|| mark.strip_prefix('f')).filter(|n| is_number(n));
            let Some(number) = number else { continue };
            let list: Vec<u32> = list.iter().copied().filter(|saying| fuses.contains(saying)).collect();
            for (name, _) in HABITS.kinds.iter().filter(|(_, kind)| *kind == Kind::Fuse) {
                self.lines.add('g', &format!("{} {number}", form(name)), way, &list);
            }
        }
    }

    /// What rings put in the place of their words.
    fn rings(&mut self, rings: &[Vec<RingWord>]) {
        let all: BTreeSet<&str> = rings.iter().flatten().map(|word| word.compact.as_str()).collect();
        for compact in all {
            self.lines.name('c', compact);
            let mine = rings.iter().filter(|ring| ring.iter().any(|word| word.compact == compact));
            for other in mine.flatten().filter(|other| !other.is_sign && other.compact != compact) {
                self.other(compact, other);
            }
        }
    }

    /// One word for another.
    fn other(&mut self, compact: &str, other: &RingWord) {
        let counted = |place| Way { is_counted: true, ..way(place) };
        let called = Way { when: "alone", ..counted("ringMark") };
        let marks = [("mark", &other.base, way("ringMark")), ("base", &other.base, way("ringBase"))];
        for (field, word, way) in marks.into_iter().chain([("name", &other.name, called)]) {
            if let Some(list) = self.list(field, word) {
                self.lines.add('c', compact, way, list);
            }
        }
        if let [form] = other.forms.as_slice()
            && let Some(list) = self.list("head", form)
        {
            self.lines.add('c', compact, way("ringHead"), list);
        }
        for (field, place) in TEXTS.into_iter().filter(|(_, place)| !place.is_empty()) {
            self.said(compact, other, field, counted(place));
        }
    }

    /// The words of a ring, as a running text has them: each, one behind the other, or in one.
    fn said(&mut self, compact: &str, other: &RingWord, field: &'static str, way: Way) {
        let Some(lists) = self.index.fields.get(field) else { return };
        let are_all = !other.forms.is_empty() && other.forms.iter().all(|form| lists.contains_key(form));
        if let [form] = other.forms.as_slice()
            && are_all
        {
            return self.one_word('c', compact, way, field, &other.word, form);
        }
        let phrase = self.index.phrases.get(field).and_then(|lists| lists.get(&other.forms.join(" ")));
        if let Some(list) = phrase.filter(|_| are_all) {
            self.lines.add('c', compact, way, list);
        }
        let in_one = if are_all { other.name.clone() } else { form(&other.name) };
        if let Some(list) = lists.get(&in_one) {
            self.lines.add('c', compact, Way { score: way.score / other.count, ..way }, list);
        }
    }

    /// `jumper 2` is LK2: a ring's word with a number is the mark that another of its words makes with it.
    fn numbered(&mut self, rings: &[Vec<RingWord>]) {
        let way = Way { place: "mark", score: 2.0 * weight("ringMark"), ..way("mark") };
        let Some(marks) = self.index.fields.get("mark") else { return };
        for ring in rings {
            for other in ring.iter().filter(|other| !other.is_sign && other.word.chars().all(char::is_alphabetic)) {
                let numbers = of_number(marks, &other.base);
                for (number, list) in
                    numbers.filter(|(n, _)| marks.contains_key(&mark_key(&format!("{}{n}", other.word))))
                {
                    let words = ring.iter().filter(|word| word.compact != other.compact && !word.word.contains(' '));
                    for word in words {
                        self.lines.add('g', &format!("{} {number}", word.forms.join(" ")), way, list);
                    }
                }
            }
        }
    }
}

/// The kind of key and the key of words that are looked up as they are compared.
fn key_of(name: &str) -> (char, String) {
    let forms: Vec<String> = words(name).into_iter().map(|(_, form)| form).collect();
    (if forms.len() == 1 { 'w' } else { 'f' }, forms.join(" "))
}

/// The marks that are letters and a number, by that number.
fn of_number<'a>(marks: &'a Lists, letters: &'a str) -> impl Iterator<Item = (&'a str, &'a [u32])> {
    let all = marks.iter().filter_map(move |(mark, list)| Some((mark.strip_prefix(letters)?, list.as_slice())));
    all.filter(|(number, _)| is_number(number))
}

fn is_number(text: &str) -> bool {
    !text.is_empty() && text.chars().all(|c| c.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[test]
    fn every_way_counts_and_a_key_says_what_find_looks_up() {
        let word = |place: &'static str, word: &str| (place, BTreeMap::from([(word.to_string(), vec![0])]));
        let fields = [
            word("printed", "fs2"),
            word("mark", "fs2"),
            word("base", "fs2"),
            word("related", "a+"),
            word("name", "mb6"),
            word("of", "mb6"),
            word("head", "fuse"),
            word("does", "fuse"),
            word("told", "a+"),
            word("extra", "fuse"),
            word("context", "panel"),
            word("kind", "fuse"),
            word("itself", "+"),
            word("side", "+"),
        ];
        let index = Index { fields: BTreeMap::from(fields), ..Index::new(&[]) };
        let lines = lines(&index, &[]);
        let ways = lines.ways();
        let ways = ways.as_object().expect("ways by sign");
        assert!(ways.values().all(|way| way["score"].as_f64().is_some_and(|score| score > 0.0)), "{ways:?}");
        let (text, lists) = lines.text();
        assert_eq!(lists, "A.");
        for key in ["pfs2", "bfs2", "sa+", "d+", "nmb6", "wfuse", "gfuse 2", "gblown 2", "wpanel"] {
            assert!(text.lines().any(|line| line.starts_with(&format!("{key}\t"))), "{key}: {text}");
        }
    }
}
