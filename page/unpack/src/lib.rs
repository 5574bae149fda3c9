//! Unpacks what the build has packed: LZMA, by its published specification, in the
//! form of an LZMA file. The first drawing waits for it, so it is built for speed.
//! A page calls `room`, writes what is packed there, calls `unpack`, and reads so many
//! bytes at `unpacked`; none of a damaged file. Where what is packed is a parted module, it
//! calls `join` in between.

#![deny(unsafe_op_in_unsafe_fn)]

mod chances;
mod lzma;
mod parted;

use std::cell::RefCell;

thread_local! {
    static PACKED: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
    static UNPACKED: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
}

/// Makes room for so many packed bytes, and gives where it is.
// SAFETY: no other function of the module has this name.
#[unsafe(no_mangle)]
pub extern "C" fn room(bytes: usize) -> *mut u8 {
    PACKED.with_borrow_mut(|packed| {
        packed.resize(bytes, 0);
        packed.as_mut_ptr()
    })
}

/// Unpacks what stands in the room; gives how many bytes that makes.
// SAFETY: no other function of the module has this name.
#[unsafe(no_mangle)]
pub extern "C" fn unpack() -> usize {
    let all = PACKED.with_borrow(|packed| lzma::unpacked(packed).unwrap_or_default());
    UNPACKED.with_borrow_mut(|unpacked| {
        *unpacked = all;
        unpacked.len()
    })
}

/// Puts a parted module together, which was unpacked last; gives how many bytes that makes.
// SAFETY: no other function of the module has this name.
#[unsafe(no_mangle)]
pub extern "C" fn join() -> usize {
    UNPACKED.with_borrow_mut(|unpacked| {
        *unpacked = parted::whole(unpacked).unwrap_or_default();
        unpacked.len()
    })
}

/// Where the bytes are that were unpacked last.
// SAFETY: no other function of the module has this name.
#[unsafe(no_mangle)]
pub extern "C" fn unpacked() -> *const u8 {
    UNPACKED.with_borrow(Vec::as_ptr)
}
