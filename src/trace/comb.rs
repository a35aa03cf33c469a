//! Lines at even distances: their period and where the first of them lies.

/// A row of lines: one every `period`, one of them at `phase`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Comb {
    pub(super) period: f64,
    pub(super) phase: f64,
    /// How much of what was seen lies on its lines, and how many of them are seen at all: their product, from 0 to 1.
    pub(super) worth: f64,
}

/// A period is looked at if what was seen falls into step at it at least so well beside the best.
pub(super) const NEARLY: f64 = 0.35;

/// The likeliest combs of strengths along a line, the best first: of the periods from `least` to `most`, those at which what
/// was seen falls into step.
pub(super) fn combs(seen: &[(f64, f64)], (least, most): (f64, f64), nearly: f64) -> Vec<Comb> {
    let all: f64 = seen.iter().map(|(_, w)| w).sum();
    let (from, to) = seen.iter().fold((f64::MAX, f64::MIN), |(a, b), (x, _)| {
        (a.min(*x), b.max(*x))
    });
    let length = to - from;
    if all <= 0.0 || length <= least || least <= 0.0 {
        return Vec::new();
    }
    // Bins fine enough for the least period.
    let bin = (least / 8.0).max(length / 8192.0);
    let bins = (length / bin) as usize + 2;
    let mut strength = vec![0.0_f64; bins];
    for (x, w) in seen {
        strength[((x - from) / bin) as usize] += w;
    }
    let places: Vec<(f64, f64)> = strength
        .iter()
        .enumerate()
        .filter(|(_, w)| **w > 0.0)
        .map(|(i, w)| (from + (i as f64 + 0.5) * bin, *w))
        .collect();
    // Frequencies so close that nothing between is lost.
    let step = 0.2 / length;
    let (low, high) = (1.0 / most, 1.0 / least);
    let count = ((high - low) / step) as usize + 1;
    let score = |frequency: f64| {
        let (mut re, mut im) = (0.0, 0.0);
        for (x, w) in &places {
            let (sin, cos) = (std::f64::consts::TAU * frequency * (x - from)).sin_cos();
            re += w * cos;
            im += w * sin;
        }
        ((re * re + im * im).sqrt() / all, im.atan2(re))
    };
    // Each place turns on by the same angle from one frequency to the next.
    let turn = |by: f64| {
        let each = places.iter().map(|(x, _)| {
            let (sin, cos) = (std::f64::consts::TAU * by * (x - from)).sin_cos();
            (cos as f32, sin as f32)
        });
        each.collect::<Vec<_>>()
    };
    let (mut hands, steps) = (turn(low), turn(step));
    let weights: Vec<f32> = places.iter().map(|(_, w)| *w as f32).collect();
    let mut scores: Vec<f64> = Vec::with_capacity(count);
    for i in 0..count {
        // Afresh now and then, so that errors do not grow.
        if i % 64 == 0 {
            hands = turn(low + step * i as f64);
        }
        let (mut re, mut im) = (0.0_f32, 0.0_f32);
        for ((hand, step), weight) in hands.iter_mut().zip(&steps).zip(&weights) {
            re += weight * hand.0;
            im += weight * hand.1;
            *hand = (
                hand.0 * step.0 - hand.1 * step.1,
                hand.0 * step.1 + hand.1 * step.0,
            );
        }
        scores.push(f64::from(re * re + im * im).sqrt() / all);
    }
    let peak = |i: &usize| {
        let own = scores[*i];
        let before = i.checked_sub(1).and_then(|b| scores.get(b)).copied();
        let after = scores.get(i + 1).copied();
        own >= before.unwrap_or(0.0) && own >= after.unwrap_or(0.0)
    };
    let mut peaks: Vec<(f64, f64)> = (0..count)
        .filter(peak)
        .map(|i| (scores[i], low + step * i as f64))
        .collect();
    peaks.sort_by(|a, b| b.0.total_cmp(&a.0));
    let Some(best) = peaks.first().copied() else {
        return Vec::new();
    };
    peaks.retain(|p| p.0 >= nearly * best.0);
    peaks.truncate(40);
    let fine = peaks.into_iter().map(|(_, frequency)| {
        // To the top of the peak.
        let (mut frequency, mut step) = (frequency, step);
        let mut own = score(frequency);
        for _ in 0..12 {
            step /= 2.0;
            for sign in [-1.0, 1.0] {
                let other = score(frequency + sign * step);
                if other.0 > own.0 {
                    (frequency, own) = (frequency + sign * step, other);
                }
            }
        }
        let period = 1.0 / frequency;
        let phase = from + own.1 / std::f64::consts::TAU * period;
        Comb {
            period,
            phase,
            worth: worth(&places, all, (period, phase)),
        }
    });
    let mut combs: Vec<Comb> = fine.collect();
    combs.sort_by(|a, b| b.worth.total_cmp(&a.worth));
    combs
}

/// How much of what was seen lies near lines, times the share of lines on which anything is seen.
fn worth(places: &[(f64, f64)], all: f64, (period, phase): (f64, f64)) -> f64 {
    let line = |x: f64| ((x - phase) / period).round();
    // Between the places before and beyond which a twentieth lies.
    let mut sum = 0.0;
    let mut ends = (f64::NAN, f64::NAN);
    for (x, w) in places {
        sum += w;
        if ends.0.is_nan() && sum > 0.05 * all {
            ends.0 = *x;
        }
        if sum < 0.95 * all {
            ends.1 = *x;
        }
    }
    let (first, last) = (line(ends.0), line(ends.1));
    let count = (last - first) as usize + 1;
    let mut lines = vec![0.0_f64; count];
    let mut near = 0.0;
    for (x, w) in places {
        let at = line(*x);
        if ((x - phase) / period - at).abs() > 0.17 {
            continue;
        }
        near += w;
        if at >= first && at <= last {
            lines[(at - first) as usize] += w;
        }
    }
    let mut sorted = lines.clone();
    sorted.sort_by(f64::total_cmp);
    let strong = sorted[sorted.len() * 3 / 4];
    let seen = lines.iter().filter(|l| **l > 0.2 * strong).count();
    near / all * seen as f64 / count as f64
}
