//! Why every printed figure is what it is: its terms add up to it, and it stands on
//! the papers as it is told.

use std::collections::BTreeMap;

use casewright::editor::{self, Subject, Sum, TermFrom, Thing, Unknown, Value, Why};
use casewright::measure::Exact;
use casewright::model::MemoryFiles;
use casewright::papers::{self, Format};
use casewright::pipeline::{self, Compilation};

use crate::support::{Bench, compile, demo_pieces, spec};

/// Everything of a subject in the whole piece.
fn all(compiled: &Compilation, subject: Subject) -> Vec<Why> {
    editor::answer(compiled, &[subject.word()]).map(|answer| answer.whys).unwrap_or_default()
}

fn asked(compiled: &Compilation, question: &str) -> Vec<Why> {
    let words: Vec<&str> = question.split(' ').collect();
    editor::answer(compiled, &words).unwrap_or_else(|why| panic!("{question}: {why:?}")).whys
}

/// The only figure of that word in an answer.
fn figure(compiled: &Compilation, question: &str, word: &str) -> Sum {
    let whys = asked(compiled, question);
    let mut found = whys.iter().flat_map(|why| &why.sizes).filter(|sum| sum.word == word);
    let Some(sum) = found.next() else { panic!("{question}: no {word} in {whys:#?}") };
    sum.clone()
}

/// The terms of a figure as they are printed, in order of their letters.
fn terms(sum: &Sum) -> Vec<&str> {
    let mut terms: Vec<&str> = sum.terms.iter().map(|term| term.text.as_str()).collect();
    terms.sort_unstable();
    terms
}

fn paper(compiled: &Compilation, paper: &str) -> String {
    papers::one(compiled, paper, Format::Text).unwrap_or_else(|| panic!("{paper}"))
}

/// True where a figure stands in a text by itself.
fn stands(text: &str, figure: &str) -> bool {
    text.match_indices(figure).any(|(at, _)| {
        let rest = &text[at + figure.len()..];
        let (before, after) = (text[..at].chars().next_back(), rest.chars().next());
        let part = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit() || "-/~".contains(c));
        let point = rest
            .strip_prefix('.')
            .is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()));
        !part(before) && before != Some('.') && !part(after) && !point
    })
}

/// What each figure is the sum of comes to it exactly, nothing is left that no
/// statement and no rule explains, and the figure stands on a paper as it is told.
#[test]
fn every_figure_is_the_sum_of_its_terms_and_stands_on_a_paper() {
    for (name, compiled) in demo_pieces() {
        let packet = papers::packet(&compiled).expect("papers");
        let texts = packet.into_iter().filter(|file| file.format == Format::Text);
        let text: String = texts.map(|file| file.text + "\n").collect();
        let mut count = 0;
        for subject in Subject::ALL {
            for why in all(&compiled, subject) {
                for sum in &why.sizes {
                    count += 1;
                    let at = format!("{name}: {} {}, {}", why.name, sum.word, sum.paper);
                    // What lies level or flush has no terms.
                    let zero = sum.value.times(Exact::ZERO) == sum.value;
                    let level = zero && sum.terms.is_empty();
                    assert!(level || sum.total() == Some(sum.value), "{at}: {sum:#?}");
                    let rest = sum.terms.iter().find(|term| matches!(term.from, TermFrom::Rest));
                    assert_eq!(rest, None, "{at}");
                    // Of the parts only the heaviest are listed; blanks are glued up in
                    // one step, which has the figures of the one that takes most; rows
                    // of what an opening measures are not printed by themselves.
                    let part = matches!(why.thing, Thing::Part { .. } | Thing::Opening);
                    let unprinted = match sum.about.first() {
                        Some(Subject::Weight | Subject::Size) => part || why.thing == Thing::Case,
                        Some(Subject::Clamp) => {
                            compiled.parts.as_ref().unwrap().named(&why.name).is_some()
                        }
                        _ => false,
                    };
                    assert!(unprinted || stands(&text, &sum.paper), "{at}");
                }
            }
        }
        assert!(count > 300, "{name}: {count}");
    }
}

/// Each set-up of the sheet: the large figure and the time.
#[test]
fn every_set_up_of_the_sheet_is_told() {
    for (name, compiled) in demo_pieces() {
        let sheet = paper(&compiled, "jig-sheet");
        let heads =
            sheet.lines().filter_map(|line| line.strip_prefix(">> ")?.split_once("  set-up "));
        let feet = sheet.lines().filter(|line| line.contains(" to rout in all, about "));
        let mut number = 0;
        for ((large, head), foot) in heads.zip(feet) {
            number += 1;
            assert!(head.starts_with(&format!("{number}:")), "{name}: {head}");
            let whys = asked(&compiled, &format!("set-up {number}"));
            let [why] = whys.as_slice() else { panic!("{name} {number}: {whys:#?}") };
            let setting = &why.sizes[0];
            let first = large.split([',', ' ']).next().unwrap();
            assert_eq!(setting.paper.trim_end_matches(" (m)"), first, "{name} {number}");
            if !["(", "away", "toward"].iter().any(|word| large.contains(word))
                && let Some((_, then)) = large.split_once(", then ")
            {
                assert_eq!(why.sizes[1].paper, then, "{name} {number}");
            }
            let time = why.sizes.iter().find(|sum| sum.word == "time").unwrap();
            assert!(foot.ends_with(&format!("about {}", time.paper)), "{name} {number}: {foot}");
        }
        let past = format!("set-up {}", number + 1);
        let words: Vec<&str> = past.split(' ').collect();
        assert!(editor::answer(&compiled, &words).is_err(), "{name}: {past}");
    }
}

/// Each row of the assembly order: its work and its wait. The packet has the same work,
/// and all of it comes to the time that the sheet begins with.
#[test]
fn every_step_of_the_order_is_told() {
    for (name, compiled) in demo_pieces() {
        let order = paper(&compiled, "assembly-order");
        let data = papers::one(&compiled, "packet", Format::Json).expect("a packet");
        let data: serde_json::Value = serde_json::from_str(&data).expect("JSON");
        let steps = data["steps"].as_array().expect("steps");
        let rows = order.lines().skip_while(|line| *line != "== At a glance ==");
        let rows = rows.take_while(|line| !line.trim().starts_with("hours count"));
        let mut number = 0;
        for row in rows.filter(|line| line.starts_with("  [ ]")) {
            number += 1;
            let cells: Vec<&str> =
                row.split("  ").map(str::trim).filter(|cell| !cell.is_empty()).collect();
            let ["[ ]", step, title, _, hands, rest @ ..] = cells.as_slice() else {
                panic!("{name}: {row}");
            };
            assert_eq!(step.trim_end_matches('*'), number.to_string(), "{name}: {row}");
            let whys = asked(&compiled, &format!("step {number}"));
            let [why] = whys.as_slice() else { panic!("{name}: {row}: {whys:#?}") };
            assert_eq!(why.thing, Thing::Step { title: (*title).to_owned() }, "{name}");
            let work = &why.sizes[0];
            assert_eq!((work.word.as_str(), work.paper.as_str()), ("work", *hands), "{name}");
            assert_eq!(work.total(), Some(work.value), "{name}: {row}");
            // A part of a minute at the most is rounded, and once.
            let rounded = work.terms.iter().filter(|term| term.from == TermFrom::Rounded);
            for term in rounded {
                let Value::Time(time) = term.value else { panic!("{name}: {row}") };
                assert!(!term.negative && time.0 < Exact::ONE, "{name}: {row}: {term:?}");
            }
            let kept = &steps[number - 1];
            assert_eq!(
                (&kept["step"], &kept["hands"]["print"]),
                (&number.into(), &(*hands).into())
            );
            let wait = why.sizes.get(1).map(|sum| sum.paper.as_str());
            let printed = rest.first().map(|rest| rest.split(" to ").next().unwrap());
            let printed = printed.map(|rest| rest.split(" in the clamps").next().unwrap());
            assert_eq!(wait, printed, "{name}: {row}");
        }
        assert_eq!(steps.len(), number, "{name}");
        let past = (number + 1).to_string();
        assert!(editor::answer(&compiled, &["step", &past]).is_err(), "{name}: {past}");
        let all = figure(&compiled, "times", "work in all");
        assert_eq!(all.terms.len(), number, "{name}");
        assert!(order.contains(&format!("{number} steps, about {} of work", all.paper)), "{name}");
        let chain = figure(&compiled, "times", "steps *, one after the other");
        let told = format!("The steps marked * take {} one after the other", chain.paper);
        assert!(order.contains(&told), "{name}: {told}");
        let works = chain.terms.iter().filter(|term| match &term.from {
            TermFrom::Worked { name, .. } => name.starts_with("step "),
            _ => false,
        });
        let stars = order.lines().filter(|line| line.starts_with(">> ") && line.contains("*  "));
        assert_eq!(works.count(), stars.count(), "{name}");
    }
}

/// Worked by hand. Twelve wide blanks at 20 min are 4 h; the clamps hold them in five
/// rounds, so four hours go by before the last begins to cure for 24 h. The pairs of
/// doors and the three drawers have five inset fronts: 5 × 25 min. A back is measured for
/// in 3 min and sawn in 6. Three drawers at 30 min; two doors at 15. The surface is
/// 11.3 m2 without the wall side of the back and the undersides of the drawers, 10 min for
/// each: 114 to the next whole minute, and 15 to lay out.
#[test]
fn the_time_of_a_step_is_worked_out() {
    let console = compile(&spec("hall-console.case"));
    let step = |number: usize, word: &str| figure(&console, &format!("step {number}"), word);
    let told = |sum: &Sum| (sum.paper.clone(), sum.terms.len());
    let blanks = step(2, "work");
    assert_eq!((blanks.paper.as_str(), terms(&blanks)), ("4 h", vec!["+ 12 × 20 min"]));
    let cured = step(2, "then wait");
    assert_eq!((cured.paper.as_str(), terms(&cured)), ("28 h", vec!["+ 24 h", "+ 4 × 1 h"]));
    assert!(cured.terms.iter().all(|term| match &term.from {
        TermFrom::Worked { from, .. } => from[0].span().is_some(),
        _ => false,
    }));
    assert_eq!(terms(&step(9, "work")), ["+ 3 min", "+ 6 min"]);
    assert_eq!(terms(&step(20, "work")), ["+ 5 × 25 min"]);
    assert_eq!(told(&step(20, "work")), ("2 h 5 min".to_owned(), 1));
    assert_eq!(terms(&step(24, "work")), ["+ 2 × 15 min"]);
    assert_eq!(terms(&step(23, "work")), ["+ 3 × 30 min"]);
    let coat = step(26, "work");
    assert_eq!(
        (coat.paper.as_str(), terms(&coat)),
        ("2 h 9 min", vec!["+ 1 h 54 min", "+ 15 min"])
    );
    // The sheet's set-ups take 23, 28, 28, and 22 min, and the case has 21 joints with
    // pocket holes at 3 min, two of them of its nailer: 101 + 63.
    let joints = step(3, "work");
    let expected = ["+ 21 × 3 min", "+ 22 min", "+ 23 min", "+ 28 min", "+ 28 min"];
    assert_eq!((joints.paper.as_str(), terms(&joints)), ("2 h 44 min", expected.to_vec()));
    for question in ["step 3 time", "time step 3", "steps 3"] {
        assert_eq!(asked(&console, question)[0].sizes[0], joints, "{question}");
    }
}

/// A shop that fits a front in 20 min takes 5 × 20, and its own statement is told. At
/// 2-1/2 min a joint the pocket holes take 52-1/2: with 101 of the set-ups 153-1/2, so
/// 154, and the last half is told as rounded.
#[test]
fn the_times_of_the_shop_itself_are_told() {
    let text = spec("hall-console.case");
    let own = text
        .replace("  cure      24 h", "  cure 24 h; times { fit-front 20 min; pockets 2-1/2 min }");
    assert_ne!(own, text);
    let console = compile(&own);
    let fit = figure(&console, "step 20", "work");
    assert_eq!((fit.paper.as_str(), terms(&fit)), ("1 h 40 min", vec!["+ 5 × 20 min"]));
    let TermFrom::Worked { from, .. } = &fit.terms[0].from else { panic!("{fit:#?}") };
    assert_eq!(console.sources.text(from[0].span().expect("a statement")), "fit-front 20 min");
    let joints = figure(&console, "step 3", "work");
    assert_eq!(joints.paper, "2 h 34 min");
    let last = joints.terms.last().expect("terms");
    assert_eq!((last.text.as_str(), &last.from), ("+ 30 s", &TermFrom::Rounded));
}

/// Each row of the gap sheet, found by the mark of its front and its edge.
#[test]
fn every_gap_of_the_sheet_is_told() {
    let compiled = compile(&spec("hall-console.case"));
    let sheet = paper(&compiled, "gaps");
    let mut rows = 0;
    for line in sheet.lines().filter(|line| line.starts_with("  [ ]")) {
        let cells: Vec<&str> = line.split("  ").map(str::trim).filter(|c| !c.is_empty()).collect();
        let ["[ ]", front, edge, _, driest, dampest, likely, worst] = cells.as_slice() else {
            continue;
        };
        rows += 1;
        let mark = front.split(' ').next().unwrap();
        let told =
            |what: &str| figure(&compiled, &format!("gap {mark}"), &format!("{edge} gap, {what}"));
        let first = |cell: &str| cell.split(' ').next().unwrap().to_owned();
        assert_eq!(told("driest day").paper, first(driest), "{line}");
        assert_eq!(told("dampest day").paper, first(dampest), "{line}");
        assert_eq!(told("± likely").paper, *likely, "{line}");
        assert_eq!(told("± worst").paper, *worst, "{line}");
    }
    assert_eq!(rows, 19);
}

/// Where each case balances is told with each of its parts, and so is the whole: the three
/// figures of every line of the paper. What a part brings to it is its share of the weight
/// times the place of its own center.
#[test]
fn every_balance_of_the_papers_is_told() {
    for (name, compiled) in demo_pieces() {
        let mut told = all(&compiled, Subject::Balance);
        told.retain(|why| why.sizes.iter().any(|sum| sum.about == [Subject::Balance]));
        let weights = paper(&compiled, "weights");
        let lines = weights.lines().skip_while(|line| !line.starts_with("== Where it balances"));
        let lines = lines.skip(2).take_while(|line| line.starts_with("  "));
        let mut rows: Vec<Vec<String>> = lines
            .map(|line| line.split("  ").map(str::trim).filter(|own| !own.is_empty()))
            .map(|cells| cells.skip(1).map(str::to_owned).collect())
            .collect();
        rows.retain(|row: &Vec<String>| {
            row.len() == 3 && row.iter().all(|own| own.starts_with(char::is_numeric))
        });
        let mut figures: Vec<Vec<String>> = told
            .iter()
            .map(|why| why.sizes.iter().filter(|sum| sum.about == [Subject::Balance]))
            .map(|sums| sums.map(|sum| sum.paper.clone()).collect())
            .collect();
        rows.sort();
        figures.sort();
        assert!(!rows.is_empty(), "{name}: {weights}");
        assert_eq!(rows, figures, "{name}");
        for sum in told.iter().flat_map(|why| &why.sizes) {
            for term in &sum.terms {
                let TermFrom::Worked { how, .. } = &term.from else { continue };
                let Some((share, arm)) = how.split_once(", its center at ") else { continue };
                let figure = |text: &str| -> Option<f64> {
                    text.trim_start_matches('−').split(' ').next()?.parse().ok()
                };
                let Some((own, whole)) = share.split_once(" of ") else { continue };
                let (Some(own), Some(whole), Some(arm)) = (figure(own), figure(whole), figure(arm))
                else {
                    continue;
                };
                let Value::Length(by) = term.value else { panic!("{sum:?}") };
                let by = by.to_mm_f64();
                let by = if compiled.piece.as_ref().unwrap().tape().unit.is_metric() {
                    by
                } else {
                    by / 25.4
                };
                assert!(
                    (own * arm / whole - by).abs() < 0.02 * (1.0 + arm.abs() / 100.0),
                    "{name}: {how}: {by}"
                );
            }
        }
    }
}

/// Each weight that is lifted, and each line of the hinges.
#[test]
fn every_weight_and_hinge_of_the_papers_is_told() {
    for (name, compiled) in demo_pieces() {
        let mut told: BTreeMap<String, Vec<String>> = BTreeMap::new();
        for why in all(&compiled, Subject::Weight) {
            let papers = why.sizes.iter().map(|sum| sum.paper.clone());
            told.entry(why.name.clone()).or_default().extend(papers);
        }
        let weights = paper(&compiled, "weights");
        let lifted = weights.lines().skip_while(|line| !line.starts_with("== What you lift"));
        let lifted = lifted.take_while(|line| !line.starts_with("The whole weighs"));
        let mut count = 0;
        for line in lifted {
            let cells: Vec<&str> =
                line.split("  ").map(str::trim).filter(|c| !c.is_empty()).collect();
            let [weight, what, _] = cells.as_slice() else { continue };
            if *weight == "weight" {
                continue;
            }
            count += 1;
            let of = |what: &str| what.split_once(" of ").map_or(what, |it| it.1).to_owned();
            // A base under several cases is told with each of them.
            let what = of(what).split(" and ").next().unwrap().to_owned();
            // Papers call `console.press.left-door` the left door of the press.
            let called = |path: &str| path.replace('.', ", ").replace('-', " ");
            let whole = |path: &&String| format!(", {}", called(path));
            let end = format!(", {}", what.replace('-', " "));
            let path = told.keys().find(|path| whole(path).ends_with(&end));
            let own = path.map_or_else(|| panic!("{name}: {what}"), |path| &told[path]);
            assert!(own.iter().any(|own| own == weight), "{name}: {line}: {own:?}");
        }
        assert!(count > 0, "{name}");
        let fitting = paper(&compiled, "fitting");
        let hinges = fitting.lines().skip_while(|line| !line.contains("height on door")).skip(1);
        for line in hinges.take_while(|line| line.starts_with("  [ ]")) {
            let cells: Vec<&str> =
                line.split("  ").map(str::trim).filter(|c| !c.is_empty()).collect();
            let ["[ ]", door, _, number, on_door, holder, on_part, above] = cells.as_slice() else {
                panic!("{name}: {line}");
            };
            let told = |mark: &str, what: &str| {
                let word = format!("hinge {number} of {door}, {what}");
                figure(&compiled, &format!("{mark} hinge"), &word).paper
            };
            assert_eq!(told(door, "height on door"), *on_door, "{name}: {line}");
            assert_eq!(told(holder, "height on part"), *on_part, "{name}: {line}");
            assert_eq!(told(door, "above opening"), *above, "{name}: {line}");
        }
    }
}

/// Worked by hand. The case is 66 wide, the right stile 2-1/2, and the niche 15, so
/// the stile beside the niche ends at 48-1/2 and its middle is at 47-3/4. The
/// partition behind it is 23/32 thick: it begins at 47-25/64. The bottom begins 1/4
/// deep in the left end of 23/32, at 15/32; the dado lies 46-59/64 from its end. The
/// far wall comes first, with a bit of 5/8 in a base of 6:
/// 46-59/64 + 23/32 − 5/16 − 3 = 44-21/64.
#[test]
fn the_setting_for_a_partition_is_worked_out() {
    let console = compile(&spec("hall-console.case"));
    let dado = figure(&console, "B dado", "dado for PPR-NI, from the left end");
    assert_eq!((dado.exact.as_str(), dado.paper.as_str()), ("46-59/64 in", "46-15/16~"));
    let expected =
        ["+ 1/4", "+ 66", "− 1/2 × 1-1/2", "− 1/2 × 23/32", "− 15", "− 2-1/2", "− 23/32"];
    assert_eq!(terms(&dado), expected);
    let setting = figure(&console, "set-up 4", "straight-edge, from the left end");
    assert_eq!((setting.exact.as_str(), setting.paper.as_str()), ("44-21/64 in", "44-11/32~"));
    // Half the bit and half the base go off, and the partition's other half is added.
    let expected = [
        "+ 1/2 × 23/32",
        "+ 1/4",
        "+ 66",
        "− 1/2 × 1-1/2",
        "− 1/2 × 5/8",
        "− 1/2 × 6",
        "− 15",
        "− 2-1/2",
        "− 23/32",
    ];
    assert_eq!(terms(&setting), expected);
    // 15 min for the set-up, two clampings of 3 min, and 2 × 16-3/64 in at 100 in a
    // minute, 0.32 min: 21.32, so 22 min.
    let time = figure(&console, "set-up 4", "time");
    assert_eq!((time.paper.as_str(), terms(&time).len()), ("22 min", 4));
    assert_eq!(terms(&time)[..3], ["+ 0.32 min", "+ 0.68 min", "+ 15 min"]);
}

/// Worked by hand. Black cherry moves 0.00126 a point radially (Wood Handbook, Table
/// 13-5). A leaf of 13-3/32 from 7.7 to 10.1 % swells 13.094 × 0.00126 × 2.4 = 0.040,
/// and both leaves close the gap of 1/8 between them to 0.046.
#[test]
fn the_gap_of_a_pair_is_worked_out() {
    let console = compile(&spec("hall-console.case"));
    let gap = figure(&console, "gap PR-LD", "meeting gap, dampest day");
    assert_eq!(gap.paper, "0.046");
    assert_eq!(terms(&gap), ["+ 1/8", "− 0.039", "− 0.039"]);
    let TermFrom::Worked { how, from, .. } = &gap.terms[1].from else { panic!("{gap:#?}") };
    assert!(how.starts_with("13-3/32 wide × 0.001260 a point × (10.1 − 7.7)"), "{how}");
    assert!(how.contains("Wood Handbook"), "{how}");
    let said: Vec<&str> = from
        .iter()
        .map(|origin| console.sources.text(origin.span().expect("a statement")))
        .collect();
    assert_eq!(said, ["species black-cherry", "humidity  40%", "humidity  30% to 55%"]);
}

/// Worked by hand. The shelf is 27-5/32 × 15-51/64 × 23/32 = 308.3 cubic inches,
/// 5,053 cm³; at 0.60 × 1.12 it weighs 3.395 kg, 7.485 lb.
#[test]
fn a_weight_is_worked_out() {
    let console = compile(&spec("hall-console.case"));
    let weight = figure(&console, "weight PR-SH1", "weight");
    assert_eq!(weight.paper, "7.5 lb");
    assert_eq!(terms(&weight)[0], "+ 7.486 lb");
    let TermFrom::Worked { how, .. } = &weight.terms[0].from else { panic!("{weight:#?}") };
    assert!(how.starts_with("27-5/32 × 15-13/16~ × 23/32, gravity 0.60"), "{how}");
}

/// Worked by hand. The bottom's joints are 16-3/64 long: two clamps, 12 in apart,
/// which close both its ends. The partition's lower joint is as long, its two upper
/// ones are 4 in each: two more.
#[test]
fn the_clamps_of_a_carcass_are_worked_out() {
    let console = compile(&spec("hall-console.case"));
    let clamps = figure(&console, "clamps console.carcass", "clamps");
    assert_eq!((clamps.paper.as_str(), terms(&clamps)), ("4", vec!["+ 2", "+ 2"]));
    // Five joints of 3 × 16-3/64 + 2 × 4 in: 5 × 15 s, and 56.14 in at 30 in a minute. Beside
    // them 4 clamps at 10 s, and 33 screws at 15 s: 25 pocket screws, and 8 that hold the
    // back on. 1:15 + 1:52 + 0:40 + 8:15 = 12:02.
    let closing = figure(&console, "clamps console.carcass", "time to spread, clamp, and drive");
    assert!(
        ["+ 1 min 15 s", "+ 40 s", "+ 8 min 15 s"].iter().all(|own| terms(&closing).contains(own))
    );
    assert_eq!(closing.paper, "13 min");
}

/// Worked by hand. The press's top rail is 60 wide, a third of which is set in: its
/// mortise is 60 − 20 long. Its door rails of 75 lose 10 to the groove and 25 to what is
/// set in, 40; the tenons of 30 are sawn back to 10 − 1.5 in the groove, by 21.5.
#[test]
fn the_figures_of_a_tenon_at_the_end_of_a_stile_are_worked_out() {
    let press = compile(&spec("tide-cottage-press.case"));
    let told = |question: &str, word: &str| {
        let sum = figure(&press, question, word);
        format!("{}: {}", sum.paper, terms(&sum).join(" "))
    };
    assert_eq!(told("LS mortise", "mortise for TRL, long"), "40: + 60 − 20");
    assert_eq!(told("TRL tenon", "tenon, wide"), "40: + 60 − 20");
    assert_eq!(told("TRL tenon", "tenon, from the top edge"), "20: + 20");
    assert_eq!(told("LIL-TR tenon", "tenon, wide"), "40: + 75 − 10 − 25");
    assert_eq!(told("LIL-TR tenon", "haunch, cut back"), "21.5: + 1.5 + 30 − 10");
    assert_eq!(told("LIL-TR tenon", "haunch, cut back over"), "25: + 25");
    assert_eq!(told("LIL-TR tenon", "haunch, long"), "8.5: + 10 − 1.5");
    assert_eq!(told("LIL-LS mortise", "mortise for LIL-BR, long"), "40: + 75 − 10 − 25");
    assert_eq!(told("LIL-LS mortise", "mortise for LIL-BR, deep"), "31.5: + 1.5 + 30");
}

/// Worked by hand. The tenons of an end go into mortises however short they are: one of 1/4
/// into 1/4 and the room of the grooves, 1/16, though it is shorter than the grooves are deep.
#[test]
fn a_short_tenon_of_an_end_has_its_mortise() {
    let stand =
        spec("fern-bank-stand.case").replace("rail 2-1/2; tenon 1;", "rail 2-1/2; tenon 1/4;");
    let sum = figure(&compile(&stand), "LFP mortise", "mortise for LEBRL, deep");
    assert_eq!((sum.paper.as_str(), terms(&sum)), ("5/16", vec!["+ 1/16", "+ 1/4"]));
}

/// Worked by hand. A door of 25-13/16 has its upper hinge 3 below its top, 22-13/16
/// up; it stands 3/32 over the lower edge of its opening and of its stile.
/// A question may stand in quotes.
#[test]
fn quoted_words_are_words_too() {
    let bench = Bench::new().with("a.case", &spec("first.case"));
    let quoted = bench.run(&["why", "a.case", "set-up 3"]);
    assert_eq!(quoted.code, Some(0), "{quoted:?}");
    assert_eq!(quoted.out, bench.run(&["why", "a.case", "set-up", "3"]).out);
}

/// The kick of the chest lies over ends of 23/32 plywood, whose middle is 23/64 from its
/// own end. What it shares with one is 3-1/2 high: the first screw stands at a quarter of
/// that, and the second so far from the other edge (the sheet's own rule, worked by hand).
#[test]
fn the_screws_of_a_kick_are_worked_out() {
    let chest = compile(&spec("orchard-lane-chest.case"));
    let of = |word: &str| figure(&chest, "KICK screws", word).exact;
    assert_eq!(of("screws into LE, line from the left end"), "23/64 in");
    assert_eq!(of("screws into LE, first from the top edge"), "7/8 in");
    assert_eq!(of("screws into LE, apart"), "1-3/4 in");
}

#[test]
fn the_places_of_hardware_are_worked_out() {
    let console = compile(&spec("hall-console.case"));
    let upper = figure(&console, "hinge PR-LD", "hinge 2 of PR-LD, height on door");
    assert_eq!(upper.paper, "22-13/16");
    assert!(terms(&upper).contains(&"− 3"), "{upper:#?}");
    let on_part = figure(&console, "hinge SBA-PR", "hinge 2 of PR-LD, height on part");
    assert_eq!(on_part.paper, "22-29/32");
    // The cup's edge is 4 mm in, and half of 35 mm lies behind it: 21.5 mm.
    let cup = figure(&console, "PR-LD cup", "hinge cup, from the hinge edge");
    assert_eq!(terms(&cup), ["+ 0.157≈", "+ 1/2 × 1.378≈"]);
    assert!(cup.terms.iter().all(
        |term| matches!(&term.from, TermFrom::Fact { origin, .. } if origin.span().is_some())
    ));
    // The first pin is 4 up in the opening, which begins 25/32 above the partition's
    // foot: the bottom rail of 1-1/2 less the bottom's 23/32.
    let pin = figure(&console, "pins PBA-PR", "pins of press in PBA-PR, first hole");
    assert_eq!(pin.paper, "4-25/32");
    assert_eq!(terms(&pin), ["+ 1-1/2", "+ 4", "− 23/32"]);
    // The packer of the upper drawer stands on the level of its opening.
    let packer = figure(&console, "slide bank.upper", "packer UP-LPK, lower edge");
    assert_eq!(packer.paper, "26-1/2");
    // The box is 17-1/4 less the 1-5/8 of its slide, and two rabbets of half 5/8.
    let front = figure(&console, "UP-XF size", "length");
    let names: Vec<&str> = front
        .terms
        .iter()
        .filter_map(|term| match &term.from {
            TermFrom::Fact { name, .. } => Some(name.as_str()),
            _ => None,
        })
        .collect();
    assert!(names.contains(&"box-inside of soft-15"), "{front:#?}");
}

#[test]
fn a_question_may_be_asked_in_several_ways() {
    let console = compile(&spec("hall-console.case"));
    let dado = asked(&console, "bottom dado");
    for question in ["dado bottom", "dados B", "B dado", "console.bottom dado"] {
        assert_eq!(asked(&console, question), dado, "{question}");
    }
    assert_eq!(asked(&console, "left end size"), asked(&console, "left-end sizes"));
    let words = ["bottom", "hinge"];
    let Err(Unknown::Subject { name, subject, known }) = editor::answer(&console, &words) else {
        panic!("a bottom has no hinge");
    };
    assert_eq!((name.as_str(), subject), ("bottom", Subject::Hinge));
    assert!(known.contains(&Subject::Dado) && !known.contains(&Subject::Hinge), "{known:?}");
    let answer = editor::answer(&console, &["bottom"]).expect("an answer");
    assert_eq!(answer.subjects, known);
}

#[test]
fn the_command_says_what_else_may_be_asked() {
    let bench = Bench::new().with("a.case", &spec("hall-console.case"));
    let done = bench.run(&["why", "a.case", "set-up", "6"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    assert!(done.out.contains("default of `base-plate` in `shop`"), "{}", done.out);
    let help = bench.run(&["why", "--help"]).out;
    for subject in Subject::ALL {
        assert!(help.contains(subject.word()), "{}: {help}", subject.word());
    }
    let done = bench.run(&["why", "a.case", "B"]);
    assert!(done.out.contains("Ask for one of these alone, as in `B weight`: "), "{}", done.out);
    let done = bench.run(&["why", "a.case", "weigth", "B"]);
    assert_eq!(done.code, Some(1), "{done:?}");
    let strange = "no part, opening, or figure is called `weigth`; did you mean `weight`?";
    assert!(done.err.contains(strange), "{done:?}");
    let done = bench.run(&["why", "a.case", "set-up", "60"]);
    assert_eq!(done.code, Some(1), "{done:?}");
    assert!(done.err.contains("is called `set-up 60`"), "{done:?}");
    let done = bench.run(&["why", "a.case", "bottom", "hinge"]);
    assert_eq!(done.code, Some(1), "{done:?}");
    assert!(done.err.contains("it can be asked for its size, joint, dado,"), "{done:?}");
}

/// A front may place its pull; the figures of its holes come from what the front says.
/// The stile is 70 wide, so 40 from the latch edge is 30 from the inner one. The door is
/// 1900 − 80 − 45 − 60 − 2·180 − 2·40 − 2·2.5 = 1270 high, and 60 less is 1210.
#[test]
fn a_pull_that_its_front_places_is_explained() {
    let text = spec("tide-cottage-press.case");
    let placed = "hinge inset-cup; pull turned-knob { from-top 60; from-edge 40 }";
    let moved = text.replace("hinge inset-cup; pull turned-knob", placed);
    assert_ne!(moved, text);
    let compiled = compile(&moved);
    let question = "left-door.right-stile pull";
    let edge = figure(&compiled, question, "pull hole, from the inner edge");
    assert_eq!(edge.exact, "30 mm");
    assert_eq!(terms(&edge), ["+ 70", "− 40"]);
    let height = figure(&compiled, question, "pull hole, from the bottom end");
    assert_eq!(height.exact, "1210 mm");
    assert!(terms(&height).contains(&"− 60"), "{height:#?}");
    let named = |term: &casewright::editor::Term| matches!(&term.from, TermFrom::Fact { name, .. } if name == "height of turned-knob");
    assert!(height.terms.iter().any(named), "{height:#?}");
    assert_eq!(figure(&compiled, question, "pull hole, across").exact, "4.5 mm");
}

/// The trap is 220 mm wide, and its drawer stays 1 in clear as written: 10.661 in. With
/// nothing written it stays 1/2 in clear, and 1 in of a trap that is hot.
#[test]
fn a_notch_round_a_pipe_tells_how_far_it_stays_clear() {
    let cut = |trap: &str, around: &str| {
        let text = spec("ferry-road-wash-stand.case")
            .replacen("deep 260 mm }", &format!("deep 260 mm{trap} }}"), 1)
            .replacen("around \"trap\" { clear 1 }", around, 1);
        let files = MemoryFiles::one("a.case", &text).with("shop.case", &spec("shop.case"));
        let whys = asked(&pipeline::check(&files, "a.case").unwrap(), "VA-XK notch");
        let sizes = whys.into_iter().flat_map(|why| why.sizes);
        let sum = sizes.into_iter().find(|sum| sum.word.contains("long")).expect("its length");
        (sum.paper.clone(), terms(&sum).join(", "))
    };
    let whole = |paper: &str, clear: &str| (paper.to_owned(), format!("+ 2 × {clear}, + 8.661≈"));
    assert_eq!(cut("", "around \"trap\" { clear 1 }"), whole("10-21/32~", "1"));
    assert_eq!(cut("", "around \"trap\""), whole("9-21/32~", "1/2"));
    assert_eq!(cut("; hot", "around \"trap\""), whole("10-21/32~", "1"));
}

/// 22 flutes of 1/8; the trap's notch in the box back; 330 ml with 110 ml are 440 ml; and
/// the diagonal of a frame 62-1/2 by 28 is the root of 3906.25 + 784, 68.485.
#[test]
fn what_stands_on_a_paper_is_told() {
    let console = compile(&spec("hall-console.case"));
    let flutes = asked(&console, "MI-F flute");
    assert!(flutes.iter().flat_map(|why| &why.sizes).any(|sum| sum.paper == "1/8"), "{flutes:?}");
    let whys = asked(&console, "finish");
    let papers: Vec<&str> =
        whys.iter().flat_map(|why| &why.sizes).map(|sum| sum.paper.as_str()).collect();
    assert!(papers.contains(&"14.9 fl oz (440 ml)"), "{papers:?}");
    let whys = asked(&console, "diagonals");
    let weights = paper(&console, "weights");
    assert!(!whys.is_empty());
    let tips: Vec<Sum> =
        asked(&console, "console tip").into_iter().flat_map(|why| why.sizes).collect();
    let words: Vec<&str> = tips.iter().map(|sum| sum.word.as_str()).collect();
    assert_eq!(words, ["holds it back", "tips it"]);
    for sum in tips {
        assert!(weights.contains(&sum.paper), "{}", sum.paper);
        assert_eq!(sum.total(), Some(sum.value));
    }
    let files = MemoryFiles::one("a.case", &spec("ferry-road-wash-stand.case"))
        .with("shop.case", &spec("shop.case"));
    let whys = asked(&pipeline::check(&files, "a.case").unwrap(), "VA-XK notch");
    let mut sizes = whys.into_iter().flat_map(|why| why.sizes);
    let back = sizes.find(|sum| sum.word.contains("set back")).expect("its place");
    assert_eq!(back.paper, "6-15/16~");
}

/// Worked by hand for the first cabinet with boards of 8 ft, 6 in wide: 6 x 8 / 12 are 4 board
/// feet for each of them, and of its rough pieces a board foot is 144 cubic inches, with 30 %
/// more by rule of thumb.
#[test]
fn what_boards_come_to_is_told() {
    let text = spec("first.case").replace(
        "stock maple   { lumber 4/4;",
        "stock maple   { lumber 4/4; boards { wide 6 to 6; long 96 to 96 };",
    );
    assert!(text.contains("boards { wide 6"));
    let compiled = compile(&text);
    let packet = crate::support::packet(&compiled);
    let boards = packet["boards"].as_array().unwrap();
    let count = boards.iter().filter(|own| own["stock"] == "maple").count();
    let bought = figure(&compiled, "maple", "boards");
    assert_eq!(bought.paper, count.to_string());
    let feet = figure(&compiled, "maple boards", "they come to");
    assert_eq!(feet.paper, format!("{} board feet", 4 * count));
    assert_eq!(terms(&feet), [format!("+ {}.00", 4 * count)]);
    let thumb = figure(&compiled, "boards", "by rule of thumb");
    let net = thumb.terms[0].text.trim_start_matches("+ ").parse::<f64>().unwrap();
    let rows = paper(&compiled, "cut-list");
    let (_, told) = rows.split_once(" board feet in rough pieces").map(|(a, b)| (b, a)).unwrap();
    let told: f64 = told.rsplit(' ').next().unwrap().parse().unwrap();
    assert!((net - told).abs() < 0.06, "{net} {told}");
    assert_eq!(thumb.paper, format!("{} board feet", (net * 1.3).ceil()));
    let share = figure(&compiled, "maple", "in the pieces");
    assert_eq!(share.terms.len(), count + 1);
    assert!(editor::answer(&compiled, &["ply", "boards"]).is_err());
}
