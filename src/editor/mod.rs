//! What an editor asks of a compilation, and commands with it: why a size is
//! what it is, what stands at a place, where a name is given and used, what may be
//! written next, and how a thing is called otherwise.
//! In: a compilation. Out: data; whoever shows it chooses the words.
//! Must not know disk, terminal or any editor's protocol.

mod colors;
mod context;
mod gather;
mod hints;
mod hover;
mod meaning;
mod names;
mod offers;
mod part_names;
mod paths;
mod rename;
mod told;
mod why;

pub use colors::{Color, colors};
pub use context::{Context, context};
pub use hints::{Hint, hints};
pub use hover::{Hover, hover};
pub use meaning::{Meaning, NameId, NameKind};
pub use names::{Mention, Named, Names};
pub use offers::{Offer, OfferKind, below, offers};
pub use rename::{Refused, rename};
pub use told::{Stated, Worded, told, worded};
pub use why::{
    Answer, Subject, Sum, Term, TermFrom, Thing, Unknown, Value, Why, answer, known_names, why,
};
