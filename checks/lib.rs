//! Nothing to build: the checks are tests.
