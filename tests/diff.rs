//! `casewright diff` and `git diff`: a piece through its revisions.

use crate::oracle::is_mirrored;
use crate::support::{Bench, Done, Repository, compile, done, ids_are_unique, spec};
use casewright::pipeline::Compilation;
use casewright::revision::{self, Difference, Named, Verdict};
use proptest::prelude::*;
use serde_json::Value;

fn console() -> String {
    spec("hall-console.case")
}

/// The text with one thing put otherwise.
fn with(text: &str, old: &str, new: &str) -> String {
    assert!(text.contains(old), "no `{old}`");
    text.replace(old, new)
}

fn compare(old: &str, new: &str) -> Difference {
    let (old, new) = (compile(old), compile(new));
    revision::compare(
        Named { name: "old.case", compiled: &old },
        Named { name: "new.case", compiled: &new },
    )
}

fn told(old: &str, new: &str) -> String {
    revision::text(&compare(old, new), 100)
}

/// The section of a text with this title.
fn section<'t>(text: &'t str, title: &str) -> &'t str {
    let head = format!("== {title} ==\n");
    let from = text.find(&head).unwrap_or_else(|| panic!("no {title} in {text}")) + head.len();
    text[from..].split("\n\n").next().unwrap()
}

/// Every one of these is a line of the text.
fn has(text: &str, lines: &[&str]) {
    for line in lines {
        assert!(text.lines().any(|own| own.trim() == *line), "no `{line}` in:\n{text}");
    }
}

fn has_no(text: &str, titles: &[&str]) {
    for title in titles {
        assert!(!text.contains(&format!("== {title}")), "{title} in:\n{text}");
    }
}

#[test]
fn comments_and_spaces_change_nothing_in_the_shop() {
    let old = console();
    let new = with(&old, "shop {", "# the shop at the lock\n\n\nshop   {");
    assert_eq!(compare(&old, &new).verdict(), Verdict::Nothing);
    let bench = Bench::new().with("a.case", &old).with("b.case", &new);
    let done = bench.run(&["diff", "a.case", "b.case"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    assert_eq!(
        done.out,
        "Lock House hall console: revision B\na.case → b.case\nNothing changes in the shop.\n"
    );
}

#[test]
fn another_letter_alone_is_told_and_changes_nothing() {
    let new = with(&console(), "revision  B", "revision  C");
    let difference = compare(&console(), &new);
    assert_eq!(difference.verdict(), Verdict::Nothing);
    let text = revision::text(&difference, 80);
    assert!(text.starts_with("Lock House hall console: revision B → C\n"), "{text}");
}

/// The press takes what the niche leaves: 26-1/2 + 1/2 = 27. Its two doors
/// share the half, its shelves get all of it; the partition beside it moves,
/// and with it the dados that take it: 16-43/64 − 1/2 = 16-11/64.
#[test]
fn an_opening_a_half_wider_is_told_with_all_that_follows() {
    let text =
        told(&console(), &with(&console(), "open niche { wide 15 }", "open niche { wide 14-1/2 }"));
    has(&text, &["press 26-1/2 → 27 wide, 1/2 wider", "niche 15 → 14-1/2 wide, 1/2 narrower"]);
    assert!(text.contains("Parts: 4 to make again, 3 to rework; 46 in all."), "{text}");
    let parts = section(&text, "Parts that change");
    has(
        parts,
        &[
            "2 parts 1/2 longer: PR-SH1 (press, shelf 1), PR-SH2 (press, shelf 2)",
            "27-5/32 → 27-21/32 long",
            "2 parts 1/4 wider: PR-LD (press, left door), PR-RD (press, right door)",
            "13-3/32 → 13-11/32 wide",
            "1 part with other cuts or joints: B (bottom)",
        ],
    );
    let set_ups = section(&text, "Router set-ups");
    has(set_ups, &["dado in B", "fence 46-15/16~ → 47-7/16~ from the left end"]);
    // A stile that only stands elsewhere is not to be cut again.
    assert!(!text.contains("SPR-NI"), "{text}");
    has_no(&text, &["New parts", "Parts no longer needed", "Only renamed"]);
}

#[test]
fn parts_that_change_alike_are_told_together() {
    let wider = with(&console(), "wide 66; deep 17", "wide 66-1/2; deep 17");
    let wider = with(&wider, "open niche { wide 15 }", "open niche { wide 15-1/2 }");
    let text = told(&console(), &wider);
    let parts = section(&text, "Parts that change");
    has(parts, &["8 parts 1/2 longer", "61-3/4 → 62-1/4 long: TRL (top rail), BRL (bottom rail)"]);
    has(section(&text, "Openings"), &["console 66 → 66-1/2 wide, 1/2 wider"]);
    // The diagonals of 66 by 29 and of 66-1/2 by 29.
    assert!(section(&text, "Assembly").contains("diagonals 72-3/32~ → 72-9/16~"), "{text}");
}

#[test]
fn a_new_name_is_told_once_with_its_marks() {
    let new = with(&console(), "drawer upper ", "drawer tray ");
    let difference = compare(&console(), &new);
    assert!(difference.parts.is_empty(), "{difference:#?}");
    assert!(difference.setups.is_empty() && difference.steps.is_empty(), "{difference:#?}");
    assert!(difference.gaps.is_empty() && difference.weights.is_empty(), "{difference:#?}");
    let names: Vec<_> =
        difference.renamed.openings.iter().map(|pair| (&*pair.was, &*pair.now)).collect();
    assert_eq!(names, [("console.bank.upper", "console.bank.tray")]);
    let text = revision::text(&difference, 200);
    let renamed = section(&text, "Only renamed");
    assert!(renamed.starts_with("  upper is now called tray\n      UP-F → TR-F, "), "{text}");
    // The rail beside it is named for it.
    assert!(renamed.contains("RUP-MI → RTR-MI"), "{text}");
    assert_eq!(text.matches("upper").count(), 1, "{text}");
}

#[test]
fn many_new_names_at_once_are_still_names() {
    let mut new = console();
    for (old, name) in [
        ("drawer upper ", "drawer first "),
        ("drawer middle", "drawer second"),
        ("down bank", "down chest"),
        ("open niche", "open cubby"),
        ("case console", "case hall"),
        ("birch-ply", "b-ply"),
    ] {
        new = with(&new, old, name);
    }
    let difference = compare(&console(), &new);
    assert!(difference.parts.is_empty(), "{}", revision::text(&difference, 100));
    assert_eq!(difference.renamed.openings.len(), 5, "{difference:#?}");
    assert_eq!(difference.renamed.stocks.len(), 1, "{difference:#?}");
}

/// A new name and another size at once: the size is told under the new mark.
#[test]
fn a_renamed_opening_may_change_its_size_too() {
    let new = with(&console(), "drawer upper  { high 5 }", "drawer tray { high 5-1/2 }");
    let text = told(&console(), &new);
    assert!(text.contains("1 part 1/2 wider") || text.contains("parts 1/2 wider"), "{text}");
    assert!(
        text.contains("TR-F (tray, front; was UP-F)") || text.contains("TR-F (was UP-F)"),
        "{text}"
    );
    has_no(&text, &["New parts", "Parts no longer needed"]);
}

#[test]
fn another_stock_is_a_part_to_remake() {
    let new = with(&console(), "ends   { stock birch-ply }", "ends   { stock cherry-ply }");
    let text = told(&console(), &new);
    let parts = section(&text, "Parts that change");
    assert!(parts.contains("parts made of cherry-ply (was birch-ply): RE, "), "{text}");
    // The same name for another wood is another stock too.
    let new =
        with(&console(), "lumber 4/4; species black-cherry", "lumber 4/4; species black-walnut");
    let text = told(&console(), &new);
    assert!(
        text.contains(
            "made of cherry that is now lumber, black walnut, quartersawn (was lumber, black cherry"
        ),
        "{text}"
    );
}

#[test]
fn another_joint_is_rework() {
    let old = "partitions { stock birch-ply; joint pocket }";
    let new = with(&console(), old, "partitions { stock birch-ply; joint dowel }");
    let text = told(&console(), &new);
    let parts = section(&text, "Parts that change");
    has(
        parts,
        &[
            "1 part with other cuts or joints: PBA-PR (partition between bank and press)",
            "joined by dowels (was pocket screws)",
            // 3 × 3/8 = 1-1/8 into the end, and 23/32 − 1/16 − 3/16 = 15/32 into
            // the bottom: 1-19/32. Each hole is 1/16 deeper.
            "now 7 dowel holes 3/8, 1-3/16 deep, for dowels 1-19/32 long, centers 1-5/32~, 3-7/16~,",
            // Above it are two stretchers, three to each.
            "now 6 dowel holes 3/8, 1-3/16 deep, for dowels 1-19/32 long, centers 3/4, 2, 3-1/4, 12-13/16~,",
        ],
    );
    has(
        parts,
        &[
            // The other half, at the same places from the front edge.
            "1 part with other cuts or joints: B (bottom)",
            "now also 7 dowel holes 3/8, 17/32 deep in the top face, centers 1-5/32~, 3-7/16~, 5-23/32~,",
            "1 part with other cuts or joints: FST (front stretcher)",
            "now also 3 dowel holes 3/8, 17/32 deep in the underside, centers 3/4, 2 and 3-1/4 from the",
        ],
    );
    assert!(section(&text, "Assembly").contains("4 → 6 clamps"), "{text}");
}

#[test]
fn a_new_drawer_brings_its_parts_hardware_set_ups_and_steps() {
    let lower = "        drawer lower  { share 1 }\n";
    let new = format!("{lower}        rail {{ wide 1-1/2 }}\n        drawer tray {{ high 4 }}\n");
    let new = with(&console(), lower, &new);
    let text = told(&console(), &new);
    // A front, four sides, a bottom, two packers and the rail above.
    assert!(text.contains("10 to make again, 9 new; 55 in all"), "{text}");
    has(&text, &["new: drawer bank.tray, 17-1/4 wide and 4 high", "pair of slides soft-15: 3 → 4"]);
    has(&text, &["new: Glue up the drawer box of tray", "also in: TR-F"]);
    // 9 − (4 + 1-1/2) / 2 = 6-1/4 for each of the other two.
    has(&text, &["bank.middle 9 → 6-1/4 high, 2-3/4 lower"]);
    has(&text, &["new: bank.tray, 4 gaps fitted at 3/32"]);
    let back = told(&new, &console());
    has(&back, &["gone: drawer bank.tray, 17-1/4 wide and 4 high", "no longer in: TR-F"]);
}

/// What is cut alike for another place will do there.
#[test]
fn boards_that_are_alike_are_only_marked_anew() {
    let fewer = with(&console(), "shelf { adjustable 2 }", "shelf { adjustable 1 }");
    let difference = compare(&console(), &fewer);
    assert_eq!(difference.parts.dropped.len(), 1);
    assert!(difference.parts.added.is_empty() && difference.parts.changed.is_empty());
    let marks: Vec<_> =
        difference.renamed.marks.iter().map(|one| (&*one.mark.was, &*one.mark.now)).collect();
    assert_eq!(marks, [("PR-SH1", "PR-SH")]);
}

/// No word of a spec turns a part by itself, so one is turned here by hand.
#[test]
fn grain_that_turns_is_told() {
    let (old, mut new) = (compile(&console()), compile(&console()));
    let kick = new.parts.as_mut().unwrap().all.iter_mut().find(|part| part.mark == "KICK").unwrap();
    std::mem::swap(&mut kick.placement.length, &mut kick.placement.width);
    let name = |compiled| Named { name: "a.case", compiled };
    let text = revision::text(&revision::compare(name(&old), name(&new)), 100);
    has(&text, &["1 part with the grain turned: KICK (kick)"]);
}

#[test]
fn findings_come_and_go_by_what_they_are_about() {
    let new = with(&console(), "open niche { wide 15 }", "open niche { wide 14-1/2 }");
    let there = compare(&console(), &new);
    let slugs: Vec<&str> = there.findings.added.iter().map(|finding| finding.slug).collect();
    assert_eq!(slugs, ["pull-in-flute", "flutes-uneven"]);
    assert!(there.findings.dropped.is_empty());
    let back = compare(&new, &console());
    assert_eq!(back.findings.dropped, there.findings.added);
    // The same finding on a renamed opening is the same finding.
    let renamed = with(&new, "doors press ", "doors pair ");
    assert!(compare(&new, &renamed).findings.is_empty());
}

#[test]
fn a_side_with_errors_is_named_and_the_rest_compared() {
    let wrong =
        with(&console(), "share 1; shelf { adjustable 2 }", "wide 27; shelf { adjustable 2 }");
    let bench = Bench::new().with("a.case", &console()).with("b.case", &wrong);
    let done = bench.run(&["diff", "a.case", "b.case"]);
    assert_eq!(done.code, Some(2), "{done:?}");
    assert!(done.out.contains("b.case has an error and can't be built"), "{}", done.out);
    assert!(done.out.contains("[sizes-conflict]"), "{}", done.out);
    assert!(!done.out.contains("Nothing changes"), "{}", done.out);
    // An error that leaves the parts to be compared.
    let deep = with(&console(), "deep 1/8; pitch 3/4", "deep 5/8; pitch 3/4");
    let difference = compare(&console(), &deep);
    assert!(difference.compared.parts && !difference.compared.papers, "{difference:#?}");
    assert_eq!(difference.verdict(), Verdict::Untold);
    let text = revision::text(&difference, 100);
    assert!(text.contains("Papers can't be compared. Parts: 3 to rework"), "{text}");
}

#[test]
fn what_can_t_be_read_is_trouble() {
    let bench = Bench::new().with("a.case", &console());
    let said = |arguments: &[&str]| -> Done {
        let done = bench.run(arguments);
        assert_eq!(done.code, Some(2), "{done:?}");
        assert!(done.out.is_empty(), "{done:?}");
        done
    };
    assert!(said(&["diff", "a.case", "no.case"]).err.contains("there is no file no.case"));
    assert!(said(&["diff", "a.case"]).err.contains("name a second file"));
    said(&["diff", "a.case", "b.case", "--from", "HEAD"]);
    said(&["diff", "a.case", "--to", "HEAD"]);
    let own = said(&["diff", "a.case", "a.case", "--into", "a.case"]);
    assert!(own.err.contains("a.case is one of the specs"), "{own:?}");
    assert_eq!(std::fs::read_to_string(bench.path("a.case")).unwrap(), console());
}

/// Every kind of change that the language of the difference has.
fn revisions() -> Vec<String> {
    let console = console();
    let tray = "drawer lower  { share 1 }\n rail { wide 1-1/2 }\n drawer tray { high 4 }";
    let mut all = vec![console.clone()];
    for (old, new) in [
        ("open niche { wide 15 }", "open niche { wide 14-1/2 }"),
        ("drawer upper  {", "drawer tray {"),
        ("drawer lower  { share 1 }", tray),
        (
            "bottom { stock birch-ply; joint dado { deep 1/4 } }",
            "bottom { stock birch-ply; joint dado { deep 5/16 } }",
        ),
        ("gap    3/32", "gap    1/8"),
        ("actual 23/32; sheet", "actual 45/64; sheet"),
        ("humidity  30% to 55%", "humidity  25% to 60%"),
        ("doors press {", "door press { hinge left"),
        ("shelf { adjustable 2 }", "shelf { adjustable 1 }"),
        ("pull   ring", "pull   ring\n    hinges 3"),
        ("kerf      1/8", "kerf      3/32"),
        ("stock  cherry\n    set", "stock  maple\n    set"),
        (
            "bit round-nose-half { round-nose 1/2",
            "bit straight { straight 5/8 }\nbit round-nose-half { round-nose 1/2",
        ),
        ("stile { wide 1-1/2; partition { joint dado { deep 1/4 } } }", "stile { wide 1-1/2 }"),
        ("case console", "case hall"),
    ] {
        all.push(with(&console, old, new));
    }
    // Cut as drawn, too long, too short, worked on, spoiled, for nothing.
    let cut = [
        "cut 2026-03-14 { bottom { long 64-5/16 }; kick; KST { long 64 } }",
        "cut 2026-03-14 { bottom { long 65; joints 1 }; kick; nothing-of-that-name { long 3 } }",
        "cut 2026-03-14 { bottom { long 63 }; kick { spoiled }; left-end { stock cherry } }",
        "cut 2026-03-14 { bottom { made dado { long 3 to 4; thick 0 to 1/4 }; made groove { wide 4 to 5; thick 0 to 1/8 } }; KST { made notch { long 0 to 1; wide 0 to 1 } } }",
    ];
    all.extend(cut.iter().map(|cut| format!("{console}\n{cut}\n")));
    all.push(with(&console, "share 1; shelf { adjustable 2 }", "wide 27; shelf { adjustable 2 }"));
    all
}

/// The first with each other and back, and each with the next.
fn pairs(count: usize) -> Vec<(usize, usize)> {
    (1..count).flat_map(|index| [(0, index), (index, 0), (index - 1, index)]).collect()
}

fn value(difference: &Difference) -> Value {
    serde_json::from_str(&revision::json(difference)).unwrap()
}

#[test]
fn json_keeps_to_its_schema() {
    let schema: Value = serde_json::from_str(include_str!("../schema/difference.json")).unwrap();
    jsonschema::meta::validate(&schema).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    let all: Vec<Compilation> = revisions().iter().map(|text| compile(text)).collect();
    let mut filled = std::collections::BTreeSet::new();
    for (was, now) in pairs(all.len()) {
        let named = |index: usize| Named { name: "a.case", compiled: &all[index] };
        let value = value(&revision::compare(named(was), named(now)));
        let errors: Vec<String> =
            validator.iter_errors(&value).map(|error| error.to_string()).collect();
        assert!(errors.is_empty(), "{errors:#?}");
        fill(&value, "", &mut filled);
    }
    // Every list has been seen with something in it.
    for list in [
        "/cut/changed",
        "/cut/added",
        "/cut/dropped",
        "/parts/changed",
        "/parts/added",
        "/parts/dropped",
        "/renamed/marks",
        "/openings/changed",
        "/openings/added",
        "/hardware",
        "/setups/changed",
        "/setups/added",
        "/steps/changed",
        "/steps/added",
        "/gaps/changed",
        "/gaps/added",
        "/weights/changed",
        "/findings/added",
        "/papers",
        "/sides/now/errors",
    ] {
        assert!(filled.contains(list), "{list} stays empty");
    }
    let mut broken = value(&compare(&console(), &console()));
    broken["verdict"] = Value::from("perhaps");
    assert!(!validator.is_valid(&broken));
    broken.as_object_mut().unwrap().remove("verdict");
    assert!(!validator.is_valid(&broken));
}

fn fill(value: &Value, path: &str, filled: &mut std::collections::BTreeSet<String>) {
    match value {
        Value::Object(fields) => {
            for (name, value) in fields {
                fill(value, &format!("{path}/{name}"), filled);
            }
        }
        Value::Array(items) if !items.is_empty() => {
            filled.insert(path.to_owned());
        }
        _ => {}
    }
}

#[test]
fn read_from_the_other_side_it_says_the_opposite() {
    let all: Vec<Compilation> = revisions().iter().map(|text| compile(text)).collect();
    for (was, now) in pairs(all.len()) {
        is_mirrored(&all[was], &all[now]);
    }
}

#[test]
fn panels_that_float_are_told_through_the_year() {
    let press = spec("tide-cottage-press.case");
    let damp = with(&press, "humidity    40% to 65%", "humidity 35% to 70%");
    let difference = compare(&press, &damp);
    let panels: Vec<&str> = difference.panels.iter().map(|gap| &*gap.front.now).collect();
    assert_eq!(panels, ["press.linen.left-door.panel", "press.linen.right-door.panel"]);
    assert!(difference.parts.is_empty() && !difference.gaps.changed.is_empty());
    is_mirrored(&compile(&press), &compile(&damp));
}

#[test]
fn every_piece_is_what_it_is() {
    for name in
        ["hall-console.case", "first.case", "alcove-shelves.case", "tide-cottage-press.case"]
    {
        let text = spec(name);
        assert_eq!(compare(&text, &text).verdict(), Verdict::Nothing, "{name}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    #[test]
    fn sizes_that_change_are_mirrored_and_never_missed(
        wide in 60i64..80, deep in 15i64..20, bank in 14i64..20, niche in 12i64..18, upper in 4i64..7,
    ) {
        let text = |wide: i64, deep: i64, bank: i64, niche: i64, upper: i64| {
            let text = with(&console(), "wide 66; deep 17", &format!("wide {wide}; deep {deep}"));
            let text = with(&text, "wide 17-1/4", &format!("wide {bank}"));
            let text = with(&text, "wide 15 }", &format!("wide {niche} }}"));
            with(&text, "high 5 }", &format!("high {upper} }}"))
        };
        let old = compile(&text(66, 17, 17, 15, 5));
        let new = compile(&text(wide, deep, bank, niche, upper));
        is_mirrored(&old, &new);
        let name = |compiled| Named { name: "a.case", compiled };
        let difference = revision::compare(name(&old), name(&new));
        if let (Some(was), Some(now)) = (&old.parts, &new.parts) {
            // Every part of the later side is as it was, or is told.
            for part in &now.all {
                let same = was.named(&part.path).is_some_and(|(_, other)| {
                    [&other.length, &other.width, &other.thickness].map(|size| size.length)
                        == [&part.length, &part.width, &part.thickness].map(|size| size.length)
                });
                let told = difference.parts.changed.iter().any(|change| change.now.path == part.path)
                    || difference.parts.added.iter().any(|board| board.path == part.path);
                prop_assert!(same || told, "{}", part.path);
            }
        }
    }
}

#[test]
fn markdown_is_a_list_to_tick_off() {
    let bench = Bench::new()
        .with("a_b.case", &console())
        .with("c.case", &with(&console(), "open niche { wide 15 }", "open niche { wide 14-1/2 }"));
    let done = bench.run(&["diff", "a_b.case", "c.case", "--format", "markdown"]);
    assert_eq!(done.code, Some(1), "{done:?}");
    assert!(
        done.out.starts_with("## Lock House hall console: revision B\n\na\\_b.case → c.case\n")
    );
    has(&done.out, &["### Parts that change", "### Papers to print again"]);
    assert!(done.out.contains("\n- [ ] 2 parts 1/2 longer: PR-SH1"), "{}", done.out);
    assert!(done.out.contains("\n  - 27-5/32 → 27-21/32 long\n"), "{}", done.out);
    assert!(!done.out.contains("\n\n\n") && done.out.ends_with('\n'));
}

#[test]
fn html_is_one_file_that_needs_no_other() {
    let job = "job \"<b>Lock & House</b>\"";
    let old = with(&console(), "job \"Lock House hall console\"", job);
    let new = with(&old, "gap    3/32", "gap    1/8");
    let bench = Bench::new().with("a.case", &old).with("b.case", &new);
    let done = bench.run(&["diff", "a.case", "b.case", "--format", "html", "--into", "d.html"]);
    assert_eq!((done.code, done.out.as_str()), (Some(1), ""), "{done:?}");
    let page = std::fs::read_to_string(bench.path("d.html")).unwrap();
    assert!(page.contains("&lt;b&gt;Lock &amp; House"), "{page}");
    for outside in ["<b>Lock", "<script", "http:", "https:", "src=", "<link"] {
        assert!(!page.contains(outside), "{outside}");
    }
    assert!(page.contains("<sup>1</sup>/<sub>16</sub>"), "{page}");
    ids_are_unique("d.html", &page);
    let left: Vec<_> = std::fs::read_dir(bench.path("")).unwrap().collect();
    assert_eq!(left.len(), 3, "{left:?}");
}

const SHOP: &str = "stock shelf-ply { plywood 3/4; actual 23/32 }\n";

/// The first cabinet with its plywood in a file of its own.
fn sharing() -> String {
    let text = spec("first.case").replacen('\n', "\nuse \"shop.case\"\n", 1);
    let own = "stock ply     { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }\n";
    with(&with(&text, own, ""), "stock ply ", "stock shelf-ply ")
        .replace("ends { stock ply }", "ends { stock shelf-ply }")
}

#[test]
fn revisions_of_git_are_compared_with_what_they_used_then() {
    let repository = Repository::new();
    repository.write("pieces/a.case", &sharing());
    repository.write("pieces/shop.case", SHOP);
    repository.commit();
    repository.write("pieces/shop.case", &with(SHOP, "23/32", "45/64"));
    repository.commit();
    repository.write("pieces/a.case", &with(&sharing(), "high 34-1/2", "high 35"));

    let thinner = repository.diff(&["pieces/a.case", "--from", "HEAD~1", "--to", "HEAD"]);
    assert_eq!(thinner.code, Some(1), "{thinner:?}");
    assert!(thinner.out.contains("pieces/a.case (HEAD~1) → pieces/a.case (HEAD)"), "{thinner:?}");
    assert!(thinner.out.contains("1/64 thinner") && !thinner.out.contains("high"), "{thinner:?}");
    let higher = repository.diff(&["pieces/a.case", "--from", "HEAD"]);
    assert!(higher.out.contains("cupboard 34-1/2 → 35 high"), "{higher:?}");
    assert!(!higher.out.contains("thinner"), "{higher:?}");
    assert!(higher.out.contains("(working tree)"), "{higher:?}");
    let same = repository.diff(&["./pieces/../pieces/a.case", "--from", "HEAD", "--to", "HEAD"]);
    assert_eq!(same.code, Some(0), "{same:?}");

    for (arguments, said) in [
        (["pieces/a.case", "--from", "never"], "this git repository has no revision `never`"),
        (["pieces/b.case", "--from", "HEAD"], "there is no file pieces/b.case at revision HEAD"),
        (["pieces/a.case", "--from", "-x"], "`-x` is not a revision"),
        (["other/a.case", "--from", "HEAD"], "there is no file other/a.case at revision HEAD"),
    ] {
        let arguments = [arguments[0], &format!("{}={}", arguments[1], arguments[2])];
        let done = repository.diff(&arguments);
        assert_eq!((done.code, done.out.as_str()), (Some(2), ""), "{done:?}");
        assert!(done.err.contains(said), "{done:?}");
    }
    let mut without = repository.bench.command(&["diff", "pieces/a.case", "--from", "HEAD"]);
    let done = done(without.env("PATH", ""));
    assert!(done.err.contains("git is not installed"), "{done:?}");
    let bench = Bench::new().with("a.case", &console());
    let mut outside = bench.command(&["diff", "a.case", "--from", "HEAD"]);
    outside.env("GIT_CEILING_DIRECTORIES", bench.path("").parent().unwrap());
    let done = crate::support::done(&mut outside);
    assert!(done.err.contains("a.case is not in a git repository"), "{done:?}");
}

/// The two lines of the README, as they stand there.
#[test]
fn git_diff_shows_it_with_two_lines_of_set_up() {
    let readme = include_str!("../README.md");
    let attributes = "*.case diff=casewright";
    let config = "git config diff.casewright.command \"casewright git-diff\"";
    assert!(readme.contains(attributes) && readme.contains(config));

    let repository = Repository::new();
    repository.write(".gitattributes", &format!("{attributes}\n"));
    repository.git(&["config", "diff.casewright.command", "casewright git-diff"]);
    repository.write("pieces/a.case", &sharing());
    repository.write("pieces/shop.case", SHOP);
    repository.commit();

    repository.write("pieces/a.case", &with(&sharing(), "high 34-1/2", "high 35"));
    let done = repository.git(&["diff"]);
    assert!(done.out.starts_with("First cabinet: revision A\npieces/a.case ("), "{done:?}");
    assert!(done.out.contains("cupboard 34-1/2 → 35 high"), "{done:?}");
    repository.commit();
    // What is used comes from the revision that is shown.
    repository.write("pieces/shop.case", &with(SHOP, "23/32", "45/64"));
    repository.commit();
    let done = repository.git(&["show", "--ext-diff", "HEAD~1"]);
    assert!(done.out.contains("cupboard 34-1/2 → 35 high"), "{done:?}");
    assert!(!done.out.contains("45/64"), "{done:?}");
    // A file that only specs use is shown as text.
    let done = repository.git(&["show", "--ext-diff", "HEAD"]);
    assert!(done.out.contains("-stock shelf-ply { plywood 3/4; actual 23/32 }"), "{done:?}");

    repository.git(&["mv", "pieces/a.case", "pieces/b.case"]);
    let done = repository.git(&["diff", "--cached", "-M"]);
    assert!(done.out.is_empty() || done.out.contains("Nothing changes"), "{done:?}");
    repository.commit();
    repository.write("pieces/new.case", &console());
    repository.git(&["add", "--all"]);
    let done = repository.git(&["diff", "--cached"]);
    assert!(done.out.contains("pieces/new.case ("), "{done:?}");
    assert!(done.out.contains(") is new\n46 parts to make.\n"), "{done:?}");
    repository.write("pieces/new.case", "case {\n");
    let done = repository.git(&["diff"]);
    assert!(done.out.contains("can't be built"), "{done:?}");
}

#[test]
fn the_driver_says_what_it_can_and_stays_out_of_the_help() {
    let bench = Bench::new().with("a.case", &console());
    let done = bench.run(&["git-diff", "a.case"]);
    assert_eq!((done.code, done.out.as_str()), (Some(0), "a.case still has a merge conflict\n\n"));
    assert_eq!(bench.run(&["git-diff", "a.case", "old"]).code, Some(2));
    assert_eq!(bench.run(&["git-diff"]).code, Some(2));
    let gone = ["git-diff", "a.case", "a.case", "0123456", "100644", "/dev/null", ".", "."];
    let done = bench.run(&gone);
    assert_eq!(done.code, Some(0), "{done:?}");
    assert!(
        done.out.contains("a.case (0123456) is gone\n46 parts no longer needed.\n"),
        "{done:?}"
    );
    let help = bench.run(&["--help"]).out;
    assert!(help.contains("\n  diff ") && !help.contains("git-diff"), "{help}");
}
