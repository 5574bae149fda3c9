//! LZMA: letters, and repetitions of what stood before.

use crate::chances::{Bits, EVEN, Lengths};

/// What has its own chances in each state, or in each state and place.
struct Chances {
    is_match: [[u16; 16]; 12],
    is_rep: [u16; 12],
    /// Whether it is the last distance, the one before that, or the one before that.
    is_other: [[u16; 12]; 3],
    is_longer: [[u16; 16]; 12],
    slots: [[u16; 64]; 4],
    distances: [u16; 128],
    aligned: [u16; 15],
    lengths: Lengths,
    rep_lengths: Lengths,
    letters: Vec<[u16; 0x300]>,
}

impl Chances {
    fn new(letters: usize) -> Self {
        Self {
            is_match: [[EVEN; 16]; 12],
            is_rep: [EVEN; 12],
            is_other: [[EVEN; 12]; 3],
            is_longer: [[EVEN; 16]; 12],
            slots: [[EVEN; 64]; 4],
            distances: [EVEN; 128],
            aligned: [EVEN; 15],
            lengths: Lengths::new(),
            rep_lengths: Lengths::new(),
            letters: vec![[EVEN; 0x300]; letters],
        }
    }
}

/// All bytes of an LZMA file that says how many it has; `None` of a damaged one.
pub(crate) fn unpacked(file: &[u8]) -> Option<Vec<u8>> {
    let (head, packed) = file.split_first_chunk::<13>()?;
    let [kinds, _, _, _, _, size @ ..] = *head;
    let size = usize::try_from(u64::from_le_bytes(size)).ok()?;
    let (lc, lp, pb) = (u32::from(kinds % 9), u32::from(kinds / 9 % 5), u32::from(kinds / 45));
    if pb > 4 {
        return None;
    }
    let mut bits = Bits::of(packed)?;
    let mut own = Chances::new(1 << (lc + lp));
    let mut out: Vec<u8> = Vec::with_capacity(size);
    let mut state = 0;
    // How far back the last four repetitions were, the last first.
    let mut back = [0_usize; 4];
    while out.len() < size {
        let place = out.len() & ((1 << pb) - 1);
        if bits.bit(&mut own.is_match[state][place]) == 0 {
            let before = usize::from(out.last().copied().unwrap_or(0));
            let which = ((out.len() & ((1 << lp) - 1)) << lc) + (before >> (8 - lc));
            let chances = own.letters.get_mut(which)?;
            let like = match state {
                0..7 => None,
                _ => Some(*out.get(out.len().checked_sub(back[0] + 1)?)?),
            };
            out.push(letter(&mut bits, chances, like));
            state = match state {
                0..4 => 0,
                4..10 => state - 3,
                _ => state - 6,
            };
            continue;
        }
        let length = if bits.bit(&mut own.is_rep[state]) == 0 {
            back.rotate_right(1);
            let length = own.lengths.read(&mut bits, place);
            state = if state < 7 { 7 } else { 10 };
            back[0] = distance(&mut bits, &mut own, length)?;
            length
        } else {
            let mut which = 0;
            while which < 3 && bits.bit(&mut own.is_other[which][state]) == 1 {
                which += 1;
            }
            if which == 0 && bits.bit(&mut own.is_longer[state][place]) == 0 {
                state = if state < 7 { 9 } else { 11 };
                1
            } else {
                back[..=which].rotate_right(1);
                state = if state < 7 { 8 } else { 11 };
                own.rep_lengths.read(&mut bits, place)
            }
        };
        let length = length.min(size - out.len());
        let from = out.len().checked_sub(back[0] + 1)?;
        if from + length <= out.len() {
            out.extend_from_within(from..from + length);
        } else {
            // It repeats what it is itself adding.
            for at in from..from + length {
                out.push(*out.get(at)?);
            }
        }
    }
    Some(out)
}

/// A letter; of one that is not `like` what stood there before, that is known.
#[inline(always)]
fn letter(bits: &mut Bits<'_>, chances: &mut [u16; 0x300], like: Option<u8>) -> u8 {
    let mut own = 1_usize;
    if let Some(like) = like {
        let mut like = usize::from(like);
        while own < 0x100 {
            let wanted = (like >> 7) & 1;
            like <<= 1;
            let bit = bits.bit(&mut chances[((1 + wanted) << 8) + own]) as usize;
            own = (own << 1) | bit;
            if bit != wanted {
                break;
            }
        }
    }
    while own < 0x100 {
        own = (own << 1) | bits.bit(&mut chances[own]) as usize;
    }
    (own & 0xff) as u8
}

/// How far back a repetition is.
fn distance(bits: &mut Bits<'_>, own: &mut Chances, length: usize) -> Option<usize> {
    let slot = bits.tree(&mut own.slots[(length - 2).min(3)]);
    if slot < 4 {
        return Some(slot as usize);
    }
    let more = (slot >> 1) - 1;
    let base = (2 | (slot & 1)) << more;
    let rest = match slot {
        0..14 => {
            let chances = own.distances.get_mut((base - slot) as usize..)?;
            bits.reversed(chances, more)?
        }
        _ => (bits.plain(more - 4) << 4) + bits.reversed(&mut own.aligned, 4)?,
    };
    usize::try_from(base.checked_add(rest)?).ok()
}
