//! Rewrites events one by one: the page is written from an event before the next one is rewritten.

use super::figures::Figures;
use super::footnotes::{Notes, Placed, details, words_of_image};
use super::links::allowed;
use super::photos::Photos;
use super::sections::Sections;
use super::table::Table;
use super::ticks::{Ticks, box_at};
use super::{Heading, Page};
use crate::render::escape;
use pulldown_cmark::{CowStr, Event, HeadingLevel, Tag, TagEnd, html};
use std::collections::{BTreeMap, VecDeque};
use std::ops::Range;

/// After so many characters without a space a word may break.
const LONG_WORD: usize = 18;

/// Rewrites events one by one.
pub(super) struct Writer<'a> {
    markdown: &'a str,
    notes: Notes<'a>,
    /// What became of the last event.
    out: VecDeque<Event<'a>>,
    sections: Sections,
    headings: Vec<Heading>,
    ids: BTreeMap<String, usize>,
    section: String,
    title: String,
    table: Option<Table>,
    pointed: Vec<String>,
    quotes: usize,
    links: Vec<bool>,
    ticks: Ticks,
    figures: Figures<'a>,
    in_figure: bool,
    photos: Photos<'a>,
    in_photo: bool,
    skip_to: usize,
    run: usize,
}

impl<'a> Writer<'a> {
    /// A writer at the beginning of a page.
    pub(super) fn new(markdown: &'a str, notes: Notes<'a>, figures: Figures<'a>, photos: Photos<'a>) -> Self {
        Self {
            markdown,
            notes,
            out: VecDeque::new(),
            sections: Sections::default(),
            headings: Vec::new(),
            ids: BTreeMap::new(),
            section: String::new(),
            title: String::new(),
            table: None,
            pointed: Vec::new(),
            quotes: 0,
            links: Vec::new(),
            ticks: Ticks::default(),
            figures,
            in_figure: false,
            photos,
            in_photo: false,
            skip_to: 0,
            run: 0,
        }
    }

    /// Takes one event; `ahead` are those that follow.
    fn take(&mut self, event: Event<'a>, range: &Range<usize>, ahead: &[Placed<'a>]) {
        if self.in_figure {
            self.in_figure = !matches!(event, Event::End(TagEnd::Paragraph));
            return;
        }
        if self.in_photo {
            self.in_photo = !matches!(event, Event::End(TagEnd::Image));
            return;
        }
        if let Some(picture) = self.photos.take(&event, ahead) {
            self.in_photo = true;
            self.out.push_back(Event::InlineHtml(picture.into()));
            return;
        }
        if self.quotes == 0
            && matches!(event, Event::Start(Tag::Paragraph))
            && let Some(figure) = self.figures.take(ahead)
        {
            self.in_figure = true;
            return self.raw(figure);
        }
        let Some(event) = self.past_box(words_of_image(event), range) else { return };
        if self.quotes == 0
            && let Some(end) = box_at(self.markdown, &event, range)
        {
            self.tick_in_cell();
            self.skip_to = end;
            if let Event::Text(text) = &event
                && let Some(rest) = text.get(3..).filter(|rest| !rest.is_empty())
            {
                self.out.push_back(Event::Text(rest.to_string().into()));
            }
            return;
        }
        match event {
            Event::Start(tag) => {
                self.run = 0;
                self.start(tag, ahead);
            }
            Event::End(tag) => {
                self.run = 0;
                self.end(tag);
            }
            Event::TaskListMarker(_) => self.tick_in_list(ahead),
            Event::FootnoteReference(label) => self.point(&label),
            Event::Text(text) => self.text(text),
            other => self.out.push_back(other),
        }
    }

    /// An event without the part that a box has used up already.
    fn past_box(&self, event: Event<'a>, range: &Range<usize>) -> Option<Event<'a>> {
        if range.start >= self.skip_to {
            return Some(event);
        }
        match event {
            Event::Text(_) if range.end <= self.skip_to => None,
            Event::Text(text) => {
                let rest = text.get(self.skip_to - range.start..).unwrap_or_default().to_string();
                Some(Event::Text(rest.into()))
            }
            other => Some(other),
        }
    }

    fn text(&mut self, text: CowStr<'a>) {
        if let Some(table) = &mut self.table {
            table.words.push_str(&text);
        }
        self.broken(text);
    }

    /// Text, in which a very long word may break: so that one can't push a table off the page. A word may come in
    /// several events.
    fn broken(&mut self, text: CowStr<'a>) {
        if self.run + text.len() <= LONG_WORD {
            let last = text.chars().rev().take_while(|c| !c.is_whitespace()).map(char::len_utf8);
            let (count, bytes) = last.fold((0, 0), |(count, bytes), len| (count + 1, bytes + len));
            self.run = if bytes == text.len() { self.run + count } else { count };
            self.out.push_back(Event::Text(text));
            return;
        }
        let mut run = self.run;
        let breaks = text.chars().any(|c| {
            run = if c.is_whitespace() { 0 } else { run + 1 };
            run > LONG_WORD
        });
        if !breaks {
            self.run = run;
            self.out.push_back(Event::Text(text));
            return;
        }
        let mut part = String::new();
        for c in text.chars() {
            self.run = if c.is_whitespace() { 0 } else { self.run + 1 };
            if self.run > LONG_WORD {
                self.out.push_back(Event::Text(std::mem::take(&mut part).into()));
                self.out.push_back(Event::InlineHtml("<wbr>".into()));
                self.run = 1;
            }
            part.push(c);
        }
        self.out.push_back(Event::Text(part.into()));
    }

    fn start(&mut self, tag: Tag<'a>, ahead: &[Placed<'a>]) {
        match tag {
            Tag::Heading { .. } if self.quotes > 0 => {
                self.out.push_back(Event::Start(Tag::Paragraph));
                self.out.push_back(Event::Start(Tag::Strong));
            }
            Tag::Heading { level, .. } => self.heading(level, ahead),
            Tag::Table(columns) => {
                self.raw(Table::open(&self.title));
                self.table = Some(Table { columns: columns.len(), ..Table::default() });
                self.out.push_back(Event::Start(Tag::Table(columns)));
                self.raw(Table::columns(ahead));
            }
            Tag::TableRow => {
                if let Some(table) = &mut self.table {
                    table.words.clear();
                }
                self.out.push_back(Event::Start(Tag::TableRow));
            }
            Tag::TableCell => {
                if let Some(table) = &mut self.table {
                    table.words.push(' ');
                }
                self.out.push_back(Event::Start(Tag::TableCell));
            }
            Tag::BlockQuote(kind) => {
                self.quotes += 1;
                self.out.push_back(Event::Start(Tag::BlockQuote(kind)));
            }
            Tag::Link { .. } => {
                let keep = allowed(&tag);
                self.links.push(keep);
                if keep {
                    self.out.push_back(Event::Start(tag));
                }
            }
            tag => self.out.push_back(Event::Start(tag)),
        }
    }

    fn end(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::Heading(_) if self.quotes > 0 => {
                self.out.push_back(Event::End(TagEnd::Strong));
                self.out.push_back(Event::End(TagEnd::Paragraph));
            }
            TagEnd::Table => {
                self.out.push_back(Event::End(TagEnd::Table));
                self.raw(Table::CLOSE.to_string());
                self.table = None;
            }
            TagEnd::TableRow => {
                self.out.push_back(Event::End(TagEnd::TableRow));
                self.opening_row();
            }
            TagEnd::BlockQuote(kind) => {
                self.quotes = self.quotes.saturating_sub(1);
                self.out.push_back(Event::End(TagEnd::BlockQuote(kind)));
            }
            TagEnd::Link => {
                if self.links.pop().unwrap_or(false) {
                    self.out.push_back(Event::End(TagEnd::Link));
                }
            }
            TagEnd::Item => {
                self.opened_here();
                self.out.push_back(Event::End(TagEnd::Item));
            }
            TagEnd::Paragraph => {
                self.out.push_back(Event::End(TagEnd::Paragraph));
                self.opened_here();
            }
            tag => self.out.push_back(Event::End(tag)),
        }
    }

    /// Our own HTML, made of escaped parts.
    fn raw(&mut self, html: String) {
        self.out.push_back(Event::Html(html.into()));
    }

    /// A heading with an id of its own.
    fn heading(&mut self, level: HeadingLevel, ahead: &[Placed<'a>]) {
        let title = words(ahead, |e| matches!(e, Event::End(TagEnd::Heading(_))));
        let base = escape::slug(&title);
        let base = if base.is_empty() { "section".to_string() } else { base };
        let count = self.ids.entry(base.clone()).or_insert(0);
        *count += 1;
        let id = if *count == 1 { base } else { format!("{base}-{count}") };
        self.section.clone_from(&id);
        self.title.clone_from(&title);
        let begins = self.sections.begins(level, &id);
        self.out.extend(begins.map(|html| Event::Html(html.into())));
        if level == HeadingLevel::H2 {
            self.headings.push(Heading { id: id.clone(), title });
        }
        let tag = Tag::Heading { level, id: Some(id.into()), classes: Vec::new(), attrs: Vec::new() };
        self.out.push_back(Event::Start(tag));
    }

    fn tick_in_cell(&mut self) {
        let what = self.table.as_ref().map(|table| table.words.as_str()).unwrap_or_default();
        let html = self.ticks.tick(&self.section, what);
        self.out.push_back(Event::InlineHtml(html.into()));
    }

    fn tick_in_list(&mut self, ahead: &[Placed<'a>]) {
        let what =
            words(ahead, |e| matches!(e, Event::End(TagEnd::Item | TagEnd::Paragraph) | Event::Start(Tag::List(_))));
        let html = self.ticks.tick(&self.section, &what);
        self.out.push_back(Event::InlineHtml(html.into()));
    }

    /// Notes which footnote is pointed to here.
    fn point(&mut self, label: &str) {
        let list = self.table.as_mut().map_or(&mut self.pointed, |table| &mut table.pointed);
        if !list.iter().any(|l| l == label) {
            list.push(label.to_string());
        }
    }

    /// The opening row under a table row that points to footnotes.
    fn opening_row(&mut self) {
        let Some(table) = &mut self.table else { return };
        let labels = std::mem::take(&mut table.pointed);
        let details: String = labels.iter().filter_map(|l| self.notes.get(l)).map(|n| details(n)).collect();
        if !details.is_empty() {
            let row = table.opening_row(&details);
            self.raw(row);
        }
    }

    /// The opening parts for footnotes pointed to outside tables.
    fn opened_here(&mut self) {
        if self.table.is_some() || self.pointed.is_empty() {
            return;
        }
        let labels = std::mem::take(&mut self.pointed);
        let details: String = labels.iter().filter_map(|l| self.notes.get(l)).map(|n| details(n)).collect();
        self.raw(details);
    }

    /// The page that these events become.
    pub(super) fn page(mut self, events: &mut [Placed<'a>]) -> Page {
        let (mut top, mut body) = (String::new(), String::with_capacity(4 * self.markdown.len()));
        let mut rewritten = Rewritten { writer: &mut self, left: events, until_section: true };
        html::push_html(&mut top, &mut rewritten);
        rewritten.until_section = false;
        html::push_html(&mut body, rewritten);
        body.push_str(&self.sections.end());
        Page { top, body, headings: self.headings }
    }
}

/// Events as the page has them.
struct Rewritten<'w, 'a, 'e> {
    writer: &'w mut Writer<'a>,
    left: &'e mut [Placed<'a>],
    /// Whether only those are given that stand before the first section.
    until_section: bool,
}

impl<'a> Iterator for Rewritten<'_, 'a, '_> {
    type Item = Event<'a>;

    fn next(&mut self) -> Option<Event<'a>> {
        while !(self.until_section && self.writer.sections.has_begun) {
            if let Some(event) = self.writer.out.pop_front() {
                return Some(event);
            }
            let ((event, range), ahead) = std::mem::take(&mut self.left).split_first_mut()?;
            self.writer.take(std::mem::replace(event, Event::Rule), range, ahead);
            self.left = ahead;
        }
        None
    }
}

/// The words of the events up to one that ends them.
fn words(ahead: &[Placed], end: impl Fn(&Event) -> bool) -> String {
    let mut words = String::new();
    for (event, _) in ahead {
        match event {
            e if end(e) => break,
            Event::Text(text) | Event::Code(text) => words.push_str(text),
            Event::SoftBreak | Event::HardBreak => words.push(' '),
            _ => {}
        }
    }
    words
}
