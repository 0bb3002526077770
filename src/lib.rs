//! Wirelore keeps what is known about old wired intruder alarms and turns a survey of a site into a job pack.
//!
//! The flow is one way, and each stage is one function:
//!
//! 1. [`source::Files`] reads files; [`source::read`] turns YAML into trees that know their places.
//! 2. [`check::library`] and [`check::survey`] turn trees into the checked [`model`], with every fault at once.
//! 3. [`model::Job::new`] follows a survey's references.
//! 4. [`choose::choose`] finds the optimum of cables, wirings, inputs and outputs.
//! 5. [`land::land`] gives every core its screw.
//! 6. [`work::work`] works volts, loads, loops and battery with the formulas of [`formula`].
//! 7. [`judge::judge`] says what a reader must know, and alone whether the pack is ready.
//! 8. [`pack::view`] makes what pages show; [`draw::pictures`] makes its drawings; [`render`] makes the bytes.
//! 9. [`cli::run`] is the edge: commands, files, screens, exit codes.
//!
//! [`edit`] changes one fact of a card in its text; [`draft`] makes a new card of a table. [`search`] stands beside
//! the flow: it finds any fact of a library. [`pocket`] makes of the same facts what a page needs that has nothing else. `DEVELOPERS.md` has the map with its reasons.

pub mod check;
pub mod choose;
pub mod cli;
pub mod diagnostics;
pub mod draft;
pub mod draw;
pub mod edit;
pub mod formula;
pub mod gaps;
pub mod guard;
pub mod judge;
pub mod land;
pub mod model;
pub mod pack;
pub mod pocket;
pub mod render;
pub mod search;
pub mod source;
pub mod store;
pub mod units;
pub mod wording;
pub mod work;
