//! Cards written in other ways than ours: each is changed in its own style, or left alone.

use wirelore::edit::{Edited, Refusal, Wish, set};

fn change(text: &str, of: &str, pairs: &[(&str, &str)], cite: Option<&str>) -> Result<Edited, Refusal> {
    let values: Vec<(String, String)> = pairs.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
    set("card.yaml", text, &Wish { folder: "panels", of, values: &values, cite })
}

#[track_caller]
fn becomes(before: &str, of: &str, pairs: &[(&str, &str)], cite: Option<&str>, after: &str) {
    let edited = change(before, of, pairs, cite).unwrap_or_else(|why| panic!("{why:?}"));
    assert_eq!(edited.text, after);
}

#[track_caller]
fn refuses(text: &str, of: &str, pairs: &[(&str, &str)], cite: Option<&str>) -> String {
    match change(text, of, pairs, cite) {
        Err(Refusal::Wish(message, help)) => format!("{message}; {help}"),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_missing_key_comes_beside_its_siblings_in_their_style() {
    becomes(
        "terminals:\n  - mark: A+   # the first\n    does: \"12 V out\"\n    # more\n\n  - mark: B\n",
        "A+",
        &[("volts", "[13 V, 14 V]")],
        None,
        "terminals:\n  - mark: A+   # the first\n    does: \"12 V out\"\n    volts: [13 V, 14 V]\n    # more\n\n  - mark: B\n",
    );
    becomes(
        "terminals:\n  - { mark: A+,   does: \"12 V out\",    cite: \"m p.1\" }\n",
        "A+",
        &[("volts", "[13 V, 14 V]")],
        None,
        "terminals:\n  - { mark: A+,   does: \"12 V out\", volts: [13 V, 14 V],    cite: \"m p.1\" }\n",
    );
    becomes("id: x", "card", &[("model", "MB6")], None, "id: x\nmodel: MB6");
    becomes("model: MB6\n", "card", &[("id", "x")], None, "id: x\nmodel: MB6\n");
    becomes("{model: MB6}\n", "card", &[("id", "x")], None, "{ id: x,model: MB6}\n");
    becomes("mains: {}\n", "mains", &[("fuse", "F1")], None, "mains: { fuse: F1 }\n");
    becomes(
        "siren:\n  triggers:\n  - trigger: siren\n    terminal: SIR\n",
        "siren.triggers.siren",
        &[("fires", "negative-applied")],
        None,
        "siren:\n  triggers:\n  - trigger: siren\n    terminal: SIR\n    fires: negative-applied\n",
    );
}

#[test]
fn a_missing_block_comes_whole() {
    becomes(
        "id: x\npower:\n  volts: 13.7 V\n",
        "siren.tamper",
        &[("terminal", "STR"), ("returns", "negative")],
        None,
        "id: x\nsiren: { tamper: { terminal: STR, returns: negative } }\npower:\n  volts: 13.7 V\n",
    );
    becomes(
        "sources:\n  m: { how: manual }\nid: x\n",
        "sources.quay",
        &[("how", "measured"), ("date", "2026-11-03")],
        None,
        "sources:\n  m: { how: manual }\n  quay: { how: measured, date: 2026-11-03 }\nid: x\n",
    );
    becomes(
        "tamper: none # seen\n",
        "tamper",
        &[("wiring", "closed-loop")],
        None,
        "tamper: { wiring: closed-loop } # seen\n",
    );
}

#[test]
fn line_ends_marks_and_missing_last_line_ends_stay() {
    becomes(
        "\u{feff}id: x\r\npower:\r\n  volts: 13.7 V # Ω\r\n  own: 60 mA\r\n",
        "power",
        &[("limit", "400 mA"), ("volts", "13.8 V")],
        None,
        "\u{feff}id: x\r\npower:\r\n  volts: 13.8 V # Ω\r\n  limit: 400 mA\r\n  own: 60 mA\r\n",
    );
    becomes("power:\n  volts: 13.7 V", "power", &[("own", "60 mA")], None, "power:\n  volts: 13.7 V\n  own: 60 mA");
}

#[test]
fn a_value_keeps_its_quotes_and_gets_them_when_it_needs_them() {
    becomes("model: 'MB6'\n", "card", &[("model", "it's")], None, "model: 'it''s'\n");
    becomes("model: \"MB6\"\n", "card", &[("model", "a \"b\"")], None, "model: \"a \\\"b\\\"\"\n");
    becomes("model: MB6\n", "card", &[("model", "a: b")], None, "model: \"a: b\"\n");
    becomes("model: MB6\n", "card", &[("model", "no")], None, "model: \"no\"\n");
    becomes("model: MB6\n", "card", &[("model", "12")], None, "model: \"12\"\n");
    becomes("model:   # to do\n", "card", &[("model", "MB6")], None, "model: MB6   # to do\n");
    becomes("model: ~\n", "card", &[("model", "MB6")], None, "model: MB6\n");
    becomes(
        "power:\n  quiet: |\n    one\n    two\n  own: 1 A\n",
        "power",
        &[("quiet", "three")],
        None,
        "power:\n  quiet: three\n  own: 1 A\n",
    );
    becomes("power:\n  quiet: one\n    two # x\n", "power", &[("quiet", "a b")], None, "power:\n  quiet: a b # x\n");
}

#[test]
fn lists_change_entry_by_entry() {
    let block = "also:\n  - MB-6   # long\n  - \"MB6L\"\n\n# end\n";
    becomes(
        block,
        "card",
        &[("also", "[MB-6, MB6L, X]")],
        None,
        "also:\n  - MB-6   # long\n  - \"MB6L\"\n  - X\n\n# end\n",
    );
    becomes(block, "card", &[("also", "[MB-6]")], None, "also:\n  - MB-6   # long\n\n# end\n");
    becomes(block, "card", &[("also", "[MB-7, MB6L]")], None, "also:\n  - MB-7   # long\n  - \"MB6L\"\n\n# end\n");
    becomes("also: [ A,\n  B ] # x\n", "card", &[("also", "[A]")], None, "also: [ A ] # x\n");
    becomes("also: []\n", "card", &[("also", "[A, B]")], None, "also: [A, B]\n");
    becomes("also: [A]\n", "card", &[("also", "[]")], None, "also: []\n");
    refuses(block, "card", &[("also", "[]")], None);
    refuses(block, "card", &[("also", "A")], None);
}

#[test]
fn a_cite_joins_those_that_are_there() {
    let with = |cite: &str| {
        format!("sources: {{ m: {{ how: manual }}, b: {{ how: measured }} }}\nfuses:\n  - {{ mark: F2{cite} }}\n")
    };
    let set = [("rating", "1 A")];
    becomes(&with(""), "F2", &set, Some("m p.5"), &with(", rating: 1 A, cite: \"m p.5\""));
    becomes(&with(", cite: 'm p.5'"), "F2", &set, Some("b"), &with(", rating: 1 A, cite: ['m p.5', b]"));
    becomes(&with(", cite: [m, b]"), "F2", &set, Some("m p.5"), &with(", rating: 1 A, cite: [m, b, \"m p.5\"]"));
    becomes(&with(", cite: [m, b]"), "F2", &set, Some("b"), &with(", rating: 1 A, cite: [m, b]"));
    becomes(&with(", cite: b"), "F2", &set, Some("b"), &with(", rating: 1 A, cite: b"));
    let said = refuses(&with(""), "F2", &set, Some("n p.5"));
    assert!(said.contains("`n` is no source") && said.contains("sources.n"), "{said}");
    refuses(&with(""), "sources.m", &[("title", "x")], Some("m"));
}

#[test]
fn what_an_anchor_or_an_alias_would_change_as_well_is_refused() {
    let text = "terminals:\n  - &a { mark: A+, does: x }\n  - *a\nmodel: &m MB6\nmaker: *m\n";
    let said = refuses(text, "terminals.A+", &[("does", "y")], None);
    assert!(said.contains("touching something else"), "{said}");
    refuses(text, "terminals.A+#2", &[("does", "y")], None);
    refuses(text, "card", &[("model", "MB7")], None);
    becomes(text, "card", &[("maker", "M")], None, &text.replace("maker: *m", "maker: M"));
    refuses("? id\n: x\n", "card", &[("id", "y\nz"), ("model", "a")], None);
    refuses("zones: [ zone: \"1\" ]\n", "zones.1", &[("wiring", "closed-loop")], None);
}

#[test]
fn what_is_not_there_is_told_with_the_nearest() {
    let text = "fuses: [ { mark: F2 } ]\nlinks: [ { mark: F2 } ]\nterminals: [ { mark: AUX+ }, { mark: siren } ]\nsiren: none\n";
    let said = refuses(text, "AUX", &[("does", "x")], None);
    assert!(said.contains("did you mean AUX+"), "{said}");
    let said = refuses(text, "F2", &[("does", "x")], None);
    assert!(said.contains("`fuses.F2`") && said.contains("`links.F2`"), "{said}");
    let said = refuses(text, "siren", &[("does", "x")], None);
    assert!(said.contains("`card.siren`") && said.contains("`terminals.siren`"), "{said}");
    becomes(
        text,
        "card.siren",
        &[("negative", "AUX+")],
        None,
        &text.replace("siren: none", "siren: { negative: AUX+ }"),
    );
    let said = refuses(text, "AUX+", &[("foes", "x")], None);
    assert!(said.contains("did you mean does"), "{said}");
    let said = refuses(text, "AUX+", &[("fires", "x")], None);
    assert!(said.contains("no key `fires`"), "{said}");
    let said = refuses(text, "AUX+", &[("does", " ")], None);
    assert!(said.contains("empty"), "{said}");
    let said = refuses(text, "card", &[("fuses", "none")], None);
    assert!(said.contains("more than one fact"), "{said}");
}
