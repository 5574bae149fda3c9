//! The specs that are open, compiled.

use std::cell::OnceCell;
use std::collections::BTreeMap;

use crate::editor::Names;
use crate::measure::{FileId, Unit};
use crate::model::ReadError;
use crate::pipeline::Compilation;
use crate::vocabulary;

/// What is known of a text that is open, read as the first of its spec.
#[derive(Debug, Default)]
pub(super) struct Spec {
    /// What it compiled to; `None` before it has been, and where it can't be read.
    pub(super) now: Option<Compiled>,
    /// Why it can't be read.
    pub(super) unread: Option<ReadError>,
    /// The last time that it had a piece, where it has none now.
    pub(super) before: Option<Compiled>,
    /// It must be compiled again before anything is said of it.
    pub(super) stale: bool,
}

/// All of them, by name.
pub(super) type Specs = BTreeMap<String, Spec>;

/// A compilation, and its names once somebody asks.
#[derive(Debug)]
pub(super) struct Compiled {
    pub(super) compilation: Compilation,
    names: OnceCell<Names>,
}

impl Compiled {
    pub(super) fn new(compilation: Compilation) -> Self {
        Self { compilation, names: OnceCell::new() }
    }

    pub(super) fn names(&self) -> &Names {
        self.names.get_or_init(|| Names::of(&self.compilation))
    }

    /// The file of this name among its texts.
    pub(super) fn file(&self, name: &str) -> Option<FileId> {
        let mut all = self.compilation.sources.iter();
        all.find_map(|(file, source)| (source.name == name).then_some(file))
    }

    /// The unit of bare numbers in it.
    pub(super) fn unit(&self) -> Unit {
        let first = self.compilation.tree(FileId::default());
        first.and_then(vocabulary::stated_unit).map_or(Unit::Inch, |said| said.value)
    }
}

impl Spec {
    /// Takes a new compilation; the last one with a piece stays at hand.
    pub(super) fn take(&mut self, new: Result<Compilation, ReadError>) {
        self.stale = false;
        let old = self.now.take();
        match new {
            Ok(compilation) => {
                if compilation.piece.is_some() {
                    self.before = None;
                } else if let Some(old) = old.filter(|old| old.compilation.piece.is_some()) {
                    self.before = Some(old);
                }
                self.now = Some(Compiled::new(compilation));
                self.unread = None;
            }
            Err(error) => {
                self.unread = Some(error);
            }
        }
    }
}
