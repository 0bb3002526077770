//! What the fuzz targets do with the bytes that they are given. Each panics when something holds no longer; the random
//! sites and the checks are those of the tests, and the tests (`tests/it/fuzz.rs`) call these too.

#[path = "../../tests/it/sites.rs"]
mod sites;

mod check;
mod demo;
mod find;
mod form;
mod invariants;
mod pack;
mod pages;
mod pages_target;
mod read;
mod readings;
mod renew;
mod set;
mod table;
mod texts;

pub use find::find;
pub use form::form;
pub use pack::pack;
pub use pages_target::pages;
pub use read::read;
pub use readings::readings;
pub use renew::renew;
pub use set::set;
pub use table::table;
