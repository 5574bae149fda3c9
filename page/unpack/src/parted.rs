//! A module that the build parted into streams, each of which packs well: all
//! instructions, all numbers of loads, all calls, and so on. `make/parted.mjs` parts it
//! and has the same list of streams.

const CODE: u8 = 10;
const FIRST_LOAD: u8 = 0x28;
const LAST_STORE: u8 = 0x3e;
const CONSTANT: u8 = 0x41;
/// Stands for a constant of three bytes or more.
const LONG_CONSTANT: u8 = 0x27;

/// The streams that have a name; behind them the memory instructions have two each.
#[derive(Clone, Copy)]
enum Named {
    Before,
    After,
    Operations,
    Locals,
    Local,
    Short,
    Long,
    Wide,
    Float,
    Call,
    Branch,
    Type,
}

const NAMED: usize = Named::Type as usize + 1;

/// The module; `None` of what was not parted so.
pub(crate) fn whole(parted: &[u8]) -> Option<Vec<u8>> {
    let mut streams = Streams::of(parted)?;
    let mut code = Vec::with_capacity(parted.len());
    let functions = streams.number(Named::Locals as usize, &mut code)?;
    let mut body = Vec::new();
    for _ in 0..functions {
        body.clear();
        function(&mut streams, &mut body)?;
        write_number(body.len(), &mut code);
        code.extend_from_slice(&body);
    }
    let mut module = Vec::with_capacity(parted.len() + code.len());
    module.extend_from_slice(streams.left(Named::Before));
    module.push(CODE);
    write_number(code.len(), &mut module);
    module.extend_from_slice(&code);
    module.extend_from_slice(streams.left(Named::After));
    Some(module)
}

fn function(streams: &mut Streams<'_>, body: &mut Vec<u8>) -> Option<()> {
    let groups = streams.number(Named::Locals as usize, body)?;
    for _ in 0..groups {
        streams.number(Named::Locals as usize, body)?;
        streams.bytes(Named::Locals, 1, body)?;
    }
    let mut open = 1;
    while open > 0 {
        let code = *streams.take(Named::Operations as usize, 1)?.first()?;
        body.push(if code == LONG_CONSTANT { CONSTANT } else { code });
        let from = match code {
            FIRST_LOAD..=LAST_STORE => {
                let first = NAMED + 2 * usize::from(code - FIRST_LOAD);
                streams.number(first, body)?;
                streams.number(first + 1, body)?;
                continue;
            }
            0x02..=0x04 => {
                open += 1;
                Named::Type
            }
            0x0b => {
                open -= 1;
                continue;
            }
            0x0c | 0x0d => Named::Branch,
            0x0e => {
                let ways = streams.number(Named::Branch as usize, body)?;
                for _ in 0..ways {
                    streams.number(Named::Branch as usize, body)?;
                }
                Named::Branch
            }
            0x10 => Named::Call,
            0x11 => {
                streams.number(Named::Type as usize, body)?;
                Named::Type
            }
            0x20..=0x22 => Named::Local,
            0x23 | 0x24 | 0x3f | 0x40 => Named::Type,
            CONSTANT => Named::Short,
            LONG_CONSTANT => Named::Long,
            0x42 => Named::Wide,
            0x43 => {
                streams.bytes(Named::Float, 4, body)?;
                continue;
            }
            0x44 => {
                streams.bytes(Named::Float, 8, body)?;
                continue;
            }
            0xfc => {
                let more = *streams.take(Named::Operations as usize, 1)?.first()?;
                body.push(more);
                let memories = match more {
                    10 => 2,
                    11 => 1,
                    _ => 0,
                };
                streams.bytes(Named::Type, memories, body)?;
                continue;
            }
            _ => continue,
        };
        streams.number(from as usize, body)?;
    }
    Some(())
}

/// What is left of each stream.
struct Streams<'a>(Vec<&'a [u8]>);

impl<'a> Streams<'a> {
    fn of(mut parted: &'a [u8]) -> Option<Self> {
        let mut all = Vec::new();
        while let Some((length, rest)) = parted.split_first_chunk::<4>() {
            let length = usize::try_from(u32::from_le_bytes(*length)).ok()?;
            let (stream, behind) = rest.split_at_checked(length)?;
            all.push(stream);
            parted = behind;
        }
        let loads = usize::from(LAST_STORE - FIRST_LOAD) + 1;
        (all.len() == NAMED + 2 * loads).then_some(Self(all))
    }

    fn left(&self, stream: Named) -> &'a [u8] {
        self.0.get(stream as usize).copied().unwrap_or_default()
    }

    fn take(&mut self, stream: usize, count: usize) -> Option<&'a [u8]> {
        let stream = self.0.get_mut(stream)?;
        let (taken, rest) = stream.split_at_checked(count)?;
        *stream = rest;
        Some(taken)
    }

    fn bytes(&mut self, stream: Named, count: usize, out: &mut Vec<u8>) -> Option<()> {
        out.extend_from_slice(self.take(stream as usize, count)?);
        Some(())
    }

    /// Copies a number, in as many bytes as say that another follows and one more, and
    /// gives what it comes to where that has no more than 32 bits.
    fn number(&mut self, stream: usize, out: &mut Vec<u8>) -> Option<u32> {
        let all = *self.0.get(stream)?;
        let count = all.iter().position(|byte| *byte < 0x80)? + 1;
        let taken = self.take(stream, count)?;
        out.extend_from_slice(taken);
        let value =
            taken.iter().rev().fold(0_u32, |value, byte| value << 7 | u32::from(byte & 0x7f));
        Some(value)
    }
}

fn write_number(number: usize, out: &mut Vec<u8>) {
    let mut left = number;
    while left >= 0x80 {
        out.push((left & 0x7f) as u8 | 0x80);
        left >>= 7;
    }
    out.push(left as u8);
}
