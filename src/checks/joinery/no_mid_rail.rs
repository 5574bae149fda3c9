//! A tall framed door without a mid rail.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Severity, Sink};
use crate::measure::{Exact, Length};
use crate::model::{Build, Opening, PanelBuild, Piece};
use crate::parts::{Assembly, FeatureKind, Part, Parts, Role};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "no-mid-rail",
    severity: Severity::Warning,
    finds: "A framed door is over 60 in (1524 mm) high and has no mid rail.",
    why: "Two long stiles that nothing ties between their ends bow and twist, and the door stands off its case at one corner. A long panel drums, and a solid one is hard to keep flat.",
    source: "Architectural Woodwork Standards, 2009, section on doors, 4.4.6.10: a stile-and-rail door over 60 in high has an intermediate rail.",
    formula: "The height of the door.",
    accept: "Accept it if the stiles are thick or of straight, quartersawn wood, and the door is narrow and light.",
    example: Example {
        base: Base::Wardrobe,
        sound: "groove 10 mm\n      mid-rail { wide 90 mm; from-bottom 900 mm }",
        wrong: "groove 10 mm",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// Where a mid rail may stand, as parts of the height of its door: a little below the
/// middle looks best (common practice, no source).
const PLACES: [(i64, i64); 5] = [(2, 5), (3, 8), (7, 16), (1, 3), (1, 2)];

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    for opening in piece.cases.iter().flat_map(|case| &case.openings) {
        let Some((panel, high)) = framed(opening) else { continue };
        if opening.is_door() && panel.mids.is_empty() && high > trade::tall_door() {
            sink.push(finding(piece, parts, opening, (panel, high)));
        }
    }
}

/// How the front of an opening is framed, and how high it is.
fn framed(opening: &Opening) -> Option<(&PanelBuild, Length)> {
    let fronts = opening.front.as_ref()?;
    let Build::Panel(panel) = &fronts.build else { return None };
    Some((panel, opening.leaf(fronts).1.length))
}

fn finding(
    piece: &Piece,
    parts: &Parts,
    opening: &Opening,
    (panel, high): (&PanelBuild, Length),
) -> Diagnostic {
    let tape = piece.tape();
    let what = if opening.is_pair() { "each leaf of" } else { "the door of" };
    let found = RULE
        .finding(
            format!("{what} {} is {} high and has no mid rail", opening.path, tape.text(high)),
            panel.span,
            "one panel from top to bottom",
        )
        .label(opening.span, format!("its front is {} high", tape.text(high)))
        .because("long stiles bow and twist where no rail ties them between their ends")
        .subject(&opening.path)
        .urgency((high - trade::tall_door()) / Length::mm(1));
    match mend(piece, parts, panel) {
        Some(fix) => found.fix(fix),
        None => found.note(
            "write `mid-rail` with its place in the braces of the `build panel` of this opening's own `front`",
        ),
    }
}

/// A mid rail in all fronts that are built by the same statement, where all of them are
/// tall, and where it meets no hole in the stiles.
fn mend(piece: &Piece, parts: &Parts, panel: &PanelBuild) -> Option<Fix> {
    let own = || {
        let openings = piece.cases.iter().flat_map(|case| &case.openings);
        openings.filter_map(|opening| {
            framed(opening).filter(|(own, _)| own.span == panel.span).map(|own| (opening, own.1))
        })
    };
    let lowest = own().map(|(_, high)| high).min()?;
    if lowest <= trade::tall_door() {
        return None;
    }
    let is_own = |part: &&Part| {
        part.role == Role::FrontStile
            && matches!(part.assembly, Assembly::Front(front) if own().any(|(it, _)| it.id == front.opening))
    };
    let stiles: Vec<&Part> = parts.all.iter().filter(is_own).collect();
    let tape = piece.tape();
    let step = tape.unit.either(Length::inches(1, 1), Length::mm(10));
    let reach = panel.rail.length.half() + trade::lasting_wall();
    let is_free = |middle: Length| {
        let bores = stiles.iter().flat_map(|stile| &stile.features);
        let mut bores = bores.filter(|own| matches!(own.kind, FeatureKind::Bore(_)));
        !bores.any(|bore| bore.u.0 < middle + reach && middle - reach < bore.u.1)
    };
    let places = PLACES.into_iter().map(|(part, whole)| {
        step * Exact::int((lowest * Exact::ratio(part, whole) / step).floor())
    });
    let middle = places.into_iter().find(|middle| is_free(*middle))?;
    let statement = format!("mid-rail {{ from-bottom {} }}", tape.source(middle));
    let title = format!("a mid rail with its middle {} above the bottom", tape.figure(middle));
    Some(panel.mid_at.says(&statement, title))
}
