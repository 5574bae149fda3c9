//! A case that is made like another, the same way round or the other: what it takes over,
//! read before anything is solved, so that all behind sees ordinary cases.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Span, Spanned};
use crate::syntax::Name;
use crate::vocabulary::takes::{self, Define, Path};
use crate::vocabulary::words::{self, file, run_list};
use crate::vocabulary::{Entries, Entry, Said, Word};

use super::limits::{self, MOST_CASES, MOST_TAKEN_OVER};
use super::lower::{Lower, Names};

/// Of these words one takes the place of the others: what a case stands on or hangs by, and
/// what gives a case of a run its width.
const INSTEAD: [&[&str]; 2] = [
    &[words::case::BASE.spelling(), words::case::HUNG.spelling(), words::case::ON.spelling()],
    &[
        words::run_case::WIDE.spelling(),
        words::run_case::SHARE.spelling(),
        words::run_case::SAME.spelling(),
    ],
];

/// Words that say what openings a case has.
const OPENINGS: [&str; 3] =
    [words::case::FRAME.spelling(), words::case::ACROSS.spelling(), words::case::DOWN.spelling()];

/// The spec with every case that is like another written out. One that is like nothing that
/// there is (reported) is left without its braces, so that nothing else is said of it.
pub(super) fn written_out(main: &Entries, ctx: &mut Lower) -> Entries {
    let elsewhere = elsewhere(main);
    let mut taken = 0;
    let (case, like) = (file::CASE, words::case::LIKE);
    let alone = Cases::among(main, (case, like), None, &elsewhere);
    let main = alone.written_out(main, &mut taken, ctx);
    let (case, like) = (run_list::CASE, words::run_case::LIKE);
    main.with_each(|entry| {
        let run = entry.body().filter(|_| entry.word.word == file::RUN.spelling());
        let Some((run, list)) = run.and_then(|run| Some((run, list_of(run)?))) else {
            return entry.clone();
        };
        let name = entry.name().map(|name| name.value);
        let cases = Cases::among(list, (case, like), name, &elsewhere);
        let list = cases.written_out(list, &mut taken, ctx);
        entry.with(run.with_each(|own| match own.word.word == words::run::ACROSS.spelling() {
            true => own.with(list.clone()),
            false => own.clone(),
        }))
    })
}

/// What stands in a run.
fn list_of(run: &Entries) -> Option<&Entries> {
    run.one(words::run::ACROSS)?.body()
}

/// Every case and run of the spec by its name, with why a case that stands in other braces
/// can't be like it.
fn elsewhere(main: &Entries) -> Vec<(&str, String)> {
    let alone = main.all(file::CASE).filter_map(|case| case.entry.name());
    let mut all: Vec<(&str, String)> =
        alone.map(|name| (name.value, "this stands in no run".to_owned())).collect();
    for run in main.all(file::RUN) {
        let Some(name) = run.entry.name() else { continue };
        all.push((name.value, "this is a run".to_owned()));
        let list = run.body().and_then(list_of).into_iter();
        let cases = list.flat_map(|list| list.all(run_list::CASE));
        let why = format!("this stands in the run `{}`, which says part of it", name.value);
        all.extend(cases.filter_map(|case| Some((case.entry.name()?.value, why.clone()))));
    }
    all
}

/// The cases that stand in the same braces.
struct Cases<'a> {
    all: Vec<&'a Entry>,
    case: Word<Define>,
    like: Word<Path>,
    /// The run that they stand in.
    run: Option<&'a str>,
    elsewhere: &'a [(&'a str, String)],
}

/// What became of a case.
#[derive(Clone)]
enum Became {
    /// Nobody has looked at it.
    Unread,
    /// All that it says, or takes over.
    Whole(Entries),
    /// It is like nothing that there is.
    Nothing,
}

impl<'a> Cases<'a> {
    fn among(
        holder: &'a Entries,
        (case, like): (Word<Define>, Word<Path>),
        run: Option<&'a str>,
        elsewhere: &'a [(&'a str, String)],
    ) -> Self {
        let all = holder.all(case).map(|own| own.entry).collect();
        Self { all, case, like, run, elsewhere }
    }

    /// The block that holds them, with each of them written out.
    fn written_out(&self, holder: &Entries, taken: &mut usize, ctx: &mut Lower) -> Entries {
        let says = |own: &&Entry| own.body().is_some_and(|body| body.says(self.like));
        // Too many cases are told of where they are counted.
        if self.all.len() > MOST_CASES || !self.all.iter().any(says) {
            return holder.clone();
        }
        let mut became = vec![Became::Unread; self.all.len()];
        for first in 0..self.all.len() {
            self.follow(first, &mut became, taken, ctx);
        }
        let mut became = became.into_iter();
        holder.with_each(|entry| {
            if entry.word.word != self.case.spelling() {
                return entry.clone();
            }
            match became.next() {
                Some(Became::Whole(body)) => entry.with(body),
                Some(Became::Unread | Became::Nothing) | None => entry.without_body(),
            }
        })
    }

    /// Writes out a case, and first those that it is like.
    fn follow(&self, first: usize, became: &mut [Became], taken: &mut usize, ctx: &mut Lower) {
        let mut chain: Vec<usize> = Vec::new();
        let mut next = Some(first);
        let mut is_lost = false;
        while let Some(at) = next.filter(|at| matches!(became[*at], Became::Unread)) {
            if let Some(start) = chain.iter().position(|own| *own == at) {
                ctx.sink.push(self.ring(&chain[start..]));
                is_lost = true;
                break;
            }
            chain.push(at);
            next = match self.said(at) {
                None => None,
                Some(said) => {
                    let other = self.other(at, said, ctx);
                    is_lost = other.is_none();
                    other
                }
            };
        }
        // Nothing more is copied when too much has been.
        is_lost |= next.is_some() && *taken > MOST_TAKEN_OVER;
        let other = next.filter(|_| !is_lost).map(|at| became[at].clone());
        is_lost |= matches!(other, Some(Became::Nothing));
        let mut above = match other {
            Some(Became::Whole(body)) => Some(body),
            Some(Became::Unread | Became::Nothing) | None => None,
        };
        while let Some(at) = chain.pop() {
            let own = self.all[at].body().filter(|_| !is_lost);
            let whole = own.and_then(|own| self.whole(at, own, above.take(), taken, ctx));
            is_lost |= whole.is_none();
            above.clone_from(&whole);
            became[at] = whole.map_or(Became::Nothing, Became::Whole);
            // What is missing must not be asked for elsewhere.
            ctx.made_up |= is_lost;
        }
    }

    fn said(&self, at: usize) -> Option<Said<'a, Path>> {
        self.all[at].body()?.one(self.like)
    }

    fn name(&self, at: usize) -> &'a str {
        self.all[at].name().map_or("", |name| name.value)
    }

    /// Which case is meant; `None` where there is no such case here (reported).
    fn other(&self, at: usize, said: Said<'a, Path>, ctx: &mut Lower) -> Option<usize> {
        let asked = said.value()?;
        let text = asked.value.text();
        let last = asked.value.words().last().map_or(text, |word| word.text);
        let found = (0..self.all.len()).find(|other| self.name(*other) == text);
        if found.is_some() {
            return found;
        }
        let beside = (0..self.all.len()).find(|other| self.name(*other) == last);
        let run = self.run.filter(|run| text == format!("{run}.{last}"));
        if let (Some(run), Some(_)) = (run, beside) {
            ctx.sink.push(in_same_run(asked, run, last));
            return beside;
        }
        match self.elsewhere.iter().find(|(name, _)| [text, last].contains(name)) {
            Some((_, why)) => ctx.sink.push(not_here(self.name(at), asked, why)),
            None => {
                let name = Spanned::new(text, asked.span);
                let others = (0..self.all.len()).filter(|other| *other != at);
                let names = Names::new(others.map(|other| self.name(other)));
                ctx.find::<takes::Case>(name, &names);
            }
        }
        None
    }

    /// Cases that are like each other in a ring.
    fn ring(&self, ring: &[usize]) -> Diagnostic {
        let first = ring.first().copied().unwrap_or_default();
        let last = ring.last().copied().unwrap_or_default();
        let span = |at: usize| self.said(at).map_or(self.all[at].head, |said| said.head);
        let names: Vec<&str> = ring.iter().chain([&first]).map(|at| self.name(*at)).collect();
        let title = match ring.len() {
            1 => format!("{} is like itself", self.name(first)),
            _ => format!("these cases are like each other in a ring: {}", names.join(" → ")),
        };
        Diagnostic::error("like-ring", title, span(last), "this closes the ring")
            .note("write one of them out, without `like`")
    }

    /// All that a case says, with what it takes over; `None` where it can't (reported).
    fn whole(
        &self,
        at: usize,
        own: &Entries,
        above: Option<Entries>,
        taken: &mut usize,
        ctx: &mut Lower,
    ) -> Option<Entries> {
        let (Some(said), Some(above)) = (self.said(at), above) else { return Some(own.clone()) };
        let (name, other) = (self.name(at), said.value()?.value.text());
        let is_opening = |entry: &&Entry| OPENINGS.contains(&entry.word.word);
        let openings: Vec<&Entry> = own.in_order().filter(is_opening).collect();
        if let Some((first, more)) = openings.split_first() {
            let found = has_openings((name, other), first, said.head);
            let found = more.iter().fold(found, |found, own| found.label(own.head, "and this"));
            ctx.sink.push(found);
        }
        let is_mirrored =
            said.body().is_some_and(|body| body.flag(words::like::MIRRORED).is_some());
        let before = *taken;
        *taken += above.statements();
        if *taken > MOST_TAKEN_OVER {
            if before <= MOST_TAKEN_OVER {
                let what = "statements that cases take over with `like`";
                ctx.sink.push(limits::too_many(MOST_TAKEN_OVER, what, said.head));
            }
            return None;
        }
        let above = if is_mirrored { above.mirrored() } else { above };
        let place = in_same_place(own, &above, is_mirrored);
        if let Some((word, at)) = place {
            ctx.sink.push(same_place((name, other), (word, at), said.head));
        }
        if !openings.is_empty() || place.is_some() {
            return None;
        }
        ctx.taken_over.push(above.open.to(above.close));
        Some(own.like(&above, own.block, &INSTEAD))
    }
}

/// Where a case would be in the place of the one that it is like: the word that says so, and
/// its statement there. From a side, the other way round, it has a place of its own.
fn in_same_place(
    own: &Entries,
    above: &Entries,
    is_mirrored: bool,
) -> Option<(&'static str, Span)> {
    use words::case::{BASE, HUNG, ON};
    use words::{hung, stands_on};

    // A run hangs as a whole.
    if !own.may_hold(ON) || own.says(BASE) || own.says(HUNG) || own.says(ON) {
        return None;
    }
    let hung = above.one(HUNG).filter(|own| own.body().is_some_and(|own| own.says(hung::OVER)));
    let on = above.one(ON);
    let from_side = match (hung.and_then(Said::body), on.and_then(Said::body)) {
        (Some(own), _) => own.says(hung::LEFT) || own.says(hung::RIGHT),
        (None, Some(own)) => own.says(stands_on::LEFT) || own.says(stands_on::RIGHT),
        (None, None) => false,
    };
    let found = hung.map(|own| (HUNG.spelling(), own.head));
    let found = found.or_else(|| on.map(|own| (ON.spelling(), own.head)));
    found.filter(|_| !(is_mirrored && from_side))
}

fn same_place((name, other): (&str, &str), (word, at): (&str, Span), said: Span) -> Diagnostic {
    let title = format!("{name} would be in the place of {other}");
    Diagnostic::error("like-place", title, said, format!("`{word}` is missing beside this"))
        .label(at, format!("the place of {other}"))
        .note(format!("say in {name} where it is, with `{word}` of its own; where {other} says `left` or `right`, one that is mirrored is as far from the other side"))
}

fn has_openings((name, other): (&str, &str), entry: &Entry, said: Span) -> Diagnostic {
    let title = format!("{name} has the openings of {other}, and no others");
    Diagnostic::error("like-openings", title, entry.head, "take this out")
        .label(said, format!("it is like {other}"))
        .note(format!("where {name} is to have other openings, write it out, without `like`"))
}

/// A case of the same run that is named with its run.
fn in_same_run(asked: Spanned<&Name>, run: &str, name: &str) -> Diagnostic {
    let title = format!("{name} stands in the same run, and is called `{name}` there");
    let label = format!("both are in {run}");
    let says = "its own name says which one is meant";
    let fix = Fix::new(Grade::Sure, says, asked.span, name);
    Diagnostic::error("name-unknown", title, asked.span, label).fix(fix).meant()
}

fn not_here(name: &str, asked: Spanned<&Name>, why: &str) -> Diagnostic {
    let title = format!("{name} can't be like {}", asked.value.text());
    Diagnostic::error("not-supported-yet", title, asked.span, why).note(
        "a case may be like another that stands by itself, and a case of a run like another of the same run",
    )
}
