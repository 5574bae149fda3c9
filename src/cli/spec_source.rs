//! Where specs are taken from: the disk, or what git has.

use std::path::Path;

use crate::model::{ReadError, SourceFiles};
use crate::pipeline::{self, Compilation};

use super::disk::Disk;
use super::found::{self, Found};
use super::git::Repository;

/// A place that has specs.
#[derive(Debug)]
pub(super) enum SpecSource {
    /// The disk.
    Disk,
    /// A revision of git; what is staged where that is empty.
    Git(Repository, String),
}

impl SpecSource {
    /// What is staged in the repository that we are in.
    ///
    /// # Errors
    /// Why there is none, as a sentence.
    pub(super) fn staged() -> Result<Self, String> {
        Ok(Self::Git(Repository::of(Path::new("."))?, String::new()))
    }

    pub(super) fn is_folder(&self, path: &Path) -> bool {
        match self {
            Self::Disk => path.is_dir(),
            Self::Git(repository, revision) => repository.is_folder(path, revision),
        }
    }

    /// Every spec in and below a folder.
    pub(super) fn specs(&self, folder: &Path) -> Found {
        match self {
            Self::Disk => found::below(folder),
            Self::Git(repository, revision) => repository.specs(folder, revision),
        }
    }

    /// # Errors
    /// Why the spec can't be read.
    pub(super) fn compile(&self, spec: &Path) -> Result<Compilation, ReadError> {
        pipeline::check(&*self.files(spec), &spec.to_string_lossy())
    }

    /// # Errors
    /// Why the spec can't be read.
    pub(super) fn text(&self, spec: &Path) -> Result<std::sync::Arc<str>, ReadError> {
        self.files(spec).read(None, &spec.to_string_lossy()).map(|source| source.text)
    }

    fn files(&self, spec: &Path) -> Box<dyn SourceFiles> {
        match self {
            Self::Disk => Box::new(Disk::for_spec(spec)),
            Self::Git(repository, revision) => Box::new(repository.files(spec, revision)),
        }
    }
}
