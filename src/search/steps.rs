//! Scores are counted in whole steps, so that the order in which they are summed can't tell two facts apart.

/// So many steps a score of one has.
pub(super) const STEPS: f32 = 64.0;

/// The whole number of steps that is nearest to a score.
pub(super) fn steps(score: f32) -> u32 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "scores are small and not negative")]
    let steps = (score * STEPS).round().max(0.0) as u32;
    steps
}

/// The score of so many steps.
pub(super) fn from_steps(steps: u32) -> f32 {
    #[expect(clippy::cast_precision_loss, reason = "scores are small")]
    let score = steps as f32 / STEPS;
    score
}
