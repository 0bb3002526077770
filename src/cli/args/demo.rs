//! What is typed after `wirelore demo`.

use clap::Args as Group;
use std::path::PathBuf;

#[derive(Debug, Group)]
pub(in crate::cli) struct Demo {
    /// The folder for the packs
    #[arg(short, long, value_name = "DIR", default_value = "packs")]
    pub(in crate::cli) out: PathBuf,
}
