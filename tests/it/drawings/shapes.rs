//! Where the labels and lines of a drawing are, read from its SVG.

use super::xml::Element;
use wirelore::draw::text_width;

/// A box.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Label {
    pub(crate) left: f64,
    pub(crate) right: f64,
    pub(crate) top: f64,
    pub(crate) bottom: f64,
    pub(crate) words: String,
}

impl Label {
    /// Whether two boxes have more than an edge in common.
    pub(crate) fn meets(&self, other: &Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }
}

/// The boxes of labels, and of every straight piece of a line.
#[derive(Debug, Default)]
pub(crate) struct Shapes {
    pub(crate) labels: Vec<Label>,
    pub(crate) lines: Vec<Label>,
    pub(crate) titles: Vec<String>,
}

impl Shapes {
    /// The shapes of a drawing.
    pub(crate) fn of(root: &Element) -> Self {
        let mut shapes = Self { titles: root.titles().map(str::to_string).collect(), ..Self::default() };
        for element in root.all() {
            match element.name.as_str() {
                "text" => shapes.labels.push(label(element)),
                "path" => shapes.lines.extend(path(element)),
                "rect" if element.get("style").is_empty() => shapes.lines.extend(rect(element)),
                "circle" => {
                    let (x, y, r) = (number(element, "cx"), number(element, "cy"), number(element, "r"));
                    shapes.lines.push(piece((x - r, y - r), (x + r, y + r), 0.0));
                }
                "ellipse" => {
                    let (x, y) = (number(element, "cx"), number(element, "cy"));
                    let (across, up) = (number(element, "rx"), number(element, "ry"));
                    shapes.lines.push(piece((x - across, y - up), (x + across, y + up), 0.8));
                }
                _ => {}
            }
        }
        shapes
    }
}

fn number(element: &Element, name: &str) -> f64 {
    element.get(name).parse().unwrap_or_else(|_| panic!("{name} of {element:?}"))
}

/// A label's box: the whole height of the face, as a browser measures it (`DejaVu Sans`: 0.93 up, 0.24 down).
fn label(element: &Element) -> Label {
    let class = element.get("class");
    let has = |name: &str| class.split(' ').any(|c| c == name);
    let width = f64::from(text_width(&element.text, has("b")));
    let (x, y) = (number(element, "x"), number(element, "y"));
    let left = if has("e") { x - width } else { x };
    Label { left, right: left + width, top: y - 11.2, bottom: y + 2.9, words: element.text.clone() }
}

/// How far a line reaches from its middle, by its class.
fn half(class: &str) -> f64 {
    match class {
        "k" => 2.2,
        "k n" => 1.5,
        _ => 0.9,
    }
}

fn piece(from: (f64, f64), to: (f64, f64), half: f64) -> Label {
    Label {
        left: from.0.min(to.0) - half,
        right: from.0.max(to.0) + half,
        top: from.1.min(to.1) - half,
        bottom: from.1.max(to.1) + half,
        words: String::new(),
    }
}

/// The four sides of a box, or all of it where it is filled.
fn rect(element: &Element) -> Vec<Label> {
    let (x, y) = (number(element, "x"), number(element, "y"));
    let (right, bottom) = (x + number(element, "width"), y + number(element, "height"));
    if element.get("class") == "d" {
        return vec![piece((x, y), (right, bottom), 0.0)];
    }
    let corners = [(x, y), (right, y), (right, bottom), (x, bottom), (x, y)];
    corners.windows(2).map(|pair| piece(pair[0], pair[1], 0.8)).collect()
}

/// The pieces of a path of `M`, `H`, `V`, `h` and `l`.
fn path(element: &Element) -> Vec<Label> {
    let half = half(element.get("class"));
    let mut pieces = Vec::new();
    let mut at = (0.0, 0.0);
    let d = element.get("d");
    let starts: Vec<usize> = d.match_indices(char::is_alphabetic).map(|(at, _)| at).chain([d.len()]).collect();
    for pair in starts.windows(2) {
        let (command, numbers) = d[pair[0]..pair[1]].split_at(1);
        let numbers: Vec<f64> = numbers.split_whitespace().map(|n| n.parse().expect("a number")).collect();
        let to = match (command, numbers.as_slice()) {
            ("M", [x, y]) => {
                at = (*x, *y);
                continue;
            }
            ("H", [x]) => (*x, at.1),
            ("V", [y]) => (at.0, *y),
            ("h", [x]) => (at.0 + x, at.1),
            ("l", [x, y]) => (at.0 + x, at.1 + y),
            other => panic!("{other:?} in {d}"),
        };
        pieces.push(piece(at, to, half));
        at = to;
    }
    pieces
}
