//! A core's row in the middle of the drawing of a job: where it was, its code, what it does, where it goes.

use super::colour::beside;
use super::metrics::{fit, width};
use super::strip::{Placed, ROW};
use super::svg::{Side, Svg, above};
use crate::pack::drawing::{CableWiring, End, Line, ScrewKind};

/// How wide a row is.
pub(super) const MIDDLE: i32 = 380;
/// Where the ring around the cores stands.
pub(super) const RING: i32 = 86;
const CODE: i32 = 97;
const CODE_ROOM: i32 = 38;
const DOES: i32 = 138;
const DOES_ROOM: i32 = 150;
const FROM_ROOM: i32 = 75;
const TO_ROOM: i32 = 86;
/// What a cable's name may take of the line over its rows.
const NAME_ROOM: i32 = 130;

/// The parts of a row that go to no screw: from the ring to an end that is insulated, or not known.
pub(super) fn stubs(svg: &mut Svg, line: &Line, x: i32, y: i32) {
    if !matches!(line.from, End::Screw(_)) {
        svg.core(line.core.as_ref(), true, &format!("M{} {y}H{}", x + RING, x - 4));
        cap(svg, &line.from, x - 9, y);
    }
    if !matches!(line.to, End::Screw(_)) {
        svg.core(line.core.as_ref(), false, &format!("M{} {y}H{}", x + RING, x + MIDDLE + 4));
        cap(svg, &line.to, x + MIDDLE + 2, y);
    }
}

/// The end of a core that goes to no screw.
fn cap(svg: &mut Svg, end: &End, x: i32, y: i32) {
    match end {
        End::Insulated(_) => svg.rect("d", (x, y - 4), (7, 8)),
        End::Elsewhere(_) | End::NotKnown(_) => svg.rect("g", (x, y - 4), (7, 8)),
        End::Screw(_) => {}
    }
}

/// The words of a row, above its line.
pub(super) fn words(svg: &mut Svg, line: &Line, [old, new]: [&Placed; 2], x: i32, y: i32) {
    let base = above(y);
    svg.text((x + 2, base), Side::Start, &end(&line.from, old), FROM_ROOM);
    svg.bold((x + CODE, base), Side::Start, beside(line.core.as_ref()), CODE_ROOM);
    svg.text((x + DOES, base), Side::Start, &line.does, DOES_ROOM);
    svg.bold((x + MIDDLE - 2, base), Side::End, &end(&line.to, new), TO_ROOM);
}

/// Where an end is, in words.
fn end(end: &End, strip: &Placed) -> String {
    match end {
        End::Screw(at) => match strip.screw(*at) {
            Some(screw) if screw.kind == ScrewKind::Join => format!("join {}", screw.mark),
            Some(screw) if screw.kind == ScrewKind::NotOnCard => format!("? {}", screw.mark),
            Some(screw) => screw.mark.clone(),
            None => String::new(),
        },
        End::Insulated(word) => (*word).to_string(),
        End::Elsewhere(word) => word.clone(),
        End::NotKnown(word) => format!("? {word}"),
    }
}

/// What stands over a cable's rows, and the ring around its cores; new wires are no cable and have none.
pub(super) fn head(svg: &mut Svg, cable: &CableWiring, x: i32, y: i32) {
    let (name, _) = fit(&cable.name, NAME_ROOM, true);
    let taken = width(&name, true) + 8;
    svg.bold((x + 2, y - 3), Side::Start, &cable.name, NAME_ROOM);
    svg.text((x + 2 + taken, y - 3), Side::Start, &cable.title, MIDDLE - 4 - taken);
    let rows = i32::try_from(cable.lines.len()).unwrap_or(0);
    if cable.lines.iter().any(|l| l.core.is_some()) {
        svg.ring(x + RING, y + ROW, y + rows * ROW);
    }
}
