//! The piece through the year: how damp its wood gets, and what that does to
//! every gap.

mod climate;
mod floats;
mod fronts;
mod gaps;
mod stack;

pub use climate::{Air, Climate, Swelling};
pub use floats::{Float, floats};
pub use fronts::Edge;
pub use gaps::{Against, Gap, Swell, gaps};
pub use stack::{Stack, Term};
