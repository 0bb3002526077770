//! A value with the formula and the numbers behind it.

/// A number that was put into a formula.
#[derive(Debug, Clone, PartialEq)]
pub struct Given {
    /// Its symbol in the formula.
    pub symbol: String,
    /// The number as a person writes it, with its unit; `not known` when it is not.
    pub text: String,
    /// Where it comes from: a card and its cite, the survey, a standard, or an assumption.
    pub origin: String,
}

/// A value that was worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct Worked {
    /// The value in its base unit; `None` when something it needs is not known.
    pub value: Option<f64>,
    /// The formula, in symbols.
    pub formula: String,
    /// The numbers put in.
    pub given: Vec<Given>,
}
