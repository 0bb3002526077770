//! The terminal while the prompt has it: raw, on a screen of its own, and given back as it was however the prompt ends.

use super::state::Key;
use super::view::Screen;
use crossterm::cursor::MoveTo;
use crossterm::event::{Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers, poll, read};
use crossterm::style::Print;
use crossterm::terminal::{
    Clear, ClearType, EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode, size,
};
use crossterm::{execute, queue};
use std::io::{self, IsTerminal, Write};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

/// How long it is before a request to end is seen.
const PATIENCE: Duration = Duration::from_millis(200);

/// Whether there is someone to type and something to read.
pub(in crate::cli) fn is_there() -> bool {
    io::stdin().is_terminal() && io::stdout().is_terminal()
}

/// The terminal, taken; given back when it is dropped.
pub(super) struct Taken {
    ended: Arc<AtomicBool>,
}

/// What happened.
pub(super) enum Happened {
    Key(Key),
    /// Nothing that changes anything but, perhaps, the size.
    Nothing,
    /// Someone asked the program to end.
    Ended,
}

impl Taken {
    /// Takes the terminal.
    pub(super) fn take() -> io::Result<Self> {
        let ended = Arc::new(AtomicBool::new(false));
        enable_raw_mode()?;
        // From here on the terminal is given back whatever fails.
        let taken = Self { ended };
        taken.watch()?;
        execute!(io::stdout(), EnterAlternateScreen)?;
        Ok(taken)
    }

    /// Sees it when the program is asked to end, so that the terminal is given back first.
    #[cfg(unix)]
    fn watch(&self) -> io::Result<()> {
        use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
        for signal in [SIGHUP, SIGINT, SIGTERM] {
            signal_hook::flag::register(signal, Arc::clone(&self.ended))?;
        }
        Ok(())
    }

    #[cfg(not(unix))]
    #[expect(clippy::unnecessary_wraps, clippy::unused_self, reason = "the same as where there are signals")]
    fn watch(&self) -> io::Result<()> {
        Ok(())
    }

    /// Columns and lines.
    pub(super) fn size() -> (usize, usize) {
        let (columns, lines) = size().unwrap_or((80, 24));
        (usize::from(columns.max(1)), usize::from(lines.max(1)))
    }

    /// Draws a screen.
    pub(super) fn draw(screen: &Screen) -> io::Result<()> {
        let mut out = io::stdout().lock();
        for (row, line) in (0..u16::MAX).zip(&screen.lines) {
            queue!(out, MoveTo(0, row), Clear(ClearType::CurrentLine), Print(line))?;
        }
        let rows = u16::try_from(screen.lines.len()).unwrap_or(u16::MAX);
        let column = u16::try_from(screen.cursor).unwrap_or(u16::MAX);
        if usize::from(rows) < Self::size().1 {
            queue!(out, MoveTo(0, rows), Clear(ClearType::FromCursorDown))?;
        }
        queue!(out, MoveTo(column, 0))?;
        out.flush()
    }

    /// Waits until something happens.
    pub(super) fn wait(&self) -> io::Result<Happened> {
        loop {
            if self.ended.load(Ordering::Relaxed) {
                return Ok(Happened::Ended);
            }
            if poll(PATIENCE)? {
                return Ok(happened(&read()?));
            }
        }
    }
}

impl Drop for Taken {
    fn drop(&mut self) {
        // Nothing can be done where even this fails; both are tried.
        let _ = execute!(io::stdout(), LeaveAlternateScreen);
        let _ = disable_raw_mode();
    }
}

fn happened(event: &Event) -> Happened {
    match event {
        Event::Key(key) if key.kind != KeyEventKind::Release => key_of(key).map_or(Happened::Nothing, Happened::Key),
        _ => Happened::Nothing,
    }
}

fn key_of(key: &KeyEvent) -> Option<Key> {
    if key.modifiers.contains(KeyModifiers::CONTROL) {
        return match key.code {
            KeyCode::Char('c' | 'd') => Some(Key::Leave),
            KeyCode::Char('u') => Some(Key::Clear),
            _ => None,
        };
    }
    match key.code {
        KeyCode::Char(c) => Some(Key::Char(c)),
        KeyCode::Backspace => Some(Key::Backspace),
        KeyCode::Delete => Some(Key::Delete),
        KeyCode::Left => Some(Key::Left),
        KeyCode::Right => Some(Key::Right),
        KeyCode::Up => Some(Key::Up),
        KeyCode::Down => Some(Key::Down),
        KeyCode::PageUp => Some(Key::PageUp),
        KeyCode::PageDown => Some(Key::PageDown),
        KeyCode::Home => Some(Key::Home),
        KeyCode::End => Some(Key::End),
        KeyCode::Enter => Some(Key::Enter),
        KeyCode::Esc => Some(Key::Escape),
        _ => None,
    }
}
