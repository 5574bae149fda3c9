//! What a message or a rule tells once.

use std::collections::BTreeSet;

/// Tells the first of what has the same key from those that come after it.
///
/// Its key holds the place that is told of: what is found at another place is
/// a finding of its own, and [`accept`](super::accept()) folds those of one
/// cause when it is known which of them are accepted.
pub(super) struct Once<K>(BTreeSet<K>);

impl<K> Default for Once<K> {
    fn default() -> Self {
        Self(BTreeSet::new())
    }
}

impl<K: Ord> Once<K> {
    /// True for the first of this key.
    pub(super) fn is_first(&mut self, key: K) -> bool {
        self.0.insert(key)
    }
}
