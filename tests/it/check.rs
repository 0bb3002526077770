//! Faults: each where it stands.
