//! Every figure that a size is the sum of.

use crate::measure::{Exact, Length};
use crate::model::{Axis, Case, Opening, Piece, Size};
use crate::parts::{Part, Parts};
use crate::vocabulary::Origin;

/// A thing with its sizes, and what each is the sum of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Why {
    /// Its whole name: `console.bank.upper`.
    pub name: String,
    /// What it is.
    pub thing: Thing,
    /// Its sizes.
    pub sizes: Vec<Sum>,
}

/// What has sizes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Thing {
    /// A case.
    Case,
    /// An opening, or a list of them.
    Opening,
    /// A part.
    Part {
        /// Its mark.
        mark: String,
    },
}

/// A size, and what it is the sum of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sum {
    /// Which size: `wide`, `thickness`, `as built`.
    pub word: &'static str,
    /// The size.
    pub length: Length,
    /// The size as it is, with its unit.
    pub exact: String,
    /// As it stands on paper, where it was rounded for that.
    pub printed: Option<String>,
    /// What it is the sum of, in order.
    pub terms: Vec<Term>,
}

/// One term of a sum.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Term {
    /// It is taken off.
    pub negative: bool,
    /// How many times it counts.
    pub times: Exact,
    /// The figure itself.
    pub length: Length,
    /// Sign, count and figure as they are printed: `− 2 × 1-3/4`.
    pub text: String,
    /// Where it comes from.
    pub from: TermFrom,
}

/// Where a term comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TermFrom {
    /// A figure that was written or measured, or that holds by default.
    Fact {
        /// What it is: `console wide`, `thickness of birch-ply`.
        name: String,
        /// Where it stands, or whose default it is.
        origin: Origin,
    },
    /// Whatever else there is: the geometry, or the hardware's own figures.
    Rest,
}

/// Every case, opening and part that a name may mean, with its sizes: by its
/// whole name or the end of it; a part by its mark too.
#[must_use]
pub fn why(piece: &Piece, parts: Option<&Parts>, name: &str) -> Vec<Why> {
    let dotted = format!(".{name}");
    let meant = |path: &str| path == name || path.ends_with(&dotted);
    let mut found = Vec::new();
    for case in &piece.cases {
        if case.name == name {
            found.push(of_case(piece, case));
        }
        let openings = case.openings.iter().filter(|o| o.parent.is_some() && meant(&o.path));
        found.extend(openings.map(|opening| of_opening(piece, opening)));
    }
    let parts = parts.into_iter().flat_map(|parts| &parts.all);
    let parts = parts.filter(|part| meant(&part.path) || part.mark == name);
    found.extend(parts.map(|part| of_part(piece, part)));
    found
}

/// Every name that [`why`] knows, its short form first.
#[must_use]
pub fn known_names(piece: &Piece, parts: Option<&Parts>) -> Vec<String> {
    let openings = piece.cases.iter().flat_map(|case| &case.openings).map(|o| o.path.clone());
    let parts = parts.into_iter().flat_map(|parts| &parts.all).map(|part| part.path.clone());
    let all: Vec<String> = openings.chain(parts).collect();
    let last = |path: &String| path.rsplit('.').next().map(str::to_owned);
    all.iter().filter_map(last).chain(all.iter().cloned()).collect()
}

fn of_case(piece: &Piece, case: &Case) -> Why {
    let sizes = [("wide", &case.wide), ("deep", &case.deep), ("high", &case.high)];
    let sizes = sizes.map(|(word, size)| sum(piece, word, size)).into();
    Why { name: case.name.clone(), thing: Thing::Case, sizes }
}

fn of_opening(piece: &Piece, opening: &Opening) -> Why {
    let mut sizes = Vec::new();
    for axis in [Axis::Across, Axis::Down] {
        let (drawn, built) = (opening.along(axis), opening.as_built(axis));
        sizes.push(sum(piece, axis.size_word(), drawn));
        if built != drawn {
            sizes.push(sum(piece, "as built", built));
        }
    }
    Why { name: opening.path.clone(), thing: Thing::Opening, sizes }
}

fn of_part(piece: &Piece, part: &Part) -> Why {
    let sizes = [("length", &part.length), ("width", &part.width), ("thickness", &part.thickness)];
    let sizes = sizes.map(|(word, size)| sum(piece, word, size)).into();
    Why { name: part.path.clone(), thing: Thing::Part { mark: part.mark.clone() }, sizes }
}

fn sum(piece: &Piece, word: &'static str, size: &Size) -> Sum {
    let tape = piece.tape();
    let mut terms = Vec::new();
    let mut rest = size.length;
    for (fact, factor) in piece.facts.of(size) {
        let value = fact.length * factor;
        rest -= value;
        let negative = value.is_negative();
        let times = factor.abs();
        let count = if times == Exact::ONE { String::new() } else { format!("{times} × ") };
        terms.push(Term {
            negative,
            times,
            length: fact.length,
            text: format!("{} {count}{}", sign(negative), tape.exact(fact.length)),
            from: TermFrom::Fact { name: fact.name.clone(), origin: fact.origin },
        });
    }
    if !rest.is_zero() && !rest.is_out_of_range() {
        let negative = rest.is_negative();
        terms.push(Term {
            negative,
            times: Exact::ONE,
            length: rest.abs(),
            text: format!("{} {}", sign(negative), tape.exact(rest.abs())),
            from: TermFrom::Rest,
        });
    }
    Sum {
        word,
        length: size.length,
        exact: tape.exact_with_unit(size.length),
        printed: tape.print(size.length).is_rounded().then(|| tape.text(size.length)),
        terms,
    }
}

fn sign(negative: bool) -> char {
    if negative { '−' } else { '+' }
}
