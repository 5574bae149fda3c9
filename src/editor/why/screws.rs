//! Where the screws of a board stand on it.

use crate::parts::Part;
use crate::plans::fitting::{Purpose, ScrewLine};

use super::teller::Teller;
use super::{Subject, Sum};

/// The screws that go through a board.
pub(super) fn of_part(tell: &Teller<'_>, part: &Part) -> Vec<Sum> {
    let fastenings = tell.work.fastened().fastenings.iter();
    let lines = fastenings.flat_map(|own| own.lines.iter().map(|line| (own.purpose, line)));
    lines
        .filter(|(_, line)| std::ptr::eq(line.through, part))
        .flat_map(|(purpose, line)| of_line(tell, purpose, line))
        .collect()
}

fn of_line(tell: &Teller<'_>, purpose: Purpose, line: &ScrewLine<'_>) -> Vec<Sum> {
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
    if purpose == Purpose::Ties {
        let how = "the place nearest to the usual one, 2-3/4 in or 70 mm from the front or the back and a fifth of the height from either end, that is clear of pins, slides, hinges, joints, and boards: common practice, no source";
        let told = |word: String, length| figure(word, length, "a free place", how.to_owned());
        let mut sums = vec![
            told(format!("line from the {}", through.face_name(line.edge)), line.at),
            told(format!("first from the {}", through.face_name(line.end)), line.first),
        ];
        if line.apart.is_positive() {
            sums.push(told("apart".to_owned(), line.apart));
        }
        return sums;
    }
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
