//! Findings, each from a survey that carries it.
