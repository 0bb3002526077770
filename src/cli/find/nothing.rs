//! Nothing found: what was looked for and where, the nearest marks, and how a terminal that nobody knows is identified
//! without hurting anyone.

use crate::cli::paint::Look;
use crate::search::{Answer, Question};

/// How to identify an unknown terminal (common practice), with the usual cautions.
const MEASURE: [&str; 9] = [
    "To identify a terminal that no card knows (common practice):",
    "1. Take it as live. Keep off the mains block: mains kills, and local codes and licensed practice come first. Over \
     25 V AC on any low-voltage screw: stop and call for help.",
    "2. Receiving centre on test, ears protected, nobody at the sounder. Lift no core yet: a self-activating sounder \
     sounds when its hold-off goes.",
    "3. Meter on DC volts, black probe on the known negative of the detectors' supply. Read it at rest, then with the \
     panel in alarm. Write both down.",
    "4. 12 V to 14.5 V both times: a supply or the hold-off. 0 V both times: a negative or a return.",
    "5. 12 V or more at rest, 0 V in alarm: negative applied or positive removed. 0 V at rest, 12 V or more in alarm: \
     positive applied or negative removed.",
    "6. Still not clear: panel off, mains isolated and proved dead, the sounder's own battery and the panel's isolated. \
     Then ohms to the negative: near 0 \u{3a9} is a negative; a loop closes through its devices, so part it and see.",
    "7. A letter or a colour proves nothing: the same letter is another screw on another panel.",
    "Write it down: wirelore note CARD TEXT --about MARK --how measured",
];

/// What there is to say when a question found nothing.
pub(in crate::cli) fn found(look: Look, question: &Question, answer: &Answer, cards: usize, near: &[String]) -> String {
    let place = match &question.card {
        Some(card) => format!("on {card}"),
        None => format!("in {cards} cards"),
    };
    let kinds: Vec<&str> = question.kinds.iter().map(|kind| kind.word()).collect();
    let kinds = if kinds.is_empty() { String::new() } else { format!(" of kind {}", kinds.join(", ")) };
    let mut lines = look.wrap(&format!("Nothing found for \"{}\"{kinds} {place}.", question.words), "", "");
    for (typed, read) in &answer.read_as {
        lines.extend(look.wrap(&format!("Read \"{typed}\" as {}.", read.join(" or ")), "", ""));
    }
    if !near.is_empty() {
        lines.extend(look.wrap(&format!("Nearest marks: {}", near.join(", ")), "", "  "));
    }
    lines.push(String::new());
    for step in MEASURE {
        lines.extend(look.wrap(step, "", "   "));
    }
    lines.join("\n")
}
