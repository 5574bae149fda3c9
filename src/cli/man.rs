//! `casewright man`

use clap::CommandFactory as _;

use crate::diagnostics::render::plain;
use crate::measure::nearest;

use super::args::{Arguments, Man};
use super::exit::Exit;
use super::terminal::{Terminal, complain};

pub(super) fn run(man: &Man, terminal: &Terminal) -> Exit {
    let mut command = Arguments::command();
    // Only a built command knows the flags that hold everywhere.
    command.build();
    let command = match &man.command {
        None => command,
        Some(name) => {
            let Some(found) = command.find_subcommand(name) else {
                let known = command.get_subcommands().map(clap::Command::get_name);
                let near = nearest(name, known);
                let hint = near.map_or(String::new(), |near| format!("; did you mean `{near}`?"));
                complain(&format!("no command is called `{}`{hint}", plain(name)));
                return Exit::Misused;
            };
            found.clone()
        }
    };
    let mut page = Vec::new();
    if let Err(error) = clap_mangen::Man::new(command).render(&mut page) {
        complain(&format!("the page can't be made: {error}"));
        return Exit::Misused;
    }
    terminal.print(&String::from_utf8_lossy(&page));
    Exit::Sound
}
