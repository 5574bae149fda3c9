//! A piece with more than one finish: what each goes on, and in which order.

use casewright::papers::{self, Format};
use casewright::pipeline::Compilation;
use casewright::plans::finish;
use serde_json::{Value, json};

use crate::bench;
use crate::support::{compile, packet, slugs, spec};

/// The first piece with an oiled frame and oiled fronts on a painted case.
fn painted() -> Compilation {
    let text = spec("first.case")
        .replacen("finish oil { hardwax-oil; coats 2; cure 24 h }", "finish oil { hardwax-oil; coats 2; cure 24 h }\nfinish gray { paint; coats 3; cure 12 h }", 1)
        .replacen("  frame {", "  frame {\n    finish oil", 1)
        .replacen("  fronts {", "  fronts {\n    finish oil", 1)
        .replacen("  finish oil\n}", "  finish gray\n}", 1);
    let compiled = compile(&text);
    assert_eq!(slugs(&compiled), slugs(&compile(&spec("first.case"))));
    compiled
}

fn order(compiled: &Compilation) -> String {
    papers::one(compiled, "assembly-order", Format::Text).expect("the assembly order")
}

/// Every finish has its own coats, on its own parts, one finish after the other, in the
/// order of the spec.
#[test]
fn each_finish_has_its_coats() {
    let order = order(&painted());
    let titles: Vec<&str> = order
        .lines()
        .filter_map(|line| line.strip_prefix(">> "))
        .filter_map(|line| line.split_once("  ").map(|(_, title)| title))
        .filter(|title| title.starts_with("Coat "))
        .collect();
    let wood = "hardwax oil, on the frame and the fronts";
    let gray = "paint, on the case, the drawer boxes, and the loose shelves";
    assert_eq!(
        titles,
        [
            format!("Coat 1 of 2: {wood}"),
            format!("Coat 2 of 2: {wood}"),
            format!("Coat 1 of 3: {gray}"),
            format!("Coat 2 of 3: {gray}"),
            format!("Coat 3 of 3: {gray}"),
        ]
    );
    assert!(order.contains("lay tape along the seam between them"), "{order}");
    // Rags with oil heat up; those with this paint are told of by what it is bound with.
    let oil = order.find("Coat 2 of 2").and_then(|at| order.get(at..)).expect("the oil");
    assert!(oil.contains("Oily rags can catch fire"), "{oil}");
    assert_eq!(bench::built(&painted()), Vec::<String>::new());
}

/// What one finish covers and what the other covers come to what one alone would.
#[test]
fn nothing_is_coated_twice_and_nothing_left_bare() {
    let whole = |compiled: &Compilation| -> f64 {
        let (piece, parts) = (compiled.piece.as_ref().unwrap(), compiled.parts.as_ref().unwrap());
        let each = finish::used(piece, parts).into_iter();
        each.map(|(id, _)| finish::surface(piece, parts, id, &[]).whole()).sum()
    };
    let (one, two) = (whole(&compile(&spec("first.case"))), whole(&painted()));
    assert!((one - two).abs() < 1e-9, "{one} {two}");
}

/// Oil is sanded for up to 180 grit, paint up to 220, and wax up to 180 as oil: of three
/// finishes in this order two grits are told, each once.
#[test]
fn no_grits_are_told_twice() {
    let oil = "finish oil { hardwax-oil; coats 2; cure 24 h }";
    let text = spec("first.case")
        .replacen(oil, &format!("{oil}\nfinish gray {{ paint; coats 3; cure 12 h }}\nfinish slick {{ wax; coats 1; cure 1 h }}"), 1)
        .replacen("  frame {", "  frame {\n    finish oil", 1)
        .replacen("  drawers {", "  drawers {\n    finish slick", 1)
        .replacen("  finish oil\n}", "  finish gray\n}", 1);
    let packet = packet(&compile(&text));
    let all = packet["operations"].as_array().unwrap().iter();
    let sanded: Vec<&Value> =
        all.filter(|own| own["kind"] == "sand").map(|own| &own["grits"]).collect();
    assert_eq!(sanded, [&json!([120, 150, 180]), &json!([120, 150, 180, 220])]);
}

/// The face veneer of a sheet is half a millimeter thin and less: 120 and 150 grit are for solid
/// wood, and a sheet is begun with 180. A piece of sheets alone has no coarser grit at all.
#[test]
fn sheets_are_begun_with_a_finer_grit() {
    let sanded = |text: &str| {
        let packet = packet(&compile(text));
        let all = packet["operations"].as_array().unwrap();
        let own = all.iter().find(|own| own["kind"] == "sand").unwrap();
        (own["grits"].clone(), own["sheets_from"].clone())
    };
    let first = spec("first.case");
    assert_eq!(sanded(&first), (json!([120, 150, 180]), json!(180)));
    assert!(order(&compile(&first)).contains("begin with 180 on sheets"));
    let sheets = "casework 1
job \"t\" { units in; tape 1/32 }
site { left open; right open; fixing wall }
stock ply { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; actual 13/64; sheet { long 96; wide 48 } }
finish oil { hardwax-oil; coats 2; cure 24 h }
case c {
  wide 30; deep 12; high 40; stock ply
  bottom { joint dado { deep 1/4 } }; back { stock thin; joint rabbet { deep 3/8 } }
  top { panel; joint dado { deep 1/4 } }; frame none
  across { open a { share 1 } }
  finish oil
}
";
    assert_eq!(sanded(sheets), (json!([180]), Value::Null));
}

/// With one finish nothing is said of what it goes on.
#[test]
fn one_finish_needs_no_masking() {
    let order = order(&compile(&spec("first.case")));
    assert!(!order.contains("lay tape along the seam"), "{order}");
    assert!(order.contains("Coat 1 of 2: hardwax oil\n"), "{order}");
}
