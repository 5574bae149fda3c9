//! Materials.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Days, Exact, Length, Rate, Span, Spanned};
use crate::trade::{self, Wood};
use crate::vocabulary::words::{self, stock::StockKind};
use crate::vocabulary::{Entries, Entry, Kinds, Said, Sawn, SheetGrain, Sourced, Word, takes};

use super::glass::{self, Pane};
use super::lower::Lower;
use super::on_hand::{self, OnHand};
use super::size::Size;
use super::species::{self, OwnSpecies};

impl StockKind {
    /// How it is called on the papers.
    #[must_use]
    pub fn word(self) -> &'static str {
        self.spelling()
    }
}

/// A whole sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// Its length.
    pub long: Length,
    /// Its width.
    pub wide: Length,
    /// Its face grain.
    pub grain: SheetGrain,
    /// What one of this size costs, where that is said of it.
    pub price: Option<Rate>,
}

impl Sheet {
    /// What can be cut from it along and across its grain, with so much trimmed off every
    /// edge.
    #[must_use]
    pub fn trimmed(&self, edge: Length) -> [Length; 2] {
        self.lying([self.long, self.wide]).map(|side| side - edge.twice())
    }

    /// A length along and a length across the grain, as they lie along the sheet and across
    /// it; and the other way round.
    #[must_use]
    pub fn lying(&self, [along, across]: [Length; 2]) -> [Length; 2] {
        match self.grain {
            SheetGrain::Wide => [across, along],
            SheetGrain::Long | SheetGrain::None => [along, across],
        }
    }
}

/// The boards the yard has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Boards {
    /// Narrowest and widest.
    pub wide: (Length, Length),
    /// Shortest and longest.
    pub long: (Length, Length),
}

/// A material.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stock {
    /// Its name in the spec.
    pub name: String,
    /// What it is.
    pub kind: StockKind,
    /// The thickness it is sold by.
    pub nominal: Length,
    /// The statement that gives it.
    pub nominal_span: Span,
    /// The thickness of a finished part.
    pub thickness: Size,
    /// The wood, or the face veneer.
    pub species: Option<String>,
    /// Where the species is named, else where it could be said.
    pub species_span: Span,
    /// How its boards move; `None` for sheets and for woods nothing is known of.
    pub wood: Option<Wood>,
    /// Specific gravity in thousandths, where it is known.
    pub gravity: Option<u32>,
    /// Modulus of elasticity in thousands of pounds to the square inch, where
    /// it is known.
    pub stiffness: Option<u32>,
    /// How boards are sawn.
    pub sawn: Sawn,
    /// The statement that says so.
    pub sawn_span: Option<Span>,
    /// A whole sheet: the first of its sizes.
    pub sheet: Option<Sheet>,
    /// Whole sheets of every size that it is sold in, turned so that the grain of all runs as
    /// in the first.
    pub sheets: Vec<Sheet>,
    /// How many of its faces come with a finish, and the statement that says so.
    pub prefinished: Option<Spanned<u32>>,
    /// What is said of glass; nothing of all else.
    pub pane: Pane,
    /// Pieces in the rack.
    pub on_hand: Vec<OnHand>,
    /// The boards the yard has.
    pub boards: Option<Boards>,
    /// What it costs.
    pub price: Option<Rate>,
    /// How long it takes to come.
    pub lead: Option<Days>,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
    /// The statement that gives its thickness.
    pub thickness_span: Span,
    /// The written thickness that a measured one has replaced.
    pub replaced: Option<(Length, Span)>,
    /// A measured thickness that can't be right, and does not count.
    pub refused: Option<(Length, Span)>,
}

impl Stock {
    /// True for boards, false for sheets.
    #[must_use]
    pub fn is_solid(&self) -> bool {
        self.kind == StockKind::Lumber
    }

    /// True for what has a grain to turn: boards, and plywood unless its sheet says it has
    /// none.
    #[must_use]
    pub fn has_grain(&self) -> bool {
        match self.kind {
            StockKind::Lumber => true,
            StockKind::Plywood => self.sheet.is_none_or(|sheet| sheet.grain != SheetGrain::None),
            StockKind::Mdf
            | StockKind::Particleboard
            | StockKind::Hardboard
            | StockKind::Glass
            | StockKind::Banding => false,
        }
    }

    /// Its sheets, where it comes in sheets whose size is known.
    #[must_use]
    pub fn planned(&self) -> Option<Sheet> {
        self.sheet.filter(|_| !self.is_solid())
    }

    /// True where a trimmed sheet of some size holds this, along the grain and across it; of
    /// what comes in no sheet whose size is known nobody knows.
    #[must_use]
    pub fn holds(&self, edge: Length, [long, wide]: [Length; 2]) -> bool {
        let fits = |sheet: &Sheet| {
            let [along, across] = sheet.trimmed(edge);
            long <= along && wide <= across
        };
        self.sheets.is_empty() || self.sheets.iter().any(fits)
    }

    /// How the grain of its sheets runs; none where it has none.
    #[must_use]
    pub fn sheet_grain(&self) -> SheetGrain {
        let sheet = self.sheet.filter(|_| self.has_grain());
        sheet.map_or(SheetGrain::None, |sheet| sheet.grain)
    }

    /// True for strips that only edges are covered with.
    #[must_use]
    pub fn is_banding(&self) -> bool {
        self.kind == StockKind::Banding
    }

    /// True for panes, which a glazier cuts to size: nothing is done to them in the shop.
    #[must_use]
    pub fn is_glass(&self) -> bool {
        self.kind == StockKind::Glass
    }

    /// How many times its first sag a board of it comes to after years; glass does not creep.
    #[must_use]
    pub fn creep(&self) -> Exact {
        match self.is_glass() {
            true => Exact::ONE,
            false => trade::creep(self.is_solid()),
        }
    }

    /// True for what comes in whole sheets, and is sawn from them.
    #[must_use]
    pub fn is_sheet(&self) -> bool {
        !self.is_solid() && !self.is_banding() && !self.is_glass()
    }

    /// The wood in words: its species, or its own name where none is given.
    #[must_use]
    pub fn wood_name(&self) -> String {
        self.species.as_deref().unwrap_or(&self.name).replace('-', " ")
    }
}

pub(super) fn lower(
    entry: &Entry,
    woods: &[OwnSpecies],
    measured: Option<Sourced<Length>>,
    ctx: &mut Lower,
) -> Option<Stock> {
    use words::stock::{GRAVITY, LEAD_TIME, PRICE, SAWN, SPECIES};

    let body = entry.body()?;
    let name = entry.name()?.value.to_owned();
    let (kind, kind_entry) = body.which::<StockKind>()?;
    let nominal = body.get(kind.handle())?.value;
    let written = thickness(entry, body, &name, (kind, kind_entry), ctx)?;
    if kind != StockKind::Lumber {
        absurd(&name, &written, (nominal, kind_entry.head), ctx);
    }
    let Thickness { size, span, replaced, refused } = measured_over(written, &name, measured, ctx);
    let named = body.one(SPECIES).and_then(Said::value);
    let is_lumber = kind == StockKind::Lumber;
    let of_lumber = named.as_ref().filter(|_| is_lumber);
    let wood = of_lumber.and_then(|name| species::wood(name.value, woods));
    let sheet_good = trade::sheet_named(kind.spelling());
    let sheets = sheets(body);
    let gravity = body.get(GRAVITY).and_then(|gravity| species::whole(gravity.value, 1000));
    let known = wood.map(|wood| wood.gravity).or(sheet_good.map(|sheet| sheet.gravity));
    let stiff = wood.map(|wood| wood.stiffness).or(sheet_good.map(|sheet| sheet.stiffness));
    Some(Stock {
        name,
        kind,
        nominal,
        wood,
        gravity: gravity.or(known),
        stiffness: species::stiffness(body, words::stock::STIFFNESS).or(stiff),
        nominal_span: kind_entry.head,
        thickness: size,
        species_span: named.map_or(kind_entry.head, |name| name.span),
        species: named.map(|name| name.value.to_owned()),
        sawn: body.get(SAWN)?.value,
        sawn_span: body.one(SAWN).map(|sawn| sawn.head),
        sheet: sheets.first().copied(),
        sheets,
        prefinished: prefinished(body, kind, ctx),
        pane: glass::pane(body, kind, ctx),
        on_hand: on_hand::read(body, kind, ctx),
        boards: boards(body),
        price: body.get(PRICE).map(|price| price.value),
        lead: body.get(LEAD_TIME).map(|lead| lead.value),
        notes: body.notes(),
        span: entry.head,
        thickness_span: span,
        replaced,
        refused,
    })
}

/// How thick a stock is, and where that is written.
struct Thickness {
    size: Size,
    span: Span,
    /// The written thickness that a measured one has replaced.
    replaced: Option<(Length, Span)>,
    /// A measured thickness that can't be right, and does not count.
    refused: Option<(Length, Span)>,
}

/// The thickness as it is written: of lumber as it is planed, of a sheet as it
/// is, or else as it is called.
fn thickness(
    entry: &Entry,
    body: &Entries,
    name: &str,
    (kind, kind_entry): (StockKind, &Entry),
    ctx: &mut Lower,
) -> Option<Thickness> {
    use words::stock::{ACTUAL, THICKNESS};

    let label = format!("thickness of {name}");
    let (own, other) = match kind {
        StockKind::Lumber => (THICKNESS, ACTUAL),
        StockKind::Plywood
        | StockKind::Mdf
        | StockKind::Particleboard
        | StockKind::Hardboard
        | StockKind::Glass
        | StockKind::Banding => (ACTUAL, THICKNESS),
    };
    if let Some(said) = body.one(other) {
        ctx.sink.push(of_another_kind(said.entry, kind, own, body.says(own)));
        return None;
    }
    let (size, span) = match body.get(own) {
        Some(value) => (ctx.positive(body, own, &label).known()?, value.span_or(entry.head)),
        None if kind == StockKind::Lumber => {
            ctx.sink.push(unplaned(name, kind_entry.head));
            return None;
        }
        None => (ctx.positive(body, kind.handle(), &label).known()?, kind_entry.head),
    };
    Some(Thickness { size, span, replaced: None, refused: None })
}

/// Reports the word for the thickness of boards in a sheet, or that of sheets in
/// lumber.
fn of_another_kind(
    said: &Entry,
    kind: StockKind,
    own: Word<takes::Length>,
    is_given: bool,
) -> Diagnostic {
    let (other, own) = (said.word.word, own.spelling());
    let title = format!("`{other}` can't stand in a stock of {}", kind.spelling());
    let (is_for, meaning) = match kind {
        StockKind::Lumber => ("this is for sheets", "the thickness that lumber is planed to"),
        StockKind::Plywood
        | StockKind::Mdf
        | StockKind::Particleboard
        | StockKind::Hardboard
        | StockKind::Glass
        | StockKind::Banding => ("this is for lumber", "the sheet's thickness as measured"),
    };
    let found = Diagnostic::error("word-unknown", title, said.head, is_for);
    match is_given {
        true => found.note(format!("`{own}` gives {meaning}")),
        false => {
            let title = format!("write `{own}`, which gives {meaning}");
            found.fix(Fix::new(Grade::Choice, title, said.span, own))
        }
    }
}

fn unplaned(name: &str, lumber: Span) -> Diagnostic {
    Diagnostic::error(
        "word-missing",
        format!("`{name}` needs its planed thickness"),
        lumber,
        "`thickness` is missing",
    )
    .fix(Fix::new(
        Grade::Sketch,
        "add the planed thickness",
        Span { start: lumber.end, ..lumber },
        "; thickness 3/4",
    ))
}

/// The thickness with what a caliper read in its place, where that can be right.
fn measured_over(
    written: Thickness,
    name: &str,
    measured: Option<Sourced<Length>>,
    ctx: &mut Lower,
) -> Thickness {
    let called = written.size.length;
    match measured {
        Some(actual) if is_slip(actual.value, called) => {
            let refused = Some((actual.value, actual.span_or(written.span)));
            Thickness { refused, ..written }
        }
        Some(actual) if actual.value != called => {
            let span = actual.span_or(written.span);
            let size = ctx.facts.sourced(actual, format!("thickness of {name}, measured"));
            Thickness { size, span, replaced: Some((called, written.span)), refused: None }
        }
        _ => written,
    }
}

fn is_slip(thickness: Length, called: Length) -> bool {
    (thickness - called).abs() > trade::thickness_off(called)
}

/// Reports a sheet that can't be as thick as is written of what it is sold as.
fn absurd(
    name: &str,
    written: &Thickness,
    (nominal, nominal_span): (Length, Span),
    ctx: &mut Lower,
) {
    let (actual, span) = (written.size.length, written.span);
    if !is_slip(actual, nominal) {
        return;
    }
    let tape = ctx.tape;
    let title = format!(
        "{name} can't be {} thick, because it is sold as {}",
        tape.figure_with_unit(actual),
        tape.figure_with_unit(nominal)
    );
    let mut found = Diagnostic::error("absurd-size", title, span, tape.figure_with_unit(actual))
        .label(nominal_span, format!("sold as {}", tape.figure_with_unit(nominal)))
        .note("check the figure; if the caliper really reads that, also correct what the sheet is sold as");
    if let Some(meant) = trade::meant(actual, tape.unit, |length| !is_slip(length, nominal)) {
        let meant = tape.decimal_source(meant);
        let title = format!("{meant}, if that is what you meant");
        found = found.fix(Fix::new(Grade::Choice, title, span, format!("actual {meant}")));
    }
    ctx.sink.push(found);
}

/// How many faces come with a finish; reported of what comes bare.
fn prefinished(body: &Entries, kind: StockKind, ctx: &mut Lower) -> Option<Spanned<u32>> {
    let said = body.one(words::stock::PREFINISHED)?;
    match kind {
        StockKind::Plywood | StockKind::Mdf | StockKind::Particleboard | StockKind::Hardboard => {
            said.value().map(|faces| Spanned::new(*faces.value, said.head))
        }
        StockKind::Lumber | StockKind::Glass | StockKind::Banding => {
            let title = format!("`prefinished` can't stand in a stock of {}", kind.spelling());
            let found =
                Diagnostic::error("not-supported-yet", title, said.head, "this is for sheets");
            ctx.sink.push(found.note(
                "take it out: boards are planed, and edges are trimmed, and then they are bare",
            ));
            None
        }
    }
}

fn sheets(body: &Entries) -> Vec<Sheet> {
    let read = |sheet: &Entries| {
        Some(Sheet {
            long: sheet.get(words::sheet::LONG)?.value,
            wide: sheet.get(words::sheet::WIDE)?.value,
            grain: sheet.get(words::sheet::GRAIN)?.value,
            price: sheet.get(words::sheet::PRICE).map(|price| price.value),
        })
    };
    let all = body.all(words::stock::SHEET).filter_map(Said::body).filter_map(read);
    let mut all: Vec<Sheet> = all.collect();
    let Some(grain) = all.first().map(|first| first.grain) else { return all };
    for own in &mut all {
        let [long, wide] = own.lying([own.long, own.wide]);
        *own = Sheet { grain, ..*own };
        [own.long, own.wide] = own.lying([long, wide]);
    }
    all
}

fn boards(body: &Entries) -> Option<Boards> {
    let boards = body.one(words::stock::BOARDS)?.body()?;
    let wide = boards.get(words::boards::WIDE)?.value;
    Some(Boards { wide, long: boards.get(words::boards::LONG)?.value })
}
