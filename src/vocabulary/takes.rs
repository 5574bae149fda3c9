//! What a word may take: a type for each kind of argument, which says what it
//! is read as.

use crate::measure;
use crate::syntax::Name;

use super::typed::Takes;
use super::value::{SizeExpr, Value};
use super::word::{Kind, Slot, may, needs};

/// Kinds of argument that are one value each.
macro_rules! kinds_of_value {
    ($($(#[$meta:meta])* $Name:ident: $kind:expr, $Is:ty, $variant:ident;)+) => {$(
        $(#[$meta])*
        #[derive(Debug)]
        pub enum $Name {}

        impl Takes for $Name {
            const SLOTS: &'static [Slot] = &[needs($kind)];
            type Is = $Is;

            fn of(value: &Value) -> Option<&Self::Is> {
                match value {
                    Value::$variant(value) => Some(value),
                    _ => None,
                }
            }
        }
    )+};
}

kinds_of_value! {
    /// A length.
    Length: Kind::Length, measure::Length, Length;
    /// A length that may lie below nought.
    Offset: Kind::Offset, measure::Length, Length;
    /// A size, still an expression.
    Size: Kind::Size, SizeExpr, Size;
    /// A nominal thickness.
    Nominal: Kind::Nominal, measure::Length, Length;
    /// A number without a unit.
    Number: Kind::Number, measure::Exact, Number;
    /// `40%`
    Percent: Kind::Percent, measure::Percent, Percent;
    /// `30% to 55%`, lower end first.
    PercentRange: Kind::PercentRange, (measure::Percent, measure::Percent), PercentRange;
    /// `5 to 8`, lower end first.
    LengthRange: Kind::LengthRange, (measure::Length, measure::Length), LengthRange;
    /// `105 deg`
    Angle: Kind::Angle, measure::Angle, Angle;
    /// `68 F`
    Temperature: Kind::Temperature, measure::Temperature, Temperature;
    /// `24 h`
    Duration: Kind::Duration, measure::Duration, Duration;
    /// `3 weeks`
    LeadTime: Kind::LeadTime, measure::Days, LeadTime;
    /// `75 lb`
    Mass: Kind::Mass, measure::Mass, Mass;
    /// `15 lb per ft2`
    Load: Kind::Load, measure::Load, Load;
    /// `10.3 GPa`
    Stiffness: Kind::Stiffness, measure::Stiffness, Stiffness;
    /// `100 per min`: the length run in one minute.
    Feed: Kind::Feed, measure::Length, Feed;
    /// `3 to 1`
    Ratio: Kind::Ratio, (measure::Exact, measure::Exact), Ratio;
    /// `30 m2 per l`: square metres to the litre.
    Coverage: Kind::Coverage, measure::Exact, Coverage;
    /// `750 ml`, `1 qt`
    Volume: Kind::Volume, measure::Volume, Volume;
    /// `1 m2`, `10 ft2`
    Area: Kind::Area, measure::Area, Area;
    /// `"…"`
    Text: Kind::Text, str, Text;
    /// `"…"`: the path of a file.
    File: Kind::File, str, Text;
    /// One word of the maker's own.
    Label: Kind::Label, str, Word;
    /// One word or whole number.
    LetterOrNumber: Kind::LetterOrNumber, str, Word;
    /// The name of a finding, in the one spelling.
    Finding: Kind::Finding, str, Word;
    /// The new name that a statement gives.
    Define: Kind::Define, str, Word;
    /// The name of an opening or part, with dots.
    Path: Kind::Path, Name, Path;
    /// `2026-03-14`
    Date: Kind::Date, measure::Date, Date;
    /// The word `on`.
    On: Kind::Exactly("on"), str, Word;
}

/// A whole number from nought up to `MOST`.
#[derive(Debug)]
pub enum Count<const MOST: u32> {}

impl<const MOST: u32> Takes for Count<MOST> {
    const SLOTS: &'static [Slot] = &[needs(Kind::Count(MOST))];
    type Is = u32;

    fn of(value: &Value) -> Option<&Self::Is> {
        match value {
            Value::Count(count) => Some(count),
            _ => None,
        }
    }
}

/// No arguments and no block: the word says all by standing there.
#[derive(Debug)]
pub enum Flag {}

/// No arguments: its braces say it all.
#[derive(Debug)]
pub enum Braces {}

/// An argument that may be left out.
#[derive(Debug)]
pub struct Maybe<T>(T);

impl Takes for Flag {
    const SLOTS: &'static [Slot] = &[];
    type Is = ();

    fn of(_: &Value) -> Option<&()> {
        None
    }
}

impl Takes for Braces {
    const SLOTS: &'static [Slot] = &[];
    type Is = ();

    fn of(_: &Value) -> Option<&()> {
        None
    }
}

impl<T: Takes> Takes for Maybe<T> {
    const SLOTS: &'static [Slot] = &[may(T::SLOTS[0].kind)];
    type Is = T::Is;

    fn of(value: &Value) -> Option<&Self::Is> {
        T::of(value)
    }
}

impl<A: Takes, B: Takes, C: Takes> Takes for (A, B, C) {
    const SLOTS: &'static [Slot] = &[A::SLOTS[0], B::SLOTS[0], C::SLOTS[0]];
    type Is = A::Is;

    fn of(value: &Value) -> Option<&Self::Is> {
        A::of(value)
    }
}

impl<A: Takes, B: Takes, C: Takes, D: Takes> Takes for (A, B, C, D) {
    const SLOTS: &'static [Slot] = &[A::SLOTS[0], B::SLOTS[0], C::SLOTS[0], D::SLOTS[0]];
    type Is = A::Is;

    fn of(value: &Value) -> Option<&Self::Is> {
        A::of(value)
    }
}

/// The name of something that is defined elsewhere.
#[derive(Debug)]
pub struct Refer<T>(T);

/// Something that is defined under a name.
pub trait Thing {
    /// How it is called: `stock`.
    const WHAT: &'static str;
}

impl<T: Thing> Takes for Refer<T> {
    const SLOTS: &'static [Slot] = &[needs(Kind::Refer(T::WHAT))];
    type Is = str;

    fn of(value: &Value) -> Option<&str> {
        Label::of(value)
    }
}

/// Things that are defined under a name.
macro_rules! things {
    ($($(#[$meta:meta])* $Name:ident = $what:literal;)+) => {$(
        $(#[$meta])*
        #[derive(Debug)]
        pub enum $Name {}

        impl Thing for $Name {
            const WHAT: &'static str = $what;
        }
    )+};
}

things! {
    /// A material.
    Stock = "stock";
    /// A hinge.
    Hinge = "hinge";
    /// A drawer slide.
    Slide = "slide";
    /// A pull or knob.
    Pull = "pull";
    /// A bought leg.
    Leg = "leg";
    /// A router bit.
    Bit = "bit";
    /// A finish.
    Finish = "finish";
    /// What no part may touch.
    KeepOut = "keep-out";
    /// What another case stands on.
    Footing = "case or run on the floor";
    /// A case that another one is like.
    Case = "case";
}

/// A price for one of some units.
#[derive(Debug)]
pub struct Price<T>(T);

/// The units that something is sold by.
pub trait SoldBy {
    /// As they are written behind `per`, or `each`.
    const UNITS: &'static [&'static str];
}

impl<T: SoldBy> Takes for Price<T> {
    const SLOTS: &'static [Slot] = &[needs(Kind::Price(T::UNITS))];
    type Is = measure::Rate;

    fn of(value: &Value) -> Option<&Self::Is> {
        match value {
            Value::Rate(rate) => Some(rate),
            _ => None,
        }
    }
}

/// Sheets and boards.
#[derive(Debug)]
pub enum BySize {}

/// What comes singly, or in pairs.
#[derive(Debug)]
pub enum ByPiece {}

/// What comes in cans: by the liter, or by the quart or gallon of the United States.
#[derive(Debug)]
pub enum ByVolume {}

impl SoldBy for ByVolume {
    const UNITS: &'static [&'static str] = &["l", "qt", "gal"];
}

/// What comes in whole sheets.
#[derive(Debug)]
pub enum BySheet {}

impl SoldBy for BySheet {
    const UNITS: &'static [&'static str] = &["sheet"];
}

/// What comes in cans or bottles of one size.
#[derive(Debug)]
pub enum ByCan {}

impl SoldBy for ByCan {
    const UNITS: &'static [&'static str] = &["each"];
}

/// What comes in packs, or singly.
#[derive(Debug)]
pub enum ByPack {}

impl SoldBy for ByPack {
    const UNITS: &'static [&'static str] = &["pack", "each"];
}

/// What comes in pairs, or singly.
#[derive(Debug)]
pub enum ByPair {}

impl SoldBy for BySize {
    const UNITS: &'static [&'static str] =
        &["sheet", "board-foot", "each", "m2", "ft2", "m3", "ft", "m"];
}

impl SoldBy for ByPiece {
    const UNITS: &'static [&'static str] = &["each", "pair", "pack"];
}

impl SoldBy for ByPair {
    const UNITS: &'static [&'static str] = &["pair", "each", "pack"];
}
