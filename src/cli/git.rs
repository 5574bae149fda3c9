//! Files as git has them: at a revision or staged. The git command is asked.

mod blob;
mod repository;

use std::io::ErrorKind;
use std::path::{Component, Path, PathBuf};
use std::process::{Command, Stdio};

use crate::model::{ReadError, SourceFiles, SourceText};

use super::paths;

pub(super) use repository::Repository;

/// The files of one spec as they were: those in its folder and below.
#[derive(Debug)]
pub(super) struct GitFiles {
    /// The folder that git is called in.
    here: PathBuf,
    /// The folder of the spec, as it is shown.
    folder: PathBuf,
    /// The same as git writes it: empty, or from the top of the repository to
    /// a slash.
    inside: String,
    /// A commit, branch or tag; empty for what is staged.
    revision: String,
}

impl GitFiles {
    /// The files of the repository whose top we are in, as they are staged.
    pub(super) fn staged() -> Self {
        Self::at(String::new())
    }

    /// Those at a commit.
    pub(super) fn at(commit: String) -> Self {
        let (here, folder) = (PathBuf::new(), PathBuf::new());
        Self { here, folder, inside: String::new(), revision: commit }
    }

    /// The hash of a file, where it is there.
    pub(super) fn hash(&self, file: &str) -> Option<String> {
        let file = paths::slashed(Path::new(file));
        let object = format!("{}:{}{file}", self.revision, self.inside);
        answer(&self.here, &["rev-parse", "--verify", "--quiet", &object])
    }
}

impl SourceFiles for GitFiles {
    fn read(&self, from: Option<&str>, path: &str) -> Result<SourceText, ReadError> {
        let file = match from {
            None => simple(Path::new(path)),
            Some(from) => {
                let path = Path::new(path);
                let inside = |part| matches!(part, Component::Normal(_) | Component::CurDir);
                if !path.components().all(inside) {
                    return Err(ReadError::Outside);
                }
                simple(&Path::new(from).parent().unwrap_or(Path::new("")).join(path))
            }
        };
        let own = file.strip_prefix(&self.folder).map_err(|_| ReadError::Outside)?;
        let own = format!("{}{}", self.inside, paths::slashed(own));
        let text = match self.revision.as_str() {
            "" => blob::staged(&self.here, &own)?,
            revision => blob::committed(&self.here, &format!("{revision}:{own}"))?,
        };
        Ok(SourceText { name: paths::slashed(&file), text: text.into() })
    }
}

/// A path without the `.` that only says where one is.
pub(super) fn simple(path: &Path) -> PathBuf {
    path.components().filter(|part| *part != Component::CurDir).collect()
}

/// A call of git in a folder, which neither asks nor shows anything.
fn git(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new("git");
    if !folder.as_os_str().is_empty() {
        command.arg("-C").arg(folder);
    }
    command.args(arguments).stdin(Stdio::null()).stderr(Stdio::null()).stdout(Stdio::piped());
    command
}

/// Why git can't be run at all, as a sentence's end.
fn no_git(error: &std::io::Error) -> String {
    match error.kind() {
        ErrorKind::NotFound => "git is not installed, or it is not on the path".to_owned(),
        _ => format!("git can't be run: {error}"),
    }
}

/// The first line that git answers; nothing where it refuses.
pub(super) fn answer(folder: &Path, arguments: &[&str]) -> Option<String> {
    let output = git(folder, arguments).output().ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    output.status.success().then(|| text.lines().next().unwrap_or_default().to_owned())
}

/// What git lists between noughts; nothing where it refuses.
fn listed(folder: &Path, arguments: &[&str]) -> Vec<String> {
    let output = git(folder, arguments).output().ok();
    let printed = output.filter(|output| output.status.success()).map(|output| output.stdout);
    let printed = printed.unwrap_or_default();
    let entries = printed.split(|byte| *byte == 0).filter(|entry| !entry.is_empty());
    entries.map(|entry| String::from_utf8_lossy(entry).into_owned()).collect()
}

/// What git prints, whatever it thinks of it.
pub(super) fn printed(arguments: &[&str]) -> Option<String> {
    let output = git(Path::new(""), arguments).output().ok()?;
    Some(String::from_utf8_lossy(&output.stdout).into_owned())
}
