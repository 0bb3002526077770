//! The plan against brute force.
