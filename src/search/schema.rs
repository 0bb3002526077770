//! The fields of a document, and how a fact is put into them.

use super::entry::{Entry, Hit, Kind};
use super::lexicon::Lexicon;
use super::token::{Word, fold, split_sign, stem, words};
use tantivy::TantivyDocument;
use tantivy::schema::{Field, IndexRecordOption, STORED, STRING, Schema, TextFieldIndexing, TextOptions, Value};

/// The most words that a ring's word, a mark or a name is looked for across.
pub(super) const LONGEST: usize = 3;

/// Where everything is kept.
#[derive(Debug, Clone, Copy)]
pub(super) struct Fields {
    pub(super) card: Field,
    card_name: Field,
    pub(super) kind: Field,
    shown_mark: Field,
    title: Field,
    text: Field,
    danger: Field,
    volts: Field,
    fuse: Field,
    known: Field,
    /// The mark, folded.
    pub(super) mark: Field,
    /// The mark without its sign.
    pub(super) base: Field,
    /// Other marks that the fact is about, with and without their signs.
    pub(super) related: Field,
    /// Each name of a card, whole.
    pub(super) name: Field,
    /// The words of the card's names, on every fact of it.
    pub(super) context: Field,
    /// The words that are shown.
    pub(super) words: Field,
    /// The words that are not.
    pub(super) extra: Field,
    /// Card and mark as printed, for the nearest spelling.
    pub(super) printed: Field,
}

/// The schema with its fields.
pub(super) fn schema() -> (Schema, Fields) {
    let mut builder = Schema::builder();
    let tokens = || {
        let indexing =
            TextFieldIndexing::default().set_tokenizer("whitespace").set_index_option(IndexRecordOption::WithFreqs);
        TextOptions::default().set_indexing_options(indexing)
    };
    let fields = Fields {
        card: builder.add_text_field("card", STRING | STORED),
        card_name: builder.add_text_field("card_name", STORED),
        kind: builder.add_text_field("kind", STRING | STORED),
        shown_mark: builder.add_text_field("shown_mark", STORED),
        title: builder.add_text_field("title", STORED),
        text: builder.add_text_field("text", STORED),
        danger: builder.add_text_field("danger", STORED),
        volts: builder.add_text_field("volts", STORED),
        fuse: builder.add_text_field("fuse", STORED),
        known: builder.add_text_field("known", STORED),
        mark: builder.add_text_field("mark", STRING),
        base: builder.add_text_field("base", STRING),
        related: builder.add_text_field("related", STRING),
        name: builder.add_text_field("name", STRING),
        context: builder.add_text_field("context", tokens()),
        words: builder.add_text_field("words", tokens()),
        extra: builder.add_text_field("extra", tokens()),
        printed: builder.add_text_field("printed", STRING),
    };
    (builder.build(), fields)
}

impl Fields {
    /// The document of a fact.
    pub(super) fn document(&self, entry: &Entry, lexicon: &Lexicon) -> TantivyDocument {
        let mut document = TantivyDocument::default();
        self.store(&mut document, &entry.hit);
        if let Some(mark) = &entry.hit.mark {
            let folded = fold(mark);
            document.add_text(self.base, split_sign(&folded).map_or(folded.as_str(), |(base, _)| base));
            document.add_text(self.mark, &folded);
            document.add_text(self.printed, format!("{}\0{mark}", entry.hit.card));
        }
        for mark in &entry.related {
            let folded = fold(mark);
            if let Some((base, _)) = split_sign(&folded) {
                document.add_text(self.related, base);
            }
            document.add_text(self.related, &folded);
        }
        for name in &entry.names {
            document.add_text(self.name, fold(name));
        }
        document.add_text(self.context, tokens(&entry.context, lexicon));
        document.add_text(self.words, tokens(&format!("{} {}", entry.hit.kind.word(), entry.hit.text), lexicon));
        document.add_text(self.extra, tokens(&entry.extra, lexicon));
        document
    }

    fn store(&self, document: &mut TantivyDocument, hit: &Hit) {
        document.add_text(self.card, &hit.card);
        document.add_text(self.card_name, &hit.card_name);
        document.add_text(self.kind, hit.kind.word());
        document.add_text(self.title, &hit.title);
        document.add_text(self.text, &hit.text);
        let sometimes = [
            (self.shown_mark, &hit.mark),
            (self.danger, &hit.danger),
            (self.volts, &hit.volts),
            (self.fuse, &hit.fuse),
            (self.known, &hit.known),
        ];
        for (field, value) in sometimes {
            if let Some(value) = value {
                document.add_text(field, value);
            }
        }
    }

    /// The hit that a document stores; nothing when it is not one of ours.
    pub(super) fn hit(&self, document: &TantivyDocument, score: f32) -> Option<Hit> {
        let get = |field| document.get_first(field).and_then(|v| v.as_str()).map(str::to_string);
        Some(Hit {
            card: get(self.card)?,
            card_name: get(self.card_name)?,
            kind: Kind::of(&get(self.kind)?)?,
            mark: get(self.shown_mark),
            title: get(self.title)?,
            text: get(self.text)?,
            danger: get(self.danger),
            volts: get(self.volts),
            fuse: get(self.fuse),
            known: get(self.known),
            score,
        })
    }
}

/// The tokens of a text, a space between each: every word whole and in parts, and neighbours that a ring writes
/// as one (`hold off`).
fn tokens(text: &str, lexicon: &Lexicon) -> String {
    let words = words(text);
    let mut tokens: Vec<String> = Vec::new();
    for (at, word) in words.iter().enumerate() {
        tokens.push(stem(&word.whole));
        tokens.extend(word.parts.iter().map(|p| stem(p)));
        tokens.extend(joined(&words, at).map(|(_, whole)| whole).filter(|whole| lexicon.has(whole)));
    }
    tokens.join(" ")
}

/// The word at `at` and its neighbours written as one, two words and more, with how many they are.
pub(super) fn joined(words: &[Word], at: usize) -> impl Iterator<Item = (usize, String)> {
    (2..=LONGEST).filter_map(move |count| {
        let together = words.get(at..at + count)?;
        let text: Vec<&str> = together.iter().map(|w| w.whole.as_str()).collect();
        Some((count, fold(&text.join(" "))))
    })
}
