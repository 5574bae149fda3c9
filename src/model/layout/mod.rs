//! The exact solver of sizes: linear equations over unknown lengths.
//! In: equations. Out: the lengths with the equations each follows from, the
//! smallest sets of equations that can't all hold, and what nothing fixes.
//! Must not know anything of cabinets.

mod row;
mod solve;
mod system;

pub use solve::{Conflict, Question, Solution, Value};
pub use system::{EquationId, System, Variable};
