//! The tables of a form: readings, fuses, cables with all that is theirs, loads, what is fitted and what goes, what was
//! settled.

use super::CellFault;
use super::cells::{Blanks, Rows, key_of};
use super::tree::{Leaf, Tree, Value};

/// Puts every table into the survey.
pub(super) fn tables(blanks: &mut Blanks, root: &mut Tree) {
    let tables = std::mem::take(&mut blanks.tables);
    for map in ["readings", "fuses"] {
        let entries = marked(&tables, map, blanks, None);
        if !entries.entries.is_empty() {
            root.set(map, Value::Block(entries));
        }
    }
    cables(&tables, blanks, root);
    fitted(&tables, blanks, root);
    loads(&tables, root);
    for list in ["fit", "settled"] {
        let of_list = tables.iter().filter(|table| !table.has("cables.cable"));
        let blocks: Vec<Tree> = of_list.flat_map(|table| blocks(table, list, |_| true)).collect();
        root.extend(list, blocks);
    }
}

/// What goes and hangs on no cable of the survey, as one cell names it.
pub(super) fn also_removed(root: &mut Tree, leaf: &Leaf) {
    if leaf.text == "none" {
        return root.set("remove", Value::Leaf(leaf.clone()));
    }
    let names = leaf.text.split([',', ';']).map(str::trim).filter(|name| !name.is_empty());
    let leaves = names.map(|name| Leaf { text: name.to_string(), place: leaf.place.clone() });
    root.set("remove", Value::Leaves(leaves.collect()));
}

/// The entries of a map, of one cable or of none: names with their values.
fn marked(tables: &[Rows], path: &str, blanks: &mut Blanks, cable: Option<&str>) -> Tree {
    let mut entries = Tree::default();
    let named = match key_of(path).map(|key| key.shape) {
        Some(crate::check::keys::Shape::Map(called, _)) => format!("{path} {called}"),
        _ => return entries,
    };
    for table in tables.iter().filter(|table| table.has(path)) {
        for row in &table.rows {
            let (name, value) = (table.one(row, &named), table.one(row, path));
            let is_other = cable.is_some_and(|cable| table.one(row, CABLE).text != cable);
            if value.text.is_empty() || is_other {
                continue;
            }
            if name.text.is_empty() {
                let message = "something is written here, but not of what";
                blanks.faults.push(CellFault::at(
                    &value.place,
                    message,
                    "write the mark or the colour in the same row",
                ));
                continue;
            }
            entries.add(&name.text, Value::Leaf(value));
        }
    }
    entries
}

const CABLE: &str = "cables.cable";

/// The cables, in the order in which they are first named.
fn cables(tables: &[Rows], blanks: &mut Blanks, root: &mut Tree) {
    let mut names: Vec<Leaf> = Vec::new();
    for table in tables.iter().filter(|table| table.has(CABLE)) {
        for row in &table.rows {
            let name = table.one(row, CABLE);
            let others = table
                .keys
                .iter()
                .zip(row)
                .filter(|(key, _)| !["", CABLE, "cables.cores colour"].contains(&key.as_str()));
            let wrote = others.into_iter().find(|(_, leaf)| !leaf.text.is_empty());
            match (name.text.is_empty(), wrote) {
                (true, Some((_, leaf))) => {
                    let help = "write the cable's name in the same row";
                    blanks.faults.push(CellFault::at(
                        &leaf.place,
                        "something is written here, but not of which cable",
                        help,
                    ));
                }
                (false, Some(_)) if !names.iter().any(|known| known.text == name.text) => names.push(name),
                _ => {}
            }
        }
    }
    doubled(tables, blanks);
    unwritten(tables, blanks, &names);
    let cables: Vec<Tree> = names.iter().map(|name| cable(tables, blanks, name)).collect();
    root.extend("cables", cables);
}

/// Whether a table is the one with a row for each cable.
fn is_own(table: &Rows) -> bool {
    table.has("cables.type")
}

/// Cables with two rows of their own.
fn doubled(tables: &[Rows], blanks: &mut Blanks) {
    let mut seen: Vec<Leaf> = Vec::new();
    for table in tables.iter().filter(|table| is_own(table)) {
        for name in table.rows.iter().map(|row| table.one(row, CABLE)).filter(|name| !name.text.is_empty()) {
            if let Some(first) = seen.iter().find(|known| known.text == name.text) {
                let message =
                    format!("the cable `{}` is here twice; the first is in cell {}", name.text, first.place.cell);
                blanks.faults.push(CellFault::at(&name.place, message, "give one of them another name"));
            } else {
                seen.push(name);
            }
        }
    }
}

/// Cables of which nothing but the name is written.
fn unwritten(tables: &[Rows], blanks: &mut Blanks, written: &[Leaf]) {
    let own = tables.iter().filter(|table| is_own(table));
    let names = own.flat_map(|table| table.rows.iter().map(|row| table.one(row, CABLE).text));
    let left: Vec<String> =
        names.filter(|name| !name.is_empty() && !written.iter().any(|leaf| leaf.text == *name)).collect();
    if !left.is_empty() {
        blanks.left_out.push(format!("{}: nothing is written of them but the name", left.join(", ")));
    }
}

/// A cable with all that is its own.
fn cable(tables: &[Rows], blanks: &mut Blanks, name: &Leaf) -> Tree {
    let mut cable = Tree::default();
    let own = tables.iter().filter(|table| is_own(table));
    let row = own.flat_map(|table| table.rows.iter().map(move |row| (table, row)));
    let row = row.into_iter().find(|(table, row)| table.one(row, CABLE).text == name.text);
    cable.put("cable", row.map_or_else(|| name.clone(), |(table, row)| table.one(row, CABLE)));
    match row {
        Some((table, row)) => own_keys(table, row, &mut cable),
        None => cable.put("type", Leaf { text: String::new(), place: name.place.clone() }),
    }
    serves(tables, name, &mut cable);
    let cores = marked(tables, "cables.cores", blanks, Some(&name.text));
    if !cores.entries.is_empty() {
        cable.set("cores", Value::Block(cores));
    }
    let loops = tables.iter().filter(|table| table.has("cables.measured.ohms"));
    let loops: Vec<Tree> = loops
        .flat_map(|table| blocks(table, "cables.measured", |row| table.one(row, CABLE).text == name.text))
        .collect();
    cable.extend("measured", loops);
    cable
}

/// What a cable's own row says.
fn own_keys(table: &Rows, row: &[Leaf], cable: &mut Tree) {
    for key in ["type", "to", "length", "label", "ac"] {
        let path = format!("cables.{key}");
        let leaves: Vec<Leaf> = table.of(row, &path).filter(|leaf| !leaf.text.is_empty()).cloned().collect();
        match leaves.as_slice() {
            [] if key == "type" => cable.put(key, table.one(row, &path)),
            [] => {}
            [one] => cable.put(key, one.clone()),
            _ => cable.set(key, Value::Leaves(leaves)),
        }
    }
}

/// What hangs on a cable.
fn serves(tables: &[Rows], name: &Leaf, cable: &mut Tree) {
    for table in tables.iter().filter(|table| table.has("cables.serves.item")) {
        let rows = table.rows.iter().filter(|row| table.one(row, CABLE).text == name.text);
        for row in rows {
            let item = table.one(row, "cables.serves.item");
            if item.text == "none" {
                cable.put("serves", item);
            } else {
                cable.extend("serves", block(table, row, "cables.serves").into_iter().collect());
            }
        }
    }
}

/// Kept items and items that go, as the rows of served items say.
fn fitted(tables: &[Rows], blanks: &mut Blanks, root: &mut Tree) {
    let mut kept: Vec<Tree> = Vec::new();
    for table in tables.iter().filter(|table| table.has("fit.keep")) {
        for row in &table.rows {
            let (item, stays) = (table.one(row, "cables.serves.item"), table.one(row, "fit.keep"));
            let more = ["fit.reaction", "fit.share", "fit.priority"].map(|key| table.one(row, key));
            match stays.text.as_str() {
                "keep" => kept.push(keep(&item, &stays, &more)),
                "remove" => remove(root, &item, &stays),
                "" => undecided(blanks, &more),
                other => {
                    let message = format!("`{other}` says neither that it stays nor that it goes");
                    blanks.faults.push(CellFault::at(
                        &stays.place,
                        message,
                        "write `keep` or `remove`, or leave it empty",
                    ));
                }
            }
        }
    }
    root.extend("fit", kept);
}

fn keep(item: &Leaf, stays: &Leaf, more: &[Leaf; 3]) -> Tree {
    let mut block = Tree::default();
    // Without a name, the cell that says it stays is the one to look at.
    let place = if item.text.is_empty() { &stays.place } else { &item.place };
    block.put("item", Leaf { text: item.text.clone(), place: place.clone() });
    block.put("keep", Leaf { text: "true".into(), place: stays.place.clone() });
    for (key, leaf) in ["reaction", "share", "priority"].into_iter().zip(more) {
        if !leaf.text.is_empty() {
            block.put(key, leaf.clone());
        }
    }
    block
}

fn remove(root: &mut Tree, item: &Leaf, stays: &Leaf) {
    let place = if item.text.is_empty() { &stays.place } else { &item.place };
    let leaf = Leaf { text: item.text.clone(), place: place.clone() };
    for (name, value) in &mut root.entries {
        if let Value::Leaves(leaves) = value
            && name == "remove"
        {
            return leaves.push(leaf);
        }
    }
    // Where a cell says that nothing goes, the key is there twice, and the check says so.
    root.add("remove", Value::Leaves(vec![leaf]));
}

/// How an item reacts, of which nobody says whether it stays.
fn undecided(blanks: &mut Blanks, more: &[Leaf; 3]) {
    if let Some(leaf) = more.iter().find(|leaf| !leaf.text.is_empty()) {
        let message = "this is written of an item of which nobody says that it stays";
        blanks.faults.push(CellFault::at(&leaf.place, message, "write `keep` in its row, or empty this cell"));
    }
}

/// Other loads, or that there are none.
fn loads(tables: &[Rows], root: &mut Tree) {
    for table in tables.iter().filter(|table| table.has("loads.name")) {
        let blocks = blocks(table, "loads", |_| true);
        let alone = table.rows.iter().map(|row| table.one(row, "loads.name")).find(|name| name.text == "none");
        match alone {
            Some(none) if blocks.len() == 1 => root.put("loads", none),
            _ => root.extend("loads", blocks),
        }
    }
}

/// The rows of a table as the blocks of a list; rows in which nothing of the list is written are left out.
fn blocks(table: &Rows, list: &str, is_ours: impl Fn(&[Leaf]) -> bool) -> Vec<Tree> {
    let rows = table.rows.iter().filter(|row| is_ours(row));
    rows.filter_map(|row| block(table, row, list)).collect()
}

/// A row as a block: what is written, and what must be there.
fn block(table: &Rows, row: &[Leaf], list: &str) -> Option<Tree> {
    let below = format!("{list}.");
    let own = table.keys.iter().filter(|key| key.starts_with(&below));
    let is_blank = own.into_iter().all(|key| table.of(row, key).all(|leaf| leaf.text.is_empty()));
    if is_blank {
        return None;
    }
    let mut block = Tree::default();
    let mut done: Vec<&str> = Vec::new();
    for key in table.keys.iter().filter_map(|key| key.strip_prefix(&below)) {
        if done.contains(&key) {
            continue;
        }
        done.push(key);
        let path = format!("{below}{key}");
        let leaves: Vec<Leaf> = table.of(row, &path).filter(|leaf| !leaf.text.is_empty()).cloned().collect();
        let is_list = matches!(key_of(&path).map(|key| key.shape), Some(crate::check::keys::Shape::List(..)));
        let required = key_of(&path).is_some_and(|key| key.required) && !key.contains('.');
        match leaves.as_slice() {
            [] if required => block.put(key, table.one(row, &path)),
            [] => {}
            [one] if key == "resistors.at" && one.text == "none" => block.put("resistors", one.clone()),
            [one] if !is_list => block.put(key, one.clone()),
            _ => block.set(key, Value::Leaves(leaves)),
        }
    }
    Some(block)
}
