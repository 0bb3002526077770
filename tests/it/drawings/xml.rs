//! A strict reader of what drawings are made of: elements, attributes, text, the five named entities and `&#39;`.

/// An element.
#[derive(Debug, Default)]
pub(crate) struct Element {
    pub(crate) name: String,
    pub(crate) attributes: Vec<(String, String)>,
    pub(crate) children: Vec<Element>,
    pub(crate) text: String,
}

impl Element {
    /// An attribute's value; empty when there is none.
    pub(crate) fn get(&self, name: &str) -> &str {
        self.attributes.iter().find(|(n, _)| n == name).map_or("", |(_, value)| value)
    }

    /// This element and all below it, in order.
    pub(crate) fn all(&self) -> Vec<&Element> {
        std::iter::once(self).chain(self.children.iter().flat_map(Element::all)).collect()
    }

    /// The text of every title.
    pub(crate) fn titles(&self) -> impl Iterator<Item = &str> {
        self.all().into_iter().filter(|e| e.name == "title").map(|e| e.text.as_str())
    }
}

/// Reads a document; panics, with what is wrong, when it is not well-formed.
pub(crate) fn read(text: &str) -> Element {
    let mut open: Vec<Element> = vec![Element::default()];
    let mut rest = text;
    while let Some(start) = rest.find('<') {
        open.last_mut().expect("a parent").text.push_str(&plain(&rest[..start]));
        let inner = &rest[start + 1..];
        let end = inner.find('>').expect("a tag ends");
        let tag = &inner[..end];
        rest = &inner[end + 1..];
        if let Some(name) = tag.strip_prefix('/') {
            let done = open.pop().expect("an element is open");
            assert_eq!(done.name, name, "the elements close in order");
            open.last_mut().expect("one root").children.push(done);
            continue;
        }
        let closed = tag.ends_with('/');
        let element = begun(tag.trim_end_matches('/'));
        if closed {
            open.last_mut().expect("a parent").children.push(element);
        } else {
            open.push(element);
        }
    }
    assert!(rest.trim().is_empty() && open.len() == 1, "everything is closed");
    let mut roots = open.pop().expect("the root's parent").children;
    assert_eq!(roots.len(), 1, "one root");
    roots.pop().expect("one root")
}

fn begun(tag: &str) -> Element {
    let (name, mut rest) = tag.split_once(' ').unwrap_or((tag, ""));
    assert!(name.chars().all(|c| c.is_ascii_lowercase()), "a name: {name}");
    let mut attributes: Vec<(String, String)> = Vec::new();
    while !rest.trim().is_empty() {
        let (key, after) = rest.trim_start().split_once("=\"").unwrap_or_else(|| panic!("an attribute in {tag}"));
        let (value, after) = after.split_once('"').unwrap_or_else(|| panic!("a value in {tag}"));
        assert!(!attributes.iter().any(|(k, _)| k == key), "{key} stands twice in {tag}");
        attributes.push((key.to_string(), plain(value)));
        rest = after;
    }
    Element { name: name.to_string(), attributes, ..Element::default() }
}

/// Text with its entities resolved.
fn plain(raw: &str) -> String {
    let mut out = String::new();
    let mut rest = raw;
    while let Some((before, after)) = rest.split_once('&') {
        let (entity, after) = after.split_once(';').expect("an entity ends");
        out.push_str(before);
        out.push(match entity {
            "amp" => '&',
            "lt" => '<',
            "gt" => '>',
            "quot" => '"',
            "apos" | "#39" => '\'',
            other => panic!("no entity &{other};"),
        });
        rest = after;
    }
    out.push_str(rest);
    assert!(out.chars().all(|c| c == '\n' || !c.is_control()), "no control signs: {out:?}");
    out
}
