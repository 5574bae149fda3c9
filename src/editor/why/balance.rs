//! Where what is lifted balances: each part by its weight and by where its own center is.

use crate::measure::{Exact, Length};
use crate::papers;
use crate::parts::{Cuboid, Direction};
use crate::plans::weights::{Body, Lifted, lifted};

use super::teller::Teller;
use super::{Subject, Sum, Value};

/// From the left, up, and behind the front of what is lifted together, which takes this
/// space.
pub(super) fn of(tell: &Teller<'_>, what: &str, all: &[Lifted], space: Option<Cuboid>) -> Vec<Sum> {
    let weights = tell.work.weights();
    let body = all.iter().fold(Body::default(), |body, one| body.with(weights.of(one)));
    let (Some(center), Some(space)) = (body.center(), space) else { return Vec::new() };
    let from = [space.from.x, space.from.y, space.from.z].map(Length::to_mm_f64);
    let own = || {
        tell.parts.iter().filter(|(_, part)| all.contains(&lifted(tell.piece, tell.parts, part)))
    };
    let whole = tell.weight(body.mass());
    let sides = ["from the left", "up", "behind the front"];
    let told = sides.into_iter().zip(Direction::ALL).map(|(word, along)| {
        let axis = along.index();
        let terms = own().filter_map(|(id, part)| {
            let own = weights.parts.get(id.0)?;
            let arm = own.center()?[axis] - from[axis];
            let by = hundredths(arm * own.grams as f64 / body.grams as f64);
            let (weighs, at) = (tell.weight(own.mass()), tell.fine(hundredths(arm)));
            let how = format!("{weighs} of {whole}, its center at {at}");
            let value = Value::Length(by);
            Some(tell.worked(value, &tell.fine(by), part.mark.clone(), how, Vec::new()))
        });
        let at = papers::near(center[axis] - from[axis], tell.tape);
        let paper = tell.tape.text(at) + Teller::mark(body.measured);
        let word = format!("{what}, {word}");
        tell.figure(&[Subject::Balance], word, (Value::Length(at), paper), terms.collect())
    });
    told.collect()
}

fn hundredths(mm: f64) -> Length {
    Length::mm(1) * Exact::ratio((mm * 100.0).round() as i64, 100)
}
