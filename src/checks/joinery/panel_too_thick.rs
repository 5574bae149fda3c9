//! A panel too thick for the groove that holds it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::{Length, Span};
use crate::model::{Build, Case, Member, Piece, Stock, StockId};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "panel-too-thick",
    severity: Severity::Error,
    finds: "A panel is so thick that its groove leaves less than 1/8 in (3 mm) of the stile on either side. Or a dust panel leaves less than that of the rails in its web frame, or a panel between posts leaves less of the rails in its end.",
    why: "The groove takes up the whole edge. Its walls break off, and nothing is left to hold the rail's tongue.",
    source: "Common practice; no published source.",
    formula: "Half of what is left when the panel's thickness is taken from the stile's.",
    accept: "",
    example: Example {
        base: Base::Press,
        sound: "panel-stock ash-thin; groove 10; float 2",
        wrong: "panel-stock ash; groove 10; float 2",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let least = trade::least_wall(tape.unit);
    for opening in piece.cases.iter().flat_map(|case| &case.openings) {
        let Some(fronts) = &opening.front else { continue };
        let Build::Panel(build) = &fronts.build else { continue };
        let (Some(stile), Some(panel)) =
            (piece.stock(fronts.stock), piece.stock(build.panel_stock))
        else {
            continue;
        };
        let thick = stile.thickness.length;
        let groove = build.groove_wide(panel.thickness.clone()).length;
        let wall = (thick - groove).half();
        if wall >= least {
            continue;
        }
        if let Some(glazed) = &build.glazed {
            let left = tape.figure(wall.max(Length::ZERO));
            let title =
                format!("the grooves of {} leave {left} of the stile on each side", opening.path);
            let widest = tape.down(thick - least.twice());
            let at = &glazed.groove_wide_at;
            let mut found = RULE
                .finding(title, build.span, "for glass")
                .label(stile.thickness_span, format!("stiles {} thick", tape.figure(thick)))
                .sum(
                    Sum::new("both walls", thick - groove, tape)
                        .plus(thick, "stile", tape)
                        .minus(groove, "groove", tape),
                )
                .subject(&opening.path);
            if widest.is_positive() {
                let figure = tape.source(widest);
                found = found.fix(
                    at.says(&format!("groove-wide {figure}"), format!("cut them {figure} wide")),
                );
            }
            sink.push(found);
            continue;
        }
        sink.push(
            RULE.finding(format!(
                    "the panel of {} leaves {} of the stile on each side of its groove",
                    opening.path,
                    tape.figure(wall.max(Length::ZERO))
                ),
                build.span,
                "this panel",
            )
            .label(stile.thickness_span, format!("stiles {} thick", tape.figure(thick)))
            .label(panel.thickness_span, format!("panel {} thick", tape.figure(groove)))
            .sum(
                Sum::new("both walls", thick - groove, tape)
                    .plus(thick, "stile", tape)
                    .minus(groove, "panel", tape),
            )
            .note("use a thinner panel or thicker stiles; a panel with a thinned edge is not supported yet")
            .subject(&opening.path),
        );
    }
    for member in piece.cases.iter().flat_map(|case| &case.members) {
        sink.extend(dust_panel(piece, member));
    }
    sink.extend(piece.cases.iter().filter_map(|case| end_panels(piece, case)));
}

/// The panels between the posts of a case.
fn end_panels(piece: &Piece, case: &Case) -> Option<Diagnostic> {
    let build = &case.posts.as_ref()?.ends;
    let rail = case.ends.iter().find_map(|end| piece.stock(end.stock))?;
    let panels = format!("the panels in the ends of {}", case.path);
    let found = in_rails(piece, (rail, build.panel_stock), (&panels, build.span, "these panels"))?;
    let note =
        "use thinner panels or thicker rails; a panel with a thinned edge is not supported yet";
    Some(found.note(note).subject(&case.path))
}

/// The panels of a web frame.
fn dust_panel(piece: &Piece, member: &Member) -> Option<Diagnostic> {
    let board = member.lying_board()?;
    let web = board.web.as_deref()?;
    let rail = piece.stock(board.stock)?;
    let panels = format!("the dust panels of {}", member.path);
    let found = in_rails(piece, (rail, web.panel?), (&panels, web.span, "this frame"))?;
    Some(found.note("use thinner panels or thicker rails").subject(&member.path))
}

/// Panels in the grooves of rails; `None` where these have walls enough.
fn in_rails(
    piece: &Piece,
    (rail, panel): (&Stock, StockId),
    (panels, span, label): (&str, Span, &str),
) -> Option<Diagnostic> {
    let (tape, panel) = (piece.tape(), piece.stock(panel)?);
    let (thick, groove) = (rail.thickness.length, panel.thickness.length);
    let wall = (thick - groove).half();
    if wall >= trade::least_wall(tape.unit) {
        return None;
    }
    let left = tape.figure(wall.max(Length::ZERO));
    let title = format!("{panels} leave {left} of the rails on each side of their groove");
    let found = RULE
        .finding(title, span, label)
        .label(rail.thickness_span, format!("rails {} thick", tape.figure(thick)))
        .label(panel.thickness_span, format!("panels {} thick", tape.figure(groove)))
        .sum(
            Sum::new("both walls", thick - groove, tape)
                .plus(thick, "rail", tape)
                .minus(groove, "panel", tape),
        );
    Some(found)
}
