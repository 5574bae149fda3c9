//! The range decoder: bits that were written by how likely they were.

/// A chance of one in two, of 2048.
pub(crate) const EVEN: u16 = 1024;

/// Reads bits from packed bytes.
pub(crate) struct Bits<'a> {
    rest: std::slice::Iter<'a, u8>,
    range: u32,
    code: u32,
}

impl<'a> Bits<'a> {
    /// Of bytes that begin with a nought and four of code.
    pub(crate) fn of(packed: &'a [u8]) -> Option<Self> {
        let (head, rest) = packed.split_first_chunk::<5>()?;
        let [nought, code @ ..] = *head;
        let code = u32::from_be_bytes(code);
        (nought == 0).then_some(Self { rest: rest.iter(), range: u32::MAX, code })
    }

    #[inline(always)]
    fn refill(&mut self) {
        if self.range < 1 << 24 {
            self.range <<= 8;
            let next = self.rest.next().copied().unwrap_or(0);
            self.code = (self.code << 8) | u32::from(next);
        }
    }

    /// A bit with a chance, which learns from it.
    #[inline(always)]
    pub(crate) fn bit(&mut self, chance: &mut u16) -> u32 {
        let bound = (self.range >> 11) * u32::from(*chance);
        let bit = if self.code < bound {
            self.range = bound;
            *chance += (2048 - *chance) >> 5;
            0
        } else {
            self.range -= bound;
            self.code -= bound;
            *chance -= *chance >> 5;
            1
        };
        self.refill();
        bit
    }

    /// Bits that are as likely one way as the other.
    pub(crate) fn plain(&mut self, bits: u32) -> u32 {
        let mut value = 0;
        for _ in 0..bits {
            self.range >>= 1;
            let bit = u32::from(self.code >= self.range);
            if bit == 1 {
                self.code -= self.range;
            }
            value = (value << 1) | bit;
            self.refill();
        }
        value
    }

    /// A number of so many bits, the highest first.
    #[inline(always)]
    pub(crate) fn tree<const SIZE: usize>(&mut self, chances: &mut [u16; SIZE]) -> u32 {
        let mut at = 1;
        while (at as usize) < SIZE {
            at = (at << 1) | self.bit(&mut chances[at as usize]);
        }
        at - SIZE as u32
    }

    /// A number of so many bits, the lowest first. The chances begin with that of the
    /// first bit.
    pub(crate) fn reversed(&mut self, chances: &mut [u16], bits: u32) -> Option<u32> {
        let (mut at, mut value) = (1, 0);
        for place in 0..bits {
            let bit = self.bit(chances.get_mut(at - 1)?);
            at = (at << 1) | bit as usize;
            value |= bit << place;
        }
        Some(value)
    }
}

/// How long a repetition is.
pub(crate) struct Lengths {
    choice: [u16; 2],
    short: [[u16; 8]; 16],
    middle: [[u16; 8]; 16],
    long: [u16; 256],
}

impl Lengths {
    pub(crate) fn new() -> Self {
        Self {
            choice: [EVEN; 2],
            short: [[EVEN; 8]; 16],
            middle: [[EVEN; 8]; 16],
            long: [EVEN; 256],
        }
    }

    pub(crate) fn read(&mut self, bits: &mut Bits<'_>, place: usize) -> usize {
        let more = if bits.bit(&mut self.choice[0]) == 0 {
            bits.tree(&mut self.short[place])
        } else if bits.bit(&mut self.choice[1]) == 0 {
            8 + bits.tree(&mut self.middle[place])
        } else {
            16 + bits.tree(&mut self.long)
        };
        2 + more as usize
    }
}
