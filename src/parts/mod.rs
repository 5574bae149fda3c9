//! Every board of the piece: size, stock, place, features, joints, mark.
//! In: a solved piece. Out: [`Parts`], from which checks, plans and papers read.
//! Must not know anything of paper.

mod behind_block;
mod below;
mod build;
mod channel;
mod clash;
mod dowels;
mod edging;
mod face_names;
mod feature;
mod finished;
mod front;
mod hollow;
mod id;
mod joint;
mod mark;
mod marks;
mod named;
mod part;
mod path;
mod reach;
mod screw_rows;
mod short_names;
mod space;
mod stacked;

pub(crate) use build::cover_of;
pub use build::{
    LegAt, Planes, asked_edging, baseboard_notch, build, hinge_heights, is_cut_round, legs_under,
    planes,
};
pub use channel::Channel;
pub use clash::{Clash, clashes};
pub use dowels::DowelRow;
pub use edging::{Strip, overlong};
pub use feature::{Bore, Feature, FeatureKind};
pub use finished::meets_finish;
pub use front::{Front, fronts};
pub use id::{Key, Of, PartId, Role, Which};
pub use joint::{Joint, JointSort};
pub use mark::LONGEST_MARK;
pub use marks::Marks;
pub use named::{Meant, meant, near, suits};
pub use part::{Assembly, Grain, Part, Parts, Rough, Spare};
pub use path::{box_told, front_path, front_told, opening_told, path_of, title, web_told};
pub use reach::{Reach, is_behind_hinges, reaches};
pub use screw_rows::{ScrewRow, screw_rows};
pub use space::{Cuboid, Direction, Face, Placement, Point, keep_out_space};
pub use stacked::{StackRow, footprint, stack_bottom, stack_carriers, stack_rests, stack_rows};
