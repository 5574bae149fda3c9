//! A change of one written size, and the piece as it is with it.

use crate::diagnostics::{self, Fix, Grade};
use crate::measure::{FileId, Length, Span};
use crate::model::{Give, MemoryFiles};
use crate::pipeline::causes::same;
use crate::pipeline::{Compilation, check_once};
use crate::plans::Workings;

/// Which way a size runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Along {
    /// Across: of a case, a rail, a stile.
    Wide,
    /// From front to back, or into the wood.
    Deep,
    /// Up.
    High,
}

/// Which way something comes out otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// In width.
    Narrower,
    /// In width.
    Wider,
    /// From front to back, or into the wood.
    LessDeep,
    /// Into the wood.
    Deeper,
    /// In height.
    Lower,
    /// In height.
    Higher,
    /// In height, of an opening: it is not moved.
    Shorter,
    /// In height, of an opening.
    Taller,
}

impl Along {
    /// How much less a size along this may be.
    pub(super) fn give(self, give: Give) -> Length {
        match self {
            Self::Wide => give.wide,
            Self::Deep => give.deep,
            Self::High => give.high,
        }
    }

    /// Which way a size changes that gets larger, or smaller.
    pub(super) fn way(self, is_larger: bool) -> Way {
        match (self, is_larger) {
            (Self::Wide, false) => Way::Narrower,
            (Self::Wide, true) => Way::Wider,
            (Self::Deep, false) => Way::LessDeep,
            (Self::Deep, true) => Way::Deeper,
            (Self::High, false) => Way::Lower,
            (Self::High, true) => Way::Higher,
        }
    }
}

/// A written size as it would be changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// What comes out otherwise: `cupboard`, `top rail of cupboard`.
    pub what: String,
    /// Which way.
    pub way: Way,
    /// By how much.
    pub by: Length,
    /// The statement that gives the size now.
    pub span: Span,
    /// What would stand there.
    pub text: String,
}

impl Change {
    /// The piece with it, where that is as sound as the piece is, has no finding that the
    /// piece has not, and is made of as many parts.
    pub(super) fn made(&self, compiled: &Compilation, work: &Workings<'_>) -> Option<Compilation> {
        let after = self.read(compiled)?;
        let is_known = |found| compiled.diagnostics.iter().any(|known| same(known, found));
        let parts = after.parts.as_ref()?.all.len();
        let holds = after.is_sound()
            && after.diagnostics.iter().all(is_known)
            && after.accepted.len() == compiled.accepted.len()
            && parts == work.parts.all.len();
        holds.then_some(after)
    }

    /// The changed text, read and checked.
    fn read(&self, compiled: &Compilation) -> Option<Compilation> {
        let fix = Fix::new(Grade::Choice, String::new(), self.span, self.text.clone());
        let mut files = MemoryFiles::default();
        for (_, source) in compiled.sources.iter() {
            files = files.with(&source.name, &source.text);
        }
        for (file, text) in diagnostics::mend(&compiled.sources, &[&fix]).texts {
            files = files.with(&compiled.sources.get(file)?.name, &text);
        }
        check_once(&files, &compiled.sources.get(FileId::default())?.name).ok()
    }
}
