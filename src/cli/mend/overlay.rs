//! The texts of a spec with edits that are not on disk yet.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::diagnostics::render;
use crate::model::{ReadError, SourceFiles, SourceText};

use super::super::disk::Disk;
use super::super::save::Staged;

/// Files from disk, some of them edited.
#[derive(Debug)]
pub(super) struct Overlay {
    disk: Disk,
    /// Every file that was read, by its name.
    read: RefCell<BTreeMap<String, OnDisk>>,
    edited: BTreeMap<String, Arc<str>>,
}

/// A file as it was found.
#[derive(Debug)]
struct OnDisk {
    path: PathBuf,
    text: Arc<str>,
}

impl Overlay {
    pub(super) fn for_spec(spec: &Path) -> Self {
        let disk = Disk::for_spec(spec);
        Self { disk, read: RefCell::default(), edited: BTreeMap::new() }
    }

    /// Edits a file that was read.
    pub(super) fn put(&mut self, name: &str, text: String) {
        self.edited.insert(name.to_owned(), text.into());
    }

    /// The files that differ from what is on disk: name, old text, new text.
    pub(super) fn changed(&self) -> Vec<(String, Arc<str>, Arc<str>)> {
        let read = self.read.borrow();
        let changed = |(name, new): (&String, &Arc<str>)| {
            let old = &read.get(name)?.text;
            (old != new).then(|| (name.clone(), Arc::clone(old), Arc::clone(new)))
        };
        self.edited.iter().filter_map(changed).collect()
    }

    /// Writes what has changed. All new texts lie ready before the first is
    /// put in its place.
    ///
    /// # Errors
    /// Why not, as a sentence.
    pub(super) fn save(&self) -> Result<(), String> {
        let mut staged = Vec::new();
        for (name, old, new) in self.changed() {
            let read = self.read.borrow();
            let Some(file) = read.get(&name) else { continue };
            let fresh = Staged::new(&file.path, &old, &new);
            let fresh = fresh.map_err(|error| sentence(&name, &error, "nothing was changed"))?;
            staged.push((name, fresh));
        }
        let mut done: Vec<String> = Vec::new();
        for (name, fresh) in staged {
            if let Err(error) = fresh.commit() {
                let others = match done.as_slice() {
                    [] => "nothing was changed".to_owned(),
                    done => format!("{} is already fixed", done.join(", ")),
                };
                return Err(sentence(&name, &error, &others));
            }
            done.push(render::plain(&name));
        }
        Ok(())
    }
}

fn sentence(name: &str, error: &std::io::Error, others: &str) -> String {
    format!("{} can't be written, and {others}: {error}", render::plain(name))
}

impl SourceFiles for Overlay {
    fn read(&self, from: Option<&str>, path: &str) -> Result<SourceText, ReadError> {
        let (path, source) = self.disk.open(from, path)?;
        let on_disk = OnDisk { path, text: Arc::clone(&source.text) };
        self.read.borrow_mut().entry(source.name.clone()).or_insert(on_disk);
        let text = self.edited.get(&source.name).cloned().unwrap_or(source.text);
        Ok(SourceText { name: source.name, text })
    }
}
