//! What is typed after `wirelore show`.

use clap::Args as Group;

#[derive(Debug, Group)]
pub(in crate::cli) struct Show {
    /// The card's id, as in its file's name
    #[arg(value_name = "CARD")]
    pub(in crate::cli) card: String,
}
