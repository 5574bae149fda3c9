//! The exact solver of sizes: linear equations over unknown lengths.
//! In: equations. Out: the lengths with the equations each follows from, the
//! smallest sets of equations that can't all hold, and what nothing fixes.
//! Must not know anything of cabinets.
//!
//! Elimination is exact and sparse: an equation meets only rows it shares an
//! unknown with, so the cost grows with the number of unconnected systems and
//! not with its square.

mod conflict;
mod elimination;
mod form;
mod question;
mod shorter;
mod solve;
mod system;

pub use conflict::Conflict;
pub use question::Question;
pub use solve::{Solution, Value};
pub use system::{EquationId, System, Variable};

use crate::measure::Exact;

/// Equations with the factors they count with, in order.
type Combination = Vec<(EquationId, Exact)>;
