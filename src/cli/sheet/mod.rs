//! `wirelore sheet`: survey sheets on disk, each with the survey file to type it into.

mod form;
mod panel;
mod survey;

use super::args::Sheet;
use super::check::counted;
use super::open::{Opened, open};
use super::pack::{templates, write};
use super::report::{Ended, Outcome, Report};
use super::show::no_such_card;
use crate::check::Known;
use crate::model::Board;
use crate::pack::sheet::{Wanted, sheet, usual_cables};
use crate::render::{self, Templates};
use panel::Named;
use std::fmt::Write as _;
use std::path::PathBuf;

/// Writes a sheet for each panel that is named.
pub(super) fn run(library: Option<PathBuf>, args: &Sheet) -> Ended {
    let templates = templates::read(args.templates.as_deref())?;
    let opened = open(library)?;
    let board = args.board.as_deref().map(|id| board(&opened, id)).transpose()?;
    let mut report = Report::default();
    opened.warn(&mut report);
    let panels = panel::named(&opened.library, &args.panels, &mut report);
    if panels.is_empty() {
        return Err(report);
    }
    write::folder(&args.out)?;
    let mut written = 0;
    for named in &panels {
        match one(&opened, args, board, &templates, named) {
            Ok(said) => {
                written += 1;
                report.out.push_str(&said.out);
                report.say(said.err, said.outcome);
            }
            Err(failed) => report.say(failed.err, failed.outcome),
        }
    }
    if written > 0 {
        let sheets = counted(written, "sheet");
        let _ = writeln!(
            report.out,
            "{sheets} written. Print sheet.html; after the visit type it into survey.yaml, then run `wirelore check` on that."
        );
    }
    Ok(report)
}

/// The board's card.
fn board<'o>(opened: &'o Opened, id: &str) -> Result<&'o Board, Report> {
    opened.library.boards.get(id).ok_or_else(|| match opened.library.card(id) {
        Some(_) => Report::content(format!("error: \"{id}\" is no board")),
        None => no_such_card(&opened.library, id),
    })
}

/// Writes one panel's sheet and says where it is.
fn one(opened: &Opened, args: &Sheet, board: Option<&Board>, templates: &Templates, named: &Named<'_>) -> Ended {
    let cables = args.cables.map_or_else(|| usual_cables(named.panel), usize::from);
    let library = &opened.library;
    let wanted = Wanted { library, panel: named.panel, name: &named.name, board, cables };
    let mut files = templates::made(args.templates.as_deref(), || render::sheet(&sheet(&wanted), templates))
        .map_err(|wrong| Report::content(format!("error: {wrong}")))?;
    let known = Known { library, panel: named.panel, board: board.map(|b| b.unit.id.as_str()), cables };
    let place = args.out.join(&named.folder);
    let mut kept: Vec<&str> = survey::add(&mut files, &place, &known, &named.folder).into_iter().collect();
    if args.xlsx {
        kept.extend(form::add(&mut files, &place, &wanted)?);
    }
    write::pack(&args.out, &named.folder, &files)
        .map_err(|error| Report::machine(format!("error: can't write {}: {error}", place.display())))?;
    let what = if named.panel.is_some() { "" } else { " (generic)" };
    let mut report = Report::done(format!("Wrote {}{what}: {}\n", place.display(), survey::listed(&files)));
    for name in kept {
        let file = place.join(name);
        let text = format!(
            "note: {} is not as this command wrote it: it was left as it is; for a blank one name another folder with -o",
            file.display()
        );
        report.say(text, Outcome::Done);
    }
    Ok(report)
}
