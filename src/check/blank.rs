//! The survey file that goes with a survey sheet: every key in the order of the sheet, with what the panel's card
//! knows in it, and everything a comment until it is known.

use super::keys::{Block, Key, SURVEY, Shape, Unit};
use super::starter::{inner, words};
use crate::model::{Group, Library, Panel};
use std::fmt::Write as _;

/// The keys of a survey in the order of the sheet, each group under what the sheet calls it.
const ORDER: [(&str, &[&str]); 8] = [
    ("1. Before the lid", &["site", "visited", "by", "service_code", "mains", "temperature"]),
    ("2. Live volts", &["readings"]),
    ("3. Dead tests. What the panel did with the mains off is battery.mains_off, below", &["fuses"]),
    ("4. Cable by cable", &["cables"]),
    ("5. Battery", &["battery"]),
    ("6. External sounder: it is an item of its cable, above", &[]),
    ("7. What else hangs on the panel", &["loads"]),
    ("8. Decided afterwards", &["power", "rules", "grade", "new_battery", "fit", "remove", "settled"]),
];

/// Where comments begin.
const COLUMN: usize = 30;

/// How many colours a cable's blank has; others are added.
const COLOURS: usize = 6;

/// What is known before the survey.
#[derive(Debug, Clone, Copy)]
pub struct Known<'a> {
    /// The cards.
    pub library: &'a Library,
    /// The panel's card; `None`: it has none.
    pub panel: Option<&'a Panel>,
    /// The new board's card, where it is decided already.
    pub board: Option<&'a str>,
    /// How many cables have blanks.
    pub cables: usize,
}

/// The survey file that goes with a sheet. `id` is the survey's.
#[must_use]
pub fn blank_survey(known: &Known<'_>, id: &str) -> String {
    let mut file = Blank { out: String::new(), known };
    file.head(id);
    for (title, names) in ORDER {
        let _ = writeln!(file.out, "\n## {title}");
        for key in names.iter().filter_map(|name| SURVEY.key(name)) {
            file.out.push('\n');
            file.key(key, "");
        }
    }
    file.out
}

/// The file while it is written.
struct Blank<'k> {
    out: String,
    known: &'k Known<'k>,
}

impl Blank<'_> {
    fn head(&mut self, id: &str) {
        self.out.push_str(
            "## A survey to type the survey sheet into, in the order of the sheet.\n\
             ## A line that begins with `#` is not read. Take `# ` away where something was read and write it before the\n\
             ## comment; leave the rest. A quantity has its unit. Blank means not known; `none` means looked, and there is none.\n\n",
        );
        let panel = self.known.panel.map(|panel| panel.unit.id.clone());
        self.must("survey", Some(id));
        self.must("panel", panel.as_deref());
        self.must("board", self.known.board);
    }

    /// A key that must be there, with its value where it is known.
    fn must(&mut self, name: &str, value: Option<&str>) {
        let Some(key) = SURVEY.key(name) else { return };
        let left = format!("{name}: {}", value.unwrap_or_default());
        self.line(left.trim_end(), &comment(key));
    }

    /// A line with a comment behind it.
    fn line(&mut self, left: &str, comment: &str) {
        let _ = match comment {
            "" => writeln!(self.out, "{left}"),
            _ => writeln!(self.out, "{left:<COLUMN$}  # {comment}"),
        };
    }

    /// A key and all within it, as comments, each line behind `indent`.
    fn key(&mut self, key: &Key, indent: &str) {
        let left = format!("# {indent}{}:", key.name);
        match (key.name, key.shape) {
            ("readings", _) => self.readings(key),
            ("fuses", _) => self.fuses(key),
            ("cables", _) => self.cables(key),
            ("cores", Shape::Map(..)) => self.cores(key, indent),
            (_, Shape::Block(block)) => {
                self.line(&left, &heading(key));
                self.block(block, &format!("{indent}  "));
            }
            (_, Shape::List(Shape::Block(block), ..)) => {
                self.line(&left, &heading(key));
                self.entry(block, indent);
            }
            _ => self.line(&left, &comment(key)),
        }
    }

    fn block(&mut self, block: &Block, indent: &str) {
        for key in block.keys {
            self.key(key, indent);
        }
    }

    /// An entry of a list: its first key behind a hyphen.
    fn entry(&mut self, block: &Block, indent: &str) {
        let deeper = format!("{indent}    ");
        for (at, key) in block.keys.iter().enumerate() {
            let from = self.out.len();
            self.key(key, &deeper);
            let hyphen = from + 2 + indent.len() + 2;
            if at == 0 && self.out.is_char_boundary(hyphen) {
                self.out.replace_range(hyphen..=hyphen, "-");
            }
        }
    }

    /// Volts at every mark of the card that may be measured live.
    fn readings(&mut self, key: &Key) {
        self.line("# readings:", &heading(key));
        let terminals = self.known.panel.map_or(&[][..], |panel| panel.unit.terminals.as_slice());
        if terminals.is_empty() {
            self.line("#   MARK:", "the mark as printed; volts, for example 13.6 V");
        }
        for terminal in terminals.iter().filter(|t| !matches!(t.group, Some(Group::Mains | Group::Earth))) {
            let does = terminal.does.as_deref().unwrap_or("not known what it does");
            let due = terminal.volts.map(|volts| format!("; should be {volts}")).unwrap_or_default();
            self.line(&format!("#   {}:", quoted(&terminal.mark)), &format!("{}{due}", one_line(does)));
        }
    }

    /// Every fuse of the card.
    fn fuses(&mut self, key: &Key) {
        self.line("# fuses:", "as found: \"RATING SPEED\", RATING, blown, bridged, missing or unknown");
        let fuses = self.known.panel.map_or(&[][..], |panel| panel.unit.fuses.as_slice());
        if fuses.is_empty() {
            self.line("#   MARK:", &format!("the mark as printed; {}", comment(key)));
        }
        for fuse in fuses {
            let rating = fuse.rating.map(|rating| rating.to_string());
            let right = [rating, fuse.speed.map(|speed| speed.word().to_string())];
            let right = right.into_iter().flatten().collect::<Vec<_>>().join(" ");
            let right =
                if right.is_empty() { "not known what is right".into() } else { format!("should be \"{right}\"") };
            self.line(&format!("#   {}:", quoted(&fuse.mark)), &right);
        }
    }

    /// The cables, the first with what each key means.
    fn cables(&mut self, key: &Key) {
        self.line("# cables:", &heading(key));
        let Some(block) = inner(key.shape) else { return };
        let from = self.out.len();
        self.entry(block, "");
        let first = self.out.split_off(from);
        for n in 1..=self.known.cables.max(1) {
            let named = first.replacen("cable:", &format!("cable: C{n}"), 1);
            match n {
                1 => self.out.push_str(&named),
                _ => self.out.push_str(&uncommented(&named)),
            }
        }
    }

    /// The colours that most cables have.
    fn cores(&mut self, key: &Key, indent: &str) {
        self.line(
            &format!("# {indent}cores:"),
            "where each core is: a mark, spare, broken, unknown, or \"join J1\"; take out colours that it lacks",
        );
        let colours = self.known.library.core_colours();
        let comments = ["for example AUX+", "two items on the cable: \"Z1 for Hall motion\""];
        for (at, colour) in colours.iter().take(COLOURS).enumerate() {
            self.line(&format!("# {indent}  {colour}:"), comments.get(at).copied().unwrap_or_default());
        }
        if colours.is_empty() {
            self.line(&format!("# {indent}  red:"), &comment(key));
        }
    }
}

/// The lines without what is behind `  # `, but for the sign with which each begins.
fn uncommented(text: &str) -> String {
    let lines = text.lines().map(|line| line.split_once("  # ").map_or(line, |(left, _)| left.trim_end()));
    lines.flat_map(|line| [line, "\n"]).collect()
}

/// What a key that holds others means.
fn heading(key: &Key) -> String {
    let none = if key.none { format!("; `{}: none` when there is none", key.name) } else { String::new() };
    format!("{}{none}", key.means)
}

/// What a key means, its words or its unit, and an example.
fn comment(key: &Key) -> String {
    let words = words(key).map(|words| format!("; {words}")).unwrap_or_default();
    let none = if key.none && !key.means.contains("none`") { "; `none` when there is none" } else { "" };
    let unit = unit(key.shape).map(|unit| format!("; {}", unit.words().0)).unwrap_or_default();
    format!("{}{words}{unit}{none}; for example {}", key.means, key.example)
}

fn unit(shape: Shape) -> Option<Unit> {
    match shape {
        Shape::Quantity(unit) | Shape::Positive(unit) | Shape::OneOrWindow(unit) | Shape::QuantityOr(unit, _) => {
            Some(unit)
        }
        _ => None,
    }
}

/// A mark as a key of YAML: in quotes, unless it is letters, digits and signs that mean nothing there.
fn quoted(mark: &str) -> String {
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '+' | '-' | '/' | '.' | '_');
    let is_word = mark.starts_with(|c: char| c.is_ascii_alphabetic()) && mark.chars().all(plain);
    let special = ["y", "n", "yes", "no", "on", "off", "true", "false", "null"];
    if is_word && !special.contains(&mark.to_ascii_lowercase().as_str()) {
        return mark.to_string();
    }
    format!("\"{}\"", one_line(mark).replace('\\', "\\\\").replace('"', "\\\""))
}

/// Text that can't end its line.
fn one_line(text: &str) -> String {
    text.split(|c: char| c.is_control() || matches!(c, '\u{85}' | '\u{2028}' | '\u{2029}'))
        .collect::<Vec<_>>()
        .join(" ")
}
