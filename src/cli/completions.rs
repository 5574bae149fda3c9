//! `casewright completions`

use clap::builder::{PossibleValuesParser, ValueParser};
use clap::{Command, CommandFactory as _};

use crate::checks;
use crate::papers::PAPERS;
use crate::trade::LISTINGS;

use super::args::{Arguments, Completions};
use super::exit::Exit;
use super::terminal::Terminal;

pub(super) fn run(completions: &Completions, terminal: &Terminal) -> Exit {
    let mut script = Vec::new();
    clap_complete::generate(completions.shell, &mut command(), "casewright", &mut script);
    terminal.print(&String::from_utf8_lossy(&script));
    Exit::Sound
}

/// What may be typed, with the names that the commands themselves look up.
/// They are not part of the arguments: there a slip gets a better answer.
fn command() -> Command {
    let one_of = |names: Vec<&'static str>| ValueParser::from(PossibleValuesParser::new(names));
    let slugs = one_of(checks::slugs().collect());
    let papers = one_of(PAPERS.iter().map(|paper| paper.slug).collect());
    let tables = one_of(LISTINGS.iter().map(|listing| listing().slug).collect());
    let argument = |command: Command, name: &'static str, values: ValueParser| {
        command.mut_arg(name, |argument| argument.value_parser(values))
    };
    let mut all = Arguments::command();
    // What stands behind a command is there once it is built.
    all.build();
    all.mut_subcommand("explain", |explain| argument(explain, "name", slugs))
        .mut_subcommand("build", |build| argument(build, "print", papers))
        .mut_subcommand("trade", |trade| argument(trade, "table", tables))
        .mut_subcommands(|own| {
            // The flags that hold everywhere stand behind its own.
            let last = ["color", "width", "help"];
            last.into_iter().fold(own, |own, flag| own.mut_arg(flag, |flag| flag))
        })
}
