//! What panels, boards and boxed power supplies have in common: screws, fuses, power, a history.

use super::{CardId, Cite, Evidence, Fact, How, Mark};
use crate::units::{Amps, Volts, Window};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// The part of a card that any unit with screws has.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct Unit {
    /// The card's id.
    pub id: CardId,
    /// Who made it.
    pub maker: Option<String>,
    /// What its maker calls it.
    pub model: Option<String>,
    /// Other names it goes by.
    pub also: Vec<String>,
    /// What is printed on the circuit board or inside the lid.
    pub markings: Vec<String>,
    /// Where its facts come from, in card order.
    pub sources: Vec<SourceText>,
    /// Its mains terminals.
    pub mains: Fact<Mains>,
    /// Every screw, in board order.
    pub terminals: Vec<Terminal>,
    /// Every fuse.
    pub fuses: Vec<Fuse>,
    /// Jumpers and switches.
    pub links: Vec<Link>,
    /// What to beware of.
    pub cautions: Vec<String>,
    /// What it can feed as the power source.
    pub power: Fact<PowerBlock>,
    /// Its keypad terminals.
    pub keypad: Fact<Keypad>,
}

impl Unit {
    /// The terminal with this mark.
    #[must_use]
    pub fn terminal(&self, mark: &str) -> Option<&Terminal> {
        self.terminals.iter().find(|t| t.mark == mark)
    }

    /// The fuse with this mark.
    #[must_use]
    pub fn fuse(&self, mark: &str) -> Option<&Fuse> {
        self.fuses.iter().find(|f| f.mark == mark)
    }

    /// Maker and model as a person says them; the id when neither is known.
    #[must_use]
    pub fn name(&self) -> String {
        let words: Vec<&str> = [&self.maker, &self.model].into_iter().flatten().map(String::as_str).collect();
        if words.is_empty() { self.id.clone() } else { words.join(" ") }
    }
}

/// A key of `sources`.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct SourceText {
    /// The word cites use.
    pub key: String,
    /// How it knows.
    pub how: How,
    /// What it is called.
    pub title: Option<String>,
    /// When it was written or measured.
    #[serde(with = "super::day")]
    pub date: Option<Date>,
}

/// The mains terminals and their fuse.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Mains {
    /// Live, neutral, earth as the card lists them.
    pub terminals: Vec<Mark>,
    /// The mains fuse.
    pub fuse: Option<Mark>,
    /// Where this is from.
    pub cite: Vec<Cite>,
}

/// One screw.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Terminal {
    /// What is printed beside it.
    pub mark: Mark,
    /// The family it belongs to; `None` when the card does not say.
    pub group: Option<Group>,
    /// What it does.
    pub does: Option<String>,
    /// Its polarity, where it has one.
    pub polarity: Option<Polarity>,
    /// What it should measure against its negative.
    pub volts: Option<Window<Volts>>,
    /// What it can give.
    pub limit: Option<Amps>,
    /// The fuse that guards it.
    pub fuse: Option<Mark>,
    /// More words.
    pub notes: Option<String>,
    /// Where this is from.
    pub cite: Vec<Cite>,
    /// At how many sites this was measured, and how it came out.
    pub evidence: Evidence,
}

/// The family a terminal belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the words are the trade's own")]
pub enum Group {
    Mains,
    Earth,
    Battery,
    Supply,
    Siren,
    Strobe,
    Speaker,
    Tamper,
    Zone,
    Keypad,
    Output,
    Comms,
    Other,
}

impl Group {
    /// Every family, with the word a card writes.
    pub const WORDS: [(&'static str, Self); 13] = [
        ("mains", Self::Mains),
        ("earth", Self::Earth),
        ("battery", Self::Battery),
        ("supply", Self::Supply),
        ("siren", Self::Siren),
        ("strobe", Self::Strobe),
        ("speaker", Self::Speaker),
        ("tamper", Self::Tamper),
        ("zone", Self::Zone),
        ("keypad", Self::Keypad),
        ("output", Self::Output),
        ("comms", Self::Comms),
        ("other", Self::Other),
    ];

    /// The word a card writes.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS.iter().find(|(_, g)| *g == self).map_or("other", |(w, _)| w)
    }
}

/// Which side of the supply a terminal is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Polarity {
    /// The positive side.
    Positive,
    /// The negative side.
    Negative,
}

/// A fuse, as the card gives it.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Fuse {
    /// What is printed beside it.
    pub mark: Mark,
    /// Its rated current.
    pub rating: Option<Amps>,
    /// How fast it opens.
    pub speed: Option<FuseSpeed>,
    /// Its size, for example `5x20`.
    pub size: Option<String>,
    /// What it guards.
    pub guards: Option<String>,
    /// Where on the board it is.
    pub place: Option<String>,
    /// Where this is from.
    pub cite: Vec<Cite>,
    /// At how many sites this was measured, and how it came out.
    pub evidence: Evidence,
}

/// How fast a fuse opens (IEC 60127).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the letters are those of IEC 60127")]
pub enum FuseSpeed {
    FF,
    F,
    M,
    T,
    TT,
}

impl FuseSpeed {
    /// The letters of IEC 60127.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::FF => "FF",
            Self::F => "F",
            Self::M => "M",
            Self::T => "T",
            Self::TT => "TT",
        }
    }
}

/// A jumper or a switch.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Link {
    /// What is printed beside it.
    pub mark: Mark,
    /// What it does.
    pub does: String,
    /// Where this is from.
    pub cite: Vec<Cite>,
    /// At how many sites this was measured, and how it came out.
    pub evidence: Evidence,
}

/// Keypad terminals.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Keypad {
    /// Supply positive.
    pub positive: Option<Mark>,
    /// Supply negative.
    pub negative: Option<Mark>,
    /// The bus terminals, in order.
    pub data: Vec<Mark>,
    /// The bus it speaks.
    pub bus: Option<String>,
    /// Where this is from.
    pub cite: Vec<Cite>,
}

/// What a unit can feed as the power source.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct PowerBlock {
    /// Positive and negative terminal.
    pub out: Option<(Mark, Mark)>,
    /// Volts at `out` on mains.
    pub volts: Option<Volts>,
    /// What it gives continuously, for all that it feeds outside itself.
    pub limit: Option<Amps>,
    /// What it gives while the battery helps; `None`: the same as `limit`.
    pub alarm_limit: Option<Amps>,
    /// The fuse of `out`.
    pub fuse: Option<Mark>,
    /// Its own drain.
    pub own: Option<Amps>,
    /// The most it charges its battery with.
    pub charge: Option<Amps>,
    /// Volts at `out` when it drops a discharged battery; `None`: 10.5 V assumed.
    pub cutoff: Option<Volts>,
    /// Its standby battery.
    pub battery: Fact<StandbyBattery>,
    /// How it stays silent with its loops lifted.
    pub quiet: Option<String>,
    /// Where this is from; without a cite of its own, its terminals' count.
    pub cite: Vec<Cite>,
}

/// The battery that a unit takes.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct StandbyBattery {
    /// The capacities it takes, smallest first.
    pub fits: Vec<crate::units::AmpHours>,
    /// Positive and negative terminal or lead.
    pub terminals: Vec<Mark>,
    /// The battery fuse.
    pub fuse: Option<Mark>,
    /// Where this is from.
    pub cite: Vec<Cite>,
}
