//! Circuits as text for the simulator, many in one deck, and what it says of their nodes.

use super::tools;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::Path;
use std::process::Command;

/// What is read off a circuit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Probe {
    /// Volts between two nodes.
    Volts(String, String),
    /// What the source of this name delivers, in amperes.
    Amps(String),
    /// The lowest of several.
    Lowest(Vec<Probe>),
}

/// A deck of circuits that share nothing but ground, node `0`.
#[derive(Debug, Default)]
pub(super) struct Deck {
    text: String,
    parts: usize,
    nodes: usize,
}

impl Deck {
    /// A node that nothing else touches yet.
    pub(super) fn node(&mut self) -> String {
        self.nodes += 1;
        format!("n{}", self.nodes)
    }

    fn part(&mut self, letter: char, a: &str, b: &str, value: f64) -> String {
        self.parts += 1;
        let name = format!("{letter}{}", self.parts);
        let kind = if letter == 'r' { "" } else { "dc " };
        writeln!(self.text, "{name} {a} {b} {kind}{value:e}").expect("text grows");
        name
    }

    /// A resistance between two nodes; a source of no volts, which is a wire, for none at all.
    pub(super) fn resistor(&mut self, a: &str, b: &str, ohms: f64) {
        if ohms == 0.0 {
            self.part('v', a, b, 0.0);
        } else {
            self.part('r', a, b, ohms);
        }
    }

    /// A source that holds `a` at these volts above `b`; its name.
    pub(super) fn volts(&mut self, a: &str, b: &str, volts: f64) -> String {
        self.part('v', a, b, volts)
    }

    /// A load that draws this current from `a` to `b`.
    pub(super) fn draws(&mut self, a: &str, b: &str, amps: f64) {
        self.part('i', a, b, amps);
    }

    /// A resistance from a node to a new one; the new one.
    pub(super) fn onward(&mut self, from: &str, ohms: f64) -> String {
        let to = self.node();
        self.resistor(from, &to, ohms);
        to
    }

    /// Whether nothing is in it.
    pub(super) fn is_empty(&self) -> bool {
        self.parts == 0
    }

    /// The operating point, worked by the simulator.
    pub(super) fn solve(&self, ngspice: &Path) -> Solved {
        let folder = tempfile::tempdir().expect("a place for the netlist");
        let (deck, raw) = (folder.path().join("deck.cir"), folder.path().join("deck.raw"));
        let text = format!("circuits of one batch\n{}.op\n.end\n", self.text);
        std::fs::write(&deck, text).expect("the netlist is written");
        let mut command = Command::new(ngspice);
        command.env("SPICE_ASCIIRAWFILE", "1").arg("-b").arg("-r").arg(&raw).arg(&deck);
        let said = tools::run(&mut command, "");
        let raw = std::fs::read_to_string(&raw).unwrap_or_else(|error| panic!("no answer: {error}\n{said}"));
        Solved(read(&raw))
    }
}

/// What the simulator says: node volts by node, source currents as `i(name)`.
#[derive(Debug)]
pub(super) struct Solved(BTreeMap<String, f64>);

impl Solved {
    fn volts_at(&self, node: &str) -> f64 {
        if node == "0" {
            return 0.0;
        }
        *self.0.get(node).unwrap_or_else(|| panic!("the simulator says nothing of node {node}"))
    }

    /// What a probe reads.
    pub(super) fn reads(&self, probe: &Probe) -> f64 {
        match probe {
            Probe::Volts(a, b) => self.volts_at(a) - self.volts_at(b),
            Probe::Lowest(probes) => {
                probes.iter().map(|probe| self.reads(probe)).min_by(f64::total_cmp).expect("there is a probe")
            }
            // A source's own current is counted into its positive end.
            Probe::Amps(source) => {
                -*self.0.get(&format!("i({source})")).unwrap_or_else(|| panic!("nothing of source {source}"))
            }
        }
    }
}

/// A raw file as text: names under `Variables:`, then as many values under `Values:`.
fn read(raw: &str) -> BTreeMap<String, f64> {
    let (head, values) = raw.split_once("Values:").expect("the raw file has values");
    let (_, variables) = head.split_once("\nVariables:").expect("the raw file has variables");
    let names: Vec<String> = variables
        .lines()
        .filter_map(|line| line.split_whitespace().nth(1))
        .map(|name| name.strip_prefix("v(").and_then(|n| n.strip_suffix(')')).unwrap_or(name).to_string())
        .collect();
    // The first value follows the number of its point.
    let values: Vec<f64> =
        values.split_whitespace().skip(1).map(|value| value.parse().expect("a value is a number")).collect();
    assert_eq!(names.len(), values.len(), "the raw file is not of one operating point");
    names.into_iter().zip(values).collect()
}
