//! What is typed for one figure.

use crate::check::misread;
use crate::model::Wiring;
use crate::units::{AmpHours, Amps, Celsius, Metres, Ohms, Percent, Quantity, SquareMillimetres, Volts};
use clap::{Args as Group, Subcommand, ValueEnum};
use std::num::NonZeroUsize;

#[derive(Debug, Subcommand)]
pub(in crate::cli) enum Figure {
    /// Volts at the far end of a run
    ///
    /// The volts of the source less what the cores lose there and back, everything on the run in alarm. Where a
    /// trigger is fired by negative applied, its own line is worked too, and the lower figure counts.
    #[command(
        after_help = "Example: wirelore figure drop --volts \"13.7 V\" --current \"350 mA\" --cable alarm-6 --length \"15 m\" --needs \"9 V\""
    )]
    Drop(Drop),
    /// What a loop reads in each state, and what the board makes of it
    #[command(
        after_help = "Example: wirelore figure loop --wiring double-eol --board fennick-f8 --cable alarm-6 --length \"20 m\""
    )]
    Loop(Loop),
    /// What a standby battery must hold
    ///
    /// The panel's own drain is part of both currents, where it stays on as the power source.
    #[command(
        after_help = "Example: wirelore figure battery --standby \"249 mA\" --alarm \"776 mA\" --grade 2 --capacity \"7 Ah\""
    )]
    Battery(Battery),
    /// How hard a fuse works
    #[command(after_help = "Example: wirelore figure fuse --rating \"1 A\" --current \"716 mA\"")]
    Fuse(Fuse),
}

/// What the cores are made of, and how warm they are.
#[derive(Debug, Group)]
#[group(id = "wire", required = true, multiple = false, args = ["cable", "area", "ohms_per_km"])]
pub(in crate::cli) struct WireArgs {
    /// A cable card of the library
    #[arg(long, value_name = "CABLE")]
    pub(super) cable: Option<String>,
    /// Instead of a card, the copper cross-section of one core, "0.22 mm2"
    #[arg(long, value_name = "AREA", value_parser = quantity::<SquareMillimetres>)]
    pub(super) area: Option<SquareMillimetres>,
    /// Instead of a card, ohms of one kilometre of one core at 20 °C, "92 ohm"
    #[arg(long, value_name = "OHMS", value_parser = quantity::<Ohms>)]
    pub(super) ohms_per_km: Option<Ohms>,
}

#[expect(clippy::struct_field_names, reason = "the names are the options")]
#[derive(Debug, Group)]
pub(in crate::cli) struct Drop {
    /// Volts of the power source: on mains, or where the battery is nearly flat
    #[arg(long, value_name = "VOLTS", value_parser = quantity::<Volts>)]
    pub(super) volts: Volts,
    /// What everything on the run draws of its own, in alarm
    #[arg(long, value_name = "CURRENT", value_parser = quantity::<Amps>)]
    pub(super) current: Amps,
    /// What a trigger draws that negative applied fires, through a core of its own
    #[arg(long, value_name = "CURRENT", value_parser = quantity::<Amps>)]
    pub(super) trigger: Option<Amps>,
    #[command(flatten)]
    pub(super) wire: WireArgs,
    /// How long the run is, one way
    #[arg(long, value_name = "LENGTH", value_parser = quantity::<Metres>)]
    pub(super) length: Metres,
    /// Positive cores in parallel; without it, one
    #[arg(long, value_name = "CORES")]
    pub(super) positive: Option<NonZeroUsize>,
    /// Negative cores in parallel; without it, one
    #[arg(long, value_name = "CORES")]
    pub(super) negative: Option<NonZeroUsize>,
    /// What the board's supply loses before its screws; without it, nothing
    #[arg(long, value_name = "VOLTS", value_parser = quantity::<Volts>)]
    pub(super) supply_drop: Option<Volts>,
    /// The low volts of what hangs at the end
    #[arg(long, value_name = "VOLTS", value_parser = quantity::<Volts>)]
    pub(super) needs: Option<Volts>,
    /// Where the cable is; without it, 20 °C
    #[arg(long, value_name = "TEMPERATURE", value_parser = quantity::<Celsius>, allow_hyphen_values = true)]
    pub(super) temperature: Option<Celsius>,
    /// Print JSON for another program
    #[arg(long)]
    pub(super) json: bool,
}

#[derive(Debug, Group)]
pub(in crate::cli) struct Loop {
    /// How it is wired
    #[arg(long, value_enum)]
    pub(super) wiring: WiringWord,
    /// The board that watches it
    #[arg(long, value_name = "BOARD")]
    pub(super) board: String,
    #[command(flatten)]
    pub(super) wire: WireArgs,
    /// How long the run is, one way
    #[arg(long, value_name = "LENGTH", value_parser = quantity::<Metres>)]
    pub(super) length: Metres,
    /// How long it is at least; without it, the same
    #[arg(long, value_name = "LENGTH", value_parser = quantity::<Metres>)]
    pub(super) shortest: Option<Metres>,
    /// Ohms in series with the alarm contact; without it, none
    #[arg(long, value_name = "OHMS", value_parser = quantity::<Ohms>)]
    pub(super) series: Option<Ohms>,
    /// Ohms in series with the tamper contact; without it, none
    #[arg(long, value_name = "OHMS", value_parser = quantity::<Ohms>)]
    pub(super) tamper_series: Option<Ohms>,
    /// The end-of-line resistor, when it is not the board's
    #[arg(long, value_name = "OHMS", value_parser = quantity::<Ohms>)]
    pub(super) end: Option<Ohms>,
    /// The resistor across the alarm contact, when it is not the board's
    #[arg(long, value_name = "OHMS", value_parser = quantity::<Ohms>)]
    pub(super) alarm: Option<Ohms>,
    /// The resistors' tolerance, when it is not the board's
    #[arg(long, value_name = "PER CENT", value_parser = quantity::<Percent>)]
    pub(super) tolerance: Option<Percent>,
    /// Where the cable is; without it, 20 °C
    #[arg(long, value_name = "TEMPERATURE", value_parser = quantity::<Celsius>, allow_hyphen_values = true)]
    pub(super) temperature: Option<Celsius>,
    /// Print JSON for another program
    #[arg(long)]
    pub(super) json: bool,
}

#[derive(Debug, Group)]
pub(in crate::cli) struct Battery {
    /// All current at rest, the panel's own with it
    #[arg(long, value_name = "CURRENT", value_parser = quantity::<Amps>)]
    pub(super) standby: Amps,
    /// All current in alarm
    #[arg(long, value_name = "CURRENT", value_parser = quantity::<Amps>)]
    pub(super) alarm: Amps,
    /// The rules of the library that say how long
    #[arg(long, value_name = "RULES", default_value = "en-50131")]
    pub(super) rules: String,
    /// The grade in those rules
    #[arg(long, value_name = "GRADE", default_value = "2")]
    pub(super) grade: String,
    /// Mains failure is signalled to a receiving centre
    #[arg(long)]
    pub(super) reported: bool,
    /// The battery's capacity; without it, the smallest in stock that is enough
    #[arg(long, value_name = "CAPACITY", value_parser = quantity::<AmpHours>)]
    pub(super) capacity: Option<AmpHours>,
    /// The charging current, to work out how soon it is back at 80 %
    #[arg(long, value_name = "CURRENT", value_parser = quantity::<Amps>)]
    pub(super) charge: Option<Amps>,
    /// Where the battery is; without it, 20 °C
    #[arg(long, value_name = "TEMPERATURE", value_parser = quantity::<Celsius>, allow_hyphen_values = true)]
    pub(super) temperature: Option<Celsius>,
    /// Print JSON for another program
    #[arg(long)]
    pub(super) json: bool,
}

#[derive(Debug, Group)]
pub(in crate::cli) struct Fuse {
    /// What is printed on it
    #[arg(long, value_name = "RATING", value_parser = quantity::<Amps>)]
    pub(super) rating: Amps,
    /// What it carries for long
    #[arg(long, value_name = "CURRENT", value_parser = quantity::<Amps>)]
    pub(super) current: Amps,
    /// Print JSON for another program
    #[arg(long)]
    pub(super) json: bool,
}

/// How a loop is wired.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum WiringWord {
    /// Normally closed contacts and nothing else
    ClosedLoop,
    /// One end-of-line resistor
    SingleEol,
    /// Two resistors: alarm and tamper on one pair
    DoubleEol,
}

impl WiringWord {
    /// The same in the model.
    pub(super) fn wiring(self) -> Wiring {
        match self {
            Self::ClosedLoop => Wiring::ClosedLoop,
            Self::SingleEol => Wiring::SingleEol,
            Self::DoubleEol => Wiring::DoubleEol,
        }
    }
}

/// A quantity with its unit; what is wrong with it is said as `check` says it.
fn quantity<Q: Quantity>(text: &str) -> Result<Q, String> {
    Q::read(text).map_err(|wrong| format!("{}: write for example \"{}\"", misread(text, &wrong, Q::NAME), Q::EXAMPLE))
}
