//! What is offered of a slip: figures that are on the tape, names that are in the job, and
//! the figure that was probably meant. Each stands beside its sound neighbor.

use casewright::diagnostics::{Diagnostic, Fix, Severity, mend};
use casewright::pipeline::Compilation;

use crate::support::{compile, slugs, spec};

/// The only error of a demo piece with one text in place of another.
fn error(name: &str, sound: &str, wrong: &str) -> (Compilation, Diagnostic) {
    let text = spec(name);
    assert!(text.contains(sound), "{name} has no {sound}");
    let compiled = compile(&text.replacen(sound, wrong, 1));
    let errors = compiled.diagnostics.iter().filter(|found| found.severity == Severity::Error);
    let [found] = errors.cloned().collect::<Vec<_>>().try_into().expect("one error");
    (compiled, found)
}

/// The statements that are offered.
fn offers(found: &Diagnostic) -> Vec<&str> {
    let edits = found.fixes.iter().flat_map(|fix| &fix.edits);
    edits.map(|edit| edit.text.trim().trim_start_matches("; ")).collect()
}

fn made(compiled: &Compilation, fix: &Fix) -> String {
    mend(&compiled.sources, &[fix]).texts.into_values().next().expect("a text")
}

/// `3` for `3/4`: 3/10 is on no tape. A stile 2-1/2 wide leaves 2-1/2 − 23/32 =
/// 1-25/32 beside the end.
#[test]
fn a_fraction_of_which_a_part_is_missing_is_offered_whole() {
    let (_, found) = error("hall-console.case", "scribe 3/4", "scribe 3");
    assert_eq!(found.slug, "scribe-too-wide");
    assert_eq!(offers(&found), ["scribe 1-25/32", "3/4", "3/8"]);
    // `8` for `1/8`, in millimeters or of an inch.
    let (_, found) = error("weir-house-pantry.case", "behind-front  1/8", "behind-front  8");
    assert_eq!(
        (found.slug, found.primary.text.as_str()),
        ("unit-slip", "inches are the wrong unit here")
    );
    assert_eq!(offers(&found), ["8 mm", "1/8"]);
}

/// 31/2 is 15-1/2 and may be 3-1/2; nobody but the yard names boards by such fractions.
#[test]
fn a_mixed_number_without_its_hyphen_is_told() {
    let upper = |high: &str| {
        compile(
            &spec("first.case").replace("upper { high 5 }", &format!("upper {{ high {high} }}")),
        )
    };
    let compiled = upper("51/2");
    let [found] = compiled.diagnostics.as_slice() else { panic!("{:?}", slugs(&compiled)) };
    assert_eq!((found.slug, offers(found)), ("figure-odd", vec!["5-1/2"]));
    for sound in ["5-1/2", "5 1/2", "5.5"] {
        assert_eq!(slugs(&upper(sound)), Vec::<&str>::new(), "{sound}");
    }
    let boards =
        spec("first.case").replace("lumber 4/4; thickness 3/4", "lumber 5/4; thickness 3/4");
    assert!(!slugs(&compile(&boards)).contains(&"figure-odd"));
}

/// A point a place off in a list, or a digit too many: 55 leaves nothing of 34-1/2, and 5-1/2
/// or 5 leave enough.
#[test]
fn a_list_too_high_by_its_point_is_offered_what_was_meant() {
    let (compiled, found) = error("orchard-lane-chest.case", "high 5-1/2", "high 55");
    assert_eq!((found.slug, offers(&found)), ("no-room", vec!["high 5-1/2", "high 5", "share 1"]));
    let again = compile(&made(&compiled, &found.fixes[0]));
    assert!(again.is_sound(), "{:?}", slugs(&again));
}

/// Both ends of a range are in the wrong unit, or one of them is.
#[test]
fn a_range_in_the_wrong_unit_is_offered_whole() {
    let (compiled, found) =
        error("first.case", "door-thickness 16 mm to 26 mm", "door-thickness 16 to 26");
    assert_eq!((found.slug, offers(&found)), ("unit-slip", vec!["16 mm to 26 mm"]));
    assert_eq!(made(&compiled, &found.fixes[0]), spec("first.case"));
}

/// What is offered is in the job: the only slide, two stocks of which one is meant.
#[test]
fn a_missing_name_is_offered_from_those_of_the_job() {
    for wrong in ["slide;", "slide\n"] {
        let (compiled, found) =
            error("first.case", "slide runner\n    groove", &format!("{wrong}\n    groove"));
        assert_eq!((found.slug, offers(&found)), ("value-missing", vec!["runner"]));
        assert!(compile(&made(&compiled, &found.fixes[0])).is_sound());
    }
    let (compiled, found) = error("first.case", "; slide runner", "");
    assert_eq!((found.slug, offers(&found)), ("word-missing", vec!["slide runner"]));
    assert_eq!(made(&compiled, &found.fixes[0]).matches("slide runner").count(), 2);
    assert!(compile(&made(&compiled, &found.fixes[0])).is_sound());
}

/// `pull none` beside a finger pull says what is so; a pull beside one can't be.
#[test]
fn a_front_with_a_finger_pull_may_say_that_it_has_no_pull() {
    let front = |said: &str| {
        let text = spec("first.case").replace("pull knob\n", &format!("{said}\n"));
        slugs(&compile(&text))
    };
    assert_eq!(front("finger { wide 4; deep 1 }"), front("pull none; finger { wide 4; deep 1 }"));
    assert!(front("pull knob; finger { wide 4; deep 1 }").contains(&"word-twice"));
}

/// The slide lets a box be 5 − 7/8 = 4-1/8 high. A finger pull behind a box that is too high
/// is open once the box is lower.
#[test]
fn a_box_too_high_is_one_message_with_the_height_that_fits() {
    let (_, found) = error("first.case", "upper { high 5 }", "upper { high 5; box { high 5 } }");
    assert_eq!((found.slug, offers(&found)), ("box-too-big", vec!["high 4-1/8"]));
    let text = spec("first.case")
        .replace("upper { high 5 }", "upper { high 5; box { high 5 } }")
        .replace("pull knob\n", "finger { wide 4; deep 3/4 }\n");
    assert!(!slugs(&compile(&text)).contains(&"finger-blind"));
}

/// An end 23/32 thick is no deeper than that: half of it is 23/64, printed 3/8.
#[test]
fn a_rabbet_deeper_than_its_end_is_told_so() {
    let (_, found) = error("first.case", "rabbet { deep 3/8 }", "rabbet { deep 3/4 }");
    assert_eq!((found.slug, offers(&found)), ("rabbet-too-thin", vec!["deep 3/8"]));
    assert!(found.title.contains("3/4 deep") && found.title.contains("only 23/32 thick"));
}

/// A leg under a bottom over a separate base is a sleeper of that base, and holds up nothing.
#[test]
fn no_leg_is_promised_where_it_would_not_help() {
    let sag = |base: &str| {
        let text = spec("first.case")
            .replace("wide 36;", "wide 64;")
            .replace(
                "bottom { joint dado { deep 1/4 } }",
                "bottom { joint dado { deep 1/4 }; flush }",
            )
            .replace("base { toe-kick; high 4; set-back 3; cut-into ends }", base);
        let found = compile(&text).diagnostics;
        found.into_iter().find(|found| found.slug == "sag").expect("it sags")
    };
    let promised = |found: &Diagnostic| {
        found.notes.iter().any(|note| note.contains("with a leg"))
            || offers(found).contains(&"leg { }")
    };
    assert!(promised(&sag("base { toe-kick; high 4; set-back 3; cut-into ends }")));
    assert!(!promised(&sag("base { toe-kick; high 4; set-back 3; separate }")));
}

/// A case 9 high leaves 9 − 2 × 23/32 = 7-9/16 for two nailers 4 wide, 7/16 too little; two
/// of 3-25/32 go in. At 10 high there is room.
#[test]
fn a_case_too_low_for_two_nailers_is_told_at_its_height() {
    let (compiled, found) = error("broken/parts-overlap-nailers.case", "high 9", "high 9");
    assert_eq!(found.slug, "parts-overlap");
    assert_eq!(compiled.sources.text(found.primary.span), "high 9");
    assert_eq!(offers(&found), ["nailers 1;", "nailers 2 { wide 3-25/32 };"]);
    let sound = spec("broken/parts-overlap-nailers.case").replace("high 9", "high 10");
    assert!(!slugs(&compile(&sound)).contains(&"parts-overlap"));
}

/// 80 for 800, which the other bookcase of the file has; 8 lacks two digits.
#[test]
fn a_missing_digit_is_offered_as_it_stands_elsewhere() {
    let wide = |slip: &str| {
        let compiled = compile(&spec("alcove-shelves.case").replacen("wide 800;", slip, 1));
        let own = |found: &&Diagnostic| found.subject.as_deref() == Some("left-books.wide");
        compiled.diagnostics.iter().find(own).cloned().expect("a finding")
    };
    let found = wide("wide 80;");
    assert_eq!((found.slug, offers(&found)), ("figure-odd", vec!["800"]));
    assert!(found.fixes[0].title.contains("elsewhere"), "{found:?}");
    assert!(wide("wide 8;").fixes.iter().all(|fix| !fix.title.contains("elsewhere")));
}

/// Half a doubled figure: 3/16 for 3/32 around a front, 6 for 3 behind a toe kick.
#[test]
fn a_doubled_figure_is_odd() {
    let odd = |sound: &str, doubled: &str| {
        let text = spec("first.case");
        assert!(text.contains(sound));
        slugs(&compile(&text.replace(sound, doubled))).contains(&"figure-odd")
    };
    assert!(odd("gap 3/32;", "gap 3/16;") && !odd("gap 3/32;", "gap 5/32;"));
    assert!(odd("set-back 3;", "set-back 6;") && !odd("set-back 3;", "set-back 4;"));
}

/// The other stile is 1-3/4 wide, and a frame is even.
#[test]
fn a_missing_stile_is_offered_as_wide_as_the_other() {
    let (compiled, found) = error("first.case", "    stile right { wide 1-3/4 }\n", "");
    assert_eq!((found.slug, offers(&found)), ("word-missing", vec!["stile right { wide 1-3/4 }"]));
    assert!(compile(&made(&compiled, &found.fixes[0])).is_sound());
}

/// Posts 1-3/4 wide: a mortise 1/16 deeper than its tenon of 1-3/4 comes out at the far
/// edge by 1/16. What leaves 5/16 behind it, as behind the mortise of a stile, passes.
#[test]
fn a_tenon_through_a_post_is_told_at_the_tenon() {
    let (compiled, found) =
        error("fern-bank-stand.case", "joint  tenon { long 1 }", "joint  tenon { long 1-3/4 }");
    assert_eq!(found.slug, "member-too-narrow");
    assert_eq!(slugs(&compiled), ["member-too-narrow"], "one cause, one message");
    let again = compile(&made(&compiled, &found.fixes[0]));
    assert!(!slugs(&again).contains(&"member-too-narrow"), "{:?}", slugs(&again));
}

/// A lip or a sheet of a wood that is almost known is a slip; one of a wood that nobody
/// here knows is not.
#[test]
fn the_wood_of_a_sheet_may_be_misspelled() {
    let of = |species: &str| {
        let sheet = format!("plywood 3/4; species {species};");
        compile(&spec("first.case").replacen("plywood 3/4;", &sheet, 1))
    };
    for species in ["sugar-maple", "okoume"] {
        assert!(!slugs(&of(species)).contains(&"species-unknown"), "{species}");
    }
    let wrong = of("suger-maple");
    let found = wrong.diagnostics.iter().find(|own| own.slug == "species-unknown");
    assert_eq!(offers(found.expect("a finding")), ["sugar-maple"]);
}

/// 40 in of depth in a piece of millimeters is told, though more clamps and slower glue
/// would do for it.
#[test]
fn an_odd_depth_is_told_beside_what_it_takes_of_the_shop() {
    let text = spec("tide-cottage-press.case");
    let wrong = text.replacen("deep 560; high 1900", "deep 40 in; high 1900", 1);
    assert_ne!(text, wrong);
    assert!(slugs(&compile(&wrong)).contains(&"figure-odd"));
}

/// Three drawers of a bank are too narrow for the same reason: the list they stand in.
#[test]
fn a_bank_of_narrow_drawers_is_told_once() {
    let bank =
        "down bank { wide 3; drawer one { share 1 }; rail { wide 1 }; drawer two { share 1 } }\n";
    let text = spec("first.case").replacen(
        "      drawer upper { high 5 }\n",
        &format!(
            "      across {{ high 12\n {bank} stile {{ wide 2 }}\n open rest {{ share 1 }} }}\n"
        ),
        1,
    );
    let compiled = compile(&text);
    let told: Vec<_> =
        compiled.diagnostics.iter().filter(|own| own.slug == "box-too-big").collect();
    let [found] = told.as_slice() else { panic!("{:#?}", compiled.diagnostics) };
    assert_eq!((found.also.len(), found.primary.text.as_str()), (1, "opening 3"));
}

/// A figure without its word is told how it is written.
#[test]
fn a_bare_figure_needs_its_word() {
    let (_, found) = error("first.case", "drawer upper { high 5 }", "drawer upper { 5 }");
    assert_eq!(found.slug, "syntax");
    assert!(found.notes.iter().any(|note| note.contains("`high 5`")), "{:?}", found.notes);
}

/// `3` for `3 ft`: 36 in, which the case is wide.
#[test]
fn feet_are_offered_for_what_is_as_long_as_a_room() {
    let compiled = compile(&spec("first.case").replacen("wide 36;", "wide 3;", 1));
    let all: Vec<&str> = compiled.diagnostics.iter().flat_map(offers).collect();
    assert!(all.contains(&"3 ft"), "{all:?}");
}
