//! What the load index on a tyre's sidewall stands for.

use crate::units::Mass;

/// The least index in the table.
pub const LEAST_LOAD_INDEX: u32 = 40;
/// Kilograms a tyre may carry, for load indices from 40 up. UN Regulation 75, Annex 4 (the same table in ISO 4249 and
/// 5751 and in the European tyre makers' manual); 43 to 85 second-hand from renderings that agree, 40 to 42 from memory.
const KILOGRAMS: [u16; 46] = [
    140, 145, 150, 155, 160, 165, 170, 175, 180, 185, 190, 195, 200, 206, 212, 218, 224, 230, 236, 243, 250, 257, 265,
    272, 280, 290, 300, 307, 315, 325, 335, 345, 355, 365, 375, 387, 400, 412, 425, 437, 450, 462, 475, 487, 500, 515,
];
/// The largest index in the table.
pub const LARGEST_LOAD_INDEX: u32 = 85;

/// The most that a tyre with this load index may carry, at the pressure that its maker ties to it; `None` outside the
/// table. Less pressure carries less, by no rule that could be given here.
#[must_use]
pub fn tyre_load(index: u32) -> Option<Mass> {
    let at = index.checked_sub(LEAST_LOAD_INDEX)?;
    KILOGRAMS.get(usize::try_from(at).ok()?).map(|kg| Mass::from_grams(i64::from(*kg) * 1000))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Pounds as printed on sidewalls and in trade tables (second-hand): 54 is 467 lb, 58 is 520 lb, 73 is 805 lb; a
    /// pound of rounding either way.
    #[test]
    fn kilograms_agree_with_tables_in_pounds() {
        for (index, pounds) in [(54, 467.0), (58, 520.0), (73, 805.0)] {
            let own = tyre_load(index).unwrap().kilograms() / 0.453_592_37;
            assert!((own - pounds).abs() < 1.0, "{index}: {own:.1} lb against {pounds}");
        }
    }

    /// Fixed points of the regulation's table, and its ends.
    #[test]
    fn fixed_points_of_the_table() {
        for (index, kilograms) in
            [(40, 140), (52, 200), (59, 243), (60, 250), (64, 280), (70, 335), (76, 400), (84, 500)]
        {
            assert_eq!(tyre_load(index), Some(Mass::from_grams(kilograms * 1000)), "{index}");
        }
        assert_eq!(tyre_load(LARGEST_LOAD_INDEX), Some(Mass::from_grams(515_000)));
        assert_eq!((tyre_load(39), tyre_load(86), LARGEST_LOAD_INDEX), (None, None, 85));
    }
}
