//! Drawers on wood: the strips and stops of each, how its box is fitted, and what to
//! try.

use crate::diagnostics::listed;
use crate::parts::Part;
use crate::plans::fitting::{OnWood, Unstopped, is_between_posts};

use super::super::Source;
use super::super::page::{Block, Table, left, right};

pub(super) fn blocks(source: &Source<'_, '_>, all: &[OnWood<'_>], blocks: &mut Vec<Block>) {
    if all.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Drawers on wood".into()));
    blocks.push(Block::Note(explained(source, all)));
    blocks.push(Block::Table(runs(source, all)));
    blocks.push(Block::Proof(tried(all)));
    stops(source, all, blocks);
}

fn has(all: &[OnWood<'_>], count: fn(&OnWood<'_>) -> usize) -> bool {
    all.iter().any(|own| count(own) > 0)
}

/// How the strips lie.
fn explained(source: &Source<'_, '_>, all: &[OnWood<'_>]) -> String {
    let mut told = vec![
        "Each box runs on the board that is named, and is narrower and lower than its opening by these figures. Where an opening came out different from the drawing, take them from what you measured.".to_owned(),
    ];
    if let Some(open) = all.iter().find_map(|own| own.open) {
        told.push(format!(
            "Guides go beside the opening, flush with its edges at the front, and {} farther apart at their rear ends than at the front, so that the drawer never wedges.",
            source.figures.text(open)
        ));
    }
    if has(all, |own| own.kickers.len()) {
        told.push("Kickers go over the opening, flush with its upper edge, one over each side of the box, its outer edge in line with the side of the opening: they keep the drawer from dropping at the front when it is pulled out.".to_owned());
    }
    if has(all, |own| own.runners.len()) {
        told.push("Runners go under the opening, one under each side of the box. Their upper faces are level with the lower edge of the opening, or a hair above it, never below.".to_owned());
    }
    if has(all, |own| own.guides.len() + own.kickers.len() + own.runners.len()) {
        let piece = source.work.piece;
        let guides = all.iter().flat_map(|own| &own.guides);
        let posted = guides.filter(|guide| is_between_posts(piece, guide)).count() > 0;
        told.push(match posted {
            true => "The front end of a guide beside a post is against the back of the post, and its inner face is in line with that of the post; the front end of any other strip is against the back of the frame.".to_owned(),
            false => "The front end of each strip is against the back of the frame, or flush with the front edge of a case without one.".to_owned(),
        });
        if all.iter().any(|own| own.behind_doors.is_some()) {
            told.push("Behind doors the strips begin with the face of the drawer's own front, which stands behind that of the frame, or behind the front edge of a case without one, by the figure for the front end; the guides stand past the edges of the opening by theirs, so that the drawer passes the open doors, and kickers and runners are in line with the guides.".to_owned());
        }
    }
    told.join(" ")
}

fn runs(source: &Source<'_, '_>, all: &[OnWood<'_>]) -> Table {
    let (figures, facts) = (&source.figures, &source.work.piece.facts);
    // One nailer may stand behind several drawers.
    let mut behind: Vec<(&str, Vec<&str>)> = Vec::new();
    for own in all {
        let Some(nailer) = own.nailer else { continue };
        match behind.iter_mut().find(|(mark, _)| *mark == nailer.mark) {
            Some((_, drawers)) => drawers.push(own.opening.title()),
            None => behind.push((&nailer.mark, vec![own.opening.title()])),
        }
    }
    let nailed: Vec<String> =
        behind.iter().map(|(mark, drawers)| format!("{mark} behind {}", listed(drawers))).collect();
    let to = match nailed.is_empty() {
        true => String::new(),
        false => format!(", or to the nailer that stands there: {}", nailed.join(", ")),
    };
    let mut table = Table {
        columns: vec![
            left("drawer").strong(),
            left("runs on"),
            left("beside").strong(),
            left("over").strong(),
            right("narrower").strong(),
            right("lower").strong(),
            right("clear behind"),
        ],
        foot: format!(
            "narrower and lower than the opening, and from the box to the inside of the back{to}"
        ),
        ..Table::default()
    };
    let inner = all.iter().any(|own| own.behind_doors.is_some());
    if inner {
        table.columns.push(right("front end").strong());
        table.columns.push(right("past the edges").strong());
    }
    for own in all {
        let [narrower, lower] = own.less.each_ref().map(|less| figures.size(less, facts));
        let lower = match own.opening.box_high() {
            Some(high) => format!("{lower} (box {} high)", figures.size(high, facts)),
            None => lower,
        };
        let mut row = vec![
            own.opening.title().to_owned(),
            marks(&own.on),
            marks(&own.guides),
            marks(&own.kickers),
            narrower,
            lower,
            figures.size(&own.behind, facts),
        ];
        if inner {
            let own = own.behind_doors.as_ref();
            row.push(own.map_or(String::new(), |own| figures.size(&own.back, facts)));
            row.push(own.map_or(String::new(), |own| {
                let [left, right] = own.past.each_ref().map(|past| figures.size(past, facts));
                if left == right { left } else { format!("{left} left, {right} right") }
            }));
        }
        table.rows.push(row);
    }
    table
}

fn marks(parts: &[&Part]) -> String {
    let marks: Vec<&str> = parts.iter().map(|part| part.mark.as_str()).collect();
    match marks.is_empty() {
        true => "none".to_owned(),
        false => marks.join(", "),
    }
}

fn tried(all: &[OnWood<'_>]) -> Vec<String> {
    let mut tried = Vec::new();
    if has(all, |own| own.guides.len()) {
        let past = match all.iter().any(|own| own.behind_doors.is_some()) {
            true => ", or past them by its figure",
            false => "",
        };
        tried.push(format!("the guides of a drawer are straight and plumb, and flush with the edges of its opening at the front{past}"));
    }
    tried.push("the box slides in and out with one hand, straight, without a rattle, and without rubbing at the top".to_owned());
    tried.push("where it rubs, plane the box and not the case; rub the running edges with wax, and put no finish on them".to_owned());
    tried
}

/// The drawers without stops for such a reason.
fn unstopped<'o>(all: &[OnWood<'o>], is_it: fn(Unstopped) -> bool) -> Vec<&'o str> {
    let own = all.iter().filter(|own| own.unstopped.is_some_and(is_it));
    own.map(|own| own.opening.title()).collect()
}

fn stops(source: &Source<'_, '_>, all: &[OnWood<'_>], blocks: &mut Vec<Block>) {
    let (figures, facts) = (&source.figures, &source.work.piece.facts);
    let mut table = Table {
        columns: vec![
            left("drawer").strong(),
            left("stops").strong(),
            left("on").strong(),
            right("front end").strong(),
            right("aside").strong(),
        ],
        foot: "the front end counts from the face of the frame, or the front edge of a case without one; aside counts from each edge of the opening to the middle of the stop on that side".to_owned(),
        ..Table::default()
    };
    for own in all {
        let Some(stopped) = &own.stopped else { continue };
        table.rows.push(vec![
            own.opening.title().to_owned(),
            marks(&own.stops),
            marks(&own.stops_on),
            figures.size(&stopped.back, facts),
            figures.size(&stopped.aside, facts),
        ]);
    }
    let under = unstopped(all, |why| matches!(why, Unstopped::Under));
    if !under.is_empty() {
        blocks.push(Block::Note(format!(
            "Under the bottom of {} there is no room for stops: raise its groove, or glue a block behind the box to the board that it runs on.",
            listed(&under)
        )));
    }
    let narrow = unstopped(all, |why| matches!(why, Unstopped::Narrow(_)));
    let reach = all.iter().filter_map(|own| match own.unstopped? {
        Unstopped::Narrow(reach) => Some(reach),
        Unstopped::Under => None,
    });
    if let Some(reach) = reach.max() {
        blocks.push(Block::Note(format!(
            "What {} {} on ends at the front before a stop has room on it: a board, or the front rail of a web frame, {} wide gives it that. Else glue a block behind the box to what it runs on.",
            listed(&narrow),
            if narrow.len() == 1 { "runs" } else { "run" },
            figures.text(reach)
        )));
    }
    if table.rows.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Drawer stops".into()));
    blocks.push(Block::Note("A stop stands behind the front of the box and under its bottom, with its grain along the drawer. The figure for its front end is the front and the front of the box together; set the gauge by the wood itself, which may differ.".into()));
    blocks.push(Block::Table(table));
    blocks.push(Block::Proof(vec![
        "the front of the box meets both stops at once".into(),
        "the front closes flush with the face that it lies in, or behind doors as far back as its figure for the front end says; where it stays proud, pare the front ends of the stops, and where it goes in too far, glue a shaving onto them".into(),
    ]));
}
