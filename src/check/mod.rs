//! From trees to the checked model: all faults at once, from one table of keys for each kind of file. A value of
//! the model that others plan with exists only if it was made here.

mod blank;
mod build;
mod evidence;
mod form;
mod images;
mod keys;
mod library;
mod listing;
mod look;
mod note;
mod parse;
mod pictures;
mod privacy;
mod readings;
mod schema;
mod shape;
mod sheet;
mod starter;
mod survey;
mod value;

pub use blank::{Known, blank_survey};
pub use form::{CellFault, FormSurvey, form_survey};
pub(crate) use keys::{Block, Key, LEFT, Shape, VISIT};
pub use library::{Spread, library, library_by};
pub use listing::{SurveyKey, survey_keys};
pub use look::Looked;
pub(crate) use look::block_of;
pub use note::note;
pub use pictures::{pictures, pictures_of_note};
pub use privacy::{privacy, private, private_file, sites};
pub use readings::{Readings, readings};
pub use schema::{SCHEMAS, schema};
pub use starter::{KINDS, starter};
pub use survey::survey;
pub(crate) use value::forbidden_mark;
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
