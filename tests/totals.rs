//! Totals are the sum of what is printed above them: whoever adds the page up
//! with a pencil gets the figure at its foot.

use casewright::model::MemoryFiles;
use casewright::papers;

use crate::support::spec;

/// Every demo piece at several marks of the tape: the coarser, the more is
/// rounded. Each paper is plain text under its name.
fn papers_of_demos() -> Vec<(String, Vec<(String, String)>)> {
    let mut all = Vec::new();
    for (name, marks) in [
        ("first.case", ["tape 1/32", "tape 1/8", "tape 1/2", "tape 1/128"]),
        ("hall-console.case", ["tape 1/32", "tape 1/8", "tape 1/2", "tape 1/128"]),
        ("tide-cottage-press.case", ["tape 0.5", "tape 1", "tape 0.1", "tape 1 mm"]),
        ("ferry-road-wash-stand.case", ["tape 1/32", "tape 1/8", "tape 1/2", "tape 1/128"]),
        ("alcove-shelves.case", ["tape 0.5", "tape 1", "tape 0.1", "tape 1 mm"]),
    ] {
        let text = spec(name);
        for mark in marks {
            let at = text.find(" tape ").unwrap();
            let end = at + text[at..].find(['\n', ';', '}', '#']).unwrap();
            let text = format!("{} {mark}{}", &text[..at], &text[end..]);
            let files = MemoryFiles::one(name, &text).with("shop.case", &spec("shop.case"));
            let compiled = casewright::pipeline::check(&files, name).unwrap();
            let packet = papers::packet(&compiled)
                .unwrap_or_else(|| panic!("{name}, {mark}: {:#?}", compiled.diagnostics));
            let plain = packet.into_iter().filter(|file| file.name.ends_with(".txt"));
            let label = format!("{name}, {mark}");
            all.push((label, plain.map(|file| (file.name, file.text)).collect()));
        }
    }
    all
}

/// `34-3/32~` in 128ths of an inch, `332.5` in tenths of a millimeter: both are
/// whole. So is a weight in tenths.
fn figure(text: &str, of: i64) -> i64 {
    // Behind it may stand what it is measured finer, and that it was measured.
    let text = text.trim();
    let text = text.split_once(" (").map_or(text, |(figure, _)| figure).trim_end_matches('~');
    let (whole, part) = match (text.split_once('-'), text.split_once('.'), text.split_once('/')) {
        (Some((whole, part)), ..) => (whole, Some(part.split_once('/').unwrap())),
        (None, Some((whole, tenths)), _) => (whole, Some((tenths, "10"))),
        (None, None, Some(part)) => ("0", Some(part)),
        (None, None, None) => (text, None),
    };
    let number = |text: &str| -> i64 { text.parse().unwrap_or_else(|_| panic!("`{text}`")) };
    let part = part.map_or(0, |(count, parts)| number(count) * of / number(parts));
    number(whole) * of + part
}

/// `1 h 30 min` in minutes.
fn minutes(text: &str) -> i64 {
    let words: Vec<&str> = text.split_whitespace().collect();
    words
        .chunks(2)
        .map(|pair| match pair {
            [count, "h"] => count.parse::<i64>().unwrap() * 60,
            [count, "min"] => count.parse::<i64>().unwrap(),
            _ => panic!("{text}"),
        })
        .sum()
}

/// What the time of so many set-ups is said to be made of, in seconds.
fn made_of(text: &str, setups: i64) -> i64 {
    let seconds = |text: &str| match text.strip_suffix(" s") {
        Some(count) => count.parse().unwrap(),
        None => minutes(text) * 60,
    };
    text.split(", ")
        .map(|term| {
            if let Some((each, times)) = term.split_once(" for each of the ") {
                seconds(each) * times.split(' ').next().unwrap().parse::<i64>().unwrap()
            } else if let Some(each) = term.strip_suffix(" to change each set-up") {
                seconds(each) * setups
            } else {
                let feeding =
                    term.strip_prefix("and ").and_then(|it| it.strip_suffix(" of routing"));
                seconds(feeding.unwrap_or_else(|| panic!("{term}")))
            }
        })
        .sum()
}

/// The cells of a column whose head stands in `head`, of the rows below it.
fn column<'a>(head: &str, name: &str, rows: &[&'a str]) -> Vec<&'a str> {
    if rows.is_empty() {
        return Vec::new();
    }
    let columns: Vec<(usize, char)> = head.chars().enumerate().collect();
    let at = head.find(&format!(" {name}")).map(|byte| head[..byte].chars().count() + 1).unwrap();
    let end = at + name.chars().count();
    assert!(columns.len() >= end);
    rows.iter()
        .map(|row| {
            let byte =
                |column: usize| row.char_indices().nth(column).map_or(row.len(), |(byte, _)| byte);
            // Figures stand flush right under their head, and may reach further left.
            let cell = &row[..byte(end)];
            cell.rsplit("  ").next().unwrap().trim()
        })
        .collect()
}

#[test]
fn the_jig_sheet_adds_up() {
    let mut added = 0;
    for (label, papers) in papers_of_demos() {
        let of = if label.contains("press") || label.contains("alcove") { 10 } else { 128 };
        let sheet = &papers.iter().find(|(name, _)| name == "jig-sheet.txt").unwrap().1;
        let (mut head, mut rows, mut time, mut setups) = ("", Vec::new(), 0, 0);
        for line in sheet.lines() {
            if line.starts_with("       mark ") {
                (head, rows) = (line, Vec::new());
            } else if line.starts_with("  [") {
                rows.push(line);
            } else if let Some((pieces, rest)) = line.split_once(", ")
                && let Some((run, about)) = rest.split_once(" to rout in all, about ")
            {
                let count: usize = pieces.trim().split(' ').next().unwrap().parse().unwrap();
                assert_eq!(count, rows.len(), "{label}: {line}");
                let sum: i64 = column(head, "run", &rows).iter().map(|cell| figure(cell, of)).sum();
                assert_eq!(sum, figure(run, of), "{label}: {line}\n{rows:#?}");
                time += minutes(about);
                setups += 1;
                added += 1;
            } else if let Some(rest) = line.strip_prefix("All set-ups together: about ") {
                let (told, made) = rest.split_once(". That counts ").unwrap();
                assert_eq!(minutes(told), time, "{label}: {line}");
                let (made, _) = made.split_once(" at a feed").unwrap();
                // Every set-up is rounded up to a whole minute.
                let least = made_of(made, setups) - 60;
                let most = least + 60 * (setups + 1);
                assert!((least..=most).contains(&(time * 60)), "{label}: {line} {least}");
            }
        }
    }
    assert!(added > 100, "{added}");
}

#[test]
fn the_work_of_all_steps_is_the_work() {
    for (label, papers) in papers_of_demos() {
        let paper = &papers.iter().find(|(name, _)| name == "assembly-order.txt").unwrap().1;
        let mut lines = paper.lines();
        let first = lines.find(|line| line.contains(" steps, about ")).unwrap();
        let (steps, rest) = first.split_once(" steps, about ").unwrap();
        let told = rest.split(" of work").next().unwrap();
        let head = lines.find(|line| line.contains("day, hour")).unwrap();
        let rows: Vec<&str> = lines.take_while(|line| line.starts_with("  [")).collect();
        assert_eq!(steps.parse::<usize>().unwrap(), rows.len(), "{label}");
        let sum: i64 = column(head, "work", &rows).iter().map(|cell| minutes(cell)).sum();
        assert_eq!(sum, minutes(told), "{label}");
    }
}

#[test]
fn the_pieces_of_the_cut_list_are_counted() {
    for (label, papers) in papers_of_demos() {
        let paper = &papers.iter().find(|(name, _)| name == "cut-list.txt").unwrap().1;
        let (mut head, mut rows, mut fence, mut all) = ("", Vec::new(), 0, 0);
        // The table of marks stands before the first setting of the fence.
        for line in paper.lines().skip_while(|line| !line.starts_with(">> ")) {
            let told = line.split_once("] ").and_then(|(_, rest)| {
                rest.split_once(" pieces lie on the bench").map(|(pieces, _)| pieces)
            });
            if line.starts_with(">> ") || told.is_some() {
                let pieces = column(head, "pcs", &rows).into_iter();
                let sum: i64 = pieces.map(|cell| figure(cell, 1)).sum();
                assert_eq!(sum, fence, "{label}: before {line}");
                all += sum;
                let pieces = line.split_once("fence, ").or_else(|| line.split_once("wide, "));
                let pieces = pieces.map_or("0", |(_, pieces)| pieces);
                fence = figure(pieces.split(' ').next().unwrap(), 1);
                rows = Vec::new();
            } else if line.starts_with("  mark ") {
                head = line;
            } else if line.starts_with("  [") {
                rows.push(line);
            }
            if let Some(told) = told {
                assert_eq!(figure(told, 1), all, "{label}: {line}");
                break;
            }
        }
        assert!(all > 20, "{label}");
    }
}

#[test]
fn the_weights_add_up() {
    for (label, papers) in papers_of_demos() {
        let paper = &papers.iter().find(|(name, _)| name == "weights.txt").unwrap().1;
        let (mut rows, mut whole, mut feet) = (0, 0, 0);
        for line in paper.lines() {
            let weight = |text: &str| figure(text.trim().split(' ').next().unwrap(), 10);
            if line.trim_start().starts_with("weight ") {
                rows = 0;
            } else if let Some((_, total)) = line.rsplit_once(": ")
                && line.starts_with("  ")
            {
                assert_eq!(rows, weight(total), "{label}: {line}");
                whole += rows;
                feet += 1;
            } else if line.starts_with("  ") {
                rows += weight(line);
            } else if let Some(rest) = line.strip_prefix("The whole weighs ") {
                assert_eq!(whole, weight(rest), "{label}: {line}");
                break;
            }
        }
        assert!(feet > 0, "{label}");
    }
}
