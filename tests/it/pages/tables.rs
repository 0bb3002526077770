//! Tables read back: from Markdown by a Markdown reader, from HTML by its tags.

use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};

/// A table: rows of cells, the head first.
pub(crate) type Table = Vec<Vec<String>>;

/// Every table of a Markdown text, with boxes left out.
pub(crate) fn of_markdown(markdown: &str) -> Vec<Table> {
    let options = Options::ENABLE_TABLES | Options::ENABLE_FOOTNOTES | Options::ENABLE_TASKLISTS;
    let mut tables: Vec<Table> = Vec::new();
    let mut cell: Option<String> = None;
    for event in Parser::new_ext(markdown, options) {
        match event {
            Event::Start(Tag::Table(_)) => tables.push(Vec::new()),
            Event::Start(Tag::TableHead | Tag::TableRow) => tables.last_mut().expect("in a table").push(Vec::new()),
            Event::Start(Tag::TableCell) => cell = Some(String::new()),
            Event::End(TagEnd::TableCell) => {
                let text = cell.take().expect("in a cell");
                tables.last_mut().and_then(|t| t.last_mut()).expect("in a row").push(text.trim().to_string());
            }
            Event::Text(text) | Event::Code(text) | Event::Html(text) | Event::InlineHtml(text) => {
                if let Some(cell) = &mut cell {
                    cell.push_str(&text);
                }
            }
            _ => {}
        }
    }
    for cell in tables.iter_mut().flatten().flatten() {
        if cell == "[ ]" {
            cell.clear();
        }
    }
    tables
}

/// Every table of a page, without the opening rows.
pub(crate) fn of_html(html: &str) -> Vec<Table> {
    html.split("<table>").skip(1).map(|rest| rows(rest.split("</table>").next().unwrap_or_default())).collect()
}

fn rows(table: &str) -> Table {
    let parts = table.split("<tr").skip(1).filter(|row| !row.starts_with(" class=\"why\""));
    parts.map(cells).collect()
}

fn cells(row: &str) -> Vec<String> {
    let ends = row.replace("</th>", "</td>").replace("<th>", "<td>");
    let parts: Vec<&str> = ends.split("<td>").skip(1).collect();
    parts.iter().map(|part| words(part.split("</td>").next().unwrap_or_default())).collect()
}

/// The words of a piece of HTML.
pub(crate) fn words(html: &str) -> String {
    let mut out = String::new();
    let mut rest = html;
    while let Some(at) = rest.find('<') {
        out.push_str(&rest[..at]);
        rest = rest[at..].split_once('>').map_or("", |(_, after)| after);
    }
    out.push_str(rest);
    let plain = out.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&#39;", "'");
    plain.replace("&amp;", "&").trim().to_string()
}

/// The table whose head begins with these words.
pub(crate) fn headed<'t>(tables: &'t [Table], head: &[&str]) -> Vec<&'t Table> {
    tables.iter().filter(|t| t.first().is_some_and(|row| row.iter().zip(head).all(|(a, b)| a == b))).collect()
}
