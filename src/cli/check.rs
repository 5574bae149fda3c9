//! `casewright check`

use std::num::NonZeroUsize;
use std::path::Path;
use std::thread::available_parallelism;

use crate::checks;
use crate::diagnostics::render::{self, Finding, Look, RuleText};
use crate::diagnostics::{Severity, counted};
use crate::model::{self, Role, SourceFiles};
use crate::pipeline::{self, Compilation};

use super::ahead;
use super::args::{Check, Deny, Format};
use super::disk::{self, Disk};
use super::exit::Exit;
use super::find::{self, Candidate};
use super::parallel;
use super::paths;
use super::spec_source::SpecSource;
use super::terminal::{Terminal, complain};

pub(super) fn run(check: &Check, terminal: &Terminal) -> Exit {
    let source = match check.staged {
        true => SpecSource::staged(),
        false => Ok(SpecSource::Disk),
    };
    let source = match source {
        Ok(source) => source,
        Err(why) => {
            complain(&why);
            return Exit::Misused;
        }
    };
    let candidates = find::candidates(&check.specs, &source);
    let own = || (candidates.all.len() > 1).then(available_parallelism).and_then(Result::ok);
    let threads = check.threads.or_else(own).unwrap_or(NonZeroUsize::MIN);
    let look = terminal.look;
    let first = |candidate: &Candidate| {
        // What can't be read is said when it is compiled.
        if candidate.found
            && source.text(&candidate.path).is_ok_and(|text| model::role(&text) != Role::Piece)
        {
            return Checked::default();
        }
        checked(&candidate.path, &source, check, look)
    };
    let mut all = parallel::each(&candidates.all, threads, first);
    reconsider(&candidates.all, &source, &mut all, |path| checked(path, &source, check, look));

    let mut exit = if candidates.failed { Exit::Misused } else { Exit::Sound };
    exit = all.iter().filter_map(|checked| checked.exit).fold(exit, Exit::or);
    print(&mut all, check.format, exit, terminal);
    if candidates.searched {
        terminal.tell(&tally(&all));
    }
    exit
}

/// What became of one file.
#[derive(Default)]
struct Checked {
    /// How it ended; `None` for a file that was left out.
    exit: Option<Exit>,
    /// The worst that was found.
    worst: Option<Severity>,
    /// Its name, then those of the files it uses.
    names: Vec<String>,
    /// What is said to people.
    told: String,
    /// What is printed, in pieces.
    printed: Vec<String>,
    /// What goes into a log.
    findings: Vec<Finding>,
    /// Why it can't be read.
    unread: Option<String>,
}

fn checked(spec: &Path, source: &SpecSource, check: &Check, look: Look) -> Checked {
    let name = paths::slashed(spec);
    let compiled = match source.compile(spec) {
        Ok(compiled) => compiled,
        Err(error) => {
            let why = disk::sentence(spec, &error);
            let printed = match check.format {
                Format::Annotations => vec![render::annotation_unread(&name, &why)],
                _ => Vec::new(),
            };
            let exit = Some(Exit::Misused);
            return Checked { exit, printed, unread: Some(why), ..Checked::default() };
        }
    };
    let (sources, found) = (&compiled.sources, &compiled.diagnostics);
    let mut checked = Checked {
        exit: Some(judge(&compiled, check.deny)),
        worst: found.iter().map(|found| found.severity).min(),
        names: sources.iter().map(|(_, source)| source.name.clone()).collect(),
        ..Checked::default()
    };
    match check.format {
        Format::Text => {
            checked.told = pages(spec, &compiled, look) + &ahead::told(&compiled);
        }
        Format::Short => checked.printed.push(render::short(sources, found)),
        Format::Json => checked.printed.push(render::json(sources, found)),
        Format::Annotations => checked.printed = render::annotations(sources, found),
        Format::Sarif => checked.findings = render::sarif_findings(sources, found),
    }
    checked
}

/// A file that was left out, is used by none of the others and can't be read
/// to its end, or has a word that no file begins a line with, may have been a
/// piece: its fault must not pass in silence.
fn reconsider(
    candidates: &[Candidate],
    source: &SpecSource,
    all: &mut [Checked],
    compile: impl Fn(&Path) -> Checked,
) {
    let used: Vec<String> = all.iter().flat_map(|checked| checked.names.clone()).collect();
    for (candidate, checked) in candidates.iter().zip(all) {
        if checked.exit.is_none()
            && !used.contains(&disk::name(&candidate.path))
            && source.text(&candidate.path).is_ok_and(|text| model::role(&text) == Role::Doubtful)
        {
            *checked = compile(&candidate.path);
        }
    }
}

/// Prints everything in order. What several specs share is marked once.
fn print(all: &mut [Checked], format: Format, exit: Exit, terminal: &Terminal) {
    let mut marked = std::collections::BTreeSet::new();
    for checked in all.iter_mut() {
        if let Some(why) = &checked.unread {
            complain(why);
        }
        terminal.tell(&checked.told);
        if format == Format::Annotations {
            checked.printed.retain(|command| marked.insert(command.clone()));
        }
        if !checked.printed.is_empty() && !terminal.print(&checked.printed.concat()) {
            return;
        }
    }
    if format == Format::Sarif {
        let unread: Vec<String> = all.iter().filter_map(|checked| checked.unread.clone()).collect();
        let specs: Vec<String> =
            all.iter().filter_map(|checked| checked.names.first().cloned()).collect();
        let rules: Vec<RuleText> = checks::all().map(rule_text).collect();
        let run = render::Run {
            version: env!("CARGO_PKG_VERSION"),
            rules: &rules,
            specs: &specs,
            unread: &unread,
            exit: exit.code(),
        };
        let findings = all.iter_mut().flat_map(|checked| std::mem::take(&mut checked.findings));
        terminal.print(&render::sarif(&run, findings.collect()));
    }
}

fn rule_text(rule: &checks::Rule) -> RuleText {
    RuleText {
        slug: rule.slug,
        severity: rule.severity,
        short: checks::first_sentence(rule.finds).to_owned(),
        full: format!("{} {}", rule.finds, rule.why),
        help: checks::explain(rule.slug).unwrap_or_default(),
    }
}

/// `9 specs: 7 sound, 1 with warnings, 1 with errors; skipped 2 files without
/// a case`.
fn tally(all: &[Checked]) -> String {
    let specs: Vec<&Checked> = all.iter().filter(|checked| checked.exit.is_some()).collect();
    let count = |is: &dyn Fn(&Checked) -> bool| specs.iter().filter(|spec| is(spec)).count();
    let read = |spec: &Checked| spec.unread.is_none();
    let parts = [
        (count(&|spec| read(spec) && spec.worst.is_none()), "sound"),
        (count(&|spec| spec.worst == Some(Severity::Note)), "with notes"),
        (count(&|spec| spec.worst == Some(Severity::Warning)), "with warnings"),
        (count(&|spec| spec.worst == Some(Severity::Error)), "with errors"),
        (count(&|spec| !read(spec)), "unreadable"),
    ];
    let parts: Vec<String> = parts
        .into_iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, what)| format!("{count} {what}"))
        .collect();
    let mut line = counted(specs.len(), "spec");
    if !parts.is_empty() {
        line = format!("{line}: {}", parts.join(", "));
    }
    let left_out = all.len() - specs.len();
    if left_out > 0 {
        line = format!("{line}; skipped {} without a case", counted(left_out, "file"));
    }
    line + "\n"
}

/// Compiles a spec from disk; says why where it can't be read.
pub(super) fn compile(spec: &Path) -> Option<Compilation> {
    compile_from(&Disk::for_spec(spec), spec)
}

/// Compiles a spec from these files; says why where it can't be read.
pub(super) fn compile_from(files: &dyn SourceFiles, spec: &Path) -> Option<Compilation> {
    match pipeline::check(files, &spec.to_string_lossy()) {
        Ok(compiled) => Some(compiled),
        Err(error) => {
            complain(&disk::sentence(spec, &error));
            None
        }
    }
}

/// Sound or not.
pub(super) fn judge(compiled: &Compilation, deny: Option<Deny>) -> Exit {
    let has = |severity| compiled.diagnostics.iter().any(|d| d.severity == severity);
    let denied = deny == Some(Deny::Warnings) && has(Severity::Warning);
    if has(Severity::Error) || denied { Exit::Unsound } else { Exit::Sound }
}

/// Prints every finding and what the run comes to.
pub(super) fn report(spec: &Path, compiled: &Compilation, terminal: &Terminal) {
    terminal.tell(&pages(spec, compiled, terminal.look));
}

/// Every finding and what the run comes to.
pub(super) fn pages(spec: &Path, compiled: &Compilation, look: Look) -> String {
    let pages = render::terminal(&compiled.sources, &compiled.diagnostics, look);
    let name = paths::slashed(spec);
    format!("{pages}{}\n", render::summary(&name, &compiled.diagnostics))
}
