//! Drawer slides: their heights and set-backs, what carries them, the jig to
//! mark them by, and what an undermount slide asks of its box.

use crate::model::{Beyond, Edge, Set};
use crate::plans::fitting::{Drawer, Line, is_between_posts};

use super::super::Source;
use super::super::page::{Block, Table, left, right};
use super::super::words;
use super::slide_screws;

pub(super) fn blocks(source: &Source<'_, '_>, all: &[Drawer<'_>], blocks: &mut Vec<Block>) {
    if all.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Drawer slides".into()));
    blocks.push(Block::Note(format!(
        "The height of a slide is that of its {}, above the lower edge of its opening{} and above the top face of the bottom. The set-back is from {} to the front end of the slide. The depth used is measured from the same place: the front, where it is inset{}, plus the room that the slide needs from there{}. What is left is clear to the back{}.",
        lines(all),
        if stands_past(all) { ", which behind doors is that of the doors," } else { "" },
        face(source, all),
        if stands_past(all) { ", or all that stands before a box behind doors" } else { "" },
        if all.iter().any(|drawer| drawer.nailer.is_some()) {
            "; where a nailer behind the box alone comes first, no more than the length of the slide"
        } else {
            ""
        },
        if all.iter().any(|drawer| drawer.nailer.is_some()) {
            ", or to a nailer in front of it"
        } else {
            ""
        }
    )));
    blocks.push(Block::Table(heights(source, all)));
    unknown(all, blocks);
    carriers(source, all, blocks);
    jig(source, all, blocks);
    play(source, all, blocks);
    boxes(source, all, blocks);
}

/// How much smaller a box is than its opening, and how high it runs in it.
fn play(source: &Source<'_, '_>, all: &[Drawer<'_>], blocks: &mut Vec<Block>) {
    let figures = &source.figures;
    let mut table = Table {
        columns: vec![
            left("drawer").strong(),
            right("narrower").strong(),
            right("lower").strong(),
            right("box above opening").strong(),
        ],
        foot: "narrower and lower than the opening, and from the lower edge of the opening to that of the box".to_owned(),
        ..Table::default()
    };
    for drawer in all {
        let (Some(less), Some(above)) = (drawer.box_less, drawer.box_above) else { continue };
        let [narrower, lower] = less.map(|less| figures.text(less));
        // A box that says how high it is stays so high.
        let lower = match drawer.opening.box_high() {
            Some(high) => {
                format!("{lower} (box {} high)", figures.size(high, &source.work.piece.facts))
            }
            None => lower,
        };
        table.rows.push(vec![
            drawer.opening.title().to_owned(),
            narrower,
            lower,
            figures.text(above),
        ]);
    }
    if table.rows.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Boxes in their openings".into()));
    if all.iter().any(|drawer| drawer.hardware.undermount && drawer.hardware.box_up.is_none()) {
        blocks.push(Block::Note("A box on an undermount slide is drawn in the middle of the height that the slide leaves it. Compare that with the figure on the slide's data sheet: where the two differ, the box runs that much higher or lower, and you set the gaps at its front with the box there. Enter it as `box-up` in the slide, and these papers go by it.".to_owned()));
    }
    let lies_over = |drawer: &&Drawer<'_>| {
        drawer.opening.front.as_ref().is_some_and(|own| own.set != Set::Inset)
    };
    let front = match all.iter().filter(lies_over).count() {
        0 => {
            "Its front, or a door, is the opening less the gaps on both sides, which are on the gap sheet"
        }
        count if count == all.len() => {
            "Its front, or a door, is the opening and what it lies over its edges, which is on the gap sheet"
        }
        _ => {
            "Its front, or a door, is the opening less the gaps on both sides, or where it is an overlay front the opening and what it lies over its edges; both are on the gap sheet"
        }
    };
    blocks.push(Block::Note(format!("Where an opening came out different from the drawing, make its box by these figures: as wide as the opening less the first, and as high as the opening less the second. {front}; rails, panels, and the bottom of the box change by as much as what they go between.")));
    blocks.push(Block::Table(table));
}

/// What the heights count to.
fn lines(all: &[Drawer<'_>]) -> String {
    let has = |line| all.iter().any(|drawer| drawer.line == line);
    match (has(Line::LowerEdge), has(Line::Center)) {
        (true, true) => "lower edge, or where the table says so its center line".to_owned(),
        (true, false) => Line::LowerEdge.word().to_owned(),
        (false, _) => Line::Center.word().to_owned(),
    }
}

/// What a set-back counts from.
fn face(source: &Source<'_, '_>, all: &[Drawer<'_>]) -> &'static str {
    let framed = |drawer: &&Drawer<'_>| {
        source.work.piece.case(drawer.opening.case()).is_some_and(|case| case.frame.is_some())
    };
    match all.iter().filter(framed).count() {
        0 => "the front edge of the case",
        count if count == all.len() => "the face of the frame",
        _ => "the face of the frame, or the front edge of a frameless case,",
    }
}

/// True for a drawer with no wood at the lower edge of its opening, which nothing can
/// stand on.
fn is_bare(source: &Source<'_, '_>, drawer: &Drawer<'_>) -> bool {
    let opening = drawer.opening;
    let case = source.work.piece.case(opening.case());
    case.is_some_and(|case| matches!(case.beyond(opening.id, Edge::Bottom), Beyond::Opening(_)))
}

/// True where a packer comes past the edge of its opening, clear of an open door.
fn stands_past(all: &[Drawer<'_>]) -> bool {
    let behind =
        |drawer: &Drawer<'_>| drawer.opening.is_tray() || drawer.opening.leaf_opens.is_some();
    all.iter().any(behind)
}

fn heights(source: &Source<'_, '_>, all: &[Drawer<'_>]) -> Table {
    let (figures, facts) = (&source.figures, &source.work.piece.facts);
    let mut table = Table {
        columns: vec![
            left("drawer").strong(),
            left("slide"),
            right("above opening").strong(),
            right("above bottom"),
            right("set-back").strong(),
            right("depth used"),
            right("clear behind"),
        ],
        ..Table::default()
    };
    let nailed: Vec<String> = all
        .iter()
        .filter_map(|drawer| Some((drawer.opening.title(), drawer.nailer?)))
        .map(|(title, nailer)| format!("{} of {title}", nailer.mark))
        .collect();
    if !nailed.is_empty() {
        table.foot =
            format!("clear behind counts to the nailer that stands there: {}", nailed.join(", "));
    }
    let mixed = all.iter().any(|drawer| drawer.line == Line::LowerEdge);
    for drawer in all {
        let slide = match drawer.line {
            Line::Center if mixed => format!("{}, center line", drawer.slide.name),
            Line::Center | Line::LowerEdge => drawer.slide.name.clone(),
        };
        table.rows.push(vec![
            drawer.opening.title().to_owned(),
            slide,
            figures.size(&drawer.above_opening, facts),
            drawer.above_bottom.map_or_else(String::new, |above| figures.text(above)),
            set_back(source, drawer),
            figures.size(&drawer.used, facts),
            figures.size(&drawer.left, facts),
        ]);
    }
    table
}

/// `7/8`, or where the slide's own figure isn't known `3/4 + sheet`.
fn set_back(source: &Source<'_, '_>, drawer: &Drawer<'_>) -> String {
    let (figures, facts) = (&source.figures, &source.work.piece.facts);
    match &drawer.set_back {
        Some(set_back) => figures.size(set_back, facts),
        None if drawer.ahead.length.is_zero() => "sheet".to_owned(),
        None => format!("{} + sheet", figures.size(&drawer.ahead, facts)),
    }
}

/// Asks for what only the slide's sheet knows.
fn unknown(all: &[Drawer<'_>], blocks: &mut Vec<Block>) {
    let mut slides: Vec<&str> = all
        .iter()
        .filter(|drawer| drawer.set_back.is_none())
        .map(|drawer| drawer.slide.name.as_str())
        .collect();
    slides.sort_unstable();
    slides.dedup();
    if slides.is_empty() {
        return;
    }
    blocks.push(Block::Note(format!(
        "The set-back lacks what only the sheet of {} says: how far behind the front the slide starts. Take it from there and write it here: ______. Once it is entered, this paper gives the whole figure.",
        slides.join(", ")
    )));
}

/// What the slides are screwed to.
fn carriers(source: &Source<'_, '_>, all: &[Drawer<'_>], blocks: &mut Vec<Block>) {
    let (figures, facts) = (&source.figures, &source.work.piece.facts);
    let mut packers = Table {
        columns: vec![
            left("packer").strong(),
            right("thick"),
            left("on").strong(),
            left("piece"),
            right("lower edge").strong(),
            right("above opening"),
            right("front end").strong(),
        ],
        ..Table::default()
    };
    let past = stands_past(all);
    if past {
        packers.columns.push(right("past the edge").strong());
    }
    let mut bare = Table {
        columns: vec![left("drawer"), left("side"), left("slide on").strong(), left("piece")],
        ..Table::default()
    };
    for drawer in all {
        for carrier in &drawer.carriers {
            let board = carrier.board;
            let (mark, name) = (board.mark.clone(), words::name(board, source.work.piece));
            match carrier.packer {
                Some(packer) => {
                    let mut row = vec![
                        packer.part.mark.clone(),
                        figures.size(&packer.part.thickness, facts),
                        mark,
                        name,
                        figures.text(packer.above_end),
                        figures.text(packer.above_opening),
                        figures.text(packer.from_edge),
                    ];
                    if past {
                        let past = carrier.side.of(&drawer.opening.clear);
                        row.push(figures.size(past, facts));
                    }
                    packers.rows.push(row);
                }
                None => bare.rows.push(vec![
                    drawer.opening.title().to_owned(),
                    carrier.side.word().to_owned(),
                    mark,
                    name,
                ]),
            }
        }
    }
    let mut checks = vec![
        "the two slides of a drawer are level and parallel, and their front ends are square across"
            .to_owned(),
    ];
    if !packers.rows.is_empty() {
        let boards = all.iter().flat_map(|drawer| &drawer.carriers);
        let packed = boards.filter(|carrier| carrier.packer.is_some()).map(|on| on.board);
        packers.foot = format!(
            "the lower edge of a packer counts from the bottom end of the piece, and in a case that is closed, from the lower edge of the opening; its front end counts from the front edge{}",
            super::long_points(packed)
        );
        checks.push(match past {
            true => "each packer stands past the edge of its opening by its last figure, and flush with it where that is 0".to_owned(),
            false => "each packer is flush with the edge of its opening".to_owned(),
        });
        blocks.push(Block::Table(packers));
    }
    if !bare.rows.is_empty() {
        blocks.push(Block::Table(bare));
    }
    blocks.extend(slide_screws::told(source, all).into_iter().map(Block::Note));
    let cleats = all.iter().flat_map(|drawer| &drawer.carriers);
    let cleats = cleats
        .filter_map(|carrier| carrier.packer)
        .any(|own| is_between_posts(source.work.piece, own.part));
    blocks.push(Block::Note(match cleats {
        true => "Between posts a slide is screwed to the front post and to the packer behind it, whose inside face is flush with that of the post: the front end of the packer meets the back of the front post. It needs no rear bracket.".into(),
        false => "The front end and the rear end of a slide are screwed to the same packer or board, so it needs no rear bracket.".into(),
    }));
    blocks.push(Block::Proof(checks));
}

/// A stop and a strip for each height and set-back.
fn jig(source: &Source<'_, '_>, all: &[Drawer<'_>], blocks: &mut Vec<Block>) {
    let figures = &source.figures;
    blocks.push(Block::Heading("Marking jig for the slides".into()));
    let is_level = |drawer: &&Drawer<'_>| drawer.above_opening.length.is_zero();
    let made = match all.iter().all(|drawer| is_level(&drawer)) {
        true => {
            "Make it from scrap: a block as thick as the stop, and about as high as the slide. It stands on the lower edge of the opening, against the packer or board, and its front is flush with the face that the set-back counts from. The slide lies level with that edge, or with the lower edge of its packer, and butts against the back of the block."
        }
        false => {
            "Make it from scrap: a ledge strip with a stop board across its front end. The strip stands on the lower edge of the opening, against the packer or board, and the front of the stop board is flush with the face that the set-back counts from. The slide butts against the back of the stop board. Where the table has no strip, the jig is the stop alone, about as high as the slide."
        }
    };
    blocks.push(Block::Note(format!("{made} The jig serves both sides.")));
    let mut table = Table {
        columns: vec![
            right("stop, thick").strong(),
            right("strip, high").strong(),
            right("strip, long"),
            left("for"),
            left("upper edge of the strip"),
        ],
        ..Table::default()
    };
    let mut rows: Vec<([String; 3], Vec<&str>, Line, bool)> = Vec::new();
    let (bare, all): (Vec<_>, Vec<_>) = all.iter().partition(|drawer| is_bare(source, drawer));
    for drawer in &all {
        let level = is_level(drawer);
        let high = match level {
            true => "none".to_owned(),
            false => figures.size(&drawer.above_opening, &source.work.piece.facts),
        };
        let own = [set_back(source, drawer), high, figures.text(drawer.hardware.length.length)];
        match rows.iter_mut().find(|(known, _, line, _)| *known == own && *line == drawer.line) {
            Some((_, drawers, ..)) => drawers.push(drawer.opening.title()),
            None => rows.push((own, vec![drawer.opening.title()], drawer.line, level)),
        }
    }
    for ([stop, high, long], drawers, line, level) in rows {
        let (long, gives) = match (level, line) {
            (true, _) => (String::new(), "no strip: the slide is level with its opening"),
            (false, Line::LowerEdge) => (long, "the lower edge of the slide"),
            (false, Line::Center) => (long, "the center line of the slide"),
        };
        table.rows.push(vec![stop, high, long, drawers.join(", "), gives.to_owned()]);
    }
    if !bare.is_empty() {
        let mut stops: Vec<(String, Vec<&str>)> = Vec::new();
        for drawer in bare {
            let (stop, name) = (set_back(source, drawer), drawer.opening.title());
            match stops.iter_mut().find(|(known, _)| *known == stop) {
                Some((_, names)) => names.push(name),
                None => stops.push((stop, vec![name])),
            }
        }
        for (stop, names) in stops {
            let unheld = "no strip: nothing lies under it, so strike its height above the bottom";
            let row = [stop, "none".to_owned(), String::new(), names.join(", "), unheld.to_owned()];
            table.rows.push(row.into());
        }
    }
    blocks.push(Block::Table(table));
    blocks.push(Block::Proof(vec![
        "one drawer runs, and its front closes to the depth that it should, before you mark all the others".into(),
    ]));
}

/// What slides ask of the boxes: the line on their sides, notches, hooks, clips.
fn boxes(source: &Source<'_, '_>, all: &[Drawer<'_>], blocks: &mut Vec<Block>) {
    let figures = &source.figures;
    let mut beside = Table {
        columns: vec![
            left("drawer").strong(),
            left("line"),
            right("above the lower edge of the box").strong(),
        ],
        ..Table::default()
    };
    for drawer in all {
        let Some(up) = drawer.up_box else { continue };
        beside.rows.push(vec![
            drawer.opening.title().to_owned(),
            drawer.line.word().to_owned(),
            figures.text(up),
        ]);
    }
    if !beside.rows.is_empty() {
        blocks.push(Block::Heading("Slides on the boxes".into()));
        blocks.push(Block::Note("The part of a side-mount slide that goes on the box. Its front end is flush with the front of the box, unless the slide's sheet asks for something else.".into()));
        blocks.push(Block::Table(beside));
    }
    under(source, all, blocks);
}

fn under(source: &Source<'_, '_>, all: &[Drawer<'_>], blocks: &mut Vec<Block>) {
    let figures = &source.figures;
    let mut table = Table {
        columns: vec![
            left("box back").strong(),
            left("drawer"),
            left("notches"),
            left("holes for the hooks"),
        ],
        ..Table::default()
    };
    let mut asks = false;
    for drawer in all.iter().filter(|drawer| drawer.hardware.undermount) {
        let Some(back) = drawer.back else { continue };
        let notches = match drawer.hardware.notch {
            Some((wide, high)) => {
                format!("2, {} wide, {} high", figures.hardware(wide), figures.hardware(high))
            }
            None => "as the slide's sheet asks: ______".to_owned(),
        };
        let hooks = match (&drawer.hooks, drawer.hardware.hook) {
            (Some(at), Some(hook)) => format!(
                "2, {} across, {} deep, {} from each end and {} from the bottom edge",
                figures.hardware(hook.bore),
                figures.hardware(hook.deep),
                figures.text(at.from_end),
                figures.text(at.up)
            ),
            _ => {
                asks = true;
                "as the slide's sheet asks: ______".to_owned()
            }
        };
        table.rows.push(vec![back.mark.clone(), drawer.opening.title().to_owned(), notches, hooks]);
    }
    if table.rows.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Boxes on undermount slides".into()));
    blocks.push(Block::Note("Bore for the hooks from the outside face of the box back. Under the box front goes one clip at each side, and left and right ones differ: drill their screw holes at 45 degrees by the jig that comes with them, clear of the screws of the pull.".into()));
    blocks.push(Block::Table(table));
    if asks {
        blocks.push(Block::Note("Most sheets ask for a hole of 6 mm, 10 mm deep, with its center 7 mm from the inside face of the drawer's side. Once yours is entered, this sheet counts from the ends of the box back.".into()));
    }
}
