//! Keys that go with what another key of the same block says.

use crate::source::Node;

/// What another key says.
#[derive(Debug, Clone, Copy)]
pub(crate) struct When {
    /// The other key.
    pub(crate) key: &'static str,
    /// The words that count.
    pub(crate) says: &'static [&'static str],
    /// Whether it must say something else, or nothing.
    pub(crate) not: bool,
}

impl When {
    /// When the other key says one of these words.
    pub(crate) const fn says(key: &'static str, says: &'static [&'static str]) -> Self {
        Self { key, says, not: false }
    }

    /// When the other key says none of these words, or is not there.
    pub(crate) const fn not(key: &'static str, says: &'static [&'static str]) -> Self {
        Self { key, says, not: true }
    }

    /// Whether it is so in a block.
    pub(crate) fn holds(&self, block: &Node) -> bool {
        let said = block.get(self.key).and_then(Node::text).is_some_and(|text| self.says.contains(&text));
        said != self.not
    }
}

/// What a key has to do with another one, and what is wrong otherwise.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Tie {
    /// When it is so.
    pub(crate) when: When,
    /// What is wrong; empty where the building of the card says it with more than the table knows.
    pub(crate) message: &'static str,
    /// What to write instead.
    pub(crate) help: &'static str,
}
