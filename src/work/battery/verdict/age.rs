//! What a battery's age says.

use super::{Says, Verdict};
use crate::model::OldBattery;
use jiff::civil::Date;

/// From this many whole months on a battery goes (makers' advice: four to five years).
const REPLACE: i32 = 60;

/// From this many whole months on it is watched.
const WATCH: i32 = 48;

/// The same in words.
const ADVICE: &str = "watched from 48 months on, replaced at 60 (makers' advice: four to five years)";

/// What its age on the day of the visit says. A date of making after the visit is a slip of the pen: not known.
pub(super) fn says(battery: &OldBattery, visited: Option<Date>) -> Option<Says> {
    let months = battery.made.zip(visited).map(|(made, visited)| whole_months(made, visited)).filter(|m| *m >= 0);
    match months {
        None => Some((Verdict::Watch, "Its age is not known.".to_string())),
        Some(months) if months >= REPLACE => Some((Verdict::Replace, format!("It is {months} months old; {ADVICE}."))),
        Some(months) if months >= WATCH => Some((Verdict::Watch, format!("It is {months} months old; {ADVICE}."))),
        Some(_) => None,
    }
}

/// Months from a month to a day, days ignored.
fn whole_months(made: (i16, i8), visited: Date) -> i32 {
    (i32::from(visited.year()) - i32::from(made.0)) * 12 + i32::from(visited.month()) - i32::from(made.1)
}
