//! What is typed after `wirelore pack`.

use super::typed::date;
use clap::Args as Group;
use jiff::civil::Date;
use std::num::NonZeroUsize;
use std::path::PathBuf;

#[derive(Debug, Group)]
pub(in crate::cli) struct Pack {
    /// A survey file, a folder of surveys, or the id of a survey in the library
    #[arg(required = true, value_name = "SURVEY")]
    pub(in crate::cli) surveys: Vec<PathBuf>,
    /// The folder for the packs
    #[arg(short, long, value_name = "DIR", default_value = "packs")]
    pub(in crate::cli) out: PathBuf,
    /// A folder of your own templates; each takes the place of ours of the same name
    #[arg(long, value_name = "DIR")]
    pub(in crate::cli) templates: Option<PathBuf>,
    /// End with exit code 1 when a pack is not ready
    #[arg(long)]
    pub(in crate::cli) strict: bool,
    /// A date to print on the packs, YYYY-MM-DD; without it, none is printed
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub(in crate::cli) date: Option<Date>,
    /// How many packs to work on at once; without it, as many as the machine can
    #[arg(long, value_name = "N")]
    pub(in crate::cli) threads: Option<NonZeroUsize>,
}
