//! The stages in order: the front door for commands, tests and editors.
//! Knows neither disk nor terminal.

mod at_line;
mod causes;
mod near_misses;
mod doubted;
mod wrong_unit;

pub use near_misses::{Change, Fewer, NearMiss, NearSetting, Saves, Way};

use std::borrow::Cow;
use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::sync::OnceLock;

use crate::checks;
use crate::diagnostics::{self, Diagnostic, Fix, Severity, Sink, Sources};
use crate::measure::{FileId, Length, Span, Unit};
use crate::model::{self, Buffers, Loaded, Lowered, Piece, ReadError, Role, SourceFiles, Standing};
use crate::parts::{self, Part, Parts};
use crate::plans::Workings;
use crate::syntax::Tree;
use crate::vocabulary;

/// What became of a spec.
#[derive(Debug)]
pub struct Compilation {
    /// Its texts.
    pub sources: Sources,
    /// Everything found, in order.
    pub diagnostics: Vec<Diagnostic>,
    /// What was found and is accepted, with the place of its `accept` among those of
    /// the piece.
    pub accepted: Vec<(Diagnostic, usize)>,
    /// The solved piece, if it could be solved.
    pub piece: Option<Piece>,
    /// Where it could not, what stands of it: for whoever is still writing it.
    pub standing: Option<Standing>,
    /// Its parts, if they could be built.
    pub parts: Option<Parts>,
    role: Role,
    trees: OnceLock<Vec<Tree>>,
    near_misses: OnceLock<Vec<NearMiss>>,
    near_settings: OnceLock<Vec<NearSetting>>,
}

impl Compilation {
    /// What can be worked out of the piece; `None` where it has no parts.
    #[must_use]
    pub fn workings(&self) -> Option<Workings<'_>> {
        Some(Workings::of(self.piece.as_ref()?, self.parts.as_ref()?))
    }

    /// Small changes of its sizes that would save a sheet or a board, worked out when they are
    /// first asked for; none of a piece with errors. `work` are its own workings.
    #[must_use]
    pub fn near_misses(&self, work: &Workings<'_>) -> &[NearMiss] {
        let find = || match self.is_sound() {
            true => near_misses::find(self, work),
            false => Vec::new(),
        };
        self.near_misses.get_or_init(find)
    }

    /// Small changes of its sizes that would make two settings of the fence or of the router
    /// one, as [`Compilation::near_misses`].
    #[must_use]
    pub fn near_settings(&self, work: &Workings<'_>) -> &[NearSetting] {
        let find = || match self.is_sound() {
            true => near_misses::find_settings(self, work),
            false => Vec::new(),
        };
        self.near_settings.get_or_init(find)
    }

    /// True for a piece, or what was to be one; false for a file that others use.
    #[must_use]
    pub fn is_piece(&self) -> bool {
        self.role == Role::Piece
    }

    /// The tree of each text, by its [`FileId`]. Only an editor and
    /// `packet.json` ask for them, so they are read again when they do: no check pays
    /// for their room.
    #[must_use]
    pub fn trees(&self) -> &[Tree] {
        let read = || {
            let texts = self.sources.iter();
            texts.map(|(file, source)| vocabulary::parse(file, &source.text).0).collect()
        };
        self.trees.get_or_init(read)
    }

    /// The tree of a text; `None` for an id that another compilation gave out.
    #[must_use]
    pub fn tree(&self, file: FileId) -> Option<&Tree> {
        self.trees().get(file.0 as usize)
    }

    /// The piece with its parts as it can be drawn: where it has errors, as it
    /// stands meanwhile. The parts are built anew where nothing has been yet.
    #[must_use]
    pub fn drawn(&self) -> Option<(&Piece, Cow<'_, Parts>)> {
        if let (Some(piece), Some(parts)) = (&self.piece, &self.parts) {
            return Some((piece, Cow::Borrowed(parts)));
        }
        let standing = || self.standing.as_ref()?.drawn.as_ref();
        let piece = self.piece.as_ref().or_else(standing)?;
        let parts = parts::build(piece);
        let fault = too_many(&parts).or_else(|| out_of_range(piece, &parts));
        (fault.is_none() && !parts.all.is_empty()).then_some((piece, Cow::Owned(parts)))
    }

    /// True where nothing forbids building the piece.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        self.parts.is_some() && self.diagnostics.iter().all(|d| d.severity != Severity::Error)
    }
}

/// Reads a spec and checks it through all stages.
///
/// # Errors
/// The reason why the spec itself can't be read.
pub fn check(files: &dyn SourceFiles, entry: &str) -> Result<Compilation, ReadError> {
    let compiled = wrong_unit::told(files, entry, check_once(files, entry)?);
    let compiled = doubted::told(files, entry, causes::told(files, entry, compiled));
    Ok(at_line::told(causes::proved(files, entry, compiled)))
}

/// The same, each finding by itself.
fn check_once(files: &dyn SourceFiles, entry: &str) -> Result<Compilation, ReadError> {
    let loaded = model::load(files, entry)?;
    let Lowered { piece, standing, accepts, sink: found } = model::lower(&loaded);
    let Loaded { sources, role, files: read, mut sink } = loaded;
    drop(read);
    sink.extend(found.into_sorted());
    let mut parts = None;
    let mut all = sink.into_sorted();
    if let Some(piece) = &piece {
        let mut found = Sink::new();
        checks::piece(piece, &mut found);
        let built = parts::build(piece);
        let fault = too_many(&built).or_else(|| named_alike(&built));
        if let Some(fault) = fault.or_else(|| out_of_range(piece, &built)) {
            found.push(fault);
        } else {
            checks::parts(&Workings::of(piece, &built), &mut found);
            parts = Some(built);
        }
        found.extend(all);
        all = found.into_sorted();
    }
    let (kept, accepted) = match &piece {
        Some(piece) => checks::accept(&piece.accepts, all),
        None => checks::accepted(&accepts, all),
    };
    let mut sink = Sink::new();
    sink.extend(kept);
    let mut diagnostics = sink.into_sorted();
    // What stands there already mends nothing.
    for found in &mut diagnostics {
        found.fixes.retain(|fix| fix.changes(&sources));
    }
    Ok(Compilation {
        sources,
        diagnostics,
        accepted,
        piece,
        standing,
        parts,
        role,
        trees: OnceLock::new(),
        near_misses: OnceLock::new(),
        near_settings: OnceLock::new(),
    })
}

/// What is found once a fix is made; `None` where the texts can't be read then.
fn found_with(
    files: &dyn SourceFiles,
    entry: &str,
    compiled: &Compilation,
    fix: &Fix,
) -> Option<Vec<Diagnostic>> {
    let mut mended = Buffers::over(files);
    for (file, text) in diagnostics::mend(&compiled.sources, &[fix]).texts {
        mended.put(compiled.sources.get(file)?.name.clone(), text);
    }
    Some(check_once(&mended, entry).ok()?.diagnostics)
}

/// Few statements may still ask for more boards than can be looked at.
fn too_many(parts: &Parts) -> Option<Diagnostic> {
    let part = parts.all.get(model::MOST_PARTS)?;
    Some(model::too_many(model::MOST_PARTS, "parts", part.span))
}

/// A name that the maker gave to a member of the frame may be that of a board.
fn named_alike(parts: &Parts) -> Option<Diagnostic> {
    let mut names: BTreeMap<&str, &Part> = BTreeMap::new();
    let (first, second) = parts.all.iter().find_map(|part| {
        let first = names.insert(&part.path, part)?;
        Some((first, part))
    })?;
    let title = format!("two parts are called `{}`", second.path);
    Some(
        Diagnostic::error("name-twice", title, second.span, "the second part with this name")
            .label(first.span, "the first one"),
    )
}

/// The largest denominator of a figure that no maker would wonder at, in
/// millimetres: a thousandth of an inch has half of it.
const ORDINARY: i64 = 10_000;

/// Figures that are each in range may still have no sum that is.
fn out_of_range(piece: &Piece, parts: &Parts) -> Option<Diagnostic> {
    let shop = &piece.shop;
    let part = parts.all.iter().find(|part| {
        let origin = part.placement.origin;
        let rough = [
            part.length.length + shop.allow_length,
            part.width.length + shop.allow_width,
            part.thickness.length,
        ];
        [origin.x, origin.y, origin.z]
            .iter()
            .chain(&rough)
            .any(|length| length.is_out_of_range() || length.is_finer_than(Length::FINEST))
    })?;
    let sizes = [&part.length, &part.width, &part.thickness];
    let figures = sizes.into_iter().flat_map(|size| piece.facts.of(size));
    let mut fine: Vec<(i64, Span)> = figures
        .filter_map(|(fact, _)| {
            let denom = fact.length.in_unit(Unit::Millimetre).denom();
            (denom > ORDINARY).then_some((denom, fact.origin.span()?))
        })
        .collect();
    // The finest first; each stands in several sizes.
    fine.sort_by_key(|(denom, span)| (Reverse(*denom), *span));
    fine.dedup();
    let title = format!("the sizes of {} are too fine to add up exactly", part.path);
    let mut spans = fine.into_iter().map(|(_, span)| span);
    let Some(first) = spans.next() else {
        let found = Diagnostic::error("number-too-fine", title, part.span, "this part");
        return Some(found.note(
            "give shares and divisors fewer digits; what they leave is as fine as all of them together",
        ));
    };
    let found = Diagnostic::error("number-too-fine", title, first, "the finest figure in them")
        .note("write figures with smaller denominators");
    Some(match spans.next() {
        Some(second) => found.label(second, "the next one"),
        None => found,
    })
}
