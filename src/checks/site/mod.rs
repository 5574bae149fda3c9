//! The room.

pub(super) mod keep_out_hit;
