//! What is cut, what is left to cut, and what must be trimmed: the facts of
//! the shop beside the parts as they are drawn now.

use crate::measure::{Length, Spanned};
use crate::model::{Cut, Piece, Size, Stock};
use crate::parts::{Face, Meant, Part, PartId, Parts};

use super::made::{self, Fit, ToMake};

mod renamed;
mod uses;

pub use renamed::{Nameless, Suits};

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

/// A dimension of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// Along its grain.
    Length,
    /// Across it.
    Width,
    /// Through it.
    Thickness,
}

impl Dimension {
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
#[derive(Clone, Debug)]
pub struct Differs<'a> {
    /// The part.
    pub part: &'a Part,
    /// What is known of it.
    pub cut: &'a Cut,
    /// Which dimension.
    pub dimension: Dimension,
    /// As it was cut.
    pub was: Length,
    /// As it is to be now.
    pub needs: Size,
    /// It is trimmed to that before it is planed to an opening out of square.
    pub to_blank: bool,
}

/// A dimension, what a part was cut to, and what it is drawn and is made to.
type Dimensioned<'a> = (Dimension, &'a Option<Spanned<Length>>, &'a Size, Size);

/// A part that is to have more joints than when it was made.
#[derive(Clone, Debug)]
pub struct MoreJoints<'a> {
    /// The part.
    pub part: &'a Part,
    /// What is known of it.
    pub cut: &'a Cut,
    /// How many more.
    pub more: u32,
    /// Which, where that is known.
    pub to_make: Vec<ToMake>,
}

impl MoreJoints<'_> {
    /// Those to be cut, or those to be made `larger`, by their words; nothing
    /// where there are none or which is not known.
    #[must_use]
    pub fn listed(&self, larger: bool) -> Option<String> {
        let own = self.to_make.iter().filter(|it| it.larger == larger);
        let features = own.filter_map(|it| self.part.features.get(it.feature));
        let list = made::listed(features.map(|feature| made::kind(feature.kind)));
        Some(list).filter(|list| !list.is_empty())
    }
}

/// Where the wood of a trim comes off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Off {
    /// Of a part whose joints are not on record, nobody can tell.
    Unknown,
    /// At either end or edge.
    Either,
    /// So much off each.
    Sides([(Face, Length); 2]),
}

/// A stock that parts were cut from and that the spec does not have.
#[derive(Clone, Debug)]
pub struct Unnamed<'a> {
    /// What it is called in `cut`.
    pub name: &'a str,
    /// The parts that were cut from it.
    pub cuts: Vec<&'a Cut>,
    /// What all of them are of now, if that could be it.
    pub now: Option<&'a Stock>,
}

/// The parts of a piece with what is known of them.
#[derive(Debug)]
pub struct Ledger<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// Its parts.
    pub parts: &'a Parts,
    /// The last word on each part.
    last: Vec<Option<&'a Cut>>,
    /// What no part is called.
    pub gone: Vec<&'a Cut>,
    /// What more than one part is called, with those parts.
    pub unclear: Vec<(&'a Cut, &'a [PartId])>,
    /// How the joints in each part agree with the drawing.
    fits: Vec<Option<Fit<'a>>>,
}

impl<'a> Ledger<'a> {
    /// Finds the part of every `cut`.
    #[must_use]
    pub fn of(piece: &'a Piece, parts: &'a Parts) -> Self {
        let last = vec![None; parts.all.len()];
        let mut ledger =
            Self { piece, parts, last, gone: Vec::new(), unclear: Vec::new(), fits: Vec::new() };
        for (cut, meant) in piece.cuts.iter().zip(&parts.cuts) {
            match meant {
                Meant::One(id) => {
                    if let Some(last) = ledger.last.get_mut(id.0) {
                        *last = Some(cut);
                    }
                }
                Meant::Many(ids) => ledger.unclear.push((cut, ids)),
                Meant::None => {
                    // What is said of it later takes the place of this.
                    ledger.gone.retain(|known| known.name.value != cut.name.value);
                    ledger.gone.push(cut);
                }
            }
        }
        let known = parts.all.iter().zip(&ledger.last);
        ledger.fits = known.map(|(part, cut)| ledger.laid(part, (*cut)?)).collect();
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

    /// True for a part that lies on the bench.
    #[must_use]
    pub fn is_cut(&self, id: PartId) -> bool {
        matches!(self.state(id), State::Cut(_))
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
        self.differing(lack)
    }

    /// Sizes of cut parts that are to be smaller.
    #[must_use]
    pub fn trims(&self) -> Vec<Differs<'a>> {
        super::square::before_planing(self.piece, self.parts, self.differing(excess))
    }

    fn differing(&self, by: impl Fn(Length, Length) -> Length) -> Vec<Differs<'a>> {
        self.cut().flat_map(|(part, cut)| self.differing_of(part, cut, &by)).collect()
    }

    /// The sizes of one cut part that differ; none where its stock does.
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
        let [long, wide] = part.as_made();
        let sizes = [
            (Dimension::Length, &cut.long, &part.length, long),
            (Dimension::Width, &cut.wide, &part.width, wide),
            (Dimension::Thickness, &cut.thick, &part.thickness, part.thickness.clone()),
        ];
        let differs = |(dimension, was, drawn, made): Dimensioned<'a>| {
            let was = was.as_ref()?.value;
            // What is left on for the floor and the wall comes off when it is scribed.
            let needs = match was < drawn.length {
                true => drawn.clone(),
                false if was <= made.length => return None,
                false => made,
            };
            // A sheet is as thick as it is.
            let fixed = dimension == Dimension::Thickness && !self.is_solid(part);
            let differs = !fixed && by(was, needs.length) > tolerance;
            differs.then_some(Differs { part, cut, dimension, was, needs, to_blank: false })
        };
        sizes.into_iter().filter_map(differs).collect()
    }

    /// True for a part that was cut from another stock than it is to be of:
    /// another wood, or a sheet of another thickness, whatever it is called. Two
    /// sheets of one kind may differ by 1/32 in (common practice, no source). A
    /// name that the spec does not have any more says nothing.
    #[must_use]
    pub fn is_other_stock(&self, part: &Part, cut: &Cut) -> bool {
        let Some(stock) = self.piece.stock(part.stock) else { return false };
        let other_name = cut.stock.as_ref().is_some_and(|name| {
            name.value != stock.name && self.piece.stocks.iter().any(|it| it.name == name.value)
        });
        let other_wood = match (&cut.species, &stock.species) {
            (Some(cut), Some(species)) => cut.value != *species,
            _ => false,
        };
        let other_sheet = !stock.is_solid()
            && cut.thick.as_ref().is_some_and(|thick| {
                (thick.value - part.thickness.length).abs() > Length::inches(1, 32)
            });
        other_name || other_wood || other_sheet
    }

    /// The stocks that parts were cut from and that the spec does not have.
    #[must_use]
    pub fn unnamed(&self) -> Vec<Unnamed<'a>> {
        let mut all: Vec<Unnamed<'a>> = Vec::new();
        for (part, cut) in self.cut() {
            let Some(name) = cut.stock.as_ref().map(|name| name.value.as_str()) else { continue };
            if self.piece.stocks.iter().any(|stock| stock.name == name) {
                continue;
            }
            let could = !self.is_other_stock(part, cut);
            let now = self.piece.stock(part.stock).filter(|_| could);
            match all.iter_mut().find(|known| known.name == name) {
                Some(known) => {
                    known.cuts.push(cut);
                    known.now = known.now.filter(|it| now.is_some_and(|now| now.name == it.name));
                }
                None => all.push(Unnamed { name, cuts: vec![cut], now }),
            }
        }
        all
    }

    fn is_solid(&self, part: &Part) -> bool {
        self.piece.stock(part.stock).is_some_and(crate::model::Stock::is_solid)
    }

    /// Cut parts that are to have more joints and bores than when they were
    /// made. One that is only sawn is not among them: it is not made yet.
    #[must_use]
    pub fn more_joints(&self) -> Vec<MoreJoints<'a>> {
        let more = |(id, part): (PartId, &'a Part)| {
            let State::Cut(cut) = self.state(id) else { return None };
            let (more, to_make) = match self.fit(id) {
                Some(fit) => (fit.to_make.len(), fit.to_make.clone()),
                None if self.is_other_stock(part, cut) || self.is_too_small(part, cut) => {
                    return None;
                }
                None if cut.sawn.is_some() => return None,
                None => {
                    let had = cut.joints.as_ref()?.value as usize;
                    let more = part.features.len().checked_sub(had)?;
                    let all = (0..part.features.len()).filter(|_| had == 0);
                    (more, all.map(|feature| ToMake { feature, larger: false }).collect())
                }
            };
            let more = u32::try_from(more).ok().filter(|more| *more > 0)?;
            Some(MoreJoints { part, cut, more, to_make })
        };
        self.parts.iter().filter_map(more).collect()
    }

    /// Parts that were only sawn and are drawn with joints.
    #[must_use]
    pub fn sawn(&self) -> Vec<&'a Part> {
        let sawn = |(part, cut): (&'a Part, &'a Cut)| {
            (cut.sawn.is_some() && !part.features.is_empty()).then_some(part)
        };
        self.cut().filter_map(sawn).collect()
    }

    /// How the joints in a part agree with the drawing: nothing of one that is
    /// to be made again anyhow, or of which no joint is written down.
    #[must_use]
    pub fn fit(&self, id: PartId) -> Option<&Fit<'a>> {
        self.fits.get(id.0)?.as_ref()
    }

    /// Where the wood of a trim comes off for the joints to come right. Of its
    /// thickness nobody can tell.
    #[must_use]
    pub fn off(&self, trim: &Differs<'_>) -> Off {
        let (axis, faces) = match trim.dimension {
            Dimension::Length => (0, [Face::LengthStart, Face::LengthEnd]),
            Dimension::Width => (1, [Face::WidthStart, Face::WidthEnd]),
            Dimension::Thickness => return Off::Unknown,
        };
        let fit = self.parts.find(&trim.part.key()).and_then(|(id, _)| self.fit(id));
        match fit {
            None => Off::Unknown,
            Some(fit) if fit.either[axis] => Off::Either,
            Some(fit) => {
                let (first, whole) = (fit.shift[axis], trim.was - trim.needs.length);
                Off::Sides([(faces[0], first), (faces[1], whole - first)])
            }
        }
    }

    fn laid(&self, part: &'a Part, cut: &'a Cut) -> Option<Fit<'a>> {
        let is_known = cut.spoiled.is_none() && !cut.made.is_empty();
        if !is_known || self.is_other_stock(part, cut) || self.is_too_small(part, cut) {
            return None;
        }
        let tolerance = self.piece.shop.tolerance.cut;
        let spare = |was: &Option<Spanned<Length>>, needs: &Size| {
            let spare = was.as_ref().map_or(Length::ZERO, |was| was.value - needs.length);
            if spare > tolerance { spare } else { Length::ZERO }
        };
        let spare = [spare(&cut.long, &part.length), spare(&cut.wide, &part.width)];
        Some(made::fit(part, cut, spare, tolerance, &self.mates(part)))
    }

    /// The same, with nothing taken off where the part begins: many boards are
    /// held against many parts so.
    fn laid_flush(&self, part: &'a Part, cut: &'a Cut) -> Option<Fit<'a>> {
        let tolerance = self.piece.shop.tolerance.cut;
        let flush = || made::fit(part, cut, [Length::ZERO; 2], tolerance, &self.mates(part));
        (!cut.made.is_empty()).then(flush)
    }

    /// How thick the board on the bench is that goes into each joint of a part.
    fn mates(&self, part: &Part) -> Vec<Option<Length>> {
        let mate = |id: PartId| match (self.state(id), self.parts.get(id)) {
            (State::Cut(cut), Some(mate)) if !self.is_other_stock(mate, cut) => {
                Some(cut.thick.as_ref()?.value)
            }
            _ => None,
        };
        part.features.iter().map(|feature| mate(feature.takes?)).collect()
    }

    fn is_too_small(&self, part: &'a Part, cut: &'a Cut) -> bool {
        !self.differing_of(part, cut, lack).is_empty()
    }

    /// Cut parts with joints where the drawing wants none.
    pub fn lost(&self) -> impl Iterator<Item = (&'a Part, &'a Cut, &Fit<'a>)> {
        let fits = self.parts.iter().filter_map(|(id, part)| {
            let State::Cut(cut) = self.state(id) else { return None };
            Some((part, cut, self.fit(id)?))
        });
        fits.filter(|(.., fit)| !fit.lost.is_empty())
    }

    /// True for a part that these features were made in, none of which is cut
    /// off again.
    #[must_use]
    pub fn is_made(&self, id: PartId, features: &[usize]) -> bool {
        let (State::Cut(cut), Some(part)) = (self.state(id), self.parts.get(id)) else {
            return false;
        };
        if let Some(fit) = self.fit(id) {
            let missing = |feature: &usize| fit.to_make.iter().any(|it| it.feature == *feature);
            return fit.lost.is_empty() && !features.iter().any(missing);
        }
        let had = cut.joints.as_ref().map_or(0, |joints| joints.value as usize);
        let trims = self.differing_of(part, cut, excess);
        let whole = trims.iter().all(|trim| trim.dimension == Dimension::Thickness);
        cut.made.is_empty() && had > 0 && had >= part.features.len() && whole
    }
}

/// What a part has too little.
fn lack(was: Length, needs: Length) -> Length {
    needs - was
}

/// What a part has too much.
fn excess(was: Length, needs: Length) -> Length {
    was - needs
}
