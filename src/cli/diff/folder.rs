//! Every spec of a folder, by git.

use std::collections::{BTreeMap, BTreeSet};
use std::num::NonZeroUsize;
use std::path::{Path, PathBuf};
use std::thread::available_parallelism;

use crate::pipeline::Compilation;
use crate::revision::{Comparison, Named, Verdict};

use super::spec::at_revision;
use super::{Compared, Revisions};
use crate::cli::disk;
use crate::cli::parallel::{self, SideBySide};
use crate::cli::paths;
use crate::cli::spec_source::SpecSource;
use crate::cli::terminal::complain;

/// Compares every piece that either revision has in a folder and below; those
/// in which nothing changes are left out.
pub(super) fn compare(folder: &Path, revisions: &Revisions) -> Result<Compared, String> {
    let pairs = pairs(folder, revisions)?;
    let threads = available_parallelism().unwrap_or(NonZeroUsize::MIN);
    let mut all = Compared { failed: pairs.failed, ..Compared::default() };
    for one in parallel::each(&pairs.all, threads, |pair| compared(pair, revisions)) {
        all.failed |= !one.complaints.is_empty();
        all.sources.extend(one.sources);
        all.pieces.extend(one.piece);
        one.complaints.iter().for_each(|why| complain(why));
    }
    Ok(all)
}

/// What a spec was called, and what it is called; one of them is there.
struct SpecNames {
    was: Option<PathBuf>,
    now: Option<PathBuf>,
}

struct Pairs {
    /// By their later name, or by the only one.
    all: Vec<SpecNames>,
    /// A folder could not be read.
    failed: bool,
}

fn pairs(folder: &Path, revisions: &Revisions) -> Result<Pairs, String> {
    let (was, now) = (revisions.was.specs(folder), revisions.now.specs(folder));
    if was.files.is_empty() && now.files.is_empty() {
        return Err(format!("there is no .case file in {}", paths::display(folder)));
    }
    let failed = !now.all_read;
    let mut was: BTreeSet<PathBuf> = was.files.into_iter().collect();
    let now: BTreeSet<PathBuf> = now.files.into_iter().collect();
    let mut pairs: BTreeMap<PathBuf, SpecNames> = BTreeMap::new();
    for (old, new) in revisions.repository.renames(&revisions.from, revisions.to.as_deref()) {
        // One that has come into the folder or left it is the same piece too.
        if was.remove(&old) || now.contains(&new) {
            pairs.insert(new.clone(), SpecNames { was: Some(old), now: Some(new) });
        }
    }
    for name in &now {
        pairs
            .entry(name.clone())
            .or_insert_with(|| SpecNames { was: was.take(name), now: Some(name.clone()) });
    }
    for name in was {
        pairs.entry(name.clone()).or_insert(SpecNames { was: Some(name), now: None });
    }
    Ok(Pairs { all: pairs.into_values().collect(), failed })
}

/// What became of one of them.
#[derive(Default)]
struct One {
    /// Nothing for a file that others use, and where nothing changes.
    piece: Option<Comparison>,
    sources: Vec<String>,
    /// Why it can't be read.
    complaints: Vec<String>,
}

fn compared(pair: &SpecNames, revisions: &Revisions) -> One {
    let mut one = One::default();
    let was = read(pair.was.as_deref(), &revisions.was, Some(&revisions.from), &mut one);
    let now = read(pair.now.as_deref(), &revisions.now, revisions.to.as_deref(), &mut one);
    let sides = [&was, &now];
    // A file that others use means nothing by itself.
    let is_piece = sides.iter().filter_map(|side| side.as_ref()).any(|(_, own)| own.is_piece());
    if !one.complaints.is_empty() || !is_piece {
        return one;
    }
    if let (Some(was), Some(now)) = (&was, &now)
        && is_same(&was.1, &now.1)
    {
        return one;
    }
    let piece = Comparison::of(was.as_ref().map(named), now.as_ref().map(named), &SideBySide);
    one.piece = piece.filter(|piece| piece.verdict() != Verdict::Nothing);
    one
}

/// A spec with its name, where it is on this side and can be read.
fn read(
    spec: Option<&Path>,
    source: &SpecSource,
    revision: Option<&str>,
    one: &mut One,
) -> Option<(String, Compilation)> {
    let spec = spec?;
    match source.compile(spec) {
        Ok(compiled) => {
            one.sources.extend(compiled.sources.iter().map(|(_, source)| source.name.clone()));
            Some((paths::display(spec), compiled))
        }
        Err(error) => {
            let why = disk::sentence(spec, &error);
            one.complaints.push(match revision {
                Some(revision) => at_revision(&why, revision),
                None => why,
            });
            None
        }
    }
}

fn named((name, compiled): &(String, Compilation)) -> Named<'_> {
    Named { name, compiled }
}

/// True where all texts are the same: whatever is wrong with them was wrong
/// before.
fn is_same(was: &Compilation, now: &Compilation) -> bool {
    let texts = |side: &Compilation| -> Vec<_> {
        side.sources.iter().map(|(_, source)| source.text.clone()).collect()
    };
    texts(was) == texts(now)
}
