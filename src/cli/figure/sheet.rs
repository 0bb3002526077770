//! How one figure is printed: the answer first, then how it was worked out, then what to mind.

use crate::cli::find::json_text;
use crate::formula::{Given, Worked};
use crate::pack::figure::steady;
use serde_json::{Map, Value, json};
use std::fmt::Write as _;

/// The words that stand under every figure.
const CODES: &str = "Local codes and licensed practice come before anything printed here.";

/// One figure, ready to print.
#[derive(Debug, Default)]
pub(super) struct Sheet {
    /// The answer, line by line.
    pub(super) answer: String,
    /// How it was worked out: for each number its key in the JSON, where it has one, its text, and what is behind it.
    workings: Vec<(Option<&'static str>, String, Worked)>,
    /// What to mind.
    cautions: Vec<&'static str>,
    /// The answer for another program.
    values: Map<String, Value>,
}

impl Sheet {
    /// An empty sheet of this figure.
    pub(super) fn new(figure: &str, cautions: &[&'static str]) -> Self {
        let mut sheet = Self { cautions: cautions.to_vec(), ..Self::default() };
        sheet.cautions.push(CODES);
        sheet.set("figure", figure);
        sheet
    }

    /// Adds a line to the answer.
    pub(super) fn say(&mut self, line: impl AsRef<str>) {
        self.answer.push_str(line.as_ref());
        self.answer.push('\n');
    }

    /// Adds a value to the JSON.
    pub(super) fn set(&mut self, key: &str, value: impl Into<Value>) {
        self.values.insert(key.to_string(), value.into());
    }

    /// Adds a number to the JSON; null: not known.
    pub(super) fn number(&mut self, key: &str, value: Option<f64>) {
        self.set(key, number(value));
    }

    /// Adds a number with its way to the JSON and to the workings.
    pub(super) fn worked(&mut self, key: &'static str, text: impl Into<String>, worked: Worked) {
        self.number(key, worked.value);
        self.workings.push((Some(key), text.into(), worked));
    }

    /// Adds a way to the workings that is in the JSON already.
    pub(super) fn shown(&mut self, text: impl Into<String>, worked: Worked) {
        self.workings.push((None, text.into(), worked));
    }

    /// The sheet as text, or as JSON.
    pub(super) fn printed(self, as_json: bool) -> String {
        if as_json { self.into_json() } else { self.into_text() }
    }

    fn into_text(self) -> String {
        let mut text = self.answer;
        text.push_str("\nHow it was worked out\n");
        for (_, value, worked) in &self.workings {
            let _ = writeln!(text, "  {value} = {}", worked.formula);
            for Given { symbol, text: value, origin } in &worked.given {
                let _ = writeln!(text, "    {symbol} = {value}: {origin}");
            }
        }
        text.push_str("\nMind\n");
        for caution in self.cautions {
            let _ = writeln!(text, "  {caution}");
        }
        text
    }

    fn into_json(mut self) -> String {
        let ways: Map<String, Value> =
            self.workings.iter().filter_map(|(key, _, w)| Some(((*key)?.to_string(), way(w)))).collect();
        if !ways.is_empty() {
            self.set("why", ways);
        }
        self.set("cautions", self.cautions.clone());
        json_text(&Value::Object(self.values))
    }
}

/// A number for another program, without the noise of its last bits.
pub(super) fn number(value: Option<f64>) -> Value {
    value.map(steady).map_or(Value::Null, Value::from)
}

/// How a number was worked out, in the shape of pack.json.
pub(super) fn way(worked: &Worked) -> Value {
    let given = |g: &Given| json!({ "symbol": g.symbol, "value": g.text, "source": g.origin });
    json!({ "formula": worked.formula, "given": worked.given.iter().map(given).collect::<Vec<_>>() })
}

/// A number as text; `not known` when there is none.
pub(super) fn text<Q: std::fmt::Display>(value: Option<f64>, unit: impl Fn(f64) -> Option<Q>) -> String {
    value.and_then(unit).map_or_else(|| "not known".to_string(), |quantity| quantity.to_string())
}

/// Whether something holds, in a word.
pub(super) fn holds(ok: Option<bool>) -> &'static str {
    match ok {
        Some(true) => "yes",
        Some(false) => "NO",
        None => "not known",
    }
}
