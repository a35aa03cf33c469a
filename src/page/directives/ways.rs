//! Ways of setting a chart with its key, what stands aside and its words.

use crate::page::blocks::Block;

/// The narrowest column in which rows can be read beside their chart, in millimetres.
const BESIDE: f64 = 64.0;

/// The narrowest column for a key beside its chart, in millimetres.
const ASIDE: f64 = 52.0;

/// What a way of setting a chart is made of: its head, picture and key, what stands aside, its words.
pub(super) type Parts<'a> = (&'a [Block], Vec<Block>, &'a [Block], &'a [Block]);

/// What stands together, and what follows.
pub(super) type Set = (Vec<Block>, Vec<Block>);

/// With the page turned: all on it, or the picture alone and its words after it.
pub(super) fn turned((head, shown, aside, words): Parts<'_>) -> Vec<Set> {
    let below = [words, &side_by_side(aside)].concat();
    let all = [head, &shown, &below].concat();
    let alone = Block::Turned([head, &shown].concat());
    vec![(vec![Block::Turned(all)], Vec::new()), (vec![alone], below)]
}

/// A picture by itself: with its key and what stands aside beside it where there is room, else the latter is left.
pub(super) fn alone(shown: &[Block], aside: &[Block]) -> (Vec<Block>, Vec<Block>) {
    match beside(shown, aside) {
        Some(both) => (vec![both], Vec::new()),
        None => (shown.to_vec(), side_by_side(aside)),
    }
}

/// A picture with its key and what stands aside beside it, where there is room.
fn beside(shown: &[Block], aside: &[Block]) -> Option<Block> {
    let [figure @ Block::Figure { drawing, .. }, key] = shown else {
        return None;
    };
    let room = beside_room(drawing.width);
    // What is shown at life size is not shrunk.
    let fits = |block: &Block| match block {
        Block::Figure { drawing, .. } => drawing.width <= room,
        _ => true,
    };
    if room < ASIDE || !aside.iter().all(fits) {
        return None;
    }
    let right = [std::slice::from_ref(key), aside].concat();
    Some(columns(drawing.width, vec![figure.clone()], right))
}

/// Between two columns, in millimetres.
const GUTTER: f64 = 4.0;
/// A page's text, in millimetres.
const PAGE: f64 = 180.0;

/// What a page leaves beside something so wide.
fn beside_room(width: f64) -> f64 {
    PAGE - width - GUTTER
}

/// Two columns, the first so wide.
fn columns(width: f64, left: Vec<Block>, right: Vec<Block>) -> Block {
    let share = 12.0 * (width + GUTTER) / (PAGE + GUTTER);
    Block::Columns(vec![(share, left), (12.0 - share, right)])
}

/// Upright: the key beside the picture and the words below both; the words beside it, too; or all one under the other.
pub(super) fn upright_ways((head, shown, aside, words): Parts<'_>) -> Vec<Set> {
    let mut ways = Vec::new();
    let Some(both) = beside(&shown, aside) else {
        let aside = side_by_side(aside);
        return vec![([head, &shown, &aside, words].concat(), Vec::new())];
    };
    ways.push(([head, &[both], words].concat(), Vec::new()));
    if let Some(Block::Figure { drawing, .. }) = shown.first()
        && beside_room(drawing.width) >= BESIDE
    {
        let both = columns(drawing.width, shown.clone(), [aside, words].concat());
        ways.push(([head, &[both]].concat(), Vec::new()));
    }
    ways
}

/// The longest float and its line under their heading, side by side.
fn side_by_side(aside: &[Block]) -> Vec<Block> {
    let Some((heading, figures)) = aside.split_first() else {
        return Vec::new();
    };
    let (share, wide) = match figures.len() {
        3 => (4.0, 56.0),
        _ => (6.0, 88.0),
    };
    let fits = |block: &Block| match block {
        Block::Figure { drawing, .. } => drawing.width <= wide,
        _ => true,
    };
    if !figures.iter().all(fits) {
        return aside.to_vec();
    }
    let columns = figures.iter().map(|figure| (share, vec![figure.clone()]));
    vec![heading.clone(), Block::Columns(columns.collect())]
}
