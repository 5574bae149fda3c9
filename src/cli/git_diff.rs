//! `casewright git-diff`: what `git diff` calls for a file whose attributes
//! name our driver (git-diff(1), GIT_EXTERNAL_DIFF).

use std::cell::OnceCell;
use std::path::Path;

use crate::diagnostics::render::plain;
use crate::measure::FileId;
use crate::model::{ReadError, SourceFiles, SourceText};
use crate::pipeline::{self, Compilation};
use crate::revision::{self, Named};
use crate::syntax;

use super::args::GitDiff;
use super::disk::{self, Disk};
use super::exit::Exit;
use super::git::{self, GitFiles};
use super::terminal::{Terminal, complain};

/// How git names the side on which there is no file.
const NOTHING: &str = "/dev/null";

/// Git stops at anything but 0, so whatever can't be told is said and passed by.
pub(super) fn run(diff: &GitDiff, terminal: &Terminal) -> Exit {
    let told: Vec<&str> = diff.told.iter().map(String::as_str).collect();
    // What follows the seven only says that the file was renamed.
    let [path, old_file, old_hex, _, new_file, new_hex, _, ..] = told.as_slice() else {
        if let [path] = told.as_slice() {
            terminal.print(&format!("{} is not merged yet\n\n", plain(path)));
            return Exit::Sound;
        }
        complain("git-diff takes seven arguments, as git gives them");
        return Exit::Misused;
    };
    let was = Side { path, file: old_file, hex: old_hex, later: false };
    let path = told.get(7).unwrap_or(path);
    let now = Side { path, file: new_file, hex: new_hex, later: true };
    let text = match (was.compile(), now.compile()) {
        (Some(old), Some(new)) if is_piece(&old) || is_piece(&new) => {
            let difference = revision::compare(
                Named { name: &was.name(), compiled: &old },
                Named { name: &now.name(), compiled: &new },
            );
            revision::text(&difference, terminal.look.width)
        }
        (None, Some(new)) if *old_file == NOTHING && is_piece(&new) => {
            whole("new piece", &now, &new)
        }
        (Some(old), None) if *new_file == NOTHING && is_piece(&old) => {
            whole("piece gone", &was, &old)
        }
        // A file that others use means nothing by itself: its text is shown.
        _ => git::printed(&["diff", "--no-ext-diff", "--no-index", "--", old_file, new_file])
            .unwrap_or_default(),
    };
    terminal.print(&format!("{text}\n"));
    Exit::Sound
}

/// One of the two sides.
struct Side<'a> {
    /// Where it lies in the repository.
    path: &'a str,
    /// Where git has put its text.
    file: &'a str,
    hex: &'a str,
    later: bool,
}

impl Side<'_> {
    fn is_work(&self) -> bool {
        self.file == self.path
    }

    fn name(&self) -> String {
        match self.hex.get(..7) {
            _ if self.is_work() => format!("{} (working tree)", self.path),
            Some(hex) => format!("{} ({hex})", self.path),
            None => self.path.to_owned(),
        }
    }

    fn compile(&self) -> Option<Compilation> {
        if self.file == NOTHING {
            return None;
        }
        let files = Handed { side: self, used: OnceCell::new() };
        match pipeline::check(&files, self.path) {
            Ok(compiled) => Some(compiled),
            Err(error) => {
                complain(&disk::sentence(Path::new(self.path), &error));
                None
            }
        }
    }

    /// Where the files that it uses come from. Git says which blob this is, not
    /// which commit it belongs to; so: the working tree, else what is checked
    /// out or staged, else the last commit that has it.
    fn used(&self) -> Box<dyn SourceFiles> {
        let disk = || Box::new(Disk::for_spec(Path::new(self.path)));
        if self.is_work() {
            return disk();
        }
        let (head, staged) = (GitFiles::at("HEAD".to_owned()), GitFiles::staged());
        let likely = if self.later { [staged, head] } else { [head, staged] };
        for files in likely {
            if files.hash(self.path).as_deref() == Some(self.hex) {
                return Box::new(files);
            }
        }
        let found = format!("--find-object={}", self.hex);
        let arguments = ["log", "-1", "--all", "--format=%H", &found, "--", self.path];
        let Some(commit) = git::answer(Path::new(""), &arguments).filter(|c| !c.is_empty()) else {
            return disk();
        };
        let own = GitFiles::at(commit.clone());
        match own.hash(self.path).as_deref() == Some(self.hex) {
            true => Box::new(own),
            // The commit that replaced it: the one before still has it.
            false => Box::new(GitFiles::at(format!("{commit}^"))),
        }
    }
}

/// The text that git has handed over, and beside it what it uses.
struct Handed<'a> {
    side: &'a Side<'a>,
    used: OnceCell<Box<dyn SourceFiles>>,
}

impl SourceFiles for Handed<'_> {
    fn read(&self, from: Option<&str>, path: &str) -> Result<SourceText, ReadError> {
        if from.is_some() {
            return self.used.get_or_init(|| self.side.used()).read(from, path);
        }
        let file = self.side.file;
        let source = Disk::for_spec(Path::new(file)).read(None, file)?;
        Ok(SourceText { name: path.to_owned(), ..source })
    }
}

/// True for a spec, false for a file that specs use.
fn is_piece(compiled: &Compilation) -> bool {
    let Some(main) = compiled.sources.get(FileId(0)) else { return false };
    let (tree, _) = syntax::parse(FileId(0), &main.text);
    tree.items.iter().any(|item| match item {
        syntax::Item::Statement(statement) => {
            matches!(statement.word.text().as_str(), "job" | "case")
        }
        _ => false,
    })
}

/// What is said of a spec that is only on one side.
fn whole(what: &str, side: &Side<'_>, compiled: &Compilation) -> String {
    let job = compiled.piece.as_ref().map_or("", |piece| piece.job.name.as_str());
    let parts = compiled.parts.as_ref().map_or(0, |parts| parts.all.len());
    let errors = match compiled.is_sound() {
        true => "",
        false => "; it has errors",
    };
    format!("{}\n{what}: {}, {parts} parts{errors}\n", plain(job), plain(&side.name()))
}
