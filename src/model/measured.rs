//! Sizes as they came out. A measured stock or shop takes the place of the
//! written figure before the piece is solved; a measured opening counts for
//! what is made after its frame, and leaves the frame as it is drawn.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Date, Length, Percent, Span, Spanned, nearest};
use crate::trade;
use crate::vocabulary::{Entries, Origin, Said, Sourced, takes, words};

use super::came_out::{CameOut, Diagonals};
use super::case::Case;
use super::id::OpeningId;
use super::id::StockId;
use super::lower::Lower;
use super::opening::{Axis, Opening};
use super::shop::Shop;
use super::stock::Stock;

/// What was measured, for the papers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Subject {
    /// An opening.
    Opening(OpeningId),
    /// A stock.
    Stock(StockId),
    /// The air of the shop.
    Humidity,
}

/// A reading that counts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reading {
    /// Of what.
    pub subject: Subject,
    /// The day, where it is said.
    pub date: Option<Date>,
    /// The statement.
    pub span: Span,
}

/// Readings that take the place of written figures.
#[derive(Debug, Default)]
pub(super) struct Replaced {
    /// The name of a stock, and how thick it is.
    pub(super) stocks: Vec<(Spanned<String>, Sourced<Length>)>,
    /// The air of the shop.
    pub(super) humidity: Option<(Percent, Span)>,
}

impl Replaced {
    /// The measured thickness of a stock.
    pub(super) fn thickness(&self, stock: &str) -> Option<Sourced<Length>> {
        self.stocks.iter().find(|(name, _)| name.value == stock).map(|(_, thick)| *thick)
    }
}

/// Reads what is known before the piece is solved.
pub(super) fn replaced(main: &Entries, ctx: &mut Lower) -> Replaced {
    use words::measured::{SHOP, STOCK};
    use words::measured_shop::HUMIDITY;
    use words::measured_stock::ACTUAL;

    let mut found = Replaced::default();
    let mut shop: Option<Span> = None;
    for body in main.all(words::file::MEASURED).filter_map(Said::body) {
        for entry in body.all(STOCK) {
            let (Some(name), Some(inner)) = (entry.value(), entry.body()) else { continue };
            if let Some((first, _)) = found.stocks.iter().find(|(n, _)| n.value == name.value) {
                ctx.sink.push(again(name.value, name.span, first.span));
                continue;
            }
            let Some(actual) = inner.get(ACTUAL) else { continue };
            let span = actual.span_or(entry.head);
            if ctx.positive(inner, ACTUAL, name.value).known().is_some() {
                let name = Spanned::new(name.value.to_owned(), name.span);
                let origin = Origin::Measured(span);
                found.stocks.push((name, Sourced { value: actual.value, origin }));
            }
        }
        let Some(entry) = body.one(SHOP) else { continue };
        let Some(inner) = entry.body() else { continue };
        if let Some(first) = shop {
            ctx.sink.push(again("shop", entry.head, first));
            continue;
        }
        shop = Some(entry.head);
        if let Some(humidity) = inner.get(HUMIDITY) {
            found.humidity = Some((humidity.value, inner.place(HUMIDITY)));
        }
    }
    found
}

/// Puts the readings of openings into the solved cases, and lists every
/// reading that counts.
pub(super) fn openings(
    main: &Entries,
    cases: &mut [Case],
    stocks: &[Stock],
    shop: &Shop,
    ctx: &mut Lower,
) -> Vec<Reading> {
    use words::measured::{OPENING, SHOP, STOCK, WITH};

    let mut readings = Vec::new();
    let mut seen: Vec<(String, Span)> = Vec::new();
    for block in main.all(words::file::MEASURED) {
        let date = block.value().map(|date| *date.value);
        let Some(body) = block.body() else { continue };
        let with = body.get(WITH).map(|with| with.value).unwrap_or_default();
        for entry in body.all(OPENING) {
            let (Some(name), Some(inner)) = (entry.value(), entry.body()) else { continue };
            let name = name.map(|name| name.text().to_owned());
            let Some(place) = find(&name, cases, ctx) else { continue };
            let Some(opening) = cases.get_mut(place.0).and_then(|c| c.openings.get_mut(place.1))
            else {
                continue;
            };
            if let Some((_, first)) = seen.iter().find(|(path, _)| *path == opening.path) {
                ctx.sink.push(again(&name.value, name.span, *first));
                continue;
            }
            seen.push((opening.path.clone(), name.span));
            if read(opening, inner, with, ctx) {
                let subject = Subject::Opening(opening.id);
                readings.push(Reading { subject, date, span: entry.head });
            }
        }
        let of_stock = |entry: Said<'_, takes::Refer<takes::Stock>>| {
            let name = entry.value()?.value;
            let counts = |stock: &Stock| stock.name == name && stock.replaced.is_some();
            let index = stocks.iter().position(counts)?;
            Some(Reading { subject: Subject::Stock(StockId(index)), date, span: entry.head })
        };
        readings.extend(body.all(STOCK).filter_map(of_stock));
        let air = body.one(SHOP).filter(|entry| {
            let place = entry.body().map(|inner| inner.place(words::measured_shop::HUMIDITY));
            place.is_some() && place == shop.humidity_span
        });
        readings.extend(air.map(|entry| Reading {
            subject: Subject::Humidity,
            date,
            span: entry.head,
        }));
    }
    for case in cases {
        follow_doors(case);
    }
    readings
}

/// What stands behind doors from one side of them to the other is as wide as they came
/// out; what was measured itself is known better.
fn follow_doors(case: &mut Case) {
    let follows = |inner: &Opening| {
        let door = case.door_before(inner)?;
        let whole = inner.x == door.x && inner.wide.length == door.wide.length;
        door.came_out.wide.clone().filter(|_| whole && inner.came_out.wide.is_none())
    };
    let found: Vec<Option<super::size::Size>> = case.openings.iter().map(follows).collect();
    for (inner, wide) in case.openings.iter_mut().zip(found) {
        if wide.is_some() {
            inner.came_out.wide = wide;
        }
    }
}

/// Reads one opening; true where something of it is not as drawn.
fn read(opening: &mut Opening, body: &Entries, with: Length, ctx: &mut Lower) -> bool {
    let mut came_out = CameOut::default();
    for axis in Axis::BOTH {
        let word = match axis {
            Axis::Across => words::measured_opening::WIDE,
            Axis::Down => words::measured_opening::HIGH,
        };
        let Some(value) = body.get(word) else { continue };
        if ctx.positive(body, word, word.spelling()).known().is_none() {
            continue;
        }
        let drawn = opening.along(axis).length;
        if (value.value - drawn).abs() <= with {
            continue;
        }
        if (value.value - drawn).abs() > opening.most_off(ctx.tape.unit).0 {
            let place = value.span_or(body.open);
            came_out.refused[usize::from(axis == Axis::Down)] = Some((value.value, place));
            continue;
        }
        let name = format!("{} {} as measured", opening.name(), word.spelling());
        let origin = Origin::Measured(value.span_or(body.open));
        let size = ctx.facts.add(value.value, name, origin);
        match axis {
            Axis::Across => came_out.wide = Some(size),
            Axis::Down => came_out.high = Some(size),
        }
    }
    let diagonals = body.one(words::measured_opening::DIAGONALS).and_then(|entry| {
        let inner = entry.body()?;
        let rising = inner.get(words::diagonals::RISING)?.value;
        let falling = inner.get(words::diagonals::FALLING)?.value;
        Some(Diagonals { rising, falling, with, span: entry.head })
    });
    opening.came_out = came_out;
    // Diagonals are nothing without their sides.
    let sound = opening.came_out.refused.iter().all(Option::is_none);
    if let Some(diagonals) = diagonals.filter(|_| sound) {
        if is_odd(opening, &diagonals, with) {
            opening.came_out.odd = Some(diagonals);
        } else if diagonals.differ() > with {
            opening.came_out.diagonals = Some(diagonals);
        }
    }
    opening.came_out != CameOut::default()
}

/// True for diagonals whose mean is not that of the sides. All four readings
/// may be off: a side moves the diagonal by no more than itself.
fn is_odd(opening: &Opening, diagonals: &Diagonals, with: Length) -> bool {
    let wide = opening.as_built(Axis::Across).length;
    let high = opening.as_built(Axis::Down).length;
    let square = trade::diagonal(wide, high);
    // Sides that lean by s lengthen the mean by about s²/2d: next to nothing
    // before the lean itself is beyond all use.
    let mean = (diagonals.rising + diagonals.falling).half();
    (mean - square).abs() > with * 4
}

/// The opening that a name, or the end of one, means.
fn find(name: &Spanned<String>, cases: &[Case], ctx: &mut Lower) -> Option<(usize, usize)> {
    let dotted = format!(".{}", name.value);
    let all = || {
        cases.iter().enumerate().flat_map(|(c, case)| {
            case.openings.iter().enumerate().map(move |(o, opening)| ((c, o), opening))
        })
    };
    let leaves = || all().filter(|(_, opening)| opening.is_leaf());
    let exact = leaves().find(|(_, opening)| opening.path == name.value);
    let mut ends = leaves().filter(|(_, opening)| opening.path.ends_with(&dotted));
    match (exact, ends.next(), ends.next()) {
        (Some((place, _)), ..) | (None, Some((place, _)), None) => return Some(place),
        (None, Some((_, one)), Some((_, other))) => {
            ctx.sink.push(
                Diagnostic::error(
                    "name-unknown",
                    format!("`{}` is the name of several openings", name.value),
                    name.span,
                    "write more of the name",
                )
                .note(format!("it may be `{}` or `{}`", one.path, other.path)),
            );
            return None;
        }
        (None, None, _) => {}
    }
    let is_list = all().any(|(_, opening)| {
        !opening.is_leaf() && (opening.path == name.value || opening.path.ends_with(&dotted))
    });
    let mut fault = Diagnostic::error(
        "name-unknown",
        format!("no opening is called `{}`", name.value),
        name.span,
        "unknown name",
    );
    let last = |path: &str| path.rsplit('.').next().map(str::to_owned);
    let names: Vec<String> = leaves()
        .map(|(_, opening)| opening.path.clone())
        .chain(leaves().filter_map(|(_, opening)| last(&opening.path)))
        .collect();
    if is_list {
        fault.title = format!("`{}` is a list of openings", name.value);
        fault.primary.text = "this is a list".to_owned();
        fault = fault.note("measure each opening in it under its own name");
    } else if let Some(near) = nearest(&name.value, names.iter().map(String::as_str)) {
        let title = format!("it is the opening `{near}`");
        fault = fault.fix(Fix::new(Grade::Choice, title, name.span, near));
    } else {
        let known: Vec<&str> = leaves().map(|(_, opening)| opening.path.as_str()).collect();
        fault = fault.note(format!("the spec has {}", known.join(", ")));
    }
    ctx.sink.push(fault);
    None
}

fn again(name: &str, span: Span, first: Span) -> Diagnostic {
    Diagnostic::error(
        "name-twice",
        format!("`{name}` is measured twice"),
        span,
        "measured again here",
    )
    .label(first, "measured here first")
    .note("keep the reading that holds")
}
