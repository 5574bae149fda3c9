//! The piece through the year: how damp its wood gets, and what that does to
//! every gap.

mod floats;
mod fronts;
mod gaps;
mod stack;

pub use crate::model::{Air, Climate, Edge, Swelling};
pub use floats::Float;
pub(super) use floats::floats;
pub(super) use gaps::gaps;
pub use gaps::{Against, Gap, Swell};
pub use stack::{Stack, Term};
