//! Functions of floating-point numbers where there is no standard library: those of `libm` under the same names.
//!
//! With feature `std` the methods of [`f64`] are used and this module does not exist.

/// The methods of [`f64`] that the library uses and `core` lacks.
pub(crate) trait Float {
    fn sqrt(self) -> Self;
    fn cbrt(self) -> Self;
    fn exp(self) -> Self;
    fn exp_m1(self) -> Self;
    fn ln(self) -> Self;
    fn log10(self) -> Self;
    fn powf(self, n: Self) -> Self;
    fn powi(self, n: i32) -> Self;
    fn hypot(self, other: Self) -> Self;
    fn atan(self) -> Self;
    fn floor(self) -> Self;
    fn round(self) -> Self;
}

impl Float for f64 {
    fn sqrt(self) -> Self {
        libm::sqrt(self)
    }
    fn cbrt(self) -> Self {
        libm::cbrt(self)
    }
    fn exp(self) -> Self {
        libm::exp(self)
    }
    fn exp_m1(self) -> Self {
        libm::expm1(self)
    }
    fn ln(self) -> Self {
        libm::log(self)
    }
    fn log10(self) -> Self {
        libm::log10(self)
    }
    fn powf(self, n: Self) -> Self {
        libm::pow(self, n)
    }
    fn powi(self, n: i32) -> Self {
        // by squaring: x⁵ = x · (x²)²
        let (mut rest, mut square, mut product) = (n.unsigned_abs(), self, 1.0);
        while rest > 0 {
            if rest & 1 == 1 {
                product *= square;
            }
            square *= square;
            rest >>= 1;
        }
        if n < 0 { 1.0 / product } else { product }
    }
    fn hypot(self, other: Self) -> Self {
        libm::hypot(self, other)
    }
    fn atan(self) -> Self {
        libm::atan(self)
    }
    fn floor(self) -> Self {
        libm::floor(self)
    }
    fn round(self) -> Self {
        libm::round(self)
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;

    use super::Float;

    #[test]
    fn functions_are_those_of_the_standard_library() {
        for i in -400..=400 {
            let x = f64::from(i) * 0.037;
            let size = x.abs() + 1e-3;
            for (ours, theirs) in [
                (Float::sqrt(size), size.sqrt()),
                (Float::cbrt(x), x.cbrt()),
                (Float::exp(x), x.exp()),
                (Float::exp_m1(x), x.exp_m1()),
                (Float::ln(size), size.ln()),
                (Float::log10(size), size.log10()),
                (Float::powf(size, x), size.powf(x)),
                (Float::powi(x, i % 30), x.powi(i % 30)),
                (Float::hypot(x, 1.3), x.hypot(1.3)),
                (Float::atan(x), x.atan()),
                (Float::floor(x), x.floor()),
                (Float::round(x), x.round()),
            ] {
                // powers of sixteen, off by the last places of their logarithm: our choice
                assert_relative_eq!(ours, theirs, max_relative = 1e-14);
            }
        }
    }
}
