//! The board card.

use super::super::keys::words;
use super::super::shape;
use super::super::sheet::Sheet;
use super::names::Names;
use super::unit::{self, Card};
use super::{cite, look};
use crate::model::{Band, Bands, Board, DoubleEol, Eol, Fact, Feed, Input, LoopState, Output, OutputKind, Supply};
use crate::source::Node;
use crate::units::{Ohms, Quantity, Volts};

/// A board.
pub(crate) fn board(sheet: &mut Sheet<'_>, root: &Node) -> Board {
    let card = Card::new(sheet, root);
    Names::of_rows(sheet, look::rows(root, "supplies"), "supply", "supply of this card");
    Names::of_rows(sheet, look::rows(root, "inputs"), "input", "input of this card");
    Names::of_rows(sheet, look::rows(root, "outputs"), "output", "output of this card");
    Board {
        unit: unit::unit(sheet, root, &card),
        feed: block(root, "feed").map(|b| feed(sheet, b, &card)),
        supplies: look::rows(root, "supplies").filter_map(|row| supply(sheet, row, &card)).collect(),
        inputs: look::rows(root, "inputs").filter_map(|row| input(sheet, row, &card)).collect(),
        eol: block(root, "eol").map(|b| eol(b, &card)).unwrap_or_default(),
        bands: block(root, "bands").map(|b| bands(sheet, b, &card)).unwrap_or_default(),
        outputs: look::rows(root, "outputs").filter_map(|row| output(sheet, row, &card)).collect(),
    }
}

fn block<'n>(root: &'n Node, key: &str) -> Option<&'n Node> {
    root.get(key).filter(|node| node.entries().is_some())
}

fn feed(sheet: &mut Sheet<'_>, block: &Node, card: &Card<'_>) -> Feed {
    let standby = look::quantity(block, "standby");
    Feed {
        terminals: card.terminals.pair_at(sheet, block, "terminals"),
        volts: look::window(block, "volts"),
        standby,
        alarm: look::quantity(block, "alarm").or(standby),
        cite: cite::of(block, &card.sources),
    }
}

fn supply(sheet: &mut Sheet<'_>, row: &Node, card: &Card<'_>) -> Option<Supply> {
    let fuse = card.fuses.key(sheet, row, "fuse");
    let (positive, negative) = card.terminals.pair_at(sheet, row, "terminals")?;
    Some(Supply {
        supply: look::name(row, "supply"),
        positive,
        negative,
        limit: look::quantity(row, "limit"),
        alarm_limit: look::quantity(row, "alarm_limit"),
        fuse,
        feeds: look::word(row, "feeds", &words::FEEDS).unwrap_or_default(),
        drop: look::quantity(row, "drop").or_else(|| Volts::new(0.0))?,
        drop_given: row.get("drop").is_some(),
        cite: cite::of(row, &card.sources),
    })
}

fn input(sheet: &mut Sheet<'_>, row: &Node, card: &Card<'_>) -> Option<Input> {
    let accepts = look::texts(row, "accepts").iter().filter_map(|word| words::value(&words::WIRING, word)).collect();
    let (out, back) = card.terminals.pair_at(sheet, row, "terminals")?;
    Some(Input {
        input: look::name(row, "input"),
        out,
        back,
        accepts,
        usage: look::word(row, "use", &words::INPUT_USE).unwrap_or_default(),
        returns_negative: row.get("return").is_some(),
        cite: cite::of(row, &card.sources),
    })
}

fn eol(block: &Node, card: &Card<'_>) -> Eol {
    let double =
        |inner: &Node| Some(DoubleEol { end: look::quantity(inner, "end")?, alarm: look::quantity(inner, "alarm")? });
    Eol {
        single: look::quantity(block, "single"),
        double: block.get("double").and_then(double),
        tolerance: look::quantity(block, "tolerance"),
        cite: cite::of(block, &card.sources),
    }
}

fn bands(sheet: &mut Sheet<'_>, block: &Node, card: &Card<'_>) -> Bands {
    Bands {
        closed_loop: bands_of(sheet, block, "closed-loop"),
        single_eol: bands_of(sheet, block, "single-eol"),
        double_eol: bands_of(sheet, block, "double-eol"),
        cite: cite::of(block, &card.sources),
    }
}

/// The bands of one wiring, in rising order.
fn bands_of(sheet: &mut Sheet<'_>, block: &Node, key: &str) -> Option<Vec<Band>> {
    let nodes = block.get(key)?.list()?;
    let mut bands: Vec<(&Node, Band)> = Vec::new();
    for node in nodes {
        let Some(state) = look::word(node, "state", &words::STATE) else { continue };
        let band = Band { state, from: look::quantity(node, "from"), to: look::quantity(node, "to") };
        one_band(sheet, node, &band, &bands);
        bands.push((node, band));
    }
    bands.sort_by(|(_, a), (_, b)| low(a).total_cmp(&low(b)));
    Some(bands.into_iter().map(|(_, band)| band).collect())
}

fn low(band: &Band) -> f64 {
    band.from.map_or(f64::NEG_INFINITY, Quantity::value)
}

fn high(band: &Band) -> f64 {
    band.to.map_or(f64::INFINITY, Quantity::value)
}

/// Holds a band against itself and those before it.
fn one_band(sheet: &mut Sheet<'_>, node: &Node, band: &Band, before: &[(&Node, Band)]) {
    if low(band) >= high(band) || high(band) <= 0.0 {
        sheet.fault(
            shape::place(node),
            "this band is empty: `from` is not below `to`",
            "write the lower figure as `from`",
        );
        return;
    }
    if band.state == LoopState::Normal
        && let Some((first, _)) = before.iter().find(|(_, b)| b.state == LoopState::Normal)
    {
        let message = format!("there are two bands `normal`; the first is in line {}", first.span.line);
        sheet.fault(shape::place(node), message, "a wiring has one band `normal`");
    }
    if let Some((first, other)) = before.iter().find(|(_, b)| low(b) < high(band) && low(band) < high(b)) {
        let shown = |edge: Option<Ohms>, open: &str| edge.map_or(open.to_owned(), |ohms| ohms.to_string());
        let (from, to) = (shown(other.from, "nothing"), shown(other.to, "no end"));
        let word = other.state.word();
        let message = format!("this band overlaps `{word}` in line {}, which is from {from} to {to}", first.span.line);
        sheet.fault(shape::place(node), message, "let each band begin where the one below it ends");
    }
}

fn output(sheet: &mut Sheet<'_>, row: &Node, card: &Card<'_>) -> Option<Output> {
    let kind = match row.get("type")?.text()? {
        "relay" => relay(sheet, row, card),
        "open-collector" => open_collector(sheet, row, card),
        _ => None,
    };
    Some(Output {
        output: look::name(row, "output"),
        kind: kind?,
        limit: look::quantity(row, "limit"),
        pull_up: pull_up(row),
        cite: cite::of(row, &card.sources),
    })
}

fn pull_up(row: &Node) -> Fact<Ohms> {
    look::fact(row, "pull_up", |node| Ohms::read(node.text()?).ok())
}

fn open_collector(sheet: &mut Sheet<'_>, row: &Node, card: &Card<'_>) -> Option<OutputKind> {
    Some(OutputKind::OpenCollector { terminal: card.terminals.key(sheet, row, "terminal")? })
}

fn relay(sheet: &mut Sheet<'_>, row: &Node, card: &Card<'_>) -> Option<OutputKind> {
    let contacts = row.get("terminals")?;
    let normally_open = card.terminals.key(sheet, contacts, "normally_open");
    let normally_closed = card.terminals.key(sheet, contacts, "normally_closed");
    Some(OutputKind::Relay { common: card.terminals.key(sheet, contacts, "common")?, normally_open, normally_closed })
}
