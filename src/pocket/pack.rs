//! A job pack as it was written, for the page: its words and pictures, and the rows of its test sheet with what must be
//! read.

use crate::pack::PictureFile;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// A pack.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pack {
    /// The survey's id.
    pub survey: String,
    /// Its pages as Markdown.
    pub markdown: String,
    /// Its stages with their readings, as JSON.
    pub rows: String,
    /// The pictures and drawings that the Markdown shows, by their addresses.
    pub pictures: BTreeMap<String, PictureFile>,
}

impl Pack {
    /// A pack from its `pack.json`, its `pack.md` and its pictures.
    ///
    /// # Errors
    /// When they are not what `wirelore pack` writes; in words.
    pub fn read(json: &[u8], markdown: String, pictures: BTreeMap<String, PictureFile>) -> Result<Self, String> {
        let whole: Value = serde_json::from_slice(json).map_err(|error| format!("it is no JSON: {error}"))?;
        let survey = whole.get("survey").and_then(Value::as_str).filter(|id| !id.is_empty());
        let survey = survey.ok_or("it says no `survey`")?.to_string();
        let stages = whole.get("test_sheet").and_then(Value::as_array).ok_or("it has no `test_sheet`")?;
        let rows =
            stages.iter().map(stage).collect::<Option<Vec<_>>>().ok_or("a stage of its `test_sheet` is not whole")?;
        Ok(Self { survey, markdown, rows: json!(rows).to_string(), pictures })
    }
}

/// A stage with what the page shows of its rows.
fn stage(stage: &Value) -> Option<Value> {
    let rows = stage.get("rows")?.as_array()?;
    let rows = rows.iter().map(row).collect::<Option<Vec<_>>>()?;
    Some(json!({ "title": stage.get("title")?.as_str()?, "how": stage.get("how")?.as_array()?, "rows": rows }))
}

fn row(row: &Value) -> Option<Value> {
    let text = |key: &str| row.get(key)?.as_str();
    let must = row.get("must")?;
    let number = |key: &str| must.get(key).filter(|value| value.is_number()).cloned().unwrap_or(Value::Null);
    Some(json!({
        "no": text("no")?,
        "what": text("what")?,
        "state": text("state")?,
        "probes": text("probes")?,
        "reports": text("reports")?,
        "warn": text("warn")?,
        "must": must.get("text")?.as_str()?,
        "unit": must.get("unit")?.as_str()?,
        "blank": must.get("blank")?.as_str()?,
        "least": number("least"),
        "most": number("most"),
        "open": must.get("open").and_then(Value::as_bool).unwrap_or(false),
    }))
}
