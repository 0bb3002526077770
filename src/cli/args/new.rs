//! What is typed after `wirelore new`.

use super::typed::key_and_value;
use clap::{Subcommand, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Subcommand)]
pub(in crate::cli) enum New {
    /// A card to fill in: panel, board, device, cable or supply
    Card {
        /// What it is a card of
        #[arg(value_enum)]
        kind: CardKind,
        /// Its id: lower-case letters, digits and hyphens
        id: String,
        /// A table of its terminals to begin with, `.csv` or `.xlsx`, for a panel, a board or a supply
        #[arg(long, value_name = "FILE")]
        from: Option<PathBuf>,
        /// Which column of the table is what, for example mark=1,does=3,volts=none; without it, the heads say so.
        /// The fields: mark, does, group, polarity, volts, limit, fuse, notes, page
        #[arg(long, value_name = "FIELD=COLUMN", value_delimiter = ',', value_parser = key_and_value, requires = "from")]
        columns: Vec<(String, String)>,
    },
    /// A survey to fill in, in the library's `surveys` folder; without --library, in the folder you are in
    Survey {
        /// Its id: lower-case letters, digits and hyphens
        id: String,
        /// A filled-in form, `sheet.xlsx` of `wirelore sheet --xlsx`, to begin with; what is wrong is told by sheet and cell
        #[arg(long, value_name = "FILE")]
        from: Option<PathBuf>,
    },
    /// A library of your own, with the generic devices, cables, terms and rules in it
    Library {
        /// The folder to make
        dir: PathBuf,
        /// With the demo library's panels, boards, notes and surveys in it too, to practise on
        #[arg(long)]
        demo: bool,
    },
}

/// What a card is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum CardKind {
    /// An old control unit
    Panel,
    /// A new control unit
    Board,
    /// A detector, contact, sounder, keypad …
    Device,
    /// A type of cable
    Cable,
    /// A boxed power supply
    Supply,
}
