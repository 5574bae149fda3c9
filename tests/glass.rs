//! Glass, worked by hand: doors with lights, their rabbets and beads, shelves, and what is
//! bought.

use casewright::measure::Length;
use casewright::papers::{self, Format};
use casewright::parts::{FeatureKind, Part, Parts, Role};
use casewright::pipeline::Compilation;

use crate::bench;
use crate::support::{compile, spec};

fn made(text: &str) -> Compilation {
    let compiled = compile(text);
    assert!(compiled.parts.is_some(), "{:#?}", compiled.diagnostics);
    compiled
}

fn cabinet() -> String {
    spec("pier-road-bath-cabinet.case")
}

fn paper(compiled: &Compilation, slug: &str) -> String {
    papers::one(compiled, slug, Format::Text).unwrap()
}

fn of<'p>(parts: &'p Parts, path: &str) -> &'p Part {
    parts.all.iter().find(|part| part.path == path).unwrap_or_else(|| panic!("no {path}"))
}

/// The cabinet is 500 by 700 with stiles and rails of 40, and a gap of 2: its door is
/// 500 - 80 - 4 = 416 wide and 700 - 80 - 4 = 616 high. Stiles of 58 leave 300 between them,
/// rails of 58 leave 500. Grooves 10 deep make the rabbet 320 by 520; the pane stays 1.5 off it
/// on each side: 317 by 517. The stiles are 20 thick and the grooves 6 wide: a lip of 7 before
/// them, 7 of wood behind them, and a rabbet 13 deep. Behind glass of 4 lie 9, and the beads stay
/// 1 below the back: 8 thick and 10 wide.
#[test]
fn a_pane_and_its_beads_fill_the_rabbet() {
    let compiled = made(&cabinet());
    let parts = compiled.parts.as_ref().unwrap();
    let mm = |sizes: [i64; 3]| sizes.map(Length::mm);
    assert_eq!(of(parts, "cabinet.store.door.panel").sizes(), mm([517, 317, 4]));
    assert_eq!(of(parts, "cabinet.store.door.top-bead").sizes(), mm([320, 10, 8]));
    assert_eq!(of(parts, "cabinet.store.door.left-bead").sizes(), mm([500, 10, 8]));
    let stile = of(parts, "cabinet.store.door.left-stile");
    let rabbets: Vec<_> =
        stile.features.iter().filter(|own| matches!(own.kind, FeatureKind::Glazing(_))).collect();
    let [rabbet] = rabbets.as_slice() else { panic!("{rabbets:?}") };
    assert_eq!(rabbet.kind, FeatureKind::Glazing(Length::mm(7)));
    assert_eq!(
        (rabbet.u, rabbet.v),
        ((Length::mm(48), Length::mm(568)), (Length::mm(48), Length::mm(58)))
    );
    assert_eq!(rabbet.deep, Length::mm(13));
    let (pane, bead) =
        (of(parts, "cabinet.store.door.panel"), of(parts, "cabinet.store.door.top-bead"));
    assert_eq!(pane.cuboid().to.z, bead.cuboid().from.z);
    assert_eq!(stile.cuboid().to.z - bead.cuboid().to.z, Length::mm(1));
}

/// Glass weighs 2500 kg to the cubic meter: 517 x 317 x 4 mm are 0.656 kg in millions of cubic
/// millimeters times 2.5: 1.639 kg. A sheet of its gravity would have weighed 1.12 times as much.
#[test]
fn glass_weighs_what_it_weighs() {
    let compiled = made(&cabinet());
    let text = paper(&compiled, "weights");
    let line = text.lines().find(|line| line.contains("store door, panel")).unwrap();
    assert!(line.contains("1.6 kg"), "{line}");
}

/// No paper has glass sawn, planed, calipered, sanded, or coated, and it is bought by panes: the
/// mirror of 0.1639 m2 at 70 is 11.47.
#[test]
fn glass_is_bought_by_panes_and_left_alone() {
    let compiled = made(&cabinet());
    let bought = paper(&compiled, "buying-list");
    let mirror = bought.lines().find(|line| line.contains("mirror: glass")).unwrap();
    assert!(mirror.contains("1 pane") && mirror.contains("11.47"), "{mirror}");
    assert!(mirror.contains("517 x 317, mirror, edges seamed"), "{mirror}");
    let shelf = bought.lines().find(|line| line.contains("plate: glass")).unwrap();
    assert!(shelf.contains("3 panes") && shelf.contains("tempered, edges polished"), "{shelf}");
    assert!(!paper(&compiled, "sheet-plans").contains("plate"));
    let parts = compiled.parts.as_ref().unwrap();
    let panes = parts
        .all
        .iter()
        .filter(|own| own.role == Role::AdjustableShelf || own.path == "cabinet.store.door.panel");
    let marks: Vec<&str> = panes.map(|own| own.mark.as_str()).collect();
    assert_eq!(marks.len(), 4);
    let order = paper(&compiled, "assembly-order");
    for line in order.lines() {
        let is_work =
            ["sand ", "plane ", "caliper", "saw ", "coat "].iter().any(|w| line.contains(w));
        let names =
            marks.iter().any(|mark| line.split(&[' ', ',', ':', ';'][..]).any(|w| w == *mark));
        assert!(!(is_work && names), "{line}");
    }
}

/// Glued, rabbeted, fitted, bored, finished, then glass: in this order.
#[test]
fn glass_comes_when_all_else_is_done() {
    let order = paper(&made(&cabinet()), "assembly-order");
    let at = |title: &str| {
        let found = order.lines().position(|line| line.starts_with(">> ") && line.contains(title));
        found.unwrap_or_else(|| panic!("no step {title}"))
    };
    let steps = [
        "Glue up the door of store",
        "Cut the rabbets for the glass",
        "Fit the fronts to their openings",
        "Bore the fronts",
        "Coat 3 of 3",
        "Set the glass in the doors",
        "Put in the doors and shelves",
    ]
    .map(at);
    assert!(steps.is_sorted(), "{steps:?}");
    assert!(at("Cut the rabbets for the glass") < at("Order the glass"));
    assert!(order.contains("the silvered face of ST-PN looks into the case"));
    assert!(order.contains("order each pane 3 less than the least of it"));
}

/// The side beads stand between the others, 500 long: 450 between their outer pins, three steps of
/// 150. Those of 320 have 270 between them: two steps. Through 10 of bead and 6 into the stile it takes a pin of 20.
#[test]
fn beads_are_pinned_as_worked() {
    let order = paper(&made(&cabinet()), "assembly-order");
    let line = order.lines().find(|line| line.contains("pin them into the wall")).unwrap();
    assert!(line.contains("ST-TBD with 3, ST-BBD with 3"), "{line}");
    assert!(line.contains("ST-LBD with 4, and ST-RBD with 4, each 20 long"), "{line}");
}

/// Rails of 301 leave 616 − 602 = 14 of light. The pane is 14 + 2 × 8-1/2 = 31 high, and at its
/// left and right the side beads hold 14 of that and the ends of the others the rest.
#[test]
fn a_low_light_is_held_by_the_ends_of_beads_too() {
    let compiled = made(&cabinet().replace("rail 58;", "rail 301;"));
    let parts = compiled.parts.as_ref().unwrap();
    assert_eq!(of(parts, "cabinet.store.door.panel").sizes()[0], Length::mm(31));
    assert_eq!(of(parts, "cabinet.store.door.left-bead").length.length, Length::mm(14));
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// The working day on which a step begins, from the table of all steps: the figure before the
/// comma, after its title.
fn day(order: &str, title: &str) -> u32 {
    let line = order.lines().find(|line| line.starts_with("  [ ]") && line.contains(title));
    let (_, rest) = line.expect("a step").split_once(title).expect("its title");
    rest.trim().split(',').next().and_then(|day| day.parse().ok()).expect("a day")
}

/// The panes are ordered when their frames are made, and nobody sets what has not come: two
/// weeks lie between the two steps, and none where nothing is said of it.
#[test]
fn glass_is_waited_for() {
    let waits = |text: &str| {
        let order = paper(&made(text), "assembly-order");
        let ordered = day(&order, "Order the glass");
        (order, ordered)
    };
    let (order, ordered) = waits(&cabinet());
    assert!(order.contains("2 weeks to come"), "{order}");
    assert!(day(&order, "Set the glass in the doors") >= ordered + 14, "{order}");
    let (order, ordered) = waits(&cabinet().replace("; lead-time 2 weeks", ""));
    assert!(!order.contains("to come"), "{order}");
    assert!(day(&order, "Set the glass in the doors") < ordered + 14, "{order}");
    // The panes of the doors come the next day; only the shelves are waited for.
    let (order, ordered) = waits(&cabinet().replacen("lead-time 2 weeks", "lead-time 1 day", 1));
    assert!(day(&order, "Set the glass in the doors") < ordered + 14, "{order}");
    assert!(day(&order, "Put in the doors and shelves") >= ordered + 14, "{order}");
}
