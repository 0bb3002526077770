//! The cable card.

use super::super::parse;
use super::super::sheet::Sheet;
use super::names::Names;
use super::{cite, look};
use crate::model::{Cable, Conductor};
use crate::source::Node;

/// A cable type.
pub(crate) fn cable(sheet: &mut Sheet<'_>, root: &Node) -> Cable {
    cite::check(sheet, root);
    let nodes = root.get("cores").and_then(Node::list).unwrap_or_default();
    let mut colours = Names::new("core of this cable");
    for node in nodes {
        colours.add(sheet, node);
    }
    Cable {
        id: look::name(root, "id"),
        does: look::text(root, "does"),
        cores: colours.list().iter().map(|name| (*name).to_owned()).collect(),
        conductor: root.get("conductor").and_then(conductor),
        rating: look::quantity(root, "rating"),
    }
}

/// Ohms for each kilometre win, then the cross-section, then the strands.
fn conductor(block: &Node) -> Option<Conductor> {
    let strands = || {
        Some(Conductor::Strands {
            count: parse::count(block.get("strands")?)?,
            diameter: look::quantity(block, "diameter")?,
        })
    };
    look::quantity(block, "ohms_per_km")
        .map(Conductor::OhmsPerKm)
        .or_else(|| look::quantity(block, "area").map(Conductor::Area))
        .or_else(strands)
}
