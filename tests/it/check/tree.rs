//! Every value stays what was typed, at its place.

use super::drawn;
use wirelore::source::{Node, Plain, Value, read, split};

fn tree(text: &str) -> Node {
    read("f.yaml", text).unwrap_or_else(|fault| panic!("{}", drawn(&[*fault])))
}

/// The text of a key's value and what YAML takes it for.
fn scalar(root: &Node, key: &str) -> (String, Plain) {
    match root.get(key).map(|node| &node.value) {
        Some(Value::Scalar(scalar)) => (scalar.text.clone(), scalar.plain),
        other => panic!("{key}: {other:?}"),
    }
}

#[test]
fn numbers_and_flags_keep_their_text() {
    let numbers = ["1", "1.0", "1e3", "0x1A", "-7", ".inf", "1e999", "0o17", "-0.50"];
    let texts =
        ["4k7", "01", "2023-04", "N", "yes", "no", "ON", "1_000", "24h", "0.22 mm2", "h/o", "AUX+", "12:30", "~x"];
    for text in numbers {
        assert_eq!(scalar(&tree(&format!("a: {text}")), "a"), (text.into(), Plain::Number), "{text}");
    }
    for text in texts {
        assert_eq!(scalar(&tree(&format!("a: {text}")), "a"), (text.into(), Plain::Text), "{text}");
    }
    assert_eq!(scalar(&tree("a: true"), "a"), ("true".into(), Plain::Flag(true)));
    assert_eq!(scalar(&tree("a: \"true\""), "a"), ("true".into(), Plain::Text));
    assert_eq!(scalar(&tree("a: '1.0'"), "a"), ("1.0".into(), Plain::Text));
    assert_eq!(scalar(&tree("a: |\n  two\n  lines\n"), "a"), ("two\nlines\n".into(), Plain::Text));
    for text in ["", "~", "null"] {
        assert_eq!(tree(&format!("a: {text}")).get("a").map(|n| &n.value), Some(&Value::Empty), "{text}");
    }
}

#[test]
fn a_place_is_a_line_a_column_and_bytes() {
    let text = "ä: ö\nb:\n  - { übel: \"x y\", 2: [z] }\n";
    let root = tree(text);
    let at =
        |node: &Node| (node.span.line, node.span.column, &text[node.span.start..node.span.start + node.span.length]);
    assert_eq!(root.get("ä").map(at), Some((1, 4, "ö")));
    let row = &root.get("b").and_then(Node::list).expect("a list")[0];
    let entries = row.entries().expect("a map");
    assert_eq!(at(&entries[0].key), (3, 7, "übel"));
    assert_eq!(at(&entries[0].value), (3, 13, "\"x y\""));
    assert_eq!(at(&entries[1].key), (3, 20, "2"));
    assert_eq!(entries[1].value.list().map(|list| at(&list[0])), Some((3, 24, "z")));
}

#[test]
fn doubled_keys_are_kept_and_aliases_stand_where_they_are_used() {
    let root = tree("a: 1\na: 2\nb: &x [3]\nc: *x\n");
    assert_eq!(root.entries().map(<[_]>::len), Some(4));
    assert_eq!(root.get("a").and_then(Node::text), Some("1"));
    let alias = &root.get("c").and_then(Node::list).expect("a list")[0];
    assert_eq!((alias.text(), alias.span.line), (Some("3"), 4));
}

#[test]
fn a_merge_key_is_a_key_like_any_other() {
    assert!(tree("<<: { a: 1 }").get("<<").is_some());
}

#[test]
fn a_note_keeps_the_places_of_its_header() {
    let note = split("n.md", "---\nabout: STB\nby: KM\n---\n\nIdles at *12.9 V*.\n\n---\nMore.\n").expect("a note");
    assert_eq!(note.header.get("by").map(|node| (node.span.line, node.span.column)), Some((3, 5)));
    assert_eq!(note.body, "Idles at *12.9 V*.\n\n---\nMore.");
    for text in ["", "Only text.\n", "---\nabout: STB\n", "----\na: 1\n---\n"] {
        let fault = split("n.md", text).expect_err("no header");
        assert!(fault.message.contains("no header"), "{}", fault.message);
    }
    let fault = split("n.md", "---\na: b: c\n---\n").expect_err("no YAML");
    assert_eq!((fault.line, fault.column), (2, 5));
}
