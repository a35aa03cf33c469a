//! The shaping overlay: marks in their places, and counts that follow from row to row.

use crate::course::chart::raw::{Line, Spanned};
use crate::course::chart::{Chart, Mark};
use crate::ground::fault::{Code, Fault, Span};

pub(super) fn read_marks(
    lines: &[Line],
    width: usize,
    height: usize,
    span: Span,
    faults: &mut Vec<Fault>,
) -> Option<Vec<Mark>> {
    if lines.len() != height {
        let title = format!("`shaping` has {} lines, `rows` has {height}", lines.len());
        // A line of another width is where one was torn or two were joined.
        let torn = lines.iter().find(|line| line.text.chars().count() != width);
        let at = torn.or(lines.first()).map_or(span, |line| line.span);
        faults.push(
            Fault::new(Code::OverlayShape, title, at, "not as tall as the rows")
                .help("write one line of marks for each line of `rows`; `.` is a plain stitch"),
        );
        return None;
    }
    let mut marks = vec![Mark::Plain; width * height];
    let mut fine = true;
    let mut strange: Vec<char> = Vec::new();
    for (i, line) in lines.iter().enumerate() {
        let row = height - 1 - i;
        let count = line.text.chars().count();
        if count != width {
            let title = format!(
                "`shaping` of row {} has {count} marks, the row has {width} cells",
                row + 1
            );
            faults.push(Fault::new(
                Code::OverlayShape,
                title,
                line.span,
                "not as wide as the row",
            ));
            fine = false;
            continue;
        }
        for (j, c) in line.text.chars().enumerate() {
            match Mark::from_char(c) {
                Some(mark) => marks[row * width + width - 1 - j] = mark,
                // Once a character: the first place shows what is meant.
                None if strange.contains(&c) => {}
                None => {
                    fine = false;
                    strange.push(c);
                    let title = format!("`{c}` is not a mark of `shaping`");
                    faults.push(
                        Fault::new(Code::OverlayShape, title, line.at(j), format!("stitch {}", count - j)).help(
                            "marks are `.` plain, `/` `\\` decreases, `^` three to one, `+` make one, `-` purl, `#` no stitch",
                        ),
                    );
                }
            }
        }
    }
    fine.then_some(marks)
}

/// live(row) = live(row beneath) − singles − 2 · threes + makes, and no repeating of rows that change the count.
pub(super) fn check_counts(
    chart: &Chart,
    lines: &[Line],
    repeat_rows: Option<&Spanned<(usize, usize)>>,
    faults: &mut Vec<Fault>,
) {
    let mut changes = false;
    for row in 1..chart.height {
        let beneath = chart.live(row - 1) as i64;
        let step: i64 = (0..chart.width)
            .map(|column| match chart.mark(row, column) {
                Mark::RightDecrease | Mark::LeftDecrease => -1,
                Mark::DoubleDecrease => -2,
                Mark::MakeOne => 1,
                _ => 0,
            })
            .sum();
        let (wanted, has) = (beneath + step, chart.live(row) as i64);
        changes |= has != beneath;
        if wanted != has
            && let Some(line) = lines.get(chart.height - 1 - row)
        {
            let title = format!(
                "row {} stands on {beneath} stitches and its shaping leaves {wanted}, but {has} are drawn",
                row + 1
            );
            faults.push(
                Fault::new(Code::DoesNotAddUp, title, line.span, format!("{has} drawn, {wanted} left")).help(
                    "put `#` into the row of the decrease, at the cell that it leaves empty; it stays `#` above",
                ),
            );
        }
    }
    if changes
        && let Some(range) = repeat_rows
        && chart.repeat_rows != (0..chart.height)
    {
        faults.push(
            Fault::new(
                Code::ShapedRepeat,
                "rows that change the stitch count cannot repeat",
                range.span,
                "",
            )
            .help("leave `repeat: rows` out of a shaped chart"),
        );
    }
}
