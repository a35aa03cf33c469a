//! A plane seen aslant: the map between a sheet of squares and its picture.

/// A place: pixels of a picture, or stitches and rows of a sheet, right and down from the top left corner.
pub type Place = [f64; 2];

/// A projective map of the plane, row by row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Plane(pub(super) [[f64; 3]; 3]);

/// One thing known of a map: the row of it that is asked for, a place of the picture, what comes out there, how sure that is.
pub(super) struct Sight {
    pub(super) along: usize,
    pub(super) from: Place,
    pub(super) to: f64,
    pub(super) weight: f64,
}

impl Plane {
    /// Where a place goes; places at infinity go nowhere in particular.
    pub(super) fn at(&self, [x, y]: Place) -> Place {
        let row = |i: usize| self.0[i][0] * x + self.0[i][1] * y + self.0[i][2];
        let depth = row(2);
        let depth = if depth.abs() < 1e-12 { 1e-12 } else { depth };
        [row(0) / depth, row(1) / depth]
    }

    /// The depth of a place: what its coordinates are divided by.
    fn depth(&self, [x, y]: Place) -> f64 {
        self.0[2][0] * x + self.0[2][1] * y + self.0[2][2]
    }

    /// The map the other way; `None` if it flattens the plane.
    pub(super) fn back(&self) -> Option<Self> {
        let m = &self.0;
        let minor = |r: usize, c: usize| {
            let (r0, r1) = ((r + 1) % 3, (r + 2) % 3);
            let (c0, c1) = ((c + 1) % 3, (c + 2) % 3);
            m[r0][c0] * m[r1][c1] - m[r0][c1] * m[r1][c0]
        };
        let det: f64 = (0..3).map(|c| m[0][c] * minor(0, c)).sum();
        if det.abs() < 1e-300 || !det.is_finite() {
            return None;
        }
        let mut out = [[0.0; 3]; 3];
        for (r, row) in out.iter_mut().enumerate() {
            for (c, cell) in row.iter_mut().enumerate() {
                *cell = minor(c, r) / det;
            }
        }
        Some(Self(out))
    }

    /// First this, then coordinates stretched and moved: `u * scale + shift`.
    pub(super) fn then(&self, scale: Place, shift: Place) -> Self {
        let mut out = self.0;
        let depth = self.0[2];
        for (i, row) in out.iter_mut().take(2).enumerate() {
            for (cell, depth) in row.iter_mut().zip(depth) {
                *cell = *cell * scale[i] + depth * shift[i];
            }
        }
        Self(out)
    }

    /// First coordinates of the picture stretched by `scale`, then this: for a picture of another size.
    pub(super) fn for_picture(&self, scale: f64) -> Self {
        let mut out = self.0;
        for row in &mut out {
            row[0] *= scale;
            row[1] *= scale;
        }
        Self(out)
    }

    /// First coordinates of the picture moved, so that this place becomes the origin, then this: for a part of a picture.
    pub(super) fn from(&self, origin: Place) -> Self {
        let mut out = self.0;
        for row in &mut out {
            row[2] -= row[0] * origin[0] + row[1] * origin[1];
        }
        Self(out)
    }

    /// The map that takes four corners, clockwise from the top left, to a sheet so wide and high.
    pub(super) fn of_corners(corners: &[Place; 4], width: f64, height: f64) -> Option<Self> {
        let targets = [[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]];
        let sights = corners.iter().zip(targets).flat_map(|(from, to)| {
            (0..2).map(move |along| Sight {
                along,
                from: *from,
                to: to[along],
                weight: 1.0,
            })
        });
        Self::fitted(&sights.collect::<Vec<_>>(), None)
    }

    /// The map that fits best what is known of it, by least squares; near `before`, if there is one, distances are weighed as
    /// they are on the sheet. Coordinates are brought to the size of one first, as the eight-point method asks (Hartley,
    /// "In defense of the eight-point algorithm", 1997).
    pub(super) fn fitted(sights: &[Sight], before: Option<&Self>) -> Option<Self> {
        let count = sights.len().max(1) as f64;
        let mean = |axis: usize| sights.iter().map(|s| s.from[axis]).sum::<f64>() / count;
        let centre = [mean(0), mean(1)];
        let spread = sights
            .iter()
            .map(|s| (s.from[0] - centre[0]).abs() + (s.from[1] - centre[1]).abs())
            .sum::<f64>()
            / count;
        if sights.len() < 8 || spread < 1e-9 {
            return None;
        }
        // Unknowns: nine entries but the last, which is one at the centre.
        let mut normal = [[0.0_f64; 9]; 8];
        for sight in sights {
            let x = (sight.from[0] - centre[0]) / spread;
            let y = (sight.from[1] - centre[1]) / spread;
            let depth = before.map_or(1.0, |map| {
                let here = map.depth(sight.from);
                here / map.depth(centre)
            });
            let weight = sight.weight / (depth * depth).max(1e-6);
            let mut row = [0.0; 9];
            let start = sight.along * 3;
            (row[start], row[start + 1], row[start + 2]) = (x, y, 1.0);
            (row[6], row[7], row[8]) = (-sight.to * x, -sight.to * y, sight.to);
            for i in 0..8 {
                for j in 0..9 {
                    normal[i][j] += weight * row[i] * row[j];
                }
            }
        }
        let h = solved(normal)?;
        let scaled = |r: [f64; 3]| {
            let (a, b) = (r[0] / spread, r[1] / spread);
            [a, b, r[2] - a * centre[0] - b * centre[1]]
        };
        Some(Self([
            scaled([h[0], h[1], h[2]]),
            scaled([h[3], h[4], h[5]]),
            scaled([h[6], h[7], 1.0]),
        ]))
    }
}

/// Eight equations in eight unknowns, by elimination with pivots; `None` if they say too little.
fn solved(mut m: [[f64; 9]; 8]) -> Option<[f64; 8]> {
    for i in 0..8 {
        let pivot = (i..8).max_by(|&a, &b| m[a][i].abs().total_cmp(&m[b][i].abs()))?;
        m.swap(i, pivot);
        if m[i][i].abs() < 1e-12 {
            return None;
        }
        let own = m[i];
        for (r, row) in m.iter_mut().enumerate() {
            if r != i {
                let share = row[i] / own[i];
                row.iter_mut().zip(own).for_each(|(x, o)| *x -= share * o);
            }
        }
    }
    let mut out = [0.0; 8];
    for (i, value) in out.iter_mut().enumerate() {
        *value = m[i][8] / m[i][i];
    }
    out.iter().all(|x| x.is_finite()).then_some(out)
}
