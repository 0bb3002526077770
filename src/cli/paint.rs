//! How text is made to stand out. Colours come only on a terminal that wants them and say nothing that the words do not
//! say; without them, what matched stands between asterisks.

use crate::diagnostics::harmless;
use anstyle::{AnsiColor, Style};
use std::env;
use std::io::{self, IsTerminal};
use std::ops::Range;

/// The narrowest page; a terminal that says less is taken as this wide.
const NARROWEST: usize = 24;

/// How a page is to look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Look {
    /// How wide it is; `None`: lines are not broken.
    pub(super) width: Option<usize>,
    /// Whether it has colours.
    pub(super) colours: bool,
}

impl Look {
    /// What standard output takes: a file or another program gets whole lines without colours.
    pub(super) fn of_output() -> Self {
        if !io::stdout().is_terminal() {
            return Self { width: None, colours: false };
        }
        let width = crossterm::terminal::size().map_or(80, |(columns, _)| usize::from(columns));
        Self { width: Some(width.max(NARROWEST)), colours: wants_colours() }
    }

    /// What matched.
    pub(super) fn lit(self, text: &str) -> String {
        if self.colours {
            painted(text, Style::new().bold().fg_color(Some(AnsiColor::Cyan.into())))
        } else {
            format!("*{text}*")
        }
    }

    /// What can hurt someone, or be taken for its opposite.
    pub(super) fn alarm(self, text: &str) -> String {
        self.or_plain(text, Style::new().bold().fg_color(Some(AnsiColor::Red.into())))
    }

    /// A heading, a mark.
    pub(super) fn strong(self, text: &str) -> String {
        self.or_plain(text, Style::new().bold())
    }

    /// What is read last.
    pub(super) fn quiet(self, text: &str) -> String {
        self.or_plain(text, Style::new().dimmed())
    }

    fn or_plain(self, text: &str, style: Style) -> String {
        if self.colours { painted(text, style) } else { harmless(text) }
    }

    /// A text with what matched in it made to stand out.
    pub(super) fn with_lit(self, text: &str, ranges: &[Range<usize>]) -> String {
        let mut shown = String::with_capacity(text.len());
        let mut at = 0;
        for range in ranges {
            let (Some(before), Some(lit)) = (text.get(at..range.start), text.get(range.clone())) else { continue };
            shown.push_str(&harmless(before));
            shown.push_str(&self.lit(&harmless(lit)));
            at = range.end;
        }
        shown.push_str(&harmless(text.get(at..).unwrap_or_default()));
        shown
    }

    /// Lines of a text, the first behind `first`, the others as far in as `rest`.
    pub(super) fn wrap(self, text: &str, first: &str, rest: &str) -> Vec<String> {
        let Some(width) = self.width else { return vec![format!("{first}{text}")] };
        let options = textwrap::Options::new(width)
            .initial_indent(first)
            .subsequent_indent(rest)
            .word_separator(textwrap::WordSeparator::AsciiSpace)
            .word_splitter(textwrap::WordSplitter::NoHyphenation)
            .wrap_algorithm(textwrap::WrapAlgorithm::FirstFit);
        textwrap::wrap(text, options).into_iter().map(|line| line.trim_end().to_string()).collect()
    }
}

/// Each word in its style, so that a line may end between any two.
fn painted(text: &str, style: Style) -> String {
    let words: Vec<String> = text.split(' ').map(|word| format!("{style}{}{style:#}", harmless(word))).collect();
    words.join(" ")
}

/// Whether colours are welcome: not with `NO_COLOR`, not on a terminal that has none.
fn wants_colours() -> bool {
    let says_no = env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
    !says_no && env::var_os("TERM").is_none_or(|term| term != "dumb")
}

#[cfg(test)]
#[expect(clippy::single_range_in_vec_init, reason = "one range of a text is meant")]
mod tests {
    use super::Look;

    const PLAIN: Look = Look { width: Some(40), colours: false };
    const COLOURS: Look = Look { width: Some(40), colours: true };

    #[test]
    fn what_matched_stands_out_with_and_without_colours() {
        assert_eq!(PLAIN.with_lit("Strobe trigger", &[0..6]), "*Strobe* trigger");
        let coloured = COLOURS.with_lit("Strobe trigger", &[0..6]);
        assert!(
            coloured.starts_with('\u{1b}') && coloured.ends_with(" trigger") && !coloured.contains('*'),
            "{coloured:?}"
        );
    }

    #[test]
    fn escapes_of_a_card_are_shown_and_not_sent() {
        for look in [PLAIN, COLOURS] {
            let shown = look.with_lit("a\u{1b}[31mb \u{9b}c", &[0..1]);
            assert!(!shown.contains("\u{1b}[31m") && !shown.contains('\u{9b}'), "{shown:?}");
            assert!(!look.strong("x\u{1b}]0;y\u{7}").contains("\u{1b}]"));
        }
    }

    #[test]
    fn lines_keep_to_the_width_with_colours_in_them() {
        let text = COLOURS.with_lit("External sounder hold-off positive and what it does when it goes", &[0..33]);
        let lines = COLOURS.wrap(&text, "  S+  ", "      ");
        assert_eq!(lines.len(), 2, "{lines:#?}");
        assert!(lines.iter().all(|line| textwrap::core::display_width(line) <= 40), "{lines:#?}");
    }
}
