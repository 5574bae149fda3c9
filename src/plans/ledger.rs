//! What is cut, what is left to cut, and what must be trimmed: the facts of
//! the shop beside the parts as they are drawn now.

use crate::measure::{Length, Spanned, nearest};
use crate::model::{Cut, Piece, Size};
use crate::parts::{Part, PartId, Parts};

use super::made::{self, Fit};

/// How far a part has come.
#[derive(Clone, Copy, Debug)]
pub enum State<'a> {
    /// Not cut yet.
    Uncut,
    /// It lies on the bench.
    Cut(&'a Cut),
    /// It was spoiled, and is to be cut again.
    Spoiled(&'a Cut),
}

/// A side of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Along its grain.
    Length,
    /// Across it.
    Width,
    /// Through it.
    Thickness,
}

impl Side {
    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Width => "width",
            Self::Thickness => "thickness",
        }
    }
}

/// A size that a part was cut to and is no longer to have.
#[derive(Clone, Copy, Debug)]
pub struct Differs<'a> {
    /// The part.
    pub part: &'a Part,
    /// What is known of it.
    pub cut: &'a Cut,
    /// Which side.
    pub side: Side,
    /// As it was cut.
    pub was: Length,
    /// As it is to be now.
    pub needs: &'a Size,
}

impl Differs<'_> {
    /// Where wood is taken off that may hold joints already: `end`, `edge`;
    /// nothing for a part that was cut without any.
    #[must_use]
    pub fn jointed(&self) -> Option<&'static str> {
        let had = self.cut.joints.as_ref().map_or(0, |joints| joints.value);
        match self.side {
            _ if had == 0 => None,
            Side::Length => Some("end"),
            Side::Width => Some("edge"),
            Side::Thickness => None,
        }
    }
}

/// A part that is to have more joints than when it was made.
#[derive(Clone, Copy, Debug)]
pub struct MoreJoints<'a> {
    /// The part.
    pub part: &'a Part,
    /// What is known of it.
    pub cut: &'a Cut,
    /// How many more.
    pub more: u32,
}

/// What a name in `cut` means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Meant {
    /// This part.
    One(PartId),
    /// More than one part; their names.
    Many(Vec<String>),
    /// None.
    None,
}

/// The parts of a piece with what is known of them.
#[derive(Debug)]
pub struct Ledger<'a> {
    piece: &'a Piece,
    parts: &'a Parts,
    /// The last word on each part.
    last: Vec<Option<&'a Cut>>,
    /// What no part is called.
    pub gone: Vec<&'a Cut>,
    /// What more than one part is called, with their names.
    pub unclear: Vec<(&'a Cut, Vec<String>)>,
}

impl<'a> Ledger<'a> {
    /// Finds the part of every `cut`.
    #[must_use]
    pub fn of(piece: &'a Piece, parts: &'a Parts) -> Self {
        let last = vec![None; parts.all.len()];
        let mut ledger = Self { piece, parts, last, gone: Vec::new(), unclear: Vec::new() };
        for cut in &piece.cuts {
            match meant(parts, &cut.name.value) {
                Meant::One(id) => {
                    if let Some(last) = ledger.last.get_mut(id.0) {
                        *last = Some(cut);
                    }
                }
                Meant::Many(names) => ledger.unclear.push((cut, names)),
                Meant::None => {
                    // What is said of it later takes the place of this.
                    ledger.gone.retain(|known| known.name.value != cut.name.value);
                    ledger.gone.push(cut);
                }
            }
        }
        ledger
    }

    /// True where nothing is known of any part.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.last.iter().all(Option::is_none)
    }

    /// How far a part has come.
    #[must_use]
    pub fn state(&self, id: PartId) -> State<'a> {
        match self.last.get(id.0).copied().flatten() {
            Some(cut) if cut.spoiled.is_some() => State::Spoiled(cut),
            Some(cut) => State::Cut(cut),
            None => State::Uncut,
        }
    }

    /// The parts that lie on the bench, with what is known of them.
    pub fn cut(&self) -> impl Iterator<Item = (&'a Part, &'a Cut)> {
        let known = self.parts.all.iter().zip(&self.last);
        known.filter_map(|(part, cut)| {
            cut.filter(|cut| cut.spoiled.is_none()).map(|cut| (part, cut))
        })
    }

    /// Sizes of cut parts that are to be larger now than they were cut. What
    /// the shop's tolerance covers is no difference.
    #[must_use]
    pub fn too_small(&self) -> Vec<Differs<'a>> {
        self.differing(|was, needs| needs - was)
    }

    /// Sizes of cut parts that are to be smaller.
    #[must_use]
    pub fn trims(&self) -> Vec<Differs<'a>> {
        self.differing(excess)
    }

    fn differing(&self, by: impl Fn(Length, Length) -> Length) -> Vec<Differs<'a>> {
        self.cut().flat_map(|(part, cut)| self.differing_of(part, cut, &by)).collect()
    }

    /// The sides of one cut part that differ; none where its stock does.
    fn differing_of(
        &self,
        part: &'a Part,
        cut: &'a Cut,
        by: impl Fn(Length, Length) -> Length,
    ) -> Vec<Differs<'a>> {
        if self.is_other_stock(part, cut) {
            return Vec::new();
        }
        let tolerance = self.piece.shop.tolerance.cut;
        let sides = [
            (Side::Length, &cut.long, &part.length),
            (Side::Width, &cut.wide, &part.width),
            (Side::Thickness, &cut.thick, &part.thickness),
        ];
        let differs = |(side, was, needs): (Side, &Option<Spanned<Length>>, &'a Size)| {
            let was = was.as_ref()?.value;
            // A sheet is as thick as it is.
            let fixed = side == Side::Thickness && !self.is_solid(part);
            let differs = !fixed && by(was, needs.length) > tolerance;
            differs.then_some(Differs { part, cut, side, was, needs })
        };
        sides.into_iter().filter_map(differs).collect()
    }

    /// True for a part that was cut from another stock than it is to be of; a
    /// sheet of another thickness is one, whatever it is called. Two sheets of
    /// one kind may differ by 1/32 in (common practice, no source).
    #[must_use]
    pub fn is_other_stock(&self, part: &Part, cut: &Cut) -> bool {
        let Some(stock) = self.piece.stock(part.stock) else { return false };
        let other_name = cut.stock.as_ref().is_some_and(|name| name.value != stock.name);
        let other_sheet = !stock.is_solid()
            && cut.thick.as_ref().is_some_and(|thick| {
                (thick.value - part.thickness.length).abs() > Length::inches(1, 32)
            });
        other_name || other_sheet
    }

    fn is_solid(&self, part: &Part) -> bool {
        self.piece.stock(part.stock).is_some_and(crate::model::Stock::is_solid)
    }

    /// Cut parts that are to have more joints and bores than when they were made.
    #[must_use]
    pub fn more_joints(&self) -> Vec<MoreJoints<'a>> {
        let more = |(part, cut): (&'a Part, &'a Cut)| {
            let had = cut.joints.as_ref()?.value;
            let more = joints(part).checked_sub(had).filter(|more| *more > 0)?;
            Some(MoreJoints { part, cut, more })
        };
        self.cut().filter_map(more).collect()
    }

    /// How the joints in a cut part agree with the drawing: nothing of one that
    /// is to be made again anyhow, or of which no joint is written down.
    #[must_use]
    pub fn fit(&self, part: &Part, cut: &'a Cut) -> Option<Fit<'a>> {
        if cut.made.is_empty() || self.is_other_stock(part, cut) {
            return None;
        }
        let spare = |was: &Option<Spanned<Length>>, needs: &Size| {
            let spare = was.as_ref().map_or(Length::ZERO, |was| was.value - needs.length);
            spare.max(Length::ZERO)
        };
        let spare = [spare(&cut.long, &part.length), spare(&cut.wide, &part.width)];
        Some(made::fit(part, cut, spare, self.piece.shop.tolerance.cut))
    }

    /// Cut parts with joints where the drawing wants none.
    pub fn moved(&self) -> impl Iterator<Item = (&'a Part, &'a Cut, Fit<'a>)> {
        let fits = self.cut().filter_map(|(part, cut)| Some((part, cut, self.fit(part, cut)?)));
        fits.filter(|(.., fit)| !fit.moved.is_empty())
    }

    /// True for a part that was made with all the joints and bores it is drawn
    /// with, none of which is cut off again.
    #[must_use]
    pub fn is_jointed(&self, id: PartId) -> bool {
        let (State::Cut(cut), Some(part)) = (self.state(id), self.parts.get(id)) else {
            return false;
        };
        let had = cut.joints.as_ref().map_or(0, |joints| joints.value);
        let trims = || self.differing_of(part, cut, excess);
        let moved = || self.fit(part, cut).is_some_and(|fit| !fit.moved.is_empty());
        had > 0
            && had >= joints(part)
            && trims().iter().all(|trim| trim.jointed().is_none())
            && !moved()
    }

    /// Parts still to be cut that a board of this size would do for.
    #[must_use]
    pub fn would_do_for(&self, cut: &Cut) -> Vec<&'a Part> {
        let (Some(long), Some(wide), Some(stock)) = (&cut.long, &cut.wide, &cut.stock) else {
            return Vec::new();
        };
        if cut.joints.as_ref().is_some_and(|joints| joints.value > 0) {
            // Where its joints would come to lie is the maker's to look at.
            return Vec::new();
        }
        let tolerance = self.piece.shop.tolerance.cut;
        let fits = |part: &Part| {
            let same = self.piece.stock(part.stock).is_some_and(|own| own.name == stock.value);
            let thick = cut
                .thick
                .as_ref()
                .is_none_or(|thick| part.thickness.length <= thick.value + tolerance);
            same && thick
                && !self.is_other_stock(part, cut)
                && part.length.length <= long.value + tolerance
                && part.width.length <= wide.value + tolerance
        };
        let left = |(id, part): (PartId, &'a Part)| {
            (!matches!(self.state(id), State::Cut(_)) && fits(part)).then_some(part)
        };
        self.parts.iter().filter_map(left).collect()
    }
}

/// What a part has too much.
fn excess(was: Length, needs: Length) -> Length {
    was - needs
}

/// How many joints and bores a part has.
#[must_use]
pub fn joints(part: &Part) -> u32 {
    u32::try_from(part.features.len()).unwrap_or(u32::MAX)
}

/// The part that a name means: the whole of it, the end of it, or a mark.
#[must_use]
pub fn meant(parts: &Parts, name: &str) -> Meant {
    if let Some((id, _)) = parts.named(name) {
        return Meant::One(id);
    }
    let dotted = format!(".{name}");
    let ends: Vec<(PartId, &Part)> =
        parts.iter().filter(|(_, part)| part.path.ends_with(&dotted)).collect();
    let found = match ends.is_empty() {
        true => parts.iter().filter(|(_, part)| part.mark.eq_ignore_ascii_case(name)).collect(),
        false => ends,
    };
    match found.as_slice() {
        [] => Meant::None,
        [(id, _)] => Meant::One(*id),
        many => Meant::Many(many.iter().map(|(_, part)| part.path.clone()).collect()),
    }
}

/// The name of a part that is nearest to a misspelt one. One word of a whole
/// name may be wrong: most of two names is always the same.
#[must_use]
pub fn near<'a>(parts: &'a Parts, name: &str) -> Option<&'a str> {
    let Some((list, last)) = name.rsplit_once('.') else {
        let ends = parts.all.iter().map(Part::name);
        return nearest(name, ends.filter(|end| matches!(meant(parts, end), Meant::One(_))));
    };
    let split = || parts.all.iter().filter_map(|part| Some((part, part.path.rsplit_once('.')?)));
    let beside = || split().filter(|(_, (own, _))| *own == list).map(|(_, (_, end))| end);
    let (to_last, to_list) = (nearest(last, beside()), || {
        nearest(list, split().filter(|(_, (_, end))| *end == last).map(|(_, (own, _))| own))
    });
    let meant = |list: &str, last: &str| {
        let found = split().find(|(_, (own, end))| *own == list && *end == last);
        found.map(|(part, _)| part.path.as_str())
    };
    match to_last {
        Some(end) => meant(list, end),
        None => meant(to_list()?, last),
    }
}
