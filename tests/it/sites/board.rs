//! The new board of a random site.

use super::panel::terminal;
use super::{BOARD, Knobs, Rng, milliamps, ohms, tenths_of_volts};
use wirelore::model::{
    Board, DoubleEol, Eol, Fact, Feed, Feeds, Input, InputUse, Keypad, Output, OutputKind, Supply, Unit, Wiring,
};
use wirelore::units::Volts;

/// The end-of-line resistors of every random board, in ohms.
pub(super) const SINGLE: u32 = 4700;
/// Both of its double end-of-line resistors.
pub(super) const DOUBLE: u32 = 2200;

/// A board.
pub(super) fn board(rng: &mut Rng, knobs: &Knobs) -> Board {
    let supplies = supplies(rng, knobs);
    let inputs: Vec<Input> = (0..rng.between(knobs.inputs)).map(|n| input(rng, knobs, n)).collect();
    let outputs: Vec<Output> = (0..rng.between(knobs.outputs)).map(|n| output(rng, n)).collect();
    let keypad = if rng.chance(75) { Fact::Is(keypad(rng, &supplies)) } else { Fact::Absent };
    let mut board = Board {
        unit: Unit { id: BOARD.into(), keypad, ..Unit::default() },
        feed: Some(feed()),
        supplies,
        inputs,
        eol: eol(rng),
        outputs,
        ..Board::default()
    };
    board.unit.terminals = marks(&board).iter().map(|mark| terminal(mark)).collect();
    board
}

fn marks(board: &Board) -> Vec<String> {
    let mut marks = vec!["V+".to_string(), "V-".into()];
    marks.extend(board.supplies.iter().flat_map(|s| [s.positive.clone(), s.negative.clone()]));
    marks.extend(board.inputs.iter().flat_map(|i| [i.out.clone(), i.back.clone()]));
    for output in &board.outputs {
        match &output.kind {
            OutputKind::OpenCollector { terminal } => marks.push(terminal.clone()),
            OutputKind::Relay { common, normally_open, normally_closed } => {
                marks.push(common.clone());
                marks.extend([normally_open, normally_closed].into_iter().flatten().cloned());
            }
        }
    }
    if let Fact::Is(keypad) = &board.unit.keypad {
        marks.extend([&keypad.positive, &keypad.negative].into_iter().flatten().cloned());
        marks.extend(keypad.data.iter().cloned());
    }
    let mut seen = std::collections::BTreeSet::new();
    marks.retain(|mark| seen.insert(mark.clone()));
    marks
}

fn feed() -> Feed {
    Feed {
        terminals: Some(("V+".into(), "V-".into())),
        volts: Some(tenths_of_volts(100, 150)),
        standby: Some(milliamps(100)),
        alarm: Some(milliamps(150)),
        cite: Vec::new(),
    }
}

/// Supplies for different things, the last most often for anything.
fn supplies(rng: &mut Rng, knobs: &Knobs) -> Vec<Supply> {
    let mut feeds = [Feeds::Detectors, Feeds::Sounders, Feeds::Any];
    rng.shuffle(&mut feeds);
    let many = rng.between(knobs.supplies);
    let mut supplies: Vec<Supply> = feeds.into_iter().take(many).enumerate().map(|(n, f)| supply(n, f)).collect();
    if let Some(last) = supplies.last_mut().filter(|_| rng.chance(85)) {
        last.feeds = Feeds::Any;
    }
    supplies
}

fn supply(n: usize, feeds: Feeds) -> Supply {
    Supply {
        supply: format!("P{n}"),
        positive: format!("P{n}+"),
        negative: format!("P{n}-"),
        limit: Some(milliamps(750)),
        alarm_limit: None,
        fuse: None,
        feeds,
        drop: Volts::new(0.2).expect("finite"),
        drop_given: true,
        cite: Vec::new(),
    }
}

/// An input; two neighbours may have one return terminal.
fn input(rng: &mut Rng, knobs: &Knobs, n: usize) -> Input {
    use Wiring::{ClosedLoop, DoubleEol, SingleEol};
    let accepts = match rng.below(8) {
        0 => vec![ClosedLoop],
        1 => vec![SingleEol],
        2 => vec![DoubleEol, SingleEol],
        3 => vec![ClosedLoop, SingleEol],
        _ => vec![ClosedLoop, SingleEol, DoubleEol],
    };
    let usage = match rng.below(10) {
        0 => InputUse::Tamper,
        1 | 2 => InputUse::Alarm,
        _ => InputUse::Any,
    };
    Input {
        input: (n + 1).to_string(),
        out: format!("IN{n}"),
        back: if rng.chance(50) { format!("C{}", n / 2) } else { format!("CB{n}") },
        accepts,
        usage,
        returns_negative: rng.chance(25 + knobs.one_core / 2),
        cite: Vec::new(),
    }
}

fn output(rng: &mut Rng, n: usize) -> Output {
    let kind = if rng.chance(55) {
        OutputKind::OpenCollector { terminal: format!("OUT{n}") }
    } else {
        let (open, closed) = rng.pick(&[(true, true), (true, true), (true, false), (false, true)]);
        OutputKind::Relay {
            common: format!("R{n}C"),
            normally_open: open.then(|| format!("R{n}NO")),
            normally_closed: closed.then(|| format!("R{n}NC")),
        }
    };
    let limit = rng.pick(&[Some(200), Some(350), Some(470), Some(500), Some(700), Some(1000), None]).map(milliamps);
    Output { output: format!("O{n}"), kind, limit, pull_up: Fact::Absent, cite: Vec::new() }
}

/// Keypad terminals, most often those of a supply.
fn keypad(rng: &mut Rng, supplies: &[Supply]) -> Keypad {
    let own = ("K+".to_string(), "K-".to_string());
    let (positive, negative) = if rng.chance(70) && !supplies.is_empty() {
        let supply = rng.pick(supplies);
        (supply.positive, supply.negative)
    } else {
        own
    };
    Keypad {
        positive: Some(positive),
        negative: Some(negative),
        data: (0..rng.between((1, 3))).map(|n| format!("D{n}")).collect(),
        bus: Some(rng.pick(&["fennick", "fennick", "fennick", "other"]).into()),
        cite: Vec::new(),
    }
}

fn eol(rng: &mut Rng) -> Eol {
    let double = DoubleEol { end: ohms(DOUBLE), alarm: ohms(DOUBLE) };
    Eol {
        single: rng.chance(90).then(|| ohms(SINGLE)),
        double: rng.chance(90).then_some(double),
        tolerance: None,
        cite: Vec::new(),
    }
}
