//! What may be typed.

use std::num::NonZeroUsize;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum, ValueHint};

use crate::measure::{Date, date_readings};

/// Turns a cabinet written as text into the shop's papers.
#[derive(Debug, Parser)]
#[command(
    name = "casewright",
    version,
    about,
    disable_help_subcommand = true,
    arg_required_else_help = true
)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
    /// Use color in messages
    #[arg(long, global = true, value_enum, default_value = "auto", value_name = "WHEN")]
    pub color: Color,
    /// Set how many columns messages take (default: the terminal's own)
    #[arg(long, global = true, value_name = "COLUMNS", value_parser = clap::value_parser!(u16).range(40..=200))]
    pub width: Option<u16>,
}

/// When to use color.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Color {
    /// On a terminal.
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

/// The commands. What may stand behind one of them is put together where it is typed; so
/// that it has no say in what the command is called, it is described in comments.
#[derive(Debug, Subcommand)]
#[command(defer = true)]
pub enum Command {
    /// Check specs, or every spec in a folder
    Check(Check),
    /// Check a spec and write its papers into a folder
    Build(Build),
    /// Build a spec again whenever it or a file it uses is saved
    Watch(Watch),
    /// Rewrite specs in one layout: indents, columns, and spaces
    Format(Formatting),
    /// Fix a spec by making the edits that its findings offer
    Mend(Mend),
    /// Explain a finding, or list them all when no name is given
    Explain(Explain),
    /// Show where each printed figure comes from
    Why(Why),
    /// Print a blank measuring form to fill in and paste into the spec
    Measure(Measure),
    /// Record parts as cut in the spec itself
    Record(Record),
    /// Print the trade's figures that casewright works with, and their sources
    Trade(Trade),
    /// Print the language reference, with short pieces as examples
    Reference(Reference),
    /// Start a new spec from a short example
    New(New),
    /// Print a script that completes commands, flags, and names in a shell
    Completions(Completions),
    /// Print a manual page (read it with `casewright man | man -l -`)
    Man(Man),
    /// Answer an editor by the Language Server Protocol, over standard input and output
    LanguageServer,
    /// Show what changes in the shop between two revisions of a piece
    Diff(Diff),
    /// Answer `git diff`, which runs this with its seven arguments
    #[command(hide = true)]
    GitDiff(GitDiff),
}

/// How findings are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// Full messages to read.
    Text,
    /// One line for each finding.
    Short,
    /// One JSON object per line, on standard output.
    Json,
    /// One SARIF 2.1.0 log, for code hosts.
    Sarif,
    /// Workflow commands that mark the lines of a pull request.
    Annotations,
}

/// How a difference is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum DiffFormat {
    /// Text to read on a terminal.
    Text,
    /// A comment for a pull request.
    Markdown,
    /// One JSON object.
    Json,
    /// One self-contained page.
    Html,
}

/// What is refused in addition to errors.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Deny {
    /// Warnings.
    Warnings,
}

// `casewright check`
#[derive(Args, Debug)]
pub struct Check {
    /// The specs to check; a folder stands for every spec in it and below it
    #[arg(required = true, value_name = "SPEC", value_hint = ValueHint::AnyPath)]
    pub specs: Vec<PathBuf>,
    /// Check the specs as they are staged in git, not as they are in the folder
    #[arg(long)]
    pub staged: bool,
    /// Choose how findings are printed
    #[arg(long, value_enum, default_value = "text")]
    pub format: Format,
    /// Also exit with status 1 when there are findings of this severity
    #[arg(long, value_enum)]
    pub deny: Option<Deny>,
    /// Use at most this many threads (default: one for each processor)
    #[arg(long, value_name = "COUNT")]
    pub threads: Option<NonZeroUsize>,
}

// `casewright build`
#[derive(Args, Debug)]
pub struct Build {
    /// The spec
    #[arg(value_name = "SPEC", value_hint = ValueHint::FilePath)]
    pub spec: PathBuf,
    /// Write the papers into this folder (default: `papers/` and the spec's name)
    #[arg(long, value_name = "FOLDER", value_hint = ValueHint::DirPath)]
    pub into: Option<PathBuf>,
    /// Also write nothing and exit with status 1 when there are findings of this severity
    #[arg(long, value_enum)]
    pub deny: Option<Deny>,
    /// Print this one paper as plain text and write no files
    #[arg(long, value_name = "PAPER")]
    pub print: Option<String>,
}

// `casewright watch`
#[derive(Args, Debug)]
pub struct Watch {
    /// The spec
    #[arg(value_name = "SPEC", value_hint = ValueHint::FilePath)]
    pub spec: PathBuf,
    /// Write the papers into this folder (default: `papers/` and the spec's name)
    #[arg(long, value_name = "FOLDER", value_hint = ValueHint::DirPath)]
    pub into: Option<PathBuf>,
    /// Also write nothing when there are findings of this severity
    #[arg(long, value_enum)]
    pub deny: Option<Deny>,
    /// Show the papers in a browser on this machine, which reloads them by itself
    /// (default port: 4650; 0 takes any free port)
    #[arg(
        long,
        value_name = "PORT",
        num_args = 0..=1,
        require_equals = true,
        default_missing_value = "4650"
    )]
    pub serve: Option<u16>,
}

// `casewright format`
#[derive(Args, Debug)]
pub struct Formatting {
    /// The specs to format; `-` reads standard input and writes standard output
    #[arg(required = true, value_name = "SPEC")]
    pub specs: Vec<PathBuf>,
    /// Change nothing, list the specs that would change, and exit with status 1 if there are any
    #[arg(long)]
    pub check: bool,
}

// `casewright mend`
#[derive(Args, Debug)]
pub struct Mend {
    /// The spec
    #[arg(value_name = "SPEC")]
    pub spec: PathBuf,
    /// Change nothing, list the sure fixes, and exit with status 1 if there are any
    #[arg(long, conflicts_with_all = ["list", "take"])]
    pub check: bool,
    /// Change nothing and list every fix on offer with its name
    #[arg(long, conflicts_with = "take")]
    pub list: bool,
    /// Make this one fix instead of all the sure ones
    #[arg(long, value_name = "NAME")]
    pub take: Option<String>,
}

// `casewright explain`
#[derive(Args, Debug)]
pub struct Explain {
    /// The name in brackets after `error`, `warning`, or `note`
    #[arg(value_name = "NAME")]
    pub name: Option<String>,
}

// `casewright trade`
#[derive(Args, Debug)]
pub struct Trade {
    /// The table to print (without one, all tables are listed)
    #[arg(value_name = "TABLE")]
    pub table: Option<String>,
}

// `casewright why`
#[derive(Args, Debug)]
pub struct Why {
    /// The spec
    #[arg(value_name = "SPEC", value_hint = ValueHint::FilePath)]
    pub spec: PathBuf,
    /// A name or mark, and what of it: `bottom`, `B dado`, `set-up 6`, `step 4`, `clamps`
    ///
    /// A name alone asks for everything that the papers print of it; before or behind it
    /// stands what is wanted: size, joint (dado, groove, rabbet, notch, slot, pocket, tenon,
    /// mortise, dovetail), hole (cup, pull, plate, leg), hinge, screw, pin, slide, rail, stop,
    /// set-up, flute, gap, movement, weight, balance, tip, diagonal, finish, clamp, board, step, or time. One of these alone asks for
    /// it in the whole piece. A number behind `set-up` asks for one of the router-jig sheet,
    /// and behind `step` for one of the assembly order.
    #[arg(value_name = "WHAT", required = true, num_args = 1..)]
    pub words: Vec<String>,
}

// `casewright measure`
#[derive(Args, Debug)]
pub struct Measure {
    /// The spec
    #[arg(value_name = "SPEC")]
    pub spec: PathBuf,
}

// `casewright record`
#[derive(Args, Debug)]
pub struct Record {
    /// The spec
    #[arg(value_name = "SPEC")]
    pub spec: PathBuf,
    /// The parts to record, by name or mark
    #[arg(required = true, value_name = "PART")]
    pub parts: Vec<String>,
    /// The day they were cut (default: today)
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub date: Option<Date>,
    /// Record the parts as spoiled, so that they are cut again
    #[arg(long, conflicts_with = "size")]
    pub spoiled: bool,
    /// Record the parts as sawn to size, without their joints yet
    #[arg(long, conflicts_with = "spoiled")]
    pub sawn: bool,
    /// Record the sizes that came out different: 'wide 16-9/32'
    #[arg(long, value_name = "SIZE")]
    pub size: Option<String>,
}

fn date(text: &str) -> Result<Date, String> {
    Date::parse(text).ok_or_else(|| match date_readings(text).as_deref() {
        Some([day]) => format!("write a date as year, month, day; did you mean {day}?"),
        _ => "write a date like this: 2026-03-14".to_owned(),
    })
}

// `casewright reference`
#[derive(Args, Debug)]
pub struct Reference {
    /// Write it into this file instead, as a page with the examples drawn
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub into: Option<PathBuf>,
}

// `casewright new`
#[derive(Args, Debug)]
pub struct New {
    /// The file to write; it must not exist yet
    #[arg(value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub file: PathBuf,
}

// `casewright completions`
#[derive(Args, Debug)]
pub struct Completions {
    /// The shell
    #[arg(value_enum, value_name = "SHELL")]
    pub shell: clap_complete::Shell,
}

// `casewright man`
#[derive(Args, Debug)]
pub struct Man {
    /// The command to print a page for (default: casewright as a whole)
    #[arg(value_name = "COMMAND")]
    pub command: Option<String>,
}

// `casewright diff`
#[derive(Args, Debug)]
#[command(
    after_help = "Exit status: 0 when nothing changes in the shop, 1 when something changes, and 2 when a revision has errors or can't be compared."
)]
pub struct Diff {
    /// The spec, or its earlier revision when you name a second file. With --from,
    /// it may also be a folder, which stands for every spec in it and below it
    #[arg(value_name = "SPEC")]
    pub spec: PathBuf,
    /// The later revision in a file of its own
    #[arg(value_name = "LATER", conflicts_with_all = ["from", "to"])]
    pub later: Option<PathBuf>,
    /// The earlier revision in git: a commit, branch, or tag
    #[arg(long, value_name = "REV")]
    pub from: Option<String>,
    /// The later revision in git (default: the working tree)
    #[arg(long, value_name = "REV", requires = "from")]
    pub to: Option<String>,
    /// Choose how the difference is printed
    #[arg(long, value_enum, default_value = "text")]
    pub format: DiffFormat,
    /// Write the difference into this file
    #[arg(long, value_name = "FILE")]
    pub into: Option<PathBuf>,
}

// `casewright git-diff`
#[derive(Args, Debug)]
pub struct GitDiff {
    /// path old-file old-hex old-mode new-file new-hex new-mode
    #[arg(required = true, num_args = 1..=9, allow_hyphen_values = true)]
    pub told: Vec<String>,
}
