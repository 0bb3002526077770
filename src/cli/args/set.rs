//! What is typed after `wirelore set`.

use super::typed::key_and_value;
use clap::Args as Group;

#[derive(Debug, Group)]
pub(in crate::cli) struct Set {
    /// The card's id, as in its file's name
    #[arg(value_name = "CARD")]
    pub(in crate::cli) card: String,
    /// The terminal, fuse or link by its mark, or another place on the card
    #[arg(value_name = "MARK", allow_hyphen_values = true)]
    pub(in crate::cli) of: String,
    /// What it is to say, for example rating="1.6 A"
    #[arg(required = true, value_name = "KEY=VALUE", value_parser = key_and_value)]
    pub(in crate::cli) values: Vec<(String, String)>,
    /// Which of the card's sources says so, and where in it, for example "manual p.5"
    #[arg(long, value_name = "SOURCE")]
    pub(in crate::cli) cite: Option<String>,
    /// Print JSON for another program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}
