//! The drawings.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::model::{Axis, Case, Opening, Piece};
use crate::parts::{Part, Role, Which};
use crate::plans::fitting::pins;

use super::Source;
use super::cut_list;
use super::drawing::kinds::{self, Kind};
use super::drawing::view::Doors;
use super::drawing::{exploded, section, view};
use super::page::{Block, Table, Ticks, left, right};
use super::words;

pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let (piece, figures) = (source.work.piece, &source.figures);
    let parts = &*pins::on_pins(source.work.pin_rows(), source.work.parts);
    let whole = view::extent(parts);
    let mut blocks = vec![
        Block::Heading("Front elevation".into()),
        Block::Drawing {
            svg: view::elevation(piece, parts, figures, &whole, Doors::Closed),
            caption: match piece.stands_apart() {
                true => "everything is closed; the marks are those of the cut list; each piece stands by itself, and the space between them is only drawn",
                false => "everything is closed; the marks are those of the cut list",
            }
            .into(),
            small: false,
        },
    ];
    if piece.cases.iter().flat_map(|case| &case.openings).any(|door| door.behind.is_some()) {
        blocks.push(Block::Heading("Front elevation with the doors open".into()));
        blocks.push(Block::Drawing {
            svg: view::elevation(piece, parts, figures, &whole, Doors::Open),
            caption: "the doors are left out; the sizes are those of the spaces behind them".into(),
            small: false,
        });
    }
    blocks.extend(not_drawn(source));
    let mut level = piece.cases.len() + 1;
    for (number, case) in piece.cases.iter().enumerate() {
        let x = case.x + section_at(case);
        let (first, of) = match piece.stands_apart() {
            true => (case.x, case.name.as_str()),
            false => (Length::ZERO, "the piece"),
        };
        blocks.push(Block::Heading(format!("Section through {}", case.name)));
        blocks.push(Block::Drawing {
            svg: section::section(piece, parts, figures, &whole, (case, x), number + 1),
            caption: format!(
                "section at {} from the left side of {}, seen from the left, with the front on the right; heights count from the floor, to the underside and the upper face of a board",
                figures.text(x - first),
                of
            ),
            small: false,
        });
        for own in section::levels((piece, parts), case, number, figures, &whole, level) {
            level += 1;
            blocks.push(Block::Heading(format!("Level section through {}", own.name)));
            blocks.push(Block::Drawing {
                svg: own.svg,
                caption: format!(
                    "section at {} over the floor, seen from above, with the front below",
                    figures.text(own.y)
                ),
                small: false,
            });
        }
    }
    for case in &piece.cases {
        exploded_case(source, case, &mut blocks);
    }
    for kind in kinds::kinds(parts) {
        exploded_kind(piece, &kind, &mut blocks);
    }
    let mut table = Table {
        columns: vec![
            left("mark").strong(),
            left("part"),
            right("length"),
            right("width"),
            right("thick"),
        ],
        ticks: Ticks::None,
        ..Table::default()
    };
    let mut rows: Vec<_> = parts.all.iter().collect();
    rows.sort_by(|a, b| a.mark.cmp(&b.mark));
    for part in rows {
        table.rows.push(vec![
            part.mark.clone(),
            words::name(part, source.work.piece),
            figures.text(part.length.length),
            figures.text(part.width.length),
            figures.text(part.thickness.length),
        ]);
    }
    blocks.push(Block::Heading("Parts list".into()));
    blocks.push(Block::Table(table));
    blocks
}

/// The sizes of openings, and of what is between them, that stand in no elevation: the heights
/// in one case, and of one column of it, stand at its side.
fn not_drawn(source: &Source<'_, '_>) -> Option<Block> {
    let piece = source.work.piece;
    let at_side = view::at_side(piece);
    let is_drawn = |case: &Case, list: &Opening| {
        let at_side = at_side.is_some_and(|(last, upper)| {
            last.id == case.id || upper.is_some_and(|own| own.id == case.id)
        });
        [Axis::Across, Axis::Down]
            .into_iter()
            .filter(|axis| *axis == Axis::Across || at_side)
            .any(|axis| view::drawn(case, axis, Doors::Open).iter().any(|own| own.id == list.id))
    };
    let sums = cut_list::sums(source, |case, list| !is_drawn(case, list));
    let rows: Vec<Vec<String>> = sums.into_iter().map(|sum| vec![sum]).collect();
    (!rows.is_empty()).then(|| {
        Block::Table(Table {
            columns: vec![left("what the other openings and the boards between them come to")],
            rows,
            ticks: Ticks::None,
            foot: "from the top down, or from left to right".into(),
            ..Table::default()
        })
    })
}

/// How an exploded view is seen.
const SEEN: &str = "seen from the front, the right, and above";

/// A case exploded, and what belongs in front of it.
fn exploded_case(source: &Source<'_, '_>, case: &Case, blocks: &mut Vec<Block>) {
    let own = source.work.parts.of_case(case.id);
    let webs = exploded::webs(own);
    if let Some(svg) = exploded::case(own) {
        blocks.push(Block::Heading(format!("Exploded view of {}", case.name)));
        let without = if webs.is_some() { ", without its web frames" } else { "" };
        let caption = format!("the boards of the case{without}, {SEEN}");
        blocks.push(Block::Drawing { svg, caption, small: false });
    }
    if let Some(svg) = webs {
        blocks.push(Block::Heading(format!("Exploded view of the web frames of {}", case.name)));
        let caption = format!("from the uppermost down, {SEEN}");
        blocks.push(Block::Drawing { svg, caption, small: false });
    }
    let Some(svg) = exploded::before(source.work.piece, own) else { return };
    let has = |role: Role| own.iter().any(|part| part.role == role);
    let (boxes, paneled) = (has(Role::DrawerSide), has(Role::FrontPanel));
    let shown = [
        (has(Role::Slab) || paneled, "the fronts"),
        (has(Role::Stile), "the face frame"),
        (boxes, "the drawer boxes"),
    ];
    let whole = [(boxes, "each drawer box"), (paneled, "each paneled front")];
    let named = |all: &[(bool, &'static str)]| {
        let there: Vec<_> = all.iter().filter(|(there, _)| *there).map(|(_, name)| *name).collect();
        listed(&there)
    };
    let whole = match named(&whole) {
        none if none.is_empty() => none,
        some => format!("; {some} is in one piece here and has a drawing of its own"),
    };
    blocks.push(Block::Heading(format!("Exploded view of the front of {}", case.name)));
    let caption = format!("{}, {SEEN}{whole}", named(&shown));
    blocks.push(Block::Drawing { svg, caption, small: false });
}

/// The first drawer box or paneled door of a kind exploded, and the marks of the others.
fn exploded_kind(piece: &Piece, kind: &Kind<'_>, blocks: &mut Vec<Block>) {
    let names: Vec<String> = kind
        .each
        .iter()
        .filter_map(|own| own.first())
        .map(|part| kinds::name(piece, part))
        .collect();
    let Some((first, svg)) = names.first().zip(exploded::kind(kind)) else { return };
    blocks.push(Block::Heading(format!("Exploded view of the {first}")));
    let is_alone = names.len() == 1;
    let caption = match is_alone {
        true => SEEN.to_owned(),
        false => {
            let sizes = match kind.is_of_one_size() {
                true => "",
                false => ", each to its own size",
            };
            let mirrored = match kind.is_mirrored() {
                true => {
                    "; those hung on the other side are mirror images, with their cups and pull holes where the cut list puts them"
                }
                false => "",
            };
            let alike = format!("built alike{sizes}{mirrored}");
            format!("{SEEN}, with the marks of the {first}; {} are {alike}", listed(&names))
        }
    };
    blocks.push(Block::Drawing { svg, caption, small: true });
    if !is_alone {
        blocks.push(Block::Table(alike_parts(kind)));
    }
}

/// The marks of assemblies that are built alike, part by part.
fn alike_parts(kind: &Kind<'_>) -> Table {
    let first = kind.each.first().into_iter().flatten();
    let marks = |part: &Part| -> Vec<&str> {
        let own = kind.each.iter().filter_map(|own| kinds::counterpart(part, own));
        own.map(|part| part.mark.as_str()).collect()
    };
    let mirrored = kind.is_mirrored();
    let word = |part: &Part| match (mirrored, part.role, part.hung, part.which) {
        (true, Role::FrontStile, Some(hung), Which::At(side)) if hung == side => {
            "hinge stile".to_owned()
        }
        (true, Role::FrontStile, Some(_), Which::At(_)) => "latch stile".to_owned(),
        _ => part.word().replace('-', " "),
    };
    Table {
        columns: vec![left("part"), left("marks").strong()],
        rows: first.map(|part| vec![word(part), marks(part).join(", ")]).collect(),
        ticks: Ticks::None,
        ..Table::default()
    }
}

/// Through the first opening, a little off its middle, so that the cut does not
/// run along the meeting of two doors.
fn section_at(case: &crate::model::Case) -> Length {
    let leaf = case.openings.iter().find(|opening| opening.is_leaf());
    leaf.map_or(case.wide.length.half(), |opening| opening.x + opening.wide.length * 2 / 5)
}
