//! The drawings.

use crate::measure::Length;

use super::Source;
use super::drawing::{exploded, section, view};
use super::page::{Block, Table, Ticks, left, right};
use super::words;

pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let (piece, parts, figures) = (source.work.piece, source.work.parts, &source.figures);
    let whole = view::extent(parts);
    let mut blocks = vec![
        Block::Heading("Front elevation".into()),
        Block::Drawing {
            svg: view::elevation(piece, parts, figures, &whole),
            caption: "everything is closed; the marks are those of the cut list".into(),
            small: false,
        },
    ];
    let mut level = piece.cases.len() + 1;
    for (number, case) in piece.cases.iter().enumerate() {
        let x = case.x + section_at(case);
        blocks.push(Block::Heading(format!("Section through {}", case.name)));
        blocks.push(Block::Drawing {
            svg: section::section(piece, parts, figures, &whole, x, number + 1),
            caption: format!(
                "section at {} from the left side of the piece, seen from the left, with the front on the right; heights count from the floor, to the underside and the upper face of a board",
                figures.text(x)
            ),
            small: false,
        });
        for own in section::levels(case, number, parts, figures, &whole, level) {
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
    blocks.push(Block::Heading("Exploded view".into()));
    blocks.push(Block::Drawing {
        svg: exploded::exploded(parts, &whole),
        caption: "seen from the front, the right, and above".into(),
        small: false,
    });
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

/// Through the first opening, a little off its middle, so that the cut does not
/// run along the meeting of two doors.
fn section_at(case: &crate::model::Case) -> Length {
    let leaf = case.openings.iter().find(|opening| opening.is_leaf());
    leaf.map_or(case.wide.length.half(), |opening| opening.x + opening.wide.length * 2 / 5)
}
