//! An index that outlives the process: what of it must be put down, how it comes back, how single cards of it are
//! changed.

use super::cutter::cutters;
use super::facts;
use super::index::{Index, MEMORY, SearchFault};
use super::lexicon::Lexicon;
use super::schema::schema;
use super::shelf::{IsWhole, Shelf};
use crate::model::Library;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use tantivy::directory::Directory as _;
use tantivy::indexer::NoMergePolicy;
use tantivy::{IndexWriter, ReloadPolicy, TantivyError, Term};

/// The files of an index.
#[derive(Debug, Clone, Default)]
pub struct Image {
    /// Small ones that say which of the others belong to it. They change with every change of the index.
    pub heads: BTreeMap<String, Vec<u8>>,
    /// Large ones that are not in the folder yet. Their names are new, and they never change.
    pub new: BTreeMap<String, tantivy::directory::OwnedBytes>,
    /// The names of all that it needs in the folder.
    pub needed: BTreeSet<String>,
}

impl Index {
    /// Opens the index whose files lie in `folder`, but for the small ones. Each of them is looked at with its own of
    /// `looks` before anything of it is read, and only what is read: a damaged file may be found out by a question.
    ///
    /// # Errors
    /// When a file is missing, damaged or can't be read.
    pub fn open(
        folder: &Path,
        looks: BTreeMap<String, IsWhole>,
        heads: BTreeMap<String, Vec<u8>>,
        lexicon: Lexicon,
    ) -> Result<Self, SearchFault> {
        let shelf = Shelf::over(folder, looks, heads).map_err(TantivyError::from)?;
        let index = tantivy::Index::open(shelf.clone())?;
        let (right, fields) = schema();
        if index.schema() != right {
            return Err(SearchFault::new("it was made by another version"));
        }
        Self::on(&index, shelf, fields, lexicon)
    }

    /// The same index with the facts of some cards taken from `library`; a card that is not in it is taken out.
    ///
    /// # Errors
    /// When tantivy can't write its index.
    pub fn with_cards(
        &self,
        cards: &BTreeSet<String>,
        library: &Library,
        lexicon: Lexicon,
    ) -> Result<Self, SearchFault> {
        let (_, fields) = schema();
        let mut index = tantivy::Index::open(self.shelf.clone())?;
        index.set_tokenizers(cutters(&lexicon.rings));
        let mut writer: IndexWriter = index.writer_with_num_threads(1, MEMORY)?;
        writer.set_merge_policy(Box::new(NoMergePolicy));
        for card in cards {
            writer.delete_term(Term::from_field_text(fields.card, card));
        }
        for entry in facts::of(library) {
            if cards.contains(&entry.hit.card) {
                writer.add_document(fields.document(&entry))?;
            }
        }
        writer.commit()?;
        writer.wait_merging_threads()?;
        Self::on(&index, self.shelf.clone(), fields, lexicon)
    }

    /// What must be put down to have it again.
    ///
    /// # Errors
    /// When tantivy can't read its own list of files.
    pub fn image(&self) -> Result<Image, SearchFault> {
        let files = self.searcher.index().load_metas()?.list_segment_files();
        let there = files.into_iter().filter(|path| self.shelf.exists(path).unwrap_or(false));
        let needed = there.map(|path| path.to_string_lossy().into_owned()).collect();
        let mut image = Image { needed, ..Image::default() };
        for (name, bytes) in self.shelf.written() {
            if is_head(&name) {
                image.heads.insert(name, bytes.as_slice().to_vec());
            } else if image.needed.contains(&name) {
                image.new.insert(name, bytes);
            }
        }
        Ok(image)
    }

    /// Reads an index without a watch on its files: it is asked and closed.
    pub(super) fn on(
        index: &tantivy::Index,
        shelf: Shelf,
        fields: super::schema::Fields,
        lexicon: Lexicon,
    ) -> Result<Self, SearchFault> {
        let reader = index.reader_builder().reload_policy(ReloadPolicy::Manual).try_into()?;
        Ok(Self::new(reader.searcher(), shelf, fields, lexicon))
    }
}

/// The files that tantivy writes anew with each change: which segments there are, which files are its own.
fn is_head(name: &str) -> bool {
    matches!(name, "meta.json" | ".managed.json")
}
