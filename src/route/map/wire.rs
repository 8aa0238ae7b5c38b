//! Protocol-buffer messages, field by field, without copying. Every length is checked against what is there.

/// A message that ends too early, or says what cannot be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Broken;

/// A field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Field<'a> {
    Number(u64),
    Bytes(&'a [u8]),
    /// Of a fixed width: passed over.
    Fixed,
}

/// The fields of a message by number, in the order in which they were written.
#[derive(Debug, Clone)]
pub(super) struct Message<'a>(pub &'a [u8]);

impl<'a> Iterator for Message<'a> {
    type Item = Result<(u64, Field<'a>), Broken>;

    fn next(&mut self) -> Option<Self::Item> {
        if self.0.is_empty() {
            return None;
        }
        let field = field(&mut self.0);
        if field.is_err() {
            self.0 = &[];
        }
        Some(field)
    }
}

impl<'a> Message<'a> {
    /// The bytes of the last field of this number, empty where there is none.
    pub(super) fn bytes(&self, number: u64) -> Result<&'a [u8], Broken> {
        let mut found: &[u8] = &[];
        for field in self.clone() {
            if let (at, Field::Bytes(bytes)) = field?
                && at == number
            {
                found = bytes;
            }
        }
        Ok(found)
    }
}

fn field<'a>(rest: &mut &'a [u8]) -> Result<(u64, Field<'a>), Broken> {
    let key = varint(rest)?;
    let field = match key & 7 {
        0 => Field::Number(varint(rest)?),
        1 => take(rest, 8).map(|_| Field::Fixed)?,
        2 => {
            let length = usize::try_from(varint(rest)?).map_err(|_| Broken)?;
            Field::Bytes(take(rest, length)?)
        }
        5 => take(rest, 4).map(|_| Field::Fixed)?,
        _ => return Err(Broken),
    };
    Ok((key >> 3, field))
}

fn take<'a>(rest: &mut &'a [u8], length: usize) -> Result<&'a [u8], Broken> {
    let (taken, left) = rest.split_at_checked(length).ok_or(Broken)?;
    *rest = left;
    Ok(taken)
}

fn varint(rest: &mut &[u8]) -> Result<u64, Broken> {
    let mut value = 0;
    for place in 0..10 {
        let (byte, left) = rest.split_first().ok_or(Broken)?;
        *rest = left;
        value |= u64::from(byte & 127) << (7 * place);
        if byte & 128 == 0 {
            return Ok(value);
        }
    }
    Err(Broken)
}

/// Signed numbers are written so that small ones are short: 0, -1, 1, -2, ...
pub(super) fn signed(number: u64) -> i64 {
    (number >> 1).cast_signed() ^ -(number & 1).cast_signed()
}

/// Numbers one after the other.
#[derive(Debug, Clone, Default)]
pub(super) struct Packed<'a>(pub &'a [u8]);

impl Iterator for Packed<'_> {
    type Item = Result<u64, Broken>;

    fn next(&mut self) -> Option<Self::Item> {
        if self.0.is_empty() {
            return None;
        }
        let number = varint(&mut self.0);
        if number.is_err() {
            self.0 = &[];
        }
        Some(number)
    }
}

/// Signed differences one after the other, added up.
#[derive(Debug, Clone, Default)]
pub(super) struct Summed<'a> {
    packed: Packed<'a>,
    sum: i64,
}

impl<'a> Summed<'a> {
    pub(super) fn new(bytes: &'a [u8]) -> Self {
        Self { packed: Packed(bytes), sum: 0 }
    }
}

impl Iterator for Summed<'_> {
    type Item = Result<i64, Broken>;

    fn next(&mut self) -> Option<Self::Item> {
        let step = self.packed.next()?;
        Some(step.and_then(|step| {
            self.sum = self.sum.checked_add(signed(step)).ok_or(Broken)?;
            Ok(self.sum)
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_they_are_written() {
        // Examples of the protocol's own description of its encoding: 150, and -1, 1, -2, 2147483647 with a sign.
        assert_eq!(varint(&mut &[0x96, 0x01][..]), Ok(150));
        assert_eq!([1, 2, 3, 4_294_967_294].map(signed), [-1, 1, -2, 2_147_483_647]);
        assert_eq!(signed(u64::MAX), i64::MIN);
        let summed: Result<Vec<i64>, _> = Summed::new(&[2, 2, 1]).collect();
        assert_eq!(summed, Ok(vec![1, 2, 1]));
    }

    #[test]
    fn what_ends_too_early_or_grows_too_far_is_broken() {
        assert!(Message(&[0x0a, 0x05, 1, 2]).any(|field| field.is_err()), "five bytes promised, two there");
        assert!(Message(&[0x0b]).any(|field| field.is_err()), "groups are not used");
        assert_eq!(varint(&mut &[0xff; 11][..]), Err(Broken));
        let far = [0xfe, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0x01];
        assert!(Summed::new(&[far, far].concat()).any(|sum| sum.is_err()), "beyond 64 bits");
    }
}
