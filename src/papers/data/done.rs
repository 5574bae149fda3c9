//! What is measured, tried, sanded, coated, left to stand, and done in the house.

use serde::Serialize;

use crate::measure::Length;
use crate::model::{KeepOut, Opening, SpaceId};
use crate::parts::PartId;
use crate::plans::finish;
use crate::plans::operations::{
    Beside, Coating, DryFit, FrameOn, House, Measure, Measured, Rest, Sand, Why,
};
use crate::plans::seasons::Air;
use crate::trade::{self, Carry};

use super::Maker;
use super::record::{Figure, What};

#[derive(Serialize)]
pub(super) struct MeasureData<'d> {
    what: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    of: Option<&'d str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    drawn: Option<[Figure; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    within: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    less: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    more: Option<Figure>,
    parts: Vec<&'d str>,
}

#[derive(Serialize)]
pub(super) struct Tried<'d> {
    parts: Vec<&'d str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    open: Option<Figure>,
}

/// A face frame on its case.
#[derive(Serialize)]
pub(super) struct FrameLaid<'d> {
    #[serde(skip_serializing_if = "Vec::is_empty")]
    stiles: Vec<StileLaid<'d>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pairs: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cauls: Option<u32>,
}

/// A stile on an end: flush where it is neither beyond nor short of it.
#[derive(Serialize)]
pub(super) struct StileLaid<'d> {
    part: &'d str,
    on: &'d str,
    #[serde(skip_serializing_if = "Option::is_none")]
    beyond: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    short: Option<Figure>,
}

#[derive(Serialize)]
pub(super) struct Sanded<'d> {
    grits: &'d [u32],
    #[serde(skip_serializing_if = "Option::is_none")]
    sheets_from: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    never_past: Option<u32>,
    cured: Figure,
}

#[derive(Serialize)]
pub(super) struct Coated<'d> {
    finish: &'d str,
    product: &'static str,
    coat: u32,
    of: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    area: Option<Figure>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    surfaces: Vec<Surface>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    parts: Vec<&'d str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    coated_before: Vec<&'d str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    bare: Vec<&'d str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    covers: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    takes: Option<Figure>,
    wasted: i64,
    #[serde(skip_serializing_if = "Option::is_none")]
    mixed: Option<Mixed>,
    #[serde(skip_serializing_if = "Option::is_none")]
    rubbed_with: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    times: Option<Times>,
}

#[derive(Serialize)]
pub(super) struct Surface {
    what: &'static str,
    area: Figure,
}

#[derive(Serialize)]
pub(super) struct Mixed {
    ratio: [String; 2],
    lots: i64,
    #[serde(skip_serializing_if = "Option::is_none")]
    each: Option<[i64; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    life: Option<Figure>,
}

/// What is usual for the kind, which the label in hand goes before.
#[derive(Serialize)]
pub(super) struct Times {
    #[serde(skip_serializing_if = "str::is_empty")]
    dust_dry: &'static str,
    #[serde(skip_serializing_if = "str::is_empty")]
    recoat: &'static str,
    #[serde(skip_serializing_if = "str::is_empty")]
    hard: String,
}

#[derive(Serialize)]
pub(super) struct Rested {
    why: &'static str,
    #[serde(rename = "for", skip_serializing_if = "Option::is_none")]
    long: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    clamped: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    air: Option<AirData>,
}

/// In percent.
#[derive(Serialize)]
pub(super) struct AirData {
    pub(super) humidity: String,
    pub(super) moisture: String,
}

impl AirData {
    pub(super) fn of(air: &Air) -> Self {
        Self { humidity: air.humidity.0.to_string(), moisture: format!("{:.1}", air.moisture) }
    }
}

#[derive(Serialize)]
pub(super) struct Carried<'d> {
    case: &'d str,
    by: String,
}

#[derive(Serialize)]
pub(super) struct StripUp<'d> {
    case: &'d str,
    up: Figure,
    /// Where it hangs over a case.
    #[serde(skip_serializing_if = "Option::is_none")]
    over: Option<Over<'d>>,
}

/// The case that one hangs over, and from the left side of that to its own.
#[derive(Serialize)]
struct Over<'d> {
    case: &'d str,
    left: Figure,
}

/// Other bits that cut a rabbet at one setting.
#[derive(Serialize)]
pub(super) struct Bits {
    pub(super) least: Figure,
    pub(super) most: Figure,
    pub(super) wall: Figure,
}

/// What stands at the wall behind the piece.
#[derive(Serialize)]
pub(super) struct Found<'d> {
    what: &'d str,
    across: [Figure; 2],
    up: [Figure; 2],
    deep: Figure,
}

#[derive(Serialize)]
pub(super) struct Scribed<'d> {
    case: &'d str,
    side: &'static str,
    most: Figure,
}

#[derive(Serialize)]
pub(super) struct FixedBeside<'d> {
    cases: [&'d str; 2],
    screws: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    long: Option<Figure>,
    most: Figure,
}

#[derive(Serialize)]
pub(super) struct FittedFiller<'d> {
    part: &'d str,
    batten: &'d str,
    through: &'d str,
    #[serde(skip_serializing_if = "Option::is_none")]
    most: Option<Figure>,
}

#[derive(Serialize)]
pub(super) struct KeptSpace<'d> {
    space: &'d str,
    wide: Figure,
}

#[derive(Serialize)]
pub(super) struct StoodOff<'d> {
    case: &'d str,
    side: &'static str,
    between: [Figure; 2],
}

#[derive(Serialize)]
pub(super) struct PushedIn<'d> {
    space: &'d str,
    wide: Figure,
    high: Figure,
    clear: Figure,
}

pub(super) fn carried_by(carry: Carry) -> String {
    match carry {
        Carry::People(1) => "1 person".to_owned(),
        Carry::People(count) => format!("{count} people"),
        Carry::Gear => "straps or a dolly".to_owned(),
    }
}

impl<'d> Maker<'d, '_> {
    pub(super) fn measure(&self, own: &Measure) -> MeasureData<'d> {
        let piece = self.work.piece;
        let (what, of, drawn) = match own.what {
            Measured::Opening(id) => {
                let opening = piece.opening(id);
                let sizes = opening.map(|opening| [opening.wide.length, opening.high.length]);
                ("opening", opening.map(Opening::title), sizes)
            }
            Measured::Case(id) => {
                ("case for its back", piece.case(id).map(|case| &*case.name), None)
            }
            Measured::Packed => ("side to the edge of the opening", None, None),
            Measured::OverUnder => ("edge of the opening to the board above or below", None, None),
            Measured::BoxFront => ("length of the box front", None, None),
            Measured::BoxSide => ("length of the box side", None, None),
            Measured::BoxHigh => ("height of the box side", None, None),
            Measured::Between => ("between the boards beside it", None, None),
            Measured::KeepOut(id) => {
                ("where it is", piece.site.keep_outs.get(id.0).map(|own| &*own.name), None)
            }
        };
        MeasureData {
            what,
            of,
            drawn: drawn.map(|sizes| sizes.map(|size| self.figure(size))),
            within: own.within.map(|within| self.figure(within)),
            less: own.less.is_positive().then(|| self.figure(own.less)),
            more: own.less.is_negative().then(|| self.figure(-own.less)),
            parts: self.marks(&own.parts),
        }
    }

    pub(super) fn tried(&self, own: &DryFit) -> Tried<'d> {
        Tried { parts: self.marks(&own.parts), open: own.open.map(Self::time) }
    }

    pub(super) fn frame_laid(&self, own: &FrameOn) -> FrameLaid<'d> {
        let stile = |(part, on, beyond): &(PartId, PartId, Length)| StileLaid {
            part: self.mark(*part),
            on: self.mark(*on),
            beyond: beyond.is_positive().then(|| self.figure(*beyond)),
            short: beyond.is_negative().then(|| self.figure(-*beyond)),
        };
        FrameLaid {
            stiles: own.stiles.iter().map(stile).collect(),
            pairs: (own.pairs > 0).then_some(own.pairs),
            cauls: (own.cauls > 0).then_some(own.cauls),
        }
    }

    pub(super) fn sanded(&self, own: &'d Sand) -> Sanded<'d> {
        let never_past = trade::Sanding::POLISHED;
        let soaks_in = own.grits.last().is_some_and(|last| *last < never_past);
        Sanded {
            grits: own.grits,
            sheets_from: own.sheets_from,
            never_past: soaks_in.then_some(never_past),
            cured: Self::time(own.cured),
        }
    }

    pub(super) fn coated(&self, own: &'d Coating) -> Option<Coated<'d>> {
        let finish = self.work.piece.finish(own.finish)?;
        let kind = trade::finish_named(finish.kind.slug());
        let coat = &own.coat;
        let each: Vec<f64> = own.areas.iter().map(|(_, area)| *area).collect();
        let whole: f64 = each.iter().sum();
        let (printed, all) = finish::added(&self.tape, &each);
        let area = |area: f64| Figure { exact: format!("{area:.3}"), print: format!("{area:.1}") };
        let last = own.number >= finish.coats;
        let mixed = finish.mix.map(|(a, b)| Mixed {
            ratio: [a.to_string(), b.to_string()],
            lots: coat.lots,
            each: coat.each.map(|(one, other)| [one, other]),
            life: finish.pot_life.map(Self::time),
        });
        Some(Coated {
            finish: &finish.name,
            product: finish.kind.word(),
            coat: own.number,
            of: finish.coats,
            area: (whole > 0.0).then(|| Figure { print: all, ..area(whole) }),
            surfaces: own
                .areas
                .iter()
                .zip(printed)
                .map(|((sort, own), print)| Surface {
                    what: sort.word(),
                    area: Figure { print, ..area(*own) },
                })
                .collect(),
            parts: self.marks(&own.parts),
            coated_before: self.marks(&own.before),
            bare: self.marks(&own.bare),
            covers: coat.covers.map(|covers| Figure {
                exact: super::exact(covers),
                print: finish::covering(&self.tape, covers, finish.covers.is_some()),
            }),
            takes: coat.milliliters.map(|ml| Figure {
                exact: format!("{ml:.1}"),
                print: finish::measured_out(&self.tape, coat.at_hand().unwrap_or_default()),
            }),
            wasted: trade::FINISH_WASTE,
            mixed,
            rubbed_with: kind.and_then(|kind| kind.between).filter(|_| own.number > 1),
            times: kind.filter(|_| own.parts.is_empty()).map(|kind| Times {
                dust_dry: kind.dust_dry,
                recoat: if last { "" } else { kind.recoat },
                hard: if last { kind.cured_in() } else { String::new() },
            }),
        })
    }

    pub(super) fn rested(&self, own: &Rest) -> Rested {
        let air = self.work.climate().milled;
        Rested {
            why: own.why.word(),
            long: own.long.map(|long| match own.why {
                Why::Come(days) => Figure { print: days.to_string(), ..Self::time(long) },
                Why::Acclimate | Why::Clamps | Why::Cure(_) | Why::Set | Why::Dry => {
                    Self::time(long)
                }
            }),
            clamped: match own.why {
                Why::Cure(clamped) => Some(Self::time(clamped)),
                Why::Acclimate | Why::Clamps | Why::Set | Why::Dry | Why::Come(_) => None,
            },
            air: (own.why == Why::Acclimate).then(|| AirData::of(&air)),
        }
    }

    pub(super) fn found(&self, own: &'d KeepOut) -> Found<'d> {
        let reach = |from: Length, by: Length| [from, from + by].map(|at| self.figure(at));
        Found {
            what: &own.name,
            across: reach(own.from_left, own.wide),
            up: reach(own.up, own.high),
            deep: self.figure(own.deep),
        }
    }

    /// The baseboard behind the piece, all along it.
    pub(super) fn baseboard(&self) -> Option<Found<'d>> {
        let own = self.work.piece.site.baseboard.as_ref()?;
        let reach = |to: Length| [Length::ZERO, to].map(|at| self.figure(at));
        Some(Found {
            what: "baseboard",
            across: reach(self.work.piece.wide()),
            up: reach(own.high.length),
            deep: self.figure(own.thick.length),
        })
    }

    pub(super) fn house(&self, own: &House) -> What<'d> {
        let case = |id| self.work.piece.case(id).map_or("", |case| &*case.name);
        match own {
            House::Carry(id, carry) => {
                What::Carry(Carried { case: case(*id), by: carried_by(*carry) })
            }
            House::StandApart(id, parts) => {
                What::StandApart { case: case(*id), parts: self.marks(parts) }
            }
            House::SetBase(own) => What::SetBase(self.base_set(own)),
            House::LevelBase(own) => What::LevelBase(self.base_apart(own)),
            House::ScrewDown(parts) => What::ScrewDown { parts: self.marks(parts) },
            House::StandOn(own) => What::StandOn(self.stood(own)),
            House::WallStrip(own) => {
                let over =
                    own.over.map(|(id, left)| Over { case: case(id), left: self.figure(left) });
                What::WallStrip(StripUp { case: case(own.case), up: self.figure(own.up), over })
            }
            House::Lift(id, carry) => {
                What::Lift(Carried { case: case(*id), by: carried_by(*carry) })
            }
            House::Scribe(id, side, most) => What::Scribe(Scribed {
                case: case(*id),
                side: side.word(),
                most: self.figure(*most),
            }),
            House::Strip(kicks) => What::Strip { beside: self.marks(kicks) },
            House::Beside(Beside { cases, screws, most, sold }) => What::FixBeside(FixedBeside {
                cases: cases.map(case),
                screws: *screws,
                long: sold.map(|long| self.figure(long)),
                most: self.at_most(*most),
            }),
            House::Fill(own) => What::FitFiller(FittedFiller {
                part: self.mark(own.strip),
                batten: self.mark(own.batten),
                through: self.mark(own.end),
                most: own.most.map(|most| self.figure(most)),
            }),
            House::Kick(kick) => What::ScribeKick(self.scribed_kick(*kick)),
            House::Cover(own) => What::FitCover(self.fitted_cover(own)),
            House::StandOff(id, side, between) => What::StandOff(StoodOff {
                case: case(*id),
                side: side.word(),
                between: between.map(|at| self.figure(at)),
            }),
            House::Keep(id) => What::KeepSpace(self.space(*id)),
            House::PushIn(id) => What::PushIn(self.appliance(*id)),
            House::Lay(laid) => What::LayOn(self.laid_on(laid)),
            House::Stack(own) => What::StandOnCase(self.stacked(own)),
            House::Wall(wall) => What::FixToWall(self.walled(wall)),
        }
    }

    fn space(&self, id: SpaceId) -> KeptSpace<'d> {
        let own = self.work.piece.space(id);
        let wide = own.map_or(Length::ZERO, |own| own.wide.length);
        KeptSpace { space: own.map_or("", |own| &own.name), wide: self.figure(wide) }
    }

    fn appliance(&self, id: SpaceId) -> PushedIn<'d> {
        let own = self.work.piece.space(id);
        let size = |side: usize| {
            let takes = own.and_then(|own| own.takes.as_ref()?.get(side));
            self.figure(takes.map_or(Length::ZERO, |size| size.length))
        };
        PushedIn {
            space: own.map_or("", |own| &own.name),
            wide: size(0),
            high: size(1),
            clear: self.figure(own.map_or(Length::ZERO, |own| own.clear.length)),
        }
    }
}
