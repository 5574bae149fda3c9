//! What to do with the parts: set-ups of the router, the order of assembly, fitting,
//! hardware, weights, spans and what tips.
//! In: a piece and its parts. Out: plans, which papers print.
//! Must not know checks or drawings.

pub mod abrasives;
pub mod assembly;
pub mod bare_ends;
pub mod bases;
pub mod buying;
mod beside;
pub mod boards;
pub mod cans;
pub mod countertops;
pub mod drawers;
pub mod edging;
pub mod finish;
pub mod fitting;
pub mod guide;
pub mod hardware;
pub mod hung;
pub mod layout;
pub mod ledger;
pub mod liquids;
pub mod made;
pub mod on_legs;
pub mod operations;
pub mod sawing;
pub mod scribe_strips;
pub mod seasons;
pub mod setups;
pub mod sheets;
pub mod shelves;
pub mod small_parts;
pub mod spans;
pub mod square;
pub mod stacked;
pub mod squareness;
pub mod sticks;
pub mod support;
pub mod tipping;
pub mod torn;
pub mod wall;
pub mod weights;
pub mod glass;
mod hands;
mod workings;

pub use hands::{Hands, OneByOne};
pub use workings::Workings;
