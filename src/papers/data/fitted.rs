//! What is fitted by the fitting sheet: rows of pins, slides, fronts, hinges, and
//! what holds them.

use serde::Serialize;

use crate::model::{Set, Side, Stock};
use crate::parts::{Direction, Front, Part};
use crate::plans::fitting::{self, Fastening, HungAt, Long, OntoBox, Spacer};
use crate::plans::seasons::Gap;
use crate::trade;

use super::Maker;
use super::lines::Refs;
use super::record::Figure;
use crate::papers::fitting::{catch_kind, fastened, purpose};
use crate::papers::gaps;

#[derive(Serialize)]
pub(super) struct Fasten<'d> {
    what: String,
    #[serde(rename = "for")]
    purpose: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    size: Option<Size>,
    #[serde(skip_serializing_if = "Option::is_none")]
    gauge: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hole: Option<Figure>,
    #[serde(rename = "in")]
    places: Vec<At<'d>>,
}

/// How long, or of plates and pins how wide.
#[derive(Serialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Size {
    Is(Figure),
    AtLeast(Figure),
    Between([Figure; 2]),
}

#[derive(Serialize)]
pub(super) struct At<'d> {
    part: &'d str,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    into: Vec<&'d str>,
    count: u32,
}

#[derive(Serialize)]
pub(super) struct Slide<'d> {
    opening: &'d str,
    slide: &'d str,
    line: &'static str,
    above_opening: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    above_bottom: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    set_back: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    ahead: Option<Figure>,
    long: Figure,
    used: Figure,
    clear: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    nailer: Option<&'d str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    up_box: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    box_high: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    box_less: Option<[Figure; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    box_above: Option<Figure>,
    on: Vec<Carrier<'d>>,
    lines: Refs,
}

#[derive(Serialize)]
pub(super) struct Carrier<'d> {
    side: &'static str,
    board: &'d str,
    #[serde(skip_serializing_if = "Option::is_none")]
    packer: Option<Placed<'d>>,
}

/// A packer or a block in its place on a board.
#[derive(Serialize)]
pub(super) struct Placed<'d> {
    part: &'d str,
    on: &'d str,
    above_end: Figure,
    above_opening: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    from_edge: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    past_edge: Option<Figure>,
}

/// The strip that a door closes against.
#[derive(Serialize)]
pub(super) struct Stop<'d> {
    opening: &'d str,
    edge: &'static str,
    on: &'d str,
    face: String,
    doors: Vec<&'d str>,
    stock: &'d str,
    size: [Figure; 3],
    over: Figure,
    gap: Figure,
    set_back: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    screws: Option<u32>,
    lines: Refs,
}

/// What holds a leaf shut.
#[derive(Serialize)]
pub(super) struct Catch<'d> {
    opening: &'d str,
    doors: Vec<&'d str>,
    what: &'static str,
    edge: &'static str,
    from_corner: Figure,
    lines: Refs,
}

/// A hanging rail.
#[derive(Serialize)]
pub(super) struct Rail<'d> {
    opening: &'d str,
    diameter: Figure,
    of: String,
    long: Figure,
    between: Figure,
    above_opening: Figure,
    screws: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    screw: Option<Figure>,
    on: Vec<Cup<'d>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hangs_from: Option<&'d str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    hangers: Vec<Figure>,
    lines: Refs,
}

/// The cup at an end of a rail.
#[derive(Serialize)]
pub(super) struct Cup<'d> {
    part: &'d str,
    face: String,
    from: [String; 2],
    above_end: Figure,
    from_edge: Figure,
}

#[derive(Serialize)]
pub(super) struct FrontOn<'d> {
    part: &'d str,
    thick: Figure,
    box_front: Figure,
    pilot: Figure,
    wood_left: Figure,
}

#[derive(Serialize)]
pub(super) struct Hinge<'d> {
    door: &'d str,
    number: u32,
    on_door: Figure,
    hangs_on: &'d str,
    on_part: Figure,
    above_opening: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    over: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    plate: Option<Plate<'d>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    block: Option<Placed<'d>>,
    lines: Refs,
}

#[derive(Serialize)]
pub(super) struct Plate<'d> {
    part: &'d str,
    face: String,
    screws: [Figure; 2],
    line: Figure,
    diameter: Figure,
    deep: Figure,
}

#[derive(Serialize)]
pub(super) struct Spaced<'d> {
    long: Figure,
    pieces: u32,
    openings: Vec<&'d str>,
}

#[derive(Serialize)]
pub(super) struct Fit<'d> {
    front: String,
    parts: Vec<&'d str>,
    shaving: Figure,
    gaps: Vec<Edge>,
}

#[derive(Serialize)]
pub(super) struct Edge {
    edge: &'static str,
    gap: Figure,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn stop(&self, own: &'d fitting::Stop<'d>) -> Stop<'d> {
        let stock = self.work.piece.stock(own.stock);
        let fronts = own.opening.front.as_ref();
        let said = fronts.and_then(|fronts| fronts.stop).map(|stop| stop.span);
        Stop {
            opening: own.opening.title(),
            edge: own.edge.word(),
            on: own.on.map_or("", |on| &on.mark),
            face: own.on.zip(own.face).map_or_else(String::new, |(on, face)| on.face_name(face)),
            doors: self.doors(|front| front.id.opening == own.opening.id),
            stock: stock.map_or("", |stock| &stock.name),
            size: own.size.each_ref().map(|size| self.figure(size.length)),
            over: self.figure(own.over),
            gap: self.figure(own.gap),
            set_back: self.figure(own.set_back.length),
            screws: own.screws(self.work.piece.tape().unit).map(|(count, _)| count),
            lines: self.lines.at(said.into_iter().chain([own.opening.span])),
        }
    }

    pub(super) fn catch(&self, own: &'d fitting::Catch<'d>) -> Catch<'d> {
        let fronts = own.opening.front.as_ref();
        let said = fronts.and_then(|fronts| fronts.catch).map(|catch| catch.span);
        Catch {
            opening: own.opening.title(),
            doors: self.doors(|front| front.id == own.front),
            what: catch_kind(own.kind),
            edge: own.edge.word(),
            from_corner: self.figure(own.along),
            lines: self.lines.at(said.into_iter().chain([own.opening.span])),
        }
    }

    /// The marks of the boards of some fronts.
    fn doors(&self, is: impl Fn(&Front<'_>) -> bool) -> Vec<&'d str> {
        let fronts = self.work.fronts().iter().filter(|front| is(front));
        fronts.flat_map(|front| front.parts.iter().map(|part| &*part.mark)).collect()
    }

    pub(super) fn rail(&self, own: &'d fitting::Rail<'d>) -> Rail<'d> {
        let stock = own.rod.stock.and_then(|stock| self.work.piece.stock(stock));
        let cup = |end: &fitting::RailEnd<'d>| {
            let board = end.board;
            let near = |direction| board.face_name(board.placement.face(direction, true));
            Cup {
                part: &board.mark,
                face: board.face_name(end.face),
                from: [near(Direction::Y), near(Direction::Z)],
                above_end: self.figure(end.above_end.length),
                from_edge: self.figure(end.from_edge.length),
            }
        };
        let above = own.above.filter(|_| !own.hangers.is_empty());
        Rail {
            opening: own.opening.title(),
            diameter: self.hardware(own.rod.diameter),
            of: stock.map_or_else(|| "steel tube".to_owned(), Stock::wood_name),
            long: self.figure(own.long.length),
            between: self.figure(own.clear.length),
            above_opening: self.figure(own.above_opening.length),
            screws: own.screw_count(),
            screw: match own.screws(self.tape.unit) {
                Long::Is(long) => Some(self.hardware(long)),
                Long::BySheet | Long::AtLeast(_) | Long::Between(..) => None,
            },
            on: own.ends.iter().map(cup).collect(),
            hangs_from: above.map(|above| &*above.mark),
            hangers: own.hangers.iter().map(|place| self.figure(*place)).collect(),
            lines: self.lines.at([own.rod.span]),
        }
    }

    pub(super) fn fasten(&self, all: &[&'d Fastening<'d>]) -> Option<Fasten<'d>> {
        let first = all.first()?;
        let unit = self.work.piece.tape().unit;
        Some(Fasten {
            what: fastened(first.purpose),
            purpose: purpose(first.purpose),
            size: match first.long {
                Long::BySheet => None,
                Long::Is(long) => Some(Size::Is(self.hardware(long))),
                Long::AtLeast(long) => Some(Size::AtLeast(self.at_least(long))),
                Long::Between(least, most) => {
                    Some(Size::Between([self.figure(least), self.figure(most)]))
                }
            },
            gauge: first.gauge(unit).map(|own| own.name(unit)),
            hole: first.hole.map(|hole| self.hardware(hole)),
            places: all
                .iter()
                .map(|own| At {
                    part: &own.part.mark,
                    into: own.into.iter().map(|part| &*part.mark).collect(),
                    count: own.count,
                })
                .collect(),
        })
    }

    pub(super) fn slide(&self, own: &'d fitting::Drawer<'d>) -> Slide<'d> {
        let past = |side: Side| side.of(&own.opening.clear).length;
        let packer = |packer: fitting::slides::Packer<'d>, board: &'d Part, side: Side| Placed {
            part: &packer.part.mark,
            on: &board.mark,
            above_end: self.figure(packer.above_end),
            above_opening: self.figure(packer.above_opening),
            from_edge: Some(self.figure(packer.from_edge)),
            past_edge: past(side).is_positive().then(|| self.figure(past(side))),
        };
        let ahead = own.set_back.is_none() && own.ahead.length.is_positive();
        Slide {
            opening: own.opening.title(),
            slide: &own.slide.name,
            line: own.line.word(),
            above_opening: self.figure(own.above_opening.length),
            above_bottom: own.above_bottom.map(|above| self.figure(above)),
            set_back: own.set_back.as_ref().map(|back| self.figure(back.length)),
            ahead: ahead.then(|| self.figure(own.ahead.length)),
            long: self.figure(own.hardware.length.length),
            used: self.figure(own.used.length),
            clear: self.figure(own.left.length),
            nailer: own.nailer.map(|nailer| nailer.mark.as_str()),
            up_box: own.up_box.map(|up| self.figure(up)),
            box_high: own.opening.box_high().map(|high| self.figure(high.length)),
            box_less: own.box_less.map(|less| less.map(|less| self.figure(less))),
            box_above: own.box_above.map(|above| self.figure(above)),
            on: own
                .carriers
                .iter()
                .map(|carrier| Carrier {
                    side: carrier.side.word(),
                    board: &carrier.board.mark,
                    packer: carrier.packer.map(|own| packer(own, carrier.board, carrier.side)),
                })
                .collect(),
            lines: self.lines.of_sizes(
                &self.work.piece.facts,
                [&own.above_opening, &own.used, &own.left].into_iter().chain(&own.set_back),
            ),
        }
    }

    pub(super) fn front_on(&self, own: &'d OntoBox<'d>) -> FrontOn<'d> {
        FrontOn {
            part: &own.front.mark,
            thick: self.figure(own.thick),
            box_front: self.figure(own.box_front),
            pilot: self.figure(own.pilot()),
            wood_left: self.figure(own.wood_left()),
        }
    }

    pub(super) fn hinge(&self, own: &'d HungAt<'d>) -> Hinge<'d> {
        Hinge {
            door: &own.leaf.mark,
            number: own.number,
            on_door: self.figure(own.on_leaf),
            hangs_on: &own.holder.mark,
            on_part: self.figure(own.on_holder),
            above_opening: self.figure(own.above_opening),
            over: own.over.as_ref().map(|over| self.figure(over.length)),
            plate: own.plate.map(|plate| Plate {
                part: &plate.part.mark,
                face: plate.part.face_name(plate.face),
                screws: plate.screws.map(|at| self.figure(at)),
                line: self.figure(plate.line),
                diameter: self.hardware(plate.hole),
                deep: self.hardware(plate.deep),
            }),
            block: own.block.map(|block| Placed {
                part: &block.part.mark,
                on: &block.on.mark,
                above_end: self.figure(block.above_end),
                above_opening: self.figure(block.above_opening),
                from_edge: None,
                past_edge: None,
            }),
            lines: self.hung_by(own.leaf),
        }
    }

    /// The lines of the opening of a door and of its hinge.
    fn hung_by(&self, leaf: &Part) -> Refs {
        let opening = leaf.opening().and_then(|id| self.work.piece.opening(id));
        let hinge = opening.and_then(|opening| opening.front.as_ref()?.hinge);
        self.lines.at(opening.map(|opening| opening.span).into_iter().chain(hinge.map(|own| own.1)))
    }

    pub(super) fn spacer(&self, own: &'d Spacer<'d>) -> Spaced<'d> {
        Spaced {
            long: self.figure(own.long),
            pieces: 2,
            openings: own.openings.iter().map(|opening| opening.title()).collect(),
        }
    }

    /// The gaps that a front is shimmed to. One between two fronts belongs to both.
    pub(super) fn fit(&self, front: &'d crate::parts::Front<'d>) -> Fit<'d> {
        let own = |gap: &&Gap<'_>| gap.front.id == front.id && front.fronts.set == Set::Inset;
        let gaps = self.work.gaps_of(front.case).iter();
        Fit {
            front: gaps::front(front),
            parts: front.parts.iter().map(|part| &*part.mark).collect(),
            shaving: self.figure(trade::shaving(self.tape.unit)),
            gaps: gaps
                .filter(own)
                .map(|gap| Edge { edge: gap.edge_name(), gap: self.figure(gap.fitted) })
                .collect(),
        }
    }
}
