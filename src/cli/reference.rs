//! `casewright reference`

use crate::papers;

use super::args::Reference;
use super::exit::Exit;
use super::paths;
use super::terminal::{Terminal, complain};
use super::whole_file;

pub(super) fn run(asked: &Reference, terminal: &Terminal) -> Exit {
    let Some(file) = &asked.into else {
        terminal.print(&papers::reference());
        return Exit::Sound;
    };
    let shown = paths::display(file);
    if file.extension().is_some_and(|ending| ending == "case") {
        complain(&format!("{shown} is the name of a spec, so nothing was written"));
        return Exit::Misused;
    }
    match whole_file::write(file, papers::reference_page().as_bytes()) {
        Ok(()) => {
            terminal.tell(&format!("the reference is in {shown}\n"));
            Exit::Sound
        }
        Err(error) => {
            complain(&format!("{shown} can't be written, and nothing was changed: {error}"));
            Exit::Misused
        }
    }
}
