//! Any layout that is accepted adds up exactly, in both units and on paper;
//! any that is refused has no solution, and each mending offered mends it.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that can't go on stops"
)]

use std::fmt::Write as _;

use casewright::diagnostics::{Fix, Grade};
use casewright::measure::{Length, Tape};
use casewright::model::{Axis, Case, Item, MemoryFiles, OpeningKind, Set};
use casewright::pipeline::{self, Compilation};
use proptest::prelude::*;

fn compile(text: &str) -> Compilation {
    pipeline::check(&MemoryFiles::one("a.case", text), "a.case").expect("readable")
}

/// An item of a random list.
#[derive(Clone, Debug)]
enum Plan {
    /// A niche of so many sixteenths, or a share where `None`.
    Niche(Option<i64>),
    /// A nested list; it takes a share.
    List(Vec<Plan>),
}

fn plan() -> impl Strategy<Value = Plan> {
    let niche = prop::option::weighted(0.4, 60i64..140).prop_map(Plan::Niche);
    niche.prop_recursive(2, 12, 3, |inner| prop::collection::vec(inner, 1..4).prop_map(Plan::List))
}

/// Writes a list; `millimetres` writes its fixed sizes in the other unit.
fn write(plans: &[Plan], axis: Axis, millimetres: bool, count: &mut usize, text: &mut String) {
    for (i, plan) in plans.iter().enumerate() {
        if i > 0 {
            let member = if axis == Axis::Across { "stile" } else { "rail" };
            let _ = writeln!(text, "{member} {{ wide 1-1/4 }}");
        }
        *count += 1;
        match plan {
            Plan::Niche(Some(sixteenths)) if millimetres => {
                let _ = writeln!(
                    text,
                    "open n{count} {{ {} {}.3 mm }}",
                    axis.size_word(),
                    sixteenths * 3 / 2
                );
            }
            Plan::Niche(Some(sixteenths)) => {
                let _ = writeln!(text, "open n{count} {{ {} {sixteenths}/16 }}", axis.size_word());
            }
            Plan::Niche(None) => {
                let _ = writeln!(text, "open n{count} {{ share 1 }}");
            }
            Plan::List(inner) => {
                let next = axis.crosswise();
                let word = if next == Axis::Across { "across" } else { "down" };
                let _ = writeln!(text, "{word} g{count} {{ share 2");
                write(inner, next, millimetres, count, text);
                text.push_str("}\n");
            }
        }
    }
}

fn spec(plans: &[Plan], millimetres: bool) -> String {
    let unit = "in";
    let mut list = String::new();
    write(plans, Axis::Across, millimetres, &mut 0, &mut list);
    format!(
        "casework 1\njob \"random\" {{ units {unit} }}\n\
         stock ply {{ plywood 3/4 }}\nstock thin {{ plywood 1/4 }}\nstock oak {{ lumber 4/4; thickness 3/4 }}\n\
         case a {{\nwide 90; deep 16; high 60\nstock ply\nbottom {{ joint dado {{ deep 1/4 }} }}\n\
         frame {{ stock oak; stile left {{ wide 2 }}; stile right {{ wide 2 }}; rail top {{ wide 2 }}; rail bottom {{ wide 2 }}\n\
         across {{\n{list}}}\n}}\n}}\n"
    )
}

/// Every list is filled exactly, and printed parts add up to the printed whole.
fn adds_up(case: &Case, tape: &Tape) -> Result<(), TestCaseError> {
    for opening in &case.openings {
        let OpeningKind::List(axis, items) = &opening.kind else { continue };
        let sizes: Vec<Length> = items
            .iter()
            .map(|item| match item {
                Item::Opening(index) => case.openings[*index].along(*axis).length,
                Item::Member(index) => case.members[*index].wide.length,
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

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn what_is_accepted_adds_up_and_what_is_refused_can_be_mended(
        plans in prop::collection::vec(plan(), 1..5),
        millimetres: bool,
    ) {
        let text = spec(&plans, millimetres);
        let compiled = compile(&text);
        if let Some(piece) = &compiled.piece {
            for tape in [Tape::inches(), Tape::millimetres()] {
                for case in &piece.cases {
                    adds_up(case, &tape)?;
                }
            }
        }
        for diagnostic in compiled.diagnostics.iter().filter(|d| d.slug == "sizes-conflict") {
            // A list that is refused truly does not fit: need and room differ.
            let total = |head: &str| diagnostic.sums.iter().find(|s| s.head == head).map(|s| s.total.exact);
            if let (Some(needs), Some(leaves)) = (total("needs"), total("leaves")) {
                prop_assert_ne!(needs, leaves);
            }
            for fix in diagnostic.fixes.iter().filter(|fix| fix.grade != Grade::Sketch) {
                let again = compile(&mended(&text, fix));
                let still = again.diagnostics.iter().any(|d| d.slug == "sizes-conflict" && d.title == diagnostic.title);
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
        let mut fronts = 0;
        for opening in piece.cases.iter().flat_map(|case| &case.openings) {
            let Some(front) = &opening.front else { continue };
            let Some((_, part)) = parts.named(&format!("{}.front", opening.path)) else { continue };
            assert_eq!(front.set, Set::Inset);
            let space = part.cuboid();
            let gap = front.gap.length.twice();
            assert_eq!(space.to.x - space.from.x + gap, opening.wide.length, "{}", opening.path);
            assert_eq!(space.to.y - space.from.y + gap, opening.high.length, "{}", opening.path);
            fronts += 1;
        }
        assert!(fronts > 0);
    }
}

/// Every fix that a broken spec's message offers, but for those with a hole,
/// gives a spec without that message.
#[test]
fn every_mending_of_the_broken_specs_mends() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/broken");
    let mut tried = 0;
    for entry in std::fs::read_dir(folder).expect("the folder") {
        let path = entry.expect("an entry").path();
        if path.extension().is_none_or(|ending| ending != "case") {
            continue;
        }
        let text = std::fs::read_to_string(&path).expect("a spec");
        let compiled = compile(&text);
        for diagnostic in &compiled.diagnostics {
            for fix in diagnostic.fixes.iter().filter(|fix| fix.grade != Grade::Sketch) {
                let again = compile(&mended(&text, fix));
                let still = again
                    .diagnostics
                    .iter()
                    .any(|d| d.slug == diagnostic.slug && d.title == diagnostic.title);
                assert!(!still, "{}: {} does not mend", path.display(), fix.title);
                tried += 1;
            }
        }
    }
    assert!(tried > 20, "{tried}");
}
