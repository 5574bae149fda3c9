//! The shop's papers: one file a paper, one registry.
//! In: a sound compilation. Out: texts in every format, as bytes to be written.
//! Must not know disk or terminal. Coordinates of drawings are floats.

mod abrasives;
mod assembly_order;
mod board_plan;
mod bored_later;
mod buying_list;
mod columns;
mod csv_list;
mod cut_list;
mod data;
mod door_and_rail;
mod drawing;
mod drawings;
mod edging;
mod emit;
mod examples;
mod figures;
mod fitting;
mod from_offcuts;
mod gaps;
mod gates;
mod glass;
mod index;
mod jig_sheet;
mod layout;
mod left_to_cut;
mod liquids;
mod markdown;
mod marks;
mod measured;
mod measures;
mod measuring;
mod moves;
mod near_misses;
mod page;
mod plates_missing;
mod placed;
mod reference;
mod sawn;
mod sawn_from;
mod sheet_plans;
mod sticks;
mod supplies;
mod visible;
mod warnings;
mod weights;
mod words;

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::iter;

use crate::measure::{Span, Tape, Unit, digest};
use crate::model::Piece;
use crate::parts::{Part, Parts};
use crate::pipeline::{Compilation, NearMiss, NearSetting};
use crate::plans::buying::Amount;
use crate::plans::fitting::pins;
use crate::plans::{Hands, OneByOne, Workings};

pub(crate) use buying_list::{ToBuy, to_buy};
pub use examples::{EXAMPLES, Example, SHARED};
pub use measuring::form as measuring_form;
pub use reference::{reference, reference_page};
pub use weights::{lifted, near};

pub(crate) use emit::filters;
use figures::Figures;
pub(crate) use markdown::in_markdown;
use page::{Block, Page};
pub(crate) use words::notch_end;

/// What a paper is made from.
#[derive(Debug)]
struct Source<'w, 'a> {
    /// What is worked out of the piece.
    work: &'w Workings<'a>,
    /// How its lengths are printed.
    figures: Figures,
    /// What it was made of, where a paper may tell of small changes to that.
    compiled: Option<&'w Compilation>,
}

impl<'w, 'a> Source<'w, 'a> {
    fn of(work: &'w Workings<'a>) -> Self {
        Self { work, figures: Figures::new(*work.piece.tape()), compiled: None }
    }

    /// Small changes of the piece that would save a sheet or a board.
    fn near_misses(&self) -> &'w [NearMiss] {
        self.compiled.map_or(&[], |compiled| compiled.near_misses(self.work))
    }

    /// Small changes of the piece that would make two settings one.
    fn near_settings(&self) -> &'w [NearSetting] {
        self.compiled.map_or(&[], |compiled| compiled.near_settings(self.work))
    }
}

/// A paper of the registry.
#[derive(Clone, Copy, Debug)]
pub struct Paper {
    /// Its name in file names and commands.
    pub slug: &'static str,
    /// Its title.
    pub title: &'static str,
    /// What it is for, in a line.
    pub about: &'static str,
    blocks: fn(&Source<'_, '_>) -> Vec<Block>,
}

/// Every paper, in the order in which they are used.
pub const PAPERS: &[Paper] = &[
    Paper {
        slug: "drawings",
        title: "Drawings",
        about: "the front elevation, sections, and exploded views, with the marks of the parts",
        blocks: drawings::blocks,
    },
    Paper {
        slug: "cut-list",
        title: "Cut list",
        about: "every part in the order you cut it, one fence setting at a time",
        blocks: cut_list::blocks,
    },
    Paper {
        slug: "buying-list",
        title: "Buying list",
        about: "sheets, boards, hardware, and screws to buy, and what they come to",
        blocks: buying_list::blocks,
    },
    Paper {
        slug: "sheet-plans",
        title: "Sheet plans",
        about: "which sheets to take, and every cut in them, drawn to scale",
        blocks: sheet_plans::blocks,
    },
    Paper {
        slug: "board-plan",
        title: "Board plan",
        about: "which boards to take for the solid wood, and every cut in them, drawn to scale",
        blocks: board_plan::blocks,
    },
    Paper {
        slug: "layout",
        title: "Layout sheet",
        about: "every line to strike on frames and cases, from one end, and the tails of dovetails",
        blocks: layout::blocks,
    },
    Paper {
        slug: "jig-sheet",
        title: "Router-jig set-up sheet",
        about: "every dado, groove, rabbet, and flute, with its guide, depth, passes, and pieces",
        blocks: jig_sheet::blocks,
    },
    Paper {
        slug: "gaps",
        title: "Gaps through the year",
        about: "the shims for every gap, and its width on the driest and the dampest day",
        blocks: gaps::blocks,
    },
    Paper {
        slug: "fitting",
        title: "Fitting sheet",
        about: "where the slides, shelf pins, hinges, and drawer fronts go, and the screws for them",
        blocks: fitting::blocks,
    },
    Paper {
        slug: "assembly-order",
        title: "Assembly order",
        about: "every step in order, with the waits, the clamps, and the diagonals to measure",
        blocks: assembly_order::blocks,
    },
    Paper {
        slug: "weights",
        title: "Weights",
        about: "what you lift, what it weighs, where it balances, and whether it tips",
        blocks: weights::blocks,
    },
];

/// A paper that also comes as a table for other programs, and what makes that.
type Listing = (&'static str, fn(&Source<'_, '_>) -> String);

/// All of them.
const TABLES: &[Listing] =
    &[("cut-list", csv_list::cut_list), ("buying-list", csv_list::buying_list)];

/// The packet as data.
const PACKET: &str = "packet";

/// The page that leads to the papers.
const INDEX: &str = "index";

/// The form of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// Plain text for a terminal.
    Text,
    /// Markdown for git.
    Markdown,
    /// One self-contained page to print.
    Html,
    /// Comma-separated values.
    Csv,
    /// Data for other programs.
    Json,
}

/// A file of the packet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PaperFile {
    /// The paper's slug.
    pub paper: &'static str,
    /// Its form.
    pub format: Format,
    /// Its file name.
    pub name: String,
    /// Its text.
    pub text: String,
}

/// Every paper of a sound piece in every format; `None` for one with errors.
#[must_use]
pub fn packet(compiled: &Compilation) -> Option<Vec<PaperFile>> {
    packet_with(compiled, &OneByOne)
}

/// As [`packet`], with the hands that are there: no paper waits for another.
#[must_use]
pub fn packet_with(compiled: &Compilation, hands: &impl Hands) -> Option<Vec<PaperFile>> {
    let work = &sound(compiled)?;
    let hash = hash(compiled);
    let paper = |paper: &Paper| {
        let page = page(paper, &of_piece(work, compiled), compiled, &hash);
        let file = |format, ending: &str, text| {
            let name = format!("{}.{ending}", paper.slug);
            PaperFile { paper: paper.slug, format, name, text }
        };
        vec![
            file(Format::Html, "html", emit::html(&page)),
            file(Format::Markdown, "md", emit::markdown(&page)),
            file(Format::Text, "txt", emit::text(&page)),
        ]
    };
    let data = || {
        let file =
            |paper, format, name: &str, text| PaperFile { paper, format, name: name.into(), text };
        let packet = data::packet(compiled, work, &hash);
        let tables = TABLES.iter().map(|(slug, table)| {
            file(slug, Format::Csv, &format!("{slug}.csv"), table(&Source::of(work)))
        });
        tables.chain([file(PACKET, Format::Json, "packet.json", packet)]).collect()
    };
    // The data takes longest but for the drawings, so it is not begun last.
    let all: Vec<Option<&Paper>> = iter::once(None).chain(PAPERS.iter().map(Some)).collect();
    let mut made = hands.each(&all, |own| own.map_or_else(data, paper));
    made.rotate_left(1);
    let mut files: Vec<PaperFile> = made.into_iter().flatten().collect();
    let text = index::html(work.piece, compiled, &hash);
    files.push(PaperFile { paper: INDEX, format: Format::Html, name: "index.html".into(), text });
    Some(files)
}

/// One paper of a sound piece in one format, as it stands in its packet;
/// `None` where a packet has no such paper.
#[must_use]
pub fn one(compiled: &Compilation, slug: &str, format: Format) -> Option<String> {
    if slug == PACKET {
        let work = &sound(compiled)?;
        let text = || data::packet(compiled, work, &hash(compiled));
        return (format == Format::Json).then(text);
    }
    sheet(compiled, slug, format)
}

/// As [`one`], without the packet as data: for whoever prints papers only, and has no
/// room for what writes that.
#[must_use]
pub fn sheet(compiled: &Compilation, slug: &str, format: Format) -> Option<String> {
    let work = &sound(compiled)?;
    if slug == INDEX {
        return (format == Format::Html)
            .then(|| index::html(work.piece, compiled, &hash(compiled)));
    }
    let paper = PAPERS.iter().find(|paper| paper.slug == slug)?;
    if format == Format::Csv {
        let table = TABLES.iter().find(|(own, _)| *own == slug);
        return table.map(|(_, table)| table(&Source::of(work)));
    }
    let page = page(paper, &of_piece(work, compiled), compiled, &hash(compiled));
    match format {
        Format::Html => Some(emit::html(&page)),
        Format::Markdown => Some(emit::markdown(&page)),
        Format::Text => Some(emit::text(&page)),
        Format::Csv | Format::Json => None,
    }
}

/// What a place on the elevation is a place of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PlaceOf {
    /// An opening.
    Opening,
    /// A part.
    Part {
        /// Its mark.
        mark: String,
    },
}

/// Where a part or an opening lies on the elevation.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// Its left upper corner in the coordinates of the drawing, in millimeters.
    pub from: (f64, f64),
    /// Its right lower one.
    pub to: (f64, f64),
    /// Its whole name: `console.bank.upper`.
    pub name: String,
    /// What it is.
    pub of: PlaceOf,
    /// The statement that it comes from.
    pub span: Span,
}

/// The piece from the front.
#[derive(Clone, Debug, PartialEq)]
pub struct Front {
    /// The [`elevation`].
    pub svg: String,
    /// Where each part and opening lies on it, those that cover others behind them: whoever
    /// looks for what is seen at a point takes the last that has it.
    pub places: Vec<Place>,
}

/// The piece from the front, and what lies where on it; nothing where there is nothing to draw.
#[must_use]
pub fn front(compiled: &Compilation) -> Option<Front> {
    let (piece, parts) = compiled.drawn()?;
    let parts = on_pins(compiled, &parts);
    let places = drawing::shown::places(piece, &parts);
    Some(Front { svg: drawn(compiled, piece, &parts), places })
}

/// The piece from the front as SVG, with its marks: of a piece with errors
/// too. Where its sizes are in doubt it bears no figures, and an opening of
/// which a size does not hold is grey.
#[must_use]
pub fn elevation(compiled: &Compilation) -> Option<String> {
    let (piece, parts) = compiled.drawn()?;
    Some(drawn(compiled, piece, &on_pins(compiled, &parts)))
}

fn drawn(compiled: &Compilation, piece: &Piece, parts: &Parts) -> String {
    let whole = drawing::view::extent(parts);
    match (&compiled.piece, &compiled.standing) {
        (None, Some(standing)) => drawing::view::standing(piece, parts, standing, &whole),
        _ => drawing::view::elevation(
            piece,
            parts,
            &Figures::new(*piece.tape()),
            &whole,
            drawing::view::Doors::Closed,
        ),
    }
}

/// The parts as they are drawn: loose shelves on their pins.
fn on_pins<'p>(compiled: &Compilation, parts: &'p Parts) -> Cow<'p, Parts> {
    let rows = compiled.piece.as_ref().map(|piece| Workings::of(piece, parts));
    pins::on_pins(rows.as_ref().map_or(&[][..], Workings::pin_rows), parts)
}

/// A piece that papers may be made of.
fn sound(compiled: &Compilation) -> Option<Workings<'_>> {
    compiled.workings().filter(|_| compiled.is_sound())
}

/// What a paper says, drawings and all, without what only tells the revision
/// it was made from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Body(Page);

/// The body of every paper, in the order of [`PAPERS`], without what is only offered.
#[must_use]
pub fn bodies(work: &Workings<'_>, compiled: &Compilation) -> Vec<Body> {
    let of =
        |paper| Page { revision: String::new(), ..page(paper, &Source::of(work), compiled, "") };
    PAPERS.iter().map(|paper| Body(of(paper))).collect()
}

/// What a part is called on paper: `left end`, `upper, front`.
#[must_use]
pub fn part_name(part: &Part, piece: &Piece) -> String {
    words::name(part, piece)
}

/// What is cut into a part, in the sentences of the cut list.
#[must_use]
pub fn cuts(part: &Part, work: &Workings<'_>, tape: Tape) -> Vec<String> {
    words::features(part, work, &Figures::unmarked(tape))
}

/// What a paper is made from that may tell of small changes to the spec.
fn of_piece<'w, 'a>(work: &'w Workings<'a>, compiled: &'w Compilation) -> Source<'w, 'a> {
    Source { compiled: Some(compiled), ..Source::of(work) }
}

fn page(paper: &Paper, source: &Source<'_, '_>, compiled: &Compilation, hash: &str) -> Page {
    let piece = source.work.piece;
    let mut blocks = (paper.blocks)(source);
    // One sign must not stand for two lengths. The letters of a drawing have no room
    // for more.
    let clashing = source.figures.clashing();
    let apart = Source {
        work: source.work,
        figures: Figures::telling_apart(*piece.tape(), clashing.clone()),
        compiled: source.compiled,
    };
    let source = match clashing.is_empty() {
        true => source,
        false => {
            let drawn = std::mem::replace(&mut blocks, (paper.blocks)(&apart));
            for (own, before) in blocks.iter_mut().zip(drawn) {
                if before.is_drawn() {
                    *own = before;
                }
            }
            &apart
        }
    };
    // Behind the blocks: it looks whether they have a marked figure.
    let is_first = PAPERS.first().is_some_and(|first| first.slug == paper.slug);
    let mut notes = if is_first { warnings::open(compiled) } else { Vec::new() };
    notes.extend(self::notes(source));
    let texts = blocks.iter().flat_map(Block::texts).chain(notes.iter().map(String::as_str));
    let standing: BTreeSet<String> = texts.flat_map(page::rounded).collect();
    let mut exacts = source.figures.exacts();
    exacts.retain(|(figure, _)| standing.contains(figure));
    Page {
        title: paper.title,
        job: piece.job.name.clone(),
        revision: piece.job.revision.clone(),
        hash: hash.to_owned(),
        measure: measure(piece.tape()),
        notes,
        blocks,
        exacts,
    }
}

/// In which unit lengths are printed, and how finely: `inches to 1/32`.
fn measure(tape: &Tape) -> String {
    let unit = match tape.unit {
        Unit::Inch => "inches",
        _ => "millimeters",
    };
    format!("{unit} to {}", tape.exact(tape.mark))
}

/// The job's own notes, and every warning the maker has accepted, so that
/// whoever holds the paper knows of it.
fn notes(source: &Source<'_, '_>) -> Vec<String> {
    let piece = source.work.piece;
    let mut notes = piece.job.notes.clone();
    notes.extend(measured::note(source));
    notes.extend(warnings::accepted(piece));
    notes
}

/// A price with the job's currency, if it has one.
fn with_currency(source: &Source<'_, '_>, price: crate::measure::Rate) -> String {
    match &source.work.piece.job.currency {
        Some(currency) => format!("{currency} {price}"),
        None => price.to_string(),
    }
}

/// How much of something is bought, as the buying list tells it.
pub(crate) fn amount(work: &Workings<'_>, amount: &Amount) -> String {
    buying_list::amount(&Source::of(work), amount)
}

/// Eight hexadecimal digits that change with the texts a paper is made from.
fn hash(compiled: &Compilation) -> String {
    let hash = digest(compiled.sources.iter().map(|(_, source)| source.text.as_bytes()));
    format!("{:08x}", (hash >> 32) ^ (hash & 0xffff_ffff))
}
