//! The screws of a back.

use crate::measure::{Length, Unit};
use crate::parts::{Assembly, Direction, Part};
use crate::plans::Workings;

use super::screw_lines::{self, ScrewLine};

/// The most that the screw of a back goes in: 5/8 in, 16 mm (common practice, no
/// source).
pub(crate) fn goes_in(unit: Unit) -> Length {
    unit.either(Length::inches(5, 8), Length::mm(16))
}

/// The lines of a back: in what it is joined to, and in every other board of the carcass
/// that ends at it; a nailer is held by its own screws.
pub(super) fn lines<'a>(
    work: &Workings<'a>,
    back: &'a Part,
    joined: impl Iterator<Item = &'a Part>,
) -> Vec<ScrewLine<'a>> {
    let mut boards: Vec<&'a Part> = joined.collect();
    let of_case = work.parts.of_case(back.case).iter().filter(|part| {
        matches!(part.assembly, Assembly::Carcass(_)) && part.touching(back) == Some(Direction::Z)
    });
    for board in of_case {
        if !boards.iter().any(|known| std::ptr::eq(*known, board)) {
            boards.push(board);
        }
    }
    let unit = work.piece.tape().unit;
    boards
        .into_iter()
        .filter(|board| !std::ptr::eq(*board, back))
        .flat_map(|board| screw_lines::between(back, board, None, unit))
        .collect()
}
