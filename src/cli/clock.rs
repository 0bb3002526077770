//! The one place that knows what day it is.

use jiff::ZonedDateTime;
use jiff::civil::Date;

/// The day given, else today.
pub(super) fn day(given: Option<Date>) -> Date {
    given.unwrap_or_else(|| ZonedDateTime::now().date())
}
