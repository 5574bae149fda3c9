//! Whose turn it is to write into a folder, on the system that needs to know.

use std::fs::File;
use std::io;

use super::Target;

/// Waits until no other run writes there; the turn lasts as long as the file is
/// open. The system removes it when it is closed, also by a kill.
#[cfg(windows)]
pub(super) fn wait(target: &Target) -> io::Result<Option<File>> {
    use std::os::windows::fs::OpenOptionsExt as _;
    use std::time::Duration;
    // Values from Microsoft's reference: CreateFileW, system error codes.
    const DELETE_ON_CLOSE: u32 = 0x0400_0000;
    const ACCESS_DENIED: i32 = 5;
    const SHARING_VIOLATION: i32 = 32;
    const PAUSE: Duration = Duration::from_millis(10);

    let mut alone = std::fs::OpenOptions::new();
    alone.write(true).create(true).share_mode(0).custom_flags(DELETE_ON_CLOSE);
    let mut denied = 0;
    for _ in 0..super::TRIES {
        match alone.open(target.beside("turn")) {
            Ok(file) => return Ok(Some(file)),
            Err(error) => match error.raw_os_error() {
                Some(SHARING_VIOLATION) => denied = 0,
                // What is about to go can't be opened, for a moment.
                Some(ACCESS_DENIED) if denied < super::TRIES / 10 => denied += 1,
                _ => return Err(error),
            },
        }
        std::thread::sleep(PAUSE);
    }
    let folder = super::shown::path(&target.folder);
    Err(super::refuse(format!("another run of casewright is still writing into {folder}")))
}

/// Elsewhere a lock goes along with the folder that is renamed, and is enough.
#[cfg(not(windows))]
pub(super) fn wait(_: &Target) -> io::Result<Option<File>> {
    Ok(None)
}
