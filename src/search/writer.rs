//! Makes an index in parts: each holds the facts of some cards, and can be made beside the others.

use super::cutter::cutters;
use super::facts;
use super::index::{Index, MEMORY, SearchFault};
use super::lexicon::Lexicon;
use super::schema::{Fields, schema};
use super::shelf::Shelf;
use crate::model::Library;
use serde_json::Value;
use std::path::Path;
use tantivy::directory::{Directory as _, OwnedBytes};
use tantivy::{SingleSegmentIndexWriter, TantivyError};

/// tantivy's list of an index's segments.
const SEGMENTS: &str = "meta.json";
/// tantivy's list of an index's files.
const FILES: &str = ".managed.json";

/// Writes a part of an index.
pub struct Writer {
    inner: SingleSegmentIndexWriter,
    shelf: Shelf,
    fields: Fields,
}

/// A part of an index: one segment.
#[derive(Debug)]
pub struct Part(Shelf);

impl Writer {
    /// A part without any facts, of an index with these rings of words.
    ///
    /// # Errors
    /// When tantivy can't make an index.
    pub fn new(rings: &[Vec<String>]) -> Result<Self, SearchFault> {
        let (schema, fields) = schema();
        let shelf = Shelf::default();
        let builder = tantivy::Index::builder().schema(schema).tokenizers(cutters(rings));
        let inner = builder.single_segment_index_writer(shelf.clone(), MEMORY)?;
        Ok(Self { inner, shelf, fields })
    }

    /// Adds every fact of some cards. Cards come in the order of their ids, from one library to the next too.
    ///
    /// # Errors
    /// When tantivy can't write its index.
    pub fn add(&mut self, library: &Library) -> Result<(), SearchFault> {
        for entry in facts::of(library) {
            self.inner.add_document(self.fields.document(&entry))?;
        }
        Ok(())
    }

    /// The part.
    ///
    /// # Errors
    /// When tantivy can't write its index.
    pub fn finish(self) -> Result<Part, SearchFault> {
        self.inner.finalize()?;
        Ok(Part(self.shelf))
    }
}

impl Index {
    /// The index of these parts, with the lexicon of all their cards.
    ///
    /// # Errors
    /// When there is none, or tantivy can't read what it wrote.
    pub fn of(parts: Vec<Part>, lexicon: Lexicon) -> Result<Self, SearchFault> {
        let (_, fields) = schema();
        let mut shelves = parts.into_iter().map(|Part(shelf)| shelf);
        let shelf = shelves.next().ok_or_else(|| SearchFault::new("it has no parts"))?;
        for other in shelves {
            join(&shelf, &other)?;
        }
        Self::on(&tantivy::Index::open(shelf.clone())?, shelf, fields, lexicon)
    }
}

/// Takes the segments of another shelf into a shelf.
fn join(shelf: &Shelf, other: &Shelf) -> Result<(), SearchFault> {
    let mut segments = list(shelf, SEGMENTS)?;
    let more = list(other, SEGMENTS)?;
    append(segments.get_mut("segments"), more.get("segments"))?;
    let mut files = list(shelf, FILES)?;
    append(Some(&mut files), Some(&list(other, FILES)?))?;
    for (name, bytes) in other.written() {
        shelf.put(&name, bytes);
    }
    for (name, value) in [(SEGMENTS, segments), (FILES, files)] {
        shelf.put(name, OwnedBytes::new(value.to_string().into_bytes()));
    }
    Ok(())
}

fn list(shelf: &Shelf, name: &str) -> Result<Value, SearchFault> {
    let bytes = shelf.atomic_read(Path::new(name)).map_err(TantivyError::from)?;
    serde_json::from_slice(&bytes).map_err(|error| SearchFault::new(&error.to_string()))
}

fn append(to: Option<&mut Value>, from: Option<&Value>) -> Result<(), SearchFault> {
    match (to, from) {
        (Some(Value::Array(to)), Some(Value::Array(from))) => {
            to.extend(from.iter().cloned());
            Ok(())
        }
        _ => Err(SearchFault::new("its list of segments is not as it was written")),
    }
}
