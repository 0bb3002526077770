//! What is kept between two runs: it makes the next run quick and can be thrown away at any time. Only this room writes
//! it, and nothing here knows what a card says.
//!
//! A [`Place`] is the folder for one library. Its file `state` says what was there: a [`Manifest`] of every file with
//! its [`Stamp`] and the hash of its content, and whatever the caller wants to keep beside it. [`Manifest::renewed`] looks
//! at the library again and says what has changed. Large files lie beside the state under names of their own and
//! never change; the state is replaced whole by a rename, so a reader sees the old one or the new one.
//!
//! An [`Out`] is a folder of packs: what is kept of them, [`Packs`], lies in it, and one process at a time writes there.

mod blocks;
mod cards;
mod hash;
mod kept;
mod look;
mod manifest;
mod out;
mod packed;
mod packs;
mod place;
mod seal;
mod seen;
mod stamp;
mod swap;
mod words;

pub use blocks::Blocks;
pub use cards::{Cards, card_bytes, card_of};
pub use hash::{Hash, Hashing, hash};
pub use kept::{Kept, Told};
pub use look::{List, Renewed};
pub use manifest::Manifest;
pub use out::{Closed, Out, Sealed};
pub use packed::State;
pub use packs::{CardSeen, PackSeen, Packs, RowSeen};
pub use place::{Name, Place, Turn};
pub use seen::{BACK, Seen, Stamps, content, content_of};
pub use stamp::{Root, Stamp, Tick};
pub use swap::exchange;
pub use words::Words;
