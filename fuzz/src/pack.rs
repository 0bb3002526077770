//! Survey to pages: a site drawn from bytes, with everything that must hold of every job.

use crate::invariants::made::Made;
use crate::invariants::{mapping, screws, totals};
use crate::sites::Site;

/// Makes the pack of the site that these bytes draw, and looks at it.
pub fn pack(bytes: &[u8]) {
    let site = Site::of_bytes(bytes);
    let made = Made::of(&site);
    let checks = [
        mapping::every_core_once,
        mapping::both_ends_are_there,
        screws::none_for_two,
        totals::check,
        mapping::pages_agree,
    ];
    for check in checks {
        if let Err(wrong) = check(&made) {
            panic!("{wrong}");
        }
    }
}
