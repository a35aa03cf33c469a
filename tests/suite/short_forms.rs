//! The trade's short forms, worked through as people read them.

/// Reads the trade's short form and returns the stitches that it uses up and leaves. Brackets of either kind are worked
/// as often as the `times` behind them says.
pub(crate) fn work_through(words: &str) -> (usize, usize) {
    let tokens: Vec<String> = words
        .replace(['[', '('], " [ ")
        .replace([']', ')'], " ] ")
        .replace(',', " , ")
        .split_whitespace()
        .map(str::to_owned)
        .collect();
    let mut at = 0;
    let total = sequence(&tokens, &mut at);
    assert_eq!(at, tokens.len(), "{words}");
    total
}

fn sequence(tokens: &[String], at: &mut usize) -> (usize, usize) {
    let mut total = (0, 0);
    while *at < tokens.len() && tokens[*at] != "]" {
        let (used, left) = match tokens[*at].as_str() {
            "," => {
                *at += 1;
                (0, 0)
            }
            "[" => {
                *at += 1;
                let inner = sequence(tokens, at);
                assert_eq!(tokens[*at], "]");
                let times: usize = tokens[*at + 1].parse().unwrap();
                assert!(tokens[*at + 2].starts_with("time"));
                *at += 3;
                (inner.0 * times, inner.1 * times)
            }
            "k" => {
                let n: usize = tokens[*at + 1].parse().unwrap();
                *at += 2;
                (n, n)
            }
            "k2tog" => {
                *at += 1;
                (2, 1)
            }
            "make" => {
                assert_eq!(tokens[*at + 1], "1");
                *at += 2;
                (0, 1)
            }
            // In crochet the number stands first, and one more is worked into a stitch.
            "dc2tog" | "sc2tog" => {
                *at += 1;
                (2, 1)
            }
            number => {
                let n: usize = number
                    .parse()
                    .unwrap_or_else(|_| panic!("{number} in {tokens:?}"));
                assert!(["dc", "sc"].contains(&tokens[*at + 1].as_str()));
                let into_one = tokens.get(*at + 2).is_some_and(|word| word == "in");
                *at += if into_one { 5 } else { 2 };
                if into_one { (1, n) } else { (n, n) }
            }
        };
        total = (total.0 + used, total.1 + left);
    }
    total
}

#[test]
fn the_short_form_is_read_as_people_read_it() {
    assert_eq!(work_through("[k 8, k2tog] 4 times, k 2"), (42, 38));
    assert_eq!(
        work_through("(k 12, make 1, k 13, make 1) 4 times"),
        (100, 108)
    );
    assert_eq!(work_through("k2tog, k 3"), (5, 4));
}
