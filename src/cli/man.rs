//! `casewright man`

use clap::CommandFactory as _;

use super::args::{Arguments, Man};
use super::exit::Exit;
use super::terminal::{Terminal, complain, complain_of_name};

pub(super) fn run(man: &Man, terminal: &Terminal) -> Exit {
    let mut command = Arguments::command();
    // Only a built command knows the flags that hold everywhere.
    command.build();
    let command = match &man.command {
        None => command,
        Some(name) => {
            let Some(found) = command.find_subcommand(name) else {
                let known = command.get_subcommands().map(clap::Command::get_name);
                complain_of_name("no command", name, known);
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
