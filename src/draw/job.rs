//! The whole job: the old panel's screws at the left, the new board's at the right, the cables between. What does not
//! fit on a page of paper is split, cable by cable, over several.

use super::Drawing;
use super::metrics::wrapped;
use super::order::ordered;
use super::row::{self, MIDDLE};
use super::strip::{Facing, Placed, ROW, head};
use super::svg::{Side, Svg};
use super::wires::{Across, Way, Wire};
use super::zone::{Beside, Zone};
use crate::pack::drawing::{CableWiring, End, JobWiring, Line, Part, ScrewKind, Strip};

/// The tallest a drawing may be to fit on a page of A4 or Letter with its caption, in pixels of paper (a 96th of an inch)
/// after it has been made as narrow as the page.
const TALLEST: i32 = 890;
/// How wide a page of A4 is between its margins: a wider drawing is made smaller.
const PAPER: i32 = 710;
/// The widest a drawing may be for its text to be 7 points high there.
const WIDEST: i32 = 910;
/// What stands above the rows, and the margin around.
const TOP: i32 = 40;
const MARGIN: i32 = 10;
/// The line height of the key.
const KEY: i32 = 16;
const KEY_LINES: usize = 4;
/// How many parts a page without cables shows: with two screws each and a gap, no more than a page holds.
const TOGETHER: usize = 12;
/// A strip of no more screws than this is shown whole beside fewer cores.
const WHOLE: usize = 34;

/// The drawings of a job, and how often lines cross in them: as drawn, and with the cables in survey order.
pub(super) fn job(job: &JobWiring) -> (Vec<Drawing>, usize, usize) {
    let survey: Vec<&CableWiring> = job.cables.iter().collect();
    let in_survey_order = pages(job, &survey);
    let before = crossings(&in_survey_order);
    let on_each_page = page_by_page(job, &in_survey_order);
    let over_all = pages(job, &ordered(&survey));
    let tried = [Some(in_survey_order), on_each_page, Some(over_all)];
    let best = tried.into_iter().flatten().min_by_key(|pages| crossings(pages)).unwrap_or_default();
    (drawn(job, &best), crossings(&best), before)
}

/// The same cables on each page, in an order with few crossings; `None` where a page would no longer fit on paper.
fn page_by_page<'a>(job: &'a JobWiring, pages: &[Page<'a>]) -> Option<Vec<Page<'a>>> {
    let cables = |page: &Page<'a>| page.cables.iter().map(|(cable, _)| *cable).collect::<Vec<_>>();
    let lists: Vec<Vec<&CableWiring>> =
        pages.iter().map(|page| ordered(&cables(page))).filter(|cables| !cables.is_empty()).collect();
    let pages = paged(job, &lists, lists.len() < pages.len());
    pages.iter().all(Page::fits).then_some(pages)
}

fn crossings(pages: &[Page]) -> usize {
    pages.iter().map(Page::crossings).sum()
}

fn drawn(job: &JobWiring, pages: &[Page]) -> Vec<Drawing> {
    pages.iter().enumerate().map(|(at, page)| page.draw(job, at + 1, pages.len())).collect()
}

/// The rows that a cable takes.
fn rows(cable: &CableWiring) -> i32 {
    i32::try_from(cable.lines.len()).unwrap_or(0) + 1
}

/// Splits the cables over as few pages as hold them, about the same on each.
fn pages<'a>(job: &'a JobWiring, cables: &[&'a CableWiring]) -> Vec<Page<'a>> {
    let total: i32 = cables.iter().map(|c| rows(c)).sum();
    let least = total * ROW / (TALLEST * WIDEST / PAPER) + 1;
    let most = i32::try_from(cables.len()).unwrap_or(i32::MAX);
    for count in least.max(1)..most {
        let lists = split(cables, total, count);
        for apart in [false, true] {
            let pages = paged(job, &lists, apart);
            if pages.iter().all(Page::fits) {
                return pages;
            }
        }
    }
    let single: Vec<Vec<&CableWiring>> = cables.iter().map(|cable| vec![*cable]).collect();
    paged(job, &single, true)
}

fn split<'a>(cables: &[&'a CableWiring], total: i32, count: i32) -> Vec<Vec<&'a CableWiring>> {
    let mut lists: Vec<Vec<&CableWiring>> = vec![Vec::new()];
    let mut done = 0;
    for cable in cables {
        let own = rows(cable);
        let page = i32::try_from(lists.len()).unwrap_or(count);
        let full = (done + own / 2) * count > total * page;
        if full && lists.last().is_some_and(|list| !list.is_empty()) {
            lists.push(Vec::new());
        }
        done += own;
        if let Some(last) = lists.last_mut() {
            last.push(cable);
        }
    }
    lists
}

/// The pages of lists of cables, each with the parts that belong to it. Parts on screws that no core of the job has go on
/// the last page, or `apart` on pages of their own.
fn paged<'a>(job: &'a JobWiring, lists: &[Vec<&'a CableWiring>], apart: bool) -> Vec<Page<'a>> {
    let whole = lists.len() == 1;
    let mut old = Parts::new(&job.old, &job.cables, |l| &l.from);
    let mut new = Parts::new(&job.new, &job.cables, |l| &l.to);
    let count = lists.len();
    let mut pages = Vec::new();
    for (at, cables) in lists.iter().enumerate() {
        let last = at + 1 == count && !apart;
        let left = old.page(cables, |l| &l.from, whole, last);
        let right = new.page(cables, |l| &l.to, whole, last);
        pages.push(Page::new(job, cables, &left, &right));
    }
    while !(old.left.is_empty() && new.left.is_empty()) {
        pages.push(Page::new(job, &[], &old.some(), &new.some()));
    }
    pages
}

/// The parts of a strip that no page has yet.
struct Parts<'a> {
    strip: &'a Strip,
    left: Vec<&'a Part>,
    /// The screws on which a core of the job is.
    landed: Vec<bool>,
}

/// What of a strip a page shows.
struct Shown<'a> {
    screws: Vec<bool>,
    parts: Vec<&'a Part>,
}

impl<'a> Parts<'a> {
    fn new(strip: &'a Strip, cables: &[CableWiring], end: fn(&Line) -> &End) -> Self {
        let landed = landed(strip, cables.iter(), end);
        Self { strip, left: strip.parts.iter().collect(), landed }
    }

    /// Some of the parts that are left, with their screws.
    fn some(&mut self) -> Shown<'a> {
        let parts: Vec<&Part> = self.left.drain(..self.left.len().min(TOGETHER)).collect();
        let on = |at: usize| parts.iter().any(|p| p.from == at || p.to == Some(at));
        Shown { screws: (0..self.strip.screws.len()).map(on).collect(), parts }
    }

    /// The screws on which these cables' cores are, and the parts on them; on the last page, all parts that are left.
    fn page(&mut self, cables: &[&CableWiring], end: fn(&Line) -> &End, whole: bool, last: bool) -> Shown<'a> {
        let mut screws = landed(self.strip, cables.iter().copied(), end);
        let mut parts = Vec::new();
        // The contacts inside first: what is fitted on their other screws belongs beside them.
        for inside in [true, false] {
            let (strip, landed) = (self.strip, &self.landed);
            let here = |part: &Part| part.inside == inside && (last || belongs(strip, landed, part, &screws));
            let (own, left): (Vec<&Part>, Vec<&Part>) = self.left.iter().copied().partition(|part| here(part));
            self.left = left;
            for part in own {
                for at in [Some(part.from), part.to].into_iter().flatten() {
                    screws.iter_mut().skip(at).take(1).for_each(|shown| *shown = true);
                }
                parts.push(part);
            }
        }
        if whole && self.strip.screws.len() <= WHOLE {
            let own = |at: usize| self.strip.screws.get(at).is_some_and(|s| s.kind == ScrewKind::Screw);
            screws.iter_mut().enumerate().filter(|(at, _)| own(*at)).for_each(|(_, shown)| *shown = true);
        }
        Shown { screws, parts }
    }
}

/// For each screw of a strip, whether a core of these cables is on it.
fn landed<'c>(strip: &Strip, cables: impl Iterator<Item = &'c CableWiring>, end: fn(&Line) -> &End) -> Vec<bool> {
    let mut landed = vec![false; strip.screws.len()];
    for line in cables.flat_map(|c| &c.lines) {
        if let End::Screw(at) = end(line)
            && let Some(own) = landed.get_mut(*at)
        {
            *own = true;
        }
    }
    landed
}

/// Whether a part belongs beside these screws: a contact where its core lands; what is fitted where it begins, or,
/// where it begins on a screw that no core and no contact has, where it ends.
fn belongs(strip: &Strip, landed: &[bool], part: &Part, screws: &[bool]) -> bool {
    let shown = |at: Option<usize>| at.and_then(|at| screws.get(at)) == Some(&true);
    if part.inside {
        return shown(part.to) || shown(Some(part.from));
    }
    let has_contact = strip.parts.iter().any(|p| p.inside && (p.from == part.from || p.to == Some(part.from)));
    let bare = !has_contact && landed.get(part.from) != Some(&true);
    shown(Some(part.from)) || (bare && shown(part.to))
}

/// A page of the job.
struct Page<'a> {
    cables: Vec<(&'a CableWiring, i32)>,
    old: Placed<'a>,
    new: Placed<'a>,
    left: Way<'a>,
    right: Way<'a>,
    /// Links on the old panel, at the far left.
    quiet: Zone<'a>,
    /// What is fitted on the board's screws.
    fitted: Zone<'a>,
    /// What is inside the board.
    inside: Zone<'a>,
    bottom: i32,
}

impl<'a> Page<'a> {
    fn new(job: &'a JobWiring, cables: &[&'a CableWiring], old: &Shown<'a>, new: &Shown<'a>) -> Self {
        let mut bottom = TOP;
        let mut at_heights = Vec::new();
        for cable in cables {
            at_heights.push((*cable, bottom + ROW));
            bottom += rows(cable) * ROW;
        }
        let place = |strip: &'a Strip, shown: &Shown| {
            let at = |top: i32| Placed::new(strip, |s| shown.screws.get(s) == Some(&true), top);
            let height = at(0).bottom;
            let spare = (bottom - TOP - height).max(0) / 2;
            at(TOP + spare / ROW * ROW)
        };
        let (old_strip, new_strip) = (place(&job.old, old), place(&job.new, new));
        let wires = |end: fn(&'a Line) -> &'a End| -> Vec<Wire<'a>> {
            lines(&at_heights).map(|(line, y)| Wire { core: line.core.as_ref(), y, screws: screw(end(line)) }).collect()
        };
        let left = Way::new(wires(|l| &l.from), &old_strip, Facing::Right);
        let right = Way::new(wires(|l| &l.to), &new_strip, Facing::Left);
        let parts = |of: &Shown<'a>, inside: bool| of.parts.clone().into_iter().filter(move |p| p.inside == inside);
        Self {
            quiet: Zone::new(&old_strip, parts(old, false)),
            fitted: Zone::new(&new_strip, parts(new, false)),
            inside: Zone::new(&new_strip, parts(new, true)),
            bottom: bottom.max(old_strip.bottom).max(new_strip.bottom),
            cables: at_heights,
            old: old_strip,
            new: new_strip,
            left,
            right,
        }
    }

    fn crossings(&self) -> usize {
        self.left.crossings() + self.right.crossings()
    }

    fn width(&self) -> i32 {
        let strips = self.old.width() + self.new.width();
        let zones = self.quiet.width + self.fitted.width + self.inside.width;
        2 * MARGIN + strips + zones + self.left.width() + self.right.width() + MIDDLE
    }

    fn fits(&self) -> bool {
        let width = self.width();
        width <= WIDEST && (self.bottom + 4 * KEY + 8) * PAPER <= TALLEST * width.max(PAPER)
    }

    fn draw(&self, job: &JobWiring, at: usize, of: usize) -> Drawing {
        let mut svg = Svg::default();
        let width = self.width();
        let half = width / 2 - MARGIN;
        svg.bold((MARGIN, 16), Side::Start, &format!("Old panel, as found: {}", job.old.name), half - 10);
        svg.bold((width - MARGIN, 16), Side::End, &format!("New board: {}", job.new.name), half - 10);
        self.shapes(&mut svg);
        let lines = wrapped(&self.key(), width - 2 * MARGIN, KEY_LINES);
        let mut y = self.bottom + 6;
        for line in &lines {
            y += KEY;
            svg.text((MARGIN, y), Side::Start, line, width - 2 * MARGIN);
        }
        let names: Vec<&str> = self.cables.iter().map(|(c, _)| c.name.as_str()).collect();
        let names = if names.is_empty() { vec!["screws without a cable"] } else { names };
        let part = if of == 1 { String::new() } else { format!(" {at} of {of}") };
        Drawing {
            key: if of == 1 { "wiring".into() } else { format!("wiring-{at}") },
            caption: format!("The wiring drawn{part}: {}", names.join(", ")),
            alt: format!(
                "Wiring drawing{part}. At the left the screws of {} as found, at the right those of {}, between them \
                 each core of {} in its colour with its code. The tables say the same core by core.",
                job.old.name,
                job.new.name,
                crate::wording::listed(&names)
            ),
            width,
            height: y + 8,
            body: svg.into_body(),
        }
    }

    /// What the signs mean, as far as they are used.
    fn key(&self) -> String {
        let lines = || lines(&self.cables).map(|(line, _)| line);
        let ends = |test: fn(&End) -> bool| lines().any(|l| test(&l.from) || test(&l.to));
        let unsure = |strip: &Placed| strip.kinds().any(|k| k == ScrewKind::NotOnCard);
        let parts = || [&self.quiet, &self.fitted, &self.inside].into_iter().flat_map(Zone::parts);
        let not_known = ends(|e| matches!(e, End::NotKnown(_)))
            || unsure(&self.old)
            || unsure(&self.new)
            || parts().any(|p| p.label == "?");
        let said = [
            (true, "Thin: where a core was. Thick: where it goes."),
            (true, "A dot: all on one screw; lines that cross without one are not joined."),
            (true, "A plain line: cores of several colours."),
            (ends(|e| matches!(e, End::Insulated(_))), "A sleeve over an end: insulated alone."),
            (parts().any(|p| !p.inside), "Wires and resistors beside screws are to be fitted."),
            (parts().any(|p| p.inside), "Contacts at the right are the board's own relays."),
            (not_known, "?: not known; measure before you rely on it."),
        ];
        said.into_iter().filter(|(is, _)| *is).map(|(_, words)| words).collect::<Vec<_>>().join(" ")
    }

    fn shapes(&self, svg: &mut Svg) {
        let old_x = MARGIN + self.quiet.width;
        let channel = old_x + self.old.width();
        let middle = channel + self.left.width();
        let right_channel = middle + MIDDLE;
        let fitted = right_channel + self.right.width() + self.fitted.width;
        let new_x = fitted;
        let ring = middle + row::RING;
        let left = Across { rows: ring, channel, screws: head(old_x, self.old.width(), Facing::Right) };
        let right = Across { rows: ring, channel: right_channel, screws: head(new_x, self.new.width(), Facing::Left) };
        self.old.cells(svg, old_x);
        self.new.cells(svg, new_x);
        let quiet = Beside { edge: old_x, base: old_x, away: -1 };
        let fitted = Beside { edge: right.screws, base: new_x, away: -1 };
        let inner = new_x + self.new.width();
        let inside = Beside { edge: inner, base: inner, away: 1 };
        self.quiet.draw(svg, quiet);
        self.fitted.draw(svg, fitted);
        self.inside.draw(svg, inside);
        self.left.shared(svg, left);
        self.right.shared(svg, right);
        for (at, (line, y)) in lines(&self.cables).enumerate() {
            svg.open(&line.title);
            row::stubs(svg, line, middle, y);
            self.left.one(svg, at, left);
            self.right.one(svg, at, right);
            row::words(svg, line, [&self.old, &self.new], middle, y);
            svg.close();
        }
        self.quiet.dots(svg, quiet, |_| false);
        self.fitted.dots(svg, fitted, |screw| self.right.lands_on(screw));
        self.inside.dots(svg, inside, |_| false);
        self.old.marks(svg, old_x, Facing::Right);
        self.new.marks(svg, new_x, Facing::Left);
        for (cable, y) in &self.cables {
            row::head(svg, cable, middle, *y);
        }
    }
}

/// Every core with the height of its row; `y` of a cable is that of the line under its head.
fn lines<'a>(cables: &[(&'a CableWiring, i32)]) -> impl Iterator<Item = (&'a Line, i32)> {
    cables.iter().flat_map(|(cable, y)| cable.lines.iter().zip((1..).map(move |n| *y + n * ROW)))
}

fn screw(end: &End) -> &[usize] {
    match end {
        End::Screw(at) => std::slice::from_ref(at),
        End::Insulated(_) | End::Elsewhere(_) | End::NotKnown(_) => &[],
    }
}
