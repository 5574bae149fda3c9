//! What wood, hardware and cutters do: published figures and plain formulas.
//! In: lengths and materials. Out: what follows from physics and custom, each with its source.
//! Must not know the piece. Floats live here and in drawings only.

mod beam;
mod cutter;
mod fasteners;
mod hinging;
mod moisture;
mod movement;
mod sheets;
mod species;
mod square;
mod weight;

pub use beam::{
    Allowed, Beam, HOUSEHOLD, WRITTEN, board_stiffness, inches, inertia, line_load, rounded_up,
    usual_load,
};
pub use cutter::{depth_passes, flute_area, flute_width, speed_limit};
pub use fasteners::{pocket_count, pocket_screw};
pub use hinging::{butt_gap, butts_for_height, hinges_for_height, hinges_for_weight};
pub use moisture::equilibrium;
pub use movement::movement;
pub use sheets::{SHEETS, SheetGood, sheet_named};
pub use species::{SPECIES, Sawn, Species, Wood, species_named};
pub use square::{diagonal, diagonals_within};
pub use weight::{USUAL_GRAVITY, density, grams, kilograms, one_person, people, volume};
