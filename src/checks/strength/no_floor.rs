//! A niche or cupboard without a board to stand things on.

use std::collections::BTreeMap;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::Span;
use crate::model::{Beyond, Case, Edge, Member, Opening, OpeningId, Piece, Web};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "no-floor",
    severity: Severity::Error,
    finds: "A niche, a cupboard, or a drawer that runs on wood has no board under it. Under each of them there must be the bottom of the case, the shelf behind a rail, a divider, or the floor of the room; a web frame is a floor only for drawers that run on it, unless it has dust panels.",
    why: "What is put into it falls into the opening below, or out of the case, and a drawer has nothing to run on.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::Press,
        sound: "rail { wide 40 }",
        wrong: "rail { wide 40; shelf none }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for case in &piece.cases {
        // Where a list has no boards at all, that is told once.
        let mut of_lists: BTreeMap<OpeningId, Span> = BTreeMap::new();
        for opening in case.openings.iter().filter(|opening| opening.keeps_things()) {
            // It may stand on the floor of the room.
            if !case.has_floor(opening.id) && !opening.y.is_zero() {
                let beyond = case.beyond(opening.id, Edge::Bottom);
                let list = opening.parent.filter(|_| matches!(beyond, Beyond::Opening(_)));
                let at = list.map(|list| *of_lists.entry(list).or_insert(opening.span));
                sink.push(report(case, (opening, beyond), at.unwrap_or(opening.span)));
            } else if let Some(web) = open_frame(case, opening) {
                sink.push(through(opening, web));
            }
        }
    }
}

/// The web frame without dust panels that is all there is under an opening.
fn open_frame<'a>(case: &'a Case, opening: &Opening) -> Option<&'a Web> {
    let Beyond::Member(id) = case.beyond(opening.id, Edge::Bottom) else { return None };
    // A drawer runs on the runners of the frame.
    let runs = opening.on_wood.is_some();
    case.web_of(id.at).filter(|web| web.panel.is_none() && !runs)
}

fn through(opening: &Opening, web: &Web) -> Diagnostic {
    RULE.finding(
        format!("{} has no floor, because the web frame under it is open", opening.path),
        opening.span,
        "there are only rails and runners under this",
    )
    .label(web.span, "this frame has no dust panels")
    .because("what is put into it falls through between the runners")
    .note("give the frame a `panel-stock`, or write `build slab`")
    .subject(&opening.path)
}

fn report(case: &Case, (opening, beyond): (&Opening, Beyond), at: Span) -> Diagnostic {
    let title = format!("{} has no floor", opening.path);
    let found = RULE.finding(title, at, "no board of the case lies under this");
    let mut found = found.subject(&opening.path);
    if at != opening.span {
        found = found.label(opening.span, "nor under this");
    }
    let falls = match opening.on_wood.is_some() {
        true => "its drawer runs on wood, and there is no board for it to run on",
        false => "what is put into it falls into the opening below",
    };
    match beyond {
        Beyond::Outside => {
            let found = found.because("the case has no bottom");
            match &case.frame {
                _ if !case.is_on_floor() => found.note("give the case a `bottom`"),
                Some(_) => found.note("give the case a `bottom`, or leave out its base and its bottom rail so that the opening reaches the floor of the room"),
                None => found.note("give the case a `bottom`, or leave out its base so that the opening reaches the floor of the room"),
            }
        }
        Beyond::Member(id) => match case.members.get(id.at) {
            Some(rail) => under(found, rail, opening),
            None => found,
        },
        Beyond::Opening(next) => {
            let next = case.openings.get(next.at).map_or("the next opening", Opening::name);
            let framed = case.frame.is_some() && case.door_before(opening).is_none();
            let word = if framed { "rail" } else { "divider" };
            let found = found.because(falls);
            match opening.on_wood.is_some() {
                true if framed => found.note(format!(
                    "put a `rail` between it and {next}, and in its braces `shelf {{ build web {{ }} }}`: a frame whose runners carry the drawer"
                )),
                true => found.note(format!(
                    "put a `divider {{ build web {{ }} }}` between it and {next}: a frame whose runners carry the drawer"
                )),
                false => found.note(format!("put a `{word}` between it and {next}")),
            }
        }
    }
}

/// What to say where a rail without a shelf is under the opening.
fn under(found: Diagnostic, rail: &Member, opening: &Opening) -> Diagnostic {
    let found = found.label(rail.span, "this rail carries no shelf").because(
        match opening.on_wood.is_some() {
            true => {
                "its drawer runs on wood, and behind the rail there is no board for it to run on"
            }
            false => "what is put into it falls through behind the rail",
        },
    );
    match rail.left_out {
        Some(said) => found.fix(Fix::new(
            Grade::Choice,
            "let the rail carry a shelf",
            said,
            "shelf",
        )),
        None => found.note("a shelf lies between two boards of the case: put a partition behind the stile that this rail ends at"),
    }
}
