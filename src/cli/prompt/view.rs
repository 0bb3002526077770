//! What the prompt's screen shows: the words, then every hit in a line, the chosen one with all that is known of it.

use super::state::{Open, State};
use crate::cli::find::{facts, head, heading, understood};
use crate::cli::paint::Look;
use crate::diagnostics::harmless;
use crate::search::Hit;
use textwrap::core::display_width;

const ASK: &str = "find: ";
const HINT: &str = "Type a mark or words: S+, F2 blown, strobe mb6";

/// A screen: its lines from the top, and the column of the cursor in the first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Screen {
    pub(super) lines: Vec<String>,
    pub(super) cursor: usize,
}

/// How large it is and how it looks.
#[derive(Debug, Clone, Copy)]
pub(super) struct Size {
    pub(super) width: usize,
    pub(super) height: usize,
    pub(super) look: Look,
}

impl Size {
    /// How many lines stand below the first two.
    pub(super) fn room(self) -> usize {
        self.height.saturating_sub(2)
    }
}

/// The screen of a state. No line is wider than the screen, and there are no more than it holds.
pub(super) fn screen(state: &State, size: Size) -> Screen {
    let mut screen = match &state.open {
        Some(open) => card(open, size),
        None => hits(state, size),
    };
    screen.lines.truncate(size.height.max(1));
    screen
}

/// An open card from the row that begins with a mark, where it has one.
pub(super) fn open_at(mut open: Open, mark: Option<&str>, size: Size) -> Open {
    let lines = open_lines(&open, size);
    let row = lines.iter().position(|line| mark.is_some() && line.split_whitespace().next() == mark);
    open.top = row.unwrap_or(0).min(lines.len().saturating_sub(size.room()));
    open
}

/// The last line that what is open, or what is said instead of hits, can begin at.
pub(super) fn last_top(state: &State, size: Size) -> usize {
    let lines = match &state.open {
        Some(open) => open_lines(open, size).len(),
        None => said(state, size).len(),
    };
    lines.saturating_sub(size.room())
}

fn hits(state: &State, size: Size) -> Screen {
    let (typed, cursor) = typed(state, size.width);
    let body = if state.answer.hits.is_empty() {
        let lines = said(state, size);
        lines.into_iter().skip(state.chosen).collect()
    } else {
        listed(state, size)
    };
    let mut lines = vec![typed, size.look.quiet(&cut(&status(state), size.width))];
    lines.extend(body.into_iter().take(size.room()));
    Screen { lines, cursor }
}

/// The words so far, their end kept in sight, and the cursor's column.
fn typed(state: &State, width: usize) -> (String, usize) {
    let room = width.saturating_sub(ASK.len() + 1).max(1);
    let mut before: Vec<char> = harmless(&state.before()).chars().collect();
    while display_width(&before.iter().collect::<String>()) > room {
        before.remove(0);
    }
    let before: String = before.into_iter().collect();
    let after: String = harmless(&state.words()).chars().skip(state.before().chars().count()).collect();
    let line = cut(&format!("{ASK}{before}{after}"), width);
    (line, ASK.len() + display_width(&before))
}

fn status(state: &State) -> String {
    let hits = state.answer.hits.len();
    if state.words().trim().is_empty() {
        return "Esc: leave".to_string();
    }
    if hits == 0 {
        return "nothing found  arrows: read on  Esc: leave".to_string();
    }
    format!("{}/{hits}  arrows  Enter: card  Esc: leave", state.chosen + 1)
}

/// What is said where there are no hits.
fn said(state: &State, size: Size) -> Vec<String> {
    if state.words().trim().is_empty() {
        return size.look.wrap(HINT, "", "");
    }
    state.nothing.lines().map(str::to_string).collect()
}

/// Every hit, the chosen one in full and in sight.
fn listed(state: &State, size: Size) -> Vec<String> {
    let look = size.look;
    let mut lines = understood(look, &state.answer);
    let (mut start, mut end) = (0, 0);
    let mut card: Option<(&str, bool)> = None;
    for (at, hit) in state.answer.hits.iter().enumerate() {
        if at == state.chosen {
            start = lines.len();
        }
        if card != Some((&hit.card, hit.is_opposite)) {
            lines.extend(heading(look, hit));
            card = Some((&hit.card, hit.is_opposite));
        }
        if at == state.chosen {
            lines.extend(head(look, &state.answer, hit));
            lines.extend(facts(look, hit, None));
            end = lines.len();
        } else {
            lines.push(one_line(hit, size));
        }
    }
    if state.chosen == 0 {
        start = 0;
    }
    // The whole of the chosen hit if it fits, its beginning in any case.
    let top = end.saturating_sub(size.room()).min(start);
    lines.into_iter().skip(top).collect()
}

fn one_line(hit: &Hit, size: Size) -> String {
    let mark = hit.mark.as_deref().unwrap_or(hit.kind.word());
    let sign = if hit.is_opposite { "OPPOSITE SIGN: " } else { "" };
    cut(&format!("  {mark}  {sign}{}", hit.text.lines().next().unwrap_or_default()), size.width)
}

fn card(open: &Open, size: Size) -> Screen {
    let all = open_lines(open, size);
    let to = (open.top + size.room()).min(all.len());
    let status = format!("{}-{to} of {}  arrows  Esc: back", open.top + 1, all.len());
    let name = cut(&open.name, size.width);
    let mut lines = vec![size.look.strong(&name), size.look.quiet(&cut(&status, size.width))];
    lines.extend(all.into_iter().skip(open.top).take(size.room()));
    Screen { lines, cursor: display_width(&name) }
}

fn open_lines(open: &Open, size: Size) -> Vec<String> {
    open.text.lines().flat_map(|line| kept(&harmless(line), size)).collect()
}

/// A line broken where the screen ends, its own indent kept and a little added.
fn kept(line: &str, size: Size) -> Vec<String> {
    let text = line.trim_start();
    let indent: String = line.chars().take(line.len() - text.len()).take(size.width / 3).collect();
    if text.is_empty() {
        return vec![String::new()];
    }
    size.look.wrap(text, &indent, &format!("{indent}    "))
}

/// As much of a text as fits, with a sign that there was more.
fn cut(text: &str, width: usize) -> String {
    let text = harmless(text);
    if display_width(&text) <= width {
        return text;
    }
    let mut kept = String::new();
    for c in text.chars() {
        if display_width(&kept) + display_width(c.encode_utf8(&mut [0; 4])) + 1 > width {
            break;
        }
        kept.push(c);
    }
    kept.push('\u{2026}');
    kept
}

#[cfg(test)]
mod tests {
    use super::{Size, last_top, screen};
    use crate::check;
    use crate::cli::paint::Look;
    use crate::cli::prompt::state::{Key, Open, State};
    use crate::search::{Index, Question};
    use crate::source::Files;
    use textwrap::core::display_width;

    fn size(width: usize, height: usize) -> Size {
        Size { width, height, look: Look { width: Some(width), colours: false } }
    }

    /// The prompt after these words, asked of the demo library.
    fn asked(words: &str) -> State {
        let library = check::library(&Files::embedded()).value;
        let index = Index::build(&library).expect("a library is indexed");
        let mut state = State::default();
        for c in words.chars() {
            state.press(Key::Char(c), 10, 0);
        }
        let question = Question { words: words.into(), limit: 10, ..Question::default() };
        state.answered(index.answer(&question).expect("an answer"), "Nothing found.\nMeasure it.".into());
        state
    }

    #[test]
    fn everything_fits_every_screen() {
        for words in [
            "",
            "S+",
            "strobe",
            "F2 blown",
            "qqqq",
            "\u{1f525}\u{1f525}\u{1f525}\u{1f525}\u{1f525}\u{1f525}\u{1f525}\u{1f525}",
        ] {
            let mut state = asked(words);
            for (width, height) in [(80, 24), (40, 12), (24, 3), (9, 2), (1, 1)] {
                for _ in 0..12 {
                    let shown = screen(&state, size(width, height));
                    assert!(shown.lines.len() <= height, "{words} {width}x{height}: {shown:#?}");
                    let fits = |line: &String| display_width(line) <= width.max(24);
                    assert!(shown.lines.iter().all(fits), "{words} {width}x{height}: {shown:#?}");
                    state.press(Key::Down, 4, last_top(&state, size(width, height)));
                }
            }
        }
    }

    #[test]
    fn the_chosen_hit_is_in_sight_with_all_that_is_known_of_it() {
        let mut state = asked("strobe");
        for at in 0..state.answer.hits.len() {
            let shown = screen(&state, size(40, 12)).lines.join("\n");
            let mark = state.answer.hits[at].mark.clone().unwrap_or_default();
            assert!(shown.contains(&format!("> {mark}")) || shown.contains(&format!("  {mark}  ")), "{at}: {shown}");
            assert!(shown.contains("Danger:") || shown.contains("Known:"), "{at}: {shown}");
            state.press(Key::Down, 4, 0);
        }
    }

    #[test]
    fn a_card_opens_at_the_mark() {
        let text = (0..50).map(|line| format!("  Z{line}  zone")).collect::<Vec<_>>().join("\n");
        let open = Open { name: "A card".into(), text, top: 0 };
        assert_eq!(super::open_at(open.clone(), Some("Z7"), size(40, 12)).top, 7);
        assert_eq!(super::open_at(open, None, size(40, 12)).top, 0);
    }

    #[test]
    fn an_open_card_scrolls_to_its_last_line() {
        let text = (0..50).map(|line| format!("  line {line}")).collect::<Vec<_>>().join("\n");
        let mut state = State::default();
        state.open = Some(Open { name: "A card".into(), text, top: 0 });
        state.press(Key::End, 10, last_top(&state, size(40, 12)));
        let shown = screen(&state, size(40, 12)).lines;
        assert_eq!(shown.last().map(String::as_str), Some("  line 49"), "{shown:#?}");
        assert_eq!(shown.len(), 12);
    }
}
