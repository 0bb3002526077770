//! Rules, and the rings of words.

use super::super::shape;
use super::super::sheet::Sheet;
use super::look;
use crate::model::{Grade, Rules, TemperaturePoint, Terms};
use crate::source::Node;
use crate::units::Celsius;

/// A rules file.
pub(crate) fn rules(sheet: &mut Sheet<'_>, root: &Node) -> Rules {
    let grades = root.get("grades").and_then(Node::entries).unwrap_or_default();
    Rules {
        rules: look::name(root, "rules"),
        title: look::text(root, "title"),
        grades: grades.iter().filter_map(|entry| Some(grade(entry.key.text()?, &entry.value))).collect(),
        ageing: look::factor(root, "ageing"),
        peukert: look::factor(root, "peukert"),
        temperature: temperature(sheet, root),
        siren_cut_off: look::quantity(root, "siren_cut_off"),
    }
}

fn grade(name: &str, block: &Node) -> Grade {
    Grade {
        grade: name.to_owned(),
        standby: look::quantity(block, "standby"),
        standby_reported: look::quantity(block, "standby_reported"),
        alarm: look::quantity(block, "alarm"),
        recharge: look::quantity(block, "recharge"),
        cite: look::texts(block, "cite"),
    }
}

/// The points, coldest first; two at one temperature are a fault.
fn temperature(sheet: &mut Sheet<'_>, root: &Node) -> Vec<TemperaturePoint> {
    let mut points: Vec<TemperaturePoint> = Vec::new();
    let mut seen: Vec<Celsius> = Vec::new();
    for row in look::rows(root, "temperature") {
        let Some(at) = look::quantity::<Celsius>(row, "at") else { continue };
        if seen.contains(&at) {
            sheet.fault(shape::place(row), format!("there are two points at {at}"), "keep one of them");
        }
        seen.push(at);
        points.extend(look::factor(row, "factor").map(|factor| TemperaturePoint { at, factor }));
    }
    points.sort_by(|a, b| a.at.get().total_cmp(&b.at.get()));
    points
}

/// The rings of words.
pub(crate) fn terms(root: &Node) -> Terms {
    let nodes = root.get("terms").and_then(Node::list).unwrap_or_default();
    let mut rings = Vec::new();
    for node in nodes {
        let words = node.list().unwrap_or_default();
        rings.push(words.iter().filter_map(look::own_text).map(str::to_owned).collect());
    }
    Terms { rings }
}
