//! What is typed after `wirelore readings`.

use clap::Args as Group;
use std::path::PathBuf;

#[derive(Debug, Group)]
pub(in crate::cli) struct Readings {
    /// A survey file, or the id of a survey in the library
    #[arg(value_name = "SURVEY")]
    pub(in crate::cli) survey: PathBuf,
    /// The file of readings
    #[arg(value_name = "FILE")]
    pub(in crate::cli) file: PathBuf,
}
