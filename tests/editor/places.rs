//! What lies where on the elevation.

use casewright::papers::{self, Place, PlaceOf};
use casewright::pipeline::Compilation;

use crate::support::{compile, spec};

/// What lies where on the front of a piece.
fn on_front(compiled: &Compilation) -> Vec<Place> {
    papers::front(compiled).map_or_else(Vec::new, |own| own.places)
}

/// Inches in the millimeters of a drawing.
fn inches(all: [f64; 4]) -> [f64; 4] {
    all.map(|figure| figure * 25.4)
}

fn area(place: &Place) -> [f64; 4] {
    [place.from.0, place.from.1, place.to.0, place.to.1]
}

fn is_near(one: [f64; 4], other: [f64; 4]) -> bool {
    one.iter().zip(other).all(|(a, b)| (a - b).abs() < 1e-6)
}

fn named<'a>(places: &'a [Place], name: &str) -> &'a Place {
    places.iter().find(|place| place.name == name).unwrap_or_else(|| panic!("no {name}"))
}

/// What is seen at a point: the last that has it.
fn at(places: &[Place], (x, y): (f64, f64)) -> Option<&Place> {
    let has = |place: &&Place| {
        (place.from.0..=place.to.0).contains(&x) && (place.from.1..=place.to.1).contains(&y)
    };
    places.iter().rfind(has)
}

/// A cupboard 36 wide and 34-1/2 high. Its doors stand between stiles of 1-3/4:
/// from 1-3/4 to 36 − 1-3/4 = 34-1/4. From the top go off 1-1/2 + 5 + 1-1/2 = 8,
/// from below 4 + 1-1/2, so that they end 34-1/2 − 5-1/2 = 29 below the top.
#[test]
fn an_opening_lies_where_it_is_drawn() {
    let compiled = compile(&spec("first.case"));
    let places = on_front(&compiled);
    let store = named(&places, "cupboard.store");
    assert_eq!(store.of, PlaceOf::Opening);
    assert!(is_near(area(store), inches([1.75, 8.0, 34.25, 29.0])), "{store:?}");
    assert!(compiled.sources.text(store.span).starts_with("doors store"));
    let stile = named(&places, "cupboard.left-stile");
    assert_eq!(stile.of, PlaceOf::Part { mark: "LS".to_owned() });
    assert!(is_near(area(stile), inches([0.0, 0.0, 1.75, 30.5])), "{stile:?}");
    assert!(compiled.sources.text(stile.span).starts_with("stile left"));
}

/// Inset doors with gaps of 3/32 in cover their opening, and the gap shows it.
#[test]
fn what_is_nearer_covers_what_is_behind() {
    let compiled = compile(&spec("first.case"));
    let places = on_front(&compiled);
    let seen = |x: f64, y: f64| at(&places, (x * 25.4, y * 25.4)).map(|own| own.name.as_str());
    assert_eq!(seen(10.0, 20.0), Some("cupboard.store.left-door"));
    assert_eq!(seen(26.0, 20.0), Some("cupboard.store.right-door"));
    assert_eq!(seen(1.75 + 3.0 / 64.0, 20.0), Some("cupboard.store"));
    assert_eq!(seen(18.0, 33.0), Some("cupboard.kick"));
    assert_eq!(seen(-5.0, 20.0), None);
}

/// Between the shelves of a niche its back is seen, but the opening is meant.
#[test]
fn a_niche_is_meant_and_not_the_back_of_its_case() {
    let compiled = compile(&spec("alcove-shelves.case"));
    let places = on_front(&compiled);
    let niche = named(&places, "left-books.books");
    let back = named(&places, "left-books.back");
    assert!(back.from.0 < niche.to.0 && niche.from.0 < back.to.0, "{back:?}");
    let middle = (niche.from.0 + niche.to.0) / 2.0;
    let names: Vec<&str> = (0..400)
        .map(|step| niche.from.1 + (niche.to.1 - niche.from.1) * f64::from(step) / 400.0)
        .filter_map(|y| at(&places, (middle, y)))
        .map(|own| own.name.as_str())
        .collect();
    assert!(names.contains(&niche.name.as_str()));
    assert!(names.iter().any(|name| name.contains("shelf")), "{names:?}");
    assert!(!names.iter().any(|name| name.ends_with("back")), "{names:?}");
}

/// Each part lies where the drawing has a box of it.
#[test]
fn every_place_of_a_part_is_drawn() {
    for name in ["first.case", "hall-console.case", "fern-bank-stand.case"] {
        let compiled = compile(&spec(name));
        let drawing = papers::elevation(&compiled).unwrap();
        let number = |value: f64| {
            let text = format!("{:.1}", (value * 10.0).round_ties_even() / 10.0);
            text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
        };
        for place in on_front(&compiled) {
            if place.of == PlaceOf::Opening {
                continue;
            }
            let [left, top, right, bottom] = area(&place).map(number);
            let corners = [(&left, &top), (&right, &top), (&right, &bottom), (&left, &bottom)];
            let found = corners.iter().all(|(x, y)| drawing.contains(&format!("{x} {y}")));
            assert!(found, "{} at {left} {top} {right} {bottom}", place.name);
        }
    }
}

/// A piece with errors has places for what stands, and a text without a piece none.
#[test]
fn what_stands_has_places() {
    let text = spec("first.case").replace("share 1; shelf", "high 23; shelf");
    let compiled = compile(&text);
    assert!(compiled.piece.is_none());
    let places = on_front(&compiled);
    assert!(places.iter().any(|own| own.name == "cupboard.upper"));
    assert!(places.iter().any(|own| own.name == "cupboard.left-stile"));
    assert!(on_front(&compile("casework 1\n")).is_empty());
}
