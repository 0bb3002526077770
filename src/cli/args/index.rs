//! What is typed after `wirelore index`.

use clap::Args as Group;
use std::path::PathBuf;

#[derive(Debug, Group)]
pub(in crate::cli) struct Index {
    /// The folders of packs
    #[arg(required = true, value_name = "DIR")]
    pub(in crate::cli) folders: Vec<PathBuf>,
    /// The folder for the index, which is none of those
    #[arg(short, long, value_name = "OUT", default_value = ".")]
    pub(in crate::cli) out: PathBuf,
    /// A folder of your own templates; each takes the place of ours of the same name
    #[arg(long, value_name = "DIR")]
    pub(in crate::cli) templates: Option<PathBuf>,
}
