//! The packet as data for other programs: what `schema/packet.json` describes.

mod bases;
mod boards;
mod covers;
mod done;
mod fitted;
mod glass;
mod laid_on;
mod layout;
mod lines;
mod miters;
mod on_legs;
mod opens;
mod pin_rows;
mod record;
mod sections;
mod sheets;
mod stacked;
mod walled;
mod wooden;
mod work;

use std::collections::BTreeMap;

use crate::diagnostics::render;
use crate::measure::{Duration, Exact, FileId, Length, Tape};
use crate::model::{StockId, StockKind};
use crate::parts::{Direction, Face, Grain, JointSort, Part, PartId};
use crate::pipeline::Compilation;
use crate::plans::Workings;
use crate::plans::fitting::pins;
use crate::plans::made::Space;

use super::words;
use lines::Lines;
use record::{
    Data, Drawn, DrawnFeature, DrawnPart, EdgeData, Faces, Figure, Job, JointData, PartData, Place,
    Plan, Shop, Stock, Tool,
};

/// The version of the schema; increases when a field changes or is removed.
const SCHEMA: u32 = 2;

/// The packet of a sound piece, as one text.
pub(super) fn packet(compiled: &Compilation, work: &Workings<'_>, hash: &str) -> String {
    let tape = *work.piece.tape();
    let lines = Lines::of(compiled, tape.unit);
    let data = Data::of(&Maker { compiled, work, tape, lines }, hash);
    render::json_line(&data)
}

/// What lengths, marks and places are told from.
struct Maker<'m, 'a> {
    compiled: &'m Compilation,
    work: &'m Workings<'a>,
    tape: Tape,
    lines: Lines<'m>,
}

impl<'d> Data<'d> {
    fn of(maker: &Maker<'d, '_>, hash: &'d str) -> Self {
        let work = maker.work;
        let (piece, parts) = (work.piece, work.parts);
        Self {
            schema: SCHEMA,
            job: Job {
                name: &piece.job.name,
                revision: &piece.job.revision,
                hash,
                unit: maker.tape.unit.name(),
                tape: maker.figure(maker.tape.mark),
            },
            shop: Shop {
                base_plate: maker.figure(piece.shop.base_plate),
                kerf: maker.figure(piece.shop.kerf),
            },
            stocks: piece
                .stocks
                .iter()
                .map(|stock| Stock {
                    name: &stock.name,
                    form: match stock.kind {
                        StockKind::Lumber => "boards",
                        StockKind::Banding => "roll",
                        StockKind::Glass => "glass",
                        StockKind::Plywood
                        | StockKind::Mdf
                        | StockKind::Particleboard
                        | StockKind::Hardboard => "sheet",
                    },
                    thickness: maker.figure(stock.thickness.length),
                    movement: stock.wood.map(|wood| stock.sawn.coefficient(&wood)),
                })
                .collect(),
            sheets: maker.sheets(),
            boards: maker.boards(),
            tools: maker.tools(),
            parts: parts.iter().map(|(id, part)| maker.part(id, part)).collect(),
            joints: parts
                .joints
                .iter()
                .map(|joint| JointData {
                    kind: joint_kind(joint.sort),
                    part: parts.mark(joint.part),
                    into: parts.mark(joint.into),
                    glued: joint.glued,
                    spec: maker.lines.number(joint.span),
                })
                .collect(),
            plan: maker.plan(),
            steps: maker.steps(),
            operations: work
                .operations()
                .all
                .iter()
                .filter_map(|own| maker.operation(own))
                .collect(),
            layout: work.layout().sticks.iter().filter_map(|own| maker.stick(own)).collect(),
            opens: maker.opens(),
            gaps: maker.gaps(),
            weights: maker.weights(),
            hardware: maker.hardware_list(),
            findings: maker.findings(),
            drawn: Drawn {
                parts: {
                    let raised = pins::raised(work.pin_rows());
                    parts.all.iter().map(|part| maker.drawn(part, &raised)).collect()
                },
            },
            // Behind all that asks for lines.
            lines: maker.all_lines(),
        }
    }
}

impl<'d> Maker<'d, '_> {
    fn figure(&self, length: Length) -> Figure {
        Figure { exact: exact(length.in_unit(self.tape.unit)), print: self.tape.text(length) }
    }

    /// A figure of a maker's sheet, in whole or tenth millimeters where it is one.
    fn hardware(&self, length: Length) -> Figure {
        let own = self.figure(length);
        Figure { print: self.tape.hardware(length).unwrap_or(own.print), exact: own.exact }
    }

    /// What must not be less: at the mark above it.
    fn at_least(&self, length: Length) -> Figure {
        Figure { print: self.tape.exact(self.tape.up(length)), ..self.figure(length) }
    }

    /// A length of time: exactly in minutes.
    fn time(long: Duration) -> Figure {
        Figure { exact: exact(long.0), print: long.to_string() }
    }

    fn plan(&self) -> Plan {
        let schedule = &self.work.assembly().schedule;
        Plan {
            hands: Self::time(schedule.hands),
            longest: Self::time(schedule.longest),
            days: schedule.days,
            day: Self::time(self.work.piece.shop.day),
        }
    }

    /// A setting or depth of a joint: as fine as the papers print it.
    fn mating(&self, length: Length) -> Figure {
        let mut figure = self.figure(length);
        if self.tape.print(length).is_rounded() {
            figure.print = self.tape.fine(length);
        }
        figure
    }

    /// A limit that is finer than any tape.
    fn fine(&self, length: Length) -> Figure {
        Figure { print: self.tape.fine(length), ..self.figure(length) }
    }

    /// A limit that must not be passed: at the mark below it, or finer where no
    /// mark is.
    fn at_most(&self, length: Length) -> Figure {
        let shown = self.tape.down(length);
        let print = match shown.is_positive() {
            true => self.tape.exact(shown),
            false => self.tape.fine(length),
        };
        Figure { print, ..self.figure(length) }
    }

    fn figures(&self, lengths: [Length; 3]) -> [Figure; 3] {
        lengths.map(|length| self.figure(length))
    }

    /// A file without its folders: the same texts give the same bytes anywhere.
    fn file(&self, id: FileId) -> &'d str {
        let path = self.compiled.sources.get(id).map_or("", |source| &*source.name);
        path.rsplit(['/', '\\']).next().unwrap_or(path)
    }

    fn all_lines(&self) -> Vec<Place<'d>> {
        let known = self.lines.known().into_iter();
        known.map(|(file, line)| Place { file: self.file(file), line }).collect()
    }

    fn mark(&self, id: PartId) -> &'d str {
        self.work.parts.mark(id)
    }

    fn marks(&self, ids: &[PartId]) -> Vec<&'d str> {
        ids.iter().map(|id| self.mark(*id)).collect()
    }

    fn stock(&self, part: &Part) -> &'d str {
        self.work.piece.stock(part.stock).map_or("", |stock| stock.name.as_str())
    }

    fn stock_named(&self, id: StockId) -> &'d str {
        self.work.piece.stock(id).map_or("", |stock| stock.name.as_str())
    }

    /// The bits of the set-ups, each once.
    fn tools(&self) -> Vec<Tool> {
        let mut tools: Vec<Tool> = Vec::new();
        for setup in self.work.setups() {
            let (id, shape) = (work::tool_id(setup), work::shape(self.work.piece, setup));
            if tools.iter().all(|tool| tool.id != id) {
                let diameter = self.figure(setup.cutter.diameter);
                let cutter = &setup.cutter;
                tools.push(Tool {
                    id,
                    shape,
                    diameter,
                    speed: cutter.speed,
                    shank: cutter.shank.map(|shank| self.figure(shank)),
                    name: cutter.name.clone(),
                });
            }
        }
        tools
    }

    fn part(&self, id: PartId, part: &'d Part) -> PartData<'d> {
        let names = |start, end| [part.face_name(start), part.face_name(end)];
        PartData {
            mark: &part.mark,
            name: words::name(part, self.work.piece),
            path: &part.path,
            stock: self.stock(part),
            grain: match part.grain {
                Grain::Length => "length",
                Grain::None => "none",
            },
            edges: part
                .strips
                .iter()
                .map(|strip| EdgeData {
                    face: part.face_name(strip.face),
                    stock: self.stock_named(strip.stock),
                    thick: self.figure(strip.thick.length),
                })
                .collect(),
            faces: Faces {
                length: names(Face::LengthStart, Face::LengthEnd),
                width: names(Face::WidthStart, Face::WidthEnd),
                thickness: names(Face::ThickStart, Face::ThickEnd),
            },
            from: [&part.length, &part.width, &part.thickness]
                .map(|size| self.lines.of_sizes(&self.work.piece.facts, [size])),
            spec: self.lines.number(part.span),
            cut: self.work.ledger().is_cut(id),
        }
    }

    fn drawn(&self, part: &'d Part, raised: &BTreeMap<&str, Length>) -> DrawnPart<'d> {
        let place = &part.placement;
        let at = place.origin;
        // A loose shelf lies on its pins.
        let up = raised.get(&*part.path).copied().unwrap_or_default();
        DrawnPart {
            mark: &part.mark,
            size: self.figures(part.sizes()),
            at: self.figures([at.x, at.y + up, at.z]),
            axes: [place.length, place.width, place.thickness].map(axis),
            features: part
                .features
                .iter()
                .map(|feature| {
                    let Space(space) = Space::of(part, feature);
                    DrawnFeature {
                        kind: feature.kind.word(),
                        face: part.face_name(feature.face),
                        from: self.figures(space.map(|range| range.0)),
                        to: self.figures(space.map(|range| range.1)),
                    }
                })
                .collect(),
        }
    }
}

/// A whole number or a fraction.
fn exact(number: Exact) -> String {
    match (number.numer(), number.denom()) {
        (numer, 1) => numer.to_string(),
        (numer, denom) => format!("{numer}/{denom}"),
    }
}

fn axis(direction: Direction) -> &'static str {
    match direction {
        Direction::X => "x",
        Direction::Y => "y",
        Direction::Z => "z",
    }
}

fn joint_kind(sort: JointSort) -> &'static str {
    match sort {
        JointSort::Wood(kind) => match kind.word() {
            "butt joint" => "butt",
            word => word,
        },
        JointSort::Miter => "miter",
        JointSort::Floating => "floating",
        JointSort::Glazed => "glazed",
        JointSort::Pinned => "pinned",
        JointSort::Planted => "planted",
        JointSort::Hung => "hung",
        JointSort::Slid => "slid",
        JointSort::Laid => "laid",
        JointSort::FrontFixed => "front fixed",
    }
}
