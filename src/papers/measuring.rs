//! An empty measuring form, in the language itself: fill it in and put it
//! into the spec.

use std::fmt::Write as _;

use crate::measure::Unit;
use crate::model::{Axis, Opening, Piece, StockId, Subject};
use crate::plans::Workings;
use crate::trade;

const HEAD: &str = "\
# Write each figure that you measure after its word, delete the other lines,
# and put the rest at the end of the spec. Measure widths and heights at both
# ends and at the middle, and write the least. Rising: from the lower left corner.
";

/// The form of a piece: every opening with a front and every sheet that have
/// not been measured yet, with the figures as drawn behind them.
#[must_use]
pub fn form(work: &Workings<'_>) -> String {
    let Workings { piece, parts, .. } = *work;
    let with = match piece.tape().unit {
        Unit::Millimetre => "0.4",
        _ => "1/64",
    };
    let mut lines: Vec<(String, String)> = vec![
        ("measured {".into(), String::new()),
        (format!("  with {with}"), "how true the tape reads".into()),
    ];
    for opening in piece.cases.iter().flat_map(|case| &case.openings) {
        let done = Subject::Opening(opening.id);
        if opening.front.is_some() && !is_measured(piece, &done) {
            of_opening(piece, opening, &mut lines);
        }
    }
    for (index, stock) in piece.stocks.iter().enumerate() {
        let id = StockId(index);
        let used = parts.all.iter().any(|part| part.stock == id);
        if stock.is_sheet() && used && !is_measured(piece, &Subject::Stock(id)) {
            let figure = piece.tape().decimal_source(stock.thickness.length);
            lines.push((format!("  stock {} {{", stock.name), String::new()));
            lines.push(("    actual".into(), format!("written {figure}")));
            lines.push(("  }".into(), String::new()));
        }
    }
    if !is_measured(piece, &Subject::Humidity) {
        lines.push(("  shop {".into(), String::new()));
        lines.push(("    humidity".into(), format!("written {}%", piece.shop.humidity.0)));
        lines.push(("  }".into(), String::new()));
    }
    lines.push(("}".into(), String::new()));
    let wide = lines.iter().map(|(line, _)| line.chars().count()).max().unwrap_or(0);
    // Room for a figure before the comment.
    let wide = wide.max(24) + 2;
    let mut text = HEAD.to_owned();
    for (line, about) in lines {
        let _ = match about.as_str() {
            "" => writeln!(text, "{line}"),
            _ => writeln!(text, "{line:<wide$}# {about}"),
        };
    }
    text
}

fn of_opening(piece: &Piece, opening: &Opening, lines: &mut Vec<(String, String)>) {
    let tape = piece.tape();
    let (wide, high) = (opening.along(Axis::Across).length, opening.along(Axis::Down).length);
    let diagonal = format!("drawn {}", tape.text(trade::diagonal(wide, high)));
    let mut line = |line: &str, about: String| lines.push((line.to_owned(), about));
    line(&format!("  opening {} {{", opening.path), String::new());
    line("    wide", format!("drawn {}", tape.text(wide)));
    line("    high", format!("drawn {}", tape.text(high)));
    line("    diagonals {", String::new());
    line("      rising", diagonal.clone());
    line("      falling", diagonal);
    line("    }", String::new());
    line("  }", String::new());
}

fn is_measured(piece: &Piece, subject: &Subject) -> bool {
    piece.readings.iter().any(|reading| reading.subject == *subject)
}
