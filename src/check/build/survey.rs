//! The survey.

use super::super::keys::words;
use super::super::sheet::Sheet;
use super::super::{parse, shape};
use super::names::Names;
use super::{as_left, fit, look, survey_cable};
use crate::model::{
    CardId, Fact, FuseFound, Library, LoadTest, Mark, OldBattery, Panel, Power, Settled, Survey, SurveyLoad,
};
use crate::source::Node;
use crate::units::{Celsius, Quantity, Volts};

/// The rules that hold when a survey names none.
const DEFAULT_RULES: &str = "en-50131";

/// A survey. `None` when a card that it must have is not there; the faults say which.
pub(crate) fn survey(sheet: &mut Sheet<'_>, root: &Node, library: &Library) -> Option<Survey> {
    let panel = card(sheet, root, "panel", "panels", library);
    let board = card(sheet, root, "board", "boards", library);
    let rules = rules(sheet, root, library);
    let grade = grade(sheet, root, library, rules.as_deref());
    let power = power(sheet, root, library);
    let old = panel.as_ref().and_then(|id| library.panels.get(id));
    let readings = readings(sheet, root, old);
    let fuses = fuses(sheet, root, old);
    let cables = survey_cable::cables(sheet, root, library);
    let (fit, remove) = fit::fit(sheet, root, library);
    let block = |key: &str| root.get(key).filter(|node| node.entries().is_some());
    let (site, mains) = (block("site"), block("mains"));
    let site_text = |key: &str| site.and_then(|site| look::text(site, key));
    Some(Survey {
        survey: look::name(root, "survey"),
        site_name: site_text("name"),
        address: site_text("address"),
        monitored: site.and_then(|site| look::flag(site, "monitored")),
        mains_fail_reported: site.and_then(|site| look::flag(site, "mains_fail_reported")).unwrap_or(false),
        access: site_text("access"),
        visited: look::date(root, "visited"),
        by: look::text(root, "by"),
        rules: rules?,
        grade,
        panel: panel?,
        board: board?,
        power,
        temperature: look::quantity(root, "temperature").or_else(|| Celsius::new(20.0))?,
        temperature_given: root.get("temperature").is_some(),
        isolator: mains.map_or(Fact::NotKnown, |mains| {
            look::fact(mains, "isolator", |node| look::own_text(node).map(str::to_owned))
        }),
        service_code: look::word(root, "service_code", &words::SERVICE_CODE),
        loads: look::rows(root, "loads").map(load).collect(),
        battery: look::fact(root, "battery", |node| node.entries().map(|_| battery(node))),
        readings,
        fuses,
        cables: cables?,
        fit,
        remove,
        new_battery: look::quantity(root, "new_battery"),
        settled: look::rows(root, "settled").map(settled).collect(),
        as_left: look::rows(root, "as_left").filter_map(|visit| as_left::visit(sheet, visit)).collect(),
    })
}

/// The id at `key`, which must be a faultless card in `folder`.
pub(crate) fn card(sheet: &mut Sheet<'_>, block: &Node, key: &str, folder: &str, library: &Library) -> Option<CardId> {
    let node = block.get(key)?;
    let id = look::own_text(node).filter(|id| *id != "none")?;
    let known: Vec<&str> = match folder {
        "panels" => library.panels.keys().map(String::as_str).collect(),
        "boards" => library.boards.keys().map(String::as_str).collect(),
        "devices" => library.devices.keys().map(String::as_str).collect(),
        "cables" => library.cables.keys().map(String::as_str).collect(),
        "supplies" => library.supplies.keys().map(String::as_str).collect(),
        _ => library.rules.keys().map(String::as_str).collect(),
    };
    if known.contains(&id) {
        return Some(id.to_owned());
    }
    let path = format!("{folder}/{id}.yaml");
    if library.faulty.contains(&path) {
        let help = format!("mend `{path}` first: `wirelore check` says what is wrong with it");
        sheet.fault(node.span, format!("the card `{id}` has faults, so nothing can be planned with it"), help);
    } else {
        sheet.unknown(node.span, id, &format!("card in `{folder}`"), &known);
    }
    None
}

/// The rules that hold, the default filled in.
fn rules(sheet: &mut Sheet<'_>, root: &Node, library: &Library) -> Option<String> {
    if root.get("rules").is_some() {
        return card(sheet, root, "rules", "rules", library);
    }
    if library.rules.contains_key(DEFAULT_RULES) {
        return Some(DEFAULT_RULES.to_owned());
    }
    let message =
        format!("this survey names no `rules`, and the library has no faultless `rules/{DEFAULT_RULES}.yaml`");
    sheet.fault(shape::place(root), message, "name the rules that hold: `rules: ID`");
    None
}

/// The grade, which the rules must have.
fn grade(sheet: &mut Sheet<'_>, root: &Node, library: &Library, rules: Option<&str>) -> Option<String> {
    let node = root.get("grade")?;
    let name = look::own_text(node).filter(|name| *name != "none")?;
    if let Some(rules) = rules.and_then(|id| library.rules.get(id))
        && rules.grade(name).is_none()
    {
        let known: Vec<&str> = rules.grades.iter().map(|grade| grade.grade.as_str()).collect();
        sheet.unknown(node.span, name, &format!("grade of `{}`", rules.rules), &known);
    }
    Some(name.to_owned())
}

fn power(sheet: &mut Sheet<'_>, root: &Node, library: &Library) -> Option<Power> {
    match root.get("power")?.text()? {
        "panel" => Some(Power::Panel),
        "board" => Some(Power::Board),
        id => {
            let node = root.get("power")?;
            let other = [library.panels.contains_key(id), library.boards.contains_key(id)];
            if other.contains(&true) {
                let word = if other == [true, false] { "panel" } else { "board" };
                let help = format!("write `power: {word}` when it is this job's");
                sheet.fault(node.span, format!("`{id}` is a {word}, not a boxed power supply"), help);
                return None;
            }
            card(sheet, root, "power", "supplies", library).map(Power::Supply)
        }
    }
}

/// Volts read, at marks that the panel's card must have.
fn readings(sheet: &mut Sheet<'_>, root: &Node, panel: Option<&Panel>) -> Vec<(Mark, Volts)> {
    let known = panel.map(|p| p.unit.terminals.iter().map(|t| t.mark.as_str()).collect());
    marked(sheet, root, "readings", ("terminal of the panel's card", known), |text| Volts::read(text).ok())
}

/// Fuses as found, at marks that the panel's card must have.
fn fuses(sheet: &mut Sheet<'_>, root: &Node, panel: Option<&Panel>) -> Vec<(Mark, FuseFound)> {
    let known = panel.map(|p| p.unit.fuses.iter().map(|f| f.mark.as_str()).collect());
    marked(sheet, root, "fuses", ("fuse of the panel's card", known), parse::fuse)
}

/// The entries of a map from marks to values.
fn marked<T>(
    sheet: &mut Sheet<'_>,
    root: &Node,
    key: &str,
    (what, known): (&str, Option<Vec<&str>>),
    read: impl Fn(&str) -> Option<T>,
) -> Vec<(Mark, T)> {
    let mut out = Vec::new();
    for entry in root.get(key).and_then(Node::entries).unwrap_or_default() {
        let Some(mark) = look::own_text(&entry.key) else { continue };
        if let Some(known) = &known
            && !known.contains(&mark)
        {
            sheet.unknown(entry.key.span, mark, what, known);
        }
        out.extend(entry.value.text().and_then(&read).map(|value| (mark.to_owned(), value)));
    }
    out
}

fn load(row: &Node) -> SurveyLoad {
    let standby = look::quantity(row, "standby");
    SurveyLoad { name: look::name(row, "name"), standby, alarm: look::quantity(row, "alarm").or(standby) }
}

fn battery(block: &Node) -> OldBattery {
    let load = |inner: &Node| LoadTest {
        current: look::quantity(inner, "current"),
        after: look::quantity(inner, "after"),
        volts: look::quantity(inner, "volts"),
    };
    OldBattery {
        capacity: look::quantity(block, "capacity"),
        made: look::text(block, "made").as_deref().and_then(parse::month),
        state: look::word(block, "state", &words::BATTERY_STATE),
        rest: look::quantity(block, "rest"),
        rested: look::quantity(block, "rested"),
        mains_off: look::word(block, "mains_off", &words::MAINS_OFF),
        load: block.get("load").map(load),
    }
}

fn settled(row: &Node) -> Settled {
    Settled {
        code: look::name(row, "code"),
        about: look::name(row, "about"),
        says: look::name(row, "says"),
        by: look::text(row, "by"),
    }
}

/// The items that are served, with the names that other places refer to.
pub(crate) fn served_names<'n>(sheet: &mut Sheet<'_>, root: &'n Node) -> Names<'n> {
    let mut names = Names::new("item that a cable serves");
    for cable in look::rows(root, "cables") {
        for row in look::rows(cable, "serves") {
            if let Some(node) = row.get("item") {
                names.add(sheet, node);
            }
        }
    }
    names
}
