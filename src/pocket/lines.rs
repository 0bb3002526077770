//! The index as lines that a page can look up by halving, so that nothing of it is read before it is asked for. A line is
//! a key, a tab, and what is found under that key; what is found is a sign for the way in which it is, and where its
//! list begins. The first sign of a key says what kind of key it is.

use super::postings::{self, SIGNS};
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// A way in which a fact is found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Way {
    /// What is found: a field of the index, or what a ring makes of it.
    pub(super) place: &'static str,
    /// What it counts.
    pub(super) score: f32,
    /// Whether it counts so for each word of what was asked.
    pub(super) is_counted: bool,
    /// What it counts besides.
    pub(super) plus: f32,
    /// When alone it is a way: `alone`, `name`, `word`; empty: always.
    pub(super) when: &'static str,
}

/// The lines, growing.
#[derive(Debug, Default)]
pub(super) struct Lines {
    lines: BTreeMap<String, Vec<String>>,
    ways: Vec<Way>,
    lists: String,
    /// Where each list begins: a mark's three ways to be written mostly have the same.
    starts: BTreeMap<String, usize>,
}

/// A key is no longer than this: no longer word is looked up.
const LONGEST: usize = 200;

impl Lines {
    /// Puts a list under a key.
    pub(super) fn add(&mut self, kind: char, word: &str, way: Way, list: &[u32]) {
        let sign = self.sign(way);
        let start = self.start(list);
        self.put(kind, word, format!("{sign}{start:x}"));
    }

    /// Makes a key known under which nothing is found.
    pub(super) fn name(&mut self, kind: char, word: &str) {
        self.put(kind, word, ".".to_string());
    }

    /// Puts anything under a key.
    pub(super) fn put(&mut self, kind: char, word: &str, what: String) {
        if word.is_empty() || word.len() > LONGEST {
            return;
        }
        // The lines stand in a script element, which `<` could end.
        let line = self.lines.entry(format!("{kind}{}", word.replace('<', "&lt;"))).or_default();
        if !line.contains(&what) {
            line.push(what);
        }
    }

    fn sign(&mut self, way: Way) -> char {
        let at = self.ways.iter().position(|known| *known == way).unwrap_or_else(|| {
            self.ways.push(way);
            self.ways.len() - 1
        });
        SIGNS.get(at).copied().map_or('.', char::from)
    }

    fn start(&mut self, list: &[u32]) -> usize {
        let lists = &mut self.lists;
        *self.starts.entry(postings::text(list)).or_insert_with_key(|text| {
            let start = lists.len();
            lists.push_str(text);
            lists.push('.');
            start
        })
    }

    /// The ways by their signs.
    pub(super) fn ways(&self) -> Value {
        let ways = self.ways.iter().zip(SIGNS);
        let ways = ways.map(|(way, sign)| {
            let Way { place, score, is_counted: counted, plus, when } = way;
            let way = json!({ "place": place, "score": score, "counted": counted, "plus": plus, "when": when });
            (char::from(*sign).to_string(), way)
        });
        Value::Object(ways.collect())
    }

    /// The lines in the order in which a script compares them, and all lists, a full stop behind each.
    pub(super) fn text(self) -> (String, String) {
        let mut lines: Vec<String> =
            self.lines.into_iter().map(|(key, found)| format!("{key}\t{}\n", found.join(" "))).collect();
        lines.sort_by(|a, b| a.encode_utf16().cmp(b.encode_utf16()));
        (lines.concat(), self.lists)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_sorted_and_end_no_element() {
        let way = Way { place: "does", score: 8.0, is_counted: true, plus: 0.0, when: "word" };
        let mut lines = Lines::default();
        lines.add('w', "b</script>", way, &[1]);
        lines.add('w', "b", way, &[0]);
        lines.add('w', "a", Way { plus: 0.25, ..way }, &[1]);
        lines.name('c', "hold");
        let plain = json!({ "place": "does", "score": 8.0, "counted": true, "plus": 0.0, "when": "word" });
        assert_eq!(lines.ways().get("A"), Some(&plain));
        let (text, lists) = lines.text();
        assert_eq!(text, "chold\t.\nwa\tB0\nwb\tA2\nwb&lt;/script>\tA0\n");
        assert_eq!(lists, "B.A.");
    }
}
