//! `wirelore figure fuse`: how hard a fuse works.

use super::args::Fuse;
use super::sheet::{Sheet, text};
use crate::units::{Amps, Percent};
use crate::wording::listed;
use crate::work::alone::{FuseAnswer, FuseQuestion, fuse};

/// What a fuse is replaced with.
const SAME: &str = "A fuse guards the wire after it. Replace it with the same rating, speed, size and breaking capacity, \
                    never a larger one; a second failure means find the cause (common practice).";

/// Where the 75 % come from.
const HABIT: &str = "75 % of the rating for long is a habit from UL fuses (common practice), no rule: a fuse to IEC 60127 \
                     carries 1.5 times its rating for 60 min.";

/// The figure, with what is behind it.
pub(super) fn sheet(asked: &Fuse) -> Sheet {
    let FuseAnswer { share, ok, near, made, around } =
        fuse(FuseQuestion { rating: asked.rating, current: asked.current });
    let mut sheet = Sheet::new("fuse", &[SAME, HABIT]);
    let (current, rating, part) = (asked.current, asked.rating, text(share.value, Percent::new));
    sheet.say(match (ok, near, share.value) {
        (Some(false), ..) => format!("OVER THE RATING: {current} through a fuse of {rating}"),
        (_, _, None) => format!("A fuse of {rating} carries nothing"),
        (_, true, _) => format!("{current} is {part} of {rating}: over 75 %, a warning (common practice)"),
        (_, false, _) => format!("{current} is {part} of {rating}: within 75 % (common practice)"),
    });
    let ratings: Vec<String> = around.iter().map(Amps::to_string).collect();
    let is_made = if made { "is" } else { "is NOT" };
    sheet.say(format!("{rating} {is_made} a rating of IEC 60127; around it: {}", listed(&ratings)));
    sheet.number("rating_a", Some(rating.get()));
    sheet.number("current_a", Some(current.get()));
    sheet.worked("share", part, share);
    sheet.set("ok", ok);
    sheet.set("near", near);
    sheet.set("made", made);
    sheet.set("around_a", around.iter().map(|amps| amps.get()).collect::<Vec<f64>>());
    sheet
}
