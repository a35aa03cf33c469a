//! What a class buys, as a table for a spreadsheet.

use crate::ground::colour::hex;
use crate::ground::units::plain_number;
use crate::handout::CoursePlan;

/// A text that no spreadsheet takes for a formula: one that begins like one gets the apostrophe that says "these are words".
fn as_words(text: &str) -> String {
    match text.chars().next() {
        Some('=' | '+' | '-' | '@' | '\t' | '\r' | '＝' | '＋' | '－' | '＠') => {
            format!("'{text}")
        }
        _ => text.to_owned(),
    }
}

/// Yarn colours, the lessons that use them and how much of each, as a table for a spreadsheet. Amounts that no formula
/// knows are left empty.
pub(super) fn shopping(plan: &CoursePlan) -> String {
    let quote = |text: &str| format!("\"{}\"", as_words(text).replace('"', "\"\""));
    let learners = plan.learners.unwrap_or(1);
    let mut out = format!(
        "colour,hex,lessons,grams_used,balls_of_50_g,balls_for_a_class_of_{learners},without_lessons\n"
    );
    for yarn in &plan.yarns {
        let list = |places: &[usize]| {
            let all: Vec<String> = places.iter().map(usize::to_string).collect();
            quote(&all.join(" "))
        };
        let number =
            |value: Option<f64>| value.map_or(String::new(), |v| plain_number(v.ceil(), 0));
        let balls = yarn.balls.map(f64::from);
        out.push_str(&format!(
            "{},{},{},{},{},{},{}\n",
            quote(&yarn.name),
            hex(yarn.rgb),
            list(&yarn.lessons),
            number(yarn.used),
            number(balls),
            number(yarn.class.1.map(f64::from)),
            list(&yarn.without)
        ));
    }
    out
}
