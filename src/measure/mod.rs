//! Exact lengths and the other quantities of a spec, spans and names.
//! In: digits. Out: typed values, and their printed form at the job's tape mark.
//! Must not know anything of the language, the piece or the papers.

mod digest;
mod digits;
mod exact;
mod length;
mod line_end;
mod nearest;
mod quantity;
mod readings;
mod scale;
mod slips;
mod span;
mod stretches;
mod tape;
mod unit;

pub use digest::digest;
pub(crate) use digits::Digits;
pub use exact::Exact;
pub use length::Length;
pub use line_end::line_end;
pub use nearest::nearest;
pub use quantity::{
    Angle, Area, Date, Days, Duration, Load, Mass, Moment, Money, Percent, Rate, Stiffness,
    Temperature, Volume,
};
pub use readings::date_readings;
pub use scale::Scale;
pub use slips::{
    HYPHEN_MISSING, IF_DIGIT_LOST, IF_DOUBLED, IF_MEANT, IF_POINT_OFF, IF_TURNED, MeantInches,
    is_on_rule, meant_inches, turned, undoubled,
};
pub use span::{FileId, Span, Spanned};
pub use stretches::between;
pub use tape::{MEASURED, Printed, Tape};
pub use unit::{SPELLINGS, Unit};
