//! What is typed after `wirelore pocket`.

use clap::Args as Group;
use std::path::PathBuf;

#[derive(Debug, Group)]
pub(in crate::cli) struct Pocket {
    /// The file to write
    #[arg(short, long, value_name = "FILE", default_value = "pocket.html")]
    pub(in crate::cli) out: PathBuf,
    /// Only these old panels, with commas between; boards, supplies and devices stay, for any panel may meet them
    #[arg(long, value_name = "IDS", value_delimiter = ',')]
    pub(in crate::cli) panels: Vec<String>,
    /// A folder of packs, as `wirelore pack` writes it
    #[arg(long, value_name = "DIR")]
    pub(in crate::cli) packs: Option<PathBuf>,
    /// A folder of your own templates; each takes the place of ours of the same name
    #[arg(long, value_name = "DIR")]
    pub(in crate::cli) templates: Option<PathBuf>,
}
