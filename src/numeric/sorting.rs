//! Sorting by numbers.

use std::mem::take;

/// Sorts `items` by the `number` of each, the least first; those with equal numbers keep their order.
///
/// Numbers are ordered as by [`f64::total_cmp`]. The sort of the standard library is compiled anew for each type of item and each
/// comparison, 3 kB of a module for the web every time; here one sort orders numbers, and the items follow them.
pub(crate) fn sort_by_number<T>(items: &mut Vec<T>, number: impl FnMut(&T) -> f64) {
    let order = ascending(items.iter().map(number).collect());
    let mut unordered: Vec<Option<T>> = take(items).into_iter().map(Some).collect();
    items.extend(order.into_iter().filter_map(|place| unordered[place].take()));
}

/// The places of `numbers` from the least to the greatest.
fn ascending(numbers: Vec<f64>) -> Vec<usize> {
    let mut placed: Vec<(f64, usize)> = numbers.into_iter().zip(0..).collect();
    placed.sort_by(|(a, _), (b, _)| a.total_cmp(b));
    placed.into_iter().map(|(_, place)| place).collect()
}

#[cfg(test)]
mod tests {
    use super::sort_by_number;

    #[test]
    fn items_follow_their_numbers_and_equals_keep_their_order() {
        let mut items =
            vec![("c", 2.0), ("a", -1.0), ("last", f64::NAN), ("d", 2.0), ("b", 0.5), ("first", f64::NEG_INFINITY)];
        sort_by_number(&mut items, |(_, number)| *number);
        assert_eq!(items.iter().map(|(name, _)| *name).collect::<Vec<_>>(), ["first", "a", "b", "c", "d", "last"]);
        sort_by_number(&mut items, |(_, number)| -number);
        assert_eq!(items.iter().map(|(name, _)| *name).collect::<Vec<_>>(), ["last", "c", "d", "b", "a", "first"]);
        let mut none: Vec<f64> = Vec::new();
        sort_by_number(&mut none, |number| *number);
        assert!(none.is_empty());
    }
}
