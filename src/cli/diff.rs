//! `casewright diff`

use std::ffi::OsString;
use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use crate::diagnostics::render::plain;
use crate::model::ReadError;
use crate::pipeline::{self, Compilation};
use crate::revision::{self, Difference, Named, Verdict};

use super::args::{Diff, DiffFormat};
use super::check;
use super::exit::Exit;
use super::git::GitFiles;
use super::shown;
use super::terminal::{Terminal, complain};

/// A revision with what it is called.
type Side = (String, Compilation);

pub(super) fn run(diff: &Diff, terminal: &Terminal) -> Exit {
    let Some((was, now)) = sides(diff) else { return Exit::Misused };
    let difference = revision::compare(
        Named { name: &was.0, compiled: &was.1 },
        Named { name: &now.0, compiled: &now.1 },
    );
    let text = match diff.format {
        DiffFormat::Text => revision::text(&difference, terminal.look.width),
        DiffFormat::Markdown => revision::markdown(&difference),
        DiffFormat::Json => revision::json(&difference),
        DiffFormat::Html => revision::html(&difference),
    };
    let exit = exit(&difference);
    let Some(file) = &diff.into else {
        terminal.print(&text);
        return exit;
    };
    let shown = shown::path(file);
    if [&was, &now].iter().any(|(_, compiled)| is_source(file, compiled)) {
        complain(&format!("{shown} is one of the specs; nothing was written"));
        return Exit::Misused;
    }
    match write(file, text.as_bytes()) {
        Ok(()) => {
            terminal.tell(&format!("the difference is in {shown}\n"));
            exit
        }
        Err(error) => {
            complain(&format!("{shown} can't be written: {error}; nothing was changed"));
            Exit::Misused
        }
    }
}

/// As diff tools have it.
fn exit(difference: &Difference) -> Exit {
    match difference.verdict() {
        Verdict::Nothing => Exit::Sound,
        Verdict::Something => Exit::Unsound,
        Verdict::Untold => Exit::Misused,
    }
}

/// Both revisions; says why where one can't be had.
fn sides(diff: &Diff) -> Option<(Side, Side)> {
    let disk = |spec: &Path| -> Option<Side> { Some((shown::path(spec), check::compile(spec)?)) };
    if let Some(later) = &diff.later {
        return Some((disk(&diff.spec)?, disk(later)?));
    }
    let Some(from) = &diff.from else {
        complain("name a second file, or with --from a revision of git");
        return None;
    };
    let was = at_revision(&diff.spec, from)?;
    let now = match &diff.to {
        Some(to) => at_revision(&diff.spec, to)?,
        None => {
            let (name, compiled) = disk(&diff.spec)?;
            (format!("{name} (working tree)"), compiled)
        }
    };
    Some((was, now))
}

fn at_revision(spec: &Path, revision: &str) -> Option<Side> {
    let shown = shown::path(spec);
    let files = match GitFiles::for_spec(spec, revision) {
        Ok(files) => files,
        Err(why) => {
            complain(&why);
            return None;
        }
    };
    match pipeline::check(&files, &spec.to_string_lossy()) {
        Ok(compiled) => Some((format!("{shown} ({revision})"), compiled)),
        Err(error) => {
            let place = format!("{shown} at revision {}", plain(revision));
            complain(&match error {
                ReadError::Missing => files.why_missing(&shown),
                ReadError::Other(why) => format!("{place} can't be read: {why}"),
                ReadError::TooLarge => format!("{place} is longer than 8 MiB"),
                ReadError::NotText => format!("{place} is no UTF-8 text"),
                ReadError::Outside => format!("{place} lies outside its folder"),
            });
            None
        }
    }
}

/// True for a file that a compilation was read from.
fn is_source(file: &Path, compiled: &Compilation) -> bool {
    let Ok(file) = file.canonicalize() else { return false };
    let mut names = compiled.sources.iter().map(|(_, source)| Path::new(&source.name));
    names.any(|name| name.canonicalize().is_ok_and(|name| name == file))
}

/// Writes a file as a whole: whoever looks finds the old one or the new one.
fn write(file: &Path, bytes: &[u8]) -> io::Result<()> {
    // A pipe or a device can't be replaced, only written to.
    if file.metadata().is_ok_and(|about| !about.is_file() && !about.is_dir()) {
        return fs::write(file, bytes);
    }
    // A link stays one.
    let file: PathBuf = file.canonicalize().unwrap_or_else(|_| file.to_path_buf());
    let mut beside = OsString::from(".");
    beside.push(file.file_name().ok_or_else(|| io::Error::other("it has no name"))?);
    beside.push(format!(".casewright-{}", std::process::id()));
    let beside = file.with_file_name(beside);
    let mut fresh = File::create_new(&beside)?;
    let written = fresh.write_all(bytes).and_then(|()| fs::rename(&beside, &file));
    if written.is_err() {
        let _ = fs::remove_file(&beside);
    }
    written
}
