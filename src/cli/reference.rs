//! `casewright reference`

use crate::vocabulary;

use super::exit::Exit;
use super::terminal::Terminal;

pub(super) fn run(terminal: &Terminal) -> Exit {
    terminal.print(&vocabulary::reference());
    Exit::Sound
}
