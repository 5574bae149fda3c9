//! `casewright git-diff`: what `git diff` calls for a file whose attributes
//! name our driver (git-diff(1), GIT_EXTERNAL_DIFF).

use std::cell::OnceCell;
use std::path::Path;

use crate::diagnostics::render::plain;
use crate::model::{ReadError, SourceFiles, SourceText};
use crate::pipeline::{self, Compilation};
use crate::revision::{self, Comparison, Named};

use super::args::GitDiff;
use super::disk::{self, Disk};
use super::exit::Exit;
use super::git::{self, GitFiles};
use super::parallel::SideBySide;
use super::terminal::{Terminal, complain};

/// How git names the side on which there is no file.
const NOTHING: &str = "/dev/null";

/// Git stops at anything but 0, so whatever can't be told is said and passed by.
pub(super) fn run(diff: &GitDiff, terminal: &Terminal) -> Exit {
    let told: Vec<&str> = diff.told.iter().map(String::as_str).collect();
    // What follows the seven only says that the file was renamed.
    let [path, old_file, old_hex, _, new_file, new_hex, _, ..] = told.as_slice() else {
        if let [path] = told.as_slice() {
            terminal.print(&format!("{} still has a merge conflict\n\n", plain(path)));
            return Exit::Sound;
        }
        complain("git-diff takes the seven arguments that git gives it");
        return Exit::Misused;
    };
    let was = Side { path, file: old_file, hex: old_hex, later: false };
    let path = told.get(7).unwrap_or(path);
    let now = Side { path, file: new_file, hex: new_hex, later: true };
    let places = Places { was: &was, now: &now, found: OnceCell::new() };
    let (old, new) = (was.compile(&places), now.compile(&places));
    let (was_name, now_name) = (was.name(&places), now.name(&places));
    // A side that can't be read, though git has one, leaves nothing to compare.
    let sides = [(&old, old_file), (&new, new_file)];
    let is_whole = sides.iter().all(|(side, file)| side.is_some() || **file == NOTHING);
    let piece = match is_whole && [&old, &new].into_iter().flatten().any(Compilation::is_piece) {
        true => Comparison::of(
            old.as_ref().map(|compiled| Named { name: &was_name, compiled }),
            new.as_ref().map(|compiled| Named { name: &now_name, compiled }),
            &SideBySide,
        ),
        false => None,
    };
    let text = match piece {
        Some(piece) => revision::all_text(&[piece], terminal.look.width),
        // A file that others use means nothing by itself: its text is shown.
        None => git::printed(&["diff", "--no-ext-diff", "--no-index", "--", old_file, new_file])
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
    /// Where git says itself that it comes from. It names the working file
    /// for a staged text too, where that is the same; a hash of noughts stands
    /// for one that was never added.
    fn told(&self) -> Option<Place> {
        if self.file != self.path {
            return None;
        }
        let is_work = self.hex.bytes().all(|digit| digit == b'0');
        Some(if is_work { Place::Work } else { Place::Staged })
    }

    fn name(&self, places: &Places<'_>) -> String {
        let hex = self.hex.get(..7).unwrap_or(self.hex);
        let guessed = match places.found.get().map(|found| self.own(found)) {
            Some(Place::Guessed(commit)) => {
                format!(", with used files as of {}", commit.get(..7).unwrap_or(commit))
            }
            _ => String::new(),
        };
        match self.told() {
            Some(Place::Work) => format!("{} (working tree)", self.path),
            _ => format!("{} ({hex}{guessed})", self.path),
        }
    }

    fn compile(&self, places: &Places<'_>) -> Option<Compilation> {
        if self.file == NOTHING {
            return None;
        }
        match pipeline::check(&Handed { side: self, places }, self.path) {
            Ok(compiled) => Some(compiled),
            Err(error) => {
                complain(&disk::sentence(Path::new(self.path), &error));
                None
            }
        }
    }

    fn own<'p>(&self, [was, now]: &'p [Place; 2]) -> &'p Place {
        if self.later { now } else { was }
    }

    fn is_at(&self, place: &Place) -> bool {
        place.files().is_some_and(|files| files.hash(self.path).as_deref() == Some(self.hex))
    }

    /// The last commit that has it; the working tree where there is none.
    fn guessed(&self) -> Place {
        let found = format!("--find-object={}", self.hex);
        let arguments = ["log", "-1", "--all", "--format=%H", &found, "--", self.path];
        let commit = git::answer(Path::new(""), &arguments).filter(|commit| !commit.is_empty());
        let Some(commit) = commit else { return Place::Work };
        let own = Place::Guessed(commit.clone());
        // The commit that replaced it is found too: the one before has it.
        if self.is_at(&own) { own } else { Place::Guessed(format!("{commit}^")) }
    }
}

/// Where the files come from that a side uses.
#[derive(Clone, Debug)]
enum Place {
    Work,
    Staged,
    At(String),
    Guessed(String),
}

impl Place {
    fn files(&self) -> Option<GitFiles> {
        match self {
            Self::Work => None,
            Self::Staged => Some(GitFiles::staged()),
            Self::At(commit) | Self::Guessed(commit) => Some(GitFiles::at(commit.clone())),
        }
    }
}

/// The places of both sides, looked for once a spec uses a file. Git hands
/// over blobs and does not say which commits they belong to.
struct Places<'a> {
    was: &'a Side<'a>,
    now: &'a Side<'a>,
    found: OnceCell<[Place; 2]>,
}

impl Places<'_> {
    fn find(&self) -> [Place; 2] {
        let head = Place::At("HEAD".to_owned());
        let beside = |side: &Side<'_>| {
            let known = [&head, &Place::Staged].into_iter().find(|place| side.is_at(place));
            known.map_or_else(|| side.guessed(), Place::clone)
        };
        match (self.was.told(), self.now.told()) {
            (Some(was), Some(now)) => return [was, now],
            (None, Some(now)) => return [beside(self.was), now],
            (Some(was), None) => return [was, beside(self.now)],
            (None, None) => {}
        }
        if self.was.is_at(&head) && self.now.is_at(&Place::Staged) && !self.now.is_at(&head) {
            return [head, Place::Staged];
        }
        self.commit().unwrap_or_else(|| [self.was.guessed(), self.now.guessed()])
    }

    /// The commit that made the one of the other, as `git show` has it.
    fn commit(&self) -> Option<[Place; 2]> {
        let found = format!("--find-object={}", self.now.hex);
        let log = git::printed(&["log", "-20", "--all", "--format=%H", &found])?;
        log.lines().find_map(|commit| {
            let pair = [Place::At(format!("{commit}^")), Place::At(commit.to_owned())];
            (self.was.is_at(&pair[0]) && self.now.is_at(&pair[1])).then_some(pair)
        })
    }
}

/// The text that git has handed over, and beside it what it uses.
struct Handed<'a> {
    side: &'a Side<'a>,
    places: &'a Places<'a>,
}

impl SourceFiles for Handed<'_> {
    fn read(&self, from: Option<&str>, path: &str) -> Result<SourceText, ReadError> {
        if from.is_some() {
            let found = self.places.found.get_or_init(|| self.places.find());
            return match self.side.own(found).files() {
                Some(files) => files.read(from, path),
                None => Disk::for_spec(Path::new(self.side.path)).read(from, path),
            };
        }
        let file = self.side.file;
        let source = Disk::for_spec(Path::new(file)).read(None, file)?;
        Ok(SourceText { name: path.to_owned(), ..source })
    }
}
