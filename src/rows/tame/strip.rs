//! A chart's row as stitches to choose colours for: in order, with what repeats and what mirrors.

use crate::course::chart::Chart;
use crate::rows::drawn;
use crate::rows::tame::path::Stitch;

/// What lies on a mirror's axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Axis {
    /// A stitch: its neighbours mirror each other.
    Stitch,
    /// The gap between two stitches that mirror each other.
    Gap,
}

impl Axis {
    /// How far from the axis a colour's first stitch may stand so that no float across it is longer than `longest`:
    /// a float from p to its image passes 2p − 1 stitches, or 2p where the axis lies in a gap.
    pub(super) fn reach(self, longest: usize) -> usize {
        match self {
            Self::Stitch => longest.div_ceil(2),
            Self::Gap => longest / 2,
        }
    }
}

/// How the strip begins and ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ends {
    /// A ring.
    Ring,
    /// A line.
    Line,
    /// Half a ring between two axes.
    HalfRing(Axis, Axis),
    /// Half a line from its end to the axis.
    HalfLine(Axis),
}

/// A row's stitches. Without edges all stand in `repeat`.
#[derive(Clone, Debug)]
pub(super) struct Strip {
    /// Colours of the row: index into the chart's inks.
    pub(super) inks: Vec<u8>,
    /// Right edge.
    pub(super) lead: Vec<Stitch>,
    /// The repeat.
    pub(super) repeat: Vec<Stitch>,
    /// Left edge; in a mirrored strip its stitches are images of the right edge's.
    pub(super) tail: Vec<Stitch>,
    /// Whether the repeat is worked twice, between edges.
    pub(super) twice: bool,
    /// Ring or line, whole or half.
    pub(super) ends: Ends,
    /// Stitches of one repeat, images included.
    pub(super) repeat_stitches: usize,
}

/// The image of column `i` (from 0) for the axis `a`: i ↦ a − i mod n when columns count from 1.
fn image(i: usize, axis: usize, width: usize) -> usize {
    (axis + 2 * width - 2 - i % width) % width
}

/// The lowest axis from 1 to n that every row of the chart has; lines, and rings with edge stitches, can only mirror
/// end to end (axis 1).
pub(super) fn axis(chart: &Chart) -> Option<usize> {
    let ends_only = chart.has_edges() || !drawn::is_closed(chart, chart.worked);
    let last = if ends_only { 1 } else { chart.width };
    let edges_match = chart.repeat_stitches.start + chart.repeat_stitches.end == chart.width;
    if ends_only && !edges_match {
        return None;
    }
    (1..=last).find(|&a| {
        (0..chart.height).all(|row| {
            (0..chart.width).all(|i| {
                let j = image(i, a, chart.width);
                let stands = |c| drawn::stands(chart, row, c);
                stands(i) == stands(j) && (!stands(i) || chart.row(row)[i] == chart.row(row)[j])
            })
        })
    })
}

/// The strip of a row; `None` for a row of one colour, which floats nothing.
pub(super) fn strip(
    chart: &Chart,
    row: usize,
    axis: Option<usize>,
    keep_edges: bool,
) -> Option<Strip> {
    let live: Vec<usize> = drawn::columns_standing(chart, row).collect();
    let cells = chart.row(row);
    let mut inks: Vec<u8> = live.iter().map(|&c| cells[c]).collect();
    inks.sort_unstable();
    inks.dedup();
    // One bit a colour; more colours than this in one row are not knitting.
    if inks.len() < 2 || inks.len() > 32 {
        return None;
    }
    let closed = drawn::is_closed(chart, chart.worked);
    let locked =
        |c: usize| keep_edges && !closed && (live.first() == Some(&c) || live.last() == Some(&c));
    let stitch = |columns: Vec<usize>| {
        let first = *columns.first()?;
        let colour = inks.iter().position(|ink| *ink == cells[first])?;
        Some(Stitch {
            colour,
            locked: columns.iter().any(|c| locked(*c)),
            columns,
        })
    };
    let one = |range: std::ops::Range<usize>| -> Vec<Stitch> {
        let inside = live.iter().filter(|c| range.contains(c));
        inside.filter_map(|&c| stitch(vec![c])).collect()
    };
    let repeat = chart.repeat_stitches.clone();
    let (lead_range, tail_range) = (0..repeat.start, repeat.end..chart.width);
    let repeat_stitches = live.iter().filter(|c| repeat.contains(c)).count();
    let twice = chart.has_edges() && repeat_stitches > 0;
    let Some(axis) = axis else {
        return Some(Strip {
            lead: one(lead_range),
            repeat: one(repeat),
            tail: one(tail_range),
            twice,
            ends: if closed { Ends::Ring } else { Ends::Line },
            repeat_stitches,
            inks,
        });
    };
    let pair = |i: usize, j: usize| {
        let mut both: Vec<usize> = [i, j].into_iter().filter(|c| live.contains(c)).collect();
        both.dedup();
        stitch(both)
    };
    let width = chart.width;
    let lead: Vec<Stitch> = lead_range
        .filter_map(|i| pair(i, image(i, axis, width)))
        .collect();
    // From one end of the repeat, or from one axis of a ring, to the other axis.
    let start = if twice || !closed {
        repeat.start
    } else {
        first_of_half(axis, width)
    };
    let mut half: Vec<Stitch> = Vec::new();
    let mut met: Vec<usize> = Vec::new();
    for step in 0..repeat.len() {
        let i = (start + step) % width;
        if met.contains(&i) {
            break;
        }
        let j = image(i, axis, width);
        met.extend([i, j]);
        half.extend(pair(i, j));
    }
    let on_axis = |stitch: Option<&Stitch>| match stitch {
        Some(stitch) if stitch.columns.len() == 1 => Axis::Stitch,
        _ => Axis::Gap,
    };
    let (first, last) = (on_axis(half.first()), on_axis(half.last()));
    let ends = match (closed, twice) {
        (true, false) => Ends::HalfRing(first, last),
        (true, true) => Ends::HalfRing(Axis::Gap, last),
        (false, _) => Ends::HalfLine(last),
    };
    Some(Strip {
        lead,
        repeat: half,
        tail: Vec::new(),
        twice,
        ends,
        repeat_stitches,
        inks,
    })
}

/// The stitch on a ring's axis, or the one just left of it.
fn first_of_half(axis: usize, width: usize) -> usize {
    let sum = (axis + 2 * width - 2) % width;
    sum.div_ceil(2) % width
}
