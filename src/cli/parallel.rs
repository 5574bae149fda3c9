//! Work shared among threads, with the results in the order of the work.

use std::num::NonZeroUsize;
use std::panic::resume_unwind;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use crate::plans::Hands;

use super::exit::STACK;

/// Does `work` for every item, on so many threads at most.
pub(super) fn each<T: Sync, R: Send>(
    items: &[T],
    threads: NonZeroUsize,
    work: impl Fn(&T) -> R + Sync,
) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let shift = || {
        let mut done = Vec::new();
        loop {
            let place = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(place) else { return done };
            done.push((place, work(item)));
        }
    };
    let hands = threads.get().min(items.len());
    let mut done = thread::scope(|scope| {
        // This thread works too, so one fewer is needed; where the system
        // gives none, it does everything.
        let others: Vec<_> = (1..hands)
            .filter_map(|_| {
                thread::Builder::new().stack_size(STACK).spawn_scoped(scope, shift).ok()
            })
            .collect();
        let mut done = shift();
        for other in others {
            // A fault of ours is told once, by the net round the command.
            done.extend(other.join().unwrap_or_else(|fault| resume_unwind(fault)));
        }
        done
    });
    done.sort_by_key(|(place, _)| *place);
    done.into_iter().map(|(_, result)| result).collect()
}

/// Two things at a time: one is made on a thread of its own where the system
/// gives one.
#[derive(Clone, Copy, Debug)]
pub(super) struct SideBySide;

impl Hands for SideBySide {
    fn both<T: Send>(&self, one: impl Fn() -> T + Sync, other: impl Fn() -> T) -> (T, T) {
        thread::scope(|scope| {
            let beside = thread::Builder::new().stack_size(STACK).spawn_scoped(scope, &one);
            let other = other();
            match beside.map(thread::ScopedJoinHandle::join) {
                Ok(Ok(one)) => (one, other),
                Ok(Err(fault)) => resume_unwind(fault),
                Err(_) => (one(), other),
            }
        })
    }

    fn each<T: Sync, R: Send>(&self, items: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
        each(items, NonZeroUsize::MIN.saturating_add(1), work)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_sides_are_made_and_come_in_order() {
        assert_eq!(SideBySide.both(|| "was", || "now"), ("was", "now"));
        assert_eq!(SideBySide.each(&[1, 2, 3, 4, 5], |item| item * 2), [2, 4, 6, 8, 10]);
        let outcome = std::panic::catch_unwind(|| {
            SideBySide.both(|| panic!("a fault beside"), || "now");
        });
        assert!(outcome.is_err());
    }

    #[test]
    fn every_item_is_done_once_and_in_order() {
        let items: Vec<u32> = (0..500).collect();
        for threads in [1, 2, 7, 1000] {
            let squares = each(&items, NonZeroUsize::new(threads).unwrap(), |item| item * item);
            assert_eq!(squares, items.iter().map(|item| item * item).collect::<Vec<_>>());
        }
        assert!(each(&[], NonZeroUsize::MIN, |item: &u32| *item).is_empty());
    }

    #[test]
    fn a_fault_on_any_thread_is_handed_on() {
        let items = [1, 2, 3, 4];
        let threads = NonZeroUsize::new(4).unwrap();
        let outcome = std::panic::catch_unwind(|| each(&items, threads, |item| assert!(*item < 3)));
        assert!(outcome.is_err());
    }
}
