//! What is typed after `wirelore notes`.

use clap::Args as Group;

#[derive(Debug, Group)]
pub(in crate::cli) struct Notes {
    /// Only those of this card
    #[arg(value_name = "CARD")]
    pub(in crate::cli) card: Option<String>,
    /// Print JSON for another program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}
