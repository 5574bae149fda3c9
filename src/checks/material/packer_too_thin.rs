//! A packer that would have to be planed out of a sheet.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{DrawerBoxes, Piece, Stock};
use crate::parts::{Part, Role};
use crate::plans::Workings;
use crate::plans::assembly::gluing;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "packer-too-thin",
    severity: Severity::Error,
    finds: "A packer beside a drawer slide is cut from a sheet, or laminated from layers of it, and comes out thicker than the packer has to be.",
    why: "A sheet keeps the thickness that it was bought with. Planed down, it loses its outer plies and goes hollow, and left as it is, it stands past the edge of the opening and the drawer is too wide for its slides.",
    source: "Plane geometry. That a single sheet is not planed is common practice; no published source.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::Console,
        sound: "groove { up 13 mm; deep 5/16 }",
        wrong: "groove { up 13 mm; deep 5/16 }; packer-stock birch-ply",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// A packer of sheet, and by how much the sheet is thicker.
struct Thin<'a> {
    part: &'a Part,
    boxes: &'a DrawerBoxes,
    sheet: &'a Stock,
    layers: i64,
    over: Length,
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    for case in &piece.cases {
        let Some(boxes) = &case.drawers else { continue };
        let Some(sheet) = piece.stock(boxes.packer_stock).filter(|own| !own.is_solid()) else {
            continue;
        };
        let packers = parts
            .of_case(case.id)
            .iter()
            .filter(|part| part.role == Role::Packer || part.role.is_of_runs());
        for part in packers {
            let layers = gluing::layers(piece, part);
            let over = sheet.thickness.length * layers - part.thickness.length;
            // As far as a layer may be off its nominal thickness anyway.
            if over > trade::mating() {
                sink.push(finding(piece, &Thin { part, boxes, sheet, layers, over }));
            }
        }
    }
}

fn finding(piece: &Piece, thin: &Thin<'_>) -> Diagnostic {
    let Thin { part, boxes, sheet, layers, over } = *thin;
    let tape = piece.tape();
    let own = sheet.thickness.length * layers;
    let (what, whole) = match layers {
        1 => ("the sheet is".to_owned(), "sheet".to_owned()),
        _ => (format!("{layers} layers of the sheet are"), format!("{layers} layers")),
    };
    let thick = part.thickness.length;
    let noun = if part.role.is_of_runs() { "strip" } else { "packer" };
    let written = boxes.packer_stock_at.span();
    let at = if written.start == written.end { boxes.span } else { written };
    let mut found = RULE
        .finding(
            format!(
                "{} can't be cut from {}, because {what} thicker than the {noun}",
                part.path, sheet.name
            ),
            at,
            format!("{} is {} thick", sheet.name, tape.text(sheet.thickness.length)),
        )
        .sum(
            Sum::new("too thick by", tape.print(own).shown - tape.print(thick).shown, tape)
                .plus(tape.print(own).shown, whole, tape)
                .minus(tape.print(thick).shown, noun, tape),
        )
        .because("a sheet can't be planed, and as it is it stands past the edge of the opening")
        .subject(&part.path)
        .urgency(over / Length::mm(1));
    if let Some(opening) = part.opening().and_then(|id| piece.opening(id)) {
        let room = match part.role.is_of_runs() {
            true => format!("this strip of its drawer is {} thick", tape.text(thick)),
            false => format!("its packer has {} to the edge of this opening", tape.text(thick)),
        };
        found = found.label(opening.span, room);
    }
    match solid(piece, boxes, thick) {
        Some(wood) => found.fix(boxes.packer_stock_at.says(
            &format!("packer-stock {}", wood.name),
            format!("plane the {noun}s from {}", wood.name),
        )),
        None => found.note("name a `packer-stock` of lumber, which can be planed to thickness"),
    }
}

/// The lumber to plane such a packer from: the thinnest that is thick enough in
/// one layer; else that of the boxes.
fn solid<'a>(piece: &'a Piece, boxes: &DrawerBoxes, thick: Length) -> Option<&'a Stock> {
    let enough = |stock: &&Stock| stock.is_solid() && stock.thickness.length >= thick;
    let thinnest = piece.stocks.iter().filter(enough).min_by_key(|own| own.thickness.length);
    thinnest.or_else(|| piece.stock(boxes.stock).filter(|own| own.is_solid()))
}
