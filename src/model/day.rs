//! A day as it is kept between two runs: year, month, day.

use jiff::civil::Date;
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

#[expect(clippy::ref_option, clippy::trivially_copy_pass_by_ref, reason = "serde asks for it so")]
pub(super) fn serialize<S: Serializer>(day: &Option<Date>, to: S) -> Result<S::Ok, S::Error> {
    day.map(|day| (day.year(), day.month(), day.day())).serialize(to)
}

pub(super) fn deserialize<'d, D: Deserializer<'d>>(from: D) -> Result<Option<Date>, D::Error> {
    let parts: Option<(i16, i8, i8)> = Deserialize::deserialize(from)?;
    parts.map(|(year, month, day)| Date::new(year, month, day).map_err(D::Error::custom)).transpose()
}
