//! The text of a drafted card.

use super::Wish;
use super::propose::Rings;
use super::rows::{Read, Row, Terminal};
use crate::check::Shape;
use crate::edit::{Style, scalar, usual};
use crate::source::Table;
use std::fmt::Write as _;

/// The card's text, and how many groups it proposes.
pub(super) fn card(table: &Table, wish: &Wish<'_>, read: &Read, rings: &Rings) -> (String, usize) {
    let mut out = Out { text: String::new(), proposed: 0, rings, heading: String::new() };
    out.head(table, wish);
    let terminals: Vec<&Terminal> = read
        .rows
        .iter()
        .filter_map(|row| match row {
            Row::Terminal(terminal) => Some(terminal.as_ref()),
            _ => None,
        })
        .collect();
    out.text.push_str("\nterminals:\n");
    for row in &read.rows {
        match row {
            Row::Terminal(terminal) => out.terminal(terminal),
            Row::Heading(number, words) => out.heading(table, *number, words),
            Row::Loose(number, words) => out.comment(&format!("  # {}, no mark: {words}", table.row_place(*number))),
        }
    }
    out.fuses(&terminals);
    out.suggested(wish, &terminals);
    (out.text, out.proposed)
}

/// The text while it is written.
struct Out<'r> {
    text: String,
    proposed: usize,
    rings: &'r Rings,
    /// The words over the terminals that are written now.
    heading: String,
}

impl Out<'_> {
    fn comment(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }

    fn head(&mut self, table: &Table, wish: &Wish<'_>) {
        let file = wish.file.split_whitespace().collect::<Vec<_>>().join(" ");
        let _ = writeln!(self.text, "# A draft from {file}: {}.", table.how);
        self.comment("# Nothing here is confirmed: a terminal without a `cite` is printed as unverified, and so are all of these.");
        self.comment("# Hold each row against the manual or the board, then say so: cite: \"manual p.6\".");
        self.comment(
            "# What the words of the table only suggest is a comment: take the `#` away when it is so, or change it.",
        );
        let _ = writeln!(self.text, "kind: {}\nid: {}", wish.kind, wish.id);
        self.comment("# maker: Merrowby");
        self.comment("# model: MB6");
        self.comment("# markings: [\"4410-B ISS 3\"]");
        self.comment("# sources:");
        self.comment("#   manual: { how: manual, title: \"Installation notes, issue 3\" }");
    }

    fn heading(&mut self, table: &Table, number: u32, words: &str) {
        words.clone_into(&mut self.heading);
        self.comment(&format!("  # {}: {words}", table.row_place(number)));
    }

    fn terminal(&mut self, terminal: &Terminal) {
        let _ = writeln!(self.text, "  - mark: {}", value(&terminal.mark, Shape::Mark));
        if let Some(does) = &terminal.does {
            let _ = writeln!(self.text, "    does: {}", scalar(does, Shape::Text, Style::Double));
        }
        match terminal.group {
            Some(group) => self.comment(&format!("    group: {group}")),
            None => self.group(terminal),
        }
        if let Some(polarity) = terminal.polarity {
            self.comment(&format!("    polarity: {polarity}"));
        }
        if let Some((low, high)) = &terminal.volts {
            self.comment(&format!("    volts: [{low}, {high}]"));
        }
        if let Some(limit) = &terminal.limit {
            self.comment(&format!("    limit: {limit}"));
        }
        if let Some(fuse) = &terminal.fuse {
            let _ = writeln!(self.text, "    fuse: {}", value(fuse, Shape::Mark));
        }
        if let Some(notes) = &terminal.notes {
            let _ = writeln!(self.text, "    notes: {}", scalar(notes, Shape::Text, Style::Double));
        }
        for (what, text) in &terminal.rest {
            self.comment(&format!("    # {what}: {text}"));
        }
    }

    /// The groups that the words of a row suggest, as comments; what the table says of its family speaks first, then
    /// what the terminal does, then the words over it.
    fn group(&mut self, terminal: &Terminal) {
        let texts = [terminal.family.as_deref(), terminal.does.as_deref(), Some(self.heading.as_str())];
        let found = texts.into_iter().flatten().map(|text| self.rings.groups(text)).find(|groups| !groups.is_empty());
        if let Some(family) = &terminal.family {
            self.comment(&format!("    # the table's group: {family}"));
        }
        for (group, word) in found.unwrap_or_default() {
            self.comment(&format!("    # group: {group}   # confirm: the table says \"{word}\""));
            self.proposed += 1;
        }
    }

    /// The fuses that terminals name: their marks are known, and nothing else.
    fn fuses(&mut self, terminals: &[&Terminal]) {
        let mut marks: Vec<&str> = Vec::new();
        for fuse in terminals.iter().filter_map(|terminal| terminal.fuse.as_deref()) {
            if !marks.contains(&fuse) {
                marks.push(fuse);
            }
        }
        if marks.is_empty() {
            return;
        }
        self.text.push_str("\nfuses:\n");
        for mark in marks {
            let _ = writeln!(self.text, "  - mark: {}", value(mark, Shape::Mark));
            self.comment("    # rating: 1 A   # read it off the fuse's cap, isolated");
        }
    }

    /// What the words suggest for the blocks of a panel, as comments.
    fn suggested(&mut self, wish: &Wish<'_>, terminals: &[&Terminal]) {
        let mut lines: Vec<(&str, Vec<String>)> = Vec::new();
        for terminal in terminals {
            let Some(does) = &terminal.does else { continue };
            for place in self.rings.places(does) {
                let said = format!("{} (\"{does}\")", terminal.mark);
                match lines.iter_mut().find(|(other, _)| *other == place) {
                    Some((_, all)) => all.push(said),
                    None => lines.push((place, vec![said])),
                }
            }
        }
        if lines.is_empty() || wish.kind != "panel" {
            return;
        }
        let of = |place: &str| lines.iter().find(|(other, _)| *other == place);
        self.comment("\n# What the words suggest for the rest of the card, worst to get wrong first. Nothing of it counts until you");
        self.comment("# have confirmed it and written it down, for example:");
        let _ = writeln!(self.text, "#   wirelore set {} siren hold_off=MARK --cite \"manual p.7\"", wish.id);
        let order = ["siren.hold_off", "siren.triggers", "siren.tamper", "mains.terminals", "power.battery.terminals"];
        let text: Vec<String> = order
            .into_iter()
            .chain(["power.out", "tamper.terminals", "keypad"])
            .filter_map(of)
            .map(|(place, marks)| format!("# {place}? {}", marks.join(", ")))
            .collect();
        self.comment(&text.join("\n"));
    }
}

fn value(text: &str, shape: Shape) -> String {
    scalar(text, shape, usual(text, shape))
}
