//! The cut list as comma-separated values.

use std::borrow::Cow;

use crate::model::Piece;
use crate::parts::{Grain, Part};
use crate::plans::Workings;

use super::Source;
use super::buying_list;
use super::left_to_cut;
use super::sawn_from::SawnFrom;
use super::visible::visible;

/// One row a part. What is crosscut from a stick names the first part of it, which has
/// the rough sizes of the whole stick; the others have none. Cells that a spreadsheet
/// would take for a formula are set off with an apostrophe.
pub(super) fn cut_list(source: &Source<'_, '_>) -> String {
    let work = source.work;
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    let unit = tape.unit.name();
    let head = [
        "mark".to_owned(),
        "part".to_owned(),
        "stock".to_owned(),
        format!("length {unit}"),
        format!("width {unit}"),
        format!("thickness {unit}"),
        format!("rough length {unit}"),
        format!("rough width {unit}"),
        format!("rough thickness {unit}"),
        "grain".to_owned(),
        "exact length".to_owned(),
        "exact width".to_owned(),
        "exact thickness".to_owned(),
        "measured".to_owned(),
        "cut".to_owned(),
        "stick".to_owned(),
        "sheet: cut".to_owned(),
        "board: cut".to_owned(),
    ];
    let (sheets, boards) = (SawnFrom::sheets(work), SawnFrom::boards(work));
    let mut rows = vec![head];
    for (id, part) in parts.iter() {
        let shown = |length| tape.exact(tape.print(length).shown);
        let stick = work.sticks().of(id);
        let first = stick.and_then(|stick| stick.parts.first()).copied();
        let rough = |length| match first.is_none_or(|first| first == id) {
            true => shown(length),
            false => String::new(),
        };
        rows.push([
            part.mark.clone(),
            part.path.clone(),
            piece.stock(part.stock).map_or(String::new(), |stock| stock.name.clone()),
            shown(part.length.length),
            shown(part.width.length),
            shown(part.thickness.length),
            rough(work.sticks().rough_long(id, part)),
            rough(part.rough.width),
            rough(part.rough.thickness),
            match part.grain {
                Grain::Length => "along length".to_owned(),
                Grain::None => "none".to_owned(),
            },
            tape.exact(part.length.length),
            tape.exact(part.width.length),
            tape.exact(part.thickness.length),
            measured(piece, part),
            left_to_cut::done(work.ledger(), id),
            first.map_or(String::new(), |first| parts.mark(first).to_owned()),
            sheets.told([id].into_iter()),
            boards.told([id].into_iter()),
        ]);
    }
    written(&rows)
}

/// What to buy, one row for each.
pub(super) fn buying_list(source: &Source<'_, '_>) -> String {
    let lines = buying_list::lines(source);
    let has_lead = buying_list::has_lead(&lines);
    let lead = || has_lead.then(|| buying_list::LEAD.to_owned());
    let head = ["sort", "buy", "what", "price", "comes to"].map(str::to_owned);
    let mut rows: Vec<Vec<String>> = vec![head.into_iter().chain(lead()).collect()];
    for line in lines {
        let comes_to = line.comes_to.map_or_else(String::new, buying_list::in_hundredths);
        // A currency is whatever the spec says.
        let price = visible(&line.price).into_owned();
        let lead = has_lead.then(|| buying_list::lead_told(&line));
        let cells = [line.sort.to_owned(), line.amount, line.what, price, comes_to];
        rows.push(cells.into_iter().chain(lead).collect());
    }
    written(&rows)
}

fn written<R: AsRef<[String]>>(rows: &[R]) -> String {
    let mut writer =
        csv::WriterBuilder::new().terminator(csv::Terminator::Any(b'\n')).from_writer(Vec::new());
    for row in rows {
        // Writing into memory has no way to fail.
        for cell in row.as_ref() {
            let _ = writer.write_field(safe(cell).as_bytes());
        }
        let _ = writer.write_record(None::<&[u8]>);
    }
    writer.into_inner().ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default()
}

/// The sizes that a measured figure takes part in: `length width`.
fn measured(piece: &Piece, part: &Part) -> String {
    let sizes = [("length", &part.length), ("width", &part.width), ("thickness", &part.thickness)];
    let own = sizes.into_iter().filter(|(_, size)| piece.facts.is_measured(size));
    own.map(|(word, _)| word).collect::<Vec<_>>().join(" ")
}

fn safe(cell: &str) -> Cow<'_, str> {
    if cell.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        Cow::Owned(format!("'{cell}"))
    } else {
        Cow::Borrowed(cell)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test that can't go on stops")]
mod tests {
    use super::written;

    fn read(text: &str) -> Vec<Vec<String>> {
        let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
        let rows = reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect());
        rows.collect()
    }

    /// The names of a spec are words, so no spec can put these into a cell.
    #[test]
    fn a_cell_is_read_back_as_it_was_and_never_as_a_formula() {
        let formulas =
            ["=cmd|' /C calc'!A0", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "=1\n,\"x\"", "-"];
        for formula in formulas {
            let row = ["mark".to_owned(), formula.to_owned(), "last".to_owned()];
            assert_eq!(read(&written(&[row])), [["mark", &format!("'{formula}"), "last"]]);
        }
        for plain in ["", "a,b", "a\"b", "\"", "a\nb", "a\r\nb", " =1", "1-1/2", "'x", "é;|"] {
            let row = ["mark".to_owned(), plain.to_owned(), "last".to_owned()];
            assert_eq!(read(&written(&[row])), [["mark", plain, "last"]]);
        }
    }

    #[test]
    fn rows_stay_rows() {
        let row = |cell: &str| [cell.to_owned(), "2".to_owned()];
        let text = written(&[row("a\nb"), row("\""), row("=x")]);
        assert_eq!(read(&text), [["a\nb", "2"], ["\"", "2"], ["'=x", "2"]]);
        assert_eq!(text.matches("2\n").count(), 3, "{text}");
    }
}
