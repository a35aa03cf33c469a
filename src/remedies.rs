//! What would close a gap in a course. Every remedy is applied and the course put in order again before it is offered,
//! so that the steps it names are those that remain.

use std::sync::Arc;

use crate::assess::{self, AssessedCourse};
use crate::course::{Candidate, Gap, Order, State, Step, order};
use crate::lesson::{AcrossPart, Band, Budget, Course, Lesson};
use crate::library::{Kind, Thing};
use crate::tame::{Request, longest_float, rest_after, tame};

/// Most library things offered for one gap.
const MOST_BETWEEN: usize = 3;
/// Library things tried in the whole course, the most promising first.
const MOST_TRIED: usize = 24;
/// Longest stretch without rest that plain rows are tried for.
const LONGEST_STRETCH: usize = 8;

/// A change that closes a gap.
#[derive(Clone, Debug, PartialEq)]
pub enum Remedy {
    /// Something easier first.
    Between {
        /// Its id.
        id: String,
        /// The course it comes from.
        course: String,
        /// Lesson or chart.
        kind: Kind,
        /// The step to it and the step from there.
        steps: [f64; 2],
    },
    /// Shorter floats in the lesson's charts: the longest that fits the budget.
    Tame {
        /// Charts to tame.
        charts: Vec<String>,
        /// The longest float, in stitches.
        longest: usize,
        /// Cells recoloured in all.
        cells: usize,
        /// The step that is left.
        step: f64,
    },
    /// Plain rows in the lesson's charts: the longest stretch without rest that fits the budget.
    Rest {
        /// Charts that get plain rows.
        charts: Vec<String>,
        /// Rows without rest.
        after: usize,
        /// Plain rows put in.
        rows: usize,
        /// The step that is left.
        step: f64,
    },
    /// A lesson need not wait for another one.
    Needs {
        /// The lesson whose `needs` is shortened.
        lesson: String,
        /// What it need not wait for.
        need: String,
        /// The step that is left.
        step: f64,
    },
}

/// The remedies of one gap, the gentlest change first. `library` are things outside the course and charts that no
/// lesson of it uses.
#[must_use]
pub fn remedies(assessed: &AssessedCourse<'_>, gap: &Gap, library: &[Thing]) -> Vec<Remedy> {
    let Some(placed) = assessed.order.placed.get(gap.place) else {
        return Vec::new();
    };
    let search = Search {
        assessed,
        gap,
        target: placed.index,
        before: &placed.before,
    };
    let mut found = search.needs();
    found.extend(search.between(library));
    found.extend(search.tamed());
    found.extend(search.rested());
    found
}

struct Search<'a> {
    assessed: &'a AssessedCourse<'a>,
    gap: &'a Gap,
    /// Index of the lesson after the gap.
    target: usize,
    before: &'a State,
}

impl Search<'_> {
    fn course(&self) -> &Course {
        self.assessed.course
    }

    fn fits(&self, step: &Step, allowed: f64) -> bool {
        step.size <= allowed && step.new_techniques.len() <= self.course().budget.techniques
    }

    fn candidates(&self) -> Vec<Candidate<'_>> {
        let pairs = self.course().lessons.iter().zip(&self.assessed.lessons);
        pairs
            .map(|(lesson, a)| Candidate {
                id: &lesson.id,
                grade: a.grade.grade,
                demand: &a.demand,
                needs: &lesson.needs,
            })
            .collect()
    }

    /// The new order's steps to these candidates, if it has fewer gaps and none of them before these.
    fn closed(&self, candidates: &[Candidate<'_>], wanted: &[usize]) -> Option<Vec<f64>> {
        let budget: Budget = self.course().budget;
        let new: Order = order(candidates, self.course().weights, budget);
        let is_gap = |index: usize| {
            let place = new.placed.iter().position(|p| p.index == index);
            new.gaps.iter().any(|gap| Some(gap.place) == place)
        };
        let better = new.gaps.len() < self.assessed.order.gaps.len();
        if !better || wanted.iter().any(|&index| is_gap(index)) {
            return None;
        }
        wanted
            .iter()
            .map(|&index| {
                let placed = new.placed.iter().find(|p| p.index == index)?;
                Some(placed.step.size)
            })
            .collect()
    }

    fn needs(&self) -> Vec<Remedy> {
        let mut found = Vec::new();
        for (index, lesson) in self.course().lessons.iter().enumerate() {
            for need in &lesson.needs {
                let fewer: Vec<String> = lesson
                    .needs
                    .iter()
                    .filter(|n| *n != need)
                    .cloned()
                    .collect();
                let mut candidates = self.candidates();
                if let Some(candidate) = candidates.get_mut(index) {
                    candidate.needs = &fewer;
                }
                if let Some(&[step]) = self.closed(&candidates, &[self.target]).as_deref() {
                    found.push(Remedy::Needs {
                        lesson: lesson.id.clone(),
                        need: need.clone(),
                        step,
                    });
                }
            }
        }
        found
    }

    fn between(&self, library: &[Thing]) -> Vec<Remedy> {
        let (weights, budget) = (self.course().weights, self.course().budget);
        let Some(target) = self.assessed.lessons.get(self.target) else {
            return Vec::new();
        };
        let known = |id: &str| self.course().lessons.iter().any(|l| l.id == id);
        let mut promising: Vec<(f64, &Thing)> = Vec::new();
        for thing in library.iter().filter(|thing| !known(&thing.id)) {
            let first = self.before.step(&thing.demand, weights);
            let mut state = self.before.clone();
            state.learn(&thing.demand);
            let then = state.step(&target.demand, weights);
            // Whatever is first in two colours is the doorstep.
            let door = |demand: &crate::course::Demand, state: &State| {
                let two = "two-colours";
                demand.techniques.contains(two) && !state.techniques.contains(two)
            };
            let allowed = |is_door| {
                if is_door {
                    budget.doorstep
                } else {
                    budget.step
                }
            };
            let first_allowed = allowed(door(&thing.demand, self.before));
            if self.fits(&first, first_allowed)
                && self.fits(&then, allowed(door(&target.demand, &state)))
            {
                promising.push((first.size.max(then.size), thing));
            }
        }
        promising.sort_by(|(a, x), (b, y)| {
            let name = |t: &&Thing| (t.course.clone(), t.id.clone());
            a.total_cmp(b).then_with(|| name(x).cmp(&name(y)))
        });
        let mut found = Vec::new();
        for (_, thing) in promising.into_iter().take(MOST_TRIED) {
            let mut candidates = self.candidates();
            let new = candidates.len();
            candidates.push(Candidate {
                id: &thing.id,
                grade: thing.grade,
                demand: &thing.demand,
                needs: &thing.needs,
            });
            if let Some(&[first, then]) = self.closed(&candidates, &[new, self.target]).as_deref() {
                found.push(Remedy::Between {
                    id: thing.id.clone(),
                    course: thing.course.clone(),
                    kind: thing.kind,
                    steps: [first, then],
                });
            }
            if found.len() == MOST_BETWEEN {
                break;
            }
        }
        found
    }

    /// The step that is left when the lesson after the gap is made otherwise; `None` if the gap stays.
    fn instead(&self, lesson: &Lesson) -> Option<f64> {
        let changed = assess::lesson(lesson, self.course());
        let step = self.before.step(&changed.demand, self.course().weights);
        if !self.fits(&step, self.gap.budget) {
            return None;
        }
        let mut candidates = self.candidates();
        let candidate = candidates.get_mut(self.target)?;
        candidate.grade = changed.grade.grade;
        candidate.demand = &changed.demand;
        let steps = self.closed(&candidates, &[self.target])?;
        steps.first().copied()
    }

    fn tamed(&self) -> Option<Remedy> {
        let lesson = self.course().lessons.get(self.target)?;
        let charts = lesson.charts();
        let longest = charts.iter().map(|what| longest_float(&what.chart)).max()?;
        (1..longest).rev().find_map(|longest| {
            let (mut cells, mut names) = (0, Vec::new());
            let mut possible = true;
            let changed = with_charts(lesson, &mut |chart| {
                let request = Request {
                    longest,
                    ..Request::default()
                };
                let Ok(tamed) = tame(chart, request) else {
                    possible = false;
                    return None;
                };
                if tamed.cells.is_empty() {
                    return None;
                }
                if !names.contains(&chart.id) {
                    names.push(chart.id.clone());
                    cells += tamed.cells.len();
                }
                Some(tamed.chart)
            });
            let step = self.instead(&changed).filter(|_| possible)?;
            Some(Remedy::Tame {
                charts: names,
                longest,
                cells,
                step,
            })
        })
    }

    fn rested(&self) -> Option<Remedy> {
        let lesson = self.course().lessons.get(self.target)?;
        (1..=LONGEST_STRETCH).rev().find_map(|after| {
            let (mut rows, mut names) = (0, Vec::new());
            let changed = with_charts(lesson, &mut |chart| {
                let (rested, added) = rest_after(chart, after);
                if added.is_empty() {
                    return None;
                }
                if !names.contains(&chart.id) {
                    names.push(chart.id.clone());
                    rows += added.len();
                }
                Some(rested)
            });
            let step = self.instead(&changed).filter(|_| !names.is_empty())?;
            Some(Remedy::Rest {
                charts: names,
                after,
                rows,
                step,
            })
        })
    }
}

/// The lesson with its charts replaced where `change` gives another.
fn with_charts(
    lesson: &Lesson,
    change: &mut dyn FnMut(&crate::chart::Chart) -> Option<crate::chart::Chart>,
) -> Lesson {
    let mut changed = lesson.clone();
    let mut replace = |what: &mut crate::lesson::ChartUse| {
        if let Some(chart) = change(&what.chart) {
            what.chart = Arc::new(chart);
        }
    };
    for band in &mut changed.bands {
        match band {
            Band::Chart { what, .. } => replace(what),
            Band::Across(parts) => {
                for part in parts {
                    if let AcrossPart::Chart(what, _) = part {
                        replace(what);
                    }
                }
            }
            _ => {}
        }
    }
    changed
}
