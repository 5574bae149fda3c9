//! Operations in the terms of the schema.

use serde::Serialize;

use crate::measure::{Length, Tape};
use crate::model::{BitShape, Piece};
use crate::parts::{Direction, Face, FeatureKind, Part, PartId};
use crate::plans::assembly::{Blank, Wait};
use crate::plans::edging;
use crate::plans::guide::Guide;
use crate::plans::operations::{self, Doing, Holes, Move, Operation};
use crate::plans::sawing::Tool;
use crate::plans::setups::Setup;
use crate::plans::torn;
use crate::plans::wall;
use crate::trade;

use super::Maker;
use super::done::Bits;
use super::lines::Refs;
use super::record::{Cured, Figure, Leg, Moved, Square, Step, StepData, Stretch, What};

/// A piece at a set-up of the router or the saw.
#[derive(Serialize)]
pub(super) struct Cut<'d> {
    pub(super) part: &'d str,
    pub(super) face: String,
    pub(super) run: Figure,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub(super) in_stick: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) feed: Option<Feed>,
    pub(super) stops: Vec<Stop>,
    pub(super) supports: Vec<Strip>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) scrap: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) push: Option<&'static str>,
}

/// A strip beside the work that carries the base.
#[derive(Serialize)]
pub(super) struct Strip {
    pub(super) along: String,
    pub(super) wide: Figure,
}

/// Which way the bit goes through the work.
#[derive(Serialize)]
pub(super) struct Feed {
    pub(super) from: String,
    pub(super) to: String,
}

/// How far a cut stops short.
#[derive(Serialize)]
pub(super) struct Stop {
    pub(super) short: Figure,
    pub(super) of: String,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn operation(&self, operation: &'d Operation) -> Option<Step<'d>> {
        let assembly = self.work.assembly();
        let slot = assembly.schedule.slots.get(operation.task);
        let step = slot.map_or(1, |slot| slot.order + 1);
        Some(Step { step, doing: self.what(operation)? })
    }

    /// The steps of the assembly order, in their order.
    pub(super) fn steps(&self) -> Vec<StepData<'d>> {
        let assembly = self.work.assembly();
        let number =
            |index: usize| assembly.schedule.slots.get(index).map_or(0, |own| own.order + 1);
        let mut steps: Vec<StepData<'d>> =
            assembly
                .tasks
                .iter()
                .zip(&assembly.schedule.slots)
                .map(|(task, slot)| {
                    let closing = task.closing.0.is_positive().then_some(task.closing);
                    let mut after: Vec<usize> = task.after.iter().map(|own| number(*own)).collect();
                    after.sort_unstable();
                    StepData {
                        step: slot.order + 1,
                        title: &task.title,
                        day: slot.day,
                        at: Figure {
                            exact: slot.at.to_string(),
                            print: format!("{}:{:02}", slot.at / 60, slot.at % 60),
                        },
                        hands: Self::time(task.hands()),
                        after,
                        critical: slot.critical,
                        clamps: (task.clamps > 0).then_some(task.clamps),
                        closing: closing.map(Self::time),
                        driven: (task.driven > 0).then_some(task.driven),
                        open: closing.map(|_| Self::time(self.work.piece.shop.open_time)),
                        goes: task.goes.iter().map(|parts| self.marks(parts)).collect(),
                        cured: task.cured.iter().map(|own| number(*own)).max().map(|since| Cured {
                            since,
                            long: Self::time(self.work.piece.shop.cure),
                        }),
                        cure: matches!(task.waits_for, Wait::Cure(_))
                            .then(|| Self::time(self.work.piece.shop.cure)),
                        rounds: (task.rounds.len() > 1).then_some(task.rounds.len()),
                    }
                })
                .collect();
        steps.sort_by_key(|own| own.step);
        steps
    }

    fn what(&self, operation: &'d Operation) -> Option<What<'d>> {
        let task = self.work.assembly().tasks.get(operation.task)?;
        let fitting = self.work.fitting();
        Some(match &operation.doing {
            Doing::BreakDown { part, pieces, size } => What::BreakDown {
                part: self.mark(*part),
                stock: self.work.parts.get(*part).map_or("", |part| self.stock(part)),
                size: match self.is_edged(part) {
                    true => size.map(|size| self.mating(size)),
                    false => self.figures(*size),
                },
                pieces: (*pieces > 1).then_some(*pieces),
            },
            Doing::Pane(id) => self.pane(*id)?,
            Doing::Glaze(light) => self.glaze(*light)?,
            Doing::GlueUp { part, way, size, pieces, wide, in_parts } => What::GlueUp {
                part: self.mark(*part),
                way: match way {
                    Blank::Edges => "edge to edge",
                    Blank::Layers => "face to face",
                },
                size: self.figures(*size),
                pieces: *pieces,
                wide: (*way == Blank::Edges).then(|| self.at_least(*wide)),
                planer: in_parts.then(|| self.figure(self.work.piece.shop.planer)),
            },
            Doing::Stick { shorter, parts, pieces, size } => What::Stick {
                shorter: self.figure(*shorter),
                parts: self.marks(parts),
                stock: parts
                    .first()
                    .map_or("", |id| self.work.parts.get(*id).map_or("", |part| self.stock(part))),
                size: self.figures(*size),
                pieces: (*pieces > 1).then_some(*pieces),
            },
            Doing::Spacer(index) => What::Spacers(self.spacer(fitting.spacers.get(*index)?)),
            Doing::Mill { along, to, parts } => {
                // Of a core and its strips every error adds up.
                let is_core = |id: &PartId| {
                    let part = self.work.parts.get(*id);
                    part.is_some_and(|part| !part.is_cut_after(along.faces()))
                };
                let fine = parts.iter().any(|id| self.is_edged(id) && is_core(id));
                let to = if fine { self.mating(*to) } else { self.figure(*to) };
                What::Mill { axis: along.word(), to, parts: self.marks(parts) }
            }
            Doing::Edge(id, number) => self.edge(*id, *number)?,
            Doing::Verify(gate) => What::Verify {
                sheet: gate.sheet.and_then(|id| self.work.piece.stock(id)).map(|own| &*own.name),
                parts: self.marks(&gate.parts),
                what: "thickness",
                figure: self.figure(gate.figure),
                fine: self.tape.fine(gate.figure),
                within: self.fine(gate.within),
                thicker: gate.thicker.word(),
                thinner: gate.thinner.word(),
            },
            Doing::Moisture(read) => What::Moisture {
                what: "moisture",
                stocks: read
                    .stocks
                    .iter()
                    .filter_map(|id| self.work.piece.stock(*id))
                    .map(|stock| &*stock.name)
                    .collect(),
                percent: format!("{:.1}", self.work.climate().milled.moisture),
                within: trade::MOISTURE_WITHIN.to_string(),
                otherwise: "rest",
            },
            Doing::Setting(index) => self.setting(*index)?,
            Doing::Bore(holes) => self.bore(holes),
            Doing::Shape(id, number) => self.shaped(*id, *number)?,
            Doing::Join { joints, moves } => What::Join {
                joints,
                moves: moves.iter().map(|own| self.moved(own)).collect(),
                clamps: (task.clamps > 0).then_some(task.clamps),
                square: task.square.map(|own| Square {
                    sides: [self.figure(own.sides.0), self.figure(own.sides.1)],
                    diagonal: self.tape.text(trade::diagonal(own.sides.0, own.sides.1)),
                    within: self.at_most(own.within),
                    flat: self.at_most(trade::flat_within()),
                }),
            },
            Doing::Fasten(own) => {
                let own =
                    own.iter().filter_map(|index| self.work.fastened().fastenings.get(*index));
                What::Fasten(self.fasten(&own.collect::<Vec<_>>())?)
            }
            Doing::ScrewLine(fastening, line) => {
                let own = self.work.fastened().fastenings.get(*fastening)?.lines.get(*line)?;
                What::ScrewLine(self.screw_line(own))
            }
            Doing::Rows(rows, board) => {
                What::Rows(self.rows(self.work.pin_rows().get(*rows)?, *board)?)
            }
            Doing::Slide(index) => What::Slide(self.slide(fitting.drawers.get(*index)?)),
            Doing::OnWood(index) => What::OnWood(self.on_wood(fitting.on_wood.get(*index)?)),
            Doing::FrontOn(index) => What::FrontOn(self.front_on(fitting.fronts.get(*index)?)),
            Doing::Hinge(index) => What::Hinge(self.hinge(fitting.hinges.get(*index)?)),
            Doing::Stop(index) => What::Stop(self.stop(fitting.stops.get(*index)?)),
            Doing::Catch(index) => What::Catch(self.catch(fitting.catches.get(*index)?)),
            Doing::Rail(index) => What::Rail(self.rail(fitting.rails.get(*index)?)),
            Doing::Fit(id) => {
                What::Fit(self.fit(
                    self.work.fronts_of(id.opening.case).iter().find(|front| front.id == *id)?,
                ))
            }
            Doing::Measure(own) => What::Measure(self.measure(own)),
            Doing::Find(id) => What::Find(self.found(self.work.piece.site.keep_outs.get(id.0)?)),
            Doing::FindBaseboard => What::Find(self.baseboard()?),
            Doing::CutOut { part, keep_out, spare } => {
                let (back, what) =
                    (self.work.parts.get(*part)?, self.work.piece.site.keep_outs.get(keep_out.0)?);
                let kept = wall::cut_out(back, what, *spare)?;
                What::CutOut {
                    part: &back.mark,
                    lies: [Direction::X, Direction::Y].map(|axis| self.figure(back.extent(axis).0)),
                    round: &what.name,
                    spare: self.figure(*spare),
                    kept: kept.map(|(from, to)| [self.figure(from), self.figure(to)]),
                    size: kept.map(|own| self.figure(wall::sawn(&self.tape, own))),
                }
            }
            Doing::DryFit(own) => What::DryFit(self.tried(own)),
            Doing::Tack(parts, screws) => What::Tack { parts: self.marks(parts), screws: *screws },
            Doing::OpenShoulders { parts, from, by } => What::OpenShoulders {
                parts: self.marks(parts),
                from: self.work.parts.mark(*from),
                by: self.figure(*by),
            },
            Doing::CoverEnds(own) => What::CoverEnds(self.ends_covered(own)?),
            Doing::OnBase { parts, block, most } => What::OnBase {
                parts: self.marks(parts),
                block: block.map(|block| self.figure(block)),
                most: self.at_most(*most),
            },
            Doing::LegBlock(joint) => What::LegBlock(self.leg_blocked(*joint)?),
            Doing::Legs(own) => What::Legs(self.legs_on(own)?),
            Doing::Blocks { parts, pairs, block } => {
                What::Blocks { parts: self.marks(parts), pairs: *pairs, block: self.figure(*block) }
            }
            Doing::FrameOn(own) => What::FrameOn(self.frame_laid(own)),
            Doing::Plug(parts) => What::Plug { parts: self.marks(parts) },
            Doing::TakeOff(parts) => What::TakeOff { parts: self.marks(parts) },
            Doing::Sand(own) => What::Sand(self.sanded(own)),
            Doing::Coat(own) => What::Finish(self.coated(own)?),
            Doing::Rest(own) => What::Rest(self.rested(own)),
            Doing::House(own) => self.house(own),
        })
    }

    fn is_edged(&self, id: &PartId) -> bool {
        self.work.parts.get(*id).is_some_and(|part| !part.strips.is_empty())
    }

    fn edge(&self, id: PartId, number: usize) -> Option<What<'d>> {
        let part = self.work.parts.get(id)?;
        let strip = part.strips.get(number)?;
        let cut = edging::strip(self.work.piece, part, number)?;
        Some(What::Edge {
            part: &part.mark,
            face: part.face_name(strip.face),
            stock: self.stock_named(strip.stock),
            how: if strip.banding { "banding" } else { "lip" },
            strip: [self.figure(cut.long), self.figure(cut.wide), self.mating(cut.thick)],
            lines: self.lines.at([strip.span]),
        })
    }

    fn setting(&self, index: usize) -> Option<What<'d>> {
        let setup = self.work.setups().get(index)?;
        let (guide, set) = match &setup.guided {
            Some(guided) => (
                match guided.guide {
                    Guide::Near => "near",
                    Guide::Far => "far",
                    Guide::Table => "table",
                    Guide::Saw => "saw",
                },
                guided.settings.clone(),
            ),
            None => {
                let centers = setup.set_lines().iter().map(|line| line.from + line.wide.half());
                ("lines", centers.collect())
            }
        };
        Some(What::Setting {
            sheet: index + 1,
            tool: tool_id(setup),
            guide,
            datum: &setup.datum,
            set: set.into_iter().map(|length| self.mating(length)).collect(),
            depths: setup.passes.iter().map(|pass| self.mating(*pass)).collect(),
            pieces: self.pieces(setup),
            other_bits: setup.other_bits(self.work.piece).map(|own| Bits {
                least: Figure { print: self.tape.figure(own.least), ..self.figure(own.least) },
                most: Figure { print: self.tape.figure(own.most), ..self.figure(own.most) },
                wall: self.mating(own.wall),
            }),
            time: Self::time(setup.time.whole_minutes()),
            lines: self.of_features(setup.cuts()),
        })
    }

    /// The lines of the statements that ask for these cuts, and that say how deep
    /// they are.
    fn of_features(&self, cuts: impl Iterator<Item = (PartId, usize)>) -> Refs {
        let feature = |(id, number): (PartId, usize)| {
            self.work.parts.get(id).and_then(|part| part.features.get(number))
        };
        let spans = cuts.filter_map(feature).flat_map(|own| [Some(own.span), own.deep_at]);
        self.lines.at(spans.flatten())
    }

    fn pieces(&self, setup: &Setup) -> Vec<Cut<'d>> {
        let mut pieces = Vec::new();
        for run in &setup.runs {
            let Some(part) = self.work.parts.get(run.part) else { continue };
            let datum = run.datum(part);
            let guide = setup.guided.as_ref().map(|guided| guided.guide);
            // Over the saw a board is cut right through, from either side.
            let guide = guide.filter(|guide| *guide != Guide::Saw);
            let feed = guide
                .zip(datum)
                .map(|(guide, datum)| operations::feed(part, guide, run.face, datum));
            let strips = run
                .supports
                .iter()
                .map(|own| Strip { along: part.face_name(own.side), wide: self.figure(own.wide) });
            let (one, other) = run.face.ends_of_run(setup.along);
            let stops = [(run.stops.0, one), (run.stops.1, other)]
                .into_iter()
                .filter(|(short, _)| short.is_positive())
                .map(|(short, of)| Stop { short: self.figure(short), of: part.face_name(of) });
            pieces.push(Cut {
                part: self.mark(run.part),
                face: part.face_name(run.face),
                run: self.figure(run.length),
                in_stick: run.stick.is_some(),
                feed: feed.map(|feed| Feed {
                    from: part.face_name(feed.from),
                    to: part.face_name(feed.to),
                }),
                stops: stops.collect(),
                supports: strips.collect(),
                scrap: torn::backed(self.work, setup, run).map(|face| part.face_name(face)),
                push: run.push.map(Tool::word),
            });
        }
        pieces
    }

    fn bore(&self, holes: &Holes) -> What<'d> {
        let name = |face| self.work.parts.get(holes.part).map(|part| part.face_name(face));
        let name = |face| name(face).unwrap_or_default();
        What::Bore {
            part: self.mark(holes.part),
            face: name(holes.face),
            what: holes.bore.word(),
            from: holes.from.map(name),
            centers: holes.centers.iter().map(|own| own.map(|at| self.figure(at))).collect(),
            diameter: self.mating(holes.diameter),
            deep: self.mating(holes.deep),
            behind: self.marks(&holes.behind),
            lines: self.lines.at(holes.spans.iter().copied()),
        }
    }

    fn shaped(&self, id: PartId, number: usize) -> Option<What<'d>> {
        let part = self.work.parts.get(id)?;
        let feature = part.features.get(number)?;
        let [first, second] = operations::sides(feature.face);
        Some(What::Shape {
            part: &part.mark,
            what: feature.kind.word(),
            face: part.face_name(feature.face),
            deep: self.mating(feature.deep),
            spans: [self.stretch(part, first, feature.u), self.stretch(part, second, feature.v)],
            lines: self.of_features(std::iter::once((id, number))),
            miter: self.miter(part, feature),
            holes: match feature.kind {
                FeatureKind::Pockets(count, _) | FeatureKind::Dowels(count, ..) => Some(count),
                _ => None,
            },
            pockets: self.pockets(part, feature),
            row: self.row(part, feature),
            tails: (feature.kind == FeatureKind::Dovetails)
                .then(|| self.tails(id, feature.face))
                .flatten(),
        })
    }

    /// A stretch between two faces, counted from the one that it lies on, or from
    /// the marked one.
    fn stretch(
        &self,
        part: &Part,
        (first, last): (Face, Face),
        (from, to): (Length, Length),
    ) -> Stretch {
        let whole = part.depth(first);
        let datum = match (from.is_zero(), to == whole) {
            (true, _) => first,
            (_, true) => last,
            _ => part.datum([first, last]),
        };
        let (face, start, end) = match datum == first {
            true => (first, from, to),
            false => (last, whole - to, whole - from),
        };
        Stretch { from: part.face_name(face), start: self.mating(start), end: self.mating(end) }
    }

    fn moved(&self, own: &Move) -> Moved<'d> {
        let leg = |leg: &operations::Leg| Leg {
            from: leg.from.word(),
            by: leg.by.map(|by| self.figure(by)),
        };
        Moved {
            parts: self.marks(&own.parts),
            legs: own.legs.iter().map(leg).collect(),
            how: own.tilted.then_some("tilted"),
        }
    }
}

/// What a setting names its bit or its blade by.
pub(super) fn tool_id(setup: &Setup) -> String {
    match &setup.cutter.name {
        Some(name) => name.clone(),
        None => {
            let shape = if setup.is_sawn() { "blade" } else { "straight" };
            format!("{shape} {} mm", Tape::millimetres().exact(setup.cutter.diameter))
        }
    }
}

pub(super) fn shape(piece: &Piece, setup: &Setup) -> &'static str {
    if setup.is_sawn() {
        return "blade";
    }
    let bit = match setup.kind {
        FeatureKind::Flute(bit) => piece.bit(bit).map(|bit| bit.shape),
        _ => None,
    };
    match bit {
        Some(BitShape::RoundNose) => "round-nose",
        Some(BitShape::Straight) | None => "straight",
    }
}
