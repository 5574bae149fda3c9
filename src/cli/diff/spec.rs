//! One spec, by its file or by git.

use std::path::Path;

use crate::diagnostics::render::plain;
use crate::model::ReadError;
use crate::pipeline::Compilation;
use crate::revision::{Comparison, Named};

use super::{Compared, Revisions};
use crate::cli::disk;
use crate::cli::git::simple;
use crate::cli::parallel::SideBySide;
use crate::cli::paths;
use crate::cli::spec_source::SpecSource;

/// Compares two files.
pub(super) fn files(was: &Path, now: &Path) -> Result<Compared, String> {
    let side = |spec: &Path| -> Result<_, String> {
        let compiled =
            SpecSource::Disk.compile(spec).map_err(|error| disk::sentence(spec, &error))?;
        Ok(Side { name: paths::display(spec), compiled })
    };
    Ok(one(Some(&side(was)?), Some(&side(now)?)))
}

/// Compares a spec as it was with what it is, whatever it was called.
pub(super) fn compare(spec: &Path, revisions: &Revisions) -> Result<Compared, String> {
    let Revisions { repository, from, to, .. } = revisions;
    let was = |spec: &Path| side(spec, &revisions.was, Some(from));
    let now = |spec: &Path| side(spec, &revisions.now, to.as_deref());
    let renames = || repository.renames(from, to.as_deref());
    let (mut old, mut new) = (was(spec)?, now(spec)?);
    match (&old, &new) {
        (None, None) => {
            let shown = paths::display(spec);
            let from = plain(from);
            return Err(match to {
                Some(to) => {
                    format!(
                        "there is no file {shown} at revision {from} or at revision {}",
                        plain(to)
                    )
                }
                None => {
                    format!("there is no file {shown} at revision {from} or in the working tree")
                }
            });
        }
        (None, Some(_)) => {
            let before = renames().into_iter().find(|(_, new)| *new == simple(spec));
            old = before.map_or(Ok(None), |(old, _)| was(&old))?;
        }
        (Some(_), None) => {
            let after = renames().remove(&simple(spec));
            new = after.map_or(Ok(None), |after| now(&after))?;
        }
        (Some(_), Some(_)) => {}
    }
    Ok(one(old.as_ref(), new.as_ref()))
}

/// A revision with what it is called.
struct Side {
    name: String,
    compiled: Compilation,
}

impl Side {
    fn named(&self) -> Named<'_> {
        Named { name: &self.name, compiled: &self.compiled }
    }
}

/// A spec at a revision, where it is there.
fn side(spec: &Path, source: &SpecSource, revision: Option<&str>) -> Result<Option<Side>, String> {
    let shown = paths::display(spec);
    match (source.compile(spec), revision) {
        (Ok(compiled), revision) => {
            let name = format!("{shown} ({})", revision.unwrap_or("working tree"));
            Ok(Some(Side { name, compiled }))
        }
        (Err(ReadError::Missing), _) => Ok(None),
        (Err(error), None) => Err(disk::sentence(spec, &error)),
        (Err(error), Some(revision)) => Err(at_revision(&disk::sentence(spec, &error), revision)),
    }
}

fn one(was: Option<&Side>, now: Option<&Side>) -> Compared {
    let mut compared = Compared::default();
    for side in [was, now].into_iter().flatten() {
        compared.note(&side.compiled);
    }
    compared.pieces.extend(Comparison::of(was.map(Side::named), now.map(Side::named), &SideBySide));
    compared
}

pub(super) fn at_revision(sentence: &str, revision: &str) -> String {
    format!("at revision {}: {sentence}", plain(revision))
}
