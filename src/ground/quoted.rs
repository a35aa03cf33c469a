//! Text in double quotes, as YAML and JSON both have it.

/// A text in double quotes. JSON's form is one of YAML's but for letters that YAML does not take as they are; these are
/// written as escapes, which both read.
#[must_use]
pub fn quoted(text: &str) -> String {
    let json = serde_json::Value::from(text).to_string();
    let odd = |c: char| {
        matches!(
            c,
            '\u{7f}'..='\u{9f}' | '\u{2028}' | '\u{2029}' | '\u{feff}' | '\u{fffe}' | '\u{ffff}'
        )
    };
    json.chars()
        .map(|c| match odd(c) {
            true => format!("\\u{:04x}", u32::from(c)),
            false => c.to_string(),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::quoted;

    #[test]
    fn odd_letters_are_escaped() {
        assert_eq!(
            quoted("a\u{7f}\"\u{85}é\u{ffff}"),
            r#""a\u007f\"\u0085é\uffff""#
        );
    }
}
