//! What each part weighs, less what is cut out of it, and what is lifted together.

use crate::measure::{Exact, Mass};
use crate::model::FrontId;
use crate::papers;
use crate::parts::{Part, PartId};
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
        true => "Wood Handbook, Table 12-1, unless the stock gives its own",
        false => "the usual gravity, since that of the stock is not known",
    };
    let sizes = [&part.length, &part.width, &part.thickness];
    let [long, wide, thick] = sizes.map(|size| tell.tape.text(size.length));
    let how = format!(
        "{long} × {wide} × {thick}, gravity {} at {} % moisture ({source})",
        decimal(Exact::ratio(i64::from(gravity), 1000), 2),
        trade::BASIS
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
