//! Joints that are in a part already, beside those it is drawn with now.
//!
//! Each is a box of wood that is gone. Laid over the drawing, perhaps with some
//! of the part trimmed off at either end, what is gone must be drawn as gone;
//! and what is drawn and is not gone yet is still to be made.

mod fit;
mod kind;
mod laid;
mod mismatch;
mod space;

pub use fit::{Fit, ToMake, fit};
pub use kind::{kind, listed, said};
pub use mismatch::{Lost, Mismatch};
pub use space::{Range, Space, axis};
