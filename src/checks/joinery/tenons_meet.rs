//! Two mortises of a post that run into each other.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::Case;
use crate::parts::{Direction, Feature, FeatureKind, Part, Role, Which};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "tenons-meet",
    severity: Severity::Error,
    finds: "In a post, the mortise for a rail of the face frame or of the back and that for a rail of the end run into each other.",
    why: "The second tenon would not go in: the first one lies in its place. And where the two mortises open into each other, the post has lost the wood between them.",
    source: "Plane geometry. That 3/16 in (4.8 mm) of wood is left between the two is common practice; no published source.",
    formula: "The depth of the post, less the mortise of the end's rail, less the place where the other mortise ends.",
    accept: "",
    example: Example { base: Base::Posts, sound: "tenon 1; set-back 1/4;", wrong: "tenon 1-1/4;" },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for case in &work.piece.cases {
        // All the posts of a case are made alike: one finding for all.
        let parts = work.parts.of_case(case.id);
        let posts = parts.iter().filter(|part| matches!(part.role, Role::Post(_)));
        let met = posts.filter_map(|post| Some((post, meeting(work, post)?)));
        if let Some((post, met)) = met.max_by_key(|(_, met)| met.by) {
            tell(work, case, (post, &met), sink);
        }
    }
}

/// Two mortises of a post that meet.
struct Met<'p> {
    /// That of a rail of the end, which goes in from the front or the back of the post.
    end: &'p Feature,
    /// The other, which goes in from the inside face.
    across: &'p Feature,
    /// How far the first reaches past where the second begins.
    by: Length,
}

fn meeting<'p>(work: &Workings<'_>, post: &'p Part) -> Option<Met<'p>> {
    let mortises = || post.features.iter().filter(|own| own.kind == FeatureKind::Mortise);
    let is_of_end = |own: &Feature| {
        let guest = own.takes.and_then(|id| work.parts.get(id));
        guest.is_some_and(|guest| matches!(guest.role, Role::EndRail(_)))
    };
    let mut met = Vec::new();
    for end in mortises().filter(|own| is_of_end(own)) {
        for across in mortises().filter(|own| !is_of_end(own)) {
            let [one, two] = [end, across].map(|own| post.hollow(own, own.v));
            if one.overlaps(&two) {
                met.push(Met { end, across, by: one.overlap_along(&two, Direction::Z) });
            }
        }
    }
    met.into_iter().max_by_key(|met| met.by)
}

fn tell(work: &Workings<'_>, case: &Case, (post, met): (&Part, &Met<'_>), sink: &mut Sink) {
    let (piece, parts) = (work.piece, work.parts);
    let tape = piece.tape();
    let Some(posts) = &case.posts else { return };
    let names = [met.end, met.across].map(|own| {
        own.takes.and_then(|id| parts.get(id)).map_or(String::new(), |part| part.path.clone())
    });
    let deep = post.thickness.length;
    // Where the other mortise ends, from the face of the post that it lies nearer to.
    let from = match post.which {
        Which::Back => deep - met.across.v.0,
        _ => met.across.v.1,
    };
    let room = met.end.deep - posts.ends.tenon.length;
    let left = deep - met.end.deep - from;
    let mut found = RULE
        .finding(
            format!("the mortises of {} and {} meet in {}", names[0], names[1], post.path),
            posts.ends.span,
            format!("tenons {} long", tape.figure(posts.ends.tenon.length)),
        )
        .label(met.across.span, "they run into the tenons of this frame")
        .label(posts.span, format!("posts {} deep", tape.figure(deep)))
        .sum(
            Sum::new("between the mortises", left, tape)
                .plus(deep, "the post", tape)
                .minus(
                    met.end.deep,
                    format!("the mortise, {} deeper than its tenon", tape.figure(room)),
                    tape,
                )
                .minus(from, "to the end of the other mortise", tape),
        )
        .because("the second tenon can't go where the first one lies")
        .subject(&post.path);
    let most = tape.down(deep - from - room - trade::lasting_wall());
    if most >= trade::least_tenon(tape.unit) {
        let statement = format!("tenon {}", tape.source(most));
        let title = format!("make the tenons of the ends {} long", tape.figure(most));
        found = found.fix(posts.ends.tenon_at.says(&statement, title));
    } else {
        found = found.note("use thicker stock for the posts");
    }
    sink.push(found);
}
