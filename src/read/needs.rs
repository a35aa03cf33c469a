//! Lessons of a course, what they need, and circles of needs.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use crate::course::Course;
use crate::ground::fault::{Code, Fault, SourceMap, Span, did_you_mean};
use crate::read::course_file::Sizes;
use crate::read::lesson_file::{Known, read_lesson};
use crate::read::node::Node;

/// A parsed file that is a chart or a lesson.
pub(super) struct Entry {
    pub(super) id: String,
    pub(super) node: Node,
}

pub(super) fn add_lessons(
    course: &mut Course,
    entries: &[Entry],
    faulty: &BTreeSet<String>,
    mut left_out: BTreeSet<String>,
    (sizes, sources): (&Sizes, &SourceMap),
    faults: &mut Vec<Fault>,
) {
    let mut lessons = Vec::new();
    for entry in entries {
        let known = Known {
            charts: &course.charts,
            faulty,
            sizes,
            sources,
            limit: course.limit,
        };
        match read_lesson(&entry.id, &entry.node, &known, faults) {
            Some(lesson) => lessons.push(lesson),
            None => {
                left_out.insert(entry.id.clone());
            }
        }
    }
    let all: Vec<&str> = entries.iter().map(|e| e.id.as_str()).collect();
    let mut edges: BTreeMap<&str, Vec<(&str, Span)>> = BTreeMap::new();
    for entry in entries {
        for need in entry.node.get("needs").map(Node::items).unwrap_or_default() {
            let Some(id) = need.text() else { continue };
            if all.contains(&id) {
                edges.entry(&entry.id).or_default().push((id, need.span));
            } else if !left_out.contains(id) {
                let others: Vec<&str> = all
                    .iter()
                    .copied()
                    .filter(|other| *other != entry.id)
                    .collect();
                let title = format!("there is no lesson `{id}`");
                faults.push(
                    Fault::new(Code::UnknownLesson, title, need.span, "not in this course")
                        .help(did_you_mean(id, &others)),
                );
                left_out.insert(entry.id.clone());
            }
        }
    }
    for cycle in cycles(&edges) {
        report_cycle(&cycle, faults);
        left_out.extend(cycle.iter().map(|(from, ..)| (*from).to_owned()));
    }
    for (from, needs) in &edges {
        for (to, span) in needs {
            if left_out.contains(*to) && !left_out.contains(*from) {
                let title =
                    format!("lesson `{to}` is left out for its faults; `{from}` counts it as met");
                faults.push(Fault::new(Code::NeedsLeftOut, title, *span, "left out"));
            }
        }
    }
    lessons.retain(|lesson| !left_out.contains(&lesson.id));
    for lesson in &mut lessons {
        lesson
            .needs
            .retain(|need| !left_out.contains(need) && all.contains(&need.as_str()));
    }
    lessons.sort_by(|a, b| a.id.cmp(&b.id));
    course.lessons = lessons;
}

type Edge<'a> = (&'a str, &'a str, Span);

/// One cycle for each group of lessons that need each other: the shortest through its first member.
fn cycles<'a>(edges: &BTreeMap<&'a str, Vec<(&'a str, Span)>>) -> Vec<Vec<Edge<'a>>> {
    let mut found: Vec<Vec<Edge<'a>>> = Vec::new();
    for &start in edges.keys() {
        if found.iter().flatten().any(|(from, ..)| *from == start) {
            continue;
        }
        if let Some(cycle) = shortest_way_back(start, edges) {
            found.push(cycle);
        }
    }
    found
}

fn shortest_way_back<'a>(
    start: &'a str,
    edges: &BTreeMap<&'a str, Vec<(&'a str, Span)>>,
) -> Option<Vec<Edge<'a>>> {
    let mut came: BTreeMap<&str, Edge<'a>> = BTreeMap::new();
    let mut queue = VecDeque::from([start]);
    while let Some(at) = queue.pop_front() {
        for &(to, span) in edges.get(at).map(Vec::as_slice).unwrap_or_default() {
            if to == start {
                let mut cycle = vec![(at, to, span)];
                let mut back = at;
                while back != start {
                    let edge = came.get(back)?;
                    cycle.push(*edge);
                    back = edge.0;
                }
                cycle.reverse();
                return Some(cycle);
            }
            if !came.contains_key(to) {
                came.insert(to, (at, to, span));
                queue.push_back(to);
            }
        }
    }
    None
}

fn report_cycle(cycle: &[Edge<'_>], faults: &mut Vec<Fault>) {
    let Some(((from, to, span), rest)) = cycle.split_first() else {
        return;
    };
    let way: Vec<&str> = cycle
        .iter()
        .map(|(from, ..)| *from)
        .chain([*from])
        .collect();
    let title = format!("lessons need each other: {}", way.join(" needs "));
    let mut fault = Fault::new(
        Code::NeedsCycle,
        title,
        *span,
        format!("`{from}` needs `{to}`"),
    );
    for (from, to, span) in rest {
        fault = fault.also(*span, format!("`{from}` needs `{to}`"));
    }
    faults
        .push(fault.help(
            "take one of these `needs` away; the order is computed from the measures anyhow",
        ));
}
