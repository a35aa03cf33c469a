//! Tries changes of a course one by one.

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::course::chart::Chart;
use crate::course::{ChartUse, Course, Lesson};
use crate::path::StudiedCourse;
use crate::path::library::Thing;
use crate::path::remedies::remedy::{Remedy, Stepping};
use crate::path::remedies::work::Work;
use crate::path::{Candidate, Gap, Map, Order, State, Step, Stop, Stride, order};
use crate::rows::grade::{Demand, has_doorstep};
use crate::rows::tame::{Request, longest_float, rest_after, tame};
use crate::study::{self};

/// Most library things offered for one gap.
const MOST_BETWEEN: usize = 3;
/// Library things tried in the whole course, the most promising first.
const MOST_TRIED: usize = 24;
/// Forgiven when two largest steps are compared: sums of the same points in another order.
const SLACK: f64 = 1e-9;
/// Work of putting one lesson in order, of taming a cell among more than three colours; that of studying a cell is 1.
const ORDER_WORK: usize = 8;
const HARD_WORK: usize = 400;
/// A chart is tamed to many lengths: each may take so small a share of what one chart may.
const TAME_SHARE: usize = 24;
/// Longest stretch without rest that plain rows are tried for.
const LONGEST_STRETCH: usize = 8;

/// A chart tamed and how many of its cells changed, or that it cannot be.
type TamedTo = Option<(Chart, usize)>;

/// The search for one gap's remedies.
pub(super) struct Search<'a> {
    pub(super) studied: &'a StudiedCourse<'a>,
    pub(super) gap: &'a Gap,
    /// Index of the lesson after the gap.
    pub(super) target: usize,
    pub(super) before: &'a State,
    /// What the search may still cost.
    pub(super) work: Work,
    /// Charts tamed so far, by id and longest float; the cells that changed.
    pub(super) tamed: RefCell<BTreeMap<(String, usize), TamedTo>>,
}

impl Search<'_> {
    fn course(&self) -> &Course {
        self.studied.course
    }

    fn fits(&self, step: &Step, allowed: f64) -> bool {
        step.size <= allowed && step.new_techniques.len() <= self.course().budget.techniques
    }

    fn candidates(&self) -> Vec<Candidate<'_>> {
        let pairs = self.course().lessons.iter().zip(&self.studied.lessons);
        pairs
            .map(|(lesson, a)| Candidate {
                id: &lesson.id,
                grade: a.grade.grade,
                demand: &a.demand,
                needs: &lesson.needs,
            })
            .collect()
    }

    /// The course in another order; `None` once the search has cost too much.
    fn ordered(&self, candidates: &[Candidate<'_>]) -> Option<Order> {
        self.work.take(candidates.len() * ORDER_WORK)?;
        Some(order(
            candidates,
            self.course().weights,
            self.course().budget,
        ))
    }

    /// Whether a new order has a larger largest step than the course as it is.
    fn rises(&self, new: &Order) -> bool {
        new.largest_step() > self.studied.order.largest_step() + SLACK
    }

    /// The new order's steps to these candidates, if it has fewer gaps and none of them before these, and nowhere a
    /// larger step than before.
    fn closed(&self, candidates: &[Candidate<'_>], wanted: &[usize]) -> Option<Vec<f64>> {
        let new = self.ordered(candidates)?;
        let is_gap = |index: usize| {
            let place = new.placed.iter().position(|p| p.index == index);
            new.gaps.iter().any(|gap| Some(gap.place) == place)
        };
        let better = new.gaps.len() < self.studied.order.gaps.len();
        if !better || self.rises(&new) || wanted.iter().any(|&index| is_gap(index)) {
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

    /// Needs without which the step is smaller.
    pub(super) fn needs(&self) -> Vec<Remedy> {
        let mut found = Vec::new();
        let now = self.step_now();
        for (index, lesson) in self.course().lessons.iter().enumerate() {
            for need in &lesson.needs {
                let others = lesson.needs.iter().filter(|n| *n != need);
                let fewer: Vec<String> = others.cloned().collect();
                let mut candidates = self.candidates();
                if let Some(candidate) = candidates.get_mut(index) {
                    candidate.needs = &fewer;
                }
                let closed = self.closed(&candidates, &[self.target]);
                let closes = closed.is_some();
                let step = closed
                    .and_then(|steps| steps.first().copied())
                    .or_else(|| self.smaller(&candidates, now));
                if let Some(step) = step {
                    found.push(Remedy::Needs {
                        lesson: lesson.id.clone(),
                        need: need.clone(),
                        step,
                        closes,
                    });
                }
            }
        }
        found
    }

    fn step_now(&self) -> f64 {
        let placed = self.studied.order.placed.get(self.gap.place);
        placed.map_or(0.0, |placed| placed.step.size)
    }

    /// The step to the target in the new order, if it is smaller, no other gap is new and the largest step does not rise.
    fn smaller(&self, candidates: &[Candidate<'_>], now: f64) -> Option<f64> {
        let new = self.ordered(candidates)?;
        let placed = new.placed.iter().find(|p| p.index == self.target)?;
        let fine = placed.step.size < now
            && new.gaps.len() <= self.studied.order.gaps.len()
            && !self.rises(&new);
        fine.then_some(placed.step.size)
    }

    pub(super) fn between(&self, library: &[Thing]) -> Vec<Remedy> {
        let (weights, budget) = (self.course().weights, self.course().budget);
        let Some(target) = self.studied.lessons.get(self.target) else {
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
            let door = |demand: &Demand, state: &State| {
                has_doorstep(&demand.techniques) && !has_doorstep(&state.techniques)
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
                    things: vec![Stepping::of(thing)],
                    steps: vec![first, then],
                });
            }
            if found.len() == MOST_BETWEEN {
                break;
            }
        }
        found
    }

    /// The fewest things that lead to the target by steps within the budget, where no single one does.
    pub(super) fn chain(&self, library: &[Thing]) -> Option<Remedy> {
        let budget = self.course().budget;
        let target = self.studied.lessons.get(self.target)?;
        let known = |id: &str| self.course().lessons.iter().any(|l| l.id == id);
        let things: Vec<&Thing> = library
            .iter()
            .filter(|t| !known(&t.id) && t.needs.iter().all(|need| known(need)))
            .collect();
        let demands = things.iter().map(|t| &t.demand).chain([&target.demand]);
        let stops: Vec<Stop<'_>> = demands
            .map(|demand| Stop {
                demand,
                needs: Vec::new(),
            })
            .collect();
        let map = Map::new(&stops, self.before, &[], self.course().weights);
        let allowed = |stride: Stride| {
            let size = if stride.doorstep {
                budget.doorstep
            } else {
                budget.step
            };
            stride.size <= size && stride.techniques <= budget.techniques
        };
        let found = map.shortest(things.len(), &allowed)?;
        let chosen: Vec<&Thing> = found
            .stops
            .iter()
            .filter_map(|&i| things.get(i).copied())
            .collect();
        let mut candidates = self.candidates();
        let first = candidates.len();
        candidates.extend(chosen.iter().map(|thing| Candidate {
            id: &thing.id,
            grade: thing.grade,
            demand: &thing.demand,
            needs: &thing.needs,
        }));
        let mut wanted: Vec<usize> = (first..candidates.len()).collect();
        wanted.push(self.target);
        let steps = self.closed(&candidates, &wanted)?;
        Some(Remedy::Between {
            things: chosen.into_iter().map(Stepping::of).collect(),
            steps,
        })
    }

    /// The step that is left when the lesson after the gap is made otherwise; `None` if the gap stays.
    fn instead(&self, lesson: &Lesson) -> Option<f64> {
        let cells = |what: &&ChartUse| what.chart.cells.len();
        let each = lesson.charts();
        self.work.take(each.iter().map(cells).sum())?;
        let changed = study::lesson(lesson, self.course());
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

    /// The lesson's charts tamed, rested, or both: each as little as fits the budget.
    pub(super) fn changed(&self) -> Vec<Remedy> {
        let Some(lesson) = self.course().lessons.get(self.target) else {
            return Vec::new();
        };
        // Nothing floats on cloth.
        if !lesson.craft.has_rows() {
            return Vec::new();
        }
        let charts = lesson.charts();
        let drawn = charts.iter().map(|what| longest_float(&what.chart)).max();
        let drawn = drawn.unwrap_or(0);
        let tamed = (1..drawn)
            .rev()
            .find_map(|longest| self.made_over(lesson, Some(longest), None));
        let rested = (1..=LONGEST_STRETCH)
            .rev()
            .find_map(|after| self.made_over(lesson, None, Some(after)));
        let floor = match &tamed {
            Some(Remedy::Tame { longest, .. }) => longest.unwrap_or(0),
            _ => 0,
        };
        // Both together are worth the trouble only if they leave longer floats than taming alone.
        let both = if rested.is_none() {
            (floor + 1..drawn).rev().find_map(|longest| {
                (1..=LONGEST_STRETCH)
                    .rev()
                    .find_map(|after| self.made_over(lesson, Some(longest), Some(after)))
            })
        } else {
            None
        };
        tamed.into_iter().chain(both).chain(rested).collect()
    }

    /// A chart tamed, and how many cells of it changed; each is tamed once.
    fn tamed(&self, chart: &Chart, longest: usize) -> TamedTo {
        let key = (chart.id.clone(), longest);
        if let Some(known) = self.tamed.borrow().get(&key) {
            return known.clone();
        }
        // Each colour more than three doubles what there is to try.
        let hard = match chart.inks.len() {
            0..=3 => 2,
            inks => HARD_WORK << (inks - 4).min(4),
        };
        self.work.take(chart.cells.len() * hard)?;
        let request = Request {
            longest,
            share: TAME_SHARE,
            ..Request::default()
        };
        let tamed = tame(chart, request).ok();
        let tamed = tamed.map(|tamed| (tamed.chart, tamed.cells.len()));
        self.tamed.borrow_mut().insert(key, tamed.clone());
        tamed
    }

    fn made_over(
        &self,
        lesson: &Lesson,
        longest: Option<usize>,
        after: Option<usize>,
    ) -> Option<Remedy> {
        let (mut cells, mut rows, mut names) = (0, 0, Vec::new());
        let mut possible = true;
        let changed = lesson.with_charts(&mut |chart| {
            let mut new = chart.clone();
            let mut changed = 0;
            if let Some(longest) = longest {
                match self.tamed(chart, longest) {
                    Some((tamed, cells)) => (new, changed) = (tamed, cells),
                    None => possible = false,
                }
            }
            let mut added = 0;
            if let Some(after) = after {
                let (rested, plain) = rest_after(&new, after);
                added = plain.len();
                new = rested;
            }
            if changed + added == 0 {
                return None;
            }
            if !names.contains(&chart.id) {
                names.push(chart.id.clone());
                cells += changed;
                rows += added;
            }
            Some(new)
        });
        if !possible || (longest.is_some() && cells == 0) || (after.is_some() && rows == 0) {
            return None;
        }
        Some(Remedy::Tame {
            charts: names,
            longest,
            cells,
            rest: after.map(|after| (after, rows)),
            step: self.instead(&changed)?,
        })
    }
}
