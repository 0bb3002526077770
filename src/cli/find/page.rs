//! An answer as a page of text: how the question was understood, then the hits, by card.

use super::hit;
use crate::cli::paint::Look;
use crate::search::{Answer, Hit};

/// The page of an answer with hits.
pub(super) fn page(look: Look, answer: &Answer) -> String {
    let mut lines = understood(look, answer);
    if !lines.is_empty() {
        lines.push(String::new());
    }
    for (at, hits) in by_card(&answer.hits).into_iter().enumerate() {
        if at > 0 {
            lines.push(String::new());
        }
        lines.extend(hits.first().map(|hit| heading(look, hit)).unwrap_or_default());
        let mut before = None;
        for hit in hits {
            lines.extend(hit::head(look, answer, hit));
            lines.extend(hit::facts(look, hit, before));
            before = Some(hit);
        }
    }
    let mut text = lines.join("\n");
    text.push('\n');
    text
}

/// The name of a hit's card.
pub(in crate::cli) fn heading(look: Look, hit: &Hit) -> Vec<String> {
    look.wrap(&format!("{} {}", look.strong(&hit.card_name), look.quiet(&format!("({})", hit.card))), "", "  ")
}

/// What was read as something else, what was not found, and whether the hits are what was asked for.
pub(in crate::cli) fn understood(look: Look, answer: &Answer) -> Vec<String> {
    let mut says = Vec::new();
    for (typed, read) in &answer.read_as {
        says.push(format!("Read \"{typed}\" as {}.", read.join(" or ")));
    }
    if !answer.missing.is_empty() {
        says.push(format!("Not in any card: {}. These answer the rest.", answer.missing.join(", ")));
    }
    if answer.is_part {
        says.push("No one fact has all of that. These have the most of it.".to_string());
    }
    if answer.hits.first().is_some_and(|hit| hit.is_opposite) {
        says.push("Nothing with that sign was found. What follows is on the OTHER side.".to_string());
    }
    says.iter().flat_map(|text| look.wrap(&look.alarm(text), "", "  ")).collect()
}

/// Hits by card, the card of the best hit first; a hit on the opposite side stays behind all that are not.
fn by_card(hits: &[Hit]) -> Vec<Vec<&Hit>> {
    let mut groups: Vec<(bool, &str, Vec<&Hit>)> = Vec::new();
    for hit in hits {
        match groups.iter_mut().find(|(opposite, card, _)| (*opposite, *card) == (hit.is_opposite, hit.card.as_str())) {
            Some((_, _, group)) => group.push(hit),
            None => groups.push((hit.is_opposite, &hit.card, vec![hit])),
        }
    }
    groups.into_iter().map(|(_, _, group)| group).collect()
}

#[cfg(test)]
mod tests {
    use super::page;
    use crate::check;
    use crate::cli::paint::Look;
    use crate::search::{Answer, Index, Question};
    use crate::source::Files;
    use textwrap::core::display_width;

    fn answer(words: &str) -> Answer {
        let library = check::library(&Files::embedded()).value;
        let index = Index::build(&library).expect("a library is indexed");
        index.answer(&Question { words: words.into(), limit: 10, ..Question::default() }).expect("an answer")
    }

    #[test]
    fn no_line_is_wider_than_the_terminal() {
        for words in ["S+", "F2 blown", "strbe mb6", "sounder chirps every eight seconds"] {
            let answer = answer(words);
            for colours in [false, true] {
                let text = page(Look { width: Some(40), colours }, &answer);
                assert!(text.lines().all(|line| display_width(line) <= 40), "{words}: {text}");
            }
        }
    }

    #[test]
    fn the_opposite_sign_says_so_before_anything_else() {
        let text = page(Look { width: None, colours: false }, &answer("S+"));
        let line = text.lines().find(|line| line.contains("S-  ")).expect("S- is listed");
        assert!(line.contains("opposite sign: asked S+, this is S-."), "{text}");
        let asked = text.find("> S+").expect("S+ is listed");
        assert!(asked < text.find("opposite sign").unwrap_or(0), "{text}");
    }

    #[test]
    fn colours_say_nothing_that_the_words_do_not() {
        let answer = answer("hold off mb6");
        let plain = page(Look { width: None, colours: false }, &answer);
        let coloured = page(Look { width: None, colours: true }, &answer);
        assert!(plain.contains('*') && !plain.contains('\u{1b}') && coloured.contains('\u{1b}'));
        assert_eq!(textwrap::core::display_width(&plain.replace('*', "")), textwrap::core::display_width(&coloured));
    }

    #[test]
    fn a_slip_is_told() {
        let text = page(Look { width: None, colours: false }, &answer("strbe mb6"));
        assert!(text.starts_with("Read \"strbe\" as strobe."), "{text}");
    }
}
