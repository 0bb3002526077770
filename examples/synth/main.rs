//! Makes a library as large as a nation's, and surveys on it, to measure with. The same numbers make the same bytes.
//!
//! ```console
//! $ cargo run --release --example synth -- /tmp/nation --cards 10000 --surveys 20000
//! $ wirelore --library /tmp/nation/library find STB
//! $ wirelore --library /tmp/nation/library pack /tmp/nation/surveys -o /tmp/nation/packs
//! ```
//!
//! Every maker, model, place and person in it is put together from syllables. Rules, rings of words, generic devices and
//! cable types are the demo library's.

mod board;
mod device;
mod names;
mod note;
mod panel;
#[path = "../../tests/it/sites/rng.rs"]
mod rng;
mod strip;
mod survey;

use clap::Parser;
use rng::Rng;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use wirelore::source::Files;

/// Makes a large library and surveys on it, to measure with
#[derive(Debug, Parser)]
#[command(name = "synth", max_term_width = 100)]
struct Args {
    /// The folder to make; in it `library` and `surveys`
    out: PathBuf,
    /// How many cards, the demo library's generic ones among them
    #[arg(long, value_name = "N", default_value_t = 10_000)]
    cards: usize,
    /// How many surveys, each of 6 to 14 items
    #[arg(long, value_name = "N", default_value_t = 0)]
    surveys: usize,
    /// Another number makes another library
    #[arg(long, value_name = "N", default_value_t = 1)]
    seed: u64,
}

fn main() -> ExitCode {
    let args = Args::parse();
    match make(&args) {
        Ok(said) => {
            println!("{said}");
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("error: can't make {}: {error}", args.out.display());
            ExitCode::from(2)
        }
    }
}

/// What the cards of a kind are made from.
#[derive(Debug)]
struct Made {
    panels: Vec<strip::Strip>,
    boards: Vec<board::Size>,
}

fn make(args: &Args) -> io::Result<String> {
    if fs::read_dir(&args.out).is_ok_and(|mut inside| inside.next().is_some()) {
        return Err(io::Error::new(io::ErrorKind::AlreadyExists, "there is something in it: name a new folder"));
    }
    let library = args.out.join("library");
    let generic = generic(&library)?;
    let made = cards(&library, args, args.cards.saturating_sub(generic))?;
    for number in 0..args.surveys {
        let (id, text) = survey::survey(&mut rng(args.seed, 5, number), number, &made.panels, &made.boards);
        write(&args.out.join("surveys"), &format!("{id}.yaml"), &text)?;
    }
    Ok(format!("{} cards and {} surveys in {}", args.cards.max(generic), args.surveys, args.out.display()))
}

/// The demo library's terms, rules, cable types and devices without a maker. Gives how many cards they are.
fn generic(library: &Path) -> io::Result<usize> {
    let mut cards = 0;
    for (path, bytes) in Files::embedded().files {
        let Ok(bytes) = bytes else { continue };
        let (folder, name) = path.split_once('/').unwrap_or(("", &path));
        let is_card = matches!(folder, "devices" | "cables");
        if is_card || matches!(folder, "" | "rules") {
            let folder = library.join(folder);
            fs::create_dir_all(&folder)?;
            fs::write(folder.join(name), bytes)?;
            cards += usize::from(is_card);
        }
    }
    Ok(cards)
}

/// So many cards: of each hundred 70 panels, 9 boards, 2 supplies, 19 devices. A third of them have notes.
fn cards(library: &Path, args: &Args, count: usize) -> io::Result<Made> {
    let mut made = Made { panels: Vec::new(), boards: Vec::new() };
    for number in 0..count {
        let mut rng = rng(args.seed, 1, number);
        let (folder, id, text, marks) = match number % 100 {
            0..70 => {
                let strip = strip::Strip::new(&mut rng, made.panels.len());
                let card = ("panels", strip.name.id(), panel::text(&mut rng, &strip), strip.marks());
                made.panels.push(strip);
                card
            }
            70..79 => {
                let size = board::Size::new(&mut rng, made.boards.len());
                let card = ("boards", size.name.id(), board::text(&size), vec!["AUX+".into(), "IN1".into()]);
                made.boards.push(size);
                card
            }
            79..81 => {
                let name = names::Name::new("P", number);
                ("supplies", name.id(), device::supply(&mut rng, &name), vec!["OUT+".into(), "FO".into()])
            }
            _ => {
                let name = names::Name::new("D", number);
                ("devices", name.id(), device::device(&mut rng, &name), Vec::new())
            }
        };
        write(&library.join(folder), &format!("{id}.yaml"), &text)?;
        if number % 3 == 0 {
            for at in 0..rng.between((1, 3)) {
                let (name, text) = note::note(&mut rng, at, &marks);
                write(&library.join("notes").join(&id), &name, &text)?;
            }
        }
    }
    Ok(made)
}

/// The chance of one thing of one kind, so that more cards change no survey.
fn rng(seed: u64, kind: u64, number: usize) -> Rng {
    Rng::new(seed.wrapping_mul(1_000_003) ^ (kind << 40) ^ u64::try_from(number).unwrap_or_default())
}

fn write(folder: &Path, name: &str, text: &str) -> io::Result<()> {
    fs::create_dir_all(folder)?;
    fs::write(folder.join(name), text)
}
