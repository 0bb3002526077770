//! Figures against published ones.
