//! Files at a revision of git, asked of the git command.

use std::io::{ErrorKind, Read as _};
use std::path::{Component, Path, PathBuf};
use std::process::{Command, Stdio};

use crate::diagnostics::render::plain;
use crate::model::{ReadError, SourceFiles, SourceText};
use crate::syntax::LONGEST_FILE;

use super::shown;

/// The files of one spec as they were: those in its folder and below.
#[derive(Debug)]
pub(super) struct GitFiles {
    /// The folder of the spec as it was typed, which git is called in.
    folder: PathBuf,
    /// A commit, branch or tag; empty for what is staged.
    revision: String,
}

impl GitFiles {
    /// The spec's files at a revision.
    ///
    /// # Errors
    /// Why there can be none, as a sentence.
    pub(super) fn for_spec(spec: &Path, revision: &str) -> Result<Self, String> {
        if revision.is_empty() || revision.starts_with('-') {
            return Err(format!("`{}` is no revision", plain(revision)));
        }
        let folder = simple(spec.parent().unwrap_or(Path::new("")));
        if !folder.as_os_str().is_empty() && !folder.is_dir() {
            return Err(format!("there is no folder {}", shown::path(&folder)));
        }
        Ok(Self { folder, revision: revision.to_owned() })
    }

    /// The files of the repository whose top we are in, as they are staged.
    pub(super) fn staged() -> Self {
        Self { folder: PathBuf::new(), revision: String::new() }
    }

    /// Those at a commit.
    pub(super) fn at(commit: String) -> Self {
        Self { folder: PathBuf::new(), revision: commit }
    }

    /// The hash of a file, where it is there.
    pub(super) fn hash(&self, file: &str) -> Option<String> {
        answer(&self.folder, &["rev-parse", "--verify", "--quiet", &self.object(file)])
    }

    fn object(&self, file: &str) -> String {
        format!("{}:./{}", self.revision, shown::slashed(Path::new(file)))
    }

    /// The reason why there is no such file, as a sentence.
    pub(super) fn why_missing(&self, spec: &str) -> String {
        let revision = plain(&self.revision);
        if answer(&self.folder, &["rev-parse", "--git-dir"]).is_none() {
            return format!("{spec} lies in no git repository");
        }
        let tree = format!("{}^{{tree}}", self.revision);
        match answer(&self.folder, &["rev-parse", "--verify", "--quiet", &tree]) {
            None => format!("`{revision}` is no revision of this git repository"),
            Some(_) => format!("there is no file {spec} at revision {revision}"),
        }
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
        let text = blob(&self.folder, &self.object(&own.to_string_lossy()))?;
        Ok(SourceText { name: shown::slashed(&file), text: text.into() })
    }
}

/// A path without its `.` parts.
fn simple(path: &Path) -> PathBuf {
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

/// The first line that git answers; nothing where it refuses.
pub(super) fn answer(folder: &Path, arguments: &[&str]) -> Option<String> {
    let output = git(folder, arguments).output().ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    output.status.success().then(|| text.lines().next().unwrap_or_default().to_owned())
}

/// What git prints, whatever it thinks of it.
pub(super) fn printed(arguments: &[&str]) -> Option<String> {
    let output = git(Path::new(""), arguments).output().ok()?;
    Some(String::from_utf8_lossy(&output.stdout).into_owned())
}

/// The text of a file that git keeps.
fn blob(folder: &Path, object: &str) -> Result<String, ReadError> {
    let mut child = match git(folder, &["cat-file", "blob", object]).spawn() {
        Ok(child) => child,
        Err(error) if error.kind() == ErrorKind::NotFound => {
            return Err(ReadError::Other("git is not installed, or not on the path".to_owned()));
        }
        Err(error) => return Err(ReadError::Other(format!("git can't be run: {error}"))),
    };
    let mut bytes = Vec::new();
    let read = match child.stdout.take() {
        Some(out) => out.take(LONGEST_FILE as u64 + 1).read_to_end(&mut bytes),
        None => Ok(0),
    };
    // Whoever writes on into a closed pipe is stopped by that.
    let status = child.wait().map_err(|error| ReadError::Other(error.to_string()))?;
    read.map_err(|error| ReadError::Other(error.to_string()))?;
    if bytes.len() > LONGEST_FILE {
        return Err(ReadError::TooLarge);
    }
    if !status.success() {
        return Err(ReadError::Missing);
    }
    String::from_utf8(bytes).map_err(|_| ReadError::NotText)
}
