//! What is typed after `wirelore gaps`.

use super::typed::date;
use clap::Args as Group;
use jiff::civil::Date;
use std::path::PathBuf;

#[derive(Debug, Group)]
pub(in crate::cli) struct Gaps {
    /// Only those of this card
    #[arg(value_name = "CARD")]
    pub(in crate::cli) card: Option<String>,
    /// A folder of surveys besides the library's own, to count which facts packs rest on
    #[arg(long, value_name = "DIR")]
    pub(in crate::cli) surveys: Option<PathBuf>,
    /// The day from which two years are counted back, YYYY-MM-DD; without it, today
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub(in crate::cli) today: Option<Date>,
    /// Print JSON for another program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}
