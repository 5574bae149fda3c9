//! The cut list: by stock, then fence setting by fence setting.

use std::collections::{BTreeMap, BTreeSet};

use crate::measure::{Length, Unit};
use crate::model::{Axis, Case, Item, Opening, OpeningKind, Piece, Sheet, Stock, StockId};
use crate::parts::{Grain, Part, PartId, Role, opening_told};
use crate::plans::assembly::{Stage, gluing, is_broken_down_first, is_sawn_later, stage};
use crate::trade;

use super::bored_later::Steps;
use super::edging;
use super::from_offcuts;
use super::glass;
use super::left_to_cut;
use super::marks;
use super::measured::{self, Blank};
use super::page::{Block, Table, Ticks, left, right};
use super::plates_missing;
use super::sawn_from::SawnFrom;
use super::sticks;
use super::{Source, with_currency, words};

/// Equal parts on one line.
struct Line<'a> {
    parts: Vec<(PartId, &'a Part)>,
    /// The day they were cut, or spoiled.
    done: String,
    /// They lie on the bench.
    ticked: bool,
    features: Vec<String>,
    /// What goes on their edges.
    strips: Option<String>,
    /// A dado, groove, or rabbet takes one of them.
    housed: bool,
    /// What they are crosscut to.
    length: Length,
    /// They are left wider or longer than they are drawn.
    blank: Option<Blank>,
}

pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let (piece, parts, figures) = (source.work.piece, source.work.parts, &source.figures);
    let mut blocks = vec![
        Block::Note("The large figure is the finished width. Rip the boards under one figure at one setting of the fence. Then crosscut to the stop, longest first, with pieces of one length together so that they come out alike. Mark every piece before it leaves the saw.".into()),
        Block::Caution("Keep the guard and riving knife on, and stand out of line with the cut. Use a push stick wherever your hand would come within a hand's breadth of the blade. Handle a whole sheet with two people. Wear a mask and run the dust collector, because wood dust harms, most of all from oak and beech.".into()),
    ];
    let used = |part: &Part| piece.stock(part.stock).is_some_and(Stock::is_sheet);
    if parts.all.iter().any(used) {
        blocks.insert(1, Block::Note("Before you saw, caliper every sheet: the first step of the assembly order says by how much it may differ from the figures here.".into()));
    }
    let (of_sheets, of_boards) = (SawnFrom::sheets(source.work), SawnFrom::boards(source.work));
    if of_boards.has(parts.iter().map(|own| own.0)) {
        blocks.insert(1, Block::Note("Saw the rough pieces of solid wood by the board plan. The column \"board: cut\" says from which board a piece comes, and which cut there frees it.".into()));
    }
    if of_sheets.has(parts.iter().map(|own| own.0)) {
        blocks.insert(1, Block::Note("Saw the sheets by the sheet plans. The column \"sheet: cut\" says on which sheet a piece lies, and which cut there frees it.".into()));
    }
    blocks.extend(marks::blocks(parts));
    blocks.extend(left_to_cut::blocks(source));
    blocks.extend(plates_missing::told(piece).map(Block::Note));
    let mut order: Vec<usize> = (0..piece.stocks.len()).collect();
    // Sheets first: they are cut to size while the boards settle.
    order.sort_by_key(|index| (piece.stocks[*index].is_solid(), *index));
    let mut count = 0;
    for index in order {
        let stock = &piece.stocks[index];
        let own: Vec<(PartId, &Part)> =
            parts.iter().filter(|(_, part)| part.stock == StockId(index)).collect();
        if own.is_empty() {
            continue;
        }
        if !stock.is_glass() {
            count += own.len();
        }
        let sawn_from = if stock.is_solid() { &of_boards } else { &of_sheets };
        blocks.push(Block::Heading(heading(stock, source)));
        if stock.is_glass() {
            blocks.extend(glass::blocks(source, stock, &own));
            continue;
        }
        blocks.extend(about(stock, &own, source).map(Block::Note));
        let cut_first = |(_, part): &(PartId, &Part)| stage(part) == Stage::First;
        if stock.is_solid() && own.iter().any(cut_first) {
            blocks.push(Block::Note("Saw these to their rough sizes first, and joint and plane them. The large figures are the finished widths, so rip to them only then. What is fitted to its opening is ripped wider first, by the shaving that its step of the assembly order gives.".into()));
        }
        blocks.extend(later(&own, source, sawn_from).into_iter().map(Block::Note));
        for note in &stock.notes {
            blocks.push(Block::Note(note.clone()));
        }
        let mut thicknesses: Vec<Length> =
            own.iter().map(|(_, part)| part.thickness.length).collect();
        // The stock's own thickness first, then what is made of it.
        let own_thickness = stock.thickness.length;
        thicknesses.sort_unstable_by_key(|thickness| (*thickness != own_thickness, *thickness));
        thicknesses.dedup();
        let many = thicknesses.len() > 1;
        for thickness in thicknesses {
            let of = |(_, part): &&(PartId, &Part)| part.thickness.length == thickness;
            let own: Vec<(PartId, &Part)> = own.iter().filter(of).copied().collect();
            by_width((source, sawn_from), stock, &own, many.then_some(thickness), &mut blocks);
        }
    }
    blocks.extend(edging::blocks(source));
    blocks.extend(from_offcuts::blocks(source));
    let laminated = parts.iter().any(|(_, part)| gluing::layers(piece, part) > 1);
    let mut proof = vec![match laminated {
        true => format!(
            "when all is sawn and laminated, there are {count} parts, each with its mark; the layers of a laminated part count as one"
        ),
        false => format!("when all is sawn, there are {count} parts, each with its mark"),
    }];
    proof.extend(sums(source, |_, _| true));
    blocks.push(Block::Proof(proof));
    blocks.push(Block::Note(format!("Rough sizes leave {} on the length and {} on the width of solid parts. Cut sheet parts to size, except those left larger for now.", figures.text(piece.shop.allow_length), figures.text(piece.shop.allow_width))));
    blocks
}

/// A stock, and how thick it is.
pub(super) fn heading(stock: &Stock, source: &Source<'_, '_>) -> String {
    let thick = source.figures.mating_size(&stock.thickness, &source.work.piece.facts);
    format!("{}: {} {thick}", stock.name, stock.kind.word())
}

/// What a stock is and how it is bought; `None` where the spec says nothing.
fn about(stock: &Stock, own: &[(PartId, &Part)], source: &Source<'_, '_>) -> Option<String> {
    let text = |length| source.figures.text(length);
    let mut parts = Vec::new();
    if let Some(species) = &stock.species {
        parts.push(species.replace('-', " "));
    }
    if stock.is_solid() {
        parts.push(format!(
            "from {}, planed to {}",
            trade::quarters(stock.nominal).map_or_else(
                || format!("boards sawn {} thick", text(stock.nominal)),
                |quarters| format!("{quarters} boards"),
            ),
            text(stock.thickness.length)
        ));
        parts.push(format!("{}sawn", stock.sawn.word()));
        if let Some(boards) = stock.boards {
            parts.push(format!(
                "boards {} to {} wide, {} to {} long",
                text(boards.wide.0),
                text(boards.wide.1),
                text(boards.long.0),
                text(boards.long.1)
            ));
        }
        parts.push(format!("{} in rough pieces, waste not included", volume(stock, own, source)));
        let humidity = source.work.piece.shop.humidity;
        let mark = measured::air(source);
        parts.push(format!("acclimate at {}{mark} % relative humidity before milling", humidity.0));
    } else {
        if stock.nominal != stock.thickness.length {
            parts.push(format!("sold as {}", text(stock.nominal)));
        }
        if !stock.sheets.is_empty() {
            let by = |sheet: &Sheet| format!("{} by {}", text(sheet.long), text(sheet.wide));
            let sizes: Vec<String> = stock.sheets.iter().map(by).collect();
            parts.push(format!(
                "sheets {}, trim {} off each factory edge, kerf {}",
                sizes.join(" or "),
                text(source.work.piece.shop.edge_trim),
                source.figures.hardware(source.work.piece.shop.kerf)
            ));
        }
    }
    for own in &stock.on_hand {
        parts.push(format!("on hand: {} by {}", text(own.long), text(own.wide)));
    }
    parts.extend(stock.price.map(|price| with_currency(source, price)));
    let mut line = parts.join("; ");
    let first = line.get(..1)?.to_uppercase();
    line.replace_range(..1, &first);
    line.push('.');
    Some(line)
}

/// Which pieces are not sawn to size with the rest.
fn later(own: &[(PartId, &Part)], source: &Source<'_, '_>, sawn_from: &SawnFrom) -> Vec<String> {
    let marks = |first: bool| {
        let own = own.iter().filter(|(id, part)| {
            stage(part) != Stage::First
                && is_broken_down_first(source.work.piece, part) == first
                && !source.work.ledger().is_cut(*id)
        });
        own.map(|(_, part)| part.mark.as_str()).collect::<Vec<_>>().join(", ")
    };
    let notes = [
        (marks(true), "Saw these to their rough size for now"),
        (
            marks(false),
            match sawn_from.has(own.iter().map(|own| own.0)) {
                true => "Leave these larger for now, as the sheet plans show",
                false => "Keep sheet for these, and saw none of them yet",
            },
        ),
    ];
    let told = notes.into_iter().filter(|(marks, _)| !marks.is_empty());
    told.map(|(marks, what)| {
        format!("{what}. They are cut to size from what the case comes to, in a step of the assembly order: {marks}.")
    })
    .collect()
}

/// What is said in the row of a piece that nothing is sawn of yet.
fn waits(piece: &Piece, part: &Part, is_planned: bool) -> Option<&'static str> {
    is_sawn_later(piece, part).then_some(match is_planned {
        true => "larger for now: trimmed to this in its step",
        false => "not yet: sawn in its step",
    })
}

/// What the rough pieces of a stock come to: board feet, or cubic metres.
fn volume(stock: &Stock, own: &[(PartId, &Part)], source: &Source<'_, '_>) -> String {
    let pieces = source.work.sticks().pieces(source.work, stock.nominal, own);
    amount(source.work.piece, pieces.into_iter())
}

/// What rough pieces of lumber come to, each with its nominal thickness, its width, and
/// its length: board feet, or cubic metres.
pub(super) fn amount(
    piece: &Piece,
    pieces: impl Iterator<Item = (Length, Length, Length)>,
) -> String {
    match piece.tape().unit {
        Unit::Millimetre => format!("{:.3} m3", pieces.map(trade::cubic_metres).sum::<f64>()),
        _ => format!("{:.1} board feet", pieces.map(trade::board_feet).sum::<f64>()),
    }
}

/// Parts of one thickness, a setting of the fence at a time, widest first.
fn by_width(
    (source, sawn_from): (&Source<'_, '_>, &SawnFrom),
    stock: &Stock,
    own: &[(PartId, &Part)],
    thickness: Option<Length>,
    blocks: &mut Vec<Block>,
) {
    let (piece, _parts, figures) = (source.work.piece, source.work.parts, &source.figures);
    let mut widths: BTreeMap<Length, Vec<Line<'_>>> = BTreeMap::new();
    let ledger = source.work.ledger();
    let begun = !ledger.is_empty();
    let blanks = measured::blanks(source);
    let housed = housed(source);
    let bored_later = Steps::of(source);
    // What is cut alike is one line.
    let mut alike: BTreeMap<_, usize> = BTreeMap::new();
    for (id, part) in own {
        let done = left_to_cut::done(ledger, *id);
        let mut features = words::features(part, source.work, figures);
        features.extend(bored_later.told(*id));
        let [mut length, mut width] = part.sawn();
        let blank = blanks.get(id).copied();
        if let Some(blank) = blank {
            features.insert(0, blank.told(source));
            *(if blank.is_width { &mut width } else { &mut length }) = blank.size;
        }
        let lines = widths.entry(width).or_default();
        let size = (width, length);
        // What is crosscut from one stick stands together.
        let stick = source.work.sticks().of(*id).and_then(|stick| stick.parts.first());
        let name = plain_name(part, piece);
        let strips = edging::told(source, part);
        let key =
            (size, name, (features.clone(), strips.clone()), done.clone(), &part.notes, stick);
        let at = *alike.entry(key).or_insert(lines.len());
        // Of a core and its strips every error adds up.
        let housed = housed.contains(id) || !part.strips.is_empty();
        match lines.get_mut(at) {
            Some(line) => {
                line.parts.push((*id, part));
                line.housed |= housed;
            }
            None => {
                let ticked = ledger.is_cut(*id);
                lines.push(Line {
                    parts: vec![(*id, part)],
                    done,
                    ticked,
                    features,
                    strips,
                    housed,
                    length,
                    blank,
                });
            }
        }
    }
    // All are of one stock and one thickness.
    let layers = own.first().map_or(1, |(_, part)| gluing::layers(piece, part));
    for (width, mut lines) in widths.into_iter().rev() {
        lines.sort_by_key(|line| std::cmp::Reverse(line.length));
        let total: usize = lines.iter().map(|line| line.parts.len()).sum();
        let pieces = words::pieces(total);
        let mut more = Vec::new();
        if let Some(thickness) = thickness {
            let is_whole = stock.is_solid() && layers == 1;
            let how = match thickness.cmp(&stock.thickness.length) {
                std::cmp::Ordering::Greater if is_whole => {
                    ", of one board: leave it thicker when you plane the rest"
                }
                std::cmp::Ordering::Greater if stock.is_solid() => {
                    ", laminated and planed to thickness"
                }
                std::cmp::Ordering::Greater => ", laminated from layers",
                std::cmp::Ordering::Less => ", planed down from the stock's thickness",
                std::cmp::Ordering::Equal => "",
            };
            more.push(format!("to {} thick{how}", figures.mating(thickness)));
        }
        if let Some(layers) = usize::try_from(layers).ok().filter(|layers| *layers > 1) {
            more.push(format!("saw {} for their layers", total * layers));
        }
        let facts = &source.work.piece.facts;
        let wider = lines.iter().any(|line| line.blank.is_some_and(|blank| blank.is_width));
        let measured = wider
            || lines
                .iter()
                .flat_map(|line| &line.parts)
                .any(|(_, part)| facts.is_measured(&part.width));
        blocks.push(Block::Setting {
            figure: match wider || lines.iter().any(|line| line.housed) {
                true => figures.mating_of(width, measured),
                false => format!("{}{}", figures.plain(width), figures.mark(measured)),
            },
            what: match stock.is_solid() {
                true => format!("fence, {pieces}"),
                false => format!("wide, {pieces}"),
            },
            more,
        });
        let mut columns =
            vec![left("mark").strong(), left("piece"), right("pcs"), right("length").strong()];
        if stock.is_solid() {
            columns.push(right("rough"));
        }
        let is_planned = sawn_from.has(lines.iter().flat_map(|line| &line.parts).map(|own| own.0));
        if is_planned {
            columns.push(left(if stock.is_solid() { "board: cut" } else { "sheet: cut" }));
        }
        if begun {
            columns.push(left("cut"));
        }
        columns.push(left("grain"));
        columns.push(left("machining").below());
        let mut table = Table { columns, ticks: Ticks::Pieces, ..Table::default() };
        for line in &lines {
            let Some((id, first)) = line.parts.first() else { continue };
            let marks: Vec<&str> = line.parts.iter().map(|(_, part)| part.mark.as_str()).collect();
            let mut row = vec![
                marks.join(" "),
                match line.parts.len() {
                    1 if first.role == Role::Slab => words::name(first, source.work.piece),
                    _ => plain_name(first, source.work.piece),
                },
                line.parts.len().to_string(),
                match (first.strips.is_empty(), line.housed) {
                    _ if !first.spare.is_empty() => {
                        figures.mating_of(line.length, facts.is_measured(&first.length))
                    }
                    _ if line.blank.is_some_and(|blank| !blank.is_width) => {
                        figures.mating_of(line.length, true)
                    }
                    (true, true) => figures.mating_size(&first.length, facts),
                    (true, false) => figures.size(&first.length, facts),
                    (false, _) => {
                        figures.mating_of(first.rough.length, facts.is_measured(&first.length))
                    }
                },
            ];
            if stock.is_solid() {
                row.push(sticks::rough(source, *id, first));
            }
            if is_planned {
                row.push(sawn_from.told(line.parts.iter().map(|own| own.0)));
            }
            if begun {
                row.push(line.done.clone());
            }
            if line.ticked {
                table.ticked.insert(table.rows.len());
            }
            row.push(match first.grain {
                Grain::Length => "along".to_owned(),
                Grain::None => "any".to_owned(),
            });
            let mut then: Vec<String> = waits(piece, first, is_planned)
                .into_iter()
                .map(str::to_owned)
                .chain(layered(piece, first, line.parts.len()))
                .chain(edged(piece, first))
                .chain(line.strips.clone())
                .chain(edging::left_on(source, first))
                .collect();
            then.extend(line.features.iter().cloned());
            then.extend(first.notes.iter().cloned());
            row.push(then.join("; "));
            table.rows.push(row);
        }
        blocks.push(Block::Table(table));
        let own: Vec<_> = lines.iter().flat_map(|line| line.parts.iter().copied()).collect();
        blocks.extend(sticks::cautions(source, &own));
    }
}

/// The parts that a dado, groove, or rabbet takes: their sizes must fit.
fn housed(source: &Source<'_, '_>) -> BTreeSet<PartId> {
    let parts = source.work.parts;
    let all = parts.iter().flat_map(|(_, host)| host.features.iter().map(move |own| (host, own)));
    let channels = all.filter(|(_, feature)| feature.is_channel());
    channels.flat_map(|(host, feature)| parts.lodged(host, feature)).collect()
}

/// Of how many boards each piece of a line is glued up, edge to edge.
fn edged(piece: &Piece, part: &Part) -> Option<String> {
    let boards = gluing::boards(piece, part).count;
    let glued = gluing::is_glued_up(piece, part) && boards > 1;
    glued.then(|| format!("glued up from {boards} boards"))
}

/// How many rough pieces a line of laminated parts takes: `3 pieces of 2 layers: saw 6`.
fn layered(piece: &Piece, part: &Part, count: usize) -> Option<String> {
    let layers = usize::try_from(gluing::layers(piece, part)).ok().filter(|layers| *layers > 1)?;
    Some(format!("{} of {layers} layers: saw {}", words::pieces(count), count * layers))
}

/// The name of a part, the same for all that are cut alike.
fn plain_name(part: &Part, piece: &Piece) -> String {
    match part.role {
        Role::Slab => {
            match part.opening().and_then(|own| piece.opening(own)).map(|own| &own.kind) {
                Some(OpeningKind::Drawer { .. }) => "drawer front".to_owned(),
                Some(OpeningKind::False) => "false front".to_owned(),
                Some(OpeningKind::Door(_) | OpeningKind::Doors) => "door".to_owned(),
                Some(OpeningKind::List(..) | OpeningKind::Open) | None => words::name(part, piece),
            }
        }
        Role::DrawerSide => "drawer side".to_owned(),
        Role::DrawerFront => "box front".to_owned(),
        Role::DrawerBack => "box back".to_owned(),
        Role::DrawerBottom => "drawer bottom".to_owned(),
        Role::Packer | Role::Guide | Role::Kicker | Role::Runner => part.word().replace('-', " "),
        Role::Stop => "drawer stop".to_owned(),
        Role::HingeBlock => "hinge block".to_owned(),
        Role::HoldingBlock => "holding block".to_owned(),
        _ => words::name(part, piece),
    }
}

/// What the frame must add up to, list by list of those that are to be told.
pub(super) fn sums(
    source: &Source<'_, '_>,
    is_told: impl Fn(&Case, &Opening) -> bool,
) -> Vec<String> {
    let mut lines = Vec::new();
    for case in &source.work.piece.cases {
        for opening in &case.openings {
            let OpeningKind::List(axis, items) = &opening.kind else { continue };
            if items.len() < 2 || !is_told(case, opening) {
                continue;
            }
            let sizes: Vec<Length> = items
                .iter()
                .filter_map(|item| match item {
                    Item::Opening(opening) => {
                        source.work.piece.opening(*opening).map(|o| o.along(*axis).length)
                    }
                    Item::Member(member) => {
                        source.work.piece.member(*member).map(|m| m.wide.length)
                    }
                })
                .collect();
            let way = match axis {
                Axis::Across => "across",
                Axis::Down => "down",
            };
            let what = match opening.id.at {
                0 => case.name.clone(),
                _ => opening_told(source.work.piece, opening.id),
            };
            lines.push(format!("{what}, {way}: {}", source.figures.sum(&sizes)));
        }
    }
    lines
}
