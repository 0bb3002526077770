//! What the prompt knows between two keys: the words so far, the answer, which hit is chosen, which card is open.

use crate::search::Answer;

/// A key, as the prompt understands it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Key {
    Char(char),
    Backspace,
    Delete,
    Left,
    Right,
    Up,
    Down,
    PageUp,
    PageDown,
    Home,
    End,
    Enter,
    /// Back, or out.
    Escape,
    /// Forget the words.
    Clear,
    /// Out, from anywhere.
    Leave,
}

/// What a key asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Step {
    /// Only draw again.
    Draw,
    /// The words changed: ask again.
    Ask,
    /// Show the card of this id, from where it speaks of this mark.
    Show(String, Option<String>),
    /// Leave the prompt.
    Leave,
}

/// A card that is open, and how far it is scrolled.
#[derive(Debug, Clone, Default)]
pub(super) struct Open {
    pub(super) name: String,
    pub(super) text: String,
    pub(super) top: usize,
}

/// The prompt between two keys.
#[derive(Debug, Clone, Default)]
pub(super) struct State {
    words: Vec<char>,
    /// Where the next letter goes.
    at: usize,
    pub(super) answer: Answer,
    /// What there is to say when nothing was found.
    pub(super) nothing: String,
    /// Which hit is chosen; without hits, how far what is said is scrolled.
    pub(super) chosen: usize,
    pub(super) open: Option<Open>,
}

impl State {
    /// The words so far.
    pub(super) fn words(&self) -> String {
        self.words.iter().collect()
    }

    /// The words before the cursor.
    pub(super) fn before(&self) -> String {
        self.words.iter().take(self.at).collect()
    }

    /// Takes the answer to the words so far.
    pub(super) fn answered(&mut self, answer: Answer, nothing: String) {
        self.answer = answer;
        self.nothing = nothing;
        self.chosen = 0;
    }

    /// What a key does. `page` is how many lines the screen has, `last` the last line that an open text can begin at.
    pub(super) fn press(&mut self, key: Key, page: usize, last: usize) -> Step {
        if key == Key::Leave {
            return Step::Leave;
        }
        if let Some(open) = &mut self.open {
            if matches!(key, Key::Escape | Key::Enter | Key::Backspace) {
                self.open = None;
            } else {
                open.top = moved(open.top, key, page, last);
            }
            return Step::Draw;
        }
        match key {
            Key::Escape => Step::Leave,
            Key::Enter => {
                let chosen = self.answer.hits.get(self.chosen);
                chosen.map_or(Step::Draw, |hit| Step::Show(hit.card.clone(), hit.mark.clone()))
            }
            Key::Up | Key::Down | Key::PageUp | Key::PageDown => {
                let last = if self.answer.hits.is_empty() { last } else { self.answer.hits.len().saturating_sub(1) };
                self.chosen = moved(self.chosen, key, 4, last);
                Step::Draw
            }
            _ => self.edit(key),
        }
    }

    /// Changes the words, or moves in them.
    fn edit(&mut self, key: Key) -> Step {
        let before = self.words.clone();
        match key {
            Key::Char(c) if !c.is_control() => {
                self.words.insert(self.at.min(self.words.len()), c);
                self.at += 1;
            }
            Key::Backspace if self.at > 0 => {
                self.at -= 1;
                self.words.remove(self.at);
            }
            Key::Delete if self.at < self.words.len() => {
                self.words.remove(self.at);
            }
            Key::Clear => {
                self.words.clear();
                self.at = 0;
            }
            Key::Left => self.at = self.at.saturating_sub(1),
            Key::Right => self.at = (self.at + 1).min(self.words.len()),
            Key::Home => self.at = 0,
            Key::End => self.at = self.words.len(),
            _ => {}
        }
        if self.words == before { Step::Draw } else { Step::Ask }
    }
}

fn moved(at: usize, key: Key, page: usize, last: usize) -> usize {
    let at = match key {
        Key::Up => at.saturating_sub(1),
        Key::Down => at.saturating_add(1),
        Key::PageUp => at.saturating_sub(page),
        Key::PageDown => at.saturating_add(page),
        Key::Home => 0,
        Key::End => last,
        _ => at,
    };
    at.min(last)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(keys: &[Key]) -> State {
        let mut state = State::default();
        for key in keys {
            state.press(*key, 10, 0);
        }
        state
    }

    #[test]
    fn words_are_typed_and_mended() {
        use Key::{Backspace, Char, Clear, Delete, End, Home, Left};
        assert_eq!(typed(&[Char('s'), Char('+')]).words(), "s+");
        assert_eq!(typed(&[Char('s'), Char('x'), Backspace, Char('t')]).words(), "st");
        assert_eq!(typed(&[Char('t'), Left, Char('s'), End, Char('b')]).words(), "stb");
        assert_eq!(typed(&[Char('x'), Char('a'), Home, Delete]).words(), "a");
        assert_eq!(typed(&[Char('x'), Clear, Backspace, Delete]).words(), "");
        assert_eq!(typed(&[Char('\u{1b}')]).words(), "");
    }

    #[test]
    fn only_changed_words_are_asked_again() {
        let mut state = State::default();
        assert_eq!(state.press(Key::Char('s'), 10, 0), Step::Ask);
        assert_eq!(state.press(Key::Left, 10, 0), Step::Draw);
        assert_eq!(state.press(Key::Backspace, 10, 0), Step::Draw);
        assert_eq!(state.press(Key::Delete, 10, 0), Step::Ask);
    }

    #[test]
    fn escape_leaves_a_card_first_and_then_the_prompt() {
        let mut state = State { open: Some(Open::default()), ..State::default() };
        assert_eq!(state.press(Key::PageDown, 10, 3), Step::Draw);
        assert_eq!(state.open.as_ref().map(|open| open.top), Some(3));
        assert_eq!(state.press(Key::Escape, 10, 3), Step::Draw);
        assert!(state.open.is_none());
        assert_eq!(state.press(Key::Escape, 10, 3), Step::Leave);
        assert_eq!(state.press(Key::Enter, 10, 3), Step::Draw);
    }
}
