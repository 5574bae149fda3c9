//! What may be typed.

use std::num::NonZeroUsize;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum, ValueHint};

use crate::measure::{Date, date_readings};

/// Compiles a cabinet written as text to the shop's papers.
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
    /// Colour in messages
    #[arg(long, global = true, value_enum, default_value = "auto", value_name = "WHEN")]
    pub color: Colour,
    /// Columns for messages; the terminal's own unless given
    #[arg(long, global = true, value_name = "COLUMNS", value_parser = clap::value_parser!(u16).range(40..=200))]
    pub width: Option<u16>,
}

/// When to use colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Colour {
    /// On a terminal.
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Check specs, or every spec in a folder
    Check(Check),
    /// Check a spec and write its papers into a folder
    Build(Build),
    /// Build a spec again whenever it or a file it uses is saved
    Watch(Watch),
    /// Write specs again in one look: indents, columns, spaces
    Format(Formatting),
    /// Make the edits that mend a spec
    Mend(Mend),
    /// Explain what a finding means; without a name, list them all
    Explain(Explain),
    /// Show where a size of a part or opening comes from
    Why(Why),
    /// Print an empty measuring form, to fill in and put into the spec
    Measure(Measure),
    /// Record parts as cut, in the spec itself
    Record(Record),
    /// Print the figures of the trade that it works with, and their sources
    Trade(Trade),
    /// Print the language reference
    Reference,
    /// Start a new spec from a short example
    New(New),
    /// Print a script that completes commands, flags and names in a shell
    Completions(Completions),
    /// Print a page of the manual; read it with `casewright man | man -l -`
    Man(Man),
    /// Say what changes in the shop between two revisions of a piece
    Diff(Diff),
    /// Answer `git diff`, which calls this with its seven arguments
    #[command(hide = true)]
    GitDiff(GitDiff),
}

/// How findings are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// Pages to read.
    Text,
    /// One line each.
    Short,
    /// One JSON object a line, on standard output.
    Json,
    /// One SARIF 2.1.0 log, for code hosts.
    Sarif,
    /// Workflow commands, which mark the lines of a pull request.
    Annotations,
}

/// How a difference is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum DiffFormat {
    /// To read on a terminal.
    Text,
    /// A comment for a pull request.
    Markdown,
    /// One JSON object.
    Json,
    /// One self-contained page.
    Html,
}

/// What is refused besides errors.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Deny {
    /// Warnings.
    Warnings,
}

/// `casewright check`
#[derive(Args, Debug)]
pub struct Check {
    /// The specs; of a folder, every spec in it and below
    #[arg(required = true, value_name = "SPEC", value_hint = ValueHint::AnyPath)]
    pub specs: Vec<PathBuf>,
    /// Check what is staged in git, not what lies in the folder
    #[arg(long)]
    pub staged: bool,
    /// How findings are printed
    #[arg(long, value_enum, default_value = "text")]
    pub format: Format,
    /// Exit with 1 for these too
    #[arg(long, value_enum)]
    pub deny: Option<Deny>,
    /// Threads at most; one for each processor unless given
    #[arg(long, value_name = "COUNT")]
    pub threads: Option<NonZeroUsize>,
}

/// `casewright build`
#[derive(Args, Debug)]
pub struct Build {
    /// The spec
    #[arg(value_name = "SPEC", value_hint = ValueHint::FilePath)]
    pub spec: PathBuf,
    /// The folder; `papers/` and the spec's name unless given
    #[arg(long, value_name = "FOLDER", value_hint = ValueHint::DirPath)]
    pub into: Option<PathBuf>,
    /// Exit with 1 and write nothing for these too
    #[arg(long, value_enum)]
    pub deny: Option<Deny>,
    /// Print one paper as plain text instead of writing any
    #[arg(long, value_name = "PAPER")]
    pub print: Option<String>,
}

/// `casewright watch`
#[derive(Args, Debug)]
pub struct Watch {
    /// The spec
    #[arg(value_name = "SPEC", value_hint = ValueHint::FilePath)]
    pub spec: PathBuf,
    /// The folder; `papers/` and the spec's name unless given
    #[arg(long, value_name = "FOLDER", value_hint = ValueHint::DirPath)]
    pub into: Option<PathBuf>,
    /// Write nothing for these too
    #[arg(long, value_enum)]
    pub deny: Option<Deny>,
    /// Show the papers to browsers on this machine, which reload them by
    /// themselves; on port 4650 unless given, on any free one for 0
    #[arg(
        long,
        value_name = "PORT",
        num_args = 0..=1,
        require_equals = true,
        default_missing_value = "4650"
    )]
    pub serve: Option<u16>,
}

/// `casewright format`
#[derive(Args, Debug)]
pub struct Formatting {
    /// The specs; `-` reads standard input and writes standard output
    #[arg(required = true, value_name = "SPEC")]
    pub specs: Vec<PathBuf>,
    /// Change nothing; list the specs that would change, and exit with 1 for them
    #[arg(long)]
    pub check: bool,
}

/// `casewright mend`
#[derive(Args, Debug)]
pub struct Mend {
    /// The spec
    #[arg(value_name = "SPEC")]
    pub spec: PathBuf,
    /// Change nothing; list the sure mends that wait, and exit with 1 for them
    #[arg(long, conflicts_with_all = ["list", "take"])]
    pub check: bool,
    /// Change nothing; list every mend on offer with its name
    #[arg(long, conflicts_with = "take")]
    pub list: bool,
    /// Make this one instead of all that are sure
    #[arg(long, value_name = "NAME")]
    pub take: Option<String>,
}

/// `casewright explain`
#[derive(Args, Debug)]
pub struct Explain {
    /// The name in brackets behind `error` or `warning`
    #[arg(value_name = "NAME")]
    pub name: Option<String>,
}

/// `casewright trade`
#[derive(Args, Debug)]
pub struct Trade {
    /// One table; without a name, list them all
    #[arg(value_name = "TABLE")]
    pub table: Option<String>,
}

/// `casewright why`
#[derive(Args, Debug)]
pub struct Why {
    /// The spec
    #[arg(value_name = "SPEC", value_hint = ValueHint::FilePath)]
    pub spec: PathBuf,
    /// A part, its mark, or an opening: `console.bottom`, `press`
    #[arg(value_name = "NAME")]
    pub name: String,
}

/// `casewright measure`
#[derive(Args, Debug)]
pub struct Measure {
    /// The spec
    #[arg(value_name = "SPEC")]
    pub spec: PathBuf,
}

/// `casewright record`
#[derive(Args, Debug)]
pub struct Record {
    /// The spec
    #[arg(value_name = "SPEC")]
    pub spec: PathBuf,
    /// The parts, by name or mark
    #[arg(required = true, value_name = "PART")]
    pub parts: Vec<String>,
    /// The day; today unless given
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub date: Option<Date>,
    /// They are spoiled, and are to be cut again
    #[arg(long, conflicts_with = "size")]
    pub spoiled: bool,
    /// They are sawn to size, and have no joints yet
    #[arg(long, conflicts_with = "spoiled")]
    pub sawn: bool,
    /// What came out different: 'wide 16-9/32'
    #[arg(long, value_name = "SIZE")]
    pub size: Option<String>,
}

fn date(text: &str) -> Result<Date, String> {
    Date::parse(text).ok_or_else(|| match date_readings(text).as_deref() {
        Some([day]) => format!("a date is written year, month, day; did you mean {day}?"),
        _ => "a date is written as 2026-03-14".to_owned(),
    })
}

/// `casewright new`
#[derive(Args, Debug)]
pub struct New {
    /// The file to write; it must not be there yet
    #[arg(value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub file: PathBuf,
}

/// `casewright completions`
#[derive(Args, Debug)]
pub struct Completions {
    /// The shell
    #[arg(value_enum, value_name = "SHELL")]
    pub shell: clap_complete::Shell,
}

/// `casewright man`
#[derive(Args, Debug)]
pub struct Man {
    /// The command; the whole of casewright without one
    #[arg(value_name = "COMMAND")]
    pub command: Option<String>,
}

/// `casewright diff`
#[derive(Args, Debug)]
#[command(
    after_help = "Exit code 0: nothing changes in the shop; 1: something changes; 2: trouble, or a side has errors."
)]
pub struct Diff {
    /// The spec; its earlier revision where a second file is named. With --from
    /// a folder too, for every spec in it and below
    #[arg(value_name = "SPEC")]
    pub spec: PathBuf,
    /// The later revision, as a file of its own
    #[arg(value_name = "LATER", conflicts_with_all = ["from", "to"])]
    pub later: Option<PathBuf>,
    /// The earlier revision in git: a commit, branch or tag
    #[arg(long, value_name = "REV")]
    pub from: Option<String>,
    /// The later revision in git; the working tree unless given
    #[arg(long, value_name = "REV", requires = "from")]
    pub to: Option<String>,
    /// How the difference is printed
    #[arg(long, value_enum, default_value = "text")]
    pub format: DiffFormat,
    /// Write it into a file instead
    #[arg(long, value_name = "FILE")]
    pub into: Option<PathBuf>,
}

/// `casewright git-diff`
#[derive(Args, Debug)]
pub struct GitDiff {
    /// path old-file old-hex old-mode new-file new-hex new-mode
    #[arg(required = true, num_args = 1..=9, allow_hyphen_values = true)]
    pub told: Vec<String>,
}
