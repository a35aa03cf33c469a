//! A number cut into parts that differ by at most one, as runs that print well.

use crate::piece::schedule::bounds::MOST_STITCHES;

/// Gaps of one size in a line: `gap` plain stitches, then the decrease or increase, `times` over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GapRun {
    /// Plain stitches before the decrease or increase.
    pub gap: usize,
    /// How often.
    pub times: usize,
}

/// Runs that are worked one after the other, the whole of them `times` over.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Group {
    /// One run, or two whose gaps differ by one.
    pub runs: Vec<GapRun>,
    /// How often.
    pub times: usize,
}

impl Group {
    /// Its gaps in the order of work.
    pub fn gaps(&self) -> impl Iterator<Item = usize> + '_ {
        (0..self.times).flat_map(|_| {
            self.runs
                .iter()
                .flat_map(|run| std::iter::repeat_n(run.gap, run.times))
        })
    }
}

/// The evenest way to cut `total` into `parts`: part i is ⌊(i + 1) · total / parts⌋ − ⌊i · total / parts⌋.
///
/// Source: the Euclidean rhythm (Bjorklund 2003, Toussaint 2005), in its floor form. Both numbers count stitches or
/// rounds below [`MOST_STITCHES`]; larger ones are cut there.
pub fn rhythm(total: usize, parts: usize) -> impl Iterator<Item = usize> {
    let (total, parts) = (total.min(MOST_STITCHES), parts.min(MOST_STITCHES));
    (0..parts).map(move |i| (i + 1) * total / parts - i * total / parts)
}

/// How far a decrease may lie from its perfect place before two plain runs are given up for a finer rhythm, in
/// stitches. Our choice: what no eye sees in a round.
const DRIFT: usize = 3;

/// `total` cut into `parts` that differ by at most one, as few groups that print well.
///
/// "*k8, k2tog* 4 times, *k7, k2tog* 6 times" while nothing lies further than [`DRIFT`] from its place; a repeated
/// unit of longer and shorter gaps where that comes out whole or where plain runs would be lopsided.
pub(super) fn groups(total: usize, parts: usize) -> Vec<Group> {
    if parts == 0 {
        return Vec::new();
    }
    let short = total / parts;
    let longs = total % parts;
    let shorts = parts - longs;
    let plain = || -> Vec<Group> {
        let of = |run: GapRun| Group {
            runs: vec![GapRun { times: 1, ..run }],
            times: run.times,
        };
        plain_runs(total, parts).into_iter().map(of).collect()
    };
    if longs == 0 {
        return plain();
    }
    // Each gap of the rarer kind closes a unit of `each` or `each + 1` gaps of the other kind.
    let rare = longs.min(shorts);
    let (often, seldom) = if longs > shorts {
        (short + 1, short)
    } else {
        (short, short + 1)
    };
    let each = (parts - rare) / rare;
    let fuller = (parts - rare) % rare;
    let unit = |times_often, times| Group {
        runs: vec![
            GapRun {
                gap: often,
                times: times_often,
            },
            GapRun {
                gap: seldom,
                times: 1,
            },
        ],
        times,
    };
    if fuller == 0 && rare > 1 {
        vec![unit(each, rare)]
    } else if longs * shorts <= DRIFT * parts {
        plain()
    } else {
        let mut both = vec![unit(each + 1, fuller), unit(each, rare - fuller)];
        both.retain(|group| group.times > 0);
        both
    }
}

/// `total` cut into `parts` that differ by at most one: all longer ones, then all shorter ones.
pub(super) fn plain_runs(total: usize, parts: usize) -> Vec<GapRun> {
    if parts == 0 {
        return Vec::new();
    }
    let (gap, longs) = (total / parts, total % parts);
    let mut runs = vec![
        GapRun {
            gap: gap + 1,
            times: longs,
        },
        GapRun {
            gap,
            times: parts - longs,
        },
    ];
    runs.retain(|run| run.times > 0);
    runs
}
