//! A file that says one unit and is written in the other: one slip, told where the unit
//! is said.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{FileId, Spanned, Unit};
use crate::model::SourceFiles;
use crate::vocabulary::stated_unit;

use super::causes::{OF_FIGURES, same};
use super::{Compilation, found_with};

/// So many figures in the wrong unit at least, for it to be the file's (ours).
const MANY: usize = 6;

/// Tells of the unit of the file where nearly all that is wrong with its figures goes
/// once it says the other one; as it was where that is not so.
pub(super) fn told(files: &dyn SourceFiles, entry: &str, mut compiled: Compilation) -> Compilation {
    if let Some((found, after)) = slip(files, entry, &compiled) {
        // What else is found is told if it is there with the other unit too.
        let stays = |own: &Diagnostic| after.iter().any(|it| same(it, own));
        compiled.diagnostics.retain(|own| !OF_FIGURES.contains(&own.slug) && stays(own));
        compiled.diagnostics.insert(0, found);
    }
    compiled
}

/// The slip, and what is found without it.
fn slip(
    files: &dyn SourceFiles,
    entry: &str,
    compiled: &Compilation,
) -> Option<(Diagnostic, Vec<Diagnostic>)> {
    let slips = |all: &[Diagnostic]| all.iter().filter(|own| own.slug == "unit-slip").count();
    let count = slips(&compiled.diagnostics);
    if count < MANY {
        return None;
    }
    let Spanned { value: said, span } = stated_unit(compiled.tree(FileId::default())?)?;
    let meant = said.other();
    let title = format!("the figures are in {}", plural(meant));
    let fix = Fix::new(Grade::Choice, title, span, meant.name());
    let after = found_with(files, entry, compiled, &fix)?;
    if slips(&after) * 4 > count {
        return None;
    }
    let found = Diagnostic::error(
        "unit-slip",
        format!("the file counts in {}, and its figures are in {}", plural(said), plural(meant)),
        span,
        "this is the wrong unit",
    )
    .because(format!(
        "{count} figures can't be right in {}, and would be in {}",
        plural(said),
        plural(meant)
    ))
    .fix(fix);
    Some((found, after))
}

fn plural(unit: Unit) -> &'static str {
    if unit.is_metric() { "millimeters" } else { "inches" }
}
