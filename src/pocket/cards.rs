//! The cards as the page shows them: a line of JSON for each, which is read only when the card is shown. A card is its
//! facts, in the order in which they are numbered.

use crate::search::{Hit, Kind, Sign};
use crate::wording::visible;
use serde_json::{Value, json};

/// The lines of the cards, growing fact by fact.
#[derive(Debug, Default)]
pub(super) struct Cards {
    lines: Vec<String>,
    id: String,
    name: String,
    facts: Vec<Value>,
}

impl Cards {
    /// Takes the next fact.
    pub(super) fn add(&mut self, hit: &Hit) {
        if self.id != hit.card {
            self.close();
            (self.id, self.name) = (hit.card.clone(), hit.card_name.clone());
        }
        self.facts.push(fact(hit));
    }

    /// One line for each card.
    pub(super) fn lines(mut self) -> Vec<String> {
        self.close();
        self.lines
    }

    fn close(&mut self) {
        let facts = std::mem::take(&mut self.facts);
        if !facts.is_empty() {
            self.lines.push(json!([self.id, shown(&self.name), facts]).to_string());
        }
    }
}

/// Kind, mark, text, danger, volts, fuse, check, how it is known, side, and a title where it is none that the page
/// can put together; what is missing is nought, and left out at the end.
fn fact(hit: &Hit) -> Value {
    let own = match &hit.mark {
        Some(mark) => format!("{mark}, {} of {}", hit.kind.word(), hit.card_name),
        None => format!("{} of {}", hit.kind.word(), hit.card_name),
    };
    let text = |text: Option<&String>| text.map_or(json!(0), |text| json!(shown(text)));
    let mut parts = vec![
        json!(Kind::ALL.iter().position(|kind| *kind == hit.kind)),
        text(hit.mark.as_ref()),
        text(Some(&hit.text)),
        text(hit.danger.as_ref()),
        text(hit.volts.as_ref()),
        text(hit.fuse.as_ref()),
        text(hit.check.as_ref()),
        text(hit.known.as_ref()),
        hit.side.map_or(json!(0), |side| json!(Sign::symbol(side).to_string())),
        text(Some(&hit.title).filter(|title| **title != own)),
    ];
    while parts.last() == Some(&json!(0)) {
        parts.pop();
    }
    json!(parts)
}

/// Text without a sign that hides or reorders it; its lines stay.
fn shown(text: &str) -> String {
    text.chars().map(|c| if c == '\n' { c } else { visible(c) }).collect()
}
