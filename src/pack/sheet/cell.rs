//! What a sheet is made of: stages, parts, and cells that are printed or left to be written in.

use serde::Serialize;

/// What is done in one state of the work.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Stage {
    /// Its number.
    pub number: usize,
    /// What is done.
    pub title: &'static str,
    /// How, and with what disconnected.
    pub how: Vec<String>,
    /// Its tables.
    pub parts: Vec<Part>,
}

/// A table of blanks.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Part {
    /// Its heading; empty when the stage's own says it.
    pub title: String,
    /// How its blanks are filled in.
    pub how: Vec<String>,
    /// The heads of its columns.
    pub columns: Vec<String>,
    /// Its rows, each as long as the heads.
    pub rows: Vec<Vec<Cell>>,
}

/// A cell: what is printed in it, and room to write.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Cell {
    /// What is printed in it.
    pub text: String,
    /// Whether that is the name of the row.
    pub strong: bool,
    /// Dots to write on; empty when there is nothing to write.
    pub dots: String,
    /// What stands after the dots: a unit.
    pub after: &'static str,
    /// The survey's keys that its blank is for, from the root: `battery.load.current`.
    pub keys: Vec<&'static str>,
    /// The words that it takes; empty when it takes others too.
    pub words: Vec<String>,
    /// What is written there already.
    pub value: String,
}

impl Stage {
    /// A stage without its number.
    pub(super) fn new(title: &'static str, how: Vec<String>, parts: Vec<Part>) -> Self {
        Self { number: 0, title, how, parts }
    }
}

impl Part {
    /// A table with these heads.
    pub(super) fn new(title: impl Into<String>, columns: &[&str], rows: Vec<Vec<Cell>>) -> Self {
        let columns = columns.iter().map(ToString::to_string).collect();
        Self { title: title.into(), how: Vec::new(), columns, rows }
    }

    /// A table of single blanks: what, where to write it, how it is found out.
    pub(super) fn fields(title: impl Into<String>, rows: Vec<[Cell; 3]>) -> Self {
        Self::new(title, &["What", "Write here", "How"], rows.into_iter().map(Vec::from).collect())
    }

    /// The same, with a line on how it is filled in.
    pub(super) fn with(mut self, how: impl Into<String>) -> Self {
        self.how.push(how.into());
        self
    }
}

impl Cell {
    /// Something printed.
    pub(super) fn said(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            strong: false,
            dots: String::new(),
            after: "",
            keys: Vec::new(),
            words: Vec::new(),
            value: String::new(),
        }
    }

    /// The name of a row.
    pub(super) fn name(text: impl Into<String>) -> Self {
        Self { strong: true, ..Self::said(text) }
    }

    /// Room for so many letters, for this key.
    pub(super) fn blank(key: &'static str, letters: usize) -> Self {
        Self { dots: ".".repeat(letters), keys: vec![key], ..Self::said("") }
    }

    /// Room for something that no key of the survey takes.
    pub(super) fn noted(letters: usize) -> Self {
        Self { dots: ".".repeat(letters), ..Self::said("") }
    }

    /// Words to choose from, for this key.
    pub(super) fn choice(key: &'static str, words: &[&str]) -> Self {
        Self { keys: vec![key], ..Self::said(boxes(words)) }.takes(words.iter().copied())
    }

    /// The same blank with a unit behind it.
    pub(super) fn unit(self, unit: &'static str) -> Self {
        Self { after: unit, ..self }
    }

    /// The same blank, which takes these words.
    pub(super) fn takes<'w>(mut self, words: impl IntoIterator<Item = &'w str>) -> Self {
        self.words = words.into_iter().map(str::to_string).collect();
        self
    }

    /// The same blank, in which this is written already.
    pub(super) fn filled(self, value: impl Into<String>) -> Self {
        Self { value: value.into(), ..self }
    }

    /// The same blank, for one more key.
    pub(super) fn and(mut self, key: &'static str) -> Self {
        self.keys.push(key);
        self
    }

    /// The same blank with words before it.
    pub(super) fn after(self, text: impl Into<String>) -> Self {
        Self { text: text.into(), ..self }
    }
}

/// Words with a box before each.
pub(super) fn boxes(words: &[&str]) -> String {
    words.iter().map(|word| format!("☐ {word}")).collect::<Vec<_>>().join("  ")
}
