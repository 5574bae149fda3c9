//! `casewright new`

use std::io::Write as _;

use super::args::New;
use super::exit::Exit;
use super::paths;
use super::terminal::{Terminal, complain};

/// A small sound piece to start from.
const EXAMPLE: &str = include_str!("../../specs/first.case");

pub(super) fn run(new: &New, terminal: &Terminal) -> Exit {
    let shown = paths::display(&new.file);
    let created = std::fs::OpenOptions::new().write(true).create_new(true).open(&new.file);
    match created.and_then(|mut file| file.write_all(EXAMPLE.as_bytes())) {
        Ok(()) => {
            terminal.tell(&format!(
                "{shown} holds a small cabinet; to build it, run: casewright build {shown}\n"
            ));
            Exit::Sound
        }
        Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => {
            complain(&format!("{shown} already exists, so nothing was changed"));
            Exit::Misused
        }
        Err(error) => {
            complain(&format!("{shown} can't be written: {error}"));
            Exit::Misused
        }
    }
}
