//! How much is worked on at a time: the core has no threads of its own.

/// Makes things that don't wait for each other: one after the other, or at once
/// where whoever asks has threads.
pub trait Hands {
    /// What both make, in order.
    fn both<T: Send>(&self, one: impl Fn() -> T + Sync, other: impl Fn() -> T) -> (T, T);

    /// What is made of each item, in their order.
    fn each<T: Sync, R: Send>(&self, items: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R>;
}

/// One after the other.
#[derive(Clone, Copy, Debug)]
pub struct OneByOne;

impl Hands for OneByOne {
    fn both<T: Send>(&self, one: impl Fn() -> T + Sync, other: impl Fn() -> T) -> (T, T) {
        (one(), other())
    }

    fn each<T: Sync, R: Send>(&self, items: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
        items.iter().map(work).collect()
    }
}
