//! What is known of wood that is cut, as data.

use serde::Serialize;

use super::two_sided::Figure;

/// How far a part has come of which the shop has written something down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum CutState {
    /// It lies on the bench.
    Cut,
    /// It was spoiled.
    Spoiled,
    /// Its part has another name now, and the record has the old one.
    OldName,
    /// No part has this name.
    ForNothing,
}

/// What a part that is cut lacks to be as it is drawn.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "what", rename_all = "kebab-case")]
pub enum Need {
    /// It is to be of another stock.
    Stock {
        /// The stock it was cut from, where that is written.
        cut: Option<String>,
        /// Its stock as drawn.
        wanted: Option<String>,
    },
    /// It is too small.
    Larger {
        /// `length`, `width`, `thickness`.
        size: &'static str,
        /// As it was cut.
        cut: Figure,
        /// As it is drawn.
        wanted: Figure,
    },
    /// It is to be trimmed.
    Smaller {
        /// `length`, `width`, `thickness`.
        size: &'static str,
        /// As it was cut.
        cut: Figure,
        /// As it is drawn.
        wanted: Figure,
        /// From which ends or edges the wood is taken, where its joints say so.
        off: Vec<Off>,
    },
    /// It has a joint that takes wood where the drawing leaves it.
    Joint {
        /// Which kind.
        joint: String,
        /// `at`: it stands elsewhere; `wide`, `deep`, `long`, `thick`, `across`:
        /// it is too large.
        how: &'static str,
        /// Where or how large it was made.
        cut: Figure,
        /// Where or how large it is drawn; nothing where it is drawn no more.
        wanted: Option<Figure>,
    },
    /// It has fewer joints and bores than are drawn.
    Joints {
        /// How many fewer.
        more: u32,
        /// Those to be cut, where that is known: `dado, 2 hinge cups`.
        which: Option<String>,
        /// Those to be made larger.
        larger: Option<String>,
    },
}

/// Wood that is taken off one side of a part.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Off {
    /// `left end`
    pub side: String,
    /// How much.
    pub by: Figure,
}

impl Need {
    /// True where the wood can't be made to fit.
    #[must_use]
    pub fn is_anew(&self) -> bool {
        matches!(self, Self::Stock { .. } | Self::Larger { .. } | Self::Joint { .. })
    }
}

/// What is known of a part that was cut.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CutPart {
    /// Its name; as it is written in `cut` where no part has that.
    pub path: String,
    /// Its mark; nothing where it is no part of the drawing.
    pub mark: String,
    /// What it is called on paper.
    pub name: String,
    /// The day of the last word on it.
    pub date: String,
    /// How far it has come.
    pub state: CutState,
    /// What it lacks.
    pub needs: Vec<Need>,
}
