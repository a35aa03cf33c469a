//! The plan of catches against every other plan, and its words followed by hand.

use yokeward::course::chart::{Chart, Mark};
use yokeward::rows::catches::Catch;
use yokeward::rows::traps::traps;
use yokeward::study::Studied;

use crate::harness::{Random, chart, load_chart, study_chart};

/// A random chart of few motif stitches; shaped ones lose a stitch in one row.
fn random_chart(random: &mut Random) -> (String, bool) {
    let (width, height) = (7 + random.below(6), 3 + random.below(2));
    let mut rows: Vec<String> = (0..height)
        .map(|_| {
            (0..width)
                .map(|_| if random.below(7) == 0 { 'x' } else { '.' })
                .collect()
        })
        .collect();
    let shaped = random.below(3) == 0;
    let how = if random.below(2) == 0 {
        "flat"
    } else {
        "round"
    };
    let mut extra = format!("worked: {how}");
    if shaped {
        // From the bottom: one decrease in row `at`, the stitch beside it gone from then on.
        let (at, column) = (1 + random.below(height - 1), random.below(width - 1));
        let mark = |row: usize, x: usize| match (row.cmp(&at), x) {
            (std::cmp::Ordering::Equal, x) if x == column => '/',
            (std::cmp::Ordering::Equal | std::cmp::Ordering::Greater, x) if x == column + 1 => '#',
            _ => '.',
        };
        let overlay: Vec<String> = (0..height)
            .rev()
            .map(|row| (0..width).map(|x| mark(row, x)).collect())
            .collect();
        extra.push_str(&format!("\nshaping: |\n  {}", overlay.join("\n  ")));
    }
    if rows.iter().all(|row| !row.contains('x')) {
        rows[0].replace_range(..1, "x");
    }
    let text = format!(
        "title: It\ncolours: {{ \".\": ground, x: motif }}\nrights: own\n{extra}\nrows: |\n  {}\n",
        rows.join("\n  ")
    );
    (text, shaped)
}

/// What the contract minimises, in turn, for the catches of one row: (stitch, colour) with their places in floats.
type Cost = (usize, usize, usize, usize, usize, Vec<(u32, u8)>);

/// One of the ways to catch a float: places in it, with drawn columns.
#[derive(Clone)]
struct Way {
    colour: u8,
    of: usize,
    places: Vec<(usize, u32)>,
}

struct Under {
    caught: Vec<u32>,
    lower: Vec<u32>,
    shaped: Vec<u32>,
    closed: bool,
    last: u32,
    shaping: Vec<u32>,
}

fn cost(ways: &[Way], under: &Under) -> Cost {
    let mut found: Cost = (0, 0, 0, 0, 0, Vec::new());
    for way in ways {
        let mut from = 0;
        for &(place, column) in &way.places {
            let stands = [&under.caught, &under.shaped, &under.shaping];
            found.0 += usize::from(stands.iter().any(|columns| columns.contains(&column)));
            found.1 += 1;
            found.2 += usize::from(place == 0 || place == way.of - 1);
            let beside = |c: u32| {
                c.abs_diff(column) == 1
                    || (under.closed
                        && c.min(column) == 1
                        && c.max(column) == under.last
                        && c != column)
            };
            found.3 += usize::from(
                under.lower.contains(&column) || under.caught.iter().any(|c| beside(*c)),
            );
            found.4 += (place - from).pow(2);
            from = place + 1;
            found.5.push((column, way.colour));
        }
        found.4 += (way.of - from).pow(2);
    }
    found.5.sort_unstable();
    found
}

/// Every way to catch a float of `of` stitches so that no span is longer than `limit`.
fn ways_of(of: usize, limit: usize) -> Vec<Vec<usize>> {
    (0_u32..1 << of)
        .map(|set| (0..of).filter(|i| set >> i & 1 == 1).collect())
        .filter(|places: &Vec<usize>| {
            let mut from = 0;
            let ends = places.iter().copied().chain([of]);
            ends.into_iter().all(|end| {
                let span = end - from;
                from = end + 1;
                span <= limit
            })
        })
        .collect()
}

/// The least cost of a row, by trying every way for each of its floats with every way for the others.
fn least(studied: &Studied<'_>, index: usize, under: &Under) -> Cost {
    let work = &studied.work;
    let (row, measures) = (&work.rows[index], &studied.measures.rows[index]);
    let drawn = work.drawn(row);
    let mut all: Vec<Vec<Way>> = vec![Vec::new()];
    for float in &measures.floats {
        if float.stitches <= work.limit {
            continue;
        }
        let column = |p: usize| drawn[(float.from + p) % drawn.len()].get();
        let each = ways_of(float.stitches, work.limit);
        // Of a float by itself only the ways that cost no more than its cheapest in the first five counts can be part of
        // a cheapest row, for these are sums; all of those are tried together.
        let ways: Vec<Way> = each
            .iter()
            .map(|places| Way {
                colour: float.colour,
                of: float.stitches,
                places: places.iter().map(|p| (*p, column(*p))).collect(),
            })
            .collect();
        let sums = |way: &Way| {
            let (a, b, c, d, e, _) = cost(std::slice::from_ref(way), under);
            (a, b, c, d, e)
        };
        let cheapest = ways.iter().map(sums).min().unwrap();
        let ways: Vec<&Way> = ways.iter().filter(|way| sums(way) == cheapest).collect();
        all = all
            .iter()
            .flat_map(|row| {
                ways.iter().map(|way| {
                    let mut row = row.clone();
                    row.push((*way).clone());
                    row
                })
            })
            .collect();
    }
    all.iter().map(|row| cost(row, under)).min().unwrap()
}

fn planned(plan: &[Catch]) -> Vec<Way> {
    let mut ways: Vec<(usize, Way)> = Vec::new();
    for catch in plan {
        let place = (catch.place, catch.stitch.get());
        match ways
            .iter_mut()
            .find(|(from, way)| (*from, way.colour) == (catch.from, catch.colour))
        {
            Some((_, way)) => way.places.push(place),
            None => ways.push((
                catch.from,
                Way {
                    colour: catch.colour,
                    of: catch.of,
                    places: vec![place],
                },
            )),
        }
    }
    ways.into_iter()
        .map(|(_, mut way)| {
            way.places.sort_unstable();
            way
        })
        .collect()
}

#[test]
fn no_other_plan_is_better() {
    let mut random = Random::new(41);
    let (mut caught, mut shaped_rows, mut avoided) = (0, 0, 0);
    for _ in 0..200 {
        let (text, shaped) = random_chart(&mut random);
        let it = load_chart(&text);
        let studied = study_chart(&it, 10.0 + random.below(6) as f64);
        let work = &studied.work;
        let columns = |index: Option<usize>| -> Vec<u32> {
            let plan = index.and_then(|i| studied.plan().get(i));
            plan.into_iter().flatten().map(|c| c.stitch.get()).collect()
        };
        let shaping = |index: Option<usize>| -> Vec<u32> {
            let Some(row) = index.and_then(|i| work.rows.get(i)) else {
                return Vec::new();
            };
            let marks = work.marks(row).iter().zip(work.drawn(row));
            let shaping = marks.filter(|(m, _)| !matches!(m, Mark::Plain | Mark::Purl));
            shaping.map(|(_, d)| d.get()).collect()
        };
        for (index, row) in work.rows.iter().enumerate() {
            if !studied.measures.rows[index].over {
                assert!(studied.plan()[index].is_empty(), "{text}");
                continue;
            }
            let beneath = index.checked_sub(1);
            let under = Under {
                caught: columns(beneath),
                lower: columns(index.checked_sub(2)),
                shaped: shaping(beneath),
                closed: row.closed,
                last: u32::try_from(it.width).unwrap(),
                shaping: shaping(Some(index)),
            };
            let found = cost(&planned(&studied.plan()[index]), &under);
            assert_eq!(
                found,
                least(&studied, index, &under),
                "row {} of\n{text}",
                index + 1
            );
            caught += found.1;
            shaped_rows += usize::from(shaped);
            let fewest: usize = studied.measures.rows[index].catches;
            avoided += usize::from(found.1 > fewest);
        }
    }
    // The cases that matter come up: rows with catches, shaped ones, and some where one catch more keeps two apart.
    assert!(
        caught > 300 && shaped_rows > 20 && avoided > 5,
        "{caught} {shaped_rows} {avoided}"
    );
}

/// The stitches that somebody marks who works a row by the words, by their place in the row from 0.
fn follow(
    cells: &[u8],
    told: &[yokeward::rows::traps::Trap],
    closed: bool,
    backwards: bool,
) -> Vec<(u8, usize)> {
    let length = cells.len();
    // In the order of work: twice round a ring, so that what runs over its end is met whole.
    let order: Vec<usize> = (0..length)
        .map(|i| if backwards { length - 1 - i } else { i })
        .collect();
    let at = |i: usize| order[i % length];
    let mut found = Vec::new();
    for trap in told {
        let (mut met, mut worked, mut opening) = (0, Vec::new(), 0);
        for start in 0..length {
            // A float of that colour and length begins here: the stitch before is of its colour, and the one after.
            let whole = closed || (start > 0 && start + trap.of < length);
            let free = (0..trap.of).all(|i| cells[at(start + i)] != trap.colour);
            let past = |c: u8| (0..trap.of).all(|i| cells[at(start + i)] == c);
            let first = cells[at(start)];
            let same = if past(first) { Some(first) } else { None };
            let bounded = whole
                && cells[at(start + length - 1)] == trap.colour
                && cells[at(start + trap.of)] == trap.colour;
            if !(free && bounded && same == trap.past) {
                continue;
            }
            let places = trap.places.get(met).or(trap.places.last()).unwrap();
            met += 1;
            found.extend(places.iter().map(|p| (trap.colour, at(start + p - 1))));
            worked.extend(places.iter().map(|p| (start + p - 1) % length + 1));
            opening = opening.max((start + trap.of).saturating_sub(length));
        }
        assert_eq!(met, trap.places.len());
        // Where the row begins within such a stretch: what is caught there, or else the first catch of all.
        worked.sort_unstable();
        let there: Vec<usize> = worked.iter().copied().filter(|s| *s <= opening).collect();
        let first = match (opening, there.is_empty()) {
            (0, _) => Vec::new(),
            (_, true) => vec![worked[0]],
            _ => there,
        };
        assert_eq!(trap.first, first, "{cells:?} {trap:?}");
    }
    found.sort_unstable();
    found
}

#[test]
fn words_lead_to_the_marked_stitches() {
    let mut random = Random::new(43);
    let mut seen = 0;
    for _ in 0..200 {
        let (text, _) = random_chart(&mut random);
        let it: Chart = load_chart(&text);
        let studied = study_chart(&it, 12.0);
        for (row, plan) in studied.work.rows.iter().zip(studied.plan()) {
            let cells = studied.work.cells(row);
            let mut marked: Vec<(u8, usize)> = plan.iter().map(|c| (c.colour, c.at)).collect();
            marked.sort_unstable();
            for backwards in [false, true] {
                let told = traps(plan, cells, None, backwards);
                assert_eq!(
                    follow(cells, &told, row.closed, backwards),
                    marked,
                    "{text}"
                );
            }
            seen += marked.len();
        }
    }
    assert!(seen > 300, "{seen}");
}

/// Common practice, no source: never trap in the column of the trap beneath.
#[test]
fn one_catch_more_is_better_than_two_on_each_other() {
    // Floats of 11 at a limit of 5: one catch would do only in the very middle, row upon row.
    let row = "...........x";
    let it = chart(&[row, row, row], "");
    let studied = study_chart(&it, 20.0);
    let columns: Vec<Vec<u32>> = studied
        .plan()
        .iter()
        .map(|row| row.iter().map(|c| c.stitch.get()).collect())
        .collect();
    assert_eq!(columns[0], [7], "{columns:?}");
    for (above, beneath) in columns.iter().skip(1).zip(&columns) {
        assert!(above.iter().all(|c| !beneath.contains(c)), "{columns:?}");
    }
    assert_eq!(columns[1].len(), 2, "{columns:?}");
}
