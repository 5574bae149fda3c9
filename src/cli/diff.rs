//! `casewright diff`

mod folder;
mod spec;

use std::path::Path;

use crate::pipeline::Compilation;
use crate::revision::{self, Comparison, Verdict};

use super::args::{Diff, DiffFormat};
use super::exit::Exit;
use super::git::Repository;
use super::paths;
use super::spec_source::SpecSource;
use super::terminal::{Terminal, complain};
use super::whole_file;

pub(super) fn run(diff: &Diff, terminal: &Terminal) -> Exit {
    let compared = match compare(diff) {
        Ok(compared) => compared,
        Err(why) => {
            complain(&why);
            return Exit::Misused;
        }
    };
    let pieces = &compared.pieces;
    let text = match diff.format {
        // That nothing changes is not known of what can't be read.
        _ if pieces.is_empty() && compared.failed => return Exit::Misused,
        DiffFormat::Text => revision::all_text(pieces, terminal.look.width),
        DiffFormat::Markdown => revision::all_markdown(pieces),
        DiffFormat::Json => revision::all_json(pieces),
        DiffFormat::Html => revision::all_html(pieces),
    };
    let exit = if compared.failed { Exit::Misused } else { Exit::Sound };
    let exit = pieces.iter().map(exit_of).fold(exit, Exit::or);
    let Some(file) = &diff.into else {
        terminal.print(&text);
        return exit;
    };
    let shown = paths::display(file);
    if is_source(file, &compared.sources) {
        complain(&format!("{shown} is one of the specs, so nothing was written"));
        return Exit::Misused;
    }
    match whole_file::write(file, text.as_bytes()) {
        Ok(()) => {
            terminal.tell(&format!("the difference is in {shown}\n"));
            exit
        }
        Err(error) => {
            complain(&format!("{shown} can't be written, and nothing was changed: {error}"));
            Exit::Misused
        }
    }
}

/// What was compared.
#[derive(Default)]
struct Compared {
    pieces: Vec<Comparison>,
    /// The names of all texts that were read.
    sources: Vec<String>,
    /// Something could not be read, as was said.
    failed: bool,
}

impl Compared {
    fn note(&mut self, compiled: &Compilation) {
        self.sources.extend(compiled.sources.iter().map(|(_, source)| source.name.clone()));
    }
}

/// The two revisions of what git keeps.
struct Revisions {
    repository: Repository,
    from: String,
    to: Option<String>,
    was: SpecSource,
    now: SpecSource,
}

/// # Errors
/// Why nothing can be compared, as a sentence.
fn compare(diff: &Diff) -> Result<Compared, String> {
    if let Some(later) = &diff.later {
        return spec::files(&diff.spec, later);
    }
    let Some(from) = &diff.from else {
        return Err("name a second file, or name a git revision with --from".to_owned());
    };
    let repository = || Repository::of(&diff.spec);
    let own = repository()?;
    for revision in [Some(from), diff.to.as_ref()].into_iter().flatten() {
        own.knows(revision)?;
    }
    let revisions = Revisions {
        was: SpecSource::Git(repository()?, from.clone()),
        now: match &diff.to {
            Some(to) => SpecSource::Git(repository()?, to.clone()),
            None => SpecSource::Disk,
        },
        repository: own,
        from: from.clone(),
        to: diff.to.clone(),
    };
    let is_folder = [&revisions.was, &revisions.now].iter().any(|it| it.is_folder(&diff.spec));
    match is_folder {
        true => folder::compare(&diff.spec, &revisions),
        false => spec::compare(&diff.spec, &revisions),
    }
}

/// As diff tools have it.
fn exit_of(piece: &Comparison) -> Exit {
    match piece.verdict() {
        Verdict::Nothing => Exit::Sound,
        Verdict::Something => Exit::Unsound,
        Verdict::Untold => Exit::Misused,
    }
}

/// True for a file that was read.
fn is_source(file: &Path, sources: &[String]) -> bool {
    let Ok(file) = file.canonicalize() else { return false };
    let mut names = sources.iter().map(Path::new);
    names.any(|name| name.canonicalize().is_ok_and(|name| name == file))
}
