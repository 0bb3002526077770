//! What is typed after `wirelore schema`.

use crate::check::SCHEMAS;
use clap::Args as Group;
use clap::builder::PossibleValuesParser;

#[derive(Debug, Group)]
pub(in crate::cli) struct Schema {
    /// The kind of file; `card` is a card of any kind, `note` the header of a note
    #[arg(value_name = "KIND", value_parser = PossibleValuesParser::new(SCHEMAS))]
    pub(in crate::cli) kind: String,
}
