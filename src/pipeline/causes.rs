//! One cause, one message: what a figure written wrong brings about is told with
//! it. What that is shows when the figure that was probably meant stands there
//! instead, so the spec is checked again with each that is offered.

use crate::diagnostics::{self, Diagnostic, Fix, Severity, Sources};
use crate::measure::Span;
use crate::model::SourceFiles;
use crate::syntax::{Statement, statements};
use crate::vocabulary::words;

use super::{Compilation, at_line, found_with};

/// What is found of a figure by itself.
pub(super) const OF_FIGURES: &[&str] = &["unit-slip", "figure-impossible", "figure-odd"];

/// True for a finding of a figure from which others may follow: what is found of it by itself,
/// what a slide takes off its opening, and what a board is planed to.
fn is_of_figure(slug: &str) -> bool {
    OF_FIGURES.contains(&slug) || ["slide-odd", PLANED_THIN].contains(&slug)
}

const PLANED_THIN: &str = "planed-thin";

/// How many figures are looked into; where more are wrong, each stands for itself.
const MOST: usize = 4;

/// In a piece of more boards than this, each check takes so long that only the first is.
const LARGE: usize = 1_000;

/// How many of the findings that follow are told in full.
const TOLD: usize = 3;

/// The compilation with every finding told at its cause.
pub(super) fn told(files: &dyn SourceFiles, entry: &str, mut compiled: Compilation) -> Compilation {
    let is_figure = |found: &Diagnostic| is_of_figure(found.slug);
    let count = compiled.diagnostics.iter().filter(|found| is_figure(found)).count();
    for number in (0..count.min(most(&compiled))).rev() {
        let mut places =
            (0..compiled.diagnostics.len()).filter(|at| is_figure(&compiled.diagnostics[*at]));
        let Some(at) = places.nth(number) else { continue };
        let figure = &compiled.diagnostics[at];
        let stands = Place::of(&compiled, figure.primary.span);
        let tried: Vec<Tried> = figure
            .fixes
            .iter()
            .filter_map(|fix| {
                Tried::of(files, entry, &compiled, (figure, fix), &stands, count == 1)
            })
            .collect();
        fold(&compiled.sources, &mut compiled.diagnostics, at, &stands, tried);
    }
    compiled
}

/// What is offered by a rule that does not see what else hangs on the figure.
const PROVED: &[&str] =
    &["no-room", "parts-overlap", "planed-too-thick", "scribe-too-wide", "stop-unheld"];

/// The compilation without the offers of such rules that bring another error.
pub(super) fn proved(
    files: &dyn SourceFiles,
    entry: &str,
    mut compiled: Compilation,
) -> Compilation {
    let (mut looked, most) = (0, most(&compiled));
    for at in 0..compiled.diagnostics.len() {
        let found = &compiled.diagnostics[at];
        if !PROVED.contains(&found.slug) || found.fixes.is_empty() || looked == most {
            continue;
        }
        looked += 1;
        let mends = |fix: &Fix| {
            let after = found_with(files, entry, &compiled, fix).unwrap_or_default();
            let is_fresh = |own: &Diagnostic| {
                (own.severity == Severity::Error || OF_FIGURES.contains(&own.slug))
                    && compiled.diagnostics.iter().all(|known| !same(known, own))
            };
            !after.iter().any(|own| is_fresh(own) || same(own, found))
        };
        let good: Vec<Fix> = found.fixes.iter().filter(|fix| mends(fix)).cloned().collect();
        compiled.diagnostics[at].fixes = good;
    }
    compiled
}

/// How many findings are tried: each takes a check of the whole spec.
pub(super) fn most(compiled: &Compilation) -> usize {
    match compiled.parts.as_ref().is_some_and(|parts| parts.all.len() > LARGE) {
        true => 1,
        false => MOST,
    }
}

/// Where a figure stands.
struct Place {
    figure: Span,
    /// The statement in whose braces it stands, without them; `None` where that is a whole
    /// case, of which much else is told.
    around: Option<Span>,
}

impl Place {
    fn of(compiled: &Compilation, figure: Span) -> Self {
        let mut around = None;
        let mut items = compiled.tree(figure.file).map(|tree| &tree.items);
        while let Some(inner) = items {
            let holds = |statement: &&Statement| {
                let block = statement.block.as_ref();
                block.is_some_and(|it| it.open.start <= figure.start && figure.end <= it.close.end)
            };
            let open = statements(inner).find(holds);
            around = match open {
                Some(open) if is_case(open) => None,
                Some(open) => Some(open.head()),
                None => around,
            };
            items = open.and_then(|statement| Some(&statement.block.as_ref()?.items));
        }
        Self { figure, around }
    }

    /// True where a finding of another rule tells of the very figure, or with a label of
    /// the statement `around` it too.
    fn is_told_by(&self, found: &Diagnostic, around: bool) -> bool {
        let is_other = !OF_FIGURES.contains(&found.slug)
            && found.slug != "accept-unused"
            && found.severity != Severity::Note;
        let told = || holds(found.primary.span, self.figure) || around && self.is_near(found);
        is_other && told()
    }

    /// True where a finding has a label of the very figure, or of the statement around it.
    fn is_near(&self, found: &Diagnostic) -> bool {
        let near = |span: Span| {
            holds(span, self.figure) || self.around.is_some_and(|head| holds(head, span))
        };
        found.labels.iter().chain([&found.primary]).any(|label| near(label.span))
    }
}

pub(super) fn is_case(statement: &Statement) -> bool {
    let word = statement.word.text();
    word == words::file::CASE.spelling() || word == words::file::RUN.spelling()
}

/// True where one span lies within another.
pub(super) fn holds(outer: Span, inner: Span) -> bool {
    outer.file == inner.file && outer.start <= inner.start && inner.end <= outer.end
}

/// A figure that is offered, and what is found with it.
struct Tried {
    fix: Fix,
    after: Vec<Diagnostic>,
}

impl Tried {
    /// `None` where the figure brings another error, and where it stands `alone` among
    /// figures to look into: beside others some errors were only hidden.
    fn of(
        files: &dyn SourceFiles,
        entry: &str,
        compiled: &Compilation,
        (figure, fix): (&Diagnostic, &Fix),
        stands: &Place,
        alone: bool,
    ) -> Option<Self> {
        let after = found_with(files, entry, compiled, fix)?;
        let is_error = |found: &&Diagnostic| found.severity == Severity::Error;
        let is_fresh = |found: &Diagnostic| compiled.diagnostics.iter().all(|it| !same(it, found));
        // Where a figure in the wrong unit stopped all that is looked at after it, the right
        // unit lets out what else is wrong.
        let lets_out = compiled.parts.is_none()
            && figure.slug == "unit-slip"
            && figure.fixes.first() == Some(fix);
        let is_brought = |found: &Diagnostic| !lets_out || stands.is_near(found);
        let brings =
            after.iter().filter(is_error).any(|found| is_fresh(found) && is_brought(found));
        (!alone || !brings).then(|| Self { fix: fix.clone(), after })
    }
}

/// True for two findings of the same thing. Two figures may have one place: that of a
/// keep-out, say, among others.
pub(super) fn same(one: &Diagnostic, other: &Diagnostic) -> bool {
    let by_title = one.subject.is_none() || is_of_figure(one.slug);
    one.slug == other.slug
        && one.subject == other.subject
        && (!by_title || one.title == other.title)
}

/// Tells what follows from the figure at `at` with it, or with the finding of another rule
/// that tells of the very figure.
fn fold(
    sources: &Sources,
    all: &mut Vec<Diagnostic>,
    at: usize,
    stands: &Place,
    mut tried: Vec<Tried>,
) {
    let errors = |tried: &Tried| {
        tried.after.iter().filter(|found| found.severity == Severity::Error).count()
    };
    tried.sort_by_key(|tried| (errors(tried), tried.after.len()));
    // What leaves errors that another figure would not is not offered.
    let least = tried.first().map(errors);
    tried.retain(|tried| Some(errors(tried)) == least);
    let goes = |found: &Diagnostic| {
        let stays = |tried: &Tried| tried.after.iter().any(|after| same(after, found));
        let is_gone = tried.first().is_some_and(|best| !stays(best));
        is_gone && !is_of_figure(found.slug)
    };
    let Some(figure) = all.get(at) else { return };
    let going: Vec<usize> = (0..all.len()).filter(|place| goes(&all[*place])).collect();
    let is_odd = figure.severity != Severity::Error;
    let only = |place: usize| going.len() <= 1 && going.iter().all(|it| *it == place);
    // What is too large for a sheet says less than the figure that was probably meant.
    let is_meant = |place: usize| all[place].slug == "part-too-large" && !figure.fixes.is_empty();
    // What boards are planed to is told by a rule of its own.
    let is_rule = figure.slug == PLANED_THIN;
    // Where nothing else follows, the rule that it breaks says more than its range.
    let told_by = |place: &usize| {
        let around = is_odd && only(*place);
        *place != at && !is_rule && !is_meant(*place) && stands.is_told_by(&all[*place], around)
    };
    let brings_errors =
        |but: usize| going.iter().any(|it| *it != but && all[*it].severity == Severity::Error);
    let bears_all =
        |place: &usize| all[*place].severity == Severity::Error || !brings_errors(*place);
    let cause = (0..all.len()).find(|place| told_by(place) && bears_all(place)).unwrap_or(at);
    // Only a figure's own finding is as bad as what follows from it.
    let bears = |found: &Diagnostic| cause == at || found.severity != Severity::Error;
    let follows = |found: &Diagnostic| goes(found) && bears(found);
    let is_gone: Vec<bool> = all.iter().map(follows).collect();
    let (mut kept, mut gone, mut told) = (Vec::with_capacity(all.len()), Vec::new(), None);
    for (place, found) in all.drain(..).enumerate() {
        if place == cause {
            told = Some(kept.len());
            kept.push(found);
        } else if place != at && is_gone[place] {
            gone.push(found);
        } else if place != at {
            kept.push(found);
        }
    }
    *all = kept;
    let cause_is_figure = cause == at;
    let Some(cause) = told.and_then(|place| all.get_mut(place)) else { return };
    let unit = cause.fixes.first();
    if cause.slug == "unit-slip" && tried.iter().all(|tried| Some(&tried.fix) != unit) {
        // The other unit is what it is told for, and that would not do either.
        cause.slug = "figure-impossible";
        "this can't be".clone_into(&mut cause.primary.text);
    }
    let mends = |tried: &Tried| !tried.after.iter().any(|after| same(after, cause));
    let fixes: Vec<Fix> =
        tried.iter().filter(|tried| mends(tried)).map(|tried| tried.fix.clone()).collect();
    if cause_is_figure {
        cause.fixes = fixes;
    } else {
        // Another rule tells of the figure, and may know better what to write.
        let text = |fix: &Fix| diagnostics::mend(sources, &[fix]).texts;
        let known: Vec<_> = cause.fixes.iter().map(text).collect();
        cause.fixes.extend(fixes.into_iter().filter(|fix| !known.contains(&text(fix))));
    }
    if !cause_is_figure {
        at_line::put(cause, stands.figure);
    }
    tell_with(cause, &gone);
}

/// Adds to the finding of a figure what follows from it.
pub(super) fn tell_with(cause: &mut Diagnostic, gone: &[Diagnostic]) {
    if gone.iter().any(|found| found.severity == Severity::Error) {
        cause.severity = Severity::Error;
    }
    for found in gone.iter().take(TOLD) {
        cause.working.push(("then".to_owned(), found.title.clone()));
    }
    if gone.len() > TOLD {
        let more = diagnostics::counted(gone.len() - TOLD, "more finding");
        cause.working.push(("then".to_owned(), more));
    }
}
