//! One cause, one message, at its own line and with a mend: figures that are told once for many
//! boards, and those that were told elsewhere. All figures are worked by hand.

use casewright::papers::EXAMPLES;

use crate::support::{compile_example, spec};

/// The findings of a text: slug, the statement that it is told at, the mends, and how many
/// other places it tells of.
fn told_at(text: &str) -> Vec<(&'static str, String, Vec<String>, usize)> {
    let compiled = compile_example(text);
    let own = |found: &casewright::diagnostics::Diagnostic| {
        let span = found.primary.span;
        let source = compiled.sources.get(span.file).unwrap();
        let at = source.text[span.start as usize..span.end as usize].to_owned();
        let mends = found.fixes.iter().map(|fix| fix.edits[0].text.clone()).collect();
        (found.slug, at, mends, found.also.len())
    };
    compiled.diagnostics.iter().map(own).collect()
}

fn example(slug: &str) -> &'static str {
    EXAMPLES.iter().find(|own| own.slug == slug).unwrap().text
}

/// Eight web frames in a chest 18 deep, whose rails of 12 leave less than nothing between them.
#[test]
fn what_one_figure_leaves_of_many_boards_is_told_once() {
    let rows: Vec<String> = (0..8)
        .map(|number| {
            let high = if number == 0 { "share 1" } else { "same d0" };
            format!("rail {{ wide 1 }}\n      drawer d{number} {{ {high} }}")
        })
        .collect();
    let text = example("web-frames")
        .replace("rail { wide 1 }\n      drawer lower { share 1 }", &rows.join("\n      "))
        .replace("high 22", "high 60");
    let is_wrong = |own: &(_, _, _, _)| ["part-impossible", "size-undetermined"].contains(&own.0);
    assert!(!told_at(&text).iter().any(is_wrong), "{:?}", told_at(&text));
    let [own] = &told_at(&text.replace("web { wide 2-1/2;", "web { wide 12;"))[..] else {
        panic!("more than one")
    };
    assert_eq!((own.0, own.1.as_str(), own.3), ("part-impossible", "wide 12", 7));
    // A drawer is no size of its own.
    let [own] = &told_at(&text.replace("drawer d5 { same d0 }", "drawer d5 { same d5 }"))[..]
    else {
        panic!("more than one")
    };
    assert_eq!((own.0, own.1.as_str()), ("size-undetermined", "same d5"));
    assert_eq!(own.2, ["same d0", "share 1"]);
}

#[test]
fn a_kick_set_back_past_its_case_is_told_once() {
    for back in ["600 mm", "20"] {
        let text = spec("first.case").replace("set-back 3;", &format!("set-back {back};"));
        let [own] = &told_at(&text)[..] else { panic!("{:?}", told_at(&text)) };
        assert_eq!((own.0, own.1.clone()), ("base-too-deep", format!("set-back {back}")));
        assert_eq!(own.2[0], "set-back 3");
    }
}

/// Doors that each say the same of their hinges are one finding, and each can be accepted.
#[test]
fn alike_figures_of_several_doors_are_told_once() {
    let door = |name: &str| {
        format!("doors {name} {{ share 1; front {{ hinge cup-hinge {{ from-top 7 }} }} }}")
    };
    let list = format!("across {{ share 1; {}\nstile {{ wide 4 }}\n{} }}", door("a"), door("b"));
    let text = spec("first.case")
        .replace("doors store { share 1; shelf { adjustable 1 } }", &list)
        .replace("wide 36; deep", "wide 66; deep")
        .replace("high 34-1/2", "high 26");
    let close = |text: &str| -> Vec<_> {
        let all = told_at(text).into_iter().filter(|own| own.0 == "hinges-close");
        all.map(|own| (own.1, own.3)).collect()
    };
    assert_eq!(close(&text), [("from-top 7".to_owned(), 1)]);
    let text = format!("{text}\naccept hinges-close on a \"the doors are light\"\n");
    assert_eq!(close(&text), [("from-top 7".to_owned(), 0)]);
}

/// Worked by hand: with no board between two fronts the gap itself is open. Under the countertop
/// the uppermost front keeps a gap of 30 mm to the top of a stretcher of 23/32, which is 18.26
/// mm: 11.74 mm of the opening are open, 14.8 of 32. Over a board between them fronts 1/2 apart
/// each reach 7/64.
#[test]
fn a_gap_that_opens_the_case_says_so() {
    let text = example("overlay").replace("gap 1/8", "gap 30 mm");
    let [own] = &told_at(&text)[..] else { panic!("{:?}", told_at(&text)) };
    assert_eq!((own.0, own.1.as_str(), own.3), ("gap-wide", "gap 30 mm", 2));
    assert_eq!(own.2, ["gap 3/32", "3 mm"]);
    let divided = text.replace("drawer middle", "divider\n    drawer middle");
    let divided = divided.replace("drawer lower", "divider\n    drawer lower");
    let compiled = compile_example(&divided);
    let own = compiled.diagnostics.iter().find(|own| own.slug == "gap-wide").unwrap();
    assert!(own.title.starts_with("15/32~ in of the opening stays open"), "{}", own.title);
    let sound = divided.replace("gap 30 mm", "gap 1/2");
    assert!(told_at(&sound).iter().all(|own| own.0 != "gap-wide"), "{:?}", told_at(&sound));
}

/// A nailer of 23/32 behind the lowest tray is in the way of a slide 1/16 too long for it.
#[test]
fn a_nailer_behind_a_slide_is_left_out() {
    let text = spec("weir-house-pantry.case")
        .replace("length        21", "length        22")
        .replace("room          21-1/2", "room          22");
    let found = told_at(&text);
    let [own] = &found[..] else { panic!("{found:?}") };
    assert_eq!((own.0, own.2.len()), ("slide-room", 1));
    assert!(own.2[0].trim() == "nailers 1;", "{own:?}");
    let mended =
        text.replace("joint rabbet { deep 3/8 } }", "joint rabbet { deep 3/8 }; nailers 1 }");
    assert!(told_at(&mended).is_empty(), "{:?}", told_at(&mended));
}

/// A figure that is too much is told at its own line, with one that is not.
#[test]
fn a_depth_is_told_where_it_is_written() {
    for (from, to, slug, mend) in [
        ("hole 1/4; deep 3/8", "hole 1/4; deep 11/16", "pin-rows-meet", "deep 5/8"),
        ("groove 3/8 }", "groove 3/4 }", "cup-web", "groove 3/8"),
    ] {
        let text = spec("weir-house-pantry.case").replace(from, to);
        let [own] = &told_at(&text)[..] else { panic!("{:?}", told_at(&text)) };
        let figure = to.split(' ').rev().find(|own| own.contains('/')).unwrap();
        assert!(own.1.ends_with(figure), "{own:?}");
        assert_eq!((own.0, &own.2[..]), (slug, &[mend.to_owned()][..]));
        let mended = text.replace(&own.1, mend);
        assert!(told_at(&mended).is_empty(), "{:?}", told_at(&mended));
    }
}
