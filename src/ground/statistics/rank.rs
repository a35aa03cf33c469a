//! How well two orders agree.

/// Kendall's tau-b: (P − Q) ÷ √((P + Q + T)(P + Q + U)), P and Q the pairs in the same and in the opposite order, T and U
/// those tied only in `x` and only in `y`. `None` when the lists differ in length or one of them is all ties.
#[must_use]
pub fn kendall_tau_b(x: &[f64], y: &[f64]) -> Option<f64> {
    if x.len() != y.len() {
        return None;
    }
    let (mut same, mut opposite, mut only_x, mut only_y) = (0.0, 0.0, 0.0, 0.0);
    for i in 0..x.len() {
        for j in 0..i {
            let (dx, dy) = (x[i] - x[j], y[i] - y[j]);
            if dx == 0.0 && dy == 0.0 {
                continue;
            } else if dx == 0.0 {
                only_x += 1.0;
            } else if dy == 0.0 {
                only_y += 1.0;
            } else if (dx > 0.0) == (dy > 0.0) {
                same += 1.0;
            } else {
                opposite += 1.0;
            }
        }
    }
    let below: f64 = (same + opposite + only_x) * (same + opposite + only_y);
    let tau = (same - opposite) / below.sqrt();
    tau.is_finite().then_some(tau)
}
