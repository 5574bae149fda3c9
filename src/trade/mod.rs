//! What wood, hardware and cutters do: published figures and plain formulas.
//! In: lengths and materials. Out: what follows from physics and custom, each with its source.
//! Must not know the piece. Floats live here and in drawings only.

mod board;
mod beam;
mod clothes;
mod countertops;
mod cutter;
mod driver;
mod fasteners;
mod finishes;
mod glazing;
mod gluing;
mod hinging;
mod joints;
mod listing;
mod moisture;
mod movement;
mod sheets;
mod shanks;
mod shims;
mod species;
mod stops;
mod lumber;
mod slips;
mod small_work;
mod plane;
mod square;
mod tilting;
mod swing;
mod walls;
mod wooden;

pub use board::{
    BOARD_WASTE, asked_steps, board_feet, cubic_metres, near_miss_step, surface_measure,
    tallied_feet, usual_board, veneer_over,
};
pub use clothes::{
    RAIL_SCREWS, clothes_deep, clothes_high, clothes_load, holds_rail, longest_rail,
    pole_stiffness, rail_from_back, rail_play, tube_stiffness,
};
pub use cutter::{
    depth_passes, flute_arc, flute_area, flute_lines, flute_width, light_last, mating,
    rabbet_overhang, rim_speed, speed_limit, stroke_overlap, usual_bit, usual_rabbet_bit,
    widest_by_hand,
};
pub use driver::{
    ASIDE, Axis as DriverAxis, Block, NOWHERE, ScrewWay, along_pocket, before_pocket, beside_drill,
    block, block_round, blocks_meet, driver_wide, long_bit, passed_by_drill, screwed_through,
};
pub use fasteners::{
    Gauge, base_block, floor_blocks, from_cut, front_bite, into_face, long_screw, pocket_count,
    pocket_places, pocket_reach, pocket_screw, pocket_screw_into, pocket_width, screw_sold,
    screws_along, short_of_face, shortest_sold, thin_bite,
};
pub use finishes::{
    COAT_READY, FINISH_WASTE, FINISHES, FinishGood, Rags, Sanding, brushing_time, coating_time,
    finish_named, finish_needed, mixed,
};
pub use glazing::{
    PSI_IN_NEWTON, bead_pin, bead_pins, bead_shy, glass_bears, glass_sag, glass_sold, glass_stress,
    pane_clear, thinnest_bead,
};
pub use gluing::{
    Staves, clamping, clamping_block, driving, glue_needed, joint_clamps, milliliters,
    panel_clamps, shaving, spreading, spreading_flat, staves,
};
pub use joints::{
    behind_mortise, dovetail_slope, dowel_reach, finger_room, is_hard, least_between_grooves,
    least_panel, least_tenon, set_in, tails, tall_door,
};
pub use listing::{LISTINGS, Listing};
pub use lumber::{is_in_quarters, planes_to, planing_loss, quarters, rough_boards, rough_for};
mod weight;

pub use beam::{
    Allowed, Beam, HOUSEHOLD, WRITTEN, board_stiffness, book_load, creep, inches, inertia,
    line_load, pinned_line, rounded_up, sag_at, usual_load,
};
pub use countertops::{
    beside_slot, countertop_bite, countertop_screws, moving_hole, row_from_edge, slot_long,
    slot_wide,
};
pub use hinging::{
    butt_gap, butts_for_height, hinges_for_height, hinges_for_weight, most_past_leaf, past_leaf,
    plate_step,
};
pub use moisture::{MOISTURE_WITHIN, equilibrium};
pub use movement::movement;
pub use shanks::{shank_for, widest_on_shank};
pub use sheets::{SHEETS, SheetGood, narrowest_kept, sheet_named, sheet_spare};
pub use shims::{Shims, least_gap, shim_stack, widest_gap};
pub use slips::{meant, thickness_off};
pub use small_work::{
    carried_beside, chips_wall, farthest_fence, largest_on_table, lasting_wall, least_wall,
    longest_on_sled, longest_stick, narrowest_ripped, narrowest_routed, shortest_planed,
    shortest_ripped, shortest_routed, strip_width, thinnest_planed,
};
pub use species::{SPECIES, Species, Wood, species_named};
pub use square::{
    box_within, diagonal, diagonals_within, differ, flat_within, lean, root_sum_square,
};
pub use stops::{catch_from_corner, door_stop_wide, stop_over, stop_spare, widest_stop};
pub use swing::{Body, Edge, Hung, Leaf, Patch, Pivot, Pose};
pub use tilting::{height_to_tilt, longest_to_tilt};
pub use walls::{
    SCREWS_AT_STUD, into_stud, screw_down, screw_out, shortest_nailer, wall_gauge, wall_strip,
    wallboard,
};
pub use weight::{
    BASIS, Carry, USUAL_GRAVITY, carry, density, grams, kilograms, lighter_at, one_person,
    one_person_at, team, volume, with_hardware,
};
pub use wooden::{
    above_box, back_below_sides, behind_box, below_bottom, bottom_past_back, guides_open,
    least_behind_groove, shortest_stop, stop_high, stop_long, stop_wide, strip_wide,
    thinnest_guide, thinnest_strip, web_gap_spare,
};
