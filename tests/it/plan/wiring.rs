//! Every way to put loops on inputs and triggers on outputs.

use wirelore::model::{Board, Fires, InputUse, OutputKind, Reaction, Wiring};

/// The loops that want inputs.
pub(crate) struct Inputs<'a> {
    pub(crate) board: &'a Board,
    /// Whom each item may share with.
    pub(crate) sharing: Vec<Option<(String, Reaction, bool)>>,
    /// The wiring of each item's alarm loop, if it has one.
    pub(crate) loops: Vec<Option<Wiring>>,
    /// How many tampers join the tamper loop.
    pub(crate) tampers: usize,
    /// How many of them come back over the supply negative.
    pub(crate) one_cores: usize,
}

/// The input of each item and that of the tamper loop.
type OnInputs = (Vec<Option<usize>>, Option<usize>);

impl Inputs<'_> {
    /// The first assignment (items in order, inputs in card order, the tamper loop last) that shares at most
    /// `limit` times.
    pub(crate) fn first(&self, limit: u32) -> Option<OnInputs> {
        let loops = self.loops.iter().flatten().count() + usize::from(self.tampers > 0);
        if loops > self.board.inputs.len() + limit as usize {
            return None;
        }
        let mut on = Vec::new();
        if !self.place(&mut on, limit) {
            return None;
        }
        let tamper = on.pop()?;
        Some((on, tamper))
    }

    /// Gives the item after those in `on` each input in turn; what comes after the last item is the tamper loop's.
    fn place(&self, on: &mut Vec<Option<usize>>, limit: u32) -> bool {
        let item = on.len();
        let Some(wants) = self.loops.get(item) else { return self.place_tamper(on) };
        let Some(wiring) = wants else { return self.go_on(on, None, limit) };
        for (n, input) in self.board.inputs.iter().enumerate() {
            if !input.accepts.contains(wiring) || input.usage == InputUse::Tamper {
                continue;
            }
            let taken = on.contains(&Some(n));
            if taken && (limit == 0 || !self.may_share(on, item, n)) {
                continue;
            }
            if self.go_on(on, Some(n), limit - u32::from(taken)) {
                return true;
            }
        }
        false
    }

    /// Goes on with the item after this one; leaves `on` as it was when nothing comes of it.
    fn go_on(&self, on: &mut Vec<Option<usize>>, input: Option<usize>, limit: u32) -> bool {
        on.push(input);
        let found = self.place(on, limit);
        if !found {
            on.pop();
        }
        found
    }

    /// "Items with the same `share` planned `pairs` or `alarm-only` may sit on one input in series (never a
    /// `button` with another class, nor two reactions)." Those are the closed loops.
    fn may_share(&self, on: &[Option<usize>], item: usize, input: usize) -> bool {
        let closed = |item: usize| self.loops[item] == Some(Wiring::ClosedLoop);
        let alike = |other: usize| self.sharing[other].is_some() && self.sharing[other] == self.sharing[item];
        let there = (0..on.len()).filter(|other| on[*other] == Some(input));
        closed(item) && there.into_iter().all(|other| closed(other) && alike(other))
    }

    /// "One input that accepts closed-loop and whose `use` is not alarm"; with a one-core tamper "only on an
    /// input with `return: negative`".
    fn place_tamper(&self, on: &mut Vec<Option<usize>>) -> bool {
        if self.tampers == 0 {
            on.push(None);
            return true;
        }
        let fits = |n: &usize| {
            let input = &self.board.inputs[*n];
            input.accepts.contains(&Wiring::ClosedLoop)
                && input.usage != InputUse::Alarm
                && (self.one_cores == 0 || input.returns_negative)
                && !on.contains(&Some(*n))
        };
        let input = (0..self.board.inputs.len()).find(fits);
        on.extend(input.map(Some));
        input.is_some()
    }
}

/// The triggers that want outputs.
pub(crate) struct Outputs<'a> {
    pub(crate) board: &'a Board,
    /// Each item's triggers: name, how it fires, current.
    pub(crate) triggers: Vec<Vec<(String, Fires, f64)>>,
    /// The supply that feeds each item.
    pub(crate) supplies: Vec<Option<usize>>,
}

impl Outputs<'_> {
    /// The first assignment (items in order, their triggers in card order, outputs in card order) with at most
    /// `limit` trigger names beyond the first on an output.
    pub(crate) fn first(&self, limit: u32) -> Option<Vec<Vec<usize>>> {
        let all: Vec<(usize, &(String, Fires, f64))> =
            self.triggers.iter().enumerate().flat_map(|(item, own)| own.iter().map(move |t| (item, t))).collect();
        let mut on = Vec::new();
        if !self.place(&all, &mut on, limit) {
            return None;
        }
        let mut by_item = vec![Vec::new(); self.triggers.len()];
        for ((item, _), output) in all.iter().zip(on) {
            by_item[*item].push(output);
        }
        Some(by_item)
    }

    fn place(&self, all: &[(usize, &(String, Fires, f64))], on: &mut Vec<usize>, limit: u32) -> bool {
        if on.len() == all.len() {
            return true;
        }
        for output in 0..self.board.outputs.len() {
            on.push(output);
            if self.stands(all, on, output) && self.mixed(all, on) <= limit && self.place(all, on, limit) {
                return true;
            }
            on.pop();
        }
        false
    }

    /// Whether what is on this output may be there together.
    fn stands(&self, all: &[(usize, &(String, Fires, f64))], on: &[usize], output: usize) -> bool {
        let there: Vec<&(usize, &(String, Fires, f64))> =
            all.iter().zip(on).filter(|(_, o)| **o == output).map(|(t, _)| t).collect();
        let card = &self.board.outputs[output];
        let sum: f64 = there.iter().map(|(_, t)| t.2).sum();
        let Some((first, (_, fires, _))) = there.first() else { return true };
        let relay = matches!(card.kind, OutputKind::Relay { .. });
        gives(&card.kind, *fires)
            && there.iter().all(|(_, t)| t.1 == *fires)
            && card.limit.is_none_or(|limit| sum <= limit.get() + 1e-9)
            && (!relay || there.iter().all(|(item, _)| self.supplies[*item] == self.supplies[*first]))
    }

    fn mixed(&self, all: &[(usize, &(String, Fires, f64))], on: &[usize]) -> u32 {
        let beyond = |output: usize| {
            let there = all.iter().zip(on).filter(|(_, o)| **o == output);
            let mut names: Vec<&str> = there.map(|((_, t), _)| t.0.as_str()).collect();
            names.sort_unstable();
            names.dedup();
            u32::try_from(names.len().saturating_sub(1)).unwrap_or(u32::MAX)
        };
        (0..self.board.outputs.len()).map(beyond).sum()
    }
}

/// "An open collector gives `negative-applied`; a relay gives all four … using the normally-open contact
/// (applied) or the normally-closed one (removed)."
fn gives(kind: &OutputKind, fires: Fires) -> bool {
    match kind {
        OutputKind::OpenCollector { .. } => fires == Fires::NegativeApplied,
        OutputKind::Relay { normally_open, normally_closed, .. } => match fires {
            Fires::NegativeApplied | Fires::PositiveApplied => normally_open.is_some(),
            Fires::NegativeRemoved | Fires::PositiveRemoved => normally_closed.is_some(),
        },
    }
}
