//! Drawings of technique cards: how yarn runs, right beside wrong. All are 48 mm wide, so that they fit the narrowest
//! column; each has its words for those who do not see it.

mod yarn;

use crate::picture::technique::yarn::{
    Yarn, ball, bump, finger, front, name, needle, pointer, strand,
};
use crate::picture::{Anchor, Drawing, Paint, Path, Point, Stroke, staple};
use crate::words::pictures::technique_alt;
use crate::words::pictures::technique_words as words;

use Yarn::{Dark, Pale, Third};

/// How wide every drawing is, in millimetres.
const WIDTH: f64 = 48.0;

/// The drawing of this name; nothing if there is none.
#[must_use]
pub fn technique(drawing: &str) -> Option<Drawing> {
    let (height, draw): (f64, fn(&mut Drawing)) = match drawing {
        "caught-float" => (17.0, caught_float),
        "tension" => (18.0, tension),
        "two-hands" => (24.0, two_hands),
        "lower-strand" => (16.0, lower_strand),
        "jog" => (25.0, jog),
        "trapped-end" => (14.0, trapped_end),
        "corner" => (22.0, corner),
        "bricks" => (16.2, bricks),
        "three-strands" => (22.0, three_strands),
        "two-together" => (19.0, two_together),
        "turned-stitch" => (16.0, turned_stitch),
        "opening" => (18.0, opening),
        _ => return None,
    };
    let mut board = Drawing::new(WIDTH, height, technique_alt(drawing));
    draw(&mut board);
    Some(board)
}

/// The names of all drawings.
pub const TECHNIQUES: [&str; 12] = [
    "caught-float",
    "tension",
    "two-hands",
    "lower-strand",
    "jog",
    "trapped-end",
    "corner",
    "bricks",
    "three-strands",
    "two-together",
    "turned-stitch",
    "opening",
];

/// The inside of the fabric: bumps, two pale ones with their strand between them, caught under the middle bump.
fn caught_float(board: &mut Drawing) {
    let pitch = WIDTH / 7.0;
    let place = |i: usize| pitch * i as f64;
    for i in 0..7 {
        let yarn = if i == 0 || i == 6 { Pale } else { Dark };
        bump(board, (place(i), 6.4), pitch, yarn);
    }
    let (from, to) = (place(1) - 0.3, place(6) + 0.3);
    strand(
        board,
        &[
            (from, 6.4),
            (place(2), 8.6),
            (place(3) + 0.5 * pitch, 5.0),
            (place(5), 8.6),
            (to, 6.4),
        ],
        Pale,
    );
    // The bump that holds it lies over it.
    bump(board, (place(3), 6.4), pitch, Dark);
    pointer(
        board,
        (place(3) + 0.5 * pitch, 12.4),
        (place(3) + 0.5 * pitch, 7.4),
    );
    name(board, (WIDTH / 2.0, 16.2), words::HELD, Anchor::Middle);
}

/// A panel with its name under it.
fn panel(board: &mut Drawing, x: f64, y: f64, text: &str) {
    name(board, (x, y), text, Anchor::Middle);
}

/// A float as long as its stitches are wide, beside one that draws them together.
fn tension(board: &mut Drawing) {
    for (left, pitch, sag, text) in [
        (0.0, 4.5, 2.6, words::RIGHT),
        (29.0, 3.2, 0.2, words::WRONG),
    ] {
        for i in 0..5 {
            let yarn = if i == 0 || i == 4 { Pale } else { Dark };
            bump(board, (left + pitch * f64::from(i), 6.0), pitch, yarn);
        }
        let (from, to) = (left + pitch - 0.2, left + 4.0 * pitch + 0.2);
        let middle = (from + to) / 2.0;
        strand(board, &[(from, 6.0), (middle, 6.0 + sag), (to, 6.0)], Pale);
        panel(board, left + 2.5 * pitch, 16.6, text);
    }
}

/// A strand over either forefinger, the one from beneath and the one from above, to the point of the needle.
fn two_hands(board: &mut Drawing) {
    needle(board, (3.0, 2.5), (26.0, 7.5));
    needle(board, (45.0, 2.5), (22.0, 7.5));
    finger(board, (5.0, 21.0), (14.0, 14.5));
    finger(board, (43.0, 21.0), (34.0, 14.5));
    strand(board, &[(9.0, 23.0), (13.5, 11.0), (23.6, 8.4)], Dark);
    strand(board, &[(39.0, 23.0), (34.5, 11.0), (24.6, 6.2)], Pale);
    name(board, (15.6, 18.0), words::FROM_BENEATH, Anchor::Start);
    name(board, (32.4, 22.4), words::FROM_ABOVE, Anchor::End);
}

/// The inside: the strand that comes from beneath lies lower, in every place where the two pass each other.
fn lower_strand(board: &mut Drawing) {
    let pitch = WIDTH / 8.0;
    let pattern = [Dark, Pale, Pale, Dark, Dark, Pale, Pale, Dark];
    for (i, yarn) in pattern.into_iter().enumerate() {
        bump(board, (pitch * i as f64, 5.4), pitch, yarn);
    }
    let at = |i: f64, y: f64| (pitch * i, y);
    // Pale passes behind dark above, dark behind pale below.
    strand(board, &[at(3.0, 5.4), at(4.0, 6.6), at(5.0, 5.4)], Pale);
    for (from, to) in [(1.0, 3.0), (5.0, 7.0)] {
        let middle = (from + to) / 2.0;
        strand(board, &[at(from, 5.4), at(middle, 9.0), at(to, 5.4)], Dark);
    }
    pointer(board, at(2.0, 13.6), at(2.0, 10.6));
    name(board, at(2.6, 14.8), words::LOWER, Anchor::Start);
}

/// Two stripes at the start of the round: a step, and the step nearly gone where the first stitch was slipped.
fn jog(board: &mut Drawing) {
    let (w, h) = (3.1, 3.0);
    for (left, slipped, text) in [(1.0, false, words::STEP), (26.0, true, words::SLIPPED)] {
        for row in 0..6_u8 {
            for column in 0..6_u8 {
                let before = column < 3;
                // The round begins in the middle: left of it the new stripe is a round behind.
                let pale = if before {
                    (2..4).contains(&row)
                } else {
                    (1..3).contains(&row)
                };
                let taken = slipped && column == 3 && row == 3;
                if taken {
                    continue;
                }
                let yarn = if pale { Pale } else { Dark };
                let long = slipped && column == 3 && row == 2;
                let size = if long { (w, 2.0 * h) } else { (w, h) };
                let top = 1.2 + h * f64::from(row);
                front(board, (left + w * f64::from(column), top), size, yarn);
            }
        }
        let x = left + 3.0 * w;
        let line = Path::line(&[(x, 0.2), (x, 20.4)]);
        let mut stroke = Stroke::new(Paint::Buoy, 0.45);
        stroke.dash = Some((1.4, 0.9));
        board.line(line, stroke);
        panel(board, x, 24.2, text);
    }
}

/// A tail that runs over one bump and under the next, and ends.
fn trapped_end(board: &mut Drawing) {
    let pitch = WIDTH / 8.0;
    for i in 0..8 {
        let yarn = if i == 7 { Pale } else { Dark };
        bump(board, (pitch * f64::from(i), 6.4), pitch, yarn);
    }
    let at = |i: f64, y: f64| (pitch * i, y);
    strand(
        board,
        &[
            at(7.0, 6.4),
            at(6.5, 4.2),
            at(5.5, 5.8),
            at(4.5, 4.2),
            at(3.5, 5.8),
            at(2.5, 4.2),
            at(1.4, 6.2),
        ],
        Pale,
    );
    for i in [6.0, 4.0, 2.0] {
        bump(board, at(i, 6.4), pitch, Dark);
    }
    name(board, (WIDTH / 2.0, 12.6), words::TAIL, Anchor::Middle);
}

/// The corner between two needles of a narrow tube: the float goes round it, or cuts it.
fn corner(board: &mut Drawing) {
    for (left, cuts, text) in [(2.0, false, words::RIGHT), (28.0, true, words::WRONG)] {
        let at = |x: f64, y: f64| (left + x, y);
        needle(board, at(0.0, 3.0), at(13.0, 3.0));
        needle(board, at(16.0, 4.0), at(16.0, 15.0));
        let float: Vec<Point> = match cuts {
            false => vec![
                at(4.0, 3.0),
                at(9.0, 5.4),
                at(13.4, 6.6),
                at(14.4, 11.0),
                at(16.0, 13.0),
            ],
            true => vec![at(4.0, 3.0), at(10.0, 8.0), at(16.0, 13.0)],
        };
        strand(board, &float, Pale);
        for (x, y) in [at(4.0, 3.0), at(16.0, 13.0)] {
            board.fill(Path::circle(x, y, 1.3), Paint::White);
            board.line(Path::circle(x, y, 1.3), Stroke::new(Paint::Ink, 0.35));
        }
        panel(board, left + 8.0, 21.0, text);
    }
}

/// Marks of catches in rows: scattered like the joints of bricks, and one above the other.
fn bricks(board: &mut Drawing) {
    let (w, h) = (3.2, 2.8);
    for (left, stacked, text) in [(2.0, false, words::RIGHT), (27.0, true, words::WRONG)] {
        for row in 0..4_u8 {
            let top = 0.6 + h * f64::from(row);
            for column in 0..6_u8 {
                let x = left + w * f64::from(column);
                board.line(Path::rect(x, top, w, h), Stroke::new(Paint::Rule, 0.2));
                let caught = match stacked {
                    true => column == 3,
                    false => column == [1, 4, 2, 5][usize::from(row)],
                };
                if caught {
                    let foot = (x + w / 2.0, top + h - 0.4);
                    board.line(staple(foot, 1.4), Stroke::new(Paint::Buoy, 0.5));
                }
            }
        }
        panel(board, left + 3.0 * w, 15.4, text);
    }
}

/// Three balls, each with its strand to the needle, in an order that stays.
fn three_strands(board: &mut Drawing) {
    needle(board, (24.0, 1.8), (24.0, 6.0));
    needle(board, (8.0, 3.4), (40.0, 3.4));
    for (x, yarn) in [(7.0, Dark), (24.0, Third), (41.0, Pale)] {
        strand(
            board,
            &[
                (x, 15.0),
                (x + (24.0 - x) * 0.3, 10.0),
                (24.0 + (x - 24.0) * 0.1, 4.4),
            ],
            yarn,
        );
        ball(board, (x, 15.6), yarn);
    }
    for (x, text) in [(7.0, "1"), (24.0, "2"), (41.0, "3")] {
        name(board, (x, 21.9), text, Anchor::Middle);
    }
}

/// Two stitches under one that takes both, beside a plain one.
fn two_together(board: &mut Drawing) {
    let (w, h) = (5.0, 4.6);
    for column in 0..3_u8 {
        front(board, (6.0 + w * f64::from(column), 9.2), (w, h), Dark);
    }
    front(board, (6.0, 4.4), (w, h), Dark);
    front(board, (6.0 + 1.0 * w, 4.0), (2.0 * w, h + 0.6), Pale);
    pointer(board, (28.0, 6.6), (22.4, 6.6));
    name(board, (29.0, 7.8), words::TAKES_TWO, Anchor::Start);
}

/// Loops on a needle, one of them with its two legs drawn up.
fn turned_stitch(board: &mut Drawing) {
    let at = |i: f64, y: f64| (6.0 + 7.0 * i, y);
    for i in 0..6 {
        let i = f64::from(i);
        strand(
            board,
            &[at(i - 0.25, 11.0), at(i - 0.2, 4.4), at(i, 2.6)],
            Dark,
        );
    }
    needle(board, (1.0, 5.2), (47.0, 5.2));
    for i in 0..6 {
        let i = f64::from(i);
        strand(
            board,
            &[at(i, 2.6), at(i + 0.2, 4.4), at(i + 0.25, 11.0)],
            Dark,
        );
    }
    // Both legs of the stitch at which work was turned lie over the needle.
    strand(board, &[at(2.7, 11.0), at(2.78, 5.0), at(2.9, 2.4)], Pale);
    strand(board, &[at(3.3, 11.0), at(3.22, 5.0), at(3.1, 2.4)], Pale);
    name(board, at(3.0, 15.2), words::TWO_LEGS, Anchor::Middle);
}

/// Waste yarn between two rows of stitches, and a corner stitch at either end.
fn opening(board: &mut Drawing) {
    let w = 4.8;
    for column in 0..8_u8 {
        let x = 4.8 + w * f64::from(column);
        front(board, (x, 9.6), (w, 4.0), Dark);
        let waste = (2..6).contains(&column);
        front(board, (x, 5.6), (w, 4.0), if waste { Pale } else { Dark });
        front(board, (x, 1.6), (w, 4.0), Dark);
    }
    for x in [4.8 + 2.0 * w, 4.8 + 6.0 * w] {
        board.line(Path::circle(x, 7.6, 1.8), Stroke::new(Paint::Buoy, 0.5));
    }
    name(board, (WIDTH / 2.0, 17.4), words::WASTE, Anchor::Middle);
}
