//! Where each cut and each hole of a part lies, and how large it is.

use crate::measure::Length;
use crate::model::{Fronts, HingeKind, OpeningKind, Pull, PullAt, PullHeight, Size};
use crate::parts::{Assembly, Bore, Direction, Face, Feature, FeatureKind, Part, PartId};
use crate::trade;
use crate::vocabulary::words;

use super::depth::{depth, joinery, panel};
use super::ends;
use super::teller::Teller;
use super::{Subject, Sum, Value, hanging, legs};

/// Everything that is cut into a part; of flutes their depth, since their set-up tells of
/// the rest.
pub(super) fn of(tell: &Teller<'_>, id: PartId, part: &Part) -> Vec<Sum> {
    let mut sums: Vec<Sum> = Vec::new();
    for feature in &part.features {
        let own = Cut { tell, id, part, feature };
        for sum in own.told() {
            let known = |old: &Sum| (&old.word, old.value) == (&sum.word, sum.value);
            if !sums.iter().any(known) {
                sums.push(sum);
            }
        }
    }
    sums
}

/// How far a tenon is set in, where nothing is written of it.
pub(super) const SET_IN: &str = "a third of the rail's width, to the nearest mark of the tape (a woodwork teacher's page on haunched tenons)";

/// A cut of a part.
pub(super) struct Cut<'t, 'c> {
    pub(super) tell: &'t Teller<'c>,
    pub(super) id: PartId,
    pub(super) part: &'t Part,
    pub(super) feature: &'t Feature,
}

impl Cut<'_, '_> {
    fn told(&self) -> Vec<Sum> {
        let feature = self.feature;
        match feature.kind {
            FeatureKind::Dado | FeatureKind::Groove | FeatureKind::Rabbet => self.channel(),
            FeatureKind::Notch => self.notch(),
            FeatureKind::Slot => self.slot(),
            FeatureKind::Glazing(_) => self.glazing(),
            FeatureKind::Pockets(count, _) => self.pockets(count),
            FeatureKind::Bore(bore) => self.bore(bore),
            FeatureKind::Tenon => self.shaped(),
            FeatureKind::Haunch => self.haunch(),
            FeatureKind::Mortise => {
                let end = self.part.datum([Face::LengthStart, Face::LengthEnd]);
                let mut sums = vec![
                    self.from(end, feature.u.0, feature.u.1),
                    self.between("long", feature.u, false),
                    self.tenon("wide"),
                    self.deep("deep"),
                ];
                // Flush with an end it has no place to set.
                sums.retain(|sum| sum.value != Value::Length(Length::ZERO));
                sums
            }
            FeatureKind::Dovetails => vec![self.deep("deep")],
            // Where each of them lies, their set-up tells.
            FeatureKind::Flute(_) => vec![self.deep("deep")],
            FeatureKind::Miter | FeatureKind::Dowels(..) => Vec::new(),
        }
    }

    /// A tenon; its width is that of its part unless it is set in.
    fn shaped(&self) -> Vec<Sum> {
        let feature = self.feature;
        let mut sums = vec![self.deep("long"), self.tenon("thick")];
        for edge in [Face::WidthStart, Face::WidthEnd] {
            let from = self.from(edge, feature.u.0, feature.u.1);
            if from.value != Value::Length(Length::ZERO) {
                sums.extend([self.between("wide", feature.u, false), from]);
            }
        }
        let haunched = |own: &Feature| (own.kind, own.face) == (FeatureKind::Haunch, feature.face);
        if self.part.features.iter().any(haunched)
            && let Some((panel, set_in)) = panel(self.tell, self.part).zip(self.set_in())
        {
            let wide = &self.part.width - &panel.groove - set_in;
            sums.push(self.sum("wide", wide.length, &wide));
        }
        sums
    }

    /// What is cut off beside a haunch, and how long that is.
    fn haunch(&self) -> Vec<Sum> {
        let mut sums =
            vec![self.deep("cut back"), self.between("cut back over", self.feature.u, false)];
        if let Some(panel) = panel(self.tell, self.part) {
            sums.push(self.sum("long", panel.stub.length, &panel.stub));
        }
        sums
    }

    fn about(&self) -> Vec<Subject> {
        let own = Subject::of(self.feature.kind);
        match self.feature.kind {
            FeatureKind::Bore(Bore::Round) => vec![own],
            FeatureKind::Bore(Bore::Pull | Bore::Leg) => vec![own, Subject::Bore],
            FeatureKind::Bore(Bore::Cup | Bore::Plate | Bore::PlateBehind) => {
                vec![own, Subject::Bore, Subject::Hinge]
            }
            _ => vec![own, Subject::Joint],
        }
    }

    /// `dado for PPR-NI`, and what of it.
    fn word(&self, what: &str) -> String {
        let takes = self.feature.takes.map(|id| format!(" for {}", self.tell.parts.mark(id)));
        format!("{}{}, {what}", self.feature.kind.word(), takes.unwrap_or_default())
    }

    pub(super) fn sum(&self, what: &str, length: Length, size: &Size) -> Sum {
        self.tell.length(&self.about(), self.word(what), length, size)
    }

    fn drilled(&self, what: &str, length: Length, size: &Size) -> Sum {
        self.tell.hardware(&self.about(), self.word(what), length, size)
    }

    /// From where the part begins along `direction` to a place on it.
    fn reach(&self, direction: Direction, place: Length) -> Size {
        let known = self.tell.reach((self.id, self.part), direction, place, self.feature.takes);
        if !known.terms().is_empty() || place.is_zero() {
            return known;
        }
        let whole = self.part.along(direction);
        let set_in = self.set_in().map(|set_in| [whole - &set_in, set_in]);
        let sides = set_in.into_iter().flatten().chain(self.beside_groove(direction));
        let sides = sides.chain(ends::at_rails(self.tell, (self.id, self.part), direction));
        let around = match self.feature.kind {
            FeatureKind::Notch => ends::at_posts(self.tell, self.part, direction),
            _ => Vec::new(),
        };
        let mut sides = sides.chain(around);
        sides.find(|side| side.length == place).unwrap_or(known)
    }

    /// Where the tenon that goes into this mortise ends at the groove of its rail.
    fn beside_groove(&self, direction: Direction) -> Vec<Size> {
        let guest = self.feature.takes.and_then(|id| self.tell.parts.get(id));
        let Some((guest, panel)) = guest.zip(panel(self.tell, self.part)) else {
            return Vec::new();
        };
        let start = self.part.side(direction, false);
        let [low, high] = [false, true].map(|far| guest.side(direction, far) - &start);
        vec![low + &panel.groove, high - &panel.groove]
    }

    /// How far a tenon and its mortise are set in from the end of a stile.
    fn set_in(&self) -> Option<Size> {
        let rail = if self.feature.kind == FeatureKind::Mortise {
            self.tell.parts.get(self.feature.takes?)?
        } else if matches!(self.feature.kind, FeatureKind::Tenon | FeatureKind::Haunch) {
            self.part
        } else {
            return None;
        };
        let mark = self.tell.tape.mark;
        let (own, written) = match joinery(self.tell, self.feature) {
            Some(joint) => (joint.set_in(rail.width.length, mark), &joint.set_in),
            None => {
                let panel = panel(self.tell, self.part)?;
                (panel.set_in(rail.width.length, mark), &panel.set_in)
            }
        };
        Some(ends::set_in(self.tell, own, written.as_ref()))
    }

    /// The direction that a face's `v` runs along, or its `u`.
    fn axis(&self, v: bool) -> Direction {
        let placement = &self.part.placement;
        match (self.feature.face, v) {
            (Face::ThickStart | Face::ThickEnd | Face::WidthStart | Face::WidthEnd, false) => {
                placement.length
            }
            (Face::ThickStart | Face::ThickEnd, true) => placement.width,
            (Face::LengthStart | Face::LengthEnd, false) => placement.width,
            (_, true) => placement.thickness,
        }
    }

    /// From a face to the nearer side of what lies between two places.
    pub(super) fn off_face(&self, datum: Face, from: Length, to: Length) -> Size {
        let direction = self.part.placement.direction(datum);
        match datum.is_start() {
            true => self.reach(direction, from),
            false => self.part.along(direction) - self.reach(direction, to),
        }
    }

    fn from(&self, datum: Face, from: Length, to: Length) -> Sum {
        let near = self.part.distance(datum, from).min(self.part.distance(datum, to));
        let size = self.off_face(datum, from, to);
        self.sum(&format!("from the {}", self.part.face_name(datum)), near, &size)
    }

    pub(super) fn between(&self, what: &str, (from, to): (Length, Length), v: bool) -> Sum {
        let axis = self.axis(v);
        // The grooves of a frame for glass are as wide as is said of them.
        let glazed = panel(self.tell, self.part).and_then(|own| own.glazed.as_ref());
        let grooved = glazed
            .map(|own| &own.groove_wide)
            .filter(|own| axis == self.part.placement.thickness && own.length == to - from);
        match grooved {
            Some(wide) => self.sum(what, to - from, wide),
            None => {
                let size = self.reach(axis, to) - self.reach(axis, from);
                self.sum(what, to - from, &size)
            }
        }
    }

    /// The thickness of a tenon, and the width of its mortise.
    fn tenon(&self, what: &str) -> Sum {
        let thick = self.feature.v.1 - self.feature.v.0;
        let own = joinery(self.tell, self.feature).and_then(|joint| joint.thick.as_ref());
        match own.filter(|own| own.length == thick) {
            Some(own) => self.sum(what, thick, own),
            None => self.between(what, self.feature.v, true),
        }
    }

    fn deep(&self, what: &str) -> Sum {
        self.sum(what, self.feature.deep, &depth(self.tell, self.part, self.feature))
    }

    fn channel(&self) -> Vec<Sum> {
        let channel = self.part.channel(self.feature);
        let across = self.feature.across(channel.along);
        let mut sums = Vec::new();
        if !channel.from.is_zero() {
            sums.push(self.from(channel.datum, across.0, across.1));
        }
        sums.push(self.between("wide", across, channel.along));
        sums.push(self.deep("deep"));
        let run = self.feature.run(channel.along);
        let (start, end) = self.feature.face.ends_of_run(channel.along);
        if channel.stops.0.is_positive() {
            let what = format!("short of the {}", self.part.face_name(start));
            sums.push(self.sum(&what, channel.stops.0, &self.off_face(start, run.0, run.1)));
        }
        if channel.stops.1.is_positive() {
            let what = format!("short of the {}", self.part.face_name(end));
            sums.push(self.sum(&what, channel.stops.1, &self.off_face(end, run.0, run.1)));
        }
        sums
    }

    /// A slot for a screw of the countertop: its place, and how long it is.
    fn slot(&self) -> Vec<Sum> {
        let end = self.part.datum([Face::LengthStart, Face::LengthEnd]);
        let edge = self.part.datum([Face::WidthStart, Face::WidthEnd]);
        let (u, v) = self.feature.center();
        let place = |face: Face, at: Length, how: &str| {
            let from = self.part.distance(face, at);
            let place = self.tell.custom(from, "center of a slot", how);
            self.sum(&format!("from the {}", self.part.face_name(face)), from, &place)
        };
        let unit = self.tell.tape.unit;
        let wide = trade::slot_wide(unit);
        let long = self.feature.v.1 - self.feature.v.0;
        let how =
            "1/4 in or 6 mm, for the shank of a screw with a washer (common practice, no source)";
        let width = self.tell.custom(wide, "width of a slot", how);
        let how = "its width, and on each side what the countertop moves from the row of screws that holds it fast (Wood Handbook, Eq. 13-2) with 1/16 in (1.5 mm) more, up to a mark of the tape";
        let length = self.tell.custom(long, "length of a slot", how);
        vec![
            place(end, u, "at equal steps between the uprights (common practice, no source)"),
            place(edge, v, "along the row of screws (common practice, no source)"),
            self.sum("wide", wide, &width),
            self.sum("long", long, &length),
        ]
    }

    fn pockets(&self, count: u32) -> Vec<Sum> {
        let edge = self.part.datum([Face::WidthStart, Face::WidthEnd]);
        let end = if self.feature.u.0.is_zero() { Face::LengthStart } else { Face::LengthEnd };
        let places = self.feature.pocket_places(count).into_iter();
        let own = places.map(|place| {
            let from = self.part.distance(edge, place);
            let how = "at equal steps over what meets wood there (common practice, no source)";
            let place = self.tell.custom(from, "center of a pocket hole", how);
            let at = (self.part.face_name(end), self.part.face_name(edge));
            self.sum(&format!("at the {}, from the {}", at.0, at.1), from, &place)
        });
        own.collect()
    }

    /// A hole counts from the end and the edge that carry the marks, or from the
    /// hinge edge.
    fn bore(&self, bore: Bore) -> Vec<Sum> {
        let end = self.part.datum([Face::LengthStart, Face::LengthEnd]);
        let edge = match (self.feature.face.is_broad(), bore) {
            (true, Bore::Cup) => self.part.hinge_edge(),
            (true, Bore::Pull | Bore::Plate | Bore::PlateBehind | Bore::Round | Bore::Leg) => None,
            (false, _) => Some(self.part.datum([Face::ThickStart, Face::ThickEnd])),
        };
        let edge = edge.unwrap_or_else(|| self.part.datum([Face::WidthStart, Face::WidthEnd]));
        let (u, v) = self.feature.center();
        let (long, wide) = match bore {
            Bore::Cup => self.cup(u, v),
            Bore::Pull => self.pull(u, v),
            Bore::Round => self.round_hole(),
            Bore::Leg => legs::hole(self.tell, self.part, (u, v)),
            Bore::Plate | Bore::PlateBehind => hanging::screw(self.tell, self.part, (u, v)),
        };
        let place = |face: Face, at: Length, size: Size| {
            let (distance, whole) = (
                self.part.distance(face, at),
                self.part.along(self.part.placement.direction(face)),
            );
            let size = if face.is_start() { size } else { whole - size };
            self.sum(&format!("from the {}", self.part.face_name(face)), distance, &size)
        };
        let mut sums = vec![place(end, u, long), place(edge, v, wide)];
        sums.extend(self.drill(bore));
        sums
    }

    /// Where a hole that the maker asks for has its center, along its part and across it,
    /// from where both begin.
    fn round_hole(&self) -> (Size, Size) {
        let hole = self.tell.piece.hole_at(self.feature.span);
        let at = |direction: Direction| {
            let own = hole.and_then(|hole| hole.from_start(direction));
            own.map_or_else(Size::zero, |(size, is_start)| match is_start {
                true => size.clone(),
                false => self.part.along(direction) - size,
            })
        };
        (at(self.part.placement.length), at(self.part.placement.width))
    }

    /// The diameter and the depth of a hole, as the hardware's sheet gives them.
    fn drill(&self, bore: Bore) -> Vec<Sum> {
        let wide = self.feature.u.1 - self.feature.u.0;
        let (tell, deep) = (self.tell, self.feature.deep);
        let fact = |length, name: String, origin| tell.fact(length, name, origin);
        match bore {
            Bore::Cup => {
                use words::hinge::{BLOCK, BORE, CUP};
                let Some((name, at)) = self.hinge() else { return Vec::new() };
                let (cup, hole) =
                    (tell.origin(&BLOCK, CUP, Some(at)), tell.origin(&BLOCK, BORE, Some(at)));
                vec![
                    self.drilled("across", wide, &fact(wide, format!("cup of {name}"), cup)),
                    self.drilled("deep", deep, &fact(deep, format!("depth of {name}'s cup"), hole)),
                ]
            }
            Bore::Plate | Bore::PlateBehind => {
                use words::plate::{BLOCK, DEEP, SCREW};
                let Some((name, at)) = self.hinge() else { return Vec::new() };
                let (hole, depth) =
                    (tell.origin(&BLOCK, SCREW, Some(at)), tell.origin(&BLOCK, DEEP, Some(at)));
                let goes = match bore {
                    Bore::PlateBehind => tell.custom(
                        deep,
                        "what the block leaves of the depth",
                        format!("the hole of {name}'s plate goes on through its block"),
                    ),
                    Bore::Cup | Bore::Pull | Bore::Plate | Bore::Round | Bore::Leg => {
                        fact(deep, format!("depth for {name}'s plate"), depth)
                    }
                };
                vec![
                    self.drilled(
                        "across",
                        wide,
                        &fact(wide, format!("screw of {name}'s plate"), hole),
                    ),
                    self.drilled("deep", deep, &goes),
                ]
            }
            Bore::Round => {
                let hole = tell.piece.hole_at(self.feature.span);
                hole.map(|hole| self.drilled("across", wide, &hole.across)).into_iter().collect()
            }
            Bore::Leg => {
                let sizes = legs::drill(tell, self.part, (wide, deep)).into_iter();
                sizes
                    .zip([("across", wide), ("deep", deep)])
                    .map(|(size, (what, own))| self.drilled(what, own, &size))
                    .collect()
            }
            Bore::Pull => {
                use words::pull::{BLOCK, SCREW};
                let Some((_, pull)) = self.fitted_pull() else { return Vec::new() };
                let screw = tell.origin(&BLOCK, SCREW, Some(pull.span));
                let screw = fact(wide, format!("screw of {}", pull.name), screw);
                vec![self.drilled("across", wide, &screw)]
            }
        }
    }

    /// The hinge that this hole is for: its name, and its statement.
    fn hinge(&self) -> Option<(&str, crate::measure::Span)> {
        let front = match self.part.assembly {
            Assembly::Front(_) => self.part.opening()?,
            _ => {
                return self.tell.piece.hinges.iter().find_map(|hinge| match hinge.kind {
                    HingeKind::Cup { plate: Some(plate), .. }
                        if plate.span == self.feature.span =>
                    {
                        Some((hinge.name.as_str(), hinge.span))
                    }
                    _ => None,
                });
            }
        };
        let fronts = self.tell.piece.opening(front)?.front.as_ref()?;
        let hinge = self.tell.piece.hinge(fronts.hinge?.0)?;
        Some((hinge.name.as_str(), hinge.span))
    }

    /// The center of a cup, from where the length and the width of its part begin.
    fn cup(&self, u: Length, v: Length) -> (Size, Size) {
        use words::hinge::{BLOCK, CUP, FROM_EDGE};
        let told = || {
            let (_, hinge, heights) = self.tell.hung(self.part)?;
            let HingeKind::Cup { diameter, from_edge, .. } = hinge.kind else { return None };
            let (tell, name, at) = (self.tell, &hinge.name, Some(hinge.span));
            let height = heights.into_iter().find(|height| height.length == u)?;
            let edge = tell.origin(&BLOCK, FROM_EDGE, at);
            let edge = tell.fact(from_edge, format!("edge of {name}'s cup"), edge);
            let cup = tell.fact(diameter, format!("cup of {name}"), tell.origin(&BLOCK, CUP, at));
            let across = edge + cup.half();
            let across = match across.length == v {
                true => across,
                false => &self.part.width - across,
            };
            Some((height, across))
        };
        told().unwrap_or_else(|| (u.into(), v.into()))
    }

    /// The fronts that this part is of, and the pull on them.
    fn fitted_pull(&self) -> Option<(&Fronts, &Pull)> {
        let fronts = self.tell.piece.opening(self.part.opening()?)?.front.as_ref()?;
        Some((fronts, self.tell.piece.pull(fronts.pull?)?))
    }

    /// The center of a hole for a pull, from where the length and the width of its
    /// part begin. What the front says of its place comes before what the pull says.
    fn pull(&self, u: Length, v: Length) -> (Size, Size) {
        use words::pull::{BLOCK, CENTERS, FROM_EDGE};
        let told = || {
            let (fronts, pull) = self.fitted_pull()?;
            let (tell, name, at) = (self.tell, &pull.name, Some(pull.span));
            let opening = tell.piece.opening(self.part.opening()?)?;
            let front_says = &fronts.pull_place;
            let edge = match front_says.from_edge.zip(front_says.from_edge_span) {
                Some((from, span)) => tell.written(from, span, &format!("edge of {name}")),
                None => {
                    let edge = tell.origin(&BLOCK, FROM_EDGE, at);
                    tell.fact(pull.from_edge, format!("edge of {name}"), edge)
                }
            };
            let apart = pull.centers.map_or_else(Size::zero, |centers| {
                tell.fact(centers, format!("centers of {name}"), tell.origin(&BLOCK, CENTERS, at))
            });
            let (length, width) = (&self.part.length, &self.part.width);
            let is_door = matches!(opening.kind, OpeningKind::Door(_) | OpeningKind::Doors);
            let upright = self.part.placement.length == Direction::Y;
            let (wide, high) = if upright { (width, length) } else { (length, width) };
            let height = |from: Length| {
                let span = front_says.span.unwrap_or(pull.span);
                tell.written(from, span, &format!("height of {name}"))
            };
            let high = match front_says.at {
                Some(PullAt::FromTop(from)) => high - height(from),
                Some(PullAt::FromBottom(from)) => height(from),
                Some(PullAt::Middle) => high.half(),
                None if is_door || pull.height == PullHeight::Middle => high.half(),
                None => high * 2 / 3,
            };
            let count = i64::from(front_says.count);
            let wide: Vec<Size> = match is_door {
                true => vec![edge.clone(), wide - &edge],
                false => (0..count).map(|own| wide * (2 * own + 1) / (2 * count)).collect(),
            };
            let near = |place: Length, middles: &[Size]| {
                let half = apart.half();
                let mut all = middles.iter().flat_map(|at| [at.clone(), at - &half, at + &half]);
                all.find(|size| size.length == place).unwrap_or_else(|| place.into())
            };
            let (u, v) = if upright { (v, u) } else { (u, v) };
            let (wide, high) = (near(u, &wide), near(v, &[high]));
            Some(if upright { (high, wide) } else { (wide, high) })
        };
        told().unwrap_or_else(|| (u.into(), v.into()))
    }
}
