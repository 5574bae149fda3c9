//! Where the outer hinges of a door sit.

use crate::measure::{Length, Span};
use crate::vocabulary::{Entries, words};

use super::hinge::Hinge;
use super::lower::Lower;

/// Where the outer hinges of a door sit, as far as its front says so; else the hinge does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct HingePlace {
    /// From the top of the door to the center of the uppermost, and the statement.
    pub from_top: Option<(Length, Span)>,
    /// From the bottom of the door to the center of the lowest, and the statement.
    pub from_bottom: Option<(Length, Span)>,
}

impl HingePlace {
    /// From the bottom of a door to its lowest hinge, and from its top to the uppermost.
    #[must_use]
    pub fn ends(&self, hinge: &Hinge) -> [Length; 2] {
        [self.from_bottom, self.from_top]
            .map(|own| own.map_or(hinge.from_end, |(length, _)| length))
    }
}

/// Reads the braces behind a hinge.
pub(super) fn read(body: &Entries, ctx: &mut Lower) -> HingePlace {
    use words::hinge_place::{FROM_BOTTOM, FROM_TOP};

    let mut own = |word, what| {
        let size = ctx.positive(body, word, what).known()?;
        Some((size.length, body.one(word)?.head))
    };
    HingePlace {
        from_top: own(FROM_TOP, "hinge from the top"),
        from_bottom: own(FROM_BOTTOM, "hinge from the bottom"),
    }
}
