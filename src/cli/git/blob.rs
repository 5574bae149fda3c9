//! The texts that git keeps.

use std::io::{self, BufRead, BufReader, Write as _};
use std::path::Path;
use std::process::Stdio;

use crate::model::ReadError;
use crate::syntax::LONGEST_FILE;

use super::{answer, git, listed, no_git};

/// The text of a file at a revision, `REVISION:PATH`. Links are followed, as
/// the disk follows them.
pub(super) fn committed(folder: &Path, object: &str) -> Result<String, ReadError> {
    if object.contains('\n') {
        // Git is asked in lines: for such a name by the hash it stands for.
        let hash = answer(folder, &["rev-parse", "--verify", "--quiet", object]);
        return read(folder, &hash.ok_or(ReadError::Missing)?, &[]);
    }
    read(folder, object, &["--follow-symlinks"])
}

/// The text of a file as it is staged, by its path from the top.
pub(super) fn staged(folder: &Path, path: &str) -> Result<String, ReadError> {
    let within = format!(":(top,literal){path}");
    // `MODE HASH STAGE`, a tab, the path; of a folder, all that is in it.
    let entries = listed(folder, &["ls-files", "-z", "--stage", "--full-name", "--", &within]);
    let entry = entries.first().and_then(|entry| entry.split_once('\t'));
    let Some((about, _)) = entry.filter(|(_, known)| *known == path) else {
        return Err(ReadError::Missing);
    };
    let about: Vec<&str> = about.split(' ').collect();
    match about.as_slice() {
        ["120000", ..] => Err(ReadError::Other(
            "it is staged as a link, and casewright does not follow links".to_owned(),
        )),
        [_, hash, "0"] => read(folder, hash, &[]),
        _ => Err(ReadError::Other("it still has a merge conflict".to_owned())),
    }
}

fn other(error: io::Error) -> ReadError {
    ReadError::Other(error.to_string())
}

fn read(folder: &Path, object: &str, options: &[&str]) -> Result<String, ReadError> {
    let mut child = git(folder, &[&["cat-file", "--batch"], options].concat())
        .stdin(Stdio::piped())
        .spawn()
        .map_err(|error| ReadError::Other(no_git(&error)))?;
    // A git that refuses hears nothing, and answers nothing.
    let asked = child.stdin.take().map(|mut input| writeln!(input, "{object}"));
    let told = child.stdout.take().map(|out| told(&mut BufReader::new(out)));
    // Whoever writes on into a closed pipe is stopped by that.
    child.wait().map_err(other)?;
    match (asked, told) {
        (Some(Ok(())), Some(told)) => told,
        _ => Err(ReadError::Missing),
    }
}

/// `HASH blob SIZE`, a line end and the text; or why there is none.
fn told(answer: &mut impl BufRead) -> Result<String, ReadError> {
    let mut head = Vec::new();
    answer.read_until(b'\n', &mut head).map_err(other)?;
    let head = String::from_utf8_lossy(&head);
    let head: Vec<&str> = head.split_whitespace().collect();
    let size = match head.as_slice() {
        [_, "blob", size] => size.parse().unwrap_or(usize::MAX),
        [_, "tree", _] => return Err(ReadError::Other("it is a folder".to_owned())),
        ["symlink", _] => {
            return Err(ReadError::Other(
                "it is a link that leads out of the repository".to_owned(),
            ));
        }
        ["dangling" | "notdir", _] => {
            return Err(ReadError::Other("it is a link to a file that does not exist".to_owned()));
        }
        ["loop", _] => return Err(ReadError::Other("it is a link to itself".to_owned())),
        _ => return Err(ReadError::Missing),
    };
    if size > LONGEST_FILE {
        return Err(ReadError::TooLarge);
    }
    let mut bytes = vec![0; size];
    answer.read_exact(&mut bytes).map_err(other)?;
    String::from_utf8(bytes).map_err(|_| ReadError::NotText)
}
