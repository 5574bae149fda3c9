//! How many sides are worked on at a time: the core has no threads of its own.

/// Makes a thing of each side: one after the other, or both at once where
/// whoever asks has threads.
pub trait Hands {
    /// What both make, in order.
    fn both<T: Send>(&self, one: impl Fn() -> T + Sync, other: impl Fn() -> T) -> (T, T);
}

/// One side after the other.
#[derive(Clone, Copy, Debug)]
pub struct OneByOne;

impl Hands for OneByOne {
    fn both<T: Send>(&self, one: impl Fn() -> T + Sync, other: impl Fn() -> T) -> (T, T) {
        (one(), other())
    }
}
