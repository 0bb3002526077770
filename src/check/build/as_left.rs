//! What was read when the job was commissioned.

use super::super::sheet::Sheet;
use super::look;
use super::names::Names;
use crate::model::{AsLeft, Read, Visit};
use crate::source::Node;

/// A visit with its readings; no number twice. `None` without a date, which the table has refused.
pub(crate) fn visit(sheet: &mut Sheet<'_>, block: &Node) -> Option<Visit> {
    let mut names = Names::new("reading");
    for node in look::rows(block, "readings").filter_map(|row| row.get("row")) {
        names.add(sheet, node);
    }
    let mut readings = Vec::new();
    for row in look::rows(block, "readings") {
        let read: Vec<Read> = [
            look::quantity(row, "volts").map(Read::Volts),
            look::quantity(row, "amps").map(Read::Amps),
            row.get("ohms").and_then(Node::text).filter(|text| *text == "open").map(|_| Read::Open),
            look::quantity(row, "ohms").map(Read::Ohms),
        ]
        .into_iter()
        .flatten()
        .collect();
        if let (true, Some(node)) = (read.len() > 1, row.get("row")) {
            let help = "write volts, amps or ohms, whichever the meter showed";
            sheet.fault(node.span, "a reading is one quantity, and this has more".to_owned(), help);
        }
        readings.push(AsLeft {
            row: look::name(row, "row"),
            what: look::name(row, "what"),
            read: read.first().copied(),
            done: look::flag(row, "done").unwrap_or(false),
        });
    }
    let date = look::date(block, "date")?;
    Some(Visit { date, by: look::text(block, "by"), meter: look::text(block, "meter"), readings })
}
