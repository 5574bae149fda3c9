//! Where the screws of a board stand on it.

use crate::parts::Part;
use crate::plans::fitting::ScrewLine;

use super::teller::Teller;
use super::{Subject, Sum};

/// The screws that go through a board.
pub(super) fn of_part(tell: &Teller<'_>, part: &Part) -> Vec<Sum> {
    let fastenings = tell.work.fastened().fastenings.iter();
    let lines = fastenings.flat_map(|own| &own.lines);
    lines
        .filter(|line| std::ptr::eq(line.through, part))
        .flat_map(|line| of_line(tell, line))
        .collect()
}

fn of_line(tell: &Teller<'_>, line: &ScrewLine<'_>) -> Vec<Sum> {
    let about = [Subject::Screw];
    let (into, through) = (&line.into.mark, line.through);
    let figure = |word: String, length, name: &str, how: String| {
        tell.length(
            &about,
            format!("screws into {into}, {word}"),
            length,
            &tell.custom(length, name, how),
        )
    };
    let mut sums = vec![
        figure(
            format!("line from the {}", through.face_name(line.edge)),
            line.at,
            "middle of what the boards share",
            format!("the line lies over the middle of {into}, where it is behind this board"),
        ),
        figure(
            format!("first from the {}", through.face_name(line.end)),
            line.first,
            "place of the first screw",
            "2 in or 50 mm from the end of what the boards share, or from 1/4 in or 6 mm beside a cut, and no more than a quarter of that stretch; half of it where one screw stands alone: common practice, no source".to_owned(),
        ),
    ];
    if line.apart.is_positive() {
        let steps = line.count - 1;
        let whole = tell.fine(line.apart * i64::from(steps));
        sums.push(figure(
            "apart".to_owned(),
            line.apart,
            "distance of two screws",
            format!("{whole} from the first to the last of {} screws, in equal steps", line.count),
        ));
    }
    sums
}
