//! What may be asked of a thing: its size, a joint, a set-up, its weight.

use crate::parts::{Bore, FeatureKind};

/// What may be asked of a thing, by the word that a maker asks with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Subject {
    /// Its finished size.
    Size,
    /// Whatever is cut into it but holes.
    Joint,
    /// Dados.
    Dado,
    /// Grooves.
    Groove,
    /// Rabbets.
    Rabbet,
    /// Notches.
    Notch,
    /// Slots for screws.
    Slot,
    /// Pocket holes.
    Pocket,
    /// Tenons.
    Tenon,
    /// Mortises.
    Mortise,
    /// Dovetails.
    Dovetail,
    /// Flutes.
    Flute,
    /// Round holes.
    Bore,
    /// Cups of hinges.
    Cup,
    /// Holes for pulls.
    Pull,
    /// Holes for the plates of hinges.
    Plate,
    /// Holes for bought legs.
    Leg,
    /// Hinges.
    Hinge,
    /// Lines of screws.
    Screw,
    /// Shelf pins.
    Pin,
    /// Drawer slides and their packers.
    Slide,
    /// Hanging rails.
    Rail,
    /// What doors close against.
    Stop,
    /// Set-ups of the router.
    SetUp,
    /// Gaps round a front.
    Gap,
    /// What the year does to a board.
    Movement,
    /// Weights.
    Weight,
    /// Where what is lifted balances.
    Balance,
    /// What holds a case back, and what tips it.
    Tip,
    /// Diagonals that show a case square.
    Diagonal,
    /// How much of a finish a coat takes.
    Finish,
    /// Clamps, and how long the glue takes to spread.
    Clamp,
    /// What boards to buy, and how well they are used.
    Board,
    /// Steps of the assembly order.
    Step,
    /// Times.
    Time,
}

impl Subject {
    /// All of them.
    pub const ALL: [Self; 35] = [
        Self::Size,
        Self::Joint,
        Self::Dado,
        Self::Groove,
        Self::Rabbet,
        Self::Notch,
        Self::Slot,
        Self::Pocket,
        Self::Tenon,
        Self::Mortise,
        Self::Dovetail,
        Self::Flute,
        Self::Bore,
        Self::Cup,
        Self::Pull,
        Self::Plate,
        Self::Leg,
        Self::Hinge,
        Self::Screw,
        Self::Pin,
        Self::Slide,
        Self::Rail,
        Self::Stop,
        Self::SetUp,
        Self::Gap,
        Self::Movement,
        Self::Weight,
        Self::Balance,
        Self::Tip,
        Self::Diagonal,
        Self::Finish,
        Self::Clamp,
        Self::Board,
        Self::Step,
        Self::Time,
    ];

    /// The word that asks for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Size => "size",
            Self::Joint => "joint",
            Self::Dado => "dado",
            Self::Groove => "groove",
            Self::Rabbet => "rabbet",
            Self::Notch => "notch",
            Self::Slot => "slot",
            Self::Pocket => "pocket",
            Self::Tenon => "tenon",
            Self::Mortise => "mortise",
            Self::Dovetail => "dovetail",
            Self::Flute => "flute",
            Self::Bore => "hole",
            Self::Cup => "cup",
            Self::Pull => "pull",
            Self::Plate => "plate",
            Self::Leg => "leg",
            Self::Hinge => "hinge",
            Self::Screw => "screw",
            Self::Pin => "pin",
            Self::Slide => "slide",
            Self::Rail => "rail",
            Self::Stop => "stop",
            Self::SetUp => "set-up",
            Self::Gap => "gap",
            Self::Movement => "movement",
            Self::Weight => "weight",
            Self::Balance => "balance",
            Self::Tip => "tip",
            Self::Diagonal => "diagonal",
            Self::Finish => "finish",
            Self::Clamp => "clamp",
            Self::Board => "board",
            Self::Step => "step",
            Self::Time => "time",
        }
    }

    /// The subject of a word, of one thing or of several: `dado`, `dados`.
    #[must_use]
    pub fn named(text: &str) -> Option<Self> {
        let own = |subject: &Self| {
            let rest = text.strip_prefix(subject.word());
            matches!(rest, Some("" | "s" | "es"))
        };
        Self::ALL.into_iter().find(own)
    }

    /// The subject that a feature is asked for by.
    #[must_use]
    pub fn of(kind: FeatureKind) -> Self {
        match kind {
            FeatureKind::Dado => Self::Dado,
            FeatureKind::Groove => Self::Groove,
            FeatureKind::Rabbet | FeatureKind::Glazing(_) => Self::Rabbet,
            FeatureKind::Notch => Self::Notch,
            FeatureKind::Slot => Self::Slot,
            FeatureKind::Pockets(..) => Self::Pocket,
            FeatureKind::Bore(Bore::Cup) => Self::Cup,
            FeatureKind::Bore(Bore::Pull) => Self::Pull,
            FeatureKind::Bore(Bore::Round) => Self::Bore,
            FeatureKind::Bore(Bore::Leg) => Self::Leg,
            FeatureKind::Bore(Bore::Plate | Bore::PlateBehind) => Self::Plate,
            FeatureKind::Flute(_) => Self::Flute,
            FeatureKind::Tenon | FeatureKind::Haunch => Self::Tenon,
            FeatureKind::Mortise => Self::Mortise,
            FeatureKind::Dovetails => Self::Dovetail,
            // Neither has a figure of its own.
            FeatureKind::Miter | FeatureKind::Dowels(..) => Self::Joint,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_word_asks_for_one_thing() {
        for subject in Subject::ALL {
            assert_eq!(Subject::named(subject.word()), Some(subject));
            assert_eq!(Subject::named(&format!("{}s", subject.word())), Some(subject));
        }
        assert_eq!(Subject::named("notches"), Some(Subject::Notch));
        assert_eq!(Subject::named("sizing"), None);
    }
}
