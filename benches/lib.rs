//! Nothing to build: the measurements are benches.
