//! A note's own Markdown inside ours: quoted, with its raw HTML turned into text and no way to our footnotes.

use super::escape::{self, visible};
use pulldown_cmark::{Event, Options, Parser};
use tera::Value;

/// A note as a block quote.
#[must_use]
pub(super) fn quoted(raw: &str) -> String {
    let safe = without_html(&cleaned(raw)).replace("[^", "\\[^");
    let lines: Vec<String> = safe.lines().map(|line| format!("> {}\n", line.trim_end())).collect();
    lines.concat()
}

/// A note of the view as a block quote, its pictures at their places in the pack. `None`: it is no note.
#[must_use]
pub(super) fn quoted_note(note: &Value) -> Option<String> {
    let text = note.get_from_path("text")?.as_str()?;
    let mut out = String::with_capacity(text.len());
    let mut end = 0;
    for picture in note.get_from_path("pictures").and_then(Value::as_array).unwrap_or_default() {
        let byte = |name: &str| usize::try_from(picture.get_from_path(name)?.as_u64()?).ok();
        let (from, to) = (byte("start")?, byte("end")?);
        out.push_str(text.get(end..from)?);
        out.push_str(&image(picture)?);
        end = to;
    }
    out.push_str(text.get(end..)?);
    Some(quoted(&out))
}

/// A picture as an image of the pack; as words, where it can't be shown.
fn image(picture: &Value) -> Option<String> {
    let words = |name: &str| picture.get_from_path(name)?.as_str().map(escape::text);
    let alt = words("alt")?;
    match picture.get_from_path("file").and_then(Value::as_str) {
        Some(file) => Some(format!("![{alt}]({file})")),
        None => Some(format!("*{alt}* (picture {}, which is not there)", words("name")?)),
    }
}

/// A note's text without characters that hide or reorder text; its line ends stay.
fn cleaned(raw: &str) -> String {
    raw.trim().replace("\r\n", "\n").chars().map(|c| if matches!(c, '\n' | '\t') { c } else { visible(c) }).collect()
}

/// Every `<` that would begin raw HTML escaped, until none does.
fn without_html(raw: &str) -> String {
    let mut text = raw.to_string();
    for _ in 0..4 {
        let starts = html_signs(&text);
        if starts.is_empty() {
            return text;
        }
        text = with_backslashes(&text, &starts);
    }
    text.replace('<', "&lt;")
}

/// A text with a backslash before each of these places, which rise.
fn with_backslashes(text: &str, places: &[usize]) -> String {
    let mut out = String::with_capacity(text.len() + places.len());
    let mut from = 0;
    for at in places {
        out.push_str(text.get(from..*at).unwrap_or_default());
        out.push('\\');
        from = *at;
    }
    out.push_str(text.get(from..).unwrap_or_default());
    out
}

/// The places of `<` inside raw HTML, in rising order.
fn html_signs(text: &str) -> Vec<usize> {
    let mut places: Vec<usize> = Vec::new();
    for (event, range) in Parser::new_ext(text, Options::empty()).into_offset_iter() {
        if matches!(event, Event::Html(_) | Event::InlineHtml(_)) {
            let part = text.get(range.clone()).unwrap_or_default();
            places.extend(part.match_indices('<').map(|(at, _)| range.start + at));
        }
    }
    places.sort_unstable();
    places.dedup();
    places
}
