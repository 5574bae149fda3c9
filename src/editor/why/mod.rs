//! Why every printed figure is what it is: what it is the sum of, and where each
//! term comes from.

mod asked;
mod balance;
mod boards;
mod cuts;
mod notches;
mod depth;
mod ends;
mod gaps;
mod glue;
mod hanging;
mod legs;
mod lines;
mod rods;
mod screws;
mod setups;
mod slides;
mod steps;
mod stops;
mod subject;
mod teller;
mod weights;

use crate::measure::{Duration, Exact, Length, MEASURED, Mass, Tape};
use crate::model::{Axis, Case, Facts, Opening, Piece, Size, Standing, StandingSizes};
use crate::parts::Part;
use crate::pipeline::Compilation;
use crate::vocabulary::Origin;

pub use asked::{Answer, Unknown, answer};
pub(super) use boards::boards_of;
pub use subject::Subject;

/// A thing with its figures, and what each is the sum of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Why {
    /// Its whole name: `console.bank.upper`.
    pub name: String,
    /// What it is.
    pub thing: Thing,
    /// Its sizes, and what else was asked of it.
    pub sizes: Vec<Sum>,
}

/// What has figures.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Thing {
    /// A case.
    Case,
    /// A run of cases, or a space in one.
    Run,
    /// An opening, or a list of them.
    Opening,
    /// A part.
    Part {
        /// Its mark.
        mark: String,
    },
    /// A door, a drawer front, or a false front, with the gaps round it.
    Front,
    /// A set-up of the router, by its number on the sheet.
    SetUp,
    /// What is glued up in one go.
    GlueUp,
    /// A step of the assembly order, by its number there.
    Step {
        /// What is done in it.
        title: String,
    },
    /// A stock of boards.
    Stock,
    /// The whole piece.
    Piece,
}

/// A figure, and what it is the sum of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sum {
    /// What it may be asked for by.
    pub about: Vec<Subject>,
    /// Which figure: `wide`, `thickness`, `as built`, `dado, from the left end`.
    pub word: String,
    /// The figure.
    pub value: Value,
    /// The figure as it is, with its unit.
    pub exact: String,
    /// As it stands on paper.
    pub paper: String,
    /// The same, where it was rounded for that.
    pub printed: Option<String>,
    /// False where it comes from one of several statements that contradict each
    /// other.
    pub holds: bool,
    /// What it is the sum of, in order.
    pub terms: Vec<Term>,
}

/// A figure of one kind or another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Value {
    /// A length.
    Length(Length),
    /// A weight.
    Mass(Mass),
    /// A time.
    Time(Duration),
    /// A count.
    Count(Exact),
}

impl Value {
    /// It, so many times.
    #[must_use]
    pub fn times(self, count: Exact) -> Self {
        match self {
            Self::Length(length) => Self::Length(length * count),
            Self::Mass(mass) => Self::Mass(Mass(mass.0 * count)),
            Self::Time(time) => Self::Time(Duration(time.0 * count)),
            Self::Count(own) => Self::Count(own * count),
        }
    }

    /// Both together; `None` for two of different kinds.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        match (self, other) {
            (Self::Length(a), Self::Length(b)) => Some(Self::Length(a + b)),
            (Self::Mass(a), Self::Mass(b)) => Some(Self::Mass(Mass(a.0 + b.0))),
            (Self::Time(a), Self::Time(b)) => Some(Self::Time(Duration(a.0 + b.0))),
            (Self::Count(a), Self::Count(b)) => Some(Self::Count(a + b)),
            (Self::Length(_) | Self::Mass(_) | Self::Time(_) | Self::Count(_), _) => None,
        }
    }
}

impl Sum {
    /// What its terms come to; `None` where it has none, or terms of several kinds.
    #[must_use]
    pub fn total(&self) -> Option<Value> {
        let mut terms = self.terms.iter().map(|term| {
            let sign = if term.negative { -Exact::ONE } else { Exact::ONE };
            term.value.times(term.times * sign)
        });
        let first = terms.next()?;
        terms.try_fold(first, Value::plus)
    }
}

/// One term of a sum.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Term {
    /// It is taken off.
    pub negative: bool,
    /// How many times it counts.
    pub times: Exact,
    /// The figure itself, not below zero.
    pub value: Value,
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
    /// A figure of the trade, or one that is worked out of others.
    Worked {
        /// What it is.
        name: String,
        /// How it is worked out, and by what source.
        how: String,
        /// The statements that it is worked out of.
        from: Vec<Origin>,
    },
    /// What rounding adds or takes.
    Rounded,
    /// Whatever else there is: the geometry, or the hardware's own figures.
    Rest,
}

/// Every case, opening and part that a name may mean, with its sizes: by its
/// whole name or the end of it; a part by its mark too. Of a piece with errors
/// what is known meanwhile.
#[must_use]
pub fn why(compiled: &Compilation, name: &str) -> Vec<Why> {
    let dotted = format!(".{name}");
    let meant = |path: &str| path == name || path.ends_with(&dotted);
    let Some(piece) = &compiled.piece else {
        let Some(standing) = &compiled.standing else { return Vec::new() };
        let all = standing.sizes.iter();
        let found = all.filter(|it| meant(&it.path));
        return found.map(|it| of_standing(standing, it)).collect();
    };
    let parts = compiled.parts.iter().flat_map(|parts| &parts.all);
    let mut found = Vec::new();
    for run in &piece.runs {
        let whole = (run.name.as_str(), &run.wide);
        let spaces = run.spaces.iter().map(|space| (space.path.as_str(), &space.wide));
        let own = std::iter::once(whole).chain(spaces).filter(|(path, _)| meant(path));
        found.extend(own.map(|(path, wide)| Why {
            name: path.to_owned(),
            thing: Thing::Run,
            sizes: sums(piece, [("wide", wide)]),
        }));
    }
    for case in &piece.cases {
        if meant(&case.path) {
            found.push(of_case(piece, case));
        }
        let openings = case.openings.iter().filter(|o| o.parent.is_some() && meant(&o.path));
        found.extend(openings.map(|opening| of_opening(piece, opening)));
    }
    let parts = parts.filter(|part| meant(&part.path) || part.mark == name);
    found.extend(parts.map(|part| of_part(piece, part)));
    found
}

/// Every name that [`why`] knows, its short form first.
#[must_use]
pub fn known_names(compiled: &Compilation) -> Vec<String> {
    let cases = compiled.piece.iter().flat_map(|piece| &piece.cases);
    let openings = cases.flat_map(|case| &case.openings).map(|o| &o.path);
    let standing = compiled.standing.iter().flat_map(|standing| &standing.sizes);
    let parts = compiled.parts.iter().flat_map(|parts| &parts.all).map(|part| &part.path);
    let all = openings.chain(standing.map(|it| &it.path)).chain(parts);
    let all: Vec<String> = all.cloned().collect();
    let last = |path: &String| path.rsplit('.').next().map(str::to_owned);
    all.iter().filter_map(last).chain(all.iter().cloned()).collect()
}

fn of_case(piece: &Piece, case: &Case) -> Why {
    let outside = [("wide", &case.wide), ("deep", &case.deep), ("high", case.overall_high())];
    let up = case.off_floor().map(|up| ("up", up));
    let over = case.over().map(|over| &over.left);
    let left = case.on.as_ref().map(|on| &on.left).or(over).map(|left| ("from left", left));
    let sizes = outside.into_iter().chain(up).chain(left);
    Why { name: case.path.clone(), thing: Thing::Case, sizes: sums(piece, sizes) }
}

fn of_opening(piece: &Piece, opening: &Opening) -> Why {
    let sizes = [Axis::Across, Axis::Down].into_iter().flat_map(|axis| {
        let (drawn, built) = (opening.along(axis), opening.as_built(axis));
        let measured = (built != drawn).then_some(("as built", built));
        std::iter::once((axis.size_word(), drawn)).chain(measured)
    });
    Why { name: opening.path.clone(), thing: Thing::Opening, sizes: sums(piece, sizes) }
}

fn of_part(piece: &Piece, part: &Part) -> Why {
    let [long, wide] = part.core();
    let sizes = [("length", &part.length), ("width", &part.width), ("thickness", &part.thickness)];
    // What it is sawn to, where that is more than it is drawn, or less by its strips.
    let [long_name, wide_name] = match part.strips.is_empty() {
        true => ["sawn length", "sawn width"],
        false => ["core length", "core width"],
    };
    let cores = [(long_name, &long, &part.length), (wide_name, &wide, &part.width)];
    let cores = cores.into_iter().filter(|(_, core, whole)| core != whole);
    let sizes = sizes.into_iter().chain(cores.map(|(name, core, _)| (name, core)));
    let thing = Thing::Part { mark: part.mark.clone() };
    Why { name: part.path.clone(), thing, sizes: sums(piece, sizes) }
}

fn of_standing(standing: &Standing, it: &StandingSizes) -> Why {
    let known = |axis: Axis| {
        let size = it.along(axis)?;
        let sum = sum(&standing.tape, &standing.facts, axis.size_word(), &size.size);
        Some(Sum { holds: size.holds, ..sum })
    };
    let sizes = [Axis::Across, Axis::Down].into_iter().filter_map(known).collect();
    let thing = if it.opening.is_none() { Thing::Case } else { Thing::Opening };
    Why { name: it.path.clone(), thing, sizes }
}

fn sums<'a>(piece: &Piece, sizes: impl IntoIterator<Item = (&'static str, &'a Size)>) -> Vec<Sum> {
    let sizes = sizes.into_iter();
    sizes.map(|(word, size)| sum(piece.tape(), &piece.facts, word, size)).collect()
}

/// A size as the sum of its facts; what they don't come to is the rest.
fn sum(tape: &Tape, facts: &Facts, word: &str, size: &Size) -> Sum {
    let mut terms = Vec::new();
    let mut rest = size.length;
    for (fact, factor) in facts.of(size) {
        let value = fact.length * factor;
        rest -= value;
        let negative = value.is_negative();
        let times = factor.abs();
        let count = if times == Exact::ONE { String::new() } else { format!("{times} × ") };
        terms.push(Term {
            negative,
            times,
            value: Value::Length(fact.length.abs()),
            text: format!("{} {count}{}", sign(negative), tape.finest(fact.length.abs())),
            from: TermFrom::Fact { name: fact.name.clone(), origin: fact.origin },
        });
    }
    if !rest.is_zero() && !rest.is_out_of_range() {
        let negative = rest.is_negative();
        terms.push(Term {
            negative,
            times: Exact::ONE,
            value: Value::Length(rest.abs()),
            text: format!("{} {}", sign(negative), tape.finest(rest.abs())),
            from: TermFrom::Rest,
        });
    }
    let mark = if size.length.is_measured() { MEASURED } else { "" };
    Sum {
        about: vec![Subject::Size],
        word: word.to_owned(),
        value: Value::Length(size.length),
        exact: format!("{} {}", tape.finest(size.length), tape.unit.name()),
        paper: tape.text(size.length) + mark,
        printed: tape.print(size.length).is_rounded().then(|| tape.text(size.length)),
        holds: true,
        terms,
    }
}

fn sign(negative: bool) -> char {
    if negative { '−' } else { '+' }
}
