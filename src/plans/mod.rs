//! What to do with the parts: set-ups of the router, the order of assembly, hardware.
//! In: a piece and its parts. Out: plans, which papers print.
//! Must not know checks or drawings.

pub mod assembly;
pub mod hardware;
pub mod seasons;
pub mod setups;
pub mod small_parts;
