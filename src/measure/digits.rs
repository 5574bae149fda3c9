//! Whole numbers in digits, without the machinery that formats anything: the
//! papers of one piece hold thousands of figures.

/// Room for a sign, three whole numbers and what stands between them.
const ROOM: usize = 64;

/// A short text of digits and signs, written from its end, since the last digit
/// of a number is known first. What finds no room is left out.
#[derive(Debug)]
pub(crate) struct Digits {
    letters: [u8; ROOM],
    from: usize,
}

impl Digits {
    /// Nothing yet.
    pub(crate) const fn new() -> Self {
        Self { letters: [b' '; ROOM], from: ROOM }
    }

    /// Puts an ASCII letter before the rest.
    pub(crate) fn sign(&mut self, letter: u8) {
        if let Some(place) = self.from.checked_sub(1)
            && let Some(own) = self.letters.get_mut(place)
        {
            *own = letter;
            self.from = place;
        }
    }

    /// Puts a whole number before the rest.
    pub(crate) fn whole(&mut self, mut number: u64) {
        loop {
            self.sign(b'0' + (number % 10) as u8);
            number /= 10;
            if number == 0 {
                return;
            }
        }
    }

    /// The text.
    pub(crate) fn text(&self) -> &str {
        let letters = self.letters.get(self.from..).unwrap_or(&[]);
        std::str::from_utf8(letters).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn digits_are_those_that_the_library_prints(a: u64, b: u64, c in 0u64..1_000) {
            let mut digits = Digits::new();
            for (number, sign) in [(c, b'/'), (b, b'-'), (a, b'-')] {
                digits.whole(number);
                digits.sign(sign);
            }
            prop_assert_eq!(digits.text(), format!("-{a}-{b}/{c}"));
        }
    }
}
