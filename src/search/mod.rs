//! Search: a library becomes an index of single facts, a question becomes hits. Only this room uses tantivy.
//!
//! [`Index::build`] makes one document for each fact (a terminal, a fuse, a note …); [`Index::find`] answers.
//! A person's words never reach tantivy's query parser, where `-A` and `TB1:3` are syntax: they are cut into our
//! own tokens, and the query is built from those. A document stores all that a hit shows, so an index kept on
//! disk would answer without the cards.

mod danger;
mod entry;
mod facts;
mod index;
mod keep;
mod known;
mod lexicon;
mod query;
mod schema;
mod shelf;
mod statistics;
mod token;

pub use entry::{Hit, Kind};
pub use index::{Index, Question, SearchFault};
pub use keep::Image;
pub use known::known;
pub use lexicon::Lexicon;
