//! Sizes that the text does not say, to be shown beside the names of what has them.

use std::collections::BTreeMap;

use crate::measure::{FileId, Span, Tape};
use crate::model::{Axis, Size};
use crate::pipeline::Compilation;

use super::meaning::NameKind;
use super::names::Names;

/// A size to show behind a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hint {
    /// The name where it is given.
    pub name: Span,
    /// Width by height as on paper: `26-1/2 × 20`; `?` for one that is not known, and
    /// behind one that does not hold.
    pub text: String,
    /// The same in words.
    pub told: String,
}

/// The sizes of every opening, case, and run whose name a file gives, in its order. Of a piece
/// with errors what is known meanwhile.
#[must_use]
pub fn hints(compiled: &Compilation, names: &Names, file: FileId) -> Vec<Hint> {
    let sizes = sizes(compiled);
    let shown = |kind| matches!(kind, NameKind::Opening | NameKind::Case | NameKind::Run);
    let own = names.all().map(|(_, named)| named);
    let own = own.filter(|named| named.definition.file == file && shown(named.kind));
    own.filter_map(|named| {
        let (text, told) = sizes.get(named.path.as_str())?.clone();
        Some(Hint { name: named.definition, text, told })
    })
    .collect()
}

/// The text for each thing that has sizes, by its whole name; a list without a name has that of
/// what it stands in, which comes before it.
fn sizes(compiled: &Compilation) -> BTreeMap<&str, (String, String)> {
    let Some(piece) = &compiled.piece else {
        let Some(standing) = &compiled.standing else { return BTreeMap::new() };
        let mut known = BTreeMap::new();
        for own in &standing.sizes {
            let size = |axis| own.along(axis).map(|known| (&known.size, known.holds));
            let both = [Axis::Across, Axis::Down].map(size);
            known.entry(own.path.as_str()).or_insert_with(|| text(&standing.tape, both));
        }
        return known;
    };
    let tape = piece.tape();
    let mut all = BTreeMap::new();
    for run in &piece.runs {
        all.insert(run.name.as_str(), text(tape, [Some((&run.wide, true)), None]));
    }
    for case in &piece.cases {
        let both = [&case.wide, case.overall_high()].map(|size| Some((size, true)));
        all.insert(case.path.as_str(), text(tape, both));
        for opening in case.openings.iter().filter(|own| own.parent.is_some()) {
            let both = [Axis::Across, Axis::Down].map(|axis| Some((opening.along(axis), true)));
            all.entry(opening.path.as_str()).or_insert_with(|| text(tape, both));
        }
    }
    all
}

/// Width by height, short and in words.
fn text(tape: &Tape, sizes: [Option<(&Size, bool)>; 2]) -> (String, String) {
    let one = |size: Option<(&Size, bool)>| match size {
        Some((size, true)) => tape.text(size.length),
        Some((size, false)) => format!("{}?", tape.text(size.length)),
        None => "?".to_owned(),
    };
    let [wide, high] = sizes.map(one);
    let told = match sizes[1] {
        Some(_) => format!("{wide} wide, {high} high"),
        None => format!("{wide} wide"),
    };
    let short =
        if sizes[1].is_some() || sizes[0].is_none() { format!("{wide} × {high}") } else { wide };
    (short, told)
}
