//! A case that stands on another one or hangs over it, or on or over the cases of a run.

use crate::diagnostics::Diagnostic;
use crate::measure::{Length, Span, Spanned};
use crate::syntax::Name;
use crate::vocabulary::takes::Footing;
use crate::vocabulary::words::{self, OnFloor};
use crate::vocabulary::{Entries, Entry, Said, Side};

use super::case::{Bottom, Case, Exposure};
use super::countertop::Countertop;
use super::hung::{Hanging, Hung, Over};
use super::id::{CaseId, RunId};
use super::lower::{Lower, Names};
use super::piece::Piece;
use super::place::Place;
use super::quietly;
use super::read_case::Shared;
use super::read_run::{self, Stand};
use super::run::CaseRun;
use super::side::{self, FarIn, From};
use super::size::Size;
use super::solve_case;

/// What a case stands on that does not stand on the floor itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StandsOn {
    /// The case that it is placed from, or the first one of the run.
    pub below: CaseId,
    /// What that is called: the case, or the run.
    pub name: String,
    /// From the floor to its underside.
    pub up: Size,
    /// Its own height.
    pub high: Size,
    /// From the left side of what it stands on to its left side.
    pub left: Size,
    /// From which side that is said.
    pub from: From,
    /// How far its back stands before that of the case below.
    pub back: Size,
    /// The statement.
    pub span: Span,
}

/// What is known of that before the case itself is solved.
#[derive(Clone)]
pub(super) struct Stacking {
    below: CaseId,
    name: String,
    up: Size,
    back: Size,
    from: From,
    span: Span,
}

impl Stacking {
    /// From the floor to its underside.
    pub(super) fn up(&self) -> &Size {
        &self.up
    }

    /// With the height of the case itself; its place from the left comes later.
    fn with(self, high: Size) -> StandsOn {
        let Self { below, name, up, back, from, span } = self;
        StandsOn { below, name, up, high, left: Size::zero(), from, back, span }
    }
}

/// How a case stands or hangs, and how high its top is above the floor.
pub(super) fn settled(
    hanging: Option<Hanging>,
    on: Option<Stacking>,
    high: Size,
) -> (Option<Hung>, Option<StandsOn>, Size) {
    let on = on.map(|on| on.with(high.clone()));
    let top = on.as_ref().map_or_else(|| high.clone(), |on| &high + &on.up);
    match hanging {
        // Only one of the two can be; a rule says so.
        Some(hanging) => {
            let (hung, top) = hanging.with(high);
            (Some(hung), on, top)
        }
        None => (None, on, top),
    }
}

/// True for a case that has its place from another one, and for a run of such: it stands on
/// that or hangs over it.
pub(super) fn is_placed(kind: OnFloor, entry: &Entry) -> bool {
    let Some(body) = entry.body() else { return false };
    let hung = body.one(words::case::HUNG).and_then(Said::body);
    let stands = kind == OnFloor::Case && body.says(words::case::ON);
    stands || hung.is_some_and(|own| own.says(words::hung::OVER))
}

/// What other cases can stand on or hang over.
pub(super) struct Floor<'a> {
    /// The names of all that stands on the floor, solved or not.
    names: Vec<&'a str>,
    /// The names of those that stand on another case, or hang over one.
    upper: Vec<&'a str>,
    footings: Vec<Footed>,
}

/// A case or a run that another case is placed on.
#[derive(Clone)]
struct Footed {
    name: String,
    below: CaseId,
    x: Size,
    wide: Size,
    /// From the floor to the top of what lies on it.
    up: CountertopOn,
    exposure: [Exposure; 2],
    /// What hangs carries nothing.
    hangs: bool,
}

/// The height of a case, and the stock of what lies on it.
#[derive(Clone)]
struct CountertopOn {
    high: Size,
    top: Option<Countertop>,
}

impl<'a> Floor<'a> {
    /// From the statements, and what could be solved of them.
    pub(super) fn new(standing: &[(OnFloor, &'a Entry)], cases: &[Case], runs: &[CaseRun]) -> Self {
        let (mut names, mut upper) = (Vec::new(), Vec::new());
        for (kind, entry) in standing {
            let Some(name) = entry.name() else { continue };
            let of_kind = if is_placed(*kind, entry) { &mut upper } else { &mut names };
            of_kind.push(name.value);
            if *kind == OnFloor::Run {
                let list = entry.body().and_then(|body| body.one(words::run::ACROSS));
                let own = list.and_then(Said::body).into_iter();
                let own = own.flat_map(|list| list.all(words::run_list::CASE));
                of_kind.extend(own.filter_map(|case| Some(case.entry.name()?.value)));
            }
        }
        let of_run = |case: &Case| case.run.and_then(|run| runs.get(run.0));
        let top = |case: &Case| {
            let shared = of_run(case).filter(|_| case.is_covered);
            case.countertop.clone().or_else(|| shared?.countertop.clone())
        };
        let up = |case: &Case| CountertopOn { high: case.high.clone(), top: top(case) };
        let mut footings: Vec<Footed> = cases
            .iter()
            .map(|case| Footed {
                name: case.name.clone(),
                below: case.id,
                x: case.beside.clone(),
                wide: case.wide.clone(),
                up: up(case),
                exposure: case.exposure.clone(),
                hangs: case.hung.is_some(),
            })
            .collect();
        for run in runs {
            let mut own = cases
                .iter()
                .filter(|case| of_run(case).is_some_and(|other| other.name == run.name));
            let first = own.clone().find(|case| case.is_covered).or_else(|| own.next());
            let Some(first) = first else { continue };
            footings.push(Footed {
                name: run.name.clone(),
                below: first.id,
                x: run.beside.clone(),
                wide: run.wide.clone(),
                up: up(first),
                exposure: run.exposure.clone(),
                hangs: first.hung.is_some(),
            });
        }
        Self { names, upper, footings }
    }

    /// What a case says that it has its place from.
    fn asked(&self, name: Spanned<&Name>, whose: (&str, &str), ctx: &mut Lower) -> Option<Footed> {
        let found = self.find(name.map(Name::text), whose, ctx);
        // The case's own mistakes are told all the same; what it would be on is not known.
        ctx.made_up |= found.is_none();
        found
    }

    /// What a case is to stand on or hang over; `None` where there is no such thing (reported), or where
    /// that could not be solved.
    fn find(
        &self,
        name: Spanned<&str>,
        (own, way): (&str, &str),
        ctx: &mut Lower,
    ) -> Option<Footed> {
        let last = name.value.rsplit('.').next().unwrap_or(name.value);
        let name = Spanned::new(last, name.span);
        let refuse = |ctx: &mut Lower, why: String| {
            ctx.sink.push(
                Diagnostic::error(
                    "not-supported-yet",
                    format!("{own} can't {way} {last}"),
                    name.span,
                    why,
                )
                .note("name a case or a run that stands on the floor"),
            );
        };
        if self.upper.contains(&last) {
            let why = if last == own {
                "this is the same case"
            } else {
                "this has its own place from another case"
            };
            refuse(ctx, why.to_owned());
            return None;
        }
        ctx.find::<Footing>(name, &Names::new(self.names.iter().copied()))?;
        let footed = self.footings.iter().find(|footed| footed.name == last)?;
        if footed.hangs {
            refuse(ctx, "this hangs on the wall".to_owned());
            return None;
        }
        Some(footed.clone())
    }
}

/// Reads and solves a case that stands on another one, when that is solved.
pub(super) fn lower(
    entry: &Entry,
    id: CaseId,
    floor: &Floor<'_>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Case> {
    let (body, name) = (entry.body()?, entry.name()?.value);
    let Some(said) = body.one(words::case::ON) else {
        return hung_over(entry, id, floor, shared, ctx);
    };
    let footed = floor.asked(said.value()?, (name, "stand on"), ctx)?;
    let empty = ctx.empty(&words::stands_on::BLOCK);
    let place = said.body().unwrap_or(&empty);
    let CountertopOn { high, top } = &footed.up;
    let thick = top.as_ref().map(|top| shared.thickness(top.stock));
    let sides = (words::stands_on::LEFT, words::stands_on::RIGHT);
    let far = side::from(place, sides, "place from the side", ctx);
    let on = Stacking {
        below: footed.below,
        name: footed.name.clone(),
        up: high + thick.unwrap_or_default(),
        back: back(place, said.head, name, shared, ctx)?,
        from: From::of(far.as_ref(), said.is_mirrored()),
        span: said.head,
    };
    let (mut case, left) = placed(entry, (id, Some(on)), (&footed, far), shared, ctx)?;
    if let Some(on) = &mut case.on {
        on.left = left;
    }
    Some(case)
}

/// What a case or a run is to hang over, where that is said, and how far in from which side of
/// it, if that is said; how far its left side is in comes later.
fn asked_over(
    entry: &Entry,
    hung: &Entries,
    floor: &Floor<'_>,
    ctx: &mut Lower,
) -> Option<(Over, Footed, Option<FarIn>)> {
    let name = entry.name()?.value;
    let said = hung.one(words::hung::OVER)?;
    let footed = floor.asked(said.value()?, (name, "hang over"), ctx)?;
    let sides = (words::hung::LEFT, words::hung::RIGHT);
    let far = side::from(hung, sides, "place from the side", ctx);
    let over = Over {
        below: footed.below,
        name: footed.name.clone(),
        left: Size::zero(),
        from: From::of(far.as_ref(), said.is_mirrored()),
        span: said.head,
    };
    Some((over, footed, far))
}

/// Reads and solves a case that hangs over another one, when that is solved.
fn hung_over(
    entry: &Entry,
    id: CaseId,
    floor: &Floor<'_>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Case> {
    let hung = entry.body()?.one(words::case::HUNG)?.body()?;
    let (over, footed, far) = asked_over(entry, hung, floor, ctx)?;
    let (mut case, left) = placed(entry, (id, None), (&footed, far), shared, ctx)?;
    if let Some(hung) = &mut case.hung {
        hung.over = Some(Over { left, ..over });
    }
    Some(case)
}

/// Reads and solves a run that hangs over a case or another run, when that is solved: each of
/// its cases hangs over that.
pub(super) fn run_over(
    entry: &Entry,
    (id, first): (RunId, CaseId),
    floor: &Floor<'_>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<(CaseRun, Vec<Case>)> {
    let hung = entry.body()?.one(words::run::HUNG)?.body()?;
    let (over, footed, far) = asked_over(entry, hung, floor, ctx)?;
    let stand = |x: Size, exposure: [Exposure; 2]| Stand { id, first, x, exposure };
    let free = [Exposure::Seen, Exposure::Seen];
    // How wide it is says where it hangs, and what its sides meet.
    let wide = quietly::without_word(ctx, |ctx| {
        let (run, _) = read_run::lower(entry, stand(footed.x.clone(), free), shared, ctx)?;
        Some(run.wide)
    });
    let left = match &wide {
        Some(wide) => side::from_left(far.as_ref(), &footed.wide, wide),
        None => Size::zero(),
    };
    let meets = match &wide {
        Some(wide) => met(&footed, &left, wide),
        None => [Exposure::Seen, Exposure::Seen],
    };
    let stand = stand(&footed.x + &left, meets);
    let (run, mut cases) = read_run::lower(entry, stand, shared, ctx)?;
    for case in &mut cases {
        let left = &case.beside - &footed.x;
        if let Some(hung) = &mut case.hung {
            hung.over = Some(Over { left, ..over.clone() });
        }
    }
    Some((run, cases))
}

/// Solves a case that has its place from another one: so far in from a side of that, or over
/// its middle. With it goes how far its left side is from that of the other.
fn placed(
    entry: &Entry,
    (id, on): (CaseId, Option<Stacking>),
    (footed, far): (&Footed, Option<FarIn>),
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<(Case, Size)> {
    let name = entry.name()?.value;
    let at = |exposure: [Exposure; 2]| Place {
        id,
        path: name.to_owned(),
        run: None,
        exposure,
        level: [false; 2],
        is_covered: false,
        on: on.clone(),
        wide: None,
    };
    let from_left = |wide: &Size| side::from_left(far.as_ref(), &footed.wide, wide);
    // What its sides meet follows from its width.
    let free = [Exposure::Seen, Exposure::Seen];
    let meets = match footed.exposure == free {
        true => free,
        false => match quietly::quietly(entry, at(free.clone()), shared, ctx) {
            Some(case) => met(footed, &from_left(&case.wide), &case.wide),
            None => free,
        },
    };
    let mut case = solve_case::lower(entry, at(meets), shared, ctx)?;
    let left = from_left(&case.wide);
    case.beside = &footed.x + &left;
    case.x = case.beside.length;
    Some((case, left))
}

/// How far its back stands before that of the case below; at a wall not at all.
fn back(
    place: &Entries,
    at: Span,
    name: &str,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Size> {
    let back = ctx.size_or_zero(place, words::stands_on::BACK, "place from the back");
    if !shared.fixed || back.length.is_zero() {
        return Some(back);
    }
    let written = place.one(words::stands_on::BACK).map_or(at, |said| said.head);
    ctx.sink.push(
        Diagnostic::error(
            "not-supported-yet",
            format!("{name} is fixed to the wall, so its back can't stand before it"),
            written,
            "the wall screws would go through nothing",
        )
        .note("take `back` out: its back then stands at the wall"),
    );
    None
}

/// What the two sides of a case meet that stands so far from the left: the wall that what
/// it stands on meets, where they are even there.
fn met(footed: &Footed, left: &Size, wide: &Size) -> [Exposure; 2] {
    let even = [left.length, footed.wide.length - left.length - wide.length];
    Side::BOTH.map(|side| match side.of(&footed.exposure) {
        wall @ Exposure::Wall { .. } if *side.of(&even) == Length::ZERO => wall.clone(),
        Exposure::Wall { .. } | Exposure::Seen | Exposure::Neighbour => Exposure::Seen,
    })
}

impl Piece {
    /// True for a case that stands on another.
    #[must_use]
    pub fn stands_on(&self, upper: &Case, below: CaseId) -> bool {
        self.cases_below(upper).any(|own| own.id == below)
    }

    /// The cases that a case stands on: those as high as the one that it is placed from,
    /// under it; none for one that stands on the floor.
    pub fn cases_below<'p>(&'p self, upper: &'p Case) -> impl Iterator<Item = &'p Case> {
        let on = upper.on.as_ref();
        let high = on.and_then(|on| self.case(on.below)).map(|below| below.high.length);
        let [from, to] = [upper.x, upper.x + upper.wide.length];
        self.cases.iter().filter(move |case| {
            case.is_on_floor()
                && Some(case.high.length) == high
                && case.x < to
                && from < case.x + case.wide.length
        })
    }

    /// True for a case that stands on another and has its bottom down there, to be screwed
    /// through; where it lies higher, behind a rail, two nailers hold the case to the wall.
    #[must_use]
    pub fn is_screwed_down(&self, case: &Case) -> bool {
        let rail = case.frame.as_ref().and_then(|frame| frame.bottom.as_ref());
        let lies_low = |bottom: &Bottom| {
            let thick = self.thickness(bottom.board.stock).length;
            !bottom.flush || rail.is_none_or(|rail| rail.wide.length == thick)
        };
        case.on.is_some() && case.bottom.as_ref().is_some_and(lies_low)
    }

    /// The cases that stand on others, from the left.
    pub fn stacked(&self) -> impl Iterator<Item = (&Case, &StandsOn)> {
        self.cases.iter().filter_map(|case| Some((case, case.on.as_ref()?)))
    }

    /// How far behind the foremost face of the piece that of a case lies: all backs stand
    /// in one plane, but for those of cases that stand on others before it.
    #[must_use]
    pub fn ahead(&self, case: &Case) -> Length {
        case.ahead(self.wall())
    }
}

impl Case {
    /// How far behind the foremost face of a piece against this wall that of the case lies.
    #[must_use]
    pub fn ahead(&self, wall: Length) -> Length {
        let back = self.on.as_ref().map_or(Length::ZERO, |on| on.back.length);
        wall - self.deep.length - back
    }
}
