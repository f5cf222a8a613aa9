//! Saturation curves as piecewise polynomials, one file of constants for each fluid, made by `examples/make_curves.rs`.

pub(super) mod r12;
pub(super) mod r1234yf;
pub(super) mod r1234ze;
pub(super) mod r125;
pub(super) mod r134a;
pub(super) mod r143a;
pub(super) mod r152a;
pub(super) mod r22;
pub(super) mod r290;
pub(super) mod r32;
pub(super) mod r404a;
pub(super) mod r407c;
pub(super) mod r410a;
pub(super) mod r507a;
pub(super) mod r600a;
pub(super) mod r744;
