//! Text to tree: form only.
//! In: the text of one file. Out: a tree with spans, comments and blank lines, and what could not be read.
//! Must not know the meaning of any word.

mod addition;
mod braces;
mod conflict;
mod faults;
mod format;
mod limits;
mod number;
mod parser;
mod plain;
mod tree;

pub use addition::{Edit, append, append_block, edited, rewrite};
pub use format::{WIDEST, format};
pub use limits::{DEEPEST_BLOCK, LONGEST_FILE};
pub use parser::{Language, Shape, parse};
pub use plain::plain;
pub use tree::{
    Argument, BinaryOp, Block, Comment, Expr, ExprKind, Item, Name, Number, NumberUnit, Statement,
    Tree, Word, statements,
};
