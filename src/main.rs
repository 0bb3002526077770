//! The program: everything it does is in the library, room by room.

use std::process::ExitCode;

fn main() -> ExitCode {
    wirelore::cli::run(std::env::args_os())
}
