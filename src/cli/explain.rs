//! `casewright explain`

use crate::checks;
use crate::measure::nearest;

use super::args::Explain;
use super::exit::Exit;
use super::terminal::{Terminal, complain};

pub(super) fn run(explain: &Explain, terminal: &Terminal) -> Exit {
    let Some(name) = &explain.name else {
        terminal.print(&checks::index());
        return Exit::Sound;
    };
    if let Some(page) = checks::explain(name) {
        terminal.print(&page);
        return Exit::Sound;
    }
    let near = nearest(name, checks::slugs());
    let hint = near.map_or(String::new(), |near| format!("; did you mean `{near}`?"));
    let name = crate::diagnostics::render::plain(name);
    complain(&format!("nothing is called `{name}`{hint}"));
    Exit::Misused
}
