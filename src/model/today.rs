//! What a core does today: from the place of its mark on the panel's card, and for cores joined at the panel
//! by walking the loop through the joins.

use super::{CoreUse, JobCable, JobCore, Pair, Panel, Returns, Served};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

/// What a core is for.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Function {
    /// Supply positive.
    SupplyPositive,
    /// Supply negative.
    SupplyNegative,
    /// The alarm loop, going out.
    Alarm,
    /// The alarm loop, coming back.
    AlarmReturn,
    /// The tamper loop, going out.
    Tamper,
    /// The tamper loop, coming back.
    TamperReturn,
    /// Fires this.
    Trigger(String),
    /// The n-th bus core, from 1.
    Data(usize),
    /// Nothing.
    Spare,
}

impl Function {
    /// Whether it is a supply core, which all items of a cable share.
    #[must_use]
    pub fn is_supply(&self) -> bool {
        matches!(self, Self::SupplyPositive | Self::SupplyNegative)
    }
}

impl fmt::Display for Function {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::SupplyPositive => f.write_str("supply+"),
            Self::SupplyNegative => f.write_str("supply-"),
            Self::Alarm => f.write_str("alarm"),
            Self::AlarmReturn => f.write_str("alarm-return"),
            Self::Tamper => f.write_str("tamper"),
            Self::TamperReturn => f.write_str("tamper-return"),
            Self::Trigger(name) => write!(f, "trigger:{name}"),
            Self::Data(n) => write!(f, "data:{n}"),
            Self::Spare => f.write_str("spare"),
        }
    }
}

/// What a mark's terminal does, by the first of its places: supply, trigger, zone, tamper, siren tamper, keypad
/// data.
pub(crate) fn function_of_mark(panel: &Panel, mark: &str) -> Option<Function> {
    let unit = &panel.unit;
    let is = |m: Option<&String>| m.is_some_and(|m| m == mark);
    let out = unit.power.get().and_then(|p| p.out.as_ref());
    let keypad = unit.keypad.get();
    let siren = panel.siren.get();
    let positive = is(out.map(|o| &o.0))
        || is(keypad.and_then(|k| k.positive.as_ref()))
        || is(siren.and_then(|s| s.hold_off.get()));
    if positive {
        return Some(Function::SupplyPositive);
    }
    let negative = is(out.map(|o| &o.1))
        || is(keypad.and_then(|k| k.negative.as_ref()))
        || is(siren.and_then(|s| s.negative.get()));
    if negative {
        return Some(Function::SupplyNegative);
    }
    if let Some(trigger) = siren.and_then(|s| s.triggers.iter().find(|t| t.terminal == mark)) {
        return Some(Function::Trigger(trigger.trigger.clone()));
    }
    if let Some(loops) = loops(panel).iter().find(|l| l.pair.out == mark || l.pair.back == mark) {
        return Some(loops.function(loops.pair.out == mark));
    }
    let tamper = siren.and_then(|s| s.tamper.get())?;
    if tamper.terminal == mark {
        return Some(Function::Tamper);
    }
    if tamper.with.as_deref() == Some(mark) {
        return Some(Function::TamperReturn);
    }
    let at = keypad?.data.iter().position(|d| d == mark)?;
    Some(Function::Data(at + 1))
}

/// A pair of terminals between which a loop runs.
struct Loop<'a> {
    pair: &'a Pair,
    zone: Option<usize>,
    tamper: bool,
}

impl Loop<'_> {
    /// What a core on its first (or second) terminal does.
    fn function(&self, first: bool) -> Function {
        match (self.tamper, first) {
            (false, true) => Function::Alarm,
            (false, false) => Function::AlarmReturn,
            (true, true) => Function::Tamper,
            (true, false) => Function::TamperReturn,
        }
    }
}

/// Every zone pair, then every tamper pair.
fn loops(panel: &Panel) -> Vec<Loop<'_>> {
    let zones = panel.zones.iter().enumerate();
    let alarms = zones.clone().map(|(z, zone)| Loop { pair: &zone.pair, zone: Some(z), tamper: false });
    let tampers =
        zones.filter_map(|(z, zone)| zone.tamper.as_ref().map(|pair| Loop { pair, zone: Some(z), tamper: true }));
    let own = panel.tamper.get().into_iter().map(|pair| Loop { pair, zone: None, tamper: true });
    alarms.chain(own).chain(tampers).collect()
}

/// A core by cable and place.
type At = (usize, usize);

/// What a walk says of a core: what it does, and for which zone.
type Said = (Function, Option<usize>);

/// Fills the cores of `cables`: every core of each type, with owner, function, and whether the plan may use it.
pub(super) fn fill<'a>(panel: &Panel, cables: &mut [JobCable<'a>], undecided: &[(usize, &'a Served)]) {
    for cable in cables.iter_mut() {
        cable.cores = cable.kind.cores.iter().map(|colour| seen(panel, cable, colour)).collect();
    }
    let walked = walk_all(panel, cables);
    for (c, cable) in cables.iter_mut().enumerate() {
        let held_alone = !cable.survey.serves.is_empty()
            && cable.survey.serves.iter().all(|s| undecided.iter().any(|(at, u)| *at == c && u.item == s.item));
        for (k, core) in cable.cores.iter_mut().enumerate() {
            if let Some((function, zone)) = walked.get(&(c, k)) {
                core.function = Some(function.clone());
                core.zone = *zone;
            }
            let of_undecided = core.owner.is_some_and(|o| undecided.iter().any(|(at, u)| *at == c && u.item == o));
            let supply = core.function.as_ref().is_some_and(Function::is_supply);
            core.held = of_undecided || (supply && held_alone);
            core.usable = !core.held && !matches!(core.on, CoreUse::Broken | CoreUse::Unknown);
        }
    }
}

/// One core as the survey has it, with what its mark says.
fn seen<'a>(panel: &Panel, cable: &JobCable<'a>, colour: &'a str) -> JobCore<'a> {
    let survey = cable.survey.cores.iter().find(|core| core.colour == colour);
    let on = survey.map_or(CoreUse::Unknown, |core| core.on.clone());
    let function = match &on {
        CoreUse::Mark(mark) => function_of_mark(panel, mark),
        _ => None,
    };
    let has_owner =
        matches!(on, CoreUse::Mark(_) | CoreUse::Join(_)) && !function.as_ref().is_some_and(Function::is_supply);
    let only = match cable.survey.serves.as_slice() {
        [one] => Some(one.item.as_str()),
        _ => None,
    };
    let owner = if has_owner { survey.and_then(|core| core.of.as_deref()).or(only) } else { None };
    let zone = match &on {
        CoreUse::Mark(mark) => {
            loops(panel).iter().find(|l| l.pair.out == *mark || l.pair.back == *mark).and_then(|l| l.zone)
        }
        _ => None,
    };
    JobCore { colour, on, owner, function, zone, usable: false, held: false }
}

/// What the walks give the joined cores.
fn walk_all(panel: &Panel, cables: &[JobCable<'_>]) -> BTreeMap<At, Said> {
    let mut joins: BTreeMap<&str, Vec<At>> = BTreeMap::new();
    for (c, cable) in cables.iter().enumerate() {
        for (k, core) in cable.cores.iter().enumerate() {
            if let CoreUse::Join(name) = &core.on {
                joins.entry(name).or_default().push((c, k));
            }
        }
    }
    let siren = siren_pair(panel);
    let mut all = loops(panel);
    all.extend(siren.iter().map(|pair| Loop { pair, zone: None, tamper: true }));
    // For each core: what closing walks say, and what stopping walks say.
    let mut said: BTreeMap<At, [BTreeSet<Said>; 2]> = BTreeMap::new();
    for run in &all {
        for first in [true, false] {
            let start = if first { &run.pair.out } else { &run.pair.back };
            if function_of_mark(panel, start) != Some(run.function(first)) {
                continue;
            }
            for at in cores_on(cables, start) {
                let paired: Vec<&str> = all
                    .iter()
                    .filter_map(|l| match (&l.pair.out == start, &l.pair.back == start) {
                        (true, _) => Some(l.pair.back.as_str()),
                        (_, true) => Some(l.pair.out.as_str()),
                        _ => None,
                    })
                    .collect();
                let (cores, closed) = walk(cables, &joins, at, &paired);
                for (core, outgoing) in cores {
                    let says = (run.function(first == outgoing), run.zone);
                    said.entry(core).or_default()[usize::from(!closed)].insert(says);
                }
            }
        }
    }
    said.into_iter()
        .filter(|((c, k), _)| match &cables[*c].cores[*k].on {
            CoreUse::Join(name) => joins.get(name.as_str()).is_some_and(|ends| ends.len() <= 2),
            _ => false,
        })
        .filter_map(|(at, [closing, stopping])| {
            let counts = if closing.is_empty() { stopping } else { closing };
            let functions: BTreeSet<&Function> = counts.iter().map(|(f, _)| f).collect();
            if functions.len() != 1 {
                return None;
            }
            counts.iter().next().map(|(f, zone)| (at, (f.clone(), *zone)))
        })
        .collect()
}

/// The siren's tamper as a pair, where it returns on a core of its own.
fn siren_pair(panel: &Panel) -> Option<Pair> {
    let tamper = panel.siren.get()?.tamper.get()?;
    let back = tamper.with.clone().filter(|_| tamper.returns == Some(Returns::Pair))?;
    Some(Pair { out: tamper.terminal.clone(), back, wiring: None, cite: Vec::new() })
}

/// Every core on a terminal.
fn cores_on(cables: &[JobCable<'_>], mark: &str) -> Vec<At> {
    let all = cables
        .iter()
        .enumerate()
        .flat_map(|(c, cable)| cable.cores.iter().enumerate().map(move |(k, core)| (c, k, core)));
    all.filter(|(_, _, core)| matches!(&core.on, CoreUse::Mark(m) if m == mark)).map(|(c, k, _)| (c, k)).collect()
}

/// Walks from a core on a terminal; gives the cores reached, whether each was walked outwards, and whether the
/// loop closed on one of the `paired` terminals.
fn walk(
    cables: &[JobCable<'_>],
    joins: &BTreeMap<&str, Vec<At>>,
    from: At,
    paired: &[&str],
) -> (Vec<(At, bool)>, bool) {
    let mut reached: Vec<(At, bool)> = Vec::new();
    let mut down = from;
    loop {
        if reached.iter().any(|(at, _)| *at == down) {
            return (reached, false);
        }
        reached.push((down, true));
        let Some(owner) = cables[down.0].cores[down.1].owner else { return (reached, false) };
        let others: Vec<(At, &CoreUse)> = cables[down.0]
            .cores
            .iter()
            .enumerate()
            .filter(|(k, core)| *k != down.1 && core.owner == Some(owner))
            .map(|(k, core)| ((down.0, k), &core.on))
            .collect();
        let home = others.iter().find(|(_, on)| matches!(on, CoreUse::Mark(m) if paired.contains(&m.as_str())));
        if let Some((at, _)) = home {
            reached.push((*at, false));
            return (reached, true);
        }
        let joined: Vec<(At, &String)> = others
            .iter()
            .filter_map(|(at, on)| match on {
                CoreUse::Join(name) => Some((*at, name)),
                _ => None,
            })
            .collect();
        let [(back, name)] = joined.as_slice() else { return (reached, false) };
        if reached.iter().any(|(at, _)| at == back) {
            return (reached, false);
        }
        reached.push((*back, false));
        let ends = joins.get(name.as_str()).map_or(&[][..], Vec::as_slice);
        let onward: Vec<At> = ends.iter().copied().filter(|at| at != back).collect();
        let [next] = onward.as_slice() else { return (reached, false) };
        down = *next;
    }
}
