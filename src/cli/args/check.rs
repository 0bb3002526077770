//! What is typed after `wirelore check`.

use clap::Args as Group;
use std::path::PathBuf;

#[derive(Debug, Group)]
pub(in crate::cli) struct Check {
    /// Card files, survey files or folders
    #[arg(value_name = "PATH")]
    pub(in crate::cli) paths: Vec<PathBuf>,
    /// Print JSON for another program
    #[arg(long)]
    pub(in crate::cli) json: bool,
}
