//! What may be written where a cursor stands.

use crate::checks;
use crate::diagnostics::Severity;
use crate::parts;
use crate::trade::SPECIES;
use crate::vocabulary::words::{file, group, run_case};
use crate::vocabulary::{Kind, Row, Times, words};

use super::context::Context;
use super::meaning::NameKind;
use super::names::{Named, Names};

/// Something that may be written.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Offer {
    /// The text.
    pub text: String,
    /// What it is.
    pub kind: OfferKind,
    /// A line of help; may be empty.
    pub help: &'static str,
}

/// What is offered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum OfferKind {
    /// A word of the language that begins a statement.
    Word,
    /// One of a few words.
    Choice,
    /// A name that the spec gives.
    Name,
    /// The name of a finding.
    Finding,
}

/// What may be written there, whatever of it stands there already.
#[must_use]
pub fn offers(context: &Context, names: &Names) -> Vec<Offer> {
    if !context.open {
        return Vec::new();
    }
    let Some(word) = context.word else {
        let words = context.block.iter().flat_map(|block| block.words);
        // What may stand once is not offered again.
        let stands = |word: &Row| context.written.iter().any(|own| own.word == word.word);
        let words =
            words.filter(|word| !word.any_name && (word.times == Times::Many || !stands(word)));
        return words
            .map(|word| Offer {
                text: word.word.to_owned(),
                kind: OfferKind::Word,
                help: word.help,
            })
            .collect();
    };
    let choice = |text: &str| Offer { text: text.to_owned(), kind: OfferKind::Choice, help: "" };
    match context.kind {
        Some(Kind::Choice(words)) => {
            words.iter().map(|it| Offer { help: it.help, ..choice(it.word) }).collect()
        }
        Some(Kind::Exactly(word)) => vec![choice(word)],
        Some(Kind::Refer(what)) => named(names, |kind| Some(kind) == NameKind::of(what)),
        Some(Kind::Path) if word.word == words::case::ON.spelling() => {
            named(names, |kind| matches!(kind, NameKind::Case | NameKind::Run))
        }
        Some(Kind::Path) if word.word == words::case::LIKE.spelling() => like(context, names),
        Some(Kind::Path) if word.word == file::ACCEPT.spelling() => {
            named(names, NameKind::has_sizes)
        }
        Some(Kind::Path) => {
            let in_run = context.block.is_some_and(|own| std::ptr::eq(own, run_case::block()));
            let mut openings = named(names, |kind| match in_run {
                true => matches!(kind, NameKind::Case | NameKind::Between),
                false => kind == NameKind::Opening,
            });
            // Nothing is as wide as itself.
            let own = context.of.as_ref().filter(|_| word.word == group::SAME.spelling());
            openings.retain(|offer| Some(&offer.text) != own);
            openings
        }
        Some(Kind::Size) => {
            let openings = named(names, |kind| kind == NameKind::Opening);
            let sizes = openings.into_iter().flat_map(|offer| {
                ["wide", "high"]
                    .map(|size| Offer { text: format!("{}.{size}", offer.text), ..offer.clone() })
            });
            sizes.collect()
        }
        // Errors can't be accepted.
        Some(Kind::Finding) => checks::all()
            .filter(|rule| {
                let sometimes = rule.sometimes.map(|(severity, _)| severity);
                [Some(rule.severity), sometimes].contains(&Some(Severity::Warning))
            })
            .map(|rule| Offer {
                text: rule.slug.to_owned(),
                kind: OfferKind::Finding,
                help: rule.finds,
            })
            .collect(),
        Some(Kind::Label) => {
            let mut own = named(names, |kind| Some(kind) == NameKind::of(word.word));
            if word.word == file::SPECIES.spelling() {
                own.extend(SPECIES.iter().map(|wood| choice(wood.name)));
            }
            own
        }
        _ => Vec::new(),
    }
}

/// The same behind a name and its dot: what stands in that. Nothing where no dot is typed.
#[must_use]
pub fn below(names: &Names, typed: &str) -> Option<Vec<Offer>> {
    let before = typed.trim_end_matches(|c| c != '.');
    if before.is_empty() {
        return None;
    }
    let own = names.all().map(|(_, named)| named).filter(|named| named.kind.has_sizes());
    let whole = own.filter_map(|named| {
        let text = format!("{before}{}", named.name());
        let mut paths = [&named.path].into_iter().chain(&named.also);
        paths.any(|path| parts::suits(&text, path)).then_some(text)
    });
    let mut offers: Vec<Offer> =
        whole.map(|text| Offer { text, kind: OfferKind::Name, help: "" }).collect();
    offers.sort();
    offers.dedup();
    Some(offers)
}

/// The cases that the one at hand may be like: those in the same braces, by themselves or in
/// its run, and not itself.
fn like(context: &Context, names: &Names) -> Vec<Offer> {
    let in_run = context.block.is_some_and(|own| std::ptr::eq(own, run_case::block()));
    let cases = || names.all().map(|(_, named)| named).filter(|own| own.kind == NameKind::Case);
    let run = |own: &'_ Named| own.path.rsplit_once('.').map(|(run, _)| run.to_owned());
    let own = context.of.as_deref();
    let runs: Vec<String> =
        cases().filter(|named| Some(named.name()) == own).filter_map(run).collect();
    let is_beside = |named: &&Named| match (run(named), in_run) {
        (None, false) => true,
        // One that has no name yet may stand in any run.
        (Some(run), true) => runs.is_empty() || runs.contains(&run),
        (None, true) | (Some(_), false) => false,
    };
    let others = cases().filter(is_beside).map(Named::name).filter(|name| Some(*name) != own);
    let mut offers: Vec<Offer> = others
        .map(|name| Offer { text: name.to_owned(), kind: OfferKind::Name, help: "" })
        .collect();
    offers.sort();
    offers.dedup();
    offers
}

/// The names of some kinds, once each.
fn named(names: &Names, is_meant: impl Fn(NameKind) -> bool) -> Vec<Offer> {
    let all = names.all().filter(|(_, named)| is_meant(named.kind));
    let mut offers: Vec<Offer> = all
        .map(|(_, named)| Offer { text: named.name().to_owned(), kind: OfferKind::Name, help: "" })
        .collect();
    offers.sort();
    offers.dedup();
    offers
}
