//! Plain rows put in for rest.

use crate::course::chart::{Chart, Mark};
use crate::rows::drawn;

/// Puts a plain row after every `after` rows of two or more colours on end, and returns the chart with the numbers of
/// the new rows (from 1). The plain row has the colour most seen in the row beneath it (of equals the chart's first).
/// A chart that repeats upwards as a whole gets one on top, too, when its top and bottom together would go on too long.
#[must_use]
pub fn rest_after(chart: &Chart, after: usize) -> (Chart, Vec<usize>) {
    let after = after.max(1);
    let stranded = |row: usize| drawn::one_colour(chart, row).is_none();
    let repeats_whole =
        chart.declares_rows && chart.repeat_rows == (0..chart.height) && !chart.is_shaped();
    let bottom = (0..chart.height).take_while(|&row| stranded(row)).count();
    let bottom = bottom.min(after);
    let mut new = Chart {
        cells: Vec::with_capacity(chart.cells.len()),
        marks: chart.marks.as_ref().map(|_| Vec::new()),
        height: 0,
        places: Vec::new(),
        ink_places: Vec::new(),
        ..chart.clone()
    };
    let (mut start, mut end) = (chart.repeat_rows.start, chart.repeat_rows.end);
    let mut added = Vec::new();
    let mut run = 0;
    for row in 0..chart.height {
        copy_row(chart, row, &mut new);
        run = if stranded(row) { run + 1 } else { 0 };
        let next_stranded = match row + 1 {
            next if next < chart.height => stranded(next),
            _ => repeats_whole && bottom > 0,
        };
        let last_too_long = row + 1 == chart.height && repeats_whole && run + bottom > after;
        if next_stranded && run > 0 && (run >= after || last_too_long) {
            plain_row(chart, row, &mut new);
            added.push(new.height);
            // A row put in below the repeat moves it up; one inside makes it longer.
            start += usize::from(row < chart.repeat_rows.start);
            end += usize::from(row < chart.repeat_rows.end);
            run = 0;
        }
    }
    new.repeat_rows = start..end;
    (new, added)
}

fn copy_row(chart: &Chart, row: usize, new: &mut Chart) {
    new.cells.extend_from_slice(chart.row(row));
    if let Some(marks) = &mut new.marks {
        marks.extend((0..chart.width).map(|c| chart.mark(row, c)));
    }
    new.height += 1;
}

fn plain_row(chart: &Chart, beneath: usize, new: &mut Chart) {
    let mut seen = vec![0_usize; chart.inks.len()];
    for cell in drawn::stitches(chart, beneath) {
        if let Some(count) = seen.get_mut(usize::from(cell)) {
            *count += 1;
        }
    }
    let most = seen.iter().copied().max().unwrap_or(0);
    let ground = seen.iter().position(|count| *count == most).unwrap_or(0);
    let ground = u8::try_from(ground).unwrap_or(0);
    new.cells.extend(std::iter::repeat_n(ground, chart.width));
    if let Some(marks) = &mut new.marks {
        marks.extend((0..chart.width).map(|c| match chart.mark(beneath, c) {
            Mark::NoStitch => Mark::NoStitch,
            _ => Mark::Plain,
        }));
    }
    new.height += 1;
}
