//! Bought legs that carry less than what stands on them.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Figure, Severity, Sink, Sum};
use crate::measure::{Exact, Mass, Scale};
use crate::model::{Case, Piece};
use crate::parts::Role;
use crate::plans::Workings;
use crate::plans::drawers;
use crate::plans::weights::Body;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "leg-load",
    severity: Severity::Warning,
    finds: "A case on bought legs weighs more, when it is full, than its legs carry together.",
    why: "The leg splits at its bolt, or its plate bends, and the case comes down at a corner.",
    source: "The leg maker's own `load`, as given in the spec. Contents: the loads of shelves and drawers, as in `sag` and `slide-load`.",
    formula: "Case, doors, drawers, shelves, and countertop + load × area of each drawer and each loose or fixed shelf, and of the bottom where no drawer stands over it, compared with the load of one leg × the number of legs.",
    accept: "Accept it if the case holds light things. A smaller `load` for its shelves says so better.",
    example: Example {
        base: Base::First,
        sound: concat!(
            "finish oil { hardwax-oil; coats 2; cure 24 h }\n",
            "\n",
            "case cupboard {\n",
            "  wide 36; deep 18; high 34-1/2          # over all\n",
            "  stock ply                              # unless a board says otherwise\n",
            "  base { toe-kick; high 4; set-back 3; cut-into ends }"
        ),
        wrong: concat!(
            "finish oil { hardwax-oil; coats 2; cure 24 h }\n",
            "\n",
            "leg turned { high 4; wide 2; foot 1; plate { screws 4 }; load 30 lb }\n",
            "\n",
            "case cupboard {\n",
            "  wide 36; deep 18; high 34-1/2          # over all\n",
            "  stock ply                              # unless a board says otherwise\n",
            "  base { legs turned { in 1-1/2 } }"
        ),
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let scale = Scale::of(piece.tape());
    for case in &piece.cases {
        let Some((legs, leg)) = piece.legs_under(case) else { continue };
        let Some(load) = leg.load else { continue };
        let most = Mass(load.0 * Exact::int(legs.count().into()));
        let own = work.weights().of_case(case.id);
        let own = own.fold(Body::default(), |all, one| all.with(*one)).mass();
        let held = contents(work, piece, case);
        let full = Mass(own.0 + held.0);
        if full <= most {
            continue;
        }
        let (each, sum) = scale.spread(&[own, held]);
        let mut terms = each.into_iter();
        let mut next = || Figure::told(terms.next().unwrap_or_default());
        sink.push(
            RULE.finding(
                format!(
                    "{} weighs {sum} when it is full, and its {} legs carry {}",
                    case.name,
                    legs.count(),
                    scale.text(most)
                ),
                legs.span,
                format!("{} legs", legs.count()),
            )
            .label(leg.span, format!("each carries {}", scale.text(load)))
            .sum(Sum::told("weighs", &*sum).and(next(), "the piece").and(next(), "contents"))
            .sum(Sum::told("over by", scale.over(full, most)))
            .because("a leg splits or its plate bends, and the case comes down")
            .note("take legs that carry more, or more of them with `across`")
            .subject(&case.path)
            .urgency(full.0 - most.0),
        );
    }
}

/// What stands in a case when it is full.
fn contents(work: &Workings<'_>, piece: &Piece, case: &Case) -> Mass {
    let drawers = case.openings.iter().map(|opening| drawers::contents(piece, case, opening).0);
    let drawers = drawers.reduce(|sum, one| sum + one).unwrap_or_default();
    let stands = |role: Role| match role {
        Role::FixedShelf | Role::AdjustableShelf => true,
        Role::Bottom => drawers.is_zero(),
        _ => false,
    };
    let shelves =
        work.lying().iter().filter(|own| own.part.case == case.id && stands(own.part.role));
    let kilograms = shelves.map(|own| {
        let (long, wide) = (own.part.length.length, own.part.width.length);
        long.to_mm_f64() * wide.to_mm_f64() / 1e6 * own.carries.load.0.to_f64()
    });
    Mass(drawers + trade::grams(kilograms.sum()).0)
}
