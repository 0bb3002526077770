//! Names that nobody has: put together from syllables.

use super::rng::Rng;

const HEADS: [&str; 20] = [
    "Vorrel", "Quasset", "Dimmel", "Ostrick", "Fennow", "Trevack", "Pellorn", "Skarrow", "Mindrel", "Gossac", "Zennor",
    "Hulver", "Yarrick", "Corvane", "Ullet", "Brandle", "Noxey", "Jessom", "Wimble", "Lorrick",
];
const TAILS: [&str; 12] =
    ["garth", "holm", "with", "mere", "stead", "fold", "rigg", "shaw", "toft", "beck", "scar", "nab"];
const STREETS: [&str; 10] = [
    "Net Row",
    "Tar Lane",
    "Quayside",
    "Beacon Hill",
    "Salt Steps",
    "Chandler's Walk",
    "Ropery",
    "Slip End",
    "Kelp Road",
    "Pilot Street",
];
const TRADES: [&str; 12] = [
    "Bakery", "Store", "Office", "School", "Surgery", "Workshop", "Hall", "Garage", "Shop", "Library", "Depot", "House",
];
/// Places in a building.
pub(super) const PLACES: [&str; 16] = [
    "Hall",
    "Front door",
    "Back door",
    "Kitchen",
    "Office",
    "Store",
    "Landing",
    "Workshop",
    "Counter",
    "Cellar",
    "Side door",
    "Passage",
    "Loft",
    "Yard door",
    "Reception",
    "Boiler room",
];
const INITIALS: [&str; 6] = ["KM", "RS", "JT", "AL", "PD", "WN"];

/// A maker and what it calls the thing.
#[derive(Debug, Clone)]
pub(super) struct Name {
    pub(super) maker: String,
    pub(super) model: String,
}

impl Name {
    /// The name of the `number`-th card of a kind; `letter` tells the kinds apart.
    pub(super) fn new(letter: &str, number: usize) -> Self {
        let (head, rest) = (number % HEADS.len(), number / HEADS.len());
        let (tail, rest) = (rest % TAILS.len(), rest / TAILS.len());
        let maker = format!("{}{}", HEADS[head], TAILS[tail]);
        let model = format!("{}{letter}{}", &maker[..1], rest * 4 + 4);
        Self { maker, model }
    }

    /// The id of its card.
    pub(super) fn id(&self) -> String {
        format!("{}-{}", self.maker, self.model).to_lowercase()
    }

    /// The model's name as some write it, with a hyphen.
    pub(super) fn hyphened(&self) -> String {
        let digit = self.model.find(|c: char| c.is_ascii_digit()).unwrap_or(self.model.len());
        format!("{}-{}", &self.model[..digit], &self.model[digit..])
    }
}

/// A site's name.
pub(super) fn site(rng: &mut Rng) -> String {
    format!("{}{} {}", rng.pick(&HEADS), rng.pick(&TAILS), rng.pick(&TRADES))
}

/// A site's address.
pub(super) fn address(rng: &mut Rng) -> String {
    format!("{} {}, {}{}", rng.between((1, 90)), rng.pick(&STREETS), rng.pick(&HEADS), rng.pick(&TAILS))
}

/// Somebody's initials.
pub(super) fn initials(rng: &mut Rng) -> &'static str {
    rng.pick(&INITIALS)
}

/// A day of three years.
pub(super) fn day(rng: &mut Rng) -> String {
    format!("202{}-{:02}-{:02}", rng.between((4, 6)), rng.between((1, 12)), rng.between((1, 28)))
}
