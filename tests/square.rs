//! Openings out of square: what their fronts are cut to and where they are
//! planed, against plain coordinates.

use crate::support::{Bench, compile, slugs, spec};
use casewright::diagnostics::Severity;
use casewright::model::{Leaf, Side};
use casewright::pipeline::Compilation;
use casewright::plans::ledger::Ledger;
use casewright::plans::square::{self, Corner, Leaning};

/// A frame round one opening 676.2 wide and 639.4 high, reveals 2.5. A single door over it is
/// wider than doors are made, which is accepted.
fn stand(opening: &str, build: &str, more: &str) -> String {
    let sheet = match build.contains("panel-stock sheet") {
        true => "stock sheet { plywood 6 mm }\n",
        false => "",
    };
    let more = match opening.contains("door sink") {
        true => format!("{more}\naccept door-too-wide on stand.sink \"light\""),
        false => more.to_owned(),
    };
    format!(
        "casework 1\njob \"Sink\" {{ units mm; tape 0.5 }}\n\
        site {{ left open; right open; fixing wall; humidity 45% to 50% }}\nshop {{ humidity 48% }}\n\
        stock ply {{ plywood 18 mm }}\n{sheet}\
        stock maple {{ lumber 27 mm; thickness 20; species sugar-maple; sawn quarter }}\n\
        hinge cup {{ cup 35; bore 12.5; from-edge 4; swing 105 deg; gap 1.5; door-thickness 16 to 26 }}\n\
        case stand {{\n  wide 766.2; deep 500; high 729.4\n  stock ply\n  ends {{ stock ply }}\n  \
        bottom {{ joint dado {{ deep 6 }} }}\n  top {{ joint dado {{ deep 6 }}; panel }}\n  \
        back none\n  frame {{\n    stock maple; joint pocket\n    stile left {{ wide 45 }}; stile right {{ wide 45 }}\n    \
        rail top {{ wide 45 }}; rail bottom {{ wide 45 }}\n    across {{ {opening} }}\n  }}\n  \
        fronts {{ stock maple; set inset; build {build}; gap 2.5; meeting 3; hinge cup; pull none }}\n}}\n{more}\n"
    )
}

const LEANS: &str = "measured { opening sink { wide 676.2; high 639.4; diagonals { rising 931.6; falling 929.6 } } }";

/// 2 × √(676.2² + 639.4²) / (2 × 676.2) = 2 × 930.642 / 1352.4 = 1.37628.
const LEAN: f64 = 1.376_28;

fn one(c: &Compilation) -> Leaning<'_> {
    let mut all = square::leaning(c.piece.as_ref().expect("a piece"));
    assert_eq!(all.len(), 1);
    all.remove(0)
}

fn near(got: f64, wanted: f64) {
    assert!((got - wanted).abs() < 0.002, "{got}, not {wanted}");
}

/// Where the side of an opening 676.2 wide and 639.4 high stands at a height,
/// from its lower left corner, when its top stands to the right.
fn side(which: Side, lean: f64, y: f64) -> f64 {
    lean * y / 639.4 + if which == Side::Left { 0.0 } else { 676.2 }
}

/// The edge of a board that stood at `x` before it was planed at this corner.
fn planed(x: f64, corner: &Corner, off: f64, y: f64) -> f64 {
    let (low, high) = (2.5, 636.9);
    let part = (y - low) / (high - low);
    let taken = off * if corner.upper { part } else { 1.0 - part };
    if corner.side == Side::Left { x + taken } else { x - taken }
}

/// The widest and the narrowest reveal beside an edge, measured at five heights.
fn reveals(corner: &Corner, x: f64, lean: f64, off: f64) -> (f64, f64) {
    let all = (0..5).map(|step| {
        let y = 2.5 + 634.4 * f64::from(step) / 4.0;
        (planed(x, corner, off, y) - side(corner.side, lean, y)).abs()
    });
    all.fold((f64::MIN, f64::MAX), |(most, least), gap| (most.max(gap), least.min(gap)))
}

#[test]
fn a_front_left_wider_and_planed_has_its_reveals_all_the_way_up() {
    let c = compile(&stand("door sink { hung left }", "slab", LEANS));
    assert_eq!(slugs(&c), ["front-tapered"]);
    let one = one(&c);
    let (lean, blank) = (one.lean.to_mm_f64(), one.blank().to_mm_f64());
    near(lean, LEAN);
    // 676.2 − 2 × 2.5 + 1.376 = 672.576.
    near(blank, 672.576);
    // A square front as drawn: 2.5 − 0.688 = 1.812 at two corners, 3.188 at the others.
    near(one.least().to_mm_f64(), 1.812);
    let middle = (676.2 + lean) / 2.0;
    let drawn = middle - 671.2 / 2.0;
    near((drawn - side(Side::Left, lean, 639.4)).abs(), 1.812);
    // Set in the middle and planed by the whole lean, every reveal is 2.5 to
    // the mark of the tape, and much nearer.
    for corner in &one.tight {
        let x = if corner.side == Side::Left { middle - blank / 2.0 } else { middle + blank / 2.0 };
        let (most, least) = reveals(corner, x, lean, lean);
        assert!((most - 2.5).abs() < 0.01 && (least - 2.5).abs() < 0.01, "{least} to {most}");
        // One that was cut as drawn has 2.5 + 0.688 all the way up.
        let x = if corner.side == Side::Left { middle - 671.2 / 2.0 } else { middle + 671.2 / 2.0 };
        let (most, least) = reveals(corner, x, lean, lean);
        let even = one.even_as_drawn().to_mm_f64();
        near(even, 3.188);
        assert!((most - even).abs() < 0.01 && (least - even).abs() < 0.01, "{least} to {most}");
    }
}

#[test]
fn leaves_of_a_pair_are_planed_outside_and_meet_square() {
    let c = compile(&stand("doors sink", "slab", LEANS));
    let one = one(&c);
    let (lean, blank) = (one.lean.to_mm_f64(), one.blank().to_mm_f64());
    // (676.2 − 2 × 2.5 − 3) / 2 + 0.688 = 334.788.
    near(blank, 334.788);
    let middle = (676.2 + lean) / 2.0;
    for corner in &one.tight {
        // 1.5 from the middle each, the leaves stand 3 apart all the way up.
        let x = match corner.side {
            Side::Left => middle - 1.5 - blank,
            Side::Right => middle + 1.5 + blank,
        };
        let (most, least) = reveals(corner, x, lean, lean);
        assert!((most - 2.5).abs() < 0.01 && (least - 2.5).abs() < 0.01, "{least} to {most}");
    }
    let told = one.tight.clone().map(|corner| (corner.front.leaf, corner.word()));
    let at = |leaf, corner: &str| (leaf, corner.to_owned());
    assert_eq!(told, [at(Leaf::LeftDoor, "upper left"), at(Leaf::RightDoor, "lower right")]);
    let title = &c.diagnostics[0].title;
    assert!(
        title.ends_with("leave each leaf 0.69 wider, and plane 1.38 off one corner of each leaf"),
        "{title}"
    );
}

#[test]
fn the_other_way_round_the_other_corners_are_tight() {
    let c = compile(
        &(spec("hall-console.case")
            + "measured { opening press { wide 26-17/32; diagonals { rising 37-5/32; falling 37-7/32 } } }\n"),
    );
    assert_eq!(slugs(&c), ["front-tapered"]);
    assert_eq!(c.diagnostics[0].severity, Severity::Note);
    let one = one(&c);
    // 1/16 × √(26.53125² + 26²) / (2 × 26.53125) = 0.0625 × 37.1477 / 53.0625 = 0.043755.
    assert!((one.lean.to_mm_f64() / 25.4 - 0.043_755).abs() < 0.000_05);
    // 3/32 − 0.021877 = 0.071873.
    assert!((one.least().to_mm_f64() / 25.4 - 0.071_873).abs() < 0.000_05);
    // The falling diagonal is the longer: the top stands to the left, so the
    // left side comes in at the bottom and the right one at the top.
    assert_eq!(one.tight.clone().map(|corner| corner.word()), ["lower left", "upper right"]);
}

#[test]
fn the_papers_say_how_wide_to_cut_it() {
    for (opening, build, of, wide) in [
        ("door sink { hung left }", "slab", 1, "672.58 (m) wide"),
        // Both leaves are alike, and share a line.
        ("doors sink", "slab", 1, "334.79 (m) wide"),
        // Its ends are planed.
        ("false sink", "slab", 1, "672.58 (m) long"),
        // A stile of 60, and half the lean.
        (
            "door sink { hung left }",
            "panel { stile 60; rail 60; panel-stock sheet; groove 9 }",
            2,
            "60.69 (m) wide",
        ),
        (
            "doors sink",
            "panel { stile 60; rail 60; panel-stock sheet; groove 9 }",
            2,
            "60.69 (m) wide",
        ),
    ] {
        let text = stand(opening, build, LEANS);
        let bench = Bench::new().with("stand.case", &text);
        let list = bench.run(&["build", "stand.case", "--print", "cut-list"]);
        assert_eq!(list.code, Some(0), "{}", list.err);
        let told = format!("leave it {wide} until you plane it to its opening (see the gaps)");
        assert_eq!(list.out.matches(&told).count(), of, "{opening} {build}\n{}", list.out);
        let gaps = bench.run(&["build", "stand.case", "--print", "gaps"]);
        assert!(gaps.out.contains("1.38 (m)") && gaps.out.contains("3.19 (m)"), "{}", gaps.out);
    }
}

#[test]
fn a_front_that_is_planed_is_ripped_at_the_figure_it_is_left_at() {
    let text = stand("door sink { hung left }", "slab", LEANS);
    let bench = Bench::new().with("stand.case", &text);
    let list = bench.run(&["build", "stand.case", "--print", "cut-list"]);
    // 671.2 and the lean of 1.37628, which is rounded up.
    let fence = |line: &&str| line.starts_with(">> ") && line.contains("67");
    let fences: Vec<&str> = list.out.lines().filter(fence).collect();
    assert_eq!(fences, [">> 672.5~ (672.58) (m)  fence, 1 piece"], "{}", list.out);
    // It is recorded as it lies on the bench, and needs nothing then.
    let done = bench.run(&["record", "stand.case", "stand.sink.door", "--date", "2026-03-14"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    let text = std::fs::read_to_string(bench.path("stand.case")).unwrap();
    assert!(text.contains("wide 672.577"), "{text}");
    let c = compile(&text);
    let told = c.diagnostics[0].notes.last().expect("a note");
    assert!(told.starts_with("plane it before you cut in or bore for its hinges"), "{told}");
    let list = bench.run(&["build", "stand.case", "--print", "cut-list"]);
    assert!(!list.out.contains("trim these first"), "{}", list.out);
}

#[test]
fn a_front_that_is_cut_is_told_what_it_comes_to() {
    let said = |more: &str| {
        let c = compile(&stand("door sink { hung left }", "slab", &format!("{LEANS}\n{more}")));
        assert_eq!(slugs(&c)[0], "front-tapered", "{more}");
        c.diagnostics[0].notes.last().expect("a note").clone()
    };
    let told = said("");
    assert!(told.starts_with("a front already cut to its drawn width"), "{told}");
    let told = said("cut 2026-03-14 { stand.sink.door }");
    assert!(
        told.contains("it is already cut, so once planed it will have a gap of 3.19 on both sides"),
        "{told}"
    );
    // Left wider, it has all it needs: (1.376 − 1.4) / 2 is nothing. 672.58 is
    // the blank as the papers round it.
    for wide in ["672.6", "672.58", "672.57"] {
        let told = said(&format!("cut 2026-03-14 {{ stand.sink.door {{ wide {wide} }} }}"));
        assert!(told.starts_with("plane it before you cut in or bore for its hinges"), "{told}");
    }
}

#[test]
fn a_front_cut_to_its_blank_is_not_trimmed() {
    let framed = "panel { stile 60; rail 60; panel-stock sheet; groove 9 }";
    for (opening, build, size, trim) in [
        ("door sink { hung left }", "slab", "door { wide 672.58 }", None),
        ("door sink { hung left }", "slab", "door { wide 672.2 }", None),
        ("false sink", "slab", "front { long 672.58 }", None),
        ("doors sink", "slab", "left-door { wide 334.79 }", None),
        ("door sink { hung left }", framed, "door.left-stile { wide 60.69 }", None),
        // What is wider than the blank is trimmed to it: 672.58, 60.69.
        ("door sink { hung left }", "slab", "door { wide 676 }", Some((672.576, "672.58 (m)"))),
        (
            "door sink { hung left }",
            framed,
            "door.left-stile { wide 63 }",
            Some((60.688, "60.69 (m)")),
        ),
        // The inner stile of a leaf is not planed.
        ("doors sink", framed, "left-door.right-stile { wide 60.8 }", Some((60.0, "60"))),
    ] {
        let text =
            stand(opening, build, &format!("{LEANS}\ncut 2026-03-14 {{ stand.sink.{size} }}"));
        let c = compile(&text);
        let (piece, parts) = (c.piece.as_ref().unwrap(), c.parts.as_ref().unwrap());
        let ledger = Ledger::of(piece, parts);
        assert_eq!(ledger.cut().count(), 1, "{size}");
        let trims = ledger.trims();
        assert_eq!(trims.len(), usize::from(trim.is_some()), "{size}");
        let Some((to, told)) = trim else { continue };
        near(trims[0].needs.length.to_mm_f64(), to);
        let bench = Bench::new().with("stand.case", &text);
        let list = bench.run(&["build", "stand.case", "--print", "cut-list"]);
        assert!(list.out.contains(&format!(" to {told}: take ")), "{}{}", list.out, list.err);
    }
}

#[test]
fn one_cut_leaf_leaves_the_advice_for_the_other() {
    let framed = "panel { stile 60; rail 60; panel-stock sheet; groove 9 }";
    let told = |opening: &str, build: &str, cut: &str| {
        let more = format!("{LEANS}\ncut 2026-03-14 {{ {cut} }}");
        let c = compile(&stand(opening, build, &more));
        let mut found = c.diagnostics.iter();
        let found = found.find(|d| d.slug == "front-tapered").expect("a note");
        format!("{}\n{}", found.title, found.notes.join("\n"))
    };
    let has = |told: &str, says: &[&str], no: &[&str]| {
        assert!(says.iter().all(|it| told.contains(it)), "{told}");
        assert!(!no.iter().any(|it| told.contains(it)), "{told}");
    };
    let pair = told("doors sink", "slab", "stand.sink.left-door { wide 334.1 }");
    let says = [
        "leave the right door 0.69 wider",
        "cut the right door 334.79 wide, not 334.1",
        "the left door is already cut, so once planed it will have a gap of 3.19 on its side, not 2.5",
    ];
    has(&pair, &says, &["each leaf 0.69"]);
    // Of one cut to its blank nothing is said.
    let pair = told("doors sink", "slab", "stand.sink.right-door { wide 334.79 }");
    has(&pair, &["cut the left door 334.79 wide, not 334.1"], &["already cut"]);
    let pair = told("doors sink", framed, "stand.sink.right-door.right-stile { wide 60 }");
    let says = [
        "cut the left door 334.79 wide, not 334.1, by making its outer stile 0.69 wider",
        "the right door is already cut, so once planed it will have a gap of 3.19 on its side",
    ];
    has(&pair, &says, &[]);
    let door = told("door sink { hung left }", framed, "stand.sink.door.left-stile { wide 60 }");
    let says = [
        "leave the right stile 0.69 wider",
        "cut the right stile 0.69 wider",
        "the left stile is already cut, so once planed it will have a gap of 3.19 on its side",
    ];
    has(&door, &says, &["both stiles"]);
    let both = "stand.sink.left-door { wide 334.1 }; stand.sink.right-door { wide 334.1 }";
    let pair = told("doors sink", "slab", both);
    has(
        &pair,
        &["it is already cut, so once planed it will have a gap of 3.19 on both sides"],
        &["wider"],
    );
}

#[test]
fn a_metric_job_makes_up_for_whole_millimetres() {
    // 6, where an inch job takes a quarter: 6.35.
    for (wide, found) in [("682.1", 0), ("682.3", 1)] {
        let more = format!("measured {{ opening sink {{ wide {wide} }} }}");
        let c = compile(&stand("open sink", "slab", &more));
        let far = c.diagnostics.iter().filter(|d| d.slug == "measured-far").count();
        assert_eq!(far, found, "{wide}: {:?}", slugs(&c));
    }
}

#[test]
fn rough_sizes_made_from_measured_ones_are_marked() {
    let more = "measured { opening sink { wide 677.2 } }";
    let list = |more: &str| {
        let text = stand("door sink { hung left }", "slab", more);
        let bench = Bench::new().with("stand.case", &text);
        bench.run(&["build", "stand.case", "--print", "cut-list"]).out
    };
    // 1 wider than drawn: 672.2. Its length is as drawn.
    let row = |list: &str| {
        let row = list.lines().find(|line| line.contains("sink, door"));
        row.unwrap_or_else(|| panic!("{list}")).to_owned()
    };
    let (drawn, marked) = (row(&list("")), row(&list(more)));
    assert!(!drawn.contains("(m)"), "{drawn}");
    assert_eq!(marked.matches("(m)").count(), 1, "{marked}");
    let (_, rough) = marked.split_once(" x ").expect("a rough size");
    assert!(rough.split_whitespace().nth(1) == Some("(m)"), "{marked}");
}

#[test]
fn what_leans_by_more_than_its_reveals_is_an_error() {
    // Lean 0.6882 for 1: both reveals are 5, so the diagonals may differ by
    // 7.266, and by 0.8 more that the tape may be off.
    let at = |rising: &str, falling: &str| {
        let more = format!(
            "measured {{ opening sink {{ diagonals {{ rising {rising}; falling {falling} }} }} }}"
        );
        let c = compile(&stand("door sink { hung left }", "slab", &more));
        let found: Vec<_> = c.diagnostics.iter().map(|d| (d.slug, d.severity)).collect();
        found
    };
    assert_eq!(at("934.7", "926.6"), [("lean-too-much", Severity::Error)]);
    assert_eq!(at("934.6", "926.6"), [("front-tapered", Severity::Warning)]);
    // Far beyond it is no slip of a figure that counts for nothing.
    assert_eq!(at("970", "890"), [("lean-too-much", Severity::Error)]);
    // 2.5 − 0.397 = 2.103 of half a lean: 6.112 and 0.8 on the diagonals.
    assert_eq!(at("934", "927"), [("front-tapered", Severity::Warning)]);
    assert_eq!(at("933.9", "927.1"), [("front-tapered", Severity::Note)]);
    // Within the tape.
    assert_eq!(at("930.8", "930.4"), []);
}

#[test]
fn a_narrow_opening_is_not_judged_by_what_the_tape_is_off() {
    // 100 by 2000: each millimetre of the diagonals is 10 of lean.
    let text = stand("door sink { hung left }", "slab", "")
        .replace("wide 766.2; deep 500; high 729.4", "wide 190; deep 500; high 2090")
        .replace("cup { cup 35", "cup { cup 26");
    let with = |differ: &str| {
        let more = format!(
            "measured {{ opening sink {{ diagonals {{ rising {differ}; falling 2002 }} }} }}"
        );
        let c = compile(&format!("{text}{more}\n"));
        c.diagnostics.iter().filter(|d| d.slug == "lean-too-much").count()
    };
    // 6 of lean, or none at all.
    assert_eq!(with("2002.6"), 0);
    assert_eq!(with("2003.4"), 1);
}

#[test]
fn diagonals_that_agree_say_nothing() {
    let more = "measured { opening press { diagonals { rising 37-1/8; falling 37-9/64 } } }\n";
    assert_eq!(slugs(&compile(&(spec("hall-console.case") + more))), Vec::<&str>::new());
}

#[test]
fn an_overlay_front_covers_an_opening_out_of_square() {
    let text = spec("first.case").replace("set inset;", "set overlay { by 1/2 };");
    let more = "measured { opening store { diagonals { rising 38-5/8; falling 38-3/4 } } }";
    let plain = slugs(&compile(&text)).len();
    assert_eq!(slugs(&compile(&format!("{text}\n{more}\n"))).len(), plain);
}
