//! The rooms of the crate keep to themselves.
