//! Commands, and the only place that knows files, environment and terminal.
//! In: what was typed. Out: text on the terminal, files in a folder, an exit code.

mod ahead;
mod args;
mod build;
mod check;
mod completions;
mod parallel;
mod diff;
mod disk;
mod exit;
mod explain;
mod find;
mod found;
mod format;
mod git;
mod git_diff;
mod language_server;
mod man;
mod measure;
mod mend;
mod new;
mod record;
mod reference;
mod save;
mod spec_source;
mod paths;
mod terminal;
mod trade;
mod watch;
mod why;
mod whole_file;
mod write;

use std::ffi::OsString;
use std::io::Write as _;

use clap::Parser;

use crate::diagnostics::render::plain;

pub use args::{Arguments, Command};
pub use exit::Exit;
use terminal::Terminal;

/// Runs what was typed.
#[must_use]
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> Exit {
    let arguments = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments,
        Err(error) => {
            let code = if error.use_stderr() { Exit::Misused } else { Exit::Sound };
            misused(&error);
            return code;
        }
    };
    exit::guarded(move || {
        let terminal = Terminal::new(arguments.color, arguments.width);
        let exit = match &arguments.command {
            Command::Check(check) => check::run(check, &terminal),
            Command::Build(build) => build::run(build, &terminal),
            Command::Watch(watch) => watch::run(watch, &terminal),
            Command::Explain(explain) => explain::run(explain, &terminal),
            Command::Trade(trade) => trade::run(trade, &terminal),
            Command::Format(formatting) => format::run(formatting, &terminal),
            Command::Mend(mend) => mend::run(mend, &terminal),
            Command::Why(why) => why::run(why, &terminal),
            Command::Measure(measure) => measure::run(measure, &terminal),
            Command::Record(record) => record::run(record, &terminal),
            Command::Reference(asked) => reference::run(asked, &terminal),
            Command::New(new) => new::run(new, &terminal),
            Command::Completions(completions) => completions::run(completions, &terminal),
            Command::Man(man) => man::run(man, &terminal),
            Command::LanguageServer => language_server::run(),
            Command::Diff(diff) => diff::run(diff, &terminal),
            Command::GitDiff(diff) => git_diff::run(diff, &terminal),
        };
        exit.or(terminal.exit())
    })
}

/// Prints what is wrong with the arguments, or the help that was asked for.
/// What was typed may hold anything.
fn misused(error: &clap::Error) {
    let text = error.render().to_string();
    let shown: Vec<String> = text.lines().map(plain).collect();
    // A closed pipe is no fault of the command.
    let _ = match text.lines().eq(shown.iter().map(String::as_str)) {
        true => error.print(),
        false => writeln!(std::io::stderr().lock(), "{}", shown.join("\n")),
    };
}
