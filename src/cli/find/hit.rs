//! One hit as a person reads it in the dark: what it does, what can hurt, what it should measure, its fuse, what to
//! check, how that is known.

use crate::cli::paint::Look;
use crate::search::{Answer, Hit, Kind};

/// How far in the lines of a hit stand.
const INDENT: &str = "      ";

/// The first line of a hit, as many lines as it takes.
pub(in crate::cli) fn head(look: Look, answer: &Answer, hit: &Hit) -> Vec<String> {
    let mark = hit.mark.as_deref().unwrap_or(hit.kind.word());
    let is_lit = !hit.is_opposite && hit.mark.as_deref().is_some_and(|mark| answer.lit.is_mark(mark));
    let pointer = if is_lit { "> " } else { "  " };
    let first = format!("{pointer}{}  ", look.strong(mark));
    let mut texts = hit.text.lines();
    let mut text = texts.next().unwrap_or_default().to_string();
    let ranges = answer.lit.ranges(&text);
    text = look.with_lit(&text, &ranges);
    if hit.mark.is_some() {
        text.push_str(&look.quiet(&format!(" ({})", hit.kind.word())));
    }
    let mut lines = Vec::new();
    if let Some(warning) = opposite(answer, hit) {
        lines.extend(look.wrap(&look.alarm(&warning), &first, INDENT));
        lines.extend(look.wrap(&text, INDENT, INDENT));
    } else {
        lines.extend(look.wrap(&text, &first, INDENT));
    }
    for text in texts {
        lines.extend(look.wrap(&look.with_lit(text, &answer.lit.ranges(text)), INDENT, INDENT));
    }
    lines
}

/// What is known of a hit besides. What the hit before it has said of the same mark is not said again.
pub(in crate::cli) fn facts(look: Look, hit: &Hit, before: Option<&Hit>) -> Vec<String> {
    let before = before.filter(|before| before.mark.is_some() && before.mark == hit.mark && before.card == hit.card);
    let own = hit.kind == Kind::Fuse;
    let mut lines = Vec::new();
    for (label, fact) in labelled(hit) {
        let is_said = before.is_some_and(|before| labelled(before).contains(&(label, fact)));
        let Some(fact) = fact.filter(|_| !(is_said || own && label == "Fuse:")) else { continue };
        let is_danger = label == "Danger:";
        let label = if is_danger { look.alarm(label) } else { look.quiet(label) };
        let fact = fact.split('\n').map(crate::diagnostics::harmless).collect::<Vec<_>>().join(" ");
        lines.extend(look.wrap(&format!("{label} {fact}"), INDENT, "        "));
    }
    lines
}

fn labelled(hit: &Hit) -> [(&'static str, Option<&str>); 5] {
    [
        ("Danger:", hit.danger.as_deref()),
        ("Volts:", hit.volts.as_deref()),
        ("Fuse:", hit.fuse.as_deref()),
        ("Check:", hit.check.as_deref()),
        ("Known:", hit.known.as_deref()),
    ]
}

/// That a hit is on the other side of the supply than the one asked for.
fn opposite(answer: &Answer, hit: &Hit) -> Option<String> {
    let (_, asked) = answer.asked.as_ref().filter(|_| hit.is_opposite)?;
    Some(format!("opposite sign: asked {asked}, this is {}.", hit.with_side()))
}
