//! The casewright command.

use std::process::ExitCode;

fn main() -> ExitCode {
    casewright::cli::run(std::env::args_os()).into()
}
