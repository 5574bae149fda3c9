//! The solved piece: names resolved, `use` joined, every size known.
//! In: entries of the vocabulary. Out: a [`Piece`], or what can't hold and why.
//! Must not know places in space or anything of paper.

mod behind_doors;
mod beside;
mod blame;
mod blocks;
mod boards_behind;
mod came_out;
mod carries;
mod case;
mod climate;
mod countertop;
mod cut;
mod cut_round;
mod drawer_box;
mod edge;
mod edges;
mod edging;
mod equations;
mod files;
mod finish;
mod frame;
mod framed;
mod front;
mod given;
mod hanging;
mod hardware;
mod hinge;
mod hung;
mod id;
mod job;
mod joinery;
pub mod layout;
mod leaf_room;
mod limits;
mod load;
mod lower;
mod measured;
mod member_names;
mod nailers;
mod needs;
mod opening;
mod openings;
mod piece;
mod place;
mod insertion;
mod solved_drafts;
mod pull_place;
mod reach;
mod read_case;
mod read_fronts;
mod read_piece;
mod read_run;
mod rod;
mod rows;
mod run;
mod role;
mod seams;
mod settle;
mod shop;
mod site;
mod size;
mod size_names;
mod solve_case;
mod species;
mod standing;
mod standing_sizes;
mod stock;

pub use crate::vocabulary::words::bit::BitShape;
pub use crate::vocabulary::words::finish::FinishKind;
pub use crate::vocabulary::words::stock::StockKind;
pub use crate::vocabulary::{
    HowHeld, JointKind, MadeKind, PullHeight, RailSide, Run, Sawn, Seam, SheetGrain, Side,
};
pub use beside::Sight;
pub use came_out::{CameOut, Diagonals};
pub use carries::Carries;
pub use case::{Base, Bottom, Case, End, Exposure, Leg, Pins, Shelves, Top};
pub use climate::{Air, Climate, Swelling};
pub use countertop::{Countertop, Over};
pub use cut::{Cut, Made};
pub use cut_round::CutRound;
pub use drawer_box::{DrawerBox, OnWood};
pub use edge::{Edge, Edges};
pub use edges::Beyond;
pub use edging::{Brim, Edged, Edging};
pub use files::{Buffers, MemoryFiles, ReadError, SourceFiles, SourceText};
pub use finish::Finish;
pub use frame::{Frame, OuterMember};
pub use framed::{MidAt, MidRail, PanelBuild, PlacedRail, RailAt};
pub use front::{Build, DrawerBoxes, Flutes, Fronts, Overlay, Set};
pub use hanging::HingeNeed;
pub use hardware::{Bit, BoxRule, BoxWidth, Hardware, Hook, Pull, Runs, Slide, Wooden};
pub use hinge::{Hinge, HingeKind, Plate};
pub use hung::Hung;
pub use id::{
    BitId, CaseId, FinishId, FrontId, HingeId, KeepOutId, Leaf, MemberId, OpeningId, PullId, RunId,
    SlideId, SpaceId, StockId,
};
pub use insertion::Insertion;
pub use job::Job;
pub use joinery::{Board, Joinery};
pub use limits::MOST_PARTS;
pub(crate) use limits::too_many;
pub use load::{Loaded, load};
pub use measured::{Reading, Subject};
pub use nailers::Nailers;
pub use opening::{
    Axis, Called, Item, Member, MemberKind, Opening, OpeningKind, Partition, RailShelf, ShelfSet,
};
pub use piece::{Accept, CatchKind, Piece};
pub use pull_place::{PullAt, PullPlace};
pub use read_piece::{Lowered, lower};
pub(crate) use read_run::least_filler;
pub use rod::Rod;
pub use role::{Role, role};
pub use rows::Row;
pub use run::{CaseRun, Filler, Space};
pub use shop::{Shop, Times, Tolerance};
pub use site::{Boundary, KeepOut, Site};
pub use size::{Fact, FactId, Facts, Size};
pub use species::OwnSpecies;
pub use standing::Standing;
pub use standing_sizes::{StandingSize, StandingSizes};
pub use stock::{Boards, Sheet, Stock};
