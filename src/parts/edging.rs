//! Strips on the edges of a part: what its core is without them, and in which order
//! they go on.

use crate::measure::{Length, Span, Unit};
use crate::model::{Size, StockId};

use super::part::Part;
use super::space::Face;

/// A strip on an edge or end of a part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Strip {
    /// The edge or end.
    pub face: Face,
    /// What it is ripped from, or banding.
    pub stock: StockId,
    /// How much it adds.
    pub thick: Size,
    /// It is banding.
    pub banding: bool,
    /// The statement that asks for it.
    pub span: Span,
}

/// How much longer than its edge a strip is cut, both ends together, and how much
/// larger than its finished size a lipped board is sawn where it is cut to size later.
/// Common practice, no source.
#[must_use]
pub fn overlong(unit: Unit) -> (Length, Length) {
    let longer = unit.either(Length::inches(1, 1), Length::mm(25));
    (longer, unit.either(Length::inches(1, 4), Length::mm(6)))
}

impl Part {
    /// The length and width that it is sawn to in the shop, without strips.
    #[must_use]
    pub fn core(&self) -> [Size; 2] {
        let less = |size: &Size, faces: [Face; 2]| {
            let own = self.strips.iter().filter(|strip| faces.contains(&strip.face));
            own.fold(size.clone(), |size, strip| size - &strip.thick)
        };
        let [length, width] = self.as_made();
        [
            less(&length, [Face::LengthStart, Face::LengthEnd]),
            less(&width, [Face::WidthStart, Face::WidthEnd]),
        ]
    }

    /// True where its length, or its width, is cut to size only when its lips are on and
    /// trimmed. Banding goes on a board that has its size, and between two lips there is
    /// nothing left to cut.
    #[must_use]
    pub fn is_cut_after(&self, faces: [Face; 2]) -> bool {
        let lipped = !self.strips.is_empty() && self.strips.iter().all(|strip| !strip.banding);
        lipped && self.strips.iter().filter(|strip| faces.contains(&strip.face)).count() < 2
    }

    /// How long the edge of a strip is when the strip goes on, by its place in their
    /// order: those at the ends go on first, and those along it cover theirs.
    #[must_use]
    pub fn edge_long(&self, number: usize) -> Length {
        let Some(strip) = self.strips.get(number) else { return Length::ZERO };
        let across = matches!(strip.face, Face::LengthStart | Face::LengthEnd);
        let before = self.strips.iter().take(number);
        let [length, width] = [self.rough.length, self.rough.width];
        let (sawn, ends) = match across {
            true => (width, [Face::WidthStart, Face::WidthEnd]),
            false => (length, [Face::LengthStart, Face::LengthEnd]),
        };
        let on = before.filter(|strip| ends.contains(&strip.face));
        on.fold(sawn, |sum, strip| sum + strip.thick.length)
    }
}
