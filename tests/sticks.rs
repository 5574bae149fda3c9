//! Channels that are cut in a whole stick before short parts are crosscut from it: figures and
//! orders worked by hand.

use casewright::papers::{self, Format};
use casewright::pipeline::Compilation;
use serde_json::Value;

use crate::bench;
use crate::support::{compile, packet, slugs, spec};

/// The first piece with a drawer box so long, whose sides are 4-1/8 high.
fn boxed(long: &str, room: &str) -> String {
    let text = spec("first.case");
    let own = "length 15; room 15-3/4";
    assert!(text.contains(own));
    text.replace(own, &format!("length {long}; room {room}"))
}

fn paper(compiled: &Compilation, slug: &str) -> String {
    papers::one(compiled, slug, Format::Text).expect("a paper")
}

/// The place of the first operation among all that this is true of.
fn place(packet: &Value, what: impl Fn(&Value) -> bool) -> usize {
    let all = packet["operations"].as_array().expect("operations");
    all.iter().position(what).expect("such an operation")
}

fn names(own: &Value, key: &str) -> Vec<String> {
    let all = own[key].as_array().into_iter().flatten();
    all.map(|own| own["part"].as_str().or(own.as_str()).unwrap_or_default().to_owned()).collect()
}

/// Two sides of 10, each with a kerf of 1/8 and 1/32 left at both ends to fit it, and the
/// allowance of 1 once: 2 × 10-3/16 + 1 = 21-3/8. With the front and the back of the box, which
/// are 31-1/2 each, 21-3/8 + 63 = 84-3/8 are routed.
///
/// On the table three pieces go past the fence at two settings in three passes: 18 × 1/2 min.
/// The fence is moved once, 3 min, and 84-3/8 × 6 are fed at 100 a minute, 5.06. That is 17.06,
/// up to 18, and 15 to change the set-up: 33.
#[test]
fn the_sides_of_a_short_box_are_grooved_as_one_stick() {
    let compiled = compile(&boxed("10", "10-3/4"));
    let sheet = paper(&compiled, "jig-sheet");
    for told in [
        "UP-LSD UP-RSD  stick of 2 pieces  21-3/8",
        "3 pieces, 84-3/8 to rout in all, about 33 min",
        "what is listed as a stick is cut whole",
    ] {
        assert!(sheet.contains(told), "{told}: {sheet}");
    }
    assert!(!sheet.contains("short by now"), "{sheet}");
    let list = paper(&compiled, "cut-list");
    assert!(list.contains("stick 21-3/8 x 4-3/8"), "{list}");
    assert!(
        list.contains("UP-LSD UP-RSD: leave each stick whole until set-up 1 of the router-jig"),
        "{list}"
    );
    let order = paper(&compiled, "assembly-order");
    for told in [
        "for UP-LSD, UP-RSD, which stays whole until set-up 1 is made in it",
        "first make set-up 1 of the router-jig sheet, for the drawer boxes, with this stick while it is whole: UP-LSD, UP-RSD; then crosscut it to length",
    ] {
        assert!(order.contains(told), "{told}: {order}");
    }
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// They are ripped, grooved, crosscut, and rabbeted, in this order; and the bottom is sawn by the
/// boards of its box when these have their length.
#[test]
fn a_stick_is_crosscut_between_its_grooves_and_everything_else() {
    let packet = packet(&compile(&boxed("10", "10-3/4")));
    let side = "UP-LSD".to_owned();
    let mills = |axis: &'static str, part: String| {
        move |own: &Value| {
            own["kind"] == "mill" && own["axis"] == axis && names(own, "parts").contains(&part)
        }
    };
    let cuts = |in_stick: bool| {
        move |own: &Value| {
            let pieces = own["pieces"].as_array().into_iter().flatten();
            own["kind"] == "setting"
                && pieces.clone().any(|own| {
                    own["part"] == "UP-LSD"
                        && own["in_stick"].as_bool().unwrap_or(false) == in_stick
                })
        }
    };
    let order = [
        place(&packet, mills("width", side.clone())),
        place(&packet, cuts(true)),
        place(&packet, mills("length", side)),
        place(&packet, mills("length", "UP-XB".to_owned())),
        place(&packet, cuts(false)),
    ];
    assert!(order.is_sorted(), "{order:?}");
    let all = packet["operations"].as_array().unwrap();
    let grooved = all[order[1]]["pieces"].as_array().unwrap();
    let whole: Vec<(&str, &str)> = grooved
        .iter()
        .filter(|own| own["in_stick"] == true)
        .map(|own| (own["part"].as_str().unwrap(), own["run"]["print"].as_str().unwrap()))
        .collect();
    assert_eq!(whole, [("UP-LSD", "21-3/8"), ("UP-RSD", "21-3/8")]);
}

/// The shop notices a stick that is crosscut too soon, and a piece that is grooved as if it had
/// its length.
#[test]
fn the_shop_knows_a_whole_stick() {
    let sound = packet(&compile(&boxed("10", "10-3/4")));
    let spoiled = |spoil: &dyn Fn(&mut Vec<Value>, usize)| {
        let mut packet = sound.clone();
        let grooved = place(&packet, |own| own.to_string().contains("in_stick"));
        spoil(packet["operations"].as_array_mut().unwrap(), grooved);
        bench::complaints(&packet.to_string())
    };
    let has = |found: &[String], what: &str| {
        assert!(found.iter().any(|own| own.contains(what)), "{what}: {found:?}");
    };
    let soon = spoiled(&|all, grooved| {
        let mill = all[grooved..].iter().position(|own| own["kind"] == "mill");
        all.swap(grooved, grooved + mill.expect("its pieces are crosscut"));
    });
    has(&soon, "its stick is crosscut already");
    let single = spoiled(&|all, grooved| {
        let pieces = all[grooved]["pieces"].as_array_mut().unwrap();
        let own = pieces.iter_mut().find(|own| own["part"] == "UP-RSD").unwrap();
        own.as_object_mut().unwrap().remove("in_stick");
    });
    has(&single, "it is still in its stick");
    has(&single, "comes from the same stick, and has not the cut");
}

/// Three inches more make the sides 13 rough and more: nothing is short, and nothing waits.
#[test]
fn long_boards_are_cut_to_length_first() {
    let compiled = compile(&boxed("15", "15-3/4"));
    let packet = packet(&compiled);
    let in_stick = packet["operations"].to_string().contains("in_stick");
    assert!(!in_stick);
    assert!(!paper(&compiled, "assembly-order").contains("stays whole"));
    assert!(!paper(&compiled, "jig-sheet").contains("stick"));
}

/// A plain blade cuts no groove in a side of 10 along its fence, which asks for 12. The stick is
/// 21-3/8 long, so it goes over the saw, and so do the boards that are grooved like it.
#[test]
fn a_stick_goes_over_the_saw_where_its_pieces_would_not() {
    let text = boxed("10", "10-3/4").replace("kerf 1/8;", "kerf 1/8; dadoes saw;");
    let compiled = compile(&text);
    let sheet = paper(&compiled, "jig-sheet");
    let grooves = sheet.split(">> ").find(|own| own.contains("stick of 2 pieces"));
    let grooves = grooves.expect("a set-up of the stick");
    assert!(grooves.contains("blade 1/4 above the table"), "{grooves}");
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// The front and the back of a box between a stile and a stile are 5-1/4 long, too short for a
/// router, and their groove is cut in a stick of 27-1/16: 15 and twice 5-1/4, three times a kerf
/// and 1/16, and 1. Nothing is said of them.
///
/// Sides of 5-1/2 are rabbeted across their ends when they have their length, and that is said
/// with its reason.
#[test]
fn what_is_too_short_to_rout_is_told_only_where_it_is_routed_short() {
    let row = "across row { high 5; drawer small { wide 6-1/4 }; stile { wide 1-1/2; partition }; drawer big { share 1 } }";
    let text = spec("first.case").replace("drawer upper { high 5 }", row);
    let compiled = compile(&text);
    assert!(!slugs(&compiled).contains(&"small-for-router"), "{:?}", slugs(&compiled));
    let sheet = paper(&compiled, "jig-sheet");
    assert!(sheet.contains("SM-LSD SM-XF SM-XK  stick of 3 pieces  27-1/16"), "{sheet}");
    assert_eq!(bench::built(&compiled), Vec::<String>::new());

    let compiled = compile(&boxed("5-1/2", "6-1/4"));
    let found = compiled.diagnostics.iter().find(|own| own.slug == "small-for-router");
    let notes = format!("{:?}", found.expect("too short for its rabbets"));
    assert!(notes.contains("rout the rabbet by itself"), "{notes}");
    assert!(
        notes.contains("the papers cut it to length first, because the rabbet runs across it"),
        "{notes}"
    );
}

/// What the note on small parts says of the order is what the papers have.
#[test]
fn the_note_on_small_parts_says_what_is_cut_first() {
    let notes = |text: &str| {
        let compiled = compile(text);
        let found = compiled.diagnostics.iter().filter(|own| own.slug == "small-parts");
        found.map(|own| format!("{own:?}")).collect::<Vec<_>>().join("\n")
    };
    let short = notes(&boxed("10", "10-3/4"));
    assert!(
        short.contains("those of UP-LSD and UP-RSD, are cut before that, and other joints after"),
        "{short}"
    );
    let stops = notes(&spec("orchard-lane-chest.case").replace("accept small-parts", "# "));
    assert!(stops.contains("joints and grooves come after that"), "{stops}");
}
