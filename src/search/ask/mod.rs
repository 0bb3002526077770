//! What a question asks for: cards that it names, things that it asks about, and a side of the supply.

mod token;
mod words;

use super::mark::{self, Key, Sign};
use super::text::{compact, name_key, pieces};
use super::vocabulary::Vocabulary;
use tantivy::TantivyError;
use token::{Token, tokens};
pub(super) use words::{FILLERS, KINDS, WEAK, kind};
use words::{is_filler, is_weak};

/// The most words that a mark, a name or a phrase is looked for across.
const WIDEST: usize = 5;

/// A question, understood.
#[derive(Debug, Clone, Default)]
pub(super) struct Asked {
    /// The names of cards that keep the answer to them.
    pub(super) names: Vec<String>,
    /// What it asks about.
    pub(super) things: Vec<Thing>,
    /// The words that were read as others, as typed and as read.
    pub(super) read_as: Vec<(String, Vec<String>)>,
}

/// One thing that a question asks about: a word, or words that belong together.
#[derive(Debug, Clone)]
pub(super) struct Thing {
    /// As it was typed.
    pub(super) typed: String,
    /// The ways to read it, without its sign; empty when it is a sign alone.
    pub(super) texts: Vec<String>,
    /// Its words, where it is more than one: it may also be found word by word.
    pub(super) words: Vec<String>,
    /// Its sign.
    pub(super) sign: Option<Sign>,
    /// Whether the sign must be found as well: it was said of something that is no mark.
    pub(super) must_have_sign: bool,
    /// Whether it need not be found.
    pub(super) is_weak: bool,
    /// Whether it is not as it was typed.
    pub(super) is_slip: bool,
    /// The name that it is too, of a card.
    pub(super) name: Option<String>,
}

impl Asked {
    /// The one sign that is asked for; none when both are.
    pub(super) fn side(&self) -> Option<Sign> {
        let mut signs = self.things.iter().filter_map(|thing| thing.sign);
        let first = signs.next()?;
        signs.all(|sign| sign == first).then_some(first)
    }

    /// The marks that are names of cards too, where something else is asked for as well.
    pub(super) fn also_names(&self) -> Vec<String> {
        let strong = || self.things.iter().filter(|thing| !thing.is_weak);
        let is_name = |thing: &&Thing| thing.sign.is_none() && thing.name.is_some();
        let names: Vec<String> = strong().filter(is_name).filter_map(|thing| thing.name.clone()).collect();
        if names.len() < strong().count() { names } else { Vec::new() }
    }

    /// The words that asked for that sign, as typed.
    pub(super) fn signed(&self) -> Option<&str> {
        self.things.iter().find(|thing| thing.sign.is_some()).map(|thing| thing.typed.as_str())
    }
}

/// Understands a question: any text at all. These `names` are taken as names of cards, even where they are marks too.
pub(super) fn ask(vocabulary: &Vocabulary<'_>, question: &str, names: Vec<String>) -> Result<Asked, TantivyError> {
    let tokens = tokens(vocabulary, question)?;
    let mut asked = Asked { names, ..Asked::default() };
    for token in tokens.iter().filter(|token| token.is_slip) {
        asked.read_as.push((token.typed.clone(), token.texts.clone()));
    }
    let mut at = 0;
    while let Some(rest) = tokens.get(at..).filter(|rest| !rest.is_empty()) {
        let window = widest(vocabulary, rest)?;
        at += window.len();
        take(vocabulary, &mut asked, window, tokens.len() <= 2)?;
    }
    if asked.things.iter().all(|thing| thing.is_weak) && asked.names.is_empty() {
        for thing in &mut asked.things {
            thing.is_weak = false;
        }
    }
    Ok(asked)
}

/// The longest run of words at the front that is one mark, one name or one phrase; else the first word.
fn widest<'a>(vocabulary: &Vocabulary<'_>, rest: &'a [Token]) -> Result<&'a [Token], TantivyError> {
    for width in (2..=WIDEST.min(rest.len())).rev() {
        let Some(window) = rest.get(..width) else { continue };
        if belongs_together(vocabulary, window)? {
            return Ok(window);
        }
    }
    Ok(rest.get(..1).unwrap_or(rest))
}

fn belongs_together(vocabulary: &Vocabulary<'_>, window: &[Token]) -> Result<bool, TantivyError> {
    let fields = vocabulary.fields;
    let text = joined(window);
    let name = name_key(&text);
    let is_text = window.iter().all(|token| token.said.is_none());
    if is_text && (vocabulary.has(fields.of, &name)? || vocabulary.has(fields.name, &name)?) {
        return Ok(true);
    }
    if is_text && (vocabulary.lexicon.has(&compact(&text)) || kind(&text).is_some()) {
        return Ok(true);
    }
    for mark in numbered(vocabulary, &text) {
        if vocabulary.has(fields.mark, &mark)? {
            return Ok(true);
        }
    }
    if is_text && is_quantity(vocabulary, &text)? {
        return Ok(true);
    }
    is_mark_apart(vocabulary, window, &mark::key(&text))
}

/// Whether words are a number and its unit, as some card says it.
fn is_quantity(vocabulary: &Vocabulary<'_>, text: &str) -> Result<bool, TantivyError> {
    let pieces = pieces(text);
    let [one] = pieces.as_slice() else { return Ok(false) };
    let fields = vocabulary.fields;
    Ok(vocabulary.has(fields.does, &one.word)? || vocabulary.has(fields.told, &one.word)?)
}

/// Whether words are one mark with spaces in it: after the first, only numbers, single letters and a sign.
fn is_mark_apart(vocabulary: &Vocabulary<'_>, window: &[Token], key: &Key) -> Result<bool, TantivyError> {
    let is_tail = |token: &Token| {
        let text = token.text();
        token.said.is_some() || text.chars().count() <= 2 || text.chars().all(|c| c.is_ascii_digit())
    };
    let signs = window.iter().filter(|token| token.said.is_some()).count();
    let has_inner_sign = window.iter().any(|token| token.said.is_none() && token.key.sign.is_some());
    let tail = window.get(1..).unwrap_or_default();
    if !tail.iter().all(is_tail) || signs > 1 || (signs == 1 && has_inner_sign) || key.base.is_empty() {
        return Ok(false);
    }
    let is_digit_joined = tail.iter().any(|token| token.text().chars().any(|c| c.is_ascii_digit()));
    let is_short = window.iter().all(|token| token.text().chars().count() <= 2);
    let fuse = fuse_number(&joined(window)).is_some();
    Ok(fuse || ((is_digit_joined || is_short || signs == 1) && knows_mark(vocabulary, key)?))
}

/// The number in `fuse 2`.
pub(super) fn fuse_number(text: &str) -> Option<&str> {
    let (first, number) = text.split_once(' ')?;
    let is_fuse = kind(&first.to_lowercase()) == Some(super::entry::Kind::Fuse);
    (is_fuse && !number.is_empty() && number.chars().all(|c| c.is_ascii_digit())).then_some(number)
}

/// The marks that a word with a number behind it stands for by a ring: of `jumper 2` LK2, JP2 …, as they are compared.
pub(super) fn numbered(vocabulary: &Vocabulary<'_>, text: &str) -> Vec<String> {
    let Some((word, number)) = text.split_once(' ') else { return Vec::new() };
    if number.is_empty() || !number.chars().all(|c| c.is_ascii_digit()) {
        return Vec::new();
    }
    let compact = compact(word);
    let others = vocabulary.lexicon.others(&compact).filter(|other| other.chars().all(char::is_alphabetic));
    others.map(|other| mark::key(&format!("{other}{number}")).whole()).collect()
}

/// Whether a mark is on any card: with the sign asked for, or on neither side where none is.
fn knows_mark(vocabulary: &Vocabulary<'_>, key: &Key) -> Result<bool, TantivyError> {
    let fields = vocabulary.fields;
    Ok(vocabulary.has(fields.mark, &key.whole())? || (key.sign.is_none() && vocabulary.has(fields.base, &key.base)?))
}

fn joined(window: &[Token]) -> String {
    window.iter().map(Token::text).collect::<Vec<_>>().join(" ")
}

/// Takes a run of words into the question.
fn take(vocabulary: &Vocabulary<'_>, asked: &mut Asked, window: &[Token], is_short: bool) -> Result<(), TantivyError> {
    let [first, more @ ..] = window else { return Ok(()) };
    if let (Some(sign), []) = (first.said, more) {
        say_sign(vocabulary, asked, first, sign)?;
        return Ok(());
    }
    let text = joined(window);
    let key = mark::key(&text);
    let name = name_key(&text);
    let is_name = key.sign.is_none() && vocabulary.has(vocabulary.fields.of, &name)?;
    let is_mark = knows_mark(vocabulary, &key)?;
    let is_only_name = is_name && !is_mark && (!more.is_empty() || !is_word(vocabulary, &text)?);
    if is_only_name || (is_name && asked.names.contains(&name)) {
        asked.names.push(name);
        return Ok(());
    }
    if more.is_empty() && is_filler(&name) && !(is_mark && (first.is_like_mark || is_short)) {
        return Ok(());
    }
    let mut texts: Vec<String> = if more.is_empty() { first.texts.clone() } else { vec![text] };
    for text in &mut texts {
        *text = text.trim_matches(['+', '-', ' ']).to_string();
    }
    texts.retain(|text| !text.is_empty());
    let words = window.iter().filter(|token| token.said.is_none() && !is_filler(&name_key(token.text())));
    asked.things.push(Thing {
        typed: window.iter().map(|token| token.typed.as_str()).collect::<Vec<_>>().join(" "),
        texts,
        words: if more.is_empty() { Vec::new() } else { words.map(|token| token.text().to_string()).collect() },
        sign: key.sign,
        must_have_sign: false,
        is_weak: more.is_empty() && is_weak(&name),
        is_slip: window.iter().any(|token| token.is_slip),
        name: is_name.then_some(name),
    });
    Ok(())
}

/// A sign is said of the word before it, if that has none; else it stands alone.
fn say_sign(vocabulary: &Vocabulary<'_>, asked: &mut Asked, token: &Token, sign: Sign) -> Result<(), TantivyError> {
    let is_symbol = token.typed.chars().count() == 1;
    if let Some(thing) = asked.things.last_mut().filter(|thing| thing.sign.is_none() && !thing.texts.is_empty()) {
        thing.must_have_sign = !is_symbol && !stands_for_mark(vocabulary, &thing.texts)?;
        thing.sign = Some(sign);
        thing.typed = format!("{} {}", thing.typed, token.typed);
        return Ok(());
    }
    asked.things.push(Thing {
        typed: token.typed.clone(),
        texts: Vec::new(),
        words: Vec::new(),
        sign: Some(sign),
        must_have_sign: true,
        is_weak: false,
        is_slip: false,
        name: None,
    });
    Ok(())
}

/// Whether a text is a mark, or a ring says that a mark stands for it.
fn stands_for_mark(vocabulary: &Vocabulary<'_>, texts: &[String]) -> Result<bool, TantivyError> {
    for text in texts {
        let compact = compact(text);
        let others = vocabulary.lexicon.others(&compact);
        for word in others.chain([text.as_str()]) {
            if vocabulary.has(vocabulary.fields.base, &mark::key(word).base)? {
                return Ok(true);
            }
        }
    }
    Ok(false)
}

/// Whether the cards use a text as a word for what something does.
fn is_word(vocabulary: &Vocabulary<'_>, text: &str) -> Result<bool, TantivyError> {
    for form in pieces(text).into_iter().flat_map(|piece| piece.forms) {
        if vocabulary.has(vocabulary.fields.does, &form)? {
            return Ok(true);
        }
    }
    Ok(false)
}
