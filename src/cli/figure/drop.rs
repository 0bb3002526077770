//! `wirelore figure drop`: volts at the far end.

use super::args::Drop;
use super::sheet::{Sheet, text};
use super::wire::wire;
use crate::cli::report::Report;
use crate::model::Library;
use crate::units::{Metres, Volts};
use crate::work::alone::{DropAnswer, DropQuestion, FLAT, drop};

/// The figure, with what is behind it.
///
/// # Errors
/// When the library has no such cable card.
pub(super) fn sheet(library: &Library, asked: &Drop) -> Result<Sheet, Report> {
    let answer = drop(&DropQuestion {
        source: asked.volts,
        supply_drop: asked.supply_drop,
        current: asked.current,
        trigger: asked.trigger,
        positive: asked.positive,
        negative: asked.negative,
        wire: wire(library, &asked.wire, asked.temperature)?,
        length: asked.length,
        needs: asked.needs,
    });
    Ok(written(asked, answer))
}

fn written(asked: &Drop, answer: DropAnswer) -> Sheet {
    let mut sheet = Sheet::new("drop", &[FLAT]);
    let volts = text(answer.volts.value, Volts::new);
    sheet.say(format!("{volts} at the far end{}", enough(asked.needs, answer.ok)));
    sheet.say(format!("{} lost on the way", text(answer.lost, Volts::new)));
    let longest = text(answer.longest.value, Metres::new);
    if answer.longest.value.is_some() {
        sheet.say(format!("The longest run that would do: {longest}"));
    }
    sheet.worked("far_end_v", volts, answer.volts);
    sheet.number("lost_v", answer.lost);
    sheet.number("needs_low_v", asked.needs.map(Volts::get));
    sheet.set("ok", answer.ok);
    if answer.longest.value.is_some() {
        sheet.worked("longest_m", longest, answer.longest);
    } else {
        sheet.number("longest_m", None);
    }
    sheet
}

/// Whether that is enough, where it was asked.
fn enough(needs: Option<Volts>, ok: Option<bool>) -> String {
    match (needs, ok) {
        (None, _) => String::new(),
        (Some(needs), Some(true)) => format!(": enough, {needs} is needed"),
        (Some(needs), Some(false)) => format!(": NOT ENOUGH, {needs} is needed"),
        (Some(needs), None) => format!("; {needs} is needed"),
    }
}
