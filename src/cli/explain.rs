//! `casewright explain`

use crate::checks;

use super::args::Explain;
use super::exit::Exit;
use super::terminal::{Terminal, complain_of_name};

pub(super) fn run(explain: &Explain, terminal: &Terminal) -> Exit {
    let Some(name) = &explain.name else {
        terminal.print(&checks::index());
        return Exit::Sound;
    };
    if let Some(page) = checks::explain(name) {
        terminal.print(&page);
        return Exit::Sound;
    }
    complain_of_name("nothing", name, checks::slugs());
    Exit::Misused
}
