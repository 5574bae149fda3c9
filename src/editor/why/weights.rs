//! What each part weighs, less what is cut out of it, and what is lifted together.

use crate::measure::{Exact, Mass, Moment};
use crate::model::{CaseId, FrontId};
use crate::papers;
use crate::parts::{Part, PartId};
use crate::plans::tipping::{Pull, Tipping, What};
use crate::plans::weights::{Body, Lifted, lifted, taken, whole};
use crate::trade::{self, Species};
use crate::vocabulary::{Origin, words};

use super::teller::{Teller, decimal};
use super::{Subject, Sum, Term, Value};

/// The weight of a part.
pub(super) fn of_part(tell: &Teller<'_>, id: PartId, part: &Part) -> Option<Sum> {
    let body = tell.work.weights().parts.get(id.0)?;
    let stock = tell.piece.stock(part.stock)?;
    let term = |mass: Mass, name: String, how: String, from: Vec<Origin>| {
        tell.worked(Value::Mass(mass), &tell.weight(mass), name, how, from)
    };
    let known = stock.gravity.is_some();
    let gravity = stock.gravity.unwrap_or(trade::USUAL_GRAVITY);
    let named = stock.species.as_deref().and_then(trade::species_named);
    let source = match known {
        true if stock.is_solid() => {
            let of_wood = named.filter(|own| own.wood.gravity == gravity);
            of_wood.map_or("as the spec gives it", Species::gravity_from)
        }
        true if stock.is_glass() => "EN 572-1, unless the stock gives its own",
        true => "Wood Handbook, Table 12-1, unless the stock gives its own",
        false => "the usual gravity, since that of the stock is not known",
    };
    let sizes = [&part.length, &part.width, &part.thickness];
    let [long, wide, thick] = sizes.map(|size| tell.tape.text(size.length));
    let damp = match stock.is_glass() {
        true => String::new(),
        false => format!(" at {} % moisture", trade::BASIS),
    };
    let how = format!(
        "{long} × {wide} × {thick}, gravity {}{damp} ({source})",
        decimal(Exact::ratio(i64::from(gravity), 1000), 2)
    );
    let line = tell.origin(&words::stock::BLOCK, words::stock::SPECIES, Some(stock.span));
    let line = line.span().map_or(Origin::Written(stock.span), Origin::Written);
    let mut terms = vec![term(whole(tell.piece, part), stock.name.clone(), how, vec![line])];
    for feature in &part.features {
        let Some(own) = taken(tell.piece, part, feature) else { continue };
        let off = Mass(-own.0);
        let name = feature.kind.word().to_owned();
        // Like cuts are told once.
        match terms.iter_mut().find(|term| told(term) == Some(&name)) {
            Some(known) => add(tell, known, off),
            None => terms.push(term(off, name, "what is cut out".into(), Vec::new())),
        }
    }
    Some(sum(tell, "weight", *body, terms))
}

/// What a term is called.
fn told(term: &Term) -> Option<&String> {
    match &term.from {
        super::TermFrom::Worked { name, .. } => Some(name),
        super::TermFrom::Fact { .. } | super::TermFrom::Rounded | super::TermFrom::Rest => None,
    }
}

/// Takes so much more off.
fn add(tell: &Teller<'_>, term: &mut Term, off: Mass) {
    if let Value::Mass(known) = term.value {
        let all = Mass(known.0 - off.0);
        term.value = Value::Mass(all);
        term.text = format!("− {}", tell.weight(all));
    }
}

/// What holds a case back and what tips it, about the front edge of what it stands on.
pub(super) fn tips(tell: &Teller<'_>, case: CaseId) -> Vec<Sum> {
    let is_own = |plan: &&Tipping| plan.cases.contains(&case) && plan.opens();
    let Some(plan) = tell.work.tipping().iter().find(is_own) else { return Vec::new() };
    let moment = |moment| Value::Count(tell.scale.moment_count(moment));
    let side = |word: &str, pulls: &[Pull], whole: Moment| {
        let of = |pull: &Pull| {
            let (name, arm) = (named(pull.what), tell.tape.text(pull.arm.abs()));
            let where_from = if pull.arm.is_negative() { "before" } else { "behind" };
            let how = format!(
                "{} at {arm} {where_from} the front edge of what it stands on",
                tell.weight(pull.mass)
            );
            // What pulls over counts above nought there.
            let own = if whole.0.is_negative() == pull.moment.0.is_negative() {
                pull.moment
            } else {
                Moment(-pull.moment.0)
            };
            tell.worked(moment(own), &tell.scale.moments(&[own]).1, name, how, vec![])
        };
        let terms: Vec<Term> = pulls.iter().map(of).collect();
        let paper = tell.scale.moments(&[whole]).1;
        tell.figure(&[Subject::Tip], word, (moment(whole), paper), terms)
    };
    let (holds, pulls) = plan.moments();
    vec![side("holds it back", &plan.holds, holds), side("tips it", &plan.pulls, pulls)]
}

/// What a pull is.
fn named(what: What) -> String {
    match what {
        What::Case => "the case".to_owned(),
        What::Drawers(1) => "the drawer, out".to_owned(),
        What::Drawers(count) => format!("{count} drawers, out"),
        What::Contents => "what the drawers hold".to_owned(),
        What::Doors(1) => "the door, open".to_owned(),
        What::Doors(count) => format!("{count} doors, open"),
    }
}

/// What is lifted as one: the sum of its parts.
pub(super) fn of_lifted(tell: &Teller<'_>, word: &str, all: &[Lifted]) -> Option<Sum> {
    let weights = tell.work.weights();
    let own =
        tell.parts.iter().filter(|(_, part)| all.contains(&lifted(tell.piece, tell.parts, part)));
    let terms: Vec<Term> = own
        .filter_map(|(id, part)| {
            let mass = weights.parts.get(id.0)?.mass();
            let name = part.mark.clone();
            Some(tell.worked(Value::Mass(mass), &tell.weight(mass), name, "", Vec::new()))
        })
        .collect();
    let body = all.iter().fold(Body::default(), |body, one| body.with(weights.of(one)));
    if terms.is_empty() {
        return None;
    }
    let (lines, whole) = papers::lifted(tell.work);
    let shown = match all {
        [one] => lines.into_iter().find(|(lifted, _)| lifted == one)?.1,
        _ => whole,
    };
    let paper = shown + Teller::mark(body.measured);
    Some(tell.figure(&[Subject::Weight], word, (Value::Mass(body.mass()), paper), terms))
}

/// The weight of a door, or of a drawer with its front.
pub(super) fn of_front(tell: &Teller<'_>, front: FrontId) -> Option<Sum> {
    let (door, drawer) = (Lifted::Door(front), Lifted::Drawer(front.opening));
    let known = |lifted: &Lifted| tell.work.weights().lifted.contains_key(lifted);
    match (known(&door), known(&drawer)) {
        (true, _) => of_lifted(tell, "weight", &[door]),
        (false, true) => of_lifted(tell, "weight of the drawer", &[drawer]),
        (false, false) => None,
    }
}

fn sum(tell: &Teller<'_>, word: &str, body: Body, terms: Vec<Term>) -> Sum {
    let paper = tell.scale.text(body.mass()) + Teller::mark(body.measured);
    tell.figure(&[Subject::Weight], word, (Value::Mass(body.mass()), paper), terms)
}
