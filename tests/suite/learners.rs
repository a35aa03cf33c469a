//! Learners whom a course names: their yarn, the register, all handouts in their own sizes.

use yokeward::app::{self, PackOptions};

use crate::goldens::page_text;
use crate::harness::{load, read, root, yokeward};

fn young() -> yokeward::read::Loaded {
    load(&read("tests/fixtures/courses/young.txt"))
}

#[test]
fn each_learner_gets_all_handouts_in_her_own_size() {
    let options = PackOptions {
        for_all: true,
        ..PackOptions::default()
    };
    let loaded = young();
    let documents = app::pages(&loaded, &[], options.clone()).unwrap();
    let paths: Vec<&String> = documents
        .keys()
        .filter(|p| p.starts_with("learners/"))
        .collect();
    assert_eq!(
        paths,
        [
            "learners/01-wren.pdf",
            "learners/02-åse.pdf",
            "learners/03-tor.pdf"
        ]
    );
    let wren = page_text(&documents["learners/01-wren.pdf"]);
    // The mittens and the yoke have her size; the hat does not, and stays whole.
    assert!(wren.contains("Wren · Lesson 1") && wren.contains("Wren · Lesson 3"));
    assert!(
        wren.contains("Child, 8 years") && !wren.contains("Child, 4 years"),
        "{wren}"
    );
    assert!(wren.contains("Baby, 6 months"));
    let ase = page_text(&documents["learners/02-åse.pdf"]);
    assert!(
        ase.contains("Åse · Lesson 1") && !ase.contains("Newborn"),
        "{ase}"
    );
    // What is bound is what was laid out, and nobody gets it who did not ask.
    let files = app::pack(&loaded, &[], options, &|_| {}).unwrap();
    assert!(files["learners/03-tor.pdf"].starts_with(b"%PDF"));
    let usual = app::pack(&loaded, &[], PackOptions::default(), &|_| {}).unwrap();
    assert!(!usual.keys().any(|path| path.starts_with("learners/")));
}

#[test]
fn the_yarn_of_a_class_is_the_sum_of_its_sizes() {
    let loaded = young();
    let course = &loaded.course;
    let studied = app::study_course(course);
    let files = app::pack(&loaded, &[], PackOptions::default(), &|_| {}).unwrap();
    let csv = String::from_utf8(files["shopping.csv"].clone()).unwrap();
    assert!(csv.starts_with("colour,hex,lessons,grams_used,balls_of_50_g,balls_for_a_class_of_3,"));
    let (mut printed, mut summed) = (0, 0);
    for row in csv.lines().skip(1) {
        let mut cells = row.rsplit(',');
        printed += cells.nth(1).unwrap().parse::<u32>().unwrap();
    }
    for (lesson, studied) in course.lessons.iter().zip(&studied.lessons) {
        let made = studied.made();
        for learner in &course.learners {
            // Her size by its id, else the lower middle of the sizes.
            let has = |id: &str| {
                made.pieces
                    .iter()
                    .position(|p| p.size.as_ref().unwrap().id == id)
            };
            let at = has(&learner.size.id).unwrap_or(made.pieces.len().div_ceil(2) - 1);
            assert_eq!(
                has(&learner.size.id).is_some(),
                lesson.sizes.iter().any(|s| s.id == learner.size.id)
            );
            summed += made.amounts[at]
                .1
                .iter()
                .map(|amount| amount.balls.unwrap())
                .sum::<u32>();
        }
    }
    assert_eq!(printed, summed, "{csv}");
    assert!(csv.lines().count() >= 3);
}

#[test]
fn learners_that_cannot_be_are_told() {
    let folder = root();
    let (code, _, err) = yokeward(
        &folder,
        &["pack", "lessons", "--for-all", "--to", "/nowhere"],
    );
    assert_eq!(code, 2);
    assert!(err.contains("the course names no learners"), "{err}");
    let faults = |learners: &str| -> Vec<String> {
        let text = read("tests/fixtures/courses/young.txt");
        let from = text.find("learners: [").unwrap();
        let to = from + text[from..].find(" }\n").unwrap();
        let text = format!("{}learners: {learners}{}", &text[..from], &text[to..]);
        load(&text)
            .faults
            .iter()
            .filter(|f| f.is_error())
            .map(|f| f.title.clone())
            .collect()
    };
    assert_eq!(faults("4"), [""; 0]);
    assert_eq!(
        faults("[{ name: Wren, size: adult-smal }]"),
        ["there is no size `adult-smal`"]
    );
    let long = "W".repeat(31);
    assert_eq!(
        faults(&format!("[{{ name: {long}, size: child-4 }}]")),
        ["a name of 1 to 30 letters fits the register"]
    );
    assert_eq!(faults("[{ name: Wren }]").len(), 1);
    assert_eq!(faults("0").len(), 1);
}
