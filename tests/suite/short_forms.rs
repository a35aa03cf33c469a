//! The trade's short forms, worked through as people read them.

/// Reads the trade's short form and returns the stitches that it uses up and leaves. What stands behind `4 times:` is
/// worked as often, up to the next semicolon; what stands behind `4 times` without a colon, up to the next comma.
pub(crate) fn work_through(words: &str) -> (usize, usize) {
    let parts = words.split("; then ").map(part);
    parts.fold((0, 0), |a, b| (a.0 + b.0, a.1 + b.1))
}

fn part(words: &str) -> (usize, usize) {
    let (times, inner) = match words.split_once(" times: ") {
        Some((times, inner)) => (times.parse().unwrap(), inner),
        None => (1, words),
    };
    let items = inner.split(", ").map(item);
    let sum = items.fold((0, 0), |a, b| (a.0 + b.0, a.1 + b.1));
    (sum.0 * times, sum.1 * times)
}

fn item(words: &str) -> (usize, usize) {
    let (times, inner) = match (words.split_once(" times "), words.strip_prefix("once ")) {
        (Some((times, inner)), _) => (times.parse().unwrap(), inner),
        (None, Some(inner)) => (1, inner),
        (None, None) => (1, words),
    };
    let verbs = inner.split(" and ").map(verb);
    let sum = verbs.fold((0, 0), |a, b| (a.0 + b.0, a.1 + b.1));
    (sum.0 * times, sum.1 * times)
}

fn verb(words: &str) -> (usize, usize) {
    let tokens: Vec<&str> = words.split(' ').collect();
    match tokens.as_slice() {
        ["k", n] => (n.parse().unwrap(), n.parse().unwrap()),
        ["k2tog" | "dc2tog" | "sc2tog"] => (2, 1),
        ["make", "1"] => (0, 1),
        // In crochet the number stands first, and one more is worked into a stitch.
        [n, "dc" | "sc"] => (n.parse().unwrap(), n.parse().unwrap()),
        [n, "dc" | "sc", "in", ..] => (1, n.parse().unwrap()),
        _ => panic!("{words}"),
    }
}

#[test]
fn the_short_form_is_read_as_people_read_it() {
    assert_eq!(work_through("4 times: k 8, k2tog; then k 2"), (42, 38));
    assert_eq!(
        work_through("4 times: k 12, make 1, k 13, make 1"),
        (100, 108)
    );
    assert_eq!(
        work_through("3 times: 2 times k 4 and k2tog, once k 3 and k2tog; then k 7"),
        (3 * 17 + 7, 3 * 14 + 7)
    );
    assert_eq!(work_through("k2tog, k 3"), (5, 4));
}
