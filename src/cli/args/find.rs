//! What is typed after `wirelore find`.

use crate::search::{Kind, Question};
use clap::Args as Group;
use std::ffi::OsString;
use std::num::NonZeroUsize;

#[derive(Debug, Group)]
pub(in crate::cli) struct Find {
    /// A mark as printed, or words; none: a prompt that searches as you type
    #[arg(value_name = "WORDS")]
    pub(in crate::cli) words: Vec<OsString>,
    /// Only facts of this card
    #[arg(long, value_name = "ID")]
    card: Option<String>,
    /// Only these kinds, with commas between: card, terminal, fuse, siren, zone, link, marking, caution, note
    #[arg(long, value_name = "KINDS", value_delimiter = ',', value_parser = kind)]
    kind: Vec<Kind>,
    /// At most so many hits
    #[arg(long, value_name = "N", default_value = "10")]
    limit: NonZeroUsize,
    /// Look for changes only in the cards that are shown, not in the whole library
    #[arg(long)]
    pub(in crate::cli) no_fresh: bool,
    /// Print JSON for another program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

impl Find {
    /// Whether it is left to the prompt what to ask.
    pub(in crate::cli) fn is_open(&self) -> bool {
        self.words.is_empty() && !self.json
    }

    /// The question; bytes that are not text are replaced, for any bytes are a valid question.
    pub(in crate::cli) fn question(&self) -> Question {
        let words: Vec<_> = self.words.iter().map(|w| w.to_string_lossy()).collect();
        Question { words: words.join(" "), card: self.card.clone(), kinds: self.kind.clone(), limit: self.limit.get() }
    }
}

fn kind(word: &str) -> Result<Kind, String> {
    Kind::of(word.trim()).ok_or_else(|| {
        let all: Vec<&str> = Kind::ALL.into_iter().map(Kind::word).collect();
        format!("the kinds are {}", all.join(", "))
    })
}
