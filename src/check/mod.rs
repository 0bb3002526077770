//! From trees to the checked model: all faults at once, from one table of keys for each kind of file. A value of
//! the model that others plan with exists only if it was made here.

mod blank;
mod build;
mod evidence;
mod keys;
mod library;
mod listing;
mod note;
mod parse;
mod privacy;
mod schema;
mod shape;
mod sheet;
mod starter;
mod survey;
mod value;

pub use blank::{Known, blank_survey};
pub(crate) use keys::{Block, Key, Shape};
pub(crate) use library::block_of;
pub use library::library;
pub use listing::{SurveyKey, survey_keys};
pub use note::note;
pub use privacy::{privacy, private, sites};
pub use schema::{SCHEMAS, schema};
pub use starter::{KINDS, starter};
pub use survey::survey;
pub use value::misread;

use crate::diagnostics::Fault;

/// What could be read, and everything that is wrong.
#[derive(Debug, Clone)]
pub struct Checked<T> {
    /// What is without fault.
    pub value: T,
    /// What is wrong, in file order, then line order.
    pub faults: Vec<Fault>,
}
