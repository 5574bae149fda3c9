//! The repository that a spec lies in: which revisions and specs it has, and
//! what a spec was called before.

use std::collections::BTreeMap;
use std::path::{Component, Path, PathBuf};

use crate::diagnostics::render::plain;

use super::{GitFiles, answer, git, listed, no_git, simple};
use crate::cli::found::{self, Found};
use crate::cli::paths;

/// A repository, looked at from a folder in it.
#[derive(Debug)]
pub(in crate::cli) struct Repository {
    /// The folder, as it was typed.
    here: PathBuf,
    /// The same from the top of the repository: empty, or up to a slash.
    prefix: String,
}

impl Repository {
    /// The one that a file or folder lies in, which may be gone by now.
    ///
    /// # Errors
    /// Why there is none, as a sentence.
    pub(in crate::cli) fn of(path: &Path) -> Result<Self, String> {
        let path = simple(path);
        let is_there = |folder: &&Path| folder.as_os_str().is_empty() || folder.is_dir();
        let here = path.ancestors().find(is_there).unwrap_or(Path::new("")).to_path_buf();
        let output = git(&here, &["rev-parse", "--show-prefix"]).output();
        let output = output.map_err(|error| no_git(&error))?;
        if !output.status.success() {
            let path = if path.as_os_str().is_empty() { Path::new(".") } else { &path };
            return Err(format!("{} is not in a git repository", paths::display(path)));
        }
        let prefix =
            String::from_utf8_lossy(&output.stdout).trim_end_matches(['\r', '\n']).to_owned();
        Ok(Self { here, prefix })
    }

    /// Looks whether there is such a revision.
    ///
    /// # Errors
    /// That there is none, as a sentence.
    pub(in crate::cli) fn knows(&self, revision: &str) -> Result<(), String> {
        let shown = plain(revision);
        if revision.is_empty() || revision.starts_with('-') {
            return Err(format!("`{shown}` is not a revision"));
        }
        let tree = format!("{revision}^{{tree}}");
        match answer(&self.here, &["rev-parse", "--verify", "--quiet", &tree]) {
            Some(_) => Ok(()),
            None => Err(format!("this git repository has no revision `{shown}`")),
        }
    }

    /// The files of a spec at a revision; staged ones where that is empty.
    pub(in crate::cli) fn files(&self, spec: &Path, revision: &str) -> GitFiles {
        let spec = simple(spec);
        let inside = match self.named(&spec).rsplit_once('/') {
            Some((folder, _)) => format!("{folder}/"),
            None => String::new(),
        };
        let folder = spec.parent().unwrap_or(Path::new("")).to_path_buf();
        GitFiles { here: self.here.clone(), folder, inside, revision: revision.to_owned() }
    }

    /// True for a folder at a revision; a staged one where that is empty.
    pub(in crate::cli) fn is_folder(&self, path: &Path, revision: &str) -> bool {
        if revision.is_empty() {
            return path.is_dir() || !self.specs(path, revision).files.is_empty();
        }
        let object = format!("{revision}:{}", self.named(&simple(path)));
        answer(&self.here, &["cat-file", "-t", &object]).as_deref() == Some("tree")
    }

    /// Every spec in and below a folder at a revision; staged ones where that
    /// is empty. As on disk, hidden ones and links are left out.
    pub(in crate::cli) fn specs(&self, folder: &Path, revision: &str) -> Found {
        let folder = simple(folder);
        let named = self.named(&folder);
        let staged = format!(":(top,literal){named}");
        let mut call = match revision {
            "" => vec!["ls-files", "-z", "--stage", "--full-name", "--", &staged],
            _ => vec!["ls-tree", "-r", "-z", "--full-tree", revision],
        };
        // Of the top there is no name, and all of it is listed without one.
        if !revision.is_empty() && !named.is_empty() {
            call.extend(["--", &named]);
        }
        // The mode and so on, a tab, the path from the top.
        let entries = listed(&self.here, &call);
        let mut files: Vec<PathBuf> = entries
            .iter()
            .filter(|line| line.starts_with("100"))
            .filter_map(|line| line.split_once('\t'))
            .filter_map(|(_, path)| Path::new(path).strip_prefix(&named).ok())
            .filter(|path| found::is_spec(path))
            .map(|path| folder.join(path))
            .collect();
        files.sort();
        // What waits for a merge is listed several times.
        files.dedup();
        Found { files, all_read: true }
    }

    /// What was renamed from one revision to the other, or to the working
    /// tree: the new name of an old one.
    pub(in crate::cli) fn renames(
        &self,
        from: &str,
        to: Option<&str>,
    ) -> BTreeMap<PathBuf, PathBuf> {
        let mut call = vec!["-c", "diff.relative=false", "diff", "--no-ext-diff", "--name-status"];
        call.extend(["-z", "-M", "--diff-filter=R", from]);
        call.extend(to);
        // Photos are not looked at.
        call.extend(["--", ":(top)*.case"]);
        let entries = listed(&self.here, &call);
        // `R100`, the old name, the new one.
        let pairs = entries.chunks_exact(3);
        pairs.map(|pair| (self.shown(&pair[1]), self.shown(&pair[2]))).collect()
    }

    /// A path from the top of the repository, as git writes it.
    fn named(&self, path: &Path) -> String {
        let mut above: Vec<&str> = self.prefix.split_terminator('/').collect();
        let (base, path) = match path.is_absolute() && !self.here.is_absolute() {
            true => match self.truly(path) {
                Some(truly) => truly,
                // Nothing in the repository has such a name.
                None => return paths::slashed(path),
            },
            false => (self.here.clone(), path.to_path_buf()),
        };
        let path = path.as_path();
        let mut here = Some(base.as_path());
        while let Some(folder) = here.filter(|folder| !path.starts_with(folder)) {
            here = folder.parent();
            above.pop();
        }
        let mut own = path.strip_prefix(here.unwrap_or(Path::new(""))).unwrap_or(path);
        while let Ok(rest) = own.strip_prefix("..") {
            own = rest;
            above.pop();
        }
        let own = paths::slashed(own);
        above.extend(Some(own.as_str()).filter(|own| !own.is_empty()));
        above.join("/")
    }

    /// The folder we are in and a path in the same repository, both from the
    /// root; nothing for a path that lies elsewhere.
    fn truly(&self, path: &Path) -> Option<(PathBuf, PathBuf)> {
        let here = dunce::canonicalize(Path::new(".").join(&self.here)).ok()?;
        let top = here.ancestors().nth(self.prefix.split_terminator('/').count())?;
        let is_plain = path.components().all(|part| part != Component::ParentDir);
        if is_plain && path.starts_with(top) {
            return Some((here.clone(), path.to_path_buf()));
        }
        // A link or a way back leads there. The last name may be a link of the
        // repository's own, and what is staged may be gone from the disk.
        let beside = |folder: &Path| {
            let within = path.strip_prefix(folder).ok()?;
            Some(dunce::canonicalize(folder).ok()?.join(within))
        };
        let known = path.ancestors().skip(1).find_map(beside);
        let whole = dunce::canonicalize(path).ok();
        let found = known.into_iter().chain(whole).find(|path| path.starts_with(top))?;
        Some((here.clone(), found))
    }

    /// A path from the top of the repository, as it could have been typed.
    fn shown(&self, named: &str) -> PathBuf {
        let mut path = self.here.clone();
        let mut own = Path::new(&self.prefix).components().peekable();
        let mut rest = Path::new(named).components().peekable();
        while own.peek().is_some() && own.peek() == rest.peek() {
            own.next();
            rest.next();
        }
        for _ in own {
            match path.components().next_back() {
                Some(Component::Normal(_)) => {
                    path.pop();
                }
                _ => path.push(".."),
            }
        }
        path.extend(rest);
        path
    }
}
