//! Woods that the spec brings its own figures for.

use crate::diagnostics::Diagnostic;
use crate::measure::{Exact, Span};
use crate::trade::{self, Wood};
use crate::vocabulary::takes::{Number, Percent, Stiffness};
use crate::vocabulary::words::species::Movement;
use crate::vocabulary::{Entries, Entry, Word, words};

use super::lower::Lower;

/// A wood of the spec.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OwnSpecies {
    /// Its name.
    pub name: String,
    /// Its figures.
    pub wood: Wood,
    /// Where it is written.
    pub span: Span,
}

/// The wood with this name: the spec's own, else that of the built-in table.
pub(super) fn wood(name: &str, own: &[OwnSpecies]) -> Option<Wood> {
    let written = own.iter().find(|species| species.name == name).map(|species| species.wood);
    written.or_else(|| trade::species_named(name).map(|species| species.wood))
}

pub(super) fn lower(entry: &Entry, ctx: &mut Lower) -> Option<OwnSpecies> {
    use words::{shrinks, species};

    let body = entry.body()?;
    body.noted(species::NOTE);
    let gravity = figure(body, species::GRAVITY, (0.05, 1.5), |wood| wood.gravity().to_f64(), ctx);
    let movement = body.which();
    let [radial, tangential] = match movement {
        Some((Movement::Shrinkage, entry)) => {
            let figures = entry.body()?;
            [shrinks::RADIAL, shrinks::TANGENTIAL].map(|word| coefficient(figures, word))
        }
        Some((Movement::Coefficient, _)) | None => {
            let within = (0.0, 0.02);
            let radial = |wood: &Wood| f64::from(wood.radial) / 1e6;
            let tangential = |wood: &Wood| f64::from(wood.tangential) / 1e6;
            [
                figure(body, species::RADIAL, within, radial, ctx),
                figure(body, species::TANGENTIAL, within, tangential, ctx),
            ]
        }
    };
    let is_total = matches!(movement, Some((Movement::Shrinkage, _)));
    if !is_total && !body.says(species::RADIAL) {
        ctx.sink.push(Diagnostic::error(
            "word-missing",
            "a species with `tangential` also needs `radial`",
            entry.head,
            "`radial` is missing",
        ));
    }
    Some(OwnSpecies {
        name: entry.name()?.value.to_owned(),
        wood: Wood {
            gravity: whole(gravity?, 1000)?,
            radial: whole(radial?, 1_000_000)?,
            tangential: whole(tangential?, 1_000_000)?,
            stiffness: stiffness(body, species::STIFFNESS)?,
        },
        span: entry.head,
    })
}

/// A plain number that must lie where that of any wood does; `of` is the same
/// figure of a wood.
fn figure(
    body: &Entries,
    word: Word<Number>,
    (least, most): (f64, f64),
    of: fn(&Wood) -> f64,
    ctx: &mut Lower,
) -> Option<Exact> {
    let value = body.get(word)?;
    let number = value.value.to_f64();
    if (least..=most).contains(&number) {
        return Some(value.value);
    }
    let near = trade::species_named("black-cherry").map(|cherry| of(&cherry.wood));
    ctx.sink.push(
        Diagnostic::error(
            "absurd-size",
            format!("no wood has a {} of {number}", word.spelling()),
            value.span_or(body.open),
            "no table has such a figure",
        )
        .note(format!("the figure for black cherry is {}", near.unwrap_or_default())),
    );
    None
}

/// The change for each point of moisture that a total shrinkage stands for:
/// C = S / (3000 − 20 S), by which Wood Handbook, Table 13-5 follows from its
/// Tables 4-3 and 4-4 (rebased to the size at 10 % moisture).
fn coefficient(shrinks: &Entries, word: Word<Percent>) -> Option<Exact> {
    let s = shrinks.get(word)?.value.0;
    Some(s / (Exact::int(3000) - Exact::int(20) * s))
}

/// The stiffness of a block, in thousands of pounds to the square inch.
pub(super) fn stiffness(body: &Entries, word: Word<Stiffness>) -> Option<u32> {
    whole(body.get(word)?.value.0, 1).map(|psi| (psi + 500) / 1000)
}

/// A number as a whole count of its `parts`.
pub(super) fn whole(number: Exact, parts: i64) -> Option<u32> {
    let counted = number * Exact::int(parts);
    (!counted.is_out_of_range()).then(|| u32::try_from(counted.round()).ok())?
}

#[cfg(test)]
mod tests {
    use crate::model::{MemoryFiles, StockId};
    use crate::pipeline;

    /// Wood Handbook, Tables 4-3 and 13-5: black cherry shrinks 3.7 % and
    /// 7.1 %, its coefficients are 0.00126 and 0.00248; 1.49 million psi are
    /// 10.3 GPa.
    #[test]
    fn shrinkage_gives_the_tables_coefficients() {
        let text = include_str!("../../specs/first.case").replace(
            "stock maple   { lumber 4/4; thickness 3/4; species sugar-maple; sawn quarter }",
            "species own { gravity 0.5; shrinks { radial 3.7%; tangential 7.1% }; stiffness 10.273 GPa }\nstock maple { lumber 4/4; thickness 3/4; species own; sawn quarter }",
        );
        let compiled =
            pipeline::check(&MemoryFiles::one("own.case", &text), "own.case").expect("readable");
        let piece = compiled.piece.expect("sound");
        let index = piece.stocks.iter().position(|stock| stock.name == "maple").expect("a stock");
        let stock = piece.stock(StockId(index)).expect("a stock");
        let wood = stock.wood.expect("known");
        assert!(wood.radial.abs_diff(1260) <= 6, "{wood:?}");
        assert!(wood.tangential.abs_diff(2480) <= 6, "{wood:?}");
        assert_eq!(wood.stiffness, 1490);
    }
}
