//! Search: a library becomes an index of single facts, a question becomes hits. Only this room uses tantivy.
//!
//! [`Index::build`] makes one document for each fact (a terminal, a fuse, a note …), a [`Writer`] does so for a part of
//! the cards; [`Index::answer`] answers. A person's words never reach tantivy's query parser, where `-A` and `TB1:3` are
//! syntax. `ask` cuts them into the things that are asked about, `ways` lists how a fact can answer each, and `stages`
//! puts them so that the opposite side of the supply never stands above the one asked for. `walk` goes through no more
//! facts than can be among the best, which `collect` keeps. The `phrases` of rings are indexed as words of their own. A
//! document stores all that a hit shows, so an index kept on disk answers without the cards; what a question needs
//! besides is the [`Lexicon`]. [`Index::image`] is what must be kept, [`Index::open`] has it back, [`Index::with_cards`]
//! changes single cards of it.

mod alive;
mod answer;
mod ask;
mod collect;
mod cutter;
mod danger;
mod entry;
mod export;
mod facts;
mod index;
mod keep;
mod known;
mod lexicon;
mod lit;
mod mark;
mod phrases;
mod schema;
mod shelf;
mod side;
mod stages;
mod steps;
mod terms;
mod text;
mod vocabulary;
mod walk;
mod way;
mod ways;
mod writer;

pub use answer::Answer;
pub use entry::{Hit, Kind};
pub use export::{HABITS, Habits, RingWord, form, indexed, mark as mark_key, rings, words};
pub use index::{Index, Question, SearchFault};
pub use keep::Image;
pub use known::{known, known_at};
pub use lexicon::Lexicon;
pub use lit::Lit;
pub use mark::Sign;
pub use phrases::Phrases;
pub use shelf::IsWhole;
pub use side::Side;
pub use terms::{Place, Terms};
pub use writer::{Part, Writer};
