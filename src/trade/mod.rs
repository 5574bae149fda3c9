//! What wood, hardware and cutters do: published figures and plain formulas.
//! In: lengths and materials. Out: what follows from physics and custom, each with its source.
//! Must not know the piece. Floats live here and in drawings only.

mod cutter;
mod fasteners;
mod hinging;
mod plane;
mod square;
mod swing;

pub use cutter::{depth_passes, flute_width, speed_limit};
pub use fasteners::{pocket_count, pocket_screw};
pub use hinging::{butt_gap, hinges_for_height};
pub use square::{diagonal, diagonals_within};
pub use swing::{Body, Edge, Hung, Leaf, Patch, Pivot, Pose};
