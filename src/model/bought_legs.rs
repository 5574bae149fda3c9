//! Legs that are bought, and how a case stands on them.

use crate::diagnostics::{Diagnostic, Sum};
use crate::measure::{Exact, Length, Mass, Span};
use crate::vocabulary::words::bought_leg::LegFixing;
use crate::vocabulary::{Entries, Entry, Said, words};

use super::equations::{Known, Says, Sheet};
use super::given::Given;
use super::id::LegId;
use super::joinery::Board;
use super::layout::Variable;
use super::lower::Lower;
use super::read_case::Shared;
use super::size::Size;
use super::sold::Sold;

/// A leg that is bought, by its maker's sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BoughtLeg {
    /// Its name in the spec.
    pub name: String,
    /// From the floor to the underside of the board that it is fixed to.
    pub high: Size,
    /// The width of its plate, which is square, or of its top.
    pub wide: Size,
    /// Its width at the floor.
    pub foot: Length,
    /// What holds it.
    pub fixing: Fixing,
    /// How far its adjuster can be turned out; nought where it has none.
    pub adjust: Length,
    /// The most weight that one carries.
    pub load: Option<Mass>,
    /// How it is sold.
    pub sold: Sold,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

/// What holds a bought leg under a board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fixing {
    /// A plate on screws.
    Plate {
        /// How many.
        screws: u32,
        /// From both edges of the plate at a corner to the screw there.
        from_edge: Size,
        /// The holes for them.
        hole: LegHole,
    },
    /// A hanger bolt, in a threaded insert in this hole.
    Bolt(LegHole),
    /// A dowel in glue, in this hole.
    Dowel(LegHole),
}

impl Fixing {
    /// True where glue holds it.
    #[must_use]
    pub fn is_glued(&self) -> bool {
        match self {
            Self::Dowel(_) => true,
            Self::Plate { .. } | Self::Bolt(_) => false,
        }
    }

    /// The hole, or each of them.
    #[must_use]
    pub fn hole(&self) -> LegHole {
        match self {
            Self::Plate { hole, .. } | Self::Bolt(hole) | Self::Dowel(hole) => *hole,
        }
    }
}

/// A hole for a leg.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LegHole {
    /// Its diameter.
    pub across: Length,
    /// Its depth.
    pub deep: Length,
}

impl BoughtLeg {
    /// How many holes it takes.
    #[must_use]
    pub fn holes(&self) -> u32 {
        match self.fixing {
            Fixing::Plate { screws, .. } => screws,
            Fixing::Bolt(_) | Fixing::Dowel(_) => 1,
        }
    }
}

/// How a case stands on bought legs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnLegs {
    /// Which.
    pub leg: LegId,
    /// From the floor to the underside of the frame, or of the ends.
    pub high: Size,
    /// How far their plates stand in from the outside faces of the ends, and from the front
    /// and the back edge of the bottom.
    pub set_in: Size,
    /// How many stand along the front, and as many along the back.
    pub across: u32,
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

impl OnLegs {
    /// How many legs there are.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.across * 2
    }
}

/// A leg as hardware.
pub(super) fn leg(entry: &Entry, ctx: &mut Lower) -> Option<BoughtLeg> {
    use words::bought_leg::{ADJUST, FOOT, HIGH, LEAD_TIME, LOAD, ON_HAND, PACK, PRICE, WIDE};

    let body = entry.body()?;
    let high = ctx.positive(body, HIGH, "leg").known()?;
    let wide = ctx.positive(body, WIDE, "leg width").known()?;
    let foot = ctx.positive(body, FOOT, "leg at the floor").known()?;
    let fixing = fixing(body, ctx)?;
    if let Fixing::Plate { from_edge, .. } = &fixing
        && from_edge.length.twice() >= wide.length
    {
        let tape = &ctx.tape;
        let found = Diagnostic::error(
            "absurd-size",
            "the screws of the plate stand past its middle",
            body.one(words::bought_leg::WIDE).map_or(entry.head, |said| said.head),
            format!("the plate is {} wide", tape.figure(wide.length)),
        );
        ctx.sink.push(
            found.sum(
                Sum::new("between the screws", wide.length - from_edge.length.twice(), tape)
                    .plus(wide.length, "plate", tape)
                    .minus(from_edge.length, "left screw from the edge", tape)
                    .minus(from_edge.length, "right screw from the edge", tape),
            ),
        );
        return None;
    }
    Some(BoughtLeg {
        name: entry.name()?.value.to_owned(),
        high,
        wide,
        foot: foot.length,
        fixing,
        adjust: body.get(ADJUST)?.value,
        load: body.get(LOAD).map(|load| load.value),
        sold: Sold::read(body, PRICE, PACK, ON_HAND, LEAD_TIME),
        notes: body.notes(),
        span: entry.head,
    })
}

fn fixing(body: &Entries, ctx: &mut Lower) -> Option<Fixing> {
    let hole = |said: Option<&Entries>, ctx: &mut Lower| {
        use words::leg_hole::{BORE, DEEP};
        let said = said?;
        let across = ctx.positive(said, BORE, "hole for the leg").known()?.length;
        let deep = ctx.positive(said, DEEP, "depth of the hole for the leg").known()?.length;
        Some(LegHole { across, deep })
    };
    match body.which()? {
        (LegFixing::Plate, said) => {
            use words::leg_plate::{DEEP, FROM_EDGE, PILOT, SCREWS};
            let said = said.body()?;
            let across = ctx.positive(said, PILOT, "pilot hole of the leg").known()?.length;
            let deep = ctx.positive(said, DEEP, "depth of the screws of the leg").known()?.length;
            Some(Fixing::Plate {
                screws: said.get(SCREWS)?.value,
                from_edge: ctx.size(said, FROM_EDGE, "screw from the edge of the plate")?,
                hole: LegHole { across, deep },
            })
        }
        (LegFixing::Bolt, said) => Some(Fixing::Bolt(hole(said.body(), ctx)?)),
        (LegFixing::Dowel, said) => Some(Fixing::Dowel(hole(said.body(), ctx)?)),
    }
}

/// Which legs a case stands on by what it says of its base; how high it stands on them is
/// not known yet.
pub(super) fn read(case: &Entries, shared: &Shared<'_>, ctx: &mut Lower) -> Given<OnLegs> {
    use words::stands_on_legs::{ACROSS, BLOCK, IN};

    let Some(base) = case.one(words::case::BASE).and_then(Said::body) else {
        return Given::Absent;
    };
    let leg = match ctx.refer(base, words::base::LEGS, &shared.legs) {
        Given::Is(leg) => leg,
        Given::Absent => return Given::Absent,
        Given::Refused => return Given::Refused,
    };
    let before = ctx.sink.errors();
    refused(case, leg.span, ctx);
    let empty = ctx.empty(&BLOCK);
    let said = base.one(words::base::LEGS).and_then(Said::body).unwrap_or(&empty);
    let set_in = ctx.size(said, IN, "set-in of the legs");
    let across = said.get(ACROSS).map(|own| own.value);
    match (set_in, across) {
        (Some(set_in), Some(across)) if ctx.sink.errors() == before => Given::Is(OnLegs {
            leg: LegId(leg.value),
            high: Size::zero(),
            set_in,
            across,
            span: leg.span,
            notes: said.notes(),
        }),
        _ => Given::Refused,
    }
}

/// Reports what a case says that does not go with legs.
fn refused(case: &Entries, legs: Span, ctx: &mut Lower) {
    if case.one(words::case::BOTTOM).is_none() {
        let found = Diagnostic::error(
            "word-missing",
            "legs are fixed under the bottom of a case, and this one has none",
            legs,
            "these legs need a bottom",
        );
        ctx.sink.push(found.note("write it in the case, for example `bottom { }`"));
    }
    for leg in case.all(words::case::LEG) {
        leg.mark_all();
        let found = Diagnostic::error(
            "not-supported-yet",
            "a board on edge under a case on legs would stand beside them",
            leg.head,
            "not under a case on legs",
        );
        ctx.sink.push(found.label(legs, "the legs").note(
            "take it out; `across 3` in the braces of `legs` puts more legs under the bottom",
        ));
    }
}

impl OnLegs {
    /// Says how high the base is: legs reach up to the underside of the bottom, which lies
    /// higher than that of the frame where it is flush with this rail.
    pub(super) fn fix(
        &self,
        sheet: &mut Sheet,
        base: Variable,
        raised: Option<(&Board, Variable)>,
        shared: &Shared<'_>,
    ) {
        let Some(leg) = shared.made_legs.get(self.leg.0) else { return };
        let Some((bottom, rail)) = raised else {
            sheet.fix_to(base, &leg.high, "legs", None, self.span);
            return;
        };
        let size = &leg.high + shared.thickness(bottom.stock);
        let known = Known {
            says: Says::Fixed { name: "legs".to_owned(), list: None, word: None },
            span: Some(self.span),
            constant: size.length,
            facts: size.terms().to_vec(),
        };
        sheet.equation(vec![(base, Exact::ONE), (rail, Exact::ONE)], size.length, known);
    }
}
