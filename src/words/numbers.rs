//! Numbers and lists in sentences, small letters and capitals.

/// `1 stitch`, `5 stitches`.
#[must_use]
pub fn count(n: usize, one: &str, many: &str) -> String {
    if n == 1 {
        format!("1 {one}")
    } else {
        format!("{n} {many}")
    }
}

/// Small numbers as words.
#[must_use]
pub fn number_word(n: usize) -> String {
    const WORDS: [&str; 13] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
        "eleven", "twelve",
    ];
    WORDS
        .get(n)
        .map_or_else(|| n.to_string(), |word| (*word).to_owned())
}

/// `a`, `a and b`, `a, b and c`.
#[must_use]
pub fn join_and<S: AsRef<str>>(items: &[S]) -> String {
    match items {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [most @ .., last] => {
            let most: Vec<&str> = most.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", most.join(", "), last.as_ref())
        }
    }
}

/// Titles in a sentence: the first as it stands, the others with a small letter: `Joining a colour and stripes`.
#[must_use]
pub fn join_titles(titles: &[String]) -> String {
    let inside = |(i, title): (usize, &String)| match i {
        0 => title.clone(),
        _ => small(title),
    };
    join_and(
        &titles
            .iter()
            .enumerate()
            .map(inside)
            .collect::<Vec<String>>(),
    )
}

/// Numbers as a list: `4 and 9`.
#[must_use]
pub fn list_and<T: ToString>(numbers: &[T]) -> String {
    join_and(&numbers.iter().map(T::to_string).collect::<Vec<_>>())
}

/// With a capital at its head.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    let first = chars.next().map(char::to_uppercase);
    first.into_iter().flatten().chain(chars).collect()
}

/// With a small letter at its head, as it stands inside a sentence.
#[must_use]
pub fn small(text: &str) -> String {
    let mut chars = text.chars();
    let first = chars.next().map(char::to_lowercase);
    first.into_iter().flatten().chain(chars).collect()
}

/// `1st`, `2nd`, `3rd`, `4th`, `11th`.
#[must_use]
pub fn ordinal(n: usize) -> String {
    let end = match (n % 10, n % 100) {
        (_, 11..=13) => "th",
        (1, _) => "st",
        (2, _) => "nd",
        (3, _) => "rd",
        _ => "th",
    };
    format!("{n}{end}")
}
