//! What is not done but known: the gaps through the year, the weights, the
//! hardware, and what was found.

use serde::Serialize;

use crate::diagnostics::Diagnostic;
use crate::measure::{Exact, Length, Span};
use crate::model::{Fixing, HingeKind, StockId};
use crate::papers::{gaps, weights, words};
use crate::plans::hardware::{self, Kind};
use crate::plans::seasons::{Float, Gap};
use crate::trade;

use super::Maker;
use super::done::AirData;
use super::lines::Refs;
use super::record::Figure;

#[derive(Serialize)]
pub(super) struct Gaps<'d> {
    milled: AirData,
    driest: AirData,
    dampest: AirData,
    warm: Figure,
    from: Refs,
    edges: Vec<GapData>,
    panels: Vec<Panel<'d>>,
}

#[derive(Serialize)]
pub(super) struct GapData {
    front: String,
    edge: &'static str,
    beside: String,
    fitted: Figure,
    driest: Figure,
    dampest: Figure,
    likely: Figure,
    worst: Figure,
    from: Refs,
}

/// A panel that floats: what is left on each side of it in its groove.
#[derive(Serialize)]
pub(super) struct Panel<'d> {
    part: &'d str,
    room: Figure,
    driest: Figure,
    dampest: Figure,
}

#[derive(Serialize)]
pub(super) struct Weights<'d> {
    moisture: i64,
    stocks: Vec<Density<'d>>,
    lifted: Vec<LiftedData>,
    whole: Mass,
    parts: Vec<(&'d str, i64)>,
}

#[derive(Serialize)]
pub(super) struct Density<'d> {
    stock: &'d str,
    density: Mass,
    known: bool,
    from: Refs,
}

#[derive(Serialize)]
pub(super) struct LiftedData {
    kind: &'static str,
    name: String,
    #[serde(flatten)]
    mass: Mass,
}

/// Whole grams, or kilograms to the cubic meter, and as printed.
#[derive(Serialize)]
pub(super) struct Mass {
    exact: i64,
    print: String,
}

#[derive(Serialize)]
pub(super) struct Hardware<'d> {
    kind: &'static str,
    name: &'d str,
    count: u32,
    figures: Vec<Told>,
}

#[derive(Serialize)]
pub(super) struct Told {
    what: &'static str,
    #[serde(flatten)]
    figure: Figure,
    from: Refs,
}

#[derive(Serialize)]
pub(super) struct Found<'d> {
    slug: &'d str,
    severity: &'static str,
    title: &'d str,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    subjects: Vec<&'d str>,
    spec: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    accepted: Option<Accepted<'d>>,
}

#[derive(Serialize)]
pub(super) struct Accepted<'d> {
    reason: &'d str,
    spec: Option<usize>,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn gaps(&self) -> Gaps<'d> {
        let (work, climate) = (self.work, self.work.climate());
        let panel = |float: &Float<'d>| Panel {
            part: &float.panel.mark,
            room: self.fine(float.room),
            driest: self.fine(float.driest),
            dampest: self.fine(float.dampest),
        };
        Gaps {
            milled: AirData::of(&climate.milled),
            driest: AirData::of(&climate.driest),
            dampest: AirData::of(&climate.dampest),
            warm: Figure {
                exact: super::exact(work.piece.site.temperature.0),
                print: words::warm(work.piece),
            },
            from: self.lines.at(work.piece.site.humidity_span),
            edges: work.gaps().iter().map(|gap| self.gap(gap)).collect(),
            panels: work.floats().iter().map(panel).collect(),
        }
    }

    /// A gap, with the lines of the reveal and of the woods that move.
    fn gap(&self, gap: &Gap<'_>) -> GapData {
        let fronts = gap.front.fronts;
        let reveal = if gap.meeting { fronts.meeting_span } else { fronts.gap_span };
        let woods = gap.swells.iter().filter_map(|swell| self.work.piece.stock(swell.stock));
        let season = |length: Length| Figure {
            print: gaps::season(&self.tape, length),
            ..self.figure(length)
        };
        GapData {
            front: gaps::front(&gap.front),
            edge: gap.edge_name(),
            beside: gaps::beside(self.work.piece, gap),
            fitted: self.figure(gap.fitted),
            driest: season(gap.driest),
            dampest: season(gap.dampest),
            likely: self.fine(gap.stack.likely()),
            worst: self.fine(gap.stack.worst()),
            from: self
                .lines
                .at(std::iter::once(reveal).chain(woods.map(|stock| stock.species_span))),
        }
    }

    pub(super) fn weights(&self) -> Weights<'d> {
        let work = self.work;
        let (piece, all) = (work.piece, work.weights());
        let (groups, whole) = weights::groups(work);
        let stocks = (0..).zip(&piece.stocks).map(|(index, stock)| {
            let density = piece.density(StockId(index));
            let written = self.lines.word(stock.span, "gravity");
            Density {
                stock: &stock.name,
                density: Mass { exact: density.round() as i64, print: format!("{density:.0}") },
                known: !all.guessed.contains(&index),
                from: match written.is_empty() {
                    true => self.lines.at([stock.species_span]),
                    false => written,
                },
            }
        });
        let lifted = groups.into_iter().flat_map(|group| {
            let kind = group.name;
            group.lines.into_iter().map(move |line| LiftedData {
                kind,
                name: line.name,
                mass: Mass { exact: line.body.grams, print: line.shown },
            })
        });
        let parts = work.parts.all.iter().zip(&all.parts);
        Weights {
            moisture: trade::BASIS,
            stocks: stocks.collect(),
            lifted: lifted.collect(),
            whole: Mass { exact: all.whole().grams, print: whole },
            parts: parts.map(|(part, body)| (&*part.mark, body.grams)).collect(),
        }
    }

    pub(super) fn hardware_list(&self) -> Vec<Hardware<'d>> {
        let counted = hardware::count(self.work.piece);
        counted.into_iter().filter_map(|own| self.hardware_of(own.kind, own.number)).collect()
    }

    fn hardware_of(&self, kind: Kind, count: u32) -> Option<Hardware<'d>> {
        let piece = self.work.piece;
        let told = |head: Span, path: &str, what, figure| Told {
            what,
            figure,
            from: self.lines.word(head, path),
        };
        let number = |number: Exact, print: String| Figure { exact: super::exact(number), print };
        Some(match kind {
            Kind::Hinge(id) => {
                let hinge = piece.hinge(id)?;
                let own = |path, what, length| told(hinge.span, path, what, self.hardware(length));
                let mut figures = Vec::new();
                if hinge.swing_written {
                    let swing = number(hinge.swing.0, hinge.swing.0.to_string());
                    figures.push(told(hinge.span, "swing", "opens to, in degrees", swing));
                }
                if let HingeKind::Cup { diameter, bore, from_edge, plate, .. } = hinge.kind {
                    figures.push(own("cup", "cup", diameter));
                    figures.push(own("bore", "depth of the cup", bore));
                    figures.push(own("from-edge", "hinge edge to the cup", from_edge));
                    if let Some(plate) = plate {
                        figures.push(own("plate.back", "line of the plate's screws", plate.back));
                        figures.push(own("plate.apart", "plate's screws apart", plate.apart));
                        figures.push(own("plate.screw", "holes of the plate", plate.screw));
                        figures.push(own("plate.deep", "depth of these holes", plate.deep));
                    }
                }
                figures.push(own("gap", "least gap", hinge.gap.length));
                Hardware { kind: "hinge", name: &hinge.name, count, figures }
            }
            Kind::Slide(id) => {
                let slide = piece.slide(id)?;
                let sheet = slide.hardware()?;
                let own = |path, what, length| told(slide.span, path, what, self.figure(length));
                let mut figures = vec![
                    own("length", "length", sheet.length.length),
                    own("room", "needs behind the front", sheet.room.length),
                ];
                if let Some(load) = sheet.load {
                    let load = number(load.0, load.to_string());
                    figures.push(told(slide.span, "load", "carries, in kilograms", load));
                }
                Hardware { kind: "pair of slides", name: &slide.name, count, figures }
            }
            Kind::Pull(id) => {
                let pull = piece.pull(id)?;
                let own = |path, what, length| told(pull.span, path, what, self.hardware(length));
                let mut figures = Vec::new();
                if let Some(centers) = pull.centers {
                    figures.push(own("centers", "between its screws", centers));
                }
                figures.push(own("screw", "holes", pull.screw));
                let screws = hardware::pull_screws(piece, self.work.parts);
                for screws in screws.iter().filter(|screws| screws.pull == id) {
                    let through = [Some(screws.front), screws.box_front].into_iter().flatten();
                    let hollow = screws.hollow.is_positive().then_some(screws.hollow);
                    let part = |what, figure| Told { what, figure, from: Refs::new() };
                    let count = Exact::int(screws.number.into());
                    figures.push(part("screws", number(count, count.to_string())));
                    figures.push(part(
                        "screws, at least",
                        self.at_least(screws.length(piece.tape().unit)),
                    ));
                    figures
                        .extend(through.chain(hollow).map(|own| part("through", self.figure(own))));
                }
                Hardware { kind: "pull", name: &pull.name, count, figures }
            }
            Kind::Leg(id) => {
                let leg = piece.leg(id)?;
                let own = |path, what, length| told(leg.span, path, what, self.hardware(length));
                let hole = leg.fixing.hole();
                let (bore, deep) = match leg.fixing {
                    Fixing::Plate { .. } => ("plate.pilot", "plate.deep"),
                    Fixing::Bolt(_) => ("bolt.bore", "bolt.deep"),
                    Fixing::Dowel(_) => ("dowel.bore", "dowel.deep"),
                };
                let mut figures = vec![
                    own("high", "high", leg.high.length),
                    own("wide", "wide at the top", leg.wide.length),
                    own("foot", "wide at the floor", leg.foot),
                    own(bore, "holes", hole.across),
                    own(deep, "depth of these holes", hole.deep),
                ];
                if leg.adjust.is_positive() {
                    figures.push(own("adjust", "its adjuster turns out", leg.adjust));
                }
                if let Some(load) = leg.load {
                    let load = number(load.0, load.to_string());
                    figures.push(told(leg.span, "load", "carries, in kilograms", load));
                }
                Hardware { kind: "leg", name: &leg.name, count, figures }
            }
        })
    }

    /// What was found and stands, and what the maker has accepted.
    pub(super) fn findings(&self) -> Vec<Found<'d>> {
        let compiled = self.compiled;
        let found = |own: &'d Diagnostic, accepted| Found {
            slug: own.slug,
            severity: own.severity.word(),
            title: &own.title,
            subjects: own.subject.iter().chain(&own.also).map(String::as_str).collect(),
            spec: self.lines.number(own.primary.span),
            accepted,
        };
        let standing = compiled.diagnostics.iter().map(|own| found(own, None));
        let accepts = &self.work.piece.accepts;
        let accepted = compiled.accepted.iter().filter_map(|(own, accept)| {
            let accept = accepts.get(*accept)?;
            let spec = self.lines.number(accept.span);
            Some(found(own, Some(Accepted { reason: &accept.reason, spec })))
        });
        standing.chain(accepted).collect()
    }
}
