//! What is said where the sizes of a case can't be found: the smallest set of
//! statements that contradict each other, with the sum written out; what
//! nothing fixes.

use crate::diagnostics::{Diagnostic, Edit, Fix, Grade, Sum};
use crate::measure::{Exact, Length, Span};
use crate::vocabulary::{Entries, words};

use super::equations::{Known, Says, Unknown};
use super::layout::{Conflict, EquationId, Question, Solution};
use super::lower::Lower;
use super::no_room;
use super::opening::Axis;
use super::openings::Drafts;
use super::size_names::last;

pub(super) fn report(drafts: &Drafts<'_>, solution: &Solution, ctx: &mut Lower) {
    for conflict in &solution.conflicts {
        let diagnostic = self::conflict(drafts, conflict, ctx);
        ctx.sink.push(diagnostic);
    }
    for question in &solution.questions {
        if let Some(diagnostic) = self::question(drafts, question) {
            ctx.sink.push(diagnostic);
        }
    }
    for id in solution.too_fine.iter().take(1) {
        let span = known(drafts, *id).and_then(|known| known.span).unwrap_or_default();
        ctx.sink.push(*crate::vocabulary::too_fine(span));
    }
    if solution.conflicts.is_empty() {
        no_room::report(drafts, solution, ctx);
    }
}

fn known<'a>(drafts: &'a Drafts<'_>, id: EquationId) -> Option<&'a Known> {
    drafts.sheet.known.get(id.index())
}

/// A statement of a conflict with what it adds to the sum.
struct Party<'a> {
    known: &'a Known,
    name: &'a str,
    factor: Exact,
    span: Span,
}

fn conflict(drafts: &Drafts<'_>, conflict: &Conflict, ctx: &Lower) -> Diagnostic {
    let tape = &ctx.tape;
    let all: Vec<(&Known, Exact)> = conflict
        .equations
        .iter()
        .filter_map(|(id, factor)| known(drafts, *id).map(|known| (known, *factor)))
        .collect();
    // The innermost list that takes part is the one the maker thinks in.
    let list = all
        .iter()
        .filter_map(|(known, factor)| match known.says {
            Says::Fills(list) => Some((list, *factor)),
            _ => None,
        })
        .max_by_key(|(list, _)| *list);
    let Some((list, fill)) = list else { return plain(&all, conflict, ctx) };
    let mut needs: Vec<Party<'_>> = Vec::new();
    let mut leaves: Vec<Party<'_>> = Vec::new();
    let mut shares: Vec<(Span, bool)> = Vec::new();
    for (known, factor) in &all {
        let Some(span) = known.span else { continue };
        match &known.says {
            Says::Fixed { name, list: of, .. } if *of == Some(list) => {
                needs.push(Party { known, name, factor: -*factor / fill, span });
            }
            Says::Fixed { name, .. } => {
                leaves.push(Party { known, name, factor: *factor / fill, span });
            }
            Says::Shares { same, .. } => shares.push((span, *same)),
            Says::Fills(_) | Says::Crosses | Says::Leaves => {}
        }
    }
    let total = |parties: &[Party<'_>]| -> Length {
        parties.iter().map(|party| party.known.constant * party.factor).sum()
    };
    let (need, leave) = (total(&needs), total(&leaves));
    let over = need - leave;
    let draft = &drafts.openings[list];
    let axis = draft.list.unwrap_or(Axis::Across);
    let name = draft.path.rsplit('.').next().unwrap_or(&draft.path);
    let amount = over.abs();
    let so = match (over.is_positive(), axis) {
        (true, Axis::Across) => format!("they are {} too wide", tape.figure(amount)),
        (true, Axis::Down) => format!("they are {} too tall", tape.figure(amount)),
        (false, _) => format!("{} is left over", tape.figure(amount)),
    };
    let (need_told, leave_told) = (tape.figure(need), tape.figure(leave));
    let title = match drafts.of_run {
        true => format!(
            "what stands in {name} comes to {need_told} and {name} is {leave_told} wide, so {so}"
        ),
        false => format!(
            "the openings of {name} come to {need_told} and the frame leaves {leave_told}, so {so}"
        ),
    };
    needs.sort_by_key(|party| party.span);
    let (first, rest) = match needs.split_first() {
        Some((first, rest)) => (Some(first), rest),
        None => (None, [].as_slice()),
    };
    let at = first.map_or(draft.entry.head, |party| party.span);
    let label = first.map_or(String::new(), |party| own_figure(party, ctx));
    let mut diagnostic = Diagnostic::error("sizes-conflict", title, at, label).subject(&draft.path);
    for party in rest.iter().chain(&leaves) {
        diagnostic = diagnostic.label(party.span, own_figure(party, ctx));
    }
    for (span, same) in shares {
        let label = if same { "the same size as another" } else { "takes a share" };
        diagnostic = diagnostic.label(span, label);
    }
    diagnostic.sums.push(sum("needs", need, &needs, false, ctx));
    diagnostic.sums.push(sum("leaves", leave, &leaves, true, ctx));
    let head = if over.is_positive() { "over by" } else { "left over" };
    diagnostic.sums.push(Sum::new(head, amount, tape));
    let shared = |name: &str| says_its_share(drafts, list, name);
    let whole = if drafts.of_run { "run" } else { "case" };
    mends(diagnostic, (&needs, &leaves), (over, whole), &shared, ctx)
}

/// The word by which an item of a list gives its share, where it has one.
fn says_its_share(drafts: &Drafts<'_>, list: usize, name: &str) -> Option<&'static str> {
    let draft = drafts
        .openings
        .iter()
        .find(|draft| draft.parent == Some(list) && draft.path.rsplit('.').next() == Some(name))?;
    let body = draft.entry.body()?;
    if body.says(words::group::SHARE) {
        return Some(words::group::SHARE.spelling());
    }
    body.says(words::group::SAME).then_some(words::group::SAME.spelling())
}

/// What a statement is labelled with: its figure, or that it is worked out.
fn own_figure(party: &Party<'_>, ctx: &Lower) -> String {
    match party.known.says {
        Says::Fixed { word: None, .. } if party.known.constant.is_zero() => {
            "worked out from another size".to_owned()
        }
        _ => ctx.tape.figure(party.known.constant),
    }
}

fn sum(head: &str, total: Length, parties: &[Party<'_>], names: bool, ctx: &Lower) -> Sum {
    let mut sum = Sum::new(head, total, &ctx.tape);
    let mut parties: Vec<&Party<'_>> = parties.iter().collect();
    parties.sort_by_key(|party| (party.factor.is_negative(), party.span));
    for party in parties.into_iter().filter(|party| !party.known.constant.is_zero()) {
        let value = party.known.constant * party.factor;
        let name = if names { party.name } else { "" };
        sum = if value.is_negative() {
            sum.minus(-value, name, &ctx.tape)
        } else {
            sum.plus(value, name, &ctx.tape)
        };
    }
    sum
}

/// The single-line changes that make it fit: each plain figure of the list,
/// openings before members, then letting an opening take what is left.
fn mends(
    mut diagnostic: Diagnostic,
    (needs, leaves): (&[Party<'_>], &[Party<'_>]),
    (over, whole): (Length, &str),
    shared: &dyn Fn(&str) -> Option<&'static str>,
    ctx: &Lower,
) -> Diagnostic {
    let is_member = |party: &&Party<'_>| matches!(party.name, "stile" | "rail" | "divider");
    let edit = |party: &Party<'_>, change: Length| {
        let Says::Fixed { name, word: Some(word), .. } = &party.known.says else { return None };
        let figure = party.known.constant + change / party.factor;
        if !figure.is_positive() {
            return None;
        }
        // Less than half of what was meant, or a rail of twice its width, is no mending.
        let was = party.known.constant;
        if figure.twice() < was || is_member(&party) && figure > was.twice() {
            return None;
        }
        let shown = ctx.tape.figure(figure);
        let title = if name == word {
            format!("make the {whole} {shown} {word}")
        } else {
            format!("make {name} {shown}")
        };
        let text = format!("{word} {}", ctx.tape.source(figure));
        Some(Fix::new(Grade::Choice, title, party.span, text))
    };
    let openings = needs.iter().filter(|party| !is_member(party));
    let members = needs.iter().filter(|party| is_member(party));
    let in_list: Vec<Fix> =
        openings.clone().chain(members).filter_map(|party| edit(party, -over)).take(3).collect();
    diagnostic.fixes.extend(in_list);
    if let Some(party) = openings.clone().next_back() {
        // Where it says its share already, its figure is one word too many.
        let (title, text) = match shared(party.name) {
            Some(word) => (format!("leave the size of {} to its `{word}`", party.name), ""),
            None => (format!("let {} take what is left", party.name), "share 1"),
        };
        diagnostic.fixes.push(Fix::new(Grade::Choice, title, party.span, text));
    }
    // The widest view last: change what the frame leaves.
    if let Some(party) = leaves.iter().find(|party| party.factor == Exact::ONE) {
        diagnostic.fixes.extend(edit(party, over));
    }
    diagnostic
}

/// A conflict in which no list takes part: two figures for one size.
fn plain(all: &[(&Known, Exact)], conflict: &Conflict, ctx: &Lower) -> Diagnostic {
    let tape = &ctx.tape;
    let mut parties: Vec<(&str, Span, Length, Exact)> = all
        .iter()
        .filter_map(|(known, factor)| {
            let name = match &known.says {
                Says::Fixed { name, .. } | Says::Shares { name, .. } => name.as_str(),
                _ => "",
            };
            known.span.map(|span| (name, span, known.constant, *factor))
        })
        .filter(|(name, ..)| !name.is_empty())
        .collect();
    parties.sort_by_key(|(_, span, ..)| *span);
    let over = conflict.over.abs();
    let title = match parties.as_slice() {
        [(a, _, x, j), (b, _, y, k)] if *j == -*k => {
            let name = if a == b { (*a).to_owned() } else { format!("{a} and {b}") };
            format!("{name} can't be both {} and {}", tape.figure(*x), tape.figure(*y))
        }
        _ => format!("these sizes can't all hold; they differ by {}", tape.figure(over)),
    };
    if let Some(diagnostic) = crossing(all, ctx) {
        return diagnostic;
    }
    let last = parties.last().map(|(_, span, figure, _)| (*span, *figure));
    let (at, figure) = last.unwrap_or_default();
    let mut diagnostic = Diagnostic::error("sizes-conflict", title, at, tape.figure(figure));
    for (_, span, figure, _) in parties.iter().rev().skip(1) {
        diagnostic = diagnostic.label(*span, tape.figure(*figure));
    }
    diagnostic
        .sum(Sum::new("differ by", over, tape))
        .note("take out one of these statements, or change its figure")
}

/// An opening whose own figure is not what its column or row leaves for it.
fn crossing(all: &[(&Known, Exact)], ctx: &Lower) -> Option<Diagnostic> {
    let tape = &ctx.tape;
    let stated = |known: &Known| {
        matches!(&known.says, Says::Fixed { name, word: Some(word), .. } if name != word)
            && known.span.is_some()
    };
    let (own, own_factor) = all
        .iter()
        .filter(|(known, _)| stated(known))
        .max_by_key(|(known, _)| known.span)
        .copied()?;
    let Says::Fixed { name, word: Some(word), .. } = &own.says else { return None };
    let at = own.span?;
    let mut others: Vec<(&str, Span, Length, Length)> = Vec::new();
    for (known, factor) in all.iter().filter(|(known, _)| known.span != own.span) {
        match &known.says {
            Says::Fixed { name, .. } => {
                let part = known.constant * (-*factor / own_factor);
                others.push((name, known.span?, known.constant, part));
            }
            Says::Shares { .. } => return None,
            Says::Fills(_) | Says::Crosses | Says::Leaves => {}
        }
    }
    if others.len() < 2 {
        return None;
    }
    others.sort_by_key(|(_, span, _, part)| (part.is_negative(), *span));
    let leaves: Length = others.iter().map(|(.., part)| *part).sum();
    if !leaves.is_positive() {
        return None;
    }
    let (figure, room) = (tape.figure(own.constant), tape.figure(leaves));
    let title = format!("{name} can't be {figure} {word}, because its place is {room} {word}");
    let mut diagnostic = Diagnostic::error("sizes-conflict", title, at, figure);
    let mut sum = Sum::new("leaves", leaves, tape);
    for (name, span, figure, part) in others {
        diagnostic = diagnostic.label(span, tape.figure(figure));
        sum = if part.is_negative() {
            sum.minus(-part, name, tape)
        } else {
            sum.plus(part, name, tape)
        };
    }
    let fix = Fix::new(
        Grade::Choice,
        format!("make {name} {room}"),
        at,
        format!("{word} {}", tape.source(leaves)),
    );
    let over = own.constant - leaves;
    let head = if over.is_positive() { "over by" } else { "short by" };
    Some(diagnostic.sum(sum).sum(Sum::new(head, over.abs(), tape)).fix(fix))
}

fn question(drafts: &Drafts<'_>, question: &Question) -> Option<Diagnostic> {
    let unknown = |filter: &dyn Fn(&Unknown) -> bool| {
        question
            .open
            .iter()
            .filter_map(|variable| drafts.sheet.unknown.get(variable.index()))
            .filter(|unknown| filter(unknown))
            .collect::<Vec<_>>()
    };
    // Where the case itself has no size, that is the question.
    let own = question.open.iter().filter(|variable| variable.index() < 2);
    let own: Vec<_> =
        own.filter_map(|variable| drafts.sheet.unknown.get(variable.index())).collect();
    let mut items = match own.is_empty() {
        true => unknown(&|unknown| unknown.list.is_some()),
        false => own,
    };
    if items.is_empty() {
        items = unknown(&|_| true);
    }
    items.sort_by_key(|unknown| unknown.span);
    let (first, rest) = items.split_first()?;
    let size = match first.axis {
        Axis::Across => "width",
        Axis::Down => "height",
    };
    let names: Vec<String> = items.iter().map(|item| format!("`{}`", item.name)).collect();
    let title = match names.as_slice() {
        [only] => format!("nothing fixes the {size} of {only}"),
        [rest @ .., last] => format!(
            "nothing fixes the {size} of {} and {last}; {} needed",
            rest.join(", "),
            match question.missing {
                1 => "one more size is".to_owned(),
                n => format!("{n} more sizes are"),
            }
        ),
        [] => return None,
    };
    let word = first.axis.size_word();
    let mut diagnostic =
        Diagnostic::error("size-undetermined", title, first.span, format!("how {word}?"));
    for item in rest {
        diagnostic = diagnostic.label(item.span, format!("how {}?", item.axis.size_word()));
    }
    // One alone takes all that is left; several must all say how they share it.
    let (takers, shares): (Vec<&str>, Vec<Edit>) = items
        .iter()
        .filter(|item| item.list.is_some())
        .filter_map(|item| Some((item.name.as_str(), share_of(drafts, item)?)))
        .unzip();
    if !shares.is_empty() {
        let title = match takers.as_slice() {
            [only] => format!("let {only} take what is left"),
            _ => "let each take an equal share of what is left".to_owned(),
        };
        diagnostic = diagnostic.fix(Fix { title, grade: Grade::Choice, edits: shares });
    }
    if diagnostic.fixes.is_empty() {
        diagnostic = diagnostic.note(format!("write `{word}` and its size"));
    } else {
        diagnostic = diagnostic.note(format!("you can also write `{word}` and its size"));
    }
    Some(diagnostic)
}

/// Gives an opening a share of what is left, in place of its `same` where it has
/// one; nothing where it has a share.
fn share_of(drafts: &Drafts<'_>, item: &Unknown) -> Option<Edit> {
    let body = drafts
        .openings
        .iter()
        .find(|draft| draft.entry.head == item.span)
        .and_then(|draft| draft.entry.body());
    if let Some(body) = body {
        if body.says(words::group::SHARE) {
            return None;
        }
        if let Some(same) = body.one(words::group::SAME) {
            return Some(Edit { span: same.head, text: "share 1".to_owned() });
        }
    }
    Some(match item.open {
        Some(open) => Edit { span: Span { start: open.end, ..open }, text: " share 1;".to_owned() },
        None => {
            Edit { span: Span { start: item.span.end, ..item.span }, text: " { share 1 }".into() }
        }
    })
}

/// The finding of a `same` that names its own opening, which says nothing of its size.
pub(super) fn same_as_itself(
    drafts: &Drafts<'_>,
    (span, name): (Span, &str),
    list: usize,
) -> Diagnostic {
    let how = match drafts.openings[list].list {
        Some(Axis::Across) | None => "wide",
        Some(Axis::Down) => "high",
    };
    let found = Diagnostic::error(
        "size-undetermined",
        format!("`{name}` can't be the `same` as itself: that does not say how {how} it is"),
        span,
        "its own name",
    );
    // Another one beside it that takes a share of what is left.
    let mut beside = drafts.openings.iter().filter(|draft| draft.parent == Some(list));
    let shares = beside.find(|draft| {
        let body = draft.entry.body();
        draft.entry.name().is_some() && body.is_some_and(|own| own.says(words::group::SHARE))
    });
    let found = match shares.map(|draft| last(&draft.path)) {
        Some(other) => {
            let title = format!("it is as {how} as {other}");
            found.fix(Fix::new(Grade::Choice, title, span, format!("same {other}")))
        }
        None => found,
    };
    found.fix(Fix::new(Grade::Choice, "it takes a share of what is left", span, "share 1"))
}

/// A size that is said in two ways, each of which takes what is left.
pub(super) fn share_and_same(body: &Entries, name: &str) -> Option<Diagnostic> {
    let share = body.one(words::group::SHARE)?.head;
    let same = body.one(words::group::SAME)?.head;
    let (first, second) = (share.min(same), share.max(same));
    let title = format!("`{name}` has a `share` and is the `same` as another; only one can hold");
    let leave = |word: &str, other: Span| {
        Fix::new(Grade::Choice, format!("leave its size to its `{word}`"), other, "")
    };
    Some(
        Diagnostic::error("sizes-conflict", title, second, "says its size again")
            .label(first, "says its size")
            .fix(leave("share", same))
            .fix(leave("same", share)),
    )
}
