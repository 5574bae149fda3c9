//! A coat that dries for less or longer than any product of its kind asks for.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::measure::{Duration, Exact, IF_POINT_OFF};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "recoat-odd",
    severity: Severity::Warning,
    finds: "A finish has a `cure` that is shorter or longer than the time between coats of any product of its kind. A finish in a used file counts only where the piece is finished with it.",
    why: "A coat over one that is still wet wrinkles, stays soft, or turns white. Long after its time the next coat may not hold on the first without sanding.",
    source: "From memory: labels of quick and of slow products of each kind.",
    formula: "Hardwax oil 4 to 36 h; drying oil 4 to 72 h; varnish 2 to 48 h; lacquer 20 min to 24 h, and one thinned with water from 1 h on; wax 10 min to 48 h; paint 1 to 48 h.",
    accept: "Accept it if the product's own sheet gives this time.",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 2 h }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    for (index, finish) in piece.finishes.iter().enumerate() {
        let Some(span) = finish.cure_span else { continue };
        let Some(kind) = trade::finish_named(finish.kind.slug()) else { continue };
        let minutes = |count: u32| Duration(Exact::int(count.into()));
        let (least, most) = (minutes(kind.between_coats.0), minutes(kind.between_coats.1));
        if least <= finish.cure && finish.cure <= most {
            continue;
        }
        let is_used = || work.finishes().iter().any(|(id, _)| id.0 == index);
        if !crate::checks::in_spec(finish.span) && !is_used() {
            continue;
        }
        let word = finish.kind.word();
        let usual = format!("between two coats of {word} it is usually {}", kind.recoat);
        let mut found = RULE
            .finding(
                format!(
                    "a coat of {} dries {}, and no {word} asks for that",
                    finish.name, finish.cure
                ),
                span,
                finish.cure.to_string(),
            )
            .label(finish.span, word)
            .because(if finish.cure < least {
                "the coat below is still wet, and the new one wrinkles or stays soft"
            } else {
                "the coat below has hardened, and the new one may peel off it"
            })
            .note(usual)
            .note("the time on the can's own sheet takes precedence")
            .subject(&finish.name);
        let tenfold = [Exact::int(10), Exact::ratio(1, 10)];
        let meant = tenfold.map(|times| Duration(finish.cure.0 * times));
        if let Some(meant) = meant.into_iter().find(|meant| least <= *meant && *meant <= most) {
            found = found.fix(Fix::new(
                Grade::Choice,
                format!("{meant}, {IF_POINT_OFF}"),
                span,
                format!("cure {}", written(meant)),
            ));
        }
        let near = if finish.cure < least { least } else { most };
        sink.push(found.fix(Fix::new(
            Grade::Choice,
            format!(
                "the {} that a {word} takes",
                if finish.cure < least { "least" } else { "most" }
            ),
            span,
            format!("cure {}", written(near)),
        )));
    }
}

/// As a spec writes it: whole hours, else minutes.
fn written(time: Duration) -> String {
    let hours = time.0 / Exact::int(60);
    match hours.is_whole() {
        true => format!("{hours} h"),
        false => format!("{} min", time.0.round()),
    }
}
