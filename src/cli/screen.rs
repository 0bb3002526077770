//! The only place that prints. What content could do to a terminal is shown instead of sent, and a reader who has
//! seen enough (`head`) is no fault.

use super::report::{Outcome, Report};
use crate::diagnostics::harmless;
use std::io::{self, ErrorKind, Write};

/// Prints a report and gives back how it ended, a failure to print counted in.
pub(super) fn print(report: &Report) -> Outcome {
    let out = if report.is_painted { report.out.clone() } else { safe(&report.out) };
    let printed = write(&mut io::stdout().lock(), &out);
    let complained = write(&mut io::stderr().lock(), &safe(&report.err));
    let Err(error) = printed else {
        return if complained.is_err() { report.outcome.max(Outcome::Machine) } else { report.outcome };
    };
    // When even this can't be printed, the exit code still says it.
    let _ = write(&mut io::stderr().lock(), &format!("error: can't write to standard output: {error}\n"));
    Outcome::Machine
}

fn write(stream: &mut impl Write, text: &str) -> io::Result<()> {
    match stream.write_all(text.as_bytes()).and_then(|()| stream.flush()) {
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Ok(()),
        result => result,
    }
}

/// A text, line for line, without the signs that drive terminals.
fn safe(text: &str) -> String {
    text.split('\n').map(harmless).collect::<Vec<_>>().join("\n")
}

#[cfg(test)]
mod tests {
    use super::safe;

    #[test]
    fn escapes_are_shown_and_lines_stay() {
        let shown = safe("a\u{1b}[31mb\nc\u{9b}d\re");
        assert!(!shown.contains(|c: char| c.is_control() && c != '\n'), "{shown:?}");
        assert_eq!(shown.lines().count(), 2);
    }
}
