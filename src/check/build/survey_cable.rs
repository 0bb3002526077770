//! The cables of a survey.

use super::super::keys::words;
use super::super::parse;
use super::super::sheet::Sheet;
use super::names::Names;
use super::{look, survey};
use crate::model::{CoreUse, Library, Measured, Reach, Resistors, Served, SurveyCable, SurveyCore};
use crate::source::Node;
use crate::units::{Metres, Ohms, Quantity, Window};

/// The cables, in survey order. `None` when one of them can't be read.
pub(crate) fn cables(sheet: &mut Sheet<'_>, root: &Node, library: &Library) -> Option<Vec<SurveyCable>> {
    Names::of_rows(sheet, look::rows(root, "cables"), "cable", "cable of this survey");
    let read: Vec<Option<SurveyCable>> = look::rows(root, "cables").map(|row| cable(sheet, row, library)).collect();
    read.into_iter().collect()
}

fn cable(sheet: &mut Sheet<'_>, row: &Node, library: &Library) -> Option<SurveyCable> {
    let kind = survey::card(sheet, row, "type", "cables", library);
    let colours = kind.as_ref().and_then(|id| library.cables.get(id)).map(|kind| kind.cores.as_slice());
    let serves: Vec<Option<Served>> = look::rows(row, "serves").map(|one| served(sheet, one, library)).collect();
    let cores = cores(sheet, row);
    let measured = look::rows(row, "measured").filter_map(|one| measured(sheet, one, colours, &cores)).collect();
    Some(SurveyCable {
        cable: look::name(row, "cable"),
        kind: kind?,
        to: look::text(row, "to"),
        length: length(row),
        label: look::text(row, "label"),
        ac: look::quantity(row, "ac"),
        serves: serves.into_iter().collect::<Option<_>>()?,
        cores,
        measured,
    })
}

/// One length is a window without width.
fn length(row: &Node) -> Option<Window<Metres>> {
    let one = look::quantity(row, "length").map(|metres| Window { low: metres, high: metres });
    one.or_else(|| look::window(row, "length"))
}

fn served(sheet: &mut Sheet<'_>, row: &Node, library: &Library) -> Option<Served> {
    let device = survey::card(sheet, row, "device", "devices", library);
    let reach = row.get("reach").and_then(look::own_text).map(|text| match text {
        "none" => Reach::None,
        with => Reach::With(with.to_owned()),
    });
    Some(Served {
        item: look::name(row, "item"),
        device: device?,
        reach,
        resistors: look::fact(row, "resistors", resistors),
    })
}

fn resistors(block: &Node) -> Option<Resistors> {
    Some(Resistors {
        at: look::word(block, "at", &words::RESISTORS_AT)?,
        end: look::quantity(block, "end"),
        alarm: look::quantity(block, "alarm"),
    })
}

/// Where each core is. An owner must be an item that this cable serves.
fn cores(sheet: &mut Sheet<'_>, row: &Node) -> Vec<SurveyCore> {
    let mut items = Names::new("item that this cable serves");
    for one in look::rows(row, "serves") {
        if let Some(node) = one.get("item")
            && look::own_text(node).is_some_and(|name| !items.has(name))
        {
            items.add(sheet, node);
        }
    }
    let entries = row.get("cores").and_then(Node::entries).unwrap_or_default();
    let mut cores = Vec::new();
    for entry in entries {
        let (Some(colour), Some(text)) = (look::own_text(&entry.key), look::own_text(&entry.value)) else { continue };
        let Ok((on, of)) = parse::core(text) else { continue };
        if let Some(item) = &of
            && !items.has(item)
        {
            sheet.unknown(entry.value.span, item, "item that this cable serves", items.list());
        }
        cores.push(SurveyCore { colour: colour.to_owned(), on, of });
    }
    near_words(sheet, row, &cores);
    cores
}

/// `Spare` and the like would read as a mark: the word was meant.
fn near_words(sheet: &mut Sheet<'_>, row: &Node, cores: &[SurveyCore]) {
    for core in cores {
        let CoreUse::Mark(mark) = &core.on else { continue };
        let small = mark.to_lowercase();
        let word = matches!(small.as_str(), "spare" | "broken" | "unknown") || small.starts_with("join ");
        if let Some(node) = row.get("cores").and_then(|block| block.get(&core.colour))
            && word
        {
            sheet.fault(node.span, format!("`{mark}` is no mark"), format!("did you mean `{small}`?"));
        }
    }
}

fn measured(sheet: &mut Sheet<'_>, row: &Node, colours: Option<&[String]>, cores: &[SurveyCore]) -> Option<Measured> {
    let nodes = row.get("cores")?.list()?;
    if let Some(colours) = colours {
        let seen = cores.iter().map(|core| core.colour.as_str());
        let known: Vec<&str> = colours.iter().map(String::as_str).chain(seen).collect();
        for node in nodes {
            if let Some(colour) = look::own_text(node)
                && !known.contains(&colour)
            {
                sheet.unknown(node.span, colour, "core of this cable's type", &known);
            }
        }
    }
    let [first, second] = nodes else { return None };
    let (first, second) = (look::own_text(first)?, look::own_text(second)?);
    if first == second {
        sheet.fault(row.get("cores")?.span, format!("`{first}` is here twice"), "a loop is measured over two cores");
    }
    let ohms = row.get("ohms")?.text()?;
    let read = if ohms == "open" { None } else { Some(Ohms::read(ohms).ok()?) };
    Some(Measured { cores: (first.to_owned(), second.to_owned()), ohms: read })
}
