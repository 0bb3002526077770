//! How what is typed is read where clap has no reader of its own.

use jiff::civil::Date;

/// A day, as a word of the command line.
pub(super) fn date(text: &str) -> Result<Date, String> {
    text.parse().map_err(|_| "a date is a year, a month and a day, for example 2026-11-03".to_string())
}

/// A key and its value, `KEY=VALUE`.
pub(super) fn key_and_value(text: &str) -> Result<(String, String), String> {
    let (key, value) = text.split_once('=').ok_or("a key and its value are due, for example rating=\"1.6 A\"")?;
    Ok((key.trim().to_owned(), value.to_owned()))
}
