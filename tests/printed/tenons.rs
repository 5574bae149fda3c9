//! Tenons on the cut list are as wide as the packet leaves them.

use serde_json::Value;

use super::reading::{Figure, line};
use super::{all, exact};

/// Along the width of its part, from where to where a cut goes.
fn across(cut: &Value) -> (f64, f64) {
    (exact(&cut["from"][1]), exact(&cut["to"][1]))
}

/// What is left of the width of a tenon when the grooves in the edges of its part and its
/// haunch are cut: the grooves that run through its thickness.
fn left(part: &Value, tenon: &Value) -> f64 {
    let (low, high) = across(tenon);
    let thick = |cut: &Value| (exact(&cut["from"][2]), exact(&cut["to"][2]));
    let own = thick(tenon);
    let gone: f64 = part["features"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|cut| match cut["kind"].as_str().unwrap() {
            "groove" => {
                let (near, far) = thick(cut);
                near <= own.0 + 1e-9 && own.1 <= far + 1e-9
            }
            "haunch" => cut["face"] == tenon["face"],
            _ => false,
        })
        .map(|cut| {
            let (from, to) = across(cut);
            (high.min(to) - low.max(from)).max(0.0)
        })
        .sum();
    high - low - gone
}

/// A maker saws a tenon as wide as its row says, and sets it in so far: it is what the
/// finished piece has, and where two edges are told, the three come to the width of the
/// part.
#[test]
fn tenons_are_as_wide_as_their_rows_say() {
    let (mut wide, mut set_in) = (0, 0);
    for shown in all() {
        for part in shown.packet["drawn"]["parts"].as_array().unwrap() {
            let tenons = part["features"].as_array().unwrap().iter();
            let tenons: Vec<&Value> = tenons.filter(|own| own["kind"] == "tenon").collect();
            if tenons.is_empty() {
                continue;
            }
            let mark = part["mark"].as_str().unwrap();
            let row = shown.papers["cut-list"]
                .lines()
                .find(|row| row.trim_start().starts_with(&format!("[ ] {mark} ")))
                .unwrap_or_else(|| panic!("{}: no row of {mark}", shown.name));
            for told in row.split("tenon ").skip(1) {
                let told = told.split(';').next().unwrap();
                let figures = line(told, shown.inches).figures;
                // How long it is stands first.
                let figure: &Figure = &figures[1];
                let slack = if figure.text.ends_with('~') { shown.mark / 2.0 } else { 0.0 } + 1e-6;
                let is_it = |tenon: &&&Value| (left(part, tenon) - figure.value).abs() <= slack;
                assert!(
                    tenons.iter().any(|tenon| is_it(&tenon)),
                    "{}: {mark} has a tenon {} wide, and {:?} are left",
                    shown.name,
                    figure.text,
                    tenons.iter().map(|tenon| left(part, tenon)).collect::<Vec<_>>()
                );
                wide += 1;
                for told in told.split("set in ").skip(1) {
                    let from = &line(told, shown.inches).figures[0];
                    let slack = if from.text.ends_with('~') { shown.mark / 2.0 } else { 0.0 };
                    let broad = exact(&part["size"][1]);
                    let edges = tenons.iter().map(|tenon| across(tenon));
                    let mut edges = edges.flat_map(|(low, high)| [low, broad - high]);
                    assert!(
                        edges.any(|own| (own - from.value).abs() <= slack + 1e-6),
                        "{}: {mark} is set in {}",
                        shown.name,
                        from.text
                    );
                    set_in += 1;
                }
            }
        }
    }
    assert!(wide > 50 && set_in > 8, "{wide} and {set_in}");
}
