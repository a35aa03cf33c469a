//! Flat work: a yarn lies at the edge where it was used last, and a row begins where the row before it ended.

use yokeward::rows::edges::{begins_on_wrong_side, of_chart, of_lesson};

use crate::harness::{Random, chart, course};

/// The rows and inks at the wrong edge, by carrying each ball from edge to edge.
fn by_hand(rows: &[&str]) -> Vec<(usize, char)> {
    let mut at: std::collections::BTreeMap<char, (bool, usize)> = std::collections::BTreeMap::new();
    let mut found = Vec::new();
    for (i, row) in rows.iter().enumerate() {
        // A right-side row begins at the right edge.
        let begins_right = i % 2 == 0;
        let colours: std::collections::BTreeSet<char> = row.chars().collect();
        for c in colours {
            if let Some(&(right, used)) = at.get(&c)
                && i - used <= 7
                && right != begins_right
            {
                found.push((i, c));
            }
            at.insert(c, (!begins_right, i));
        }
    }
    found
}

#[test]
fn yarns_lie_where_their_last_row_ended() {
    let mut random = Random::new(61);
    let (mut far, mut fine) = (0, 0);
    for _ in 0..200 {
        let height = 2 + random.below(12);
        let rows: Vec<String> = (0..height)
            .map(|_| {
                (0..4)
                    .map(|_| ['.', '.', 'x', 'o'][random.below(4)])
                    .collect()
            })
            .collect();
        let lines: Vec<&str> = rows.iter().map(String::as_str).collect();
        let it = chart(&lines, "worked: flat");
        let upwards: Vec<&str> = lines.iter().rev().copied().collect();
        let found: Vec<(usize, char)> = of_chart(&it)
            .into_iter()
            .map(|far| (far.row, it.inks[far.colour].letter))
            .collect();
        let mut expected = by_hand(&upwards);
        expected.sort_by_key(|(row, c)| (*row, it.inks.iter().position(|ink| ink.letter == *c)));
        assert_eq!(found, expected, "{lines:?}");
        far += found.len();
        fine += usize::from(found.is_empty());
    }
    assert!(far > 50 && fine > 10, "{far} {fine}");
    // In the round every row begins where all yarns are.
    assert!(of_chart(&chart(&["x.", "..", "x."], "worked: round")).is_empty());
}

#[test]
fn plain_rows_decide_on_which_side_a_chart_begins() {
    let lesson = |ribs: usize, plain: usize| {
        course(&format!(
            "=== course.yaml\ntitle: C\n=== 01-mat.yaml\ntitle: Mat\nmakes: swatch\nworked: flat\n\
             gauge: {{ colourwork: {{ stitches: 20, rows: 26 }}, plain: {{ stitches: 20, rows: 26 }} }}\n\
             colours: {{ ground: {{ name: A, hex: \"#3b2f2a\" }}, motif: {{ name: B, hex: \"#f2ead8\" }} }}\n\
             bands: [ {{ rib: {{ multiple: 4, rows: {ribs} }} }}, {{ plain: {{ rows: {plain} }} }}, {{ chart: dot }} ]\n\
             === charts/dot.yaml\ntitle: Dot\nworked: flat\nrights: own\ncolours: {{ \".\": ground, x: motif }}\nrows: |\n  .x\n  x.\n"
        ))
    };
    // A rib before the first right-side row does not count.
    for (ribs, plain, wrong) in [(5, 2, false), (6, 2, false), (6, 3, true), (5, 1, true)] {
        let course = lesson(ribs, plain);
        assert_eq!(
            !begins_on_wrong_side(&course.lessons[0]).is_empty(),
            wrong,
            "{ribs} {plain}"
        );
        assert!(of_lesson(&course.lessons[0]).is_empty());
    }
}
