//! The demo course: what it covers, that it climbs without a gap, that its charts are what they claim.

use yokeward::app;
use yokeward::read::{Links, Loaded, load_paths};

use crate::harness::root;

/// The demo course, read from the repository.
pub(crate) fn demo() -> Loaded {
    load_paths(&[root().join("lessons")], Links::Inside)
        .unwrap()
        .remove(0)
}

#[test]
fn it_has_no_fault_and_covers_the_field() {
    let mut loaded = demo();
    app::proof_texts(&mut loaded);
    assert!(loaded.faults.is_empty(), "{:?}", loaded.faults);
    let lessons = &loaded.course.lessons;
    assert!(lessons.len() >= 9);
    let makes = |name: &str| lessons.iter().filter(|l| l.makes.name() == name).count();
    assert!(makes("cowl") + makes("swatch") >= 1 && makes("headband") >= 1 && makes("mitts") >= 1);
    assert!(makes("hat") >= 2);
    let yoke_for = |adult: bool| {
        lessons
            .iter()
            .any(|l| l.makes.name() == "yoke" && l.sizes.iter().all(|s| s.adult == adult))
    };
    assert!(yoke_for(true) && yoke_for(false));
    assert!(lessons.iter().any(|l| l.craft.name() == "crochet"));
    assert!(lessons.iter().any(|l| l.worked.name() == "flat"));
    assert!(loaded.course.charts.values().any(|c| !c.rights.may_print()));
    assert!(
        lessons
            .iter()
            .all(|l| l.text.split_whitespace().count() > 100)
    );
}

#[test]
fn it_climbs_without_a_gap() {
    let loaded = demo();
    let studied = app::study_course(&loaded.course);
    assert!(studied.order.gaps.is_empty(), "{:?}", studied.order.gaps);
    let first = &studied.lessons[studied.order.placed[0].index];
    let last = &studied.lessons[studied.order.placed.last().unwrap().index];
    assert!(first.grade.grade < 5.0 && last.grade.grade > 60.0);
    assert!(
        studied
            .lessons
            .iter()
            .any(|a| a.grade.techniques.contains("three-colours"))
    );
}

#[test]
fn two_lessons_look_hard_and_are_easy_and_two_the_other_way_round() {
    let loaded = demo();
    let studied = app::study_course(&loaded.course);
    let of = |id: &str| {
        let index = loaded
            .course
            .lessons
            .iter()
            .position(|l| l.id == id)
            .unwrap();
        let a = &studied.lessons[index];
        (a.measures.busyness, a.grade.grade)
    };
    for (busy, calm) in [
        ("drizzle-hat", "little-tern-hat"),
        ("turnstone-mitts", "reed-sampler"),
    ] {
        let ((busy_looks, busy_is), (calm_looks, calm_is)) = (of(busy), of(calm));
        assert!(
            busy_looks > calm_looks + 10.0,
            "{busy} {busy_looks} {calm} {calm_looks}"
        );
        assert!(
            busy_is + 15.0 < calm_is,
            "{busy} {busy_is} {calm} {calm_is}"
        );
    }
}

#[test]
fn the_quiz_asks_of_near_grades_where_looks_tell_nothing() {
    let loaded = demo();
    let files =
        yokeward::app::pack(&loaded, &[], yokeward::app::PackOptions::default(), &|_| {}).unwrap();
    for name in ["quiz.pdf", "teacher.pdf"] {
        assert!(files.contains_key(name), "{name}");
    }
    let course = &loaded.course;
    let studied: Vec<_> = course
        .charts
        .values()
        .filter(|chart| chart.rights.may_print())
        .map(|chart| {
            let options = yokeward::app::BareOptions::default();
            yokeward::app::study_chart(chart, options, course)
        })
        .collect();
    let charts: Vec<_> = course
        .charts
        .values()
        .filter(|chart| chart.rights.may_print())
        .zip(&studied)
        .map(|(chart, studied)| yokeward::handout::QuizChart {
            chart,
            studied,
            looks: yokeward::handout::grey_looks(chart),
        })
        .collect();
    let quiz = yokeward::handout::quiz(
        &charts,
        &yokeward::handout::Print::default(),
        yokeward::words::Wording::of(yokeward::course::Terms::Uk),
    );
    assert!((4..=6).contains(&quiz.questions.len()));
    let mut shown = std::collections::BTreeMap::new();
    let (mut busy_is_harder, mut calm_is_harder) = (0, 0);
    for question in &quiz.questions {
        let [a, b] = question.titles.each_ref().map(|title| {
            *shown.entry(title.clone()).or_insert(0) += 1;
            let at = charts.iter().position(|c| c.chart.title == *title).unwrap();
            (studied[at].grade.grade, studied[at].measures.busyness)
        });
        let a_is_harder = question.answer.starts_with("**A is harder**");
        assert!(a_is_harder || question.answer.starts_with("**B is harder**"));
        let (harder, easier) = if a_is_harder { (a, b) } else { (b, a) };
        let apart = harder.0 - easier.0;
        assert!((3.0..=15.0).contains(&apart), "{}", question.answer);
        if harder.1 > easier.1 {
            busy_is_harder += 1;
            assert!(question.answer.contains("It looks busier, too"));
        } else {
            calm_is_harder += 1;
        }
        // One scale: what a cell measures is the same in both, so both fill the same place.
        let [left, right] = &question.drawings;
        assert!((left.width - right.width).abs() < 1e-9);
    }
    assert!(busy_is_harder >= 2 && calm_is_harder >= 2);
    assert!(shown.values().all(|times| *times <= 2), "{shown:?}");
}
