//! Sets of items: a bit for each.

/// Words that a set takes.
pub(super) const fn words(items: usize) -> usize {
    items.div_ceil(BITS)
}

/// Things in one word of a set.
const BITS: usize = u64::BITS as usize;

pub(super) fn insert(set: &mut [u64], item: usize) {
    set[item / BITS] |= 1 << (item % BITS);
}

pub(super) fn has(set: &[u64], item: usize) -> bool {
    set[item / BITS] >> (item % BITS) & 1 == 1
}

/// The items of a set in order.
pub(super) fn items(set: &[u64]) -> impl Iterator<Item = usize> {
    set.iter().enumerate().flat_map(|(word, bits)| of_word(word, *bits))
}

/// The items of one word of a set.
pub(super) fn of_word(word: usize, mut bits: u64) -> impl Iterator<Item = usize> {
    std::iter::from_fn(move || {
        let item = (bits != 0).then(|| word * BITS + bits.trailing_zeros() as usize);
        bits &= bits.wrapping_sub(1);
        item
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_put_in_comes_out_in_order() {
        let mut set = vec![0; words(129)];
        [128, 0, 63, 64, 5, 64].into_iter().for_each(|item| insert(&mut set, item));
        assert_eq!(items(&set).collect::<Vec<_>>(), [0, 5, 63, 64, 128]);
        assert!(has(&set, 63) && !has(&set, 62) && !has(&set, 127));
        assert_eq!((words(0), words(1), words(64), words(65)), (0, 1, 1, 2));
    }
}
