//! What the compiler has to say, as data: slug, severity, labels, sums, fixes.
//! In: facts from every stage. Out: one ordered list; `render/` prints it.
//! Must not know rules, disk or terminal.

mod diagnostic;
mod fix;
mod listed;
mod mend;
pub mod render;
mod sink;
mod sources;
mod sum;
mod utf16;

pub use diagnostic::{Diagnostic, Label, Severity};
pub use fix::{Edit, Fix, Grade};
pub use listed::{counted, listed};
pub use mend::{Mended, NamedFix, mend, named};
pub use sink::Sink;
pub use sources::{Position, Source, Sources};
pub use sum::{Figure, Sum, Term};
pub use utf16::Utf16Position;
