//! Fills a survey into a form, as a person would who types it over.

use wirelore::pack::sheet::form::{FormView, Table};
use wirelore::source::Node;

/// The form with everything that a survey says.
pub(super) fn filled(mut view: FormView, root: &Node) -> FormView {
    for field in &mut view.fields {
        let node = field.key.split('.').try_fold(root, |node, part| node.get(part));
        if let Some(text) = node.and_then(Node::text) {
            field.value = text.to_string();
        }
        if field.key == "remove" {
            field.value = removed(root).join(", ");
        }
    }
    for table in &mut view.tables {
        match table.name {
            "Volts" => marked(table, root.get("readings"), "readings mark", "readings"),
            "Fuses" => marked(table, root.get("fuses"), "fuses fuse", "fuses"),
            "Loads" => loads(table, root),
            "New items" => {
                rows(table, root.get("fit"), "fit", |row| row.get("keep").and_then(Node::text) != Some("true"));
            }
            "Settled" => rows(table, root.get("settled"), "settled", |_| true),
            name => {
                table.rows.clear();
                for cable in root.get("cables").and_then(Node::list).unwrap_or_default() {
                    match name {
                        "Cables" => own(table, cable),
                        "Items" => items(table, root, cable),
                        "Cores" => cores(table, cable),
                        _ => loops(table, cable),
                    }
                }
            }
        }
    }
    view
}

/// What goes and hangs on no cable; `none` where nothing goes.
fn removed(root: &Node) -> Vec<String> {
    if root.get("remove").and_then(Node::text) == Some("none") {
        return vec!["none".into()];
    }
    let all = root.get("remove").and_then(Node::list).unwrap_or_default().iter().filter_map(Node::text);
    all.filter(|name| !served(root).contains(name)).map(str::to_string).collect()
}

fn served(root: &Node) -> Vec<&str> {
    let cables = root.get("cables").and_then(Node::list).unwrap_or_default();
    let rows = cables.iter().flat_map(|cable| cable.get("serves").and_then(Node::list).unwrap_or_default());
    rows.filter_map(|row| row.get("item")?.text()).collect()
}

/// Writes into the n-th of a row's cells for a key.
fn set(table: &Table, row: &mut Vec<String>, key: &str, n: usize, text: &str) {
    let mut columns = table.columns.iter().enumerate().filter(|(_, column)| column.key == key);
    let (at, _) = columns.nth(n).unwrap_or_else(|| panic!("{} has no {key}", table.name));
    row.resize(table.columns.len(), String::new());
    row[at] = text.to_string();
}

/// A value's text, or both ends of a window, or each entry of a list.
fn texts(node: &Node) -> Vec<&str> {
    node.list().map_or_else(|| node.text().into_iter().collect(), |list| list.iter().filter_map(Node::text).collect())
}

fn marked(table: &mut Table, map: Option<&Node>, name: &str, value: &str) {
    for entry in map.and_then(Node::entries).unwrap_or_default() {
        let mark = entry.key.text().expect("a mark").to_string();
        let at = table.rows.iter().position(|row| row[0] == mark).unwrap_or(table.rows.len());
        if at == table.rows.len() {
            table.rows.push(Vec::new());
        }
        let mut row = std::mem::take(&mut table.rows[at]);
        set(table, &mut row, name, 0, &mark);
        set(table, &mut row, value, 0, entry.value.text().expect("a value"));
        table.rows[at] = row;
    }
}

fn rows(table: &mut Table, list: Option<&Node>, path: &str, is_ours: impl Fn(&Node) -> bool) {
    for node in list.and_then(Node::list).unwrap_or_default().iter().filter(|node| is_ours(node)) {
        let mut row = Vec::new();
        keys(table, &mut row, node, path);
        table.rows.push(row);
    }
}

/// Every key of a block that has a column.
fn keys(table: &Table, row: &mut Vec<String>, node: &Node, path: &str) {
    for entry in node.entries().unwrap_or_default() {
        let key = format!("{path}.{}", entry.key.text().expect("a key"));
        if key == "fit.keep" {
            continue;
        }
        if let Some(list) = (key == "cables.serves.resistors").then_some(&entry.value) {
            match list.text() {
                Some(word) => set(table, row, "cables.serves.resistors.at", 0, word),
                None => keys(table, row, list, &key),
            }
            continue;
        }
        for (n, text) in texts(&entry.value).into_iter().enumerate() {
            set(table, row, &key, n, text);
        }
    }
}

fn loads(table: &mut Table, root: &Node) {
    if root.get("loads").and_then(Node::text) == Some("none") {
        table.rows.push(vec!["none".into()]);
    }
    rows(table, root.get("loads"), "loads", |_| true);
}

fn name(cable: &Node) -> String {
    cable.get("cable").and_then(Node::text).expect("a name").to_string()
}

fn own(table: &mut Table, cable: &Node) {
    let mut row = Vec::new();
    for key in ["cable", "type", "to", "length", "label", "ac"] {
        for (n, text) in cable.get(key).map(texts).unwrap_or_default().into_iter().enumerate() {
            set(table, &mut row, &format!("cables.{key}"), n, text);
        }
    }
    table.rows.push(row);
}

fn items(table: &mut Table, root: &Node, cable: &Node) {
    if cable.get("serves").and_then(Node::text) == Some("none") {
        table.rows.push(vec![name(cable), "none".into()]);
    }
    for node in cable.get("serves").and_then(Node::list).unwrap_or_default() {
        let mut row = Vec::new();
        set(table, &mut row, "cables.cable", 0, &name(cable));
        keys(table, &mut row, node, "cables.serves");
        stays(table, &mut row, root, node.get("item").and_then(Node::text).expect("a name"));
        table.rows.push(row);
    }
}

fn stays(table: &Table, row: &mut Vec<String>, root: &Node, item: &str) {
    let named = |key: &str| root.get(key).and_then(Node::list).unwrap_or_default();
    if let Some(fit) = named("fit").iter().find(|fit| fit.get("item").and_then(Node::text) == Some(item)) {
        set(table, row, "fit.keep", 0, "keep");
        for key in ["reaction", "share", "priority"] {
            if let Some(text) = fit.get(key).and_then(Node::text) {
                set(table, row, &format!("fit.{key}"), 0, text);
            }
        }
    }
    if named("remove").iter().any(|goes| goes.text() == Some(item)) {
        set(table, row, "fit.keep", 0, "remove");
    }
}

fn cores(table: &mut Table, cable: &Node) {
    for entry in cable.get("cores").and_then(Node::entries).unwrap_or_default() {
        let mut row = Vec::new();
        set(table, &mut row, "cables.cable", 0, &name(cable));
        set(table, &mut row, "cables.cores colour", 0, entry.key.text().expect("a colour"));
        set(table, &mut row, "cables.cores", 0, entry.value.text().expect("a place"));
        table.rows.push(row);
    }
}

fn loops(table: &mut Table, cable: &Node) {
    for node in cable.get("measured").and_then(Node::list).unwrap_or_default() {
        let mut row = Vec::new();
        set(table, &mut row, "cables.cable", 0, &name(cable));
        keys(table, &mut row, node, "cables.measured");
        table.rows.push(row);
    }
}
