//! What is typed after `wirelore sheet`.

use clap::Args as Group;
use std::path::PathBuf;

#[derive(Debug, Group)]
pub(in crate::cli) struct Sheet {
    /// A panel's card, or the name of a panel that has none; several make several sheets
    #[arg(required = true, value_name = "PANEL")]
    pub(in crate::cli) panels: Vec<String>,
    /// Blanks for so many cables; without it, one for each zone, one for the sounder, one for the keypad
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=200))]
    pub(in crate::cli) cables: Option<u16>,
    /// The new board's card, where it is decided already
    #[arg(long, value_name = "BOARD")]
    pub(in crate::cli) board: Option<String>,
    /// The folder for the sheets
    #[arg(short, long, value_name = "DIR", default_value = "sheets")]
    pub(in crate::cli) out: PathBuf,
    /// Write sheet.xlsx too, the same blanks as a form for a spreadsheet; `new survey ID --from` reads it back
    #[arg(long)]
    pub(in crate::cli) xlsx: bool,
    /// A folder of your own templates; each takes the place of ours of the same name
    #[arg(long, value_name = "DIR")]
    pub(in crate::cli) templates: Option<PathBuf>,
}
