//! pack.json of whole jobs.
