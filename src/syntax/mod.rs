//! Text to tree: form only.
//! In: the text of one file. Out: a tree with spans, comments and blank lines, and what could not be read.
//! Must not know the meaning of any word.

mod tree;

pub use tree::{
    Argument, BinaryOp, Block, Comment, Expr, ExprKind, Item, Name, Number, NumberUnit, Statement,
    Tree, Word,
};
