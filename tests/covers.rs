//! Covers over ends: figures worked by hand.

use casewright::measure::Length;
use casewright::papers::{self, Format};
use casewright::parts::{Direction, Part, Role};
use casewright::pipeline::Compilation;
use serde_json::Value;

use crate::support::{compile, slugs, spec};

fn sound(text: &str) -> Compilation {
    let compiled = compile(text);
    assert!(compiled.piece.is_some(), "{:#?}", compiled.diagnostics);
    compiled
}

fn part<'c>(compiled: &'c Compilation, path: &str) -> &'c Part {
    let parts = compiled.parts.as_ref().expect("parts");
    parts.named(path).unwrap_or_else(|| panic!("{path}")).1
}

fn inches(over: i64, under: i64) -> Length {
    Length::inches(over, under)
}

/// The base of the hutch is 42 wide over all, and plywood of 23/32 lies over both its ends:
/// they stand from 23/32 to 1-7/16, and the right one ends as far before 42. The covers lie
/// behind the frame of 3/4, down to the floor and up to 33, and back to 18; the toe kick is
/// between them.
#[test]
fn a_cover_lies_behind_the_stile_inside_the_width() {
    let compiled = sound(&spec("heron-quay-hutch.case"));
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let x = |path: &str| part(&compiled, path).extent(Direction::X);
    assert_eq!(x("sideboard.left-cover"), (Length::ZERO, inches(23, 32)));
    assert_eq!(x("sideboard.left-end"), (inches(23, 32), inches(46, 32)));
    assert_eq!(x("sideboard.right-end").1, inches(42 * 32 - 23, 32));
    assert_eq!(x("sideboard.right-cover"), (inches(42 * 32 - 23, 32), inches(42, 1)));
    assert_eq!(x("sideboard.kick"), (inches(23, 32), inches(42 * 32 - 23, 32)));
    let cover = part(&compiled, "sideboard.left-cover");
    assert_eq!(cover.extent(Direction::Z), (inches(3, 4), inches(18, 1)));
    assert_eq!(cover.extent(Direction::Y), (Length::ZERO, inches(33, 1)));
    // The stile stays where it was, over the cover and the end.
    assert_eq!(x("sideboard.left-stile"), (Length::ZERO, inches(7, 4)));
}

/// Beside the fronts of a frameless case it comes forward flush with them, and they keep
/// their whole gap to it: 23/32 + 1/8 = 27/32. The opening of 42 less two covers and two
/// ends of 23/32 is 39-1/8.
#[test]
fn beside_fronts_it_keeps_their_gap() {
    let example = include_str!("../specs/examples/hutch.case");
    let (head, _) = example.split_once("case shelves").unwrap();
    let stocks = include_str!("../specs/examples/shop.case");
    let text = head
        .replace("use \"shop.case\"\n", "")
        .replace("wide 36; deep 18", "wide 42; deep 18")
        .replace("  bottom", "  cover left { stock ply }\n  cover right { stock ply }\n  bottom")
        .replace("set inset; gap 3/32;", "set overlay; gap 1/8;");
    let text = text + &stocks.replace("units in\n", "");
    let compiled = sound(&text);
    let door = part(&compiled, "sideboard.china.left-door");
    assert_eq!(door.extent(Direction::X).0, inches(27, 32));
    let cover = part(&compiled, "sideboard.left-cover");
    assert_eq!(cover.extent(Direction::Z).0, door.extent(Direction::Z).0);
    let opening = compiled.piece.as_ref().unwrap().cases[0].openings.last().unwrap();
    assert_eq!(opening.wide.length, inches(313, 8));
}

/// It is screwed on through the end in two lines, 3 from both edges of what they share, and
/// above the bottom, since no hand gets below that. Screws of 1-1/4 don't come through two
/// boards of 23/32.
#[test]
fn it_is_screwed_on_from_inside() {
    let compiled = sound(&spec("heron-quay-hutch.case"));
    let packet = papers::one(&compiled, "packet", Format::Json).expect("a packet");
    let packet: Value = serde_json::from_str(&packet).unwrap();
    let operations = packet["operations"].as_array().unwrap();
    let lines: Vec<&Value> = operations
        .iter()
        .filter(|own| own["kind"] == "screw line" && own["into"] == "LCV")
        .collect();
    let place = |own: &&Value| {
        let from = own["from"][0].as_str().unwrap();
        format!("{} from the {from}", own["at"]["print"].as_str().unwrap())
    };
    let places: Vec<String> = lines.iter().map(place).collect();
    assert_eq!(places, ["3 from the front edge", "3 from the back edge"]);
    assert!(lines.iter().all(|own| own["through"] == "SI-LE" && own["face"] == "inside face"));
    let fit = operations.iter().position(|own| own["kind"] == "fit cover").unwrap();
    let wall = operations.iter().position(|own| own["kind"] == "fix to wall").unwrap();
    let lay = operations.iter().position(|own| own["kind"] == "lay on").unwrap();
    assert!(wall < fit && fit < lay);
    let list = papers::one(&compiled, "cut-list", Format::Text).expect("the paper");
    assert!(list.contains("LCV") && list.contains("RCV"));
    let fitting = papers::one(&compiled, "fitting", Format::Text).expect("the paper");
    let screws = fitting.lines().find(|line| line.contains("covers, from inside")).unwrap();
    assert!(screws.contains("1-1/4"), "{screws}");
}

/// What stands on a case has its cover down to its own underside only.
#[test]
fn a_cover_of_an_upper_case_ends_with_it() {
    let text = spec("heron-quay-hutch.case");
    let text = text.replace("  on sideboard\n", "  on sideboard\n  cover right { stock ply }\n");
    let compiled = sound(&text);
    assert_eq!(part(&compiled, "hutch.right-cover").extent(Direction::Y).0, inches(135, 4));
    let covers = compiled.parts.as_ref().unwrap().all.iter();
    assert_eq!(covers.filter(|part| part.role == Role::Cover).count(), 3);
}
