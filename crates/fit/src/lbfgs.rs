//! Minimising a smooth function: limited-memory BFGS with a backtracking line search.
//!
//! Nocedal & Wright, *Numerical Optimization*, 2nd edition, algorithms 7.4 and 7.5 (from memory).
//! Everything is summed in a fixed order, so that a fit repeats to the digit.

/// How many steps the curvature is remembered over.
const MEMORY: usize = 12;

/// Walks downhill from `start` for at most `steps` steps; gives the lowest place found.
///
/// `value_and_slope` fills its second argument with the slope and returns the value.
pub(crate) fn minimise(
    start: Vec<f64>,
    steps: usize,
    mut value_and_slope: impl FnMut(&[f64], &mut [f64]) -> f64,
) -> Vec<f64> {
    let count = start.len();
    let mut place = start;
    let mut slope = vec![0.0; count];
    let mut value = value_and_slope(&place, &mut slope);
    let mut memory: Vec<(Vec<f64>, Vec<f64>, f64)> = Vec::new();
    for step in 0..steps {
        let direction = direction(&slope, &memory);
        let fall = dot(&direction, &slope);
        if fall >= 0.0 || dot(&slope, &slope) < 1e-9 {
            break;
        }
        let mut length = if step == 0 { 1.0 / dot(&slope, &slope).sqrt().max(1.0) } else { 1.0 };
        let mut next = vec![0.0; count];
        let mut next_slope = vec![0.0; count];
        let mut next_value = f64::INFINITY;
        for _ in 0..30 {
            for i in 0..count {
                next[i] = place[i] + length * direction[i];
            }
            next_value = value_and_slope(&next, &mut next_slope);
            if next_value <= value + 1e-4 * length * fall {
                break;
            }
            length *= 0.5;
        }
        if next_value >= value {
            break;
        }
        let moved: Vec<f64> = next.iter().zip(&place).map(|(a, b)| a - b).collect();
        let bent: Vec<f64> = next_slope.iter().zip(&slope).map(|(a, b)| a - b).collect();
        let curvature = dot(&moved, &bent);
        if curvature > 1e-12 {
            memory.push((moved, bent, 1.0 / curvature));
            if memory.len() > MEMORY {
                memory.remove(0);
            }
        }
        let gained = value - next_value;
        (place, slope, value) = (next, next_slope, next_value);
        if gained < 1e-7 * value.abs().max(1.0) {
            break;
        }
    }
    place
}

/// The slope, turned by the remembered curvature.
fn direction(slope: &[f64], memory: &[(Vec<f64>, Vec<f64>, f64)]) -> Vec<f64> {
    let mut q: Vec<f64> = slope.iter().map(|g| -g).collect();
    let mut alphas = Vec::with_capacity(memory.len());
    for (moved, bent, rho) in memory.iter().rev() {
        let alpha = rho * dot(moved, &q);
        add(&mut q, bent, -alpha);
        alphas.push(alpha);
    }
    if let Some((_, bent, rho)) = memory.last() {
        let scale = 1.0 / (rho * dot(bent, bent));
        q.iter_mut().for_each(|x| *x *= scale);
    }
    for ((moved, bent, rho), alpha) in memory.iter().zip(alphas.iter().rev()) {
        let beta = rho * dot(bent, &q);
        add(&mut q, moved, alpha - beta);
    }
    q
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

fn add(to: &mut [f64], what: &[f64], times: f64) {
    for (x, y) in to.iter_mut().zip(what) {
        *x += times * y;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_bottom_of_a_bent_valley() {
        // Rosenbrock's function, least at (1, 1).
        let place = minimise(vec![-1.2, 1.0], 200, |p, slope| {
            let (a, b) = (1.0 - p[0], p[1] - p[0] * p[0]);
            slope[0] = -2.0 * a - 400.0 * b * p[0];
            slope[1] = 200.0 * b;
            a * a + 100.0 * b * b
        });
        assert!((place[0] - 1.0).abs() < 1e-3 && (place[1] - 1.0).abs() < 1e-3, "{place:?}");
    }
}
