//! What is said of openings that come out as nothing or less.

use crate::diagnostics::{Diagnostic, Fix, Grade, Sum};
use crate::measure::{
    Exact, IF_DIGIT_LOST, IF_DOUBLED, IF_POINT_OFF, IF_TURNED, Length, Span, Unit, meant_inches,
    turned, undoubled,
};

use super::layout::{Solution, Value};
use super::lower::Lower;
use super::opening::Axis;
use super::openings::{Draft, Drafts};
use super::size::{Fact, Size};

/// Openings that come out as nothing or less.
pub(super) fn report(drafts: &Drafts<'_>, solution: &Solution, ctx: &mut Lower) {
    // One message a list: what is shared out fails for all that share it.
    let mut told = Vec::new();
    for draft in &drafts.openings {
        let Some(axis) = draft.parent.and_then(|parent| drafts.openings[parent].list) else {
            if let Some(fault) = no_frame_room(drafts, draft, solution, ctx) {
                // What is behind doors that have no room is told with the doors.
                let is_told = |own: &Diagnostic| own.slug == fault.slug && own.sums == fault.sums;
                if !ctx.sink.all().iter().any(is_told) {
                    ctx.sink.push(fault);
                }
                return;
            }
            continue;
        };
        let variable = if axis == Axis::Across { draft.wide } else { draft.high };
        let Some(size) = drafts.sheet.size(solution, variable) else { continue };
        if size.length.is_positive() || told.contains(&draft.parent) {
            continue;
        }
        told.push(draft.parent);
        let name = draft.path.rsplit('.').next().unwrap_or(&draft.path);
        let left = ctx.tape.figure(size.length);
        let title = format!("`{name}` has no room; {left} is left for it");
        let diagnostic =
            Diagnostic::error("no-room", title, draft.entry.head, "nothing is left for this")
                .subject(&draft.path);
        let mut diagnostic = explained(diagnostic, &size, draft.entry.head, ctx);
        diagnostic.fixes.extend(shared_instead(drafts, draft, &size, ctx));
        ctx.sink.push(diagnostic);
    }
}

/// The frame itself leaves nothing for its openings.
fn no_frame_room(
    drafts: &Drafts<'_>,
    root: &Draft<'_>,
    solution: &Solution,
    ctx: &Lower,
) -> Option<Diagnostic> {
    [root.wide, root.high].into_iter().find_map(|variable| {
        let Value::Known { length, .. } = solution.value(variable) else { return None };
        if length.is_positive() {
            return None;
        }
        let size = drafts.sheet.size(solution, variable)?;
        let left = ctx.tape.figure(size.length);
        let title = format!(
            "the frame of `{}` leaves no room for its openings; what is left is {left}",
            root.path
        );
        let at = root.entry.head;
        let diagnostic = Diagnostic::error("no-room", title, at, "nothing is left for these");
        Some(explained(diagnostic.subject(&root.path), &size, at, ctx))
    })
}

/// Adds the sum that a size comes from, and a label on each of its statements.
/// A share of something is written as the whole divided: `(33 − 31) / 2`.
fn explained(mut diagnostic: Diagnostic, size: &Size, at: Span, ctx: &Lower) -> Diagnostic {
    let mut facts: Vec<_> = ctx.facts.of(size).collect();
    facts.sort_by_key(|(_, factor)| factor.is_negative());
    let parts = facts.iter().map(|(_, factor)| factor.denom()).max().unwrap_or(1);
    let parts =
        if facts.iter().all(|(_, k)| (*k * Exact::int(parts)).is_whole()) { parts } else { 1 };
    let mut sum = Sum::new("leaves", size.length, &ctx.tape);
    sum.over = u32::try_from(parts).unwrap_or(1);
    for (fact, factor) in facts {
        let value = fact.length * factor * parts;
        sum = if value.is_negative() {
            sum.minus(-value, &fact.name, &ctx.tape)
        } else {
            sum.plus(value, &fact.name, &ctx.tape)
        };
        if let Some(span) = fact.origin.span().filter(|span| *span != at) {
            diagnostic = diagnostic.label(span, ctx.tape.figure(fact.length));
        }
    }
    diagnostic.fixes.extend(slips(size, ctx));
    if let Some(over_all) = too_small(size, ctx) {
        // What everything is taken from is at fault, not what comes out of it last.
        let whole = over_all.origin.span();
        let labels = &mut diagnostic.labels;
        if let Some(label) = labels.iter_mut().find(|label| Some(label.span) == whole) {
            std::mem::swap(&mut diagnostic.primary, label);
        }
        diagnostic.fixes.extend(lost_digits(over_all, size, ctx));
    }
    diagnostic.sum(sum)
}

/// The figure that all else is taken from, where what is taken comes to more than twice as
/// much, and leaving out any one of the takers would not do.
fn too_small<'a>(size: &'a Size, ctx: &'a Lower) -> Option<&'a Fact> {
    let taken: Vec<_> = ctx.facts.of(size).map(|(fact, k)| (fact, fact.length * k)).collect();
    let (whole, rest): (Vec<_>, Vec<_>) = taken.into_iter().partition(|(_, own)| own.is_positive());
    let [(whole, there)] = whole.as_slice() else { return None };
    let is_small = *there + size.length <= Length::ZERO;
    let no_one = rest.iter().all(|(_, own)| !(size.length - *own).is_positive());
    (is_small && no_one && whole.word.is_some()).then_some(*whole)
}

/// The figures that leave room where a point is a place off, or the first digit is missing.
fn lost_digits(whole: &Fact, size: &Size, ctx: &Lower) -> Vec<Fix> {
    let (tape, one) = (&ctx.tape, ctx.tape.unit.either(Length::inches(1, 1), Length::mm(1)));
    let (Some(at), Some(word)) = (whole.origin.span(), whole.word) else { return Vec::new() };
    let mut place = one;
    while place <= whole.length {
        place = place * 10;
    }
    let first = (1..10).map(|digit| (whole.length + place * digit, IF_DIGIT_LOST));
    let is_enough = |(length, _): &(Length, _)| {
        ctx.facts.of(size).any(|(fact, factor)| {
            std::ptr::eq(fact, whole)
                && (size.length + (*length - whole.length) * factor).is_positive()
        })
    };
    let tenfold = Some((whole.length * 10, IF_POINT_OFF)).filter(is_enough);
    let all = tenfold.into_iter().chain(first.into_iter().find(is_enough));
    let told = |(length, if_so)| {
        let figure = tape.source(length);
        Fix::new(Grade::Choice, format!("{figure}, {if_so}"), at, format!("{word} {figure}"))
    };
    all.map(told).collect()
}

/// What takes most beside it may take a share, too, in place of its figure.
fn shared_instead(
    drafts: &Drafts<'_>,
    none_left: &Draft<'_>,
    size: &Size,
    ctx: &Lower,
) -> Option<Fix> {
    let beside = drafts.openings.iter().filter(|own| own.parent == none_left.parent);
    let names: Vec<&str> = beside.filter_map(|own| own.path.rsplit('.').next()).collect();
    let takers = ctx
        .facts
        .of(size)
        .filter(|(fact, factor)| factor.is_negative() && names.contains(&fact.name.as_str()));
    let (most, _) = takers.max_by_key(|(fact, factor)| fact.length * -*factor)?;
    let (at, _) = most.origin.span().zip(most.word)?;
    let title = format!("let {} take what is left, too", most.name);
    Some(Fix::new(Grade::Choice, title, at, "share 1"))
}

/// How many figures are offered.
const MOST: usize = 2;

/// The figures that may have been meant where one alone takes more than half of what
/// there is.
fn slips(size: &Size, ctx: &Lower) -> Vec<Fix> {
    let tape = &ctx.tape;
    let all: Vec<_> = ctx.facts.of(size).collect();
    let taken = all.iter().map(|(fact, factor)| fact.length * *factor);
    let there: Length = taken.filter(|own| own.is_positive()).sum();
    let mut fixes = Vec::new();
    for (fact, factor) in &all {
        let (Some(at), Some(word)) = (fact.origin.span(), fact.word) else { continue };
        if (fact.length * -*factor).twice() <= there {
            continue;
        }
        for (length, if_so) in meant(fact.length, tape.unit) {
            let left = size.length + (length - fact.length) * *factor;
            if left.is_positive() && length.is_positive() {
                let figure = tape.source(length);
                let title = format!("{figure}, {if_so}");
                fixes.push(Fix::new(Grade::Choice, title, at, format!("{word} {figure}")));
            }
        }
    }
    fixes.truncate(MOST);
    fixes
}

/// What may have been meant by a length in a job of this unit.
fn meant(length: Length, unit: Unit) -> Vec<(Length, &'static str)> {
    if unit.is_metric() {
        let mut all = vec![(length / 10, IF_POINT_OFF)];
        let whole = undoubled(length.in_unit(Unit::Millimetre));
        all.extend(whole.map(|meant| (Length::new(meant, Unit::Millimetre), IF_DOUBLED)));
        return all;
    }
    let count = length.in_unit(Unit::Inch);
    let meant = meant_inches(count, false);
    let inches = meant.into_iter().map(|own| (Length::new(own.inches, Unit::Inch), own.if_so));
    // A room or a wall is told in feet.
    let feet = count.is_whole() && length <= Length::inches(12, 1);
    let feet = feet.then(|| (Length::new(count, Unit::Foot), "if feet are meant"));
    let turned = turned(count).map(|count| (Length::new(count, Unit::Inch), IF_TURNED));
    feet.into_iter().chain(inches).chain(turned).collect()
}
