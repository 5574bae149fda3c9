//! Any layout that is accepted adds up exactly, in both units and on paper;
//! any that is refused has no solution, and each mending offered mends it.

use std::fmt::Write as _;

use crate::support::compile;
use casewright::diagnostics::{Diagnostic, Fix, Grade, Severity};
use casewright::measure::{Exact, Length, Tape, Unit};
use casewright::model::{Axis, Case, Item, OpeningKind, Piece, Set};
use casewright::parts::Parts;
use proptest::prelude::*;

/// A size as it is written.
#[derive(Clone, Copy, Debug)]
enum Written {
    /// Sixteenths of an inch.
    Inches(i64),
    /// Tenths of a millimetre.
    Millimetres(i64),
    /// So many parts of what is left.
    Share(i64),
}

impl Written {
    /// The size that stands there, but for a share.
    fn fixed(self) -> Option<Length> {
        match self {
            Self::Inches(sixteenths) => Some(Length::inches(sixteenths, 16)),
            Self::Millimetres(tenths) => {
                Some(Length::new(Exact::ratio(tenths, 10), Unit::Millimetre))
            }
            Self::Share(_) => None,
        }
    }

    fn shares(self) -> i64 {
        if let Self::Share(shares) = self { shares } else { 0 }
    }

    /// The statement, `word` being what a fixed size is called.
    fn statement(self, word: &str) -> String {
        match self {
            Self::Inches(sixteenths) => format!("{word} {sixteenths}/16"),
            Self::Millimetres(tenths) => format!("{word} {}.{} mm", tenths / 10, tenths % 10),
            Self::Share(shares) => format!("share {shares}"),
        }
    }
}

/// An item of a random list.
#[derive(Clone, Debug)]
struct Plan {
    size: Written,
    kind: Kind,
}

#[derive(Clone, Debug)]
enum Kind {
    Leaf(&'static str),
    List(List),
}

#[derive(Clone, Debug)]
struct List {
    plans: Vec<Plan>,
    /// The width of its members, in sixteenths.
    member: i64,
    /// Where nothing takes a share, the last item is written to fit.
    fitted: bool,
}

fn size() -> impl Strategy<Value = Written> {
    prop_oneof![
        (60i64..300).prop_map(Written::Inches),
        (900i64..5000).prop_map(Written::Millimetres),
        (1i64..4).prop_map(Written::Share),
    ]
}

fn list(plan: impl Strategy<Value = Plan>) -> impl Strategy<Value = List> {
    (prop::collection::vec(plan, 1..4), 12i64..40, prop::bool::weighted(0.7))
        .prop_map(|(plans, member, fitted)| List { plans, member, fitted })
}

fn plan() -> impl Strategy<Value = Plan> {
    let word = prop::sample::select(vec!["open", "doors", "drawer"]);
    let leaf = (size(), word).prop_map(|(size, word)| Plan { size, kind: Kind::Leaf(word) });
    leaf.prop_recursive(2, 12, 3, |inner| {
        (size(), list(inner)).prop_map(|(size, list)| Plan { size, kind: Kind::List(list) })
    })
}

/// A whole random case: its outer sizes and its layout.
fn case() -> impl Strategy<Value = (Written, Written, Axis, List)> {
    let wide = prop_oneof![
        (1200i64..1700).prop_map(Written::Inches),
        (19000i64..27000).prop_map(Written::Millimetres),
    ];
    let high = prop_oneof![
        (700i64..1100).prop_map(Written::Inches),
        (11000i64..17000).prop_map(Written::Millimetres),
    ];
    let axis = prop::sample::select(vec![Axis::Across, Axis::Down]);
    (wide, high, axis, list(plan()))
}

/// A case written down, and what a maker with a pencil would find for it.
#[derive(Debug, Default)]
struct Worked {
    text: String,
    count: usize,
    /// Every list without a share is filled exactly.
    fits: bool,
    /// Something is left for everything.
    room: bool,
    /// Path, width and height of every opening.
    sizes: Vec<(String, Length, Length)>,
}

impl Worked {
    /// Writes a list that is `along` long and `across` wide, outside first.
    fn list(&mut self, list: &List, axis: Axis, along: Length, across: Length, path: &str) {
        let members = i64::try_from(list.plans.len()).expect("few") - 1;
        let fixed: Length = list.plans.iter().filter_map(|plan| plan.size.fixed()).sum();
        let shares: i64 = list.plans.iter().map(|plan| plan.size.shares()).sum();
        let left = along - fixed - Length::inches(list.member, 16) * members;
        let last =
            list.plans.iter().rev().take(1).filter_map(|plan| plan.size.fixed()).sum::<Length>();
        let fitted = list.fitted && shares == 0 && (left + last).is_positive();
        self.fits &= shares > 0 || fitted || left.is_zero();
        for (i, plan) in list.plans.iter().enumerate() {
            if i > 0 {
                let member = if axis == Axis::Across { "stile" } else { "rail" };
                let _ = writeln!(self.text, "{member} {{ wide {}/16 }}", list.member);
            }
            self.count += 1;
            let name = format!("n{}", self.count);
            let path = format!("{path}.{name}");
            let (own, statement) = match plan.size.fixed() {
                Some(fixed) if fitted && i + 1 == list.plans.len() => {
                    let own = fixed + left;
                    let figure = own.in_unit(Unit::Millimetre);
                    let figure = format!("{}/{} mm", figure.numer(), figure.denom());
                    (own, format!("{} {figure}", axis.size_word()))
                }
                Some(fixed) => (fixed, plan.size.statement(axis.size_word())),
                None => {
                    let own = left * Exact::ratio(plan.size.shares(), shares);
                    (own, plan.size.statement(axis.size_word()))
                }
            };
            self.room &= own.is_positive();
            let (wide, high) = if axis == Axis::Across { (own, across) } else { (across, own) };
            self.sizes.push((path.clone(), wide, high));
            match &plan.kind {
                Kind::Leaf(word) => {
                    let _ = writeln!(self.text, "{word} {name} {{ {statement} }}");
                }
                Kind::List(inner) => {
                    let next = axis.crosswise();
                    let word = if next == Axis::Across { "across" } else { "down" };
                    let _ = writeln!(self.text, "{word} {name} {{ {statement}");
                    self.list(inner, next, across, own, &path);
                    self.text.push_str("}\n");
                }
            }
        }
    }
}

/// A random case in the shop of the first cabinet, worked out as it is written.
fn worked(wide: Written, high: Written, axis: Axis, list: &List) -> Worked {
    const FIRST: &str = include_str!("../specs/first.case");
    let mut worked = Worked { fits: true, room: true, ..Worked::default() };
    // A frame of 2 all round.
    let inside = |size: Written| size.fixed().expect("a figure") - Length::inches(4, 1);
    let (wide_inside, high_inside) = (inside(wide), inside(high));
    let (along, across) =
        if axis == Axis::Across { (wide_inside, high_inside) } else { (high_inside, wide_inside) };
    worked.list(list, axis, along, across, "a");
    let head = FIRST.split("case cupboard").next().expect("a head");
    let tail = FIRST.find("  fronts {").map(|at| &FIRST[at..]).expect("fronts");
    let word = if axis == Axis::Across { "across" } else { "down" };
    worked.text = format!(
        "{head}case a {{\n{}; deep 18; {}\nstock ply\nbottom {{ joint dado {{ deep 1/4 }} }}\n\
         back {{ stock thin; joint rabbet {{ deep 3/8 }} }}\n\
         frame {{ stock maple; stile left {{ wide 2 }}; stile right {{ wide 2 }}; rail top {{ wide 2 }}; rail bottom {{ wide 2 }}\n\
         {word} {{\n{}}}\n}}\n{tail}",
        wide.statement("wide"),
        high.statement("high"),
        worked.text,
    );
    worked
}

/// Every list is filled exactly, and printed parts add up to the printed whole.
fn adds_up(case: &Case, tape: &Tape) -> Result<(), TestCaseError> {
    for opening in &case.openings {
        let OpeningKind::List(axis, items) = &opening.kind else { continue };
        let sizes: Vec<Length> = items
            .iter()
            .map(|item| match item {
                Item::Opening(index) => case.openings[index.at].along(*axis).length,
                Item::Member(index) => case.members[index.at].wide.length,
            })
            .collect();
        let whole = opening.along(*axis).length;
        prop_assert_eq!(sizes.iter().copied().sum::<Length>(), whole);
        let printed: Length = tape.spread(&sizes).iter().map(|p| p.shown).sum();
        prop_assert_eq!(printed, tape.print(whole).shown);
    }
    Ok(())
}

fn mended(text: &str, fix: &Fix) -> String {
    let mut edits = fix.edits.clone();
    edits.sort_by_key(|edit| std::cmp::Reverse(edit.span));
    let mut mended = text.to_owned();
    for edit in edits {
        mended.replace_range(edit.span.range(), &edit.text);
    }
    mended
}

/// Fronts with their gaps fill their openings; gives how many were compared.
fn fronts_fill(piece: &Piece, parts: &Parts) -> Result<usize, TestCaseError> {
    let mut fronts = 0;
    for opening in piece.cases.iter().flat_map(|case| &case.openings) {
        let Some(front) = opening.front.as_ref().filter(|front| front.set == Set::Inset) else {
            continue;
        };
        let named =
            |name| parts.named(&format!("{}.{name}", opening.path)).map(|(_, part)| part.cuboid());
        let (left, right, meeting) = match (named("front"), named("left-door"), named("right-door"))
        {
            (Some(front), None, None) => (front, front, None),
            (None, Some(left), Some(right)) => (left, right, Some(front.meeting.length)),
            _ => continue,
        };
        let around = front.gap.length.twice();
        prop_assert_eq!(right.to.x - left.from.x + around, opening.wide.length);
        prop_assert_eq!(left.to.y - left.from.y + around, opening.high.length);
        prop_assert_eq!(right.to.y - right.from.y + around, opening.high.length);
        if let Some(meeting) = meeting {
            prop_assert_eq!(right.from.x - left.to.x, meeting);
        }
        fronts += 1;
    }
    Ok(fronts)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn what_is_accepted_adds_up_and_what_is_refused_can_be_mended(
        (wide, high, axis, list) in case(),
    ) {
        let worked = worked(wide, high, axis, &list);
        let text = &worked.text;
        let compiled = compile(text);
        let found = |slug: &str| compiled.diagnostics.iter().any(|d| d.slug == slug);
        // What follows from an odd figure is told with it.
        let bears = |d: &Diagnostic| d.slug == "figure-odd" && d.severity == Severity::Error;
        if compiled.diagnostics.iter().any(bears) {
            prop_assert!(compiled.diagnostics.iter().any(|d| bears(d) && !d.working.is_empty()));
            return Ok(());
        }
        // What is left for the last opening may be so narrow that no opening can be, or
        // that its millimeters are taken for inches: under 10 mm.
        if found("unit-slip") || found("figure-impossible") {
            let sizes = worked.sizes.iter().flat_map(|(_, wide, high)| [*wide, *high]);
            prop_assert!(sizes.min().is_some_and(|least| least < Length::mm(10)), "{}", text);
            return Ok(());
        }
        prop_assert_eq!(found("sizes-conflict"), !worked.fits, "{}", text);
        if worked.fits {
            prop_assert_eq!(found("no-room"), !worked.room, "{}", text);
        }
        prop_assert_eq!(compiled.piece.is_some(), worked.fits && worked.room, "{:?}\n{}", compiled.diagnostics, text);
        if let Some(piece) = &compiled.piece {
            for tape in [Tape::inches(), Tape::millimetres()] {
                for case in &piece.cases {
                    adds_up(case, &tape)?;
                }
            }
            let openings = &piece.cases[0].openings;
            for (path, wide, high) in &worked.sizes {
                let opening = openings.iter().find(|o| o.path == *path).expect("the opening");
                prop_assert_eq!((opening.wide.length, opening.high.length), (*wide, *high), "{}\n{}", path, text);
            }
            if let Some(parts) = &compiled.parts {
                fronts_fill(piece, parts)?;
            }
        }
        for diagnostic in compiled.diagnostics.iter().filter(|d| d.slug == "sizes-conflict") {
            // Another statement may still contradict the same list: that is
            // another message, with other sums.
            for fix in diagnostic.fixes.iter().filter(|fix| fix.grade != Grade::Sketch) {
                let again = compile(&mended(text, fix));
                let still = again.diagnostics.iter().any(|d| d.title == diagnostic.title && d.sums == diagnostic.sums);
                prop_assert!(!still, "{} does not mend\n{text}", fix.title);
            }
        }
    }
}

/// A front with its gaps fills its opening.
#[test]
fn fronts_and_their_gaps_fill_their_openings() {
    for text in [
        include_str!("../specs/hall-console.case"),
        include_str!("../specs/tide-cottage-press.case"),
    ] {
        let compiled = compile(text);
        let (piece, parts) = (compiled.piece.expect("a piece"), compiled.parts.expect("parts"));
        assert!(fronts_fill(&piece, &parts).expect("filled") > 0);
    }
}
