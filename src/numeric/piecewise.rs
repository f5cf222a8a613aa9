//! Functions of one variable as piecewise polynomials.

/// Coefficients of one polynomial, so the degree is 11. A multiple of [`LANES`].
///
/// Eight would save a fifth of the time and take twice the space.
pub(crate) const TERMS: usize = 12;

/// Binary digits that name a cell, beside the exponent of its distance: 16 cells to a doubling.
///
/// Fewer leave cells at the triple point that one polynomial cannot serve; more make the maps longer and save few
/// pieces.
const DIGITS: u32 = 4;

/// Number of binary digits that are cut off.
const CUT: u32 = f64::MANTISSA_DIGITS - 1 - DIGITS;

/// Sums that are carried side by side, so that one instruction serves two of them, or four where the processor can.
const LANES: usize = 4;

/// `K` functions of x, each a polynomial in x − centre within each piece of the range.
///
/// The range is laid out in cells that narrow towards zero and towards `end`: a cell is the distance to the nearer of
/// the two with all but its exponent and its first [`DIGITS`] binary digits cut off, as the bits of the number have it.
/// A map leads from the cell to its piece, so finding it costs the same everywhere and searches nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pieces<'a, const K: usize> {
    /// Point above the range at which the functions may be singular.
    pub end: f64,
    /// Name of the first cell of the map: below half of `end`, and above.
    pub first: [u64; 2],
    /// Index of the piece of each cell.
    pub map: &'a [u8],
    /// Pieces in the order of x.
    pub pieces: &'a [Piece<K>],
}

/// `K` polynomials in x − `centre`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Piece<const K: usize> {
    /// Middle of the piece.
    pub centre: f64,
    /// Coefficients of each function, the constant first.
    pub coefficients: [[f64; TERMS]; K],
}

impl<const K: usize> Pieces<'_, K> {
    /// The functions at `x`; `None` where the map ends.
    #[inline]
    pub(crate) fn at(&self, x: f64) -> Option<[f64; K]> {
        let piece = self.piece(x)?;
        let u = x - piece.centre;
        Some(core::array::from_fn(|k| polynomial(&piece.coefficients[k], u)))
    }

    /// The slopes of the functions at `x`; `None` where the map ends.
    #[inline]
    pub(crate) fn slope_at(&self, x: f64) -> Option<[f64; K]> {
        let piece = self.piece(x)?;
        let u = x - piece.centre;
        // d/du Σ cᵢ uⁱ = Σ i cᵢ uⁱ⁻¹
        let slope = |c: &[f64; TERMS]| (1..TERMS).rev().fold(0.0, |sum, i| sum * u + i as f64 * c[i]);
        Some(core::array::from_fn(|k| slope(&piece.coefficients[k])))
    }

    /// Writes the first function at each x, a multiple of [`LANES`] of them, to its place; false, and nothing written is to be used, where the
    /// map ends for one of them.
    ///
    /// First the cells of all, as that needs no look-up and is done for several at once; then polynomials, of four x at once where
    /// they lie in one piece, as rows of a log mostly do.
    #[inline]
    pub(crate) fn first_at_each<const N: usize>(&self, x: &[f64; N], places: &mut [f64; N]) -> bool {
        let (end, [low, high]) = (self.end, self.first);
        let mut cells = [0; N];
        for (cell, &x) in cells.iter_mut().zip(x) {
            *cell = cell_of(x, end, low, high);
        }
        let four = x.as_chunks::<LANES>().0.iter().zip(cells.as_chunks::<LANES>().0);
        for (places, (x, cells)) in places.as_chunks_mut::<LANES>().0.iter_mut().zip(four) {
            let mut names = [0; LANES];
            for (name, &cell) in names.iter_mut().zip(cells) {
                let Some(&found) = self.map.get(cell as usize) else { return false };
                *name = found;
            }
            let [first, ..] = names;
            if names.iter().fold(0, |other, name| other | (name ^ first)) == 0 {
                let Some(piece) = self.pieces.get(usize::from(first)) else { return false };
                *places = polynomials(&piece.coefficients[0], &x.map(|x| x - piece.centre));
            } else {
                for ((place, &x), name) in places.iter_mut().zip(x).zip(names) {
                    let Some(piece) = self.pieces.get(usize::from(name)) else { return false };
                    *place = polynomial(&piece.coefficients[0], x - piece.centre);
                }
            }
        }
        true
    }

    #[inline]
    fn piece(&self, x: f64) -> Option<&Piece<K>> {
        let [low, high] = self.first;
        self.piece_in(cell_of(x, self.end, low, high))
    }

    #[inline(always)]
    fn piece_in(&self, cell: u64) -> Option<&Piece<K>> {
        let piece = *self.map.get(cell as usize)?;
        self.pieces.get(usize::from(piece))
    }
}

/// Place of `x` in the map; `low` and `high` are the names of its first cells.
#[inline(always)]
fn cell_of(x: f64, end: f64, low: u64, high: u64) -> u64 {
    let to_end = end - x;
    let (distance, first) = if to_end < x { (to_end, high) } else { (x, low) };
    // the bits of a positive number grow with it
    (distance.to_bits() >> CUT).wrapping_sub(first)
}

/// Σ cᵢ uⁱ, as [`LANES`] polynomials in u⁴.
#[inline(always)]
fn polynomial(c: &[f64; TERMS], u: f64) -> f64 {
    let u2 = u * u;
    let u4 = u2 * u2;
    let mut sums = [0.0; LANES];
    sums.copy_from_slice(&c[TERMS - LANES..]);
    for block in c[..TERMS - LANES].chunks_exact(LANES).rev() {
        for (sum, c) in sums.iter_mut().zip(block) {
            *sum = *sum * u4 + c;
        }
    }
    let [even, odd] = [sums[0] + sums[2] * u2, sums[1] + sums[3] * u2];
    even + odd * u
}

/// [`polynomial`] of one piece at several u: the same operations, each for all of them at once.
#[inline(always)]
fn polynomials(c: &[f64; TERMS], u: &[f64; LANES]) -> [f64; LANES] {
    let u2 = u.map(|u| u * u);
    let u4 = u2.map(|u2| u2 * u2);
    let sum = |lane: usize| {
        let mut sum = [c[TERMS - LANES + lane]; LANES];
        for block in c[..TERMS - LANES].chunks_exact(LANES).rev() {
            sum = core::array::from_fn(|i| sum[i] * u4[i] + block[lane]);
        }
        sum
    };
    let [zero, one, two, three] = [sum(0), sum(1), sum(2), sum(3)];
    core::array::from_fn(|i| (zero[i] + two[i] * u2[i]) + (one[i] + three[i] * u2[i]) * u[i])
}

#[cfg(feature = "fit")]
pub(crate) use making::{Making, Owned};

/// Construction of the pieces.
#[cfg(feature = "fit")]
mod making {
    use core::f64::consts::PI;
    use core::fmt::Write;

    use super::{CUT, Piece, Pieces, TERMS};
    use crate::Error;

    /// [`Pieces`] under construction.
    #[derive(Debug, Clone, PartialEq)]
    pub(crate) struct Owned<const K: usize> {
        end: f64,
        first: [u64; 2],
        map: Vec<u8>,
        pieces: Vec<Piece<K>>,
    }

    /// Functions to be approximated, and the error allowed.
    pub(crate) struct Making<F, A> {
        /// First x.
        pub low: f64,
        /// Last x.
        pub high: f64,
        /// Point above `high` at which the functions may be singular.
        pub end: f64,
        /// The functions.
        pub functions: F,
        /// The error allowed to each of them, from their values.
        pub allowed: A,
    }

    impl<const K: usize> Owned<K> {
        /// Borrowed form, used for evaluation.
        pub(crate) fn pieces(&self) -> Pieces<'_, K> {
            Pieces { end: self.end, first: self.first, map: &self.map, pieces: &self.pieces }
        }

        /// Size of the pieces as constants, bytes.
        pub(crate) fn bytes(&self) -> usize {
            size_of::<Pieces<K>>() + self.map.len() + size_of_val(self.pieces.as_slice())
        }

        /// Rust expression of the pieces, each line but the first indented by `indent`.
        pub(crate) fn to_rust(&self, indent: &str) -> String {
            let inner = format!("\n{indent}    ");
            let mut text = format!("Pieces {{{inner}end: {:?},", self.end);
            let map: Vec<String> = self.map.iter().map(u8::to_string).collect();
            // a String takes what is written to it
            let _ = write!(text, "{inner}first: {:?},{inner}map: &[{}],{inner}pieces: &[", self.first, map.join(", "));
            for piece in &self.pieces {
                let _ = write!(
                    text,
                    "{inner}    Piece {{ centre: {:?}, coefficients: {:?} }},",
                    piece.centre, piece.coefficients
                );
            }
            let _ = write!(text, "{inner}],\n{indent}}}");
            text
        }
    }

    impl<F, A> Making<F, A> {
        /// The fewest pieces that keep the allowed error.
        ///
        /// From the lower end of the range, each piece takes as many cells as its polynomial can serve. A single cell
        /// that it cannot serve is taken as it comes: there the functions are rougher than their cells, or noisy.
        ///
        /// # Errors
        /// What the functions return; [`Error::BadTable`] for an impossible range or more pieces than a map can name.
        pub(crate) fn pieces<const K: usize>(&self) -> Result<Owned<K>, Error>
        where
            F: Fn(f64) -> Result<[f64; K], Error>,
            A: Fn([f64; K]) -> [f64; K],
        {
            let (low, high, end) = (self.low, self.high, self.end);
            if !(0.0 < low && low < high && high < end && end.is_finite()) {
                return Err(bad(format!("its range must be 0 < {low} < {high} < {end}")));
            }
            let (first, cells) = self.cells();
            let mut map = vec![0; cells.len()];
            let mut pieces = Vec::new();
            let mut start = 0;
            while let Some(opening) = cells.get(start) {
                let mut next = start + 1;
                let mut high = opening.high;
                let mut piece = self.interpolate(opening.low, high)?;
                while let Some(cell) = cells.get(next) {
                    let longer = self.interpolate(opening.low, cell.high)?;
                    // an end of the range on a border leaves a cell of a single point, which has no piece of its own
                    let point = opening.low == high || cell.low == cell.high;
                    if !point && !self.serves(&longer, opening.low, cell.high)? {
                        break;
                    }
                    (piece, high) = (longer, cell.high);
                    next += 1;
                }
                let name = u8::try_from(pieces.len()).map_err(|_| bad("it needs more than 256 pieces".to_owned()))?;
                for cell in &cells[start..next] {
                    map[cell.place] = name;
                }
                pieces.push(piece);
                start = next;
            }
            Ok(Owned { end, first, map, pieces })
        }

        /// The names of the first cells and all cells in the order of x.
        fn cells(&self) -> ([u64; 2], Vec<Cell>) {
            let name = |distance: f64| distance.to_bits() >> CUT;
            let border = |name: u64| f64::from_bits(name << CUT);
            let half = 0.5 * self.end;
            let mut cells = Vec::new();
            let mut first = [0; 2];
            if self.low <= half {
                let high = self.high.min(half);
                first[0] = name(self.low);
                cells.extend((first[0]..=name(high)).map(|cell| Cell {
                    low: border(cell).max(self.low),
                    high: border(cell + 1).min(high),
                    place: (cell - first[0]) as usize,
                }));
            }
            if self.high > half {
                let low = self.low.max(half);
                let nearest = name(self.end - self.high);
                let below = cells.len();
                first[1] = nearest.wrapping_sub(below as u64);
                cells.extend((nearest..=name(self.end - low)).rev().map(|cell| Cell {
                    low: (self.end - border(cell + 1)).max(low),
                    high: (self.end - border(cell)).min(self.high),
                    place: (cell - nearest) as usize + below,
                }));
            }
            (first, cells)
        }

        /// The polynomials through the functions at the Chebyshev points of [low, high], both ends among them, so that
        /// neighbouring pieces meet.
        fn interpolate<const K: usize>(&self, low: f64, high: f64) -> Result<Piece<K>, Error>
        where
            F: Fn(f64) -> Result<[f64; K], Error>,
            A: Fn([f64; K]) -> [f64; K],
        {
            let (centre, half) = (0.5 * (low + high), 0.5 * (high - low));
            const N: usize = TERMS - 1;
            let mut values = [[0.0; TERMS]; K];
            for j in 0..TERMS {
                // uⱼ = cos(jπ/n)
                let x = match j {
                    0 => high,
                    N => low,
                    _ => centre + half * (PI * j as f64 / N as f64).cos(),
                };
                for (values, value) in values.iter_mut().zip((self.functions)(x)?) {
                    values[j] = value;
                }
            }
            let mut coefficients = [[0.0; TERMS]; K];
            for (coefficients, values) in coefficients.iter_mut().zip(&values) {
                let least = values.iter().fold(f64::INFINITY, |least, v| least.min(v.abs()));
                *coefficients = powers(&chebyshev(values), half);
                // digits that the last place of the value cannot see are left off
                let mut reach = least.max(f64::MIN_POSITIVE) * f64::EPSILON / 8.0;
                for c in &mut *coefficients {
                    *c = shortest(*c, reach);
                    reach /= half.max(f64::MIN_POSITIVE);
                }
            }
            Ok(Piece { centre, coefficients })
        }

        /// Whether the error between the points of interpolation is allowed.
        fn serves<const K: usize>(&self, piece: &Piece<K>, low: f64, high: f64) -> Result<bool, Error>
        where
            F: Fn(f64) -> Result<[f64; K], Error>,
            A: Fn([f64; K]) -> [f64; K],
        {
            let (centre, half) = (0.5 * (low + high), 0.5 * (high - low));
            for j in 0..TERMS - 1 {
                let x = centre + half * (PI * (j as f64 + 0.5) / (TERMS - 1) as f64).cos();
                let values = (self.functions)(x)?;
                let allowed = (self.allowed)(values);
                for k in 0..K {
                    let error = super::polynomial(&piece.coefficients[k], x - piece.centre) - values[k];
                    // what is not a number is not allowed
                    if error.is_nan() || error.abs() > allowed[k] {
                        return Ok(false);
                    }
                }
            }
            Ok(true)
        }
    }

    /// Cell from `low` to `high`; the index of its piece is at `place` of the map.
    struct Cell {
        low: f64,
        high: f64,
        place: usize,
    }

    fn bad(reason: String) -> Error {
        Error::BadTable { reason }
    }

    /// aₖ of Σ aₖ Tₖ(u) through the values at uⱼ = cos(jπ/n).
    ///
    /// aₖ = (2/n) Σ″ fⱼ cos(jkπ/n), the first and last term of the sum halved, and so are a₀ and aₙ.
    fn chebyshev(values: &[f64; TERMS]) -> [f64; TERMS] {
        let n = TERMS - 1;
        let halved = |i: usize, x: f64| if i == 0 || i == n { 0.5 * x } else { x };
        core::array::from_fn(|k| {
            let sum: f64 =
                (0..TERMS).map(|j| halved(j, values[j] * (PI * ((j * k) % (2 * n)) as f64 / n as f64).cos())).sum();
            halved(k, 2.0 / n as f64 * sum)
        })
    }

    /// The same polynomial in powers of `half` · u.
    fn powers(a: &[f64; TERMS], half: f64) -> [f64; TERMS] {
        // T₀ = 1, T₁ = u, Tₖ₊₁ = 2 u Tₖ − Tₖ₋₁
        let (mut before, mut t) = ([0.0; TERMS], [0.0; TERMS]);
        t[0] = 1.0;
        let mut sum = [0.0; TERMS];
        for (k, &a) in a.iter().enumerate() {
            for (sum, t) in sum.iter_mut().zip(&t) {
                *sum += a * t;
            }
            let factor = if k == 0 { 1.0 } else { 2.0 };
            let next = core::array::from_fn(|i| if i == 0 { 0.0 } else { factor * t[i - 1] } - before[i]);
            before = t;
            t = next;
        }
        let mut scale = 1.0;
        for sum in &mut sum {
            *sum /= scale;
            scale *= half.max(f64::MIN_POSITIVE);
        }
        sum
    }

    /// The number of fewest decimal digits within `reach` of `value`.
    fn shortest(value: f64, reach: f64) -> f64 {
        (0..17)
            .filter_map(|digits| format!("{value:.digits$e}").parse::<f64>().ok())
            .find(|short| (short - value).abs() <= reach)
            .unwrap_or(value)
    }
}

#[cfg(test)]
#[cfg(feature = "fit")]
mod tests {
    use approx::abs_diff_eq;

    use super::*;
    use crate::Error;

    fn made(low: f64, high: f64, end: f64, f: impl Fn(f64) -> f64) -> Owned<1> {
        Making { low, high, end, functions: |x| Ok::<_, Error>([f(x)]), allowed: |_| [1e-12] }.pieces().unwrap()
    }

    #[test]
    fn the_range_may_begin_and_end_on_borders_and_in_the_middle() {
        // half of `end` is 4; 4.5, 7.5 and 7.984375 lie on borders
        for (low, high) in [(4.0, 7.5), (4.5, 7.984375), (0.5, 4.0), (3.9, 4.1), (0.5, 7.5)] {
            // one that pieces follow to the last places, and one that no piece can follow
            for (f, allowed) in [(f64::sqrt as fn(f64) -> f64, 1e-12), (|x| (1e3 * x).sin().signum() + 3.0, 4.0)] {
                let owned = made(low, high, 8.0, |x| f(8.0 - x));
                for i in 0..=1000 {
                    let x = (low + (high - low) * f64::from(i) / 1000.0).min(high);
                    let [y] = owned.pieces().at(x).unwrap();
                    assert!(abs_diff_eq!(y, f(8.0 - x), epsilon = allowed), "{low} to {high}: {y} at {x}");
                }
            }
        }
    }

    #[test]
    fn slopes_are_those_of_the_function() {
        let owned = made(0.25, 7.5, 8.0, |x| x.ln() + (8.0 - x).sqrt());
        for i in 0..=1000 {
            let x = 0.25 + 7.25 * f64::from(i) / 1000.0;
            let [slope] = owned.pieces().slope_at(x).unwrap();
            // slopes of values good to 1e-12: our choice
            assert!(abs_diff_eq!(slope, 1.0 / x - 0.5 / (8.0 - x).sqrt(), epsilon = 1e-8), "{slope} at {x}");
        }
    }

    #[test]
    fn the_text_holds_the_numbers_as_they_are() {
        let owned = made(0.25, 7.5, 8.0, |x| x.ln());
        let text = owned.to_rust("");
        let pieces = owned.pieces();
        for (line, piece) in text.lines().filter(|line| line.contains("Piece {")).zip(pieces.pieces) {
            let numbers = |s: &str| s.split(", ").map(|n| n.parse().unwrap()).collect::<Vec<f64>>();
            let inside = line.split_once("[[").unwrap().1.split_once("]]").unwrap().0;
            assert_eq!(numbers(inside), piece.coefficients[0]);
        }
        assert_eq!(text.matches("centre: ").count(), pieces.pieces.len());
    }
}
