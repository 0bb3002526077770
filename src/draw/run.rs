//! A loop in its order: out of one screw, down and back through each contact, joined on to the next, into the other screw.

use super::Drawing;
use super::colour::beside;
use super::strip::ROW;
use super::svg::{Side, Svg, above, centred};
use crate::pack::CoreName;
use crate::pack::drawing::{Leg, Run};

/// The most legs on a page of paper.
const MOST: usize = 13;
const WIDTH: i32 = 520;
const TOP: i32 = 40;
/// The upright at the left, where legs are joined, and the contacts at the right.
const JOINED: i32 = 120;
const CONTACT: i32 = 300;
/// From one leg to the next.
const LEG: i32 = 3 * ROW;

/// The drawings of a loop; one that is too long for a page is split.
pub(super) fn run(run: &Run, key: &str) -> Vec<Drawing> {
    let pages = run.legs.chunks(MOST);
    let of = pages.len();
    pages.enumerate().map(|(at, legs)| page(run, legs, key, at + 1, of)).collect()
}

fn page(run: &Run, legs: &[Leg], key: &str, at: usize, of: usize) -> Drawing {
    let mut svg = Svg::default();
    let part = if of == 1 { String::new() } else { format!(", {at} of {of}") };
    svg.bold((10, 16), Side::Start, &format!("{}{part}", run.name), WIDTH - 20);
    let first = (at - 1) * MOST;
    let start = if at == 1 { run.out.clone() } else { "from before".into() };
    terminal(&mut svg, &start, TOP + 10, at == 1);
    svg.path("", &format!("M{JOINED} {}V{}", TOP + 10, TOP + 2 * ROW));
    let mut y = TOP + 2 * ROW;
    for (n, leg) in legs.iter().enumerate() {
        drawn(&mut svg, leg, first + n + 1, y);
        let next = y + LEG;
        let last = first + n + 1 == run.legs.len();
        svg.path("", &format!("M{JOINED} {}V{}", y + ROW, if last { y + 2 * ROW } else { next }));
        match &leg.join {
            Some(join) => {
                svg.dot(JOINED, y + 2 * ROW);
                svg.text((JOINED - 10, centred(y + 2 * ROW)), Side::End, &format!("join {join}"), JOINED - 20);
            }
            None => terminal(&mut svg, &run.back, y + 2 * ROW, true),
        }
        y = next;
    }
    let items: Vec<&str> = legs.iter().map(|l| l.item.as_str()).collect();
    Drawing {
        key: if of == 1 { key.to_string() } else { format!("{key}-{at}") },
        caption: format!("{} in its order{part}", run.name),
        alt: format!(
            "{}{part}, in its order from {} to {}: {}. Each leg with its cores' colours and codes and its contact.",
            run.name,
            run.out,
            run.back,
            items.join(", ")
        ),
        width: WIDTH,
        height: y + ROW / 2,
        body: svg.into_body(),
    }
}

/// A screw of the board at the upright.
fn terminal(svg: &mut Svg, mark: &str, y: i32, screw: bool) {
    svg.path("", &format!("M{} {y}H{JOINED}", JOINED - 24));
    if screw {
        svg.screw(JOINED - 24, y);
    }
    svg.bold((JOINED - 36, centred(y)), Side::End, mark, JOINED - 46);
}

/// One leg: out at `y`, the contact, back a row below.
fn drawn(svg: &mut Svg, leg: &Leg, number: usize, y: i32) {
    svg.open(&format!("{number}: {} on {}", leg.item, leg.cable));
    core(svg, leg, leg.out.as_ref(), y);
    core(svg, leg, leg.back.as_ref(), y + ROW);
    let middle = y + ROW / 2;
    svg.path("", &format!("M{CONTACT} {y}V{}M{CONTACT} {}V{}", middle - 6, middle + 6, y + ROW));
    svg.path("", &format!("M{CONTACT} {}l6 -13M{CONTACT} {}h7", middle + 6, middle - 6));
    svg.text((CONTACT + 16, centred(middle)), Side::Start, &format!("{number}. {}", leg.item), WIDTH - CONTACT - 26);
    svg.close();
}

/// A core of a leg with its name above it; without one, the supply negative.
fn core(svg: &mut Svg, leg: &Leg, core: Option<&CoreName>, y: i32) {
    svg.core(core, false, &format!("M{JOINED} {y}H{CONTACT}"));
    let words = match core {
        Some(core) => format!("{} {}", leg.cable, beside(Some(core))),
        None => format!("{} supply −", leg.cable),
    };
    svg.text((JOINED + 16, above(y)), Side::Start, &words, CONTACT - JOINED - 30);
}
