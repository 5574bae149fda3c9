//! Pieces that are edited at random places while the server is asked about them.

use crate::oracle::typed;
use crate::support::spec;

/// Whatever was typed in between, at the end the server knows what is found in the last text.
#[test]
fn what_was_typed_in_between_leaves_nothing_behind() {
    for (name, seeds) in [("first.case", 0..12), ("hall-console.case", 12..16)] {
        for seed in seeds {
            typed(&spec(name), seed);
        }
    }
}
