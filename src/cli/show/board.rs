//! A new board: feed, supplies, inputs, resistors, outputs.

use super::unit::{first, rest, screws};
use super::{line, or_blank, or_not_known, section};
use crate::cli::table::table;
use crate::model::{Band, Board, Eol, Fact, Feeds, InputUse, Output, OutputKind, Supply, Wiring};

/// Every section of a board.
pub(super) fn sections(board: &Board) -> Vec<String> {
    let mut sections = vec![first(&board.unit, "new board")];
    sections.extend(screws(&board.unit));
    let supplies: Vec<Vec<String>> = board.supplies.iter().map(supply).collect();
    let outputs: Vec<Vec<String>> = board.outputs.iter().map(output).collect();
    sections.push(section("Fed at", &feed(board)));
    sections.push(section(
        "Supplies",
        &table(&["supply", "terminals", "limit", "alarm limit", "fuse", "feeds", "drop"], &supplies),
    ));
    sections.push(section("Inputs", &inputs(board)));
    sections.push(section("End-of-line resistors", &eol(&board.eol)));
    sections.push(section("What an input reports", &bands(board)));
    sections.push(section("Outputs", &table(&["output", "terminals", "type", "limit", "pull-up"], &outputs)));
    sections.extend(rest(&board.unit));
    sections
}

fn feed(board: &Board) -> String {
    let Some(feed) = &board.feed else { return "  not known\n".to_string() };
    let terminals = feed.terminals.as_ref().map(|(plus, minus)| format!("{plus} and {minus}"));
    line("Terminals", &or_not_known(terminals))
        + &line("Volts", &or_not_known(feed.volts))
        + &line("Standby", &or_not_known(feed.standby))
        + &line("Alarm", &or_not_known(feed.alarm))
}

fn supply(supply: &Supply) -> Vec<String> {
    let feeds = match supply.feeds {
        Feeds::Detectors => "detectors",
        Feeds::Sounders => "sounders",
        Feeds::Any => "any",
    };
    let drop = if supply.drop_given { supply.drop.to_string() } else { "0 V assumed".to_string() };
    vec![
        supply.supply.clone(),
        format!("{}, {}", supply.positive, supply.negative),
        or_not_known(supply.limit),
        or_blank(supply.alarm_limit),
        or_blank(supply.fuse.as_ref()),
        feeds.to_string(),
        drop,
    ]
}

fn inputs(board: &Board) -> String {
    let rows: Vec<Vec<String>> = board
        .inputs
        .iter()
        .map(|input| {
            let accepts: Vec<&str> = input.accepts.iter().map(|w| w.word()).collect();
            let usage = match input.usage {
                InputUse::Alarm => "alarm",
                InputUse::Tamper => "tamper",
                InputUse::Any => "any",
            };
            let returns = if input.returns_negative { "negative" } else { "" };
            let terminals = format!("{}, {}", input.out, input.back);
            vec![input.input.clone(), terminals, accepts.join(", "), usage.to_string(), returns.to_string()]
        })
        .collect();
    table(&["input", "terminals", "accepts", "use", "return"], &rows)
}

fn eol(eol: &Eol) -> String {
    let double = eol.double.map(|double| format!("end {}, alarm {}", double.end, double.alarm));
    line("Single", &or_not_known(eol.single))
        + &line("Double", &or_not_known(double))
        + &line("Tolerance", &or_not_known(eol.tolerance))
}

fn bands(board: &Board) -> String {
    let wirings = [Wiring::ClosedLoop, Wiring::SingleEol, Wiring::DoubleEol];
    let rows = wirings.into_iter().filter_map(|wiring| {
        let bands: Vec<String> = board.bands.of(wiring)?.iter().map(band).collect();
        Some(line(wiring.word(), &bands.join("; ")))
    });
    rows.collect()
}

fn band(band: &Band) -> String {
    let ends = match (band.from, band.to) {
        (None, None) => "any".to_string(),
        (None, Some(to)) => format!("under {to}"),
        (Some(from), None) => format!("{from} and over"),
        (Some(from), Some(to)) => format!("{from} to under {to}"),
    };
    format!("{} {ends}", band.state.word())
}

fn output(output: &Output) -> Vec<String> {
    let (terminals, kind) = match &output.kind {
        OutputKind::OpenCollector { terminal } => (terminal.clone(), "open collector"),
        OutputKind::Relay { common, normally_open, normally_closed } => {
            let open = normally_open.as_ref().map(|mark| format!("normally open {mark}"));
            let closed = normally_closed.as_ref().map(|mark| format!("normally closed {mark}"));
            let parts: Vec<String> = [Some(format!("common {common}")), open, closed].into_iter().flatten().collect();
            (parts.join(", "), "relay")
        }
    };
    let pull_up = match &output.pull_up {
        Fact::Is(ohms) => ohms.to_string(),
        Fact::Absent => "none".to_string(),
        Fact::NotKnown => String::new(),
    };
    vec![output.output.clone(), terminals, kind.to_string(), or_not_known(output.limit), pull_up]
}
