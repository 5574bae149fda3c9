//! Values as the vocabulary reads them.

use crate::measure::{
    Angle, Area, Date, Days, Duration, Exact, Length, Load, Mass, Percent, Rate, Span, Stiffness,
    Temperature, Unit, Volume,
};
use crate::syntax::{Expr, Name};

use super::choice::Choice;

/// A value of the kind that its slot asks for.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// `Kind::Length`, `Kind::Offset`, `Kind::Nominal`.
    Length(Length),
    /// `Kind::Size`: still an expression; the solver knows its names.
    Size(SizeExpr),
    /// `Kind::Count`.
    Count(u32),
    /// `Kind::Number`.
    Number(Exact),
    /// `Kind::Percent`.
    Percent(Percent),
    /// `Kind::PercentRange`, lower end first.
    PercentRange((Percent, Percent)),
    /// `Kind::LengthRange`, lower end first.
    LengthRange((Length, Length)),
    /// `Kind::Angle`.
    Angle(Angle),
    /// `Kind::Temperature`.
    Temperature(Temperature),
    /// `Kind::Duration`.
    Duration(Duration),
    /// `Kind::LeadTime`.
    LeadTime(Days),
    /// `Kind::Mass`.
    Mass(Mass),
    /// `Kind::Load`.
    Load(Load),
    /// `Kind::Stiffness`.
    Stiffness(Stiffness),
    /// `Kind::Price`.
    Rate(Rate),
    /// `Kind::Feed`: the length run in one minute.
    Feed(Length),
    /// `Kind::Ratio`.
    Ratio((Exact, Exact)),
    /// `Kind::Volume`.
    Volume(Volume),
    /// `Kind::Area`.
    Area(Area),
    /// `Kind::Coverage`: square metres to the litre.
    Coverage(Exact),
    /// `Kind::Text`, `Kind::File`.
    Text(String),
    /// `Kind::Label`, `Kind::LetterOrNumber`, `Kind::Finding`, `Kind::Define`,
    /// `Kind::Refer`, `Kind::Exactly`.
    Word(String),
    /// `Kind::Choice`.
    Choice(&'static Choice),
    /// `Kind::Path`.
    Path(Name),
    /// `Kind::Date`.
    Date(Date),
}

/// An expression over sizes, with the unit of its bare numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct SizeExpr {
    /// The expression.
    pub expr: Expr,
    /// What a bare number counts.
    pub unit: Unit,
}

/// Where a value in the model comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// It was written here.
    Written(Span),
    /// It was measured in the piece as it came out, and written here.
    Measured(Span),
    /// The vocabulary's default for this word of this block.
    Default {
        /// The block's name.
        block: &'static str,
        /// The word.
        word: &'static str,
    },
}

impl Origin {
    /// Where it was written, if it was.
    #[must_use]
    pub fn span(self) -> Option<Span> {
        match self {
            Self::Written(span) | Self::Measured(span) => Some(span),
            Self::Default { .. } => None,
        }
    }
}

/// A value with its origin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sourced<T> {
    /// The value.
    pub value: T,
    /// Where it comes from.
    pub origin: Origin,
}

impl<T> Sourced<T> {
    /// The span to label: where the value was written, else `otherwise`.
    pub fn span_or(&self, otherwise: Span) -> Span {
        self.origin.span().unwrap_or(otherwise)
    }
}
