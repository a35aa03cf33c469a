//! Small systems of linear equations.

/// Solves `matrix` · x = `right` for a symmetric positive definite matrix (Cholesky). `None` when it is not.
pub(super) fn solve(matrix: &[Vec<f64>], right: &[f64]) -> Option<Vec<f64>> {
    let n = right.len();
    let mut lower = vec![vec![0.0; n]; n];
    for i in 0..n {
        for j in 0..=i {
            let before: f64 = (0..j).map(|k| lower[i][k] * lower[j][k]).sum();
            let rest = matrix[i][j] - before;
            if i == j {
                if !(rest > 0.0 && rest.is_finite()) {
                    return None;
                }
                lower[i][i] = rest.sqrt();
            } else {
                lower[i][j] = rest / lower[j][j];
            }
        }
    }
    let mut x = right.to_vec();
    for i in 0..n {
        let before: f64 = (0..i).map(|k| lower[i][k] * x[k]).sum();
        x[i] = (x[i] - before) / lower[i][i];
    }
    for i in (0..n).rev() {
        let after: f64 = (i + 1..n).map(|k| lower[k][i] * x[k]).sum();
        x[i] = (x[i] - after) / lower[i][i];
    }
    x.iter().all(|v| v.is_finite()).then_some(x)
}
