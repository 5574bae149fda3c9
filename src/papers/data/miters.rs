//! Edges that are mitered.

use serde::Serialize;

use crate::parts::{Feature, FeatureKind, Part};
use crate::plans::sawing::Bevel;

use super::Maker;
use super::record::Figure;

/// What is told of a miter beside its place; nothing of anything else.
#[derive(Serialize)]
pub(super) struct Miter {
    /// The face whose corner stays: it is seen.
    #[serde(skip_serializing_if = "Option::is_none")]
    long_point: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    sawn: Option<Sawn>,
}

/// How its edge is sawn.
#[derive(Serialize)]
struct Sawn {
    with: &'static str,
    on: String,
    up: String,
    at: Figure,
}

impl Maker<'_, '_> {
    pub(super) fn miter(&self, part: &Part, feature: &Feature) -> Miter {
        let seen = part.show.filter(|_| feature.kind == FeatureKind::Miter);
        let piece = self.work.piece;
        let bevel = Bevel::of(&piece.shop, piece.tape().unit, part, feature);
        Miter {
            long_point: seen.map(|show| part.face_name(show)),
            sawn: bevel.map(|own| Sawn {
                with: own.tool.word(),
                on: part.face_name(own.on),
                up: part.face_name(own.up),
                at: self.figure(own.at),
            }),
        }
    }
}
