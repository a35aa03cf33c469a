//! Reading charts: repeats, edges, shaping, the direction of rows, rows in words.

use yokeward::course::chart::{Chart, Mark, Worked};
use yokeward::course::{Hand, Reads};
use yokeward::words::{Leans, row_words};

use crate::harness::{Random, chart, study_chart};

#[test]
fn row_one_is_the_bottom_line_and_stitch_one_the_right_most() {
    let it = chart(&["ab", "cd"], "");
    let letter = |row: usize, column: usize| it.inks[usize::from(it.row(row)[column])].letter;
    assert_eq!(
        [letter(0, 0), letter(0, 1), letter(1, 0), letter(1, 1)],
        ['d', 'c', 'b', 'a']
    );
    assert_eq!(it.drawn_line(0), "cd");
}

#[test]
fn edges_are_worked_once_on_either_side_of_two_repeats() {
    let it = chart(&["abbc"], "worked: flat\nrepeat: { stitches: 2-3 }");
    let studied = study_chart(&it, 20.0);
    let row = &studied.work.rows[0];
    let cells: String = studied
        .work
        .cells(row)
        .iter()
        .map(|c| it.inks[usize::from(*c)].letter)
        .collect();
    assert_eq!(cells, "cbbbba");
    let drawn: Vec<u32> = studied.work.drawn(row).iter().map(|n| n.get()).collect();
    assert_eq!(drawn, [1, 2, 3, 2, 3, 4]);
    assert!(!row.closed);
    assert_eq!(studied.work.stitches, 6);
}

#[test]
fn decreased_stitches_are_left_out_of_the_worked_row() {
    let it = chart(&["....", "...."], "shaping: |\n  #\\..\n  ....");
    assert_eq!((it.live(0), it.live(1)), (4, 3));
    assert_eq!(it.mark(1, 2), Mark::LeftDecrease);
    assert_eq!(
        study_chart(&it, 20.0)
            .work
            .cells(&study_chart(&it, 20.0).work.rows[1])
            .len(),
        3
    );
}

/// A row knitted back from its words alone: runs of `N colour`, repeated from the star until `stitches` are worked,
/// edges outside it.
pub(crate) fn knit(words: &str, stitches: usize) -> Vec<String> {
    let run = |text: &str| -> Vec<String> {
        text.split(", ")
            .filter(|part| !part.is_empty())
            .flat_map(|part| {
                let (count, colour) = part.split_once(' ').unwrap();
                vec![colour.to_owned(); count.parse().unwrap()]
            })
            .collect()
    };
    match words.split_once('*') {
        None => run(words),
        Some((before, rest)) => {
            let (middle, after) = rest.split_once("; repeat from *").unwrap();
            // `to the last stitch, …`, `to the last 3 stitches, …`: the edge is just so wide.
            let (left, after) = after.split_once(", ").unwrap_or_default();
            let left = match left.strip_prefix(" to the last ") {
                None => 0,
                Some("stitch") => 1,
                Some(many) => many.strip_suffix(" stitches").unwrap().parse().unwrap(),
            };
            let mut row = run(before);
            let (middle, after) = (run(middle), run(after));
            assert_eq!(after.len(), left, "{words}");
            while row.len() + left < stitches {
                row.extend(middle.clone());
            }
            row.extend(after);
            row
        }
    }
}

/// Cells of a worked row in the order worked, straight from the drawing.
pub(crate) fn worked(it: &Chart, row: usize, flat: bool, repeats: usize) -> Vec<String> {
    let name = |column: usize| it.inks[usize::from(it.row(row)[column])].role.clone();
    let repeat = it.repeat_stitches.clone();
    let mut columns: Vec<usize> = (0..repeat.start).collect();
    for _ in 0..repeats {
        columns.extend(repeat.clone());
    }
    columns.extend(repeat.end..it.width);
    if flat && row % 2 == 1 {
        columns.reverse();
    }
    columns.into_iter().map(name).collect()
}

#[test]
fn rows_in_words_knit_back_into_the_chart() {
    let mut random = Random::new(11);
    for _ in 0..200 {
        let (width, height) = (2 + random.below(9), 1 + random.below(5));
        let rows: Vec<String> = (0..height)
            .map(|_| {
                (0..width)
                    .map(|_| ['.', 'x', 'o'][random.below(3)])
                    .collect()
            })
            .collect();
        let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
        let start = 1 + random.below(width);
        let end = start + random.below(width - start + 1);
        let flat = random.below(2) == 0;
        let how = if flat { "flat" } else { "round" };
        let it = chart(
            &rows,
            &format!("worked: {how}\nrepeat: {{ stitches: {start}-{end} }}"),
        );
        let side = if flat { Worked::Flat } else { Worked::Round };
        for row in 0..height {
            let yarn = |ink: u8| it.inks[usize::from(ink)].role.clone();
            let words = row_words(
                &it,
                (row, Reads::of_chart(side)),
                (&yarn, &Leans::knitted(Hand::Right)),
                false,
            );
            let expected = worked(&it, row, flat, 3);
            match words.strip_prefix("all ") {
                Some(colour) => assert!(expected.iter().all(|c| c == colour), "{words}"),
                None => assert_eq!(knit(&words, expected.len()), expected, "{words}"),
            }
        }
    }
}

/// The half that is not drawn is the mirror of the drawn one; the axis stands once.
#[test]
fn a_half_or_a_quarter_makes_the_whole() {
    let whole = ["x.o.x", "..x..", "ox.xo", "..x..", "x.o.x"];
    let drawn = |chart: &Chart| -> Vec<String> {
        (0..chart.height)
            .rev()
            .map(|row| chart.drawn_line(row))
            .collect()
    };
    let full = chart(&whole, "");
    for (half, how) in [
        // Stitch 1 is the right-most; the last drawn column or row is the axis.
        (vec!["o.x", "x..", ".xo", "x..", "o.x"], "stitches"),
        (vec!["ox.xo", "..x..", "x.o.x"], "rows"),
        (vec![".xo", "x..", "o.x"], "both"),
    ] {
        let it = chart(&half, &format!("reflect: {how}"));
        assert_eq!(
            (it.width, it.height, drawn(&it)),
            (5, 5, drawn(&full)),
            "{how}"
        );
        assert_eq!(it.repeat_stitches, 0..5);
    }
    // The repeat is counted in the whole.
    let it = chart(
        &[".xo", "x..", "o.x"],
        "reflect: both\nrepeat: { stitches: 1-4, rows: 2-5 }",
    );
    assert_eq!((it.repeat_stitches, it.repeat_rows), (0..4, 1..5));
}

/// A chart that is too large once it is mirrored is refused as one that is drawn so.
#[test]
fn the_whole_of_a_mirrored_chart_is_bounded() {
    let row = format!("  {}\n", "x.".repeat(400));
    let text = |reflect: &str| {
        format!(
            "=== course.yaml\ntitle: Large\n=== charts/wide.yaml\ntitle: Wide\ncolours: {{ \".\": ground, \"x\": motif }}\nrights: own\n{reflect}rows: |\n{}",
            row.repeat(800)
        )
    };
    let codes = |reflect: &str| -> Vec<&'static str> {
        let loaded = crate::harness::load(&text(reflect));
        loaded
            .faults
            .iter()
            .map(|fault| fault.code.name())
            .collect()
    };
    assert!(!codes("").contains(&"too-large"));
    assert!(codes("reflect: both\n").contains(&"too-large"));
}
