//! The fields of a document, and how a fact is put into them.

use super::cutter::{FORMS, SPELLED, WHOLE};
use super::entry::{Entry, Hit, Kind};
use super::side::Side;
use super::terms::{self, Place};
use tantivy::TantivyDocument;
use tantivy::schema::{Field, IndexRecordOption, STORED, Schema, TextFieldIndexing, TextOptions, Value};

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
    check: Field,
    known: Field,
    /// The side of the supply that the fact belongs to: `+` or `-`.
    pub(super) side: Field,
    /// The same, only where the fact is that side itself.
    pub(super) itself: Field,
    told_side: Field,
    /// The mark as printed, but for case and spaces.
    pub(super) printed: Field,
    /// The mark as it is compared, with its sign.
    pub(super) mark: Field,
    /// The same without the sign.
    pub(super) base: Field,
    /// Other marks that the fact is about, with and without their signs.
    pub(super) related: Field,
    /// On the card itself and its markings: each of its names, whole.
    pub(super) name: Field,
    /// On every fact: the names that keep an answer to its card.
    pub(super) of: Field,
    /// The word that what it does begins with.
    pub(super) head: Field,
    /// The words of what it does.
    pub(super) does: Field,
    /// The words of notes and cautions.
    pub(super) told: Field,
    /// Words that it is found by and that are not shown.
    pub(super) extra: Field,
    /// The words of what its card is called.
    pub(super) context: Field,
    /// Every word as it is spelled, for slips of the finger.
    pub(super) spelled: Field,
    /// Card and mark as printed, for the nearest spelling.
    pub(super) shown: Field,
}

/// The schema with its fields.
pub(super) fn schema() -> (Schema, Fields) {
    let mut builder = Schema::builder();
    let cut = |cutter: &str, option| {
        let indexing = TextFieldIndexing::default();
        let indexing = indexing.set_tokenizer(cutter).set_fieldnorms(false).set_index_option(option);
        TextOptions::default().set_indexing_options(indexing)
    };
    let whole = || cut(WHOLE, IndexRecordOption::Basic);
    let words = || cut(FORMS, IndexRecordOption::WithFreqsAndPositions);
    let fields = Fields {
        card: builder.add_text_field("card", whole() | STORED),
        card_name: builder.add_text_field("card_name", STORED),
        kind: builder.add_text_field("kind", whole() | STORED),
        shown_mark: builder.add_text_field("shown_mark", STORED),
        title: builder.add_text_field("title", STORED),
        text: builder.add_text_field("text", STORED),
        danger: builder.add_text_field("danger", STORED),
        volts: builder.add_text_field("volts", STORED),
        fuse: builder.add_text_field("fuse", STORED),
        check: builder.add_text_field("check", STORED),
        known: builder.add_text_field("known", STORED),
        side: builder.add_text_field("side", whole()),
        itself: builder.add_text_field("itself", whole()),
        told_side: builder.add_text_field("told_side", STORED),
        printed: builder.add_text_field("printed", whole()),
        mark: builder.add_text_field("mark", whole()),
        base: builder.add_text_field("base", whole()),
        related: builder.add_text_field("related", whole()),
        name: builder.add_text_field("name", whole()),
        of: builder.add_text_field("of", whole()),
        head: builder.add_text_field("head", whole()),
        does: builder.add_text_field("does", words()),
        told: builder.add_text_field("told", words()),
        extra: builder.add_text_field("extra", words()),
        context: builder.add_text_field("context", words()),
        spelled: builder.add_text_field("spelled", cut(SPELLED, IndexRecordOption::Basic)),
        shown: builder.add_text_field("shown", whole()),
    };
    (builder.build(), fields)
}

impl Fields {
    /// The document of a fact.
    pub(super) fn document(&self, entry: &Entry) -> TantivyDocument {
        let mut document = TantivyDocument::default();
        self.store(&mut document, &entry.hit);
        if let Some(shown) = &entry.hit.mark {
            document.add_text(self.shown, format!("{}\0{shown}", entry.hit.card));
        }
        for (place, text) in terms::texts(entry) {
            document.add_text(self.of_place(place), text);
        }
        document
    }

    fn of_place(&self, place: Place) -> Field {
        match place {
            Place::Printed => self.printed,
            Place::Mark => self.mark,
            Place::Base => self.base,
            Place::Related => self.related,
            Place::Name => self.name,
            Place::Of => self.of,
            Place::Head => self.head,
            Place::Does => self.does,
            Place::Told => self.told,
            Place::Extra => self.extra,
            Place::Context => self.context,
            Place::Spelled => self.spelled,
        }
    }

    fn store(&self, document: &mut TantivyDocument, hit: &Hit) {
        document.add_text(self.card, &hit.card);
        document.add_text(self.card_name, &hit.card_name);
        document.add_text(self.kind, hit.kind.word());
        document.add_text(self.title, &hit.title);
        document.add_text(self.text, &hit.text);
        if let Some(side) = hit.side {
            document.add_text(self.side, side.sign().symbol().to_string());
            document.add_text(self.told_side, side.told());
            if let Some(sign) = side.itself() {
                document.add_text(self.itself, sign.symbol().to_string());
            }
        }
        let sometimes = [
            (self.shown_mark, &hit.mark),
            (self.danger, &hit.danger),
            (self.volts, &hit.volts),
            (self.fuse, &hit.fuse),
            (self.check, &hit.check),
            (self.known, &hit.known),
        ];
        for (field, value) in sometimes {
            if let Some(value) = value {
                document.add_text(field, value);
            }
        }
    }

    /// The hit that a document stores; nothing when it is not one of ours.
    pub(super) fn hit(&self, document: &TantivyDocument) -> Option<Hit> {
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
            check: get(self.check),
            known: get(self.known),
            side: get(self.told_side).and_then(|told| Side::from_told(&told)),
            is_opposite: false,
            score: 0.0,
        })
    }
}
