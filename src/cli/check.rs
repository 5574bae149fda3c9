//! `casewright check`

use std::path::Path;

use crate::diagnostics::{Severity, render};
use crate::pipeline::{self, Compilation};

use super::args::{Check, Deny, Format};
use super::disk::{self, Disk};
use super::exit::Exit;
use super::terminal::{Terminal, complain};

pub(super) fn run(check: &Check, terminal: &Terminal) -> Exit {
    let mut exit = Exit::Sound;
    for spec in &check.specs {
        let Some(compiled) = compile(spec) else {
            exit = exit.or(Exit::Misused);
            continue;
        };
        exit = exit.or(judge(&compiled, check.deny));
        match check.format {
            Format::Text => report(spec, &compiled, terminal),
            Format::Short => {
                if !terminal.print(&render::short(&compiled.sources, &compiled.diagnostics)) {
                    return exit;
                }
            }
            Format::Json => {
                if !terminal.print(&render::json(&compiled.sources, &compiled.diagnostics)) {
                    return exit;
                }
            }
        }
    }
    exit
}

/// Compiles a spec from disk; says why where it can't be read.
pub(super) fn compile(spec: &Path) -> Option<Compilation> {
    let disk = Disk::for_spec(spec);
    match pipeline::check(&disk, &spec.to_string_lossy()) {
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
    let pages = render::terminal(&compiled.sources, &compiled.diagnostics, terminal.look);
    terminal.tell(&pages);
    let name = spec.to_string_lossy();
    terminal.tell(&format!("{}\n", render::summary(&name, &compiled.diagnostics)));
}
